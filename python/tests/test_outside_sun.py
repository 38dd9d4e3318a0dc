"""Sun, light and harvest against pvlib, on random places, planes and days. All weather here is invented."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from random import Random
from typing import Any

import numpy as np
import pvlib
import pytest

import wainwright

SEED = 2611
PLACES = 40
DELTA_T_S = 69.2
"""Terrestrial time less universal time that the sun is reckoned with here, for all years."""
SUN_RAD = 1e-8
"""The sun is interpolated between days: it stands 5e-9 rad at most from pvlib's Solar Position Algorithm."""
RELATIVE, ABSOLUTE = 5e-7, 5e-9
"""What that may make of the harvest, by its size and by the rated power. The worst step makes 0.3 of it."""

Array = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int_]]
Document = dict[str, Any]


@dataclass(frozen=True)
class Sky:
    """Where the sun stands in the middle of each step, by pvlib."""

    day_of_year: Array
    zenith_deg: Array
    apparent_zenith_deg: Array
    azimuth_deg: Array
    outside_w_m2: Array


def sky_over(site: Document, start: datetime, step_min: int, count: int) -> Sky:
    """The sun over a site: the Solar Position Algorithm, refraction by the standard atmosphere and 12 °C."""
    zone = timezone(timedelta(hours=site["utc_offset_h"]))
    first_s = start.replace(tzinfo=zone).timestamp()
    middles_s = first_s + 60 * step_min * (np.arange(count) + 0.5)
    altitude_m = 0.3048 * site["elevation_ft"]
    seen = pvlib.spa.solar_position(
        middles_s,
        site["latitude_deg"],
        site["longitude_deg"],
        altitude_m,
        pvlib.atmosphere.alt2pres(altitude_m) / 100,
        12.0,
        DELTA_T_S,
        0.5667,
    )
    days = [(start + i * timedelta(minutes=step_min)).timetuple().tm_yday for i in range(count)]
    day_of_year = np.array(days, dtype=np.float64)
    outside_w_m2 = pvlib.irradiance.get_extra_radiation(day_of_year, 1366.1, "spencer")
    return Sky(day_of_year, seen[1], seen[0], seen[4], outside_w_m2)


def clear(sky: Sky, altitude_m: float, linke_turbidity: float) -> tuple[Array, Array, Array]:
    """Ineichen's clear sky, global, beam and diffuse; diffuse is what the beam leaves of the global."""
    pressure_pa = pvlib.atmosphere.alt2pres(altitude_m)
    up = sky.zenith_deg < 90
    apparent_deg = np.where(up, sky.apparent_zenith_deg, 0.0)
    air_mass = pvlib.atmosphere.get_absolute_airmass(
        pvlib.atmosphere.get_relative_airmass(apparent_deg, "kastenyoung1989"), pressure_pa
    )
    made = pvlib.clearsky.ineichen(apparent_deg, air_mass, linke_turbidity, altitude_m, sky.outside_w_m2)
    ghi, dni = np.where(up, made["ghi"], 0.0), np.where(up, made["dni"], 0.0)
    return ghi, dni, ghi - dni * np.where(up, np.cos(np.radians(sky.zenith_deg)), 0.0)


HEAT_LOSS = {"open": 29.0, "close": 20.0, "insulated": 15.0}
"""Of the mounts [W/(m²·K)], common practice, as the doc comments have them."""


def harvest_w(
    build: Document, sky: Sky, light: tuple[Array, Array, Array], air_c: Array, hours: Whole
) -> Array:
    """What the arrays give, by pvlib: Hay and Davies, Martin and Ruiz, PVsyst's cell temperature, PVWatts."""
    ghi, dni, dhi = light
    site, solar = build["site"], build["solar"]
    total_w = np.zeros(len(ghi))
    for array in solar["arrays"].values():
        tilt_deg = array["tilt_deg"]
        turned_deg = 0.0 if array["on_ground"] else site["heading_deg"]
        facing = (tilt_deg, array["azimuth_deg"] + turned_deg)
        cosine = pvlib.irradiance.aoi_projection(*facing, sky.zenith_deg, sky.azimuth_deg)
        shaded = np.array(array.get("shade_by_hour", [0.0] * 24))[hours]
        beam = (1 - shaded) * dni * np.maximum(cosine, 0)
        around = pvlib.irradiance.haydavies(
            *facing, dhi, dni, sky.outside_w_m2, sky.zenith_deg, sky.azimuth_deg
        )
        from_sky = array["sky_view"] * around
        from_ground = pvlib.irradiance.get_ground_diffuse(tilt_deg, ghi, site["albedo"])
        of_beam = pvlib.iam.martin_ruiz(np.degrees(np.arccos(cosine)), 0.16)
        of_rest: Any = pvlib.iam.martin_ruiz_diffuse(tilt_deg, 0.16, 0.4244)
        effective = (1 - array["soiling_fraction"]) * (
            beam * of_beam + from_sky * of_rest["sky"] + from_ground * of_rest["ground"]
        )
        cell_c = pvlib.temperature.pvsyst_cell(
            beam + from_sky + from_ground,
            air_c,
            wind_speed=0.0,
            u_c=HEAT_LOSS[array["mount"]],
            u_v=0.0,
            module_efficiency=0.1,
            alpha_absorption=0.9,
        )
        module_w = pvlib.pvsystem.pvwatts_dc(
            effective, cell_c, array["power_w"], array["power_fraction_per_c"]
        )
        total_w += module_w * (1 - array["loss_fraction"]) * solar["controller"]["efficiency"]
    return total_w


def a_site(random: Random) -> Document:
    """Somewhere on earth: the poles, the equator and the date line among them."""
    latitude_deg = random.choice((90.0, -90.0, 0.0, *(random.uniform(-90, 90) for _ in range(9))))
    longitude_deg = random.choice((180.0, -180.0, *(random.uniform(-180, 180) for _ in range(9))))
    offset_h = round(longitude_deg / 3.75) / 4 if random.random() < 0.5 else round(longitude_deg / 15)
    return {
        "latitude_deg": latitude_deg,
        "longitude_deg": longitude_deg,
        "elevation_ft": random.choice((0.0, random.uniform(-1000, 12000))),
        "utc_offset_h": float(offset_h),
        "heading_deg": random.uniform(-360, 360),
        "albedo": random.choice((0.2, random.random())),
    }


def an_array(random: Random) -> Document:
    """Any plane, any mount."""
    array: Document = {
        "power_w": random.uniform(50, 800),
        "tilt_deg": random.choice((0.0, 90.0, random.uniform(0, 90), random.uniform(0, 90))),
        "azimuth_deg": random.uniform(-360, 360),
        "on_ground": random.random() < 0.3,
        "mount": random.choice(("open", "close", "insulated")),
        "power_fraction_per_c": random.choice((0.0, random.uniform(-0.005, -0.002))),
        "soiling_fraction": random.uniform(0, 0.1),
        "loss_fraction": random.uniform(0, 0.2),
        "sky_view": random.choice((1.0, random.random())),
    }
    if random.random() < 0.3:
        array["shade_by_hour"] = [random.choice((0.0, random.random(), 1.0)) for _ in range(24)]
    return array


def a_build(random: Random) -> Document:
    """Arrays anywhere on earth, and the least of the rest."""
    return {
        "parts": {"lamp": {"mass_lb": 1, "electrical": {"circuit": "lights", "power_w": 5}}},
        "battery": {"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8},
        "solar": {
            "arrays": {f"array_{i}": an_array(random) for i in range(random.randint(1, 3))},
            "controller": {"kind": "mppt", "max_output_a": 30, "efficiency": random.uniform(0.9, 1)},
        },
        "site": a_site(random),
        "stay": {"detail": "steps"},
    }


def traced(build: Document) -> Array:
    """The harvest of each step, as the package has it."""
    steps = wainwright.Build.from_dict(build).energy_budget().steps
    assert steps is not None
    return np.array(steps.harvest_w)


def fahrenheit(temperature_c: Array) -> list[float]:
    return [float(each) for each in 32 + 1.8 * temperature_c]


def a_series(random: Random) -> tuple[datetime, int, int]:
    """Some days of any year from 1950 to 2100, in steps of 60, 30 or 15 minutes."""
    start = datetime(1950, 1, 1) + timedelta(minutes=random.randrange(150 * 365 * 1440))  # noqa: DTZ001
    step_min = random.choice((60, 30, 15))
    return start, step_min, random.randint(2, 6) * 1440 // step_min


def clouded(random: Random, light: tuple[Array, Array, Array], sky: Sky) -> tuple[Array, Array, Array]:
    """Clouds before a clear sky; a step in five as clear as it was, and some light left after sunset."""
    shape = light[0].shape
    draw = np.random.default_rng(random.randrange(2**32))
    beam = np.where(draw.random(shape) < 0.2, 1.0, draw.random(shape) ** 2)
    dni = light[1] * beam
    dhi = light[2] * draw.uniform(0.5, 2.0, shape)
    dhi = np.where((sky.zenith_deg > 90) & (sky.zenith_deg < 96), draw.uniform(0, 3, shape), dhi)
    return dni * np.maximum(np.cos(np.radians(sky.zenith_deg)), 0) + dhi, dni, dhi


def stamp(start: datetime) -> str:
    return start.strftime("%Y-%m-%dT%H:%M")


def hours_of(start: datetime, step_min: int, count: int) -> Whole:
    """The hour of the day in which each step begins."""
    return np.array([(start + i * timedelta(minutes=step_min)).hour for i in range(count)])


def assert_near(ours_w: Array, theirs_w: Array, rated_w: float) -> float:
    """Holds every step; gives how far the worst is off, by what is allowed."""
    allowed_w = RELATIVE * np.abs(theirs_w) + ABSOLUTE * rated_w
    worst = float((np.abs(ours_w - theirs_w) / allowed_w).max())
    assert worst < 1, (worst, int(np.argmax(np.abs(ours_w - theirs_w) / allowed_w)))
    return worst


def rated_w(build: Document) -> float:
    return float(sum(array["power_w"] for array in build["solar"]["arrays"].values()))


@pytest.mark.parametrize("index", range(PLACES))
def test_the_sun_stands_where_the_algorithm_has_it(index: int) -> None:
    """Beam alone on planes to the east, north, west, south and up shows every part of the sun's direction."""
    random = Random(f"{SEED}/sun/{index}")
    build = a_build(random)
    start, step_min, count = a_series(random)
    sky = sky_over(build["site"], start, step_min, count)
    beam = {"ghi_w_m2": [0.0] * count, "dni_w_m2": [1000.0] * count, "dhi_w_m2": [0.0] * count}
    series = {"start": stamp(start), "step_min": step_min, **beam, "dry_bulb_f": [68.0] * count}
    build["site"]["weather"] = {"hourly": series}
    plain = {"power_w": 1, "power_fraction_per_c": 0, "loss_fraction": 0, "on_ground": True}
    build["solar"]["controller"]["efficiency"] = 1
    for tilt_deg, azimuth_deg in ((90, 90), (90, 0), (90, 270), (90, 180), (0, 0)):
        facing = {"tilt_deg": tilt_deg, "azimuth_deg": azimuth_deg}
        build["solar"]["arrays"] = {"only": {**plain, **facing}}
        cosine = pvlib.irradiance.aoi_projection(tilt_deg, azimuth_deg, sky.zenith_deg, sky.azimuth_deg)
        theirs = np.maximum(cosine, 0) * pvlib.iam.martin_ruiz(np.degrees(np.arccos(cosine)), 0.16)
        # From angle to power the error grows by 1.15 at most.
        assert np.abs(traced(build) - theirs).max() < SUN_RAD


@pytest.mark.parametrize("index", range(PLACES))
def test_harvest_of_a_series_is_that_of_pvlib(index: int) -> None:
    random = Random(f"{SEED}/series/{index}")
    build = a_build(random)
    start, step_min, count = a_series(random)
    sky = sky_over(build["site"], start, step_min, count)
    altitude_m = 0.3048 * build["site"]["elevation_ft"]
    light = clouded(random, clear(sky, altitude_m, random.uniform(1.5, 6)), sky)
    air_c = np.array([random.uniform(-30, 40) for _ in range(count)])
    names = ("ghi_w_m2", "dni_w_m2", "dhi_w_m2")
    figures = {name: [float(each) for each in column] for name, column in zip(names, light, strict=True)}
    series = {"start": stamp(start), "step_min": step_min, **figures, "dry_bulb_f": fahrenheit(air_c)}
    build["site"]["weather"] = {"hourly": series}
    theirs_w = harvest_w(build, sky, light, air_c, hours_of(start, step_min, count))
    assert_near(traced(build), theirs_w, rated_w(build))


@pytest.mark.parametrize("index", range(PLACES))
def test_global_irradiance_alone_is_split_as_pvlib_does(index: int) -> None:
    """By Erbs, the beam nothing beyond a zenith angle of 87 degrees."""
    random = Random(f"{SEED}/global/{index}")
    build = a_build(random)
    start, step_min, count = a_series(random)
    sky = sky_over(build["site"], start, step_min, count)
    altitude_m = 0.3048 * build["site"]["elevation_ft"]
    ghi = clouded(random, clear(sky, altitude_m, random.uniform(1.5, 6)), sky)[0]
    air_c = np.array([random.uniform(-30, 40) for _ in range(count)])
    split = pvlib.irradiance.erbs(ghi, sky.zenith_deg, sky.day_of_year, min_cos_zenith=0.065, max_zenith=87)
    series = {"start": stamp(start), "step_min": step_min, "ghi_w_m2": [float(each) for each in ghi]}
    build["site"]["weather"] = {"hourly": {**series, "dry_bulb_f": fahrenheit(air_c)}}
    light = (ghi, split["dni"], split["dhi"])
    theirs_w = harvest_w(build, sky, light, air_c, hours_of(start, step_min, count))
    assert_near(traced(build), theirs_w, rated_w(build))


@pytest.mark.parametrize("index", range(PLACES))
def test_a_clear_sky_is_that_of_pvlib(index: int) -> None:
    """By Ineichen, with the same turbidity; diffuse is what the beam leaves of the global irradiance."""
    random = Random(f"{SEED}/clear/{index}")
    build = a_build(random)
    linke_turbidity = random.uniform(1, 8)
    build["site"]["weather"] = {"clear_sky": {"linke_turbidity": linke_turbidity}}
    start = datetime(2025, 1, 1)  # noqa: DTZ001
    sky = sky_over(build["site"], start, 60, 8760)
    light = clear(sky, 0.3048 * build["site"]["elevation_ft"], linke_turbidity)
    theirs_w = harvest_w(build, sky, light, np.full(8760, 20.0), hours_of(start, 60, 8760))
    ours_w = traced(build)
    assert_near(ours_w, theirs_w, rated_w(build))
    assert (ours_w > 0).any()
