"""The energy of many rows with pvlib and numba: a year like the build's, a plane of its own for every row."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numba
import numpy as np
import pandas as pd
import pvlib

Array = np.ndarray[Any, np.dtype[np.float64]]


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
    """A year of a build like ours: the sun is there beforehand; loads and battery are simpler."""

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


def arrays(rows: int, rng: np.random.Generator) -> dict[str, Array]:
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
