"""A network's year and day with numpy and scipy: what `..._of_a_network` of `cargo bench` does.

A body with a motorcycle on its floor, heater and air conditioner of fixed capacity: Greensboro's typical year
hour by hour, and a day of July in steps of five minutes. The matrix exponential is found once, and a loop
walks through the steps; beside it the day as differential equations that are integrated step by step. What
drives the box is there beforehand, on both sides. Prints medians of seven runs and, where what `cargo bench`
said is given as its argument, by how many times that is faster and whether it took out as much heat.
"""

from __future__ import annotations

import re
import sys
import time
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import expm

if TYPE_CHECKING:
    from collections.abc import Callable

WEATHER = Path(__file__).parents[2] / "crates/wainwright/tests/energy_year/greensboro.csv"
RUNS = 7
DAY_US, YEAR_US = 50, 2000
"""What the project aims at for a design day and for a year with a whole air conditioner."""
LINE = r"{} +(?:[\d.]+ \S+ +│ ){{2}}([\d.]+) (ns|µs|ms|s)"
"""A line of our benchmark, whose third column is the median."""
HEAT = re.compile(r"year of a network: ([\d.]+) Wh cooled, ([\d.]+) Wh heated")
UNIT_US = {"ns": 1e-3, "µs": 1.0, "ms": 1e3, "s": 1e6}

Array = np.ndarray[Any, np.dtype[np.float64]]

CAPACITY = np.array([72e3, 620e3, 260e3])
TO_SURFACE = np.array([160.0, 315.0, 50.0])
OUT = np.array([6.0, 58.0, 0.0])
WINDOWS_W_K = 4.0
HEAT_C, COOL_C = 18.0, 24.0
HEAT_W, COOL_W = 1500.0, 1465.0


class Network:
    """Air, lining and load on the floor: `x' = A x + B u`."""

    def __init__(self) -> None:
        share = TO_SURFACE / (TO_SURFACE.sum() + WINDOWS_W_K)
        self.rate = (np.outer(TO_SURFACE, share) - np.diag(TO_SURFACE + OUT)) / CAPACITY[:, None]
        # Outdoor air, sol-air temperature, heat into air, surfaces and lining.
        by_windows = share * WINDOWS_W_K + [OUT[0], 0.0, 0.0]
        by_sun = [0.0, OUT[1], 0.0]
        into = np.array([by_windows, by_sun, [1.0, 0.0, 0.0], share, [0.0, 1.0, 0.0]]).T
        self.driven = into / CAPACITY[:, None]

    def step(self, step_s: float) -> tuple[Array, Array]:
        """What a step leaves of the temperatures, and what it adds."""
        augmented = np.zeros((8, 8))
        augmented[:3, :3], augmented[:3, 3:] = self.rate, self.driven
        stepped = expm(step_s * augmented)
        return stepped[:3, :3], stepped[:3, 3:]


def plant_w(free_c: float, per_w: float) -> float:
    """What heater and air conditioner give, so that the air ends between what they are set to."""
    if free_c > COOL_C:
        return max((COOL_C - free_c) / per_w, -COOL_W)
    return min(max(HEAT_C - free_c, 0.0) / per_w, HEAT_W)


def walk(network: Network, drives: Array, step_s: float) -> tuple[float, float]:
    """Heat taken out and heat given [Wh]."""
    left, added = network.step(step_s)
    rise = added[:, 2]
    moved = drives @ added.T
    state = np.full(3, 20.0)
    cooled_w = heated_w = 0.0
    for step in range(len(drives)):
        state = left @ state + moved[step]
        power_w = plant_w(state[0], rise[0])
        state = state + power_w * rise
        cooled_w -= min(power_w, 0.0)
        heated_w += max(power_w, 0.0)
    return cooled_w * step_s / 3600, heated_w * step_s / 3600


def integrate(network: Network, drives: Array, step_s: float) -> float:
    """The air at the end [°C], heater and air conditioner by how far it is from what they are set to."""
    state = np.full(3, 20.0)
    for drive in drives:
        heat = network.driven @ drive

        def rates(_: float, at: Array, heat: Array = heat) -> Array:
            asked_w = -min(max(1e3 * (at[0] - COOL_C), 0.0), COOL_W)
            asked_w += min(max(1e3 * (HEAT_C - at[0]), 0.0), HEAT_W)
            changes: Array = network.rate @ at + heat + [asked_w / CAPACITY[0], 0.0, 0.0]
            return changes

        state = solve_ivp(rates, (0.0, step_s), state, method="LSODA", rtol=1e-6).y[:, -1]
    return float(state[0])


def year() -> Array:
    """What drives the box, hour by hour."""
    ghi, _, _, air_c = np.genfromtxt(WEATHER, delimiter=",", comments="#", skip_header=3).T
    level = np.full(8760, 60.0)
    drives: Array = np.array([air_c, air_c + 0.02 * ghi, level, 20 + 0.12 * ghi, 40 + 0.38 * ghi]).T
    return drives


def median_us(run: Callable[[], object]) -> float:
    """Median time of seven runs after one that counts for nothing [µs]."""
    run()
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        run()
        times.append(1e6 * (time.perf_counter() - start))
    return median(times)


def ours_us(said: str, name: str) -> float:
    """Our own median."""
    found = re.search(LINE.format(name), said)
    if found is None:
        sys.exit(f"nothing of {name} in:\n{said}")
    return float(found[1]) * UNIT_US[found[2]]


def main() -> None:
    """Runs all and prints them, beside our own medians where they are given."""
    network, hours = Network(), year()
    july = 24 * 201
    steps = np.repeat(hours[july : july + 24], 12, axis=0)
    year_us = median_us(lambda: walk(network, hours, 3600.0))
    day_us = median_us(lambda: walk(network, steps, 300.0))
    integrated_us = median_us(lambda: integrate(network, steps, 300.0))
    cooled_wh, heated_wh = walk(network, hours, 3600.0)
    print(f"a network, median of {RUNS}; {cooled_wh / 1000:.3f} kWh cooled, {heated_wh / 1000:.3f} heated")
    print(f"  year, scipy's expm, numpy loop        {year_us:10.0f} µs")
    print(f"  day, scipy's expm, numpy loop         {day_us:10.0f} µs")
    print(f"  day, scipy's solve_ivp step by step   {integrated_us:10.0f} µs")
    if len(sys.argv) == 1:
        return
    said = sys.argv[1]
    heat = HEAT.search(said)
    if heat is None or not np.allclose([float(each) for each in heat.groups()], [cooled_wh, heated_wh], 1e-9):
        sys.exit(f"not the same year, {cooled_wh} and {heated_wh} Wh:\n{said}")
    our_year_us, our_day_us = ours_us(said, "year_of_a_network"), ours_us(said, "day_of_a_network")
    print(f"  year, wainwright                      {our_year_us:10.1f} µs")
    print(f"  day, wainwright                       {our_day_us:10.1f} µs")
    print(f"  times the numpy loop, year            {year_us / our_year_us:10.0f}")
    print(f"  times the numpy loop, day             {day_us / our_day_us:10.0f}")
    print(f"  times solve_ivp, day                  {integrated_us / our_day_us:10.0f}")
    print("with an air conditioner of wainwright, whose capacity follows air and humidity")
    design_day_us = ours_us(said, "design_day")
    whole_year_us = ours_us(said, "year_of_hours") + ours_us(said, "light_of_a_year")
    print(f"  design day                            {design_day_us:10.1f} µs  (aim: at most {DAY_US})")
    print(f"  year with the light on its faces      {whole_year_us:10.0f} µs  (aim: at most {YEAR_US})")


if __name__ == "__main__":
    main()
