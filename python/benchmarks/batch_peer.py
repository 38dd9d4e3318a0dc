"""Tables of builds with pandas and with pvlib and numba, beside `wainwright.score`.

Each side works out the same figures for as many rows:

- weights: four states of the demonstration build, its six figures each, over six columns of masses and places
- energy: its year by month, over four columns: battery, and power, tilt and azimuth of the array, so that
  every row has a plane of its own; the other side has simpler loads and a simpler battery

Prints rows in a second on one thread and on two, and how they compare.
"""

from __future__ import annotations

import json
import resource
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median
from typing import Any

import numba
import numpy as np
import pandas as pd
import polars as pl
import pvlib

import wainwright

BUILD = Path(__file__).parents[2] / "tests" / "builds" / "heron.json"
STATES = ("delivered", "outbound", "homebound", "camped")
RUNS = 5

Array = np.ndarray[Any, np.dtype[np.float64]]
Columns = dict[str, Array]


def best_s(run: Callable[[], object]) -> float:
    """Median time of a few runs after one that counts for nothing [s]."""
    run()
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return median(times)


def ours_s(build: dict[str, Any], table: pl.DataFrame, scores: list[str]) -> tuple[float, float]:
    """What `wainwright.score` takes on one thread, and on two [s]."""

    def on(threads: int) -> float:
        return best_s(lambda: wainwright.score(build, table, scores, threads=threads))

    return on(1), on(2)


def masses(rows: int, rng: np.random.Generator) -> Columns:
    """Masses and places that vary."""
    return {
        "parts.galley.mass_lb": rng.uniform(0, 300, rows),
        "parts.galley.x_in": rng.uniform(60, 200, rows),
        "parts.battery_bank.mass_lb": rng.uniform(30, 120, rows),
        "parts.bunk_left.mass_lb": rng.uniform(10, 60, rows),
        "cargo.atv.mass_lb": rng.uniform(300, 900, rows),
        "cargo.atv.x_in": rng.uniform(150, 240, rows),
    }


def weight_scores() -> list[str]:
    """Six figures of each state."""
    of = ("tongue_lb", "tongue_fraction", "axles.front.load_lb", "axles.rear.load_lb")
    scores = []
    for state in STATES:
        scores += [f"payload.states.{state}.{name}" for name in ("gross_mass_lb", "payload_left_lb")]
        scores += [f"axle_load.states.{state}.{name}" for name in of]
    return scores


class PandasWeights:
    """The same with whole columns: fixed sums beforehand, what varies added."""

    def __init__(self, build: dict[str, Any]) -> None:
        self.build, self.varied = build, {"galley", "battery_bank", "bunk_left"}
        bare = build["trailer"]["bare"]
        still = [part for name, part in build["parts"].items() if name not in self.varied]
        self.bare_x_in: float = bare["x_in"]
        moments = [self.of(part) for part in [bare, *still]]
        self.mass_lb = sum(mass for mass, _ in moments)
        self.moment = sum(moment for _, moment in moments)
        axles = build["trailer"]["axles"].values()
        self.group_in = float(np.mean([axle["x_in"] for axle in axles]))

    def of(self, item: dict[str, Any]) -> tuple[float, float]:
        """Mass and moment of what does not vary."""
        mass: float = item["mass_lb"] * item.get("quantity", 1)
        return mass, mass * item.get("x_in", self.bare_x_in)

    def loaded(self, state: dict[str, Any]) -> tuple[float, float]:
        """Mass and moment of liquids and still cargo in a state."""
        density = {"fresh_water": 8.34, "grey_water": 8.34, "propane": 4.24}
        mass = moment = 0.0
        for name, fill in state.get("fill", {}).items():
            tank = self.build["tanks"][name]
            full = fill * tank["capacity_gal"] * tank.get("density_lb_per_gal", density[tank["fluid"]])
            mass, moment = mass + full, moment + full * tank.get("x_in", self.bare_x_in)
        for name in state.get("aboard", []):
            if name != "atv":
                one, turned = self.of(self.build["cargo"][name])
                mass, moment = mass + one, moment + turned
        return mass, moment

    def score(self, rows: pd.DataFrame) -> pd.DataFrame:
        """Every figure of every row."""
        parts = self.build["parts"]
        mass = self.mass_lb + rows["parts.galley.mass_lb"] + rows["parts.battery_bank.mass_lb"]
        mass = mass + rows["parts.bunk_left.mass_lb"]
        moment = self.moment + rows["parts.galley.mass_lb"] * rows["parts.galley.x_in"]
        for name in ("battery_bank", "bunk_left"):
            moment = moment + rows[f"parts.{name}.mass_lb"] * parts[name].get("x_in", self.bare_x_in)
        scored = {}
        for name in STATES:
            state = self.build["states"][name]
            fluids, turned = self.loaded(state)
            gross, about = mass + fluids, moment + turned
            if "atv" in state.get("aboard", []):
                gross = gross + rows["cargo.atv.mass_lb"]
                about = about + rows["cargo.atv.mass_lb"] * rows["cargo.atv.x_in"]
            axles = about / self.group_in
            tongue = gross - axles
            scored[f"payload.states.{name}.gross_mass_lb"] = gross
            scored[f"payload.states.{name}.payload_left_lb"] = self.build["trailer"]["gvwr_lb"] - gross
            scored[f"axle_load.states.{name}.tongue_lb"] = tongue
            scored[f"axle_load.states.{name}.tongue_fraction"] = tongue / gross
            for axle in ("front", "rear"):
                scored[f"axle_load.states.{name}.axles.{axle}.load_lb"] = axles / 2
        refused = rows.lt(0).any(axis=1) | rows.isna().any(axis=1)
        return pd.DataFrame(scored).assign(refused=refused)


def ledger(
    sun_w: Array, load_w: Array, usable: Array, accepts: Array, rated_wh: float, month: Array
) -> Array:
    """A year of the battery by month: harvest, load, spilled, unmet [kWh], unmet [h], lowest charge."""
    books = np.zeros((12, 6))
    books[:, 5] = 1.0
    stored_wh = rated_wh
    for hour in range(len(sun_w)):
        of = month[hour]
        net_wh = sun_w[hour] - load_w[hour]
        books[of, 0] += sun_w[hour] / 1000
        books[of, 1] += load_w[hour] / 1000
        if net_wh < 0.0:
            least_wh = min((1.0 - usable[hour]) * rated_wh, stored_wh)
            drawn_wh = min(-net_wh / 0.98, stored_wh - least_wh)
            stored_wh -= drawn_wh
            unmet_wh = -net_wh - 0.98 * drawn_wh
            if unmet_wh > 1e-9:
                books[of, 3] += unmet_wh / 1000
                books[of, 4] += 1.0
        else:
            willing_wh = min(net_wh, 0.5 * rated_wh * accepts[hour])
            taken_wh = min(willing_wh * 0.98, rated_wh - stored_wh)
            stored_wh += taken_wh
            books[of, 2] += (net_wh - taken_wh / 0.98) / 1000
        books[of, 5] = min(books[of, 5], stored_wh / rated_wh)
    return books


compiled: Callable[..., Array] = numba.njit(ledger)


class PvlibEnergy:
    """A year like the build's: the sun there beforehand, a plane of its own for every row."""

    def __init__(self) -> None:
        hours = pd.date_range("2025-01-01 00:30", periods=8760, freq="h", tz="Etc/GMT+5")
        where = (36.1, -79.95, 273.0)
        sun = pvlib.solarposition.spa_python(hours, *where)
        self.sun = (sun["zenith"].to_numpy(), sun["azimuth"].to_numpy())
        sky = pvlib.location.Location(*where[:2], altitude=where[2]).get_clearsky(hours, model="haurwitz")
        self.ghi = 0.7 * sky["ghi"].to_numpy()
        parts = pvlib.irradiance.erbs(self.ghi, self.sun[0], hours)
        self.dni, self.dhi = np.asarray(parts["dni"]), np.asarray(parts["dhi"])
        self.outside = pvlib.irradiance.get_extra_radiation(hours).to_numpy()
        self.air_c = 10.0 + 12.0 * np.sin(np.arange(8760) / 8760 * 2 * np.pi - 2)
        self.usable = 0.9 * np.clip(0.8 + self.air_c / 100, 0.5, 1.0)
        self.accepts = np.clip(self.air_c / 5, 0.0, 1.0)
        hour = np.arange(8760) % 24
        self.load_w = 30.0 + np.where((hour >= 18) & (hour < 23), 60.0, 0.0)
        self.load_w = self.load_w + 50.0 * np.clip((self.air_c - 4.0) / 100.0, 0.0, 1.0)
        self.month = hours.month.to_numpy() - 1

    def row(self, rated_ah: float, power_w: float, tilt_deg: float, azimuth_deg: float) -> Array:
        """The months of one row."""
        facing = (tilt_deg, azimuth_deg)
        aoi_deg = pvlib.irradiance.aoi(*facing, *self.sun)
        beam = pvlib.irradiance.beam_component(*facing, *self.sun, self.dni)
        sky = pvlib.irradiance.haydavies(*facing, self.dhi, self.dni, self.outside, *self.sun)
        ground = pvlib.irradiance.get_ground_diffuse(tilt_deg, self.ghi, 0.2)
        modifiers = pvlib.iam.martin_ruiz_diffuse(tilt_deg, 0.16)
        effective = beam * pvlib.iam.martin_ruiz(aoi_deg, 0.16)
        effective = effective + sky * modifiers["sky"] + ground * modifiers["ground"]
        cell_c = pvlib.temperature.pvsyst_cell(
            beam + sky + ground, self.air_c, 0.0, u_c=15.0, u_v=0.0, module_efficiency=0.1
        )
        sun_w = 0.92 * 0.97 * pvlib.pvsystem.pvwatts_dc(effective, cell_c, power_w, -0.0035)
        months: Array = compiled(sun_w, self.load_w, self.usable, self.accepts, 12.8 * rated_ah, self.month)
        return months


def arrays(rows: int, rng: np.random.Generator) -> Columns:
    """Batteries and arrays that vary."""
    return {
        "battery.capacity_ah": rng.uniform(80, 500, rows),
        "solar.arrays.roof.power_w": rng.uniform(100, 900, rows),
        "solar.arrays.roof.tilt_deg": rng.uniform(0, 60, rows),
        "solar.arrays.roof.azimuth_deg": rng.uniform(90, 270, rows),
    }


def energy_scores() -> list[str]:
    """Its year by month."""
    names = ("harvest_kwh", "load_kwh", "spilled_kwh", "unmet_kwh", "unmet_h", "lowest_soc")
    return [f"energy_budget.months.{month}.{name}" for month in range(12) for name in names]


def weights(build: dict[str, Any], rng: np.random.Generator) -> None:
    """Rows in a second, by how many there are, and beside pandas."""
    scores, peer = weight_scores(), PandasWeights(build)
    sample = masses(1000, rng)
    theirs = peer.score(pd.DataFrame(sample))
    ours = wainwright.score(build, pl.DataFrame(sample), scores)
    apart = max(float((ours[name].to_numpy() - theirs[name]).abs().max()) for name in scores)
    print(f"weights: {len(scores)} figures a row, six columns; pandas is within {apart:.1e} of them")
    for rows in (1_000, 10_000, 100_000, 1_000_000):
        table = pl.DataFrame(masses(rows, rng))
        one, two = ours_s(build, table, scores)
        pandas_s = best_s(partial(peer.score, table.to_pandas()))
        print(
            f"  {rows:9,} rows  {1e6 * one / rows:7.3f} µs a row, {rows / one / 1e6:5.2f} million a second; "
            f"two threads {one / two:4.2f} times; pandas {pandas_s / one:5.2f} times as long"
        )


def energy(build: dict[str, Any], rng: np.random.Generator) -> None:
    """Rows in a second, by how many there are, and beside pvlib and numba."""
    scores, peer = energy_scores(), PvlibEnergy()
    few = arrays(100, rng)
    pairs = list(zip(*few.values(), strict=True))
    theirs_s = best_s(lambda: [peer.row(*row) for row in pairs]) / len(pairs)
    print(f"energy: {len(scores)} figures a row, a plane of its own in every row")
    print(f"  pvlib and numba {1e6 * theirs_s:7.0f} µs a row")
    for rows in (1_000, 10_000):
        table = pl.DataFrame(arrays(rows, rng))
        one, two = ours_s(build, table, scores)
        print(
            f"  {rows:9,} rows  {1e6 * one / rows:7.1f} µs a row; two threads {one / two:4.2f} times; "
            f"pvlib and numba {theirs_s * rows / one:5.2f} times as long"
        )


def memory(build: dict[str, Any], rng: np.random.Generator) -> None:
    """What a million rows take beside themselves."""
    table = pl.DataFrame(masses(1_000_000, rng))
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    wainwright.score(build, table, weight_scores()[:1])
    after = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    print(f"memory: a million rows with one score add {(after - before) / 1024:.0f} MiB at the peak")


def main() -> None:
    """Runs all of it; `memory` alone first, for a peak is never forgotten."""
    build = json.loads(BUILD.read_text(encoding="utf-8"))
    rng = np.random.default_rng(2611)
    memory(build, rng)
    weights(build, rng)
    energy(build, rng)


if __name__ == "__main__":
    main()
