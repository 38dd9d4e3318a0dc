"""A configuration's year with pvlib, numpy and numba: what `year_of_a_configuration` of `cargo bench` does.

Greensboro's typical year, an array of 400 W at 20 degrees on an insulated mount, a controller of 30 A at
12.8 V, a lamp, a refrigerator, a battery of 2560 Wh. The sun is there beforehand, on both sides. Prints
medians of seven runs and, where what `cargo bench` said is given as its argument, by how many times that is
faster.
"""

from __future__ import annotations

import re
import sys
import time
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Any

import numba
import numpy as np
import pandas as pd
import pvlib

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

WEATHER = Path(__file__).parents[2] / "crates/wainwright/tests/energy_year/greensboro.csv"
RUNS = 7
MOST_US, LEAST_BY_PYTHON, LEAST_BY_NUMBA = 100, 40, 8
"""What the project aims at."""
RUST = re.compile(r"year_of_a_configuration +(?:[\d.]+ \S+ +│ ){2}([\d.]+) (ns|µs|ms|s)")
"""The line of our benchmark, whose third column is the median."""
UNIT_US = {"ns": 1e-3, "µs": 1.0, "ms": 1e3, "s": 1e6}

Array = np.ndarray[Any, np.dtype[np.float64]]


def battery(sun_w: Sequence[float], load_w: Sequence[float]) -> float:
    """What goes unmet in the year [Wh]: 2560 Wh, of which 10 percent stay, 0.98 each way, hour by hour."""
    stored_wh = 2560.0
    unmet_wh = 0.0
    for hour in range(len(sun_w)):
        net_wh = min(sun_w[hour], 384.0) - load_w[hour]
        if net_wh < 0.0:
            drawn_wh = min(-net_wh / 0.98, max(stored_wh - 256.0, 0.0))
            stored_wh -= drawn_wh
            unmet_wh += -net_wh - 0.98 * drawn_wh
        else:
            stored_wh += min(0.98 * net_wh, 2560.0 - stored_wh)
    return unmet_wh


class Case:
    """The weather, and the sun above it."""

    def __init__(self) -> None:
        ghi, dni, dhi, air_c = np.genfromtxt(WEATHER, delimiter=",", comments="#", skip_header=3).T
        self.ghi_w_m2, self.dni_w_m2, self.dhi_w_m2, self.air_c = ghi, dni, dhi, air_c
        times = pd.date_range("2025-01-01 00:30", periods=8760, freq="h", tz="Etc/GMT+5")
        sun = pvlib.solarposition.spa_python(times, 36.1, -79.95, 273.0, delta_t=69.2)
        self.zenith_deg, self.azimuth_deg = sun["zenith"].to_numpy(), sun["azimuth"].to_numpy()
        self.outside_w_m2 = pvlib.irradiance.get_extra_radiation(times, 1366.1).to_numpy()
        self.modifiers = pvlib.iam.martin_ruiz_diffuse(20.0, 0.16)
        self.hour = np.arange(8760) % 24

    def sun_w(self) -> Array:
        """What the array gives behind its controller [W]."""
        facing = (20.0, 180.0)
        sun = (self.zenith_deg, self.azimuth_deg)
        aoi_deg = pvlib.irradiance.aoi(*facing, *sun)
        beam = pvlib.irradiance.beam_component(*facing, *sun, self.dni_w_m2)
        sky = pvlib.irradiance.haydavies(*facing, self.dhi_w_m2, self.dni_w_m2, self.outside_w_m2, *sun)
        ground = pvlib.irradiance.get_ground_diffuse(20.0, self.ghi_w_m2, 0.2)
        modified = beam * pvlib.iam.martin_ruiz(aoi_deg, 0.16)
        effective = modified + sky * self.modifiers["sky"] + ground * self.modifiers["ground"]
        cell_c = pvlib.temperature.pvsyst_cell(
            beam + sky + ground, self.air_c, 0.0, u_c=15.0, u_v=0.0, module_efficiency=0.1
        )
        given_w: Array = 0.92 * 0.97 * pvlib.pvsystem.pvwatts_dc(effective, cell_c, 400.0, -0.0035)
        return given_w

    def load_w(self) -> Array:
        """What lamp, refrigerator and the rest ask for [W]."""
        evening_w = np.where((self.hour >= 18) & (self.hour < 23), 40.0, 0.0)
        load_w: Array = 10.0 + evening_w + 50.0 * np.clip((self.air_c - 4.0) / 100.0, 0.0, 1.0)
        return load_w


def median_us(run: Callable[[], object]) -> float:
    """Median time of seven runs after one that counts for nothing [µs]."""
    run()
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        run()
        times.append(1e6 * (time.perf_counter() - start))
    return median(times)


def main() -> None:
    """Runs both and prints them, beside our own median where it is given."""
    case = Case()
    compiled = numba.njit(battery)
    # A loop of Python's own is fastest over lists, one of numba over arrays.
    python_us = median_us(lambda: battery(case.sun_w().tolist(), case.load_w().tolist()))
    numba_us = median_us(lambda: compiled(case.sun_w(), case.load_w()))
    print(f"year of a configuration, median of {RUNS}; {case.sun_w().sum() / 1000:.1f} kWh from the sun")
    print(f"  pvlib, numpy, Python loop  {python_us:10.0f} µs")
    print(f"  pvlib, numpy, numba loop   {numba_us:10.0f} µs")
    if len(sys.argv) > 1:
        ours = RUST.search(sys.argv[1])
        if ours is None:
            sys.exit(f"nothing of year_of_a_configuration in:\n{sys.argv[1]}")
        ours_us = float(ours[1]) * UNIT_US[ours[2]]
        print(f"  wainwright                 {ours_us:10.1f} µs  (aim: at most {MOST_US})")
        print(
            f"  times the Python loop      {python_us / ours_us:10.0f}     (aim: at least {LEAST_BY_PYTHON})"
        )
        print(f"  times the numba loop       {numba_us / ours_us:10.0f}     (aim: at least {LEAST_BY_NUMBA})")


if __name__ == "__main__":
    main()
