"""Sun on the box, the hot day and its air by pvlib, scipy and psychrolib. All weather here is invented."""

from __future__ import annotations

from datetime import datetime, timedelta
from random import Random
from typing import Any, NamedTuple

import numpy as np
import psychrolib
import pvlib
import pytest
from scipy.linalg import expm

import wainwright
from wainwright import reports

from .box_by_hand import BTU_H, BTU_J, FT, SUMMER, Array, Box, people_w
from .random_boxes import random_box
from .test_outside_sun import Sky, clear, sky_over

SEED = 2613
PLACES = 40
RELATIVE, ABSOLUTE_W_M2 = 1e-7, 1e-5
"""The sun stands 5e-9 rad at most from pvlib's: of a beam of 1000 W/m² that makes 5e-6."""

Document = dict[str, Any]
TILTS_DEG = {"roof": 0.0, "front": 90.0, "rear": 90.0, "left": 90.0, "right": 90.0}
TURNS_DEG = {"roof": 0.0, "front": 0.0, "right": 90.0, "rear": 180.0, "left": 270.0}

SINGLE_DEG = (0, 40, 50, 60, 70, 80, 90)
SINGLE_SHGC = (0.86, 0.84, 0.82, 0.78, 0.67, 0.42, 0.0)
"""One pane of clear glass, by angle: ASHRAE Handbook Fundamentals 2005, chapter 31. Diffuse: 0.78."""

BELOW_HIGHEST = (
    *(0.82, 0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23, 0.13, 0.05, 0.00),
    *(0.00, 0.06, 0.14, 0.24, 0.39, 0.50, 0.59, 0.68, 0.75, 0.82),
)
"""Share of a day's range that air is below its highest at 0 to 24 h.

ASHRAE Handbook Fundamentals 2009, chapter 14.
"""


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


class Light:
    """Beam, diffuse light and the cosine of incidence on each face, and what lies on level ground."""

    def __init__(self, site: Document, sky: Sky, linke_turbidity: float) -> None:
        altitude_m = FT * site["elevation_ft"]
        self.ghi, dni, dhi = clear(sky, altitude_m, linke_turbidity)
        up = sky.zenith_deg < 90
        air_mass = pvlib.atmosphere.get_relative_airmass(
            np.where(up, sky.apparent_zenith_deg, 0.0), "kastenyoung1989"
        )
        self.beam, self.diffuse, self.cosine = {}, {}, {}
        for name, tilt_deg in TILTS_DEG.items():
            facing = (tilt_deg, site["heading_deg"] + TURNS_DEG[name])
            sun = (sky.zenith_deg, sky.azimuth_deg)
            cosine = pvlib.irradiance.aoi_projection(*facing, *sun)
            # All sites' composite of 1990.
            around = pvlib.irradiance.perez(*facing, dhi, dni, sky.outside_w_m2, *sun, air_mass)
            ground = pvlib.irradiance.get_ground_diffuse(tilt_deg, self.ghi, site["albedo"])
            self.beam[name] = dni * np.maximum(cosine, 0)
            self.diffuse[name] = np.where(up, around, 0.0) + ground
            self.cosine[name] = cosine
        # Chosen: a twentieth of it reaches the underside.
        self.beam["floor"] = self.cosine["floor"] = np.zeros(len(self.ghi))
        self.diffuse["floor"] = 0.05 * self.ghi


def through_panes_w(box: Box, light: Light) -> Array:
    """Sun that windows let in: one pane as printed, two as fitted to the window of ASHRAE Standard 140."""
    total_w = np.zeros(len(light.ghi))
    for pane in box.panes:
        angle = np.arccos(np.clip(light.cosine[pane.facing], 0, 1))
        if pane.panes == 1:
            of_beam = np.interp(np.degrees(angle), SINGLE_DEG, SINGLE_SHGC) / 0.86
            of_diffuse = 0.78 / 0.86
        else:
            of_beam = np.clip(1 - 0.189 * angle + 0.644 * angle**2 - 0.596 * angle**3, 0, 1)
            of_diffuse = 0.871
        seen = of_beam * light.beam[pane.facing] + of_diffuse * light.diffuse[pane.facing]
        total_w += pane.area_m2 * pane.shgc * seen
    return total_w


def sol_air_c(box: Box, light: Light, air_c: Array, film_w_m2_k: float) -> tuple[list[Array], Array]:
    """Sol-air temperature of each face, and of all together by what each passes."""
    faces, passes = [], []
    for face in box.faces:
        sun = face.lit * (light.beam[face.facing] + light.diffuse[face.facing])
        # A painted roof sheds 3.9 K of its sol-air temperature to a clear sky, as much of it as it sees.
        to_sky = 3.9 * 17.0 * face.lit * face.emittance / 0.9 if face.facing == "roof" else 0.0
        faces.append(air_c + (face.absorptance * sun - to_sky) / film_w_m2_k)
        passes.append(face.area_m2 / (face.inner_m2_k_w + 1 / film_w_m2_k))
    return faces, np.average(faces, axis=0, weights=passes)


def a_day(random: Random, latitude_deg: float) -> Document:
    """A summer's day of a place, its air never saturated."""
    low_f, range_f = random.uniform(50, 80), random.uniform(5, 35)
    return {
        "day_of_year": random.randint(150, 240) if latitude_deg > 0 else random.randint(1, 60),
        "max_f": low_f + range_f,
        "min_f": low_f,
        "dew_point_f": low_f - random.uniform(1, 30),
        "linke_turbidity": random.uniform(1.5, 6),
    }


def a_box(random: Random) -> Document:
    """A box on its hot day, which is its weather as well; nothing cools it."""
    build = random_box(random)
    for surface in build["envelope"]["surfaces"].values():
        surface.pop("posts", None)
    # Air comes in evenly.
    build["envelope"].pop("leakage_in2", None)
    build["envelope"].pop("shelter", None)
    build["climate"] = {"detail": "steps"}
    build["site"].pop("cooling_design", None)
    build["site"]["weather"] = {"design_day": a_day(random, build["site"]["latitude_deg"])}
    return build


def sky_of(build: Document, step_min: int, count: int) -> Sky:
    start = datetime(2025, 1, 1) + timedelta(  # noqa: DTZ001
        days=build["site"]["weather"]["design_day"]["day_of_year"] - 1
    )
    return sky_over(build["site"], start, step_min, count)


def air_of(day: Document, step_min: int, count: int) -> Array:
    hours = (np.arange(count) + 0.5) * step_min / 60 % 24
    below = np.interp(hours, range(25), BELOW_HIGHEST)
    return np.asarray(celsius(day["max_f"]) - below * (day["max_f"] - day["min_f"]) / 1.8)


def answered(build: Document) -> reports.CoolingLoadReport:
    return wainwright.Build.from_dict(build).cooling_load()


def set_free_w(build: Document, hour: int, room_c: float) -> tuple[float, float]:
    """Heat of people and of a flame that warms the room, and that comes as water."""
    occupancy = build.get("occupancy")
    if occupancy is None:
        return 0.0, 0.0
    dry_w, wet_w = people_w(occupancy, hour, room_c)
    if hour in occupancy.get("cooking", {}).get("hours", ()):
        flame_w = occupancy["cooking"]["btu_per_meal"] * BTU_H
        # C3H8 + 5 O2: four of water of 18.015 to one of propane of 44.097, a pound of which gives 21,500 BTU.
        propane_kg_s = flame_w / (21500 * BTU_J / 0.45359237)
        water_w = propane_kg_s * 4 * 18.015 / 44.097 * 2.5e6
        dry_w, wet_w = dry_w + flame_w - water_w, wet_w + water_w
    return dry_w, wet_w


def radiant_w(trace: reports.TraceReport, box: Box, sum_w: Array) -> tuple[Array, Array]:
    """Sun, and the half of what is set free that radiates, into surfaces and lining: ISO 13790, annex C."""
    to_mass = trace.mass_to_surface_w_k / 9.1 / box.inner_m2
    to_surface = 1 - to_mass - box.windows_w_k / 9.1 / box.inner_m2
    return to_surface * sum_w, to_mass * sum_w


@pytest.mark.parametrize("index", range(PLACES))
def test_what_sun_and_air_do_to_the_box_is_that_of_pvlib(index: int) -> None:
    """Perez' sky on every face, through every pane; by the trace of the days that the weather consists of."""
    build = a_box(Random(f"{SEED}/sun/{index}"))
    day, box = build["site"]["weather"]["design_day"], Box(build, SUMMER)
    trace = answered(build).trace
    assert trace is not None
    count = len(trace.outdoor_c)
    assert (count, trace.step_min) == (168, 60)
    light = Light(build["site"], sky_of(build, 60, count), day["linke_turbidity"])
    air_c = air_of(day, 60, count)
    assert np.array(trace.outdoor_c) == pytest.approx(air_c, abs=1e-9)
    together_c = sol_air_c(box, light, air_c, 17.0)[1]
    allowed_w_m2 = ABSOLUTE_W_M2 + RELATIVE * light.ghi.max()
    # All that falls on a face is absorbed at most.
    assert np.abs(np.array(trace.equivalent_c) - together_c).max() < allowed_w_m2 / 17.0
    free_w = np.array([set_free_w(build, step % 24, celsius(75))[0] for step in range(count)])
    assert np.array(trace.air_w) == pytest.approx(0.5 * free_w, rel=1e-12, abs=1e-9)
    to_surface_w, to_mass_w = radiant_w(trace, box, through_panes_w(box, light) + 0.5 * free_w)
    allowed_w = allowed_w_m2 * (1 + sum(pane.area_m2 for pane in box.panes))
    assert np.abs(np.array(trace.mass_w) - to_mass_w).max() < allowed_w
    assert np.abs(np.array(trace.surface_w) - to_surface_w).max() < allowed_w


class HotDay:
    """The hot day in steps of five minutes: sun by pvlib, humidity by psychrolib."""

    def __init__(self, build: Document) -> None:
        day, site = build["site"]["weather"]["design_day"], build["site"]
        self.box = Box(build, SUMMER)
        self.light = Light(site, sky_of(build, 5, 288), day["linke_turbidity"])
        self.air_c = air_of(day, 5, 288)
        self.sun_w = through_panes_w(self.box, self.light)
        self.pressure_pa = psychrolib.GetStandardAtmPressure(FT * site["elevation_ft"])
        self.ratio = psychrolib.GetHumRatioFromTDewPoint(celsius(day["dew_point_f"]), self.pressure_pa)
        # What comes in through gaps and by a fan that draws one way, at the mean density of the day's air.
        gaps_m3_s = build["envelope"].get("air_changes_per_h", 1.0) * self.box.volume_m3 / 3600
        fan_m3_s = build.get("occupancy", {}).get("fresh_air_cfm", 0.0) * FT**3 / 60
        each = [psychrolib.GetMoistAirVolume(air_c, self.ratio, self.pressure_pa) for air_c in self.air_c]
        self.air_kg_s = np.hypot(gaps_m3_s, fan_m3_s) / np.mean(each)


def by_hour(steps: Array) -> Array:
    """Means of the hours of a day."""
    return np.asarray(steps.reshape(24, 12).mean(axis=1))


@pytest.mark.parametrize("index", range(PLACES))
def test_sun_and_air_of_the_hot_day_are_those_of_pvlib(index: int) -> None:
    build = a_box(Random(f"{SEED}/day/{index}"))
    report, day = answered(build), HotDay(build)
    faces_c, _ = sol_air_c(day.box, day.light, day.air_c, 17.0)
    for ours, face_c in zip(report.envelope.surfaces.values(), faces_c, strict=True):
        assert celsius(ours.sol_air_f) == pytest.approx(face_c.max(), abs=1e-6)
    hourly = zip(report.hours, by_hour(day.air_c), by_hour(day.sun_w), strict=True)
    for hour, air_c, sun_w in hourly:
        assert celsius(hour.outdoor_f) == pytest.approx(air_c, abs=1e-9)
        assert hour.parts.sun_btu_h * BTU_H == pytest.approx(sun_w, rel=1e-6, abs=1e-4)


@pytest.mark.parametrize("index", range(PLACES))
def test_the_load_of_the_hot_day_is_that_of_a_matrix_exponential(index: int) -> None:
    """The box held at 75 °F and half humidity, from its document to its load."""
    build = a_box(Random(f"{SEED}/day/{index}"))
    report, day, cool_c = answered(build), HotDay(build), celsius(75)
    assert report.trace is not None
    free = [set_free_w(build, hour, cool_c) for hour in range(24)]
    half_w = 0.5 * np.repeat([dry_w for dry_w, _ in free], 12)
    radiant = radiant_w(report.trace, day.box, half_w + day.sun_w)
    together_c = sol_air_c(day.box, day.light, day.air_c, 17.0)[1]
    drives = np.array([day.air_c, together_c, half_w, *radiant]).T
    network = Network(report.trace, day.air_kg_s * (1006 + 1860 * day.ratio))
    # A day counts as come back to itself at 0.01 K, or after 30 times; from an hour on at whose end it is
    # within 1e-3 K of where it was the day before, it is that day. Beside one that came back to the last
    # bit it is off by no more than passes from surfaces to air at 0.01 K; beside one that stops as it does,
    # by the sun.
    settled_w = 0.01 * report.trace.surface_to_air_w_k
    sun_w = ABSOLUTE_W_M2 * (1 + sum(pane.area_m2 for pane in day.box.panes))
    for stops, allowed_w in ((Stops(0.01, 30, 1e-3), sun_w), (Stops(1e-9, 2000, 0.0), settled_w)):
        hourly_w = by_hour(network.held_w(cool_c, drives, stops))
        ours_w = np.array([hour.sensible_btu_h for hour in report.hours]) * BTU_H
        assert np.abs(ours_w - hourly_w).max() < allowed_w
    held_ratio = psychrolib.GetHumRatioFromRelHum(cool_c, 0.5, day.pressure_pa)
    for hour, (_, wet_w) in zip(report.hours, free, strict=True):
        latent_w = max(day.air_kg_s * (day.ratio - held_ratio) * 2.5e6 + wet_w, 0.0)
        assert hour.latent_btu_h * BTU_H == pytest.approx(latent_w, rel=1e-8, abs=1e-6)
    peak_btu_h = max(hour.load_btu_h for hour in report.hours)
    assert report.peak.total_btu_h == peak_btu_h == report.hours[report.peak.hour].load_btu_h


class Stops(NamedTuple):
    """When a day that comes again and again is taken as it is."""

    alike_k: float
    """Its end is where it began."""
    most: int
    """It came so many times."""
    rejoined_k: float
    """At an hour's end it is where it was at that hour the day before."""


class Network:
    """The box in steps of five minutes. Its conductances are the trace's, held elsewhere to those by hand."""

    def __init__(self, trace: reports.TraceReport, ventilation_w_k: float) -> None:
        h_is, h_ms, h_w = trace.surface_to_air_w_k, trace.mass_to_surface_w_k, trace.windows_w_k
        h_f = trace.floor_load_to_surface_w_k or 0.0
        to_surface = np.array([h_is, h_ms, h_f])
        capacity = np.array([trace.air_j_k, trace.mass_j_k, trace.floor_load_j_k or 1.0])
        all_w_k = to_surface.sum() + h_w
        share = to_surface / all_w_k
        out = np.array([ventilation_w_k, trace.outside_to_mass_w_k, 0.0])
        rate = (np.outer(to_surface, share) - np.diag(to_surface + out)) / capacity[:, None]
        # Heat into each: outdoor air, sol-air, air, surfaces, mass.
        driven = np.array(
            [
                [share[0] * h_w + ventilation_w_k, 0.0, 1.0, share[0], 0.0],
                [share[1] * h_w, trace.outside_to_mass_w_k, 0.0, share[1], 1.0],
                [share[2] * h_w, 0.0, 0.0, share[2], 0.0],
            ]
        )
        augmented = np.zeros((8, 8))
        augmented[:3, :3], augmented[:3, 3:] = rate, driven / capacity[:, None]
        stepped = expm(300 * augmented)
        self.left, self.added = stepped[:3, :3], stepped[:3, 3:]

    def held_w(self, cool_c: float, drives: Array, stops: Stops) -> Array:
        """Heat to be taken out of the air through each step, so that it ends no warmer than it is set to."""
        state, taken_w = np.full(3, cool_c), np.zeros(len(drives))
        path = np.full((24, 3), np.inf)
        for _ in range(stops.most):
            before = state
            for step, drive in enumerate(drives):
                state = self.left @ state + self.added @ drive
                taken_w[step] = max((state[0] - cool_c) / self.added[0, 2], 0.0)
                state = state - taken_w[step] * self.added[:, 2]
                hour, last = divmod(step, 12)
                if last == 11:
                    if np.abs(state - path[hour]).max() < stops.rejoined_k:
                        return taken_w
                    path[hour] = state
            if np.abs(state - before).max() < stops.alike_k:
                break
        return taken_w


@pytest.mark.parametrize("index", range(PLACES))
def test_the_air_of_the_hot_day_is_that_of_psychrolib(index: int) -> None:
    """Wet bulb and dew point outside; inside what people breathe out, once it has come to rest."""
    random = Random(f"{SEED}/air/{index}")
    build = a_box(random)
    # So much air comes in that it is never saturated inside.
    people, changes = random.randint(0, 2), random.uniform(3, 8)
    build["site"]["weather"]["design_day"]["dew_point_f"] -= 10
    build["occupancy"] = {"people": people, "activity": "asleep"}
    build["envelope"]["air_changes_per_h"] = changes
    report, day, given = answered(build), HotDay(build), build["site"]["weather"]["design_day"]
    assert report.design.pressure_psi * 6894.757293168 == pytest.approx(day.pressure_pa, rel=1e-12)
    assert celsius(report.design.dew_point_f) == pytest.approx(celsius(given["dew_point_f"]), abs=1e-6)
    # It is bisected there to 0.001 K.
    wet_c = psychrolib.GetTWetBulbFromHumRatio(celsius(given["max_f"]), day.ratio, day.pressure_pa)
    assert celsius(report.design.wet_bulb_f) == pytest.approx(wet_c, abs=1e-3)
    _, wet_w = people_w(build["occupancy"], 12, celsius(75))
    inside = day.ratio + wet_w / 2.5e6 / day.air_kg_s
    for hour in report.hours:
        relative = psychrolib.GetRelHumFromHumRatio(celsius(hour.indoor_f), inside, day.pressure_pa)
        # A day counts as come back to itself at 1e-5 kg/kg.
        assert hour.humidity_fraction == pytest.approx(min(relative, 1.0), rel=1e-5 / inside)
