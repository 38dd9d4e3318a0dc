"""The box against scipy, numpy and psychrolib, on random boxes. All weather here is invented."""

from __future__ import annotations

from random import Random
from typing import Any

import numpy as np
import psychrolib
import pytest
from scipy.integrate import solve_ivp

import wainwright
from wainwright import reports

from .box_by_hand import BTU_H, BTU_H_F, FT, SUMMER, WINTER, Box, gaps_m3_s, outside_film_w_m2_k
from .random_boxes import random_box

SEED = 2612
BOXES = 10
STEP_END_K = 1e-9
"""How far our closed form may be from the integrated equations at any step's end."""

Array = np.ndarray[Any, np.dtype[np.float64]]
Document = dict[str, Any]


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def answered(build: Document) -> reports.CoolingLoadReport:
    return wainwright.Build.from_dict(build).cooling_load()


def a_box(random: Random, loaded: bool) -> Document:
    """A box with air conditioner and heater through three days, with something on its floor or nothing."""
    build = random_box(random)
    build["envelope"].pop("floor_load", None)
    if loaded:
        build["envelope"]["floor_load"] = {
            "mass_lb": random.uniform(50, 2000),
            "area_ft2": random.uniform(5, 100),
        }
    build["climate"] = {
        "cooling": {"capacity_btu_h": random.uniform(2000, 8000), "setpoint_f": random.uniform(70, 80)},
        "heating": {"capacity_btu_h": random.uniform(1000, 8000), "setpoint_f": random.uniform(50, 65)},
        "detail": "steps",
    }
    return build


def traced(build: Document) -> reports.TraceReport:
    trace = answered(build).trace
    assert trace is not None
    return trace


def rates(trace: reports.TraceReport, step: int, state: Array) -> Array:
    """Kelvin a second of air, lining and load on the floor; what drives them is constant through a step."""
    air_c, mass_c = state[:2]
    h_is, h_ms = trace.surface_to_air_w_k, trace.mass_to_surface_w_k
    h_f, load_j_k = trace.floor_load_to_surface_w_k, trace.floor_load_j_k
    to_surface_w = h_is * air_c + h_ms * mass_c
    to_surface_w += trace.windows_w_k * trace.outdoor_c[step] + trace.surface_w[step]
    all_w_k = h_is + h_ms + trace.windows_w_k
    if h_f is not None:
        to_surface_w, all_w_k = to_surface_w + h_f * state[2], all_w_k + h_f
    surface_c = to_surface_w / all_w_k
    ventilation_w = trace.ventilation_w_k[step] * (trace.outdoor_c[step] - air_c)
    air_w = h_is * (surface_c - air_c) + ventilation_w + trace.air_w[step]
    outside_w = trace.outside_to_mass_w_k * (trace.equivalent_c[step] - mass_c)
    mass_w = h_ms * (surface_c - mass_c) + outside_w + trace.mass_w[step]
    of_both = [air_w / trace.air_j_k, mass_w / trace.mass_j_k]
    if h_f is None or load_j_k is None:
        return np.array(of_both)
    return np.array([*of_both, h_f * (surface_c - state[2]) / load_j_k])


def integrated(trace: reports.TraceReport) -> Array:
    """The states at the end of every step, from the one before the first on."""
    before = [trace.air_before_c, trace.mass_before_c]
    loaded = trace.floor_load_j_k is not None
    state = np.array([*before, trace.floor_load_before_c] if loaded else before)
    ends = []
    for step in range(len(trace.air_c)):
        solved = solve_ivp(
            lambda _, at, step=step: rates(trace, step, at),
            (0, 60 * trace.step_min),
            state,
            method="DOP853",
            rtol=1e-12,
            atol=1e-12,
        )
        assert solved.success
        state = solved.y[:, -1]
        ends.append(state)
    return np.array(ends)


@pytest.mark.parametrize("loaded", [False, True])
@pytest.mark.parametrize("index", range(BOXES))
def test_the_network_is_its_differential_equations_integrated(index: int, loaded: bool) -> None:
    """All that drives it is constant through a step, the air conditioner and the heater too."""
    trace = traced(a_box(Random(f"{SEED}/network/{index}"), loaded))
    assert len(trace.air_c) == 3 * 1440 // trace.step_min
    ours = [trace.air_c, trace.mass_c, *([trace.floor_load_c] if loaded else [])]
    apart_k = np.abs(np.array(ours).T - integrated(trace)).max()
    assert apart_k < STEP_END_K


def test_the_boxes_are_cooled_heated_and_left_alone() -> None:
    """Boxes that nothing happens to would compare nothing."""
    plant_w = [
        watts
        for index in range(BOXES)
        for watts in traced(a_box(Random(f"{SEED}/network/{index}"), True)).plant_w
    ]
    for share in (
        np.mean(np.less(plant_w, 0)),
        np.mean(np.greater(plant_w, 0)),
        np.mean(np.equal(plant_w, 0)),
    ):
        assert share > 0.05


@pytest.mark.parametrize("index", range(BOXES))
def test_the_thermostat_ends_a_step_at_what_it_is_set_to_or_gives_all_it_has(index: int) -> None:
    build = a_box(Random(f"{SEED}/network/{index}"), True)
    trace, climate = traced(build), build["climate"]
    cool_c = celsius(climate["cooling"]["setpoint_f"])
    heat_c = celsius(climate["heating"]["setpoint_f"])
    heat_w = climate["heating"]["capacity_btu_h"] * BTU_H
    steps = zip(trace.plant_w, trace.air_c, trace.run_fraction, trace.electric_w, strict=True)
    for plant_w, air_c, run_fraction, electric_w in steps:
        if plant_w < 0:
            assert air_c == pytest.approx(cool_c, abs=1e-9) if run_fraction < 1 - 1e-9 else air_c > cool_c
            assert electric_w > 0
        else:
            assert (run_fraction, electric_w) == (0, 0)
            assert air_c <= cool_c + 1e-9
            if plant_w == 0:
                assert air_c >= heat_c
            elif plant_w < heat_w:
                assert air_c == pytest.approx(heat_c, abs=1e-9)
            else:
                assert air_c < heat_c


def without_posts(build: Document) -> Document:
    """Posts are tabled, and not worked out by hand here."""
    for surface in build["envelope"]["surfaces"].values():
        surface.pop("posts", None)
    return build


@pytest.mark.parametrize("index", range(4 * BOXES))
def test_the_envelope_is_that_worked_out_by_hand(index: int) -> None:
    random = Random(f"{SEED}/envelope/{index}")
    build = without_posts(random_box(random))
    build["climate"] = {"detail": "steps"}
    wind_mph = random.choice((None, random.uniform(0, 20)))
    day: Document = {"day_of_year": 200, "max_f": 90, "min_f": 70, "dew_point_f": 60}
    build["site"]["cooling_design"] = day if wind_mph is None else day | {"wind_mph": wind_mph}
    # Parked: 3.0 BTU/(h·ft²·°F), or as the wind has it.
    film_w_m2_k = 17.0 if wind_mph is None else outside_film_w_m2_k(wind_mph * 0.44704, 20.0)
    report = answered(build)
    used, trace = report.envelope, report.trace
    assert trace is not None
    box, envelope = Box(build, SUMMER), build["envelope"]
    opaque_w_k = box.opaque_w_k(film_w_m2_k)
    assert used.opaque_btu_h_f * BTU_H_F == pytest.approx(opaque_w_k, rel=1e-12)
    assert used.windows_btu_h_f * BTU_H_F == pytest.approx(box.windows_w_k, rel=1e-12)
    assert used.volume_ft3 * FT**3 == pytest.approx(box.volume_m3, rel=1e-12)
    for ours, face in zip(used.surfaces.values(), box.faces, strict=True):
        assert ours.area_ft2 * FT**2 == pytest.approx(face.area_m2, rel=1e-12)
    # ISO 13790, 7.2.2.2, 12.2.2 and annex C: what is in the box, in three nodes.
    pressure_pa = psychrolib.GetStandardAtmPressure(build["site"]["elevation_ft"] * FT)
    density = psychrolib.GetDryAirDensity(celsius(75), pressure_pa)
    mass_w_k = 9.1 * max(0.75 * box.inner_m2, 1.25 * opaque_w_k / 9.1)
    assert trace.surface_to_air_w_k == pytest.approx(3.45 * max(box.inner_m2, mass_w_k / 9.1), rel=1e-12)
    assert trace.mass_to_surface_w_k == pytest.approx(mass_w_k, rel=1e-12)
    assert 1 / trace.outside_to_mass_w_k + 1 / mass_w_k == pytest.approx(1 / opaque_w_k, rel=1e-12)
    assert trace.windows_w_k == pytest.approx(box.windows_w_k, rel=1e-12)
    assert trace.air_j_k == pytest.approx(3 * box.volume_m3 * density * 1006, rel=1e-9)
    given_j_k = envelope.get("heat_capacity_btu_f", 60000 * box.floor_m2 / BTU_H_F / 3600) * BTU_H_F * 3600
    assert trace.mass_j_k == pytest.approx(given_j_k, rel=1e-12)
    if load := envelope.get("floor_load"):
        specific = load.get("specific_heat_btu_lb_f", 0.2)
        assert trace.floor_load_j_k == pytest.approx(load["mass_lb"] * specific * BTU_H_F * 3600, rel=1e-12)
        assert trace.floor_load_to_surface_w_k == pytest.approx(9.1 * load["area_ft2"] * FT**2, rel=1e-12)


@pytest.mark.parametrize("index", range(4 * BOXES))
def test_a_cold_night_takes_what_its_conductances_let_out(index: int) -> None:
    random = Random(f"{SEED}/night/{index}")
    build = without_posts(random_box(random))
    heat_f, wind_mph = random.uniform(50, 70), random.uniform(0, 25)
    night_f = random.uniform(-30, 65)
    build["climate"] = {"heating": {"capacity_btu_h": 9000, "setpoint_f": heat_f, "kind": "electric"}}
    # No night is hotter than the hottest day, and the hot day is not asked about.
    build["site"].pop("cooling_design", None)
    build["site"]["heating_design"] = {"dry_bulb_f": night_f, "wind_mph": wind_mph}
    ours = answered(build).heating
    outdoor_c, room_c, wind_m_s = celsius(night_f), celsius(heat_f), wind_mph * 0.44704
    difference_k = max(room_c - outdoor_c, 0.0)
    box = Box(build, WINTER)
    opaque_w = box.opaque_w_k(outside_film_w_m2_k(wind_m_s, 0.0)) * difference_k
    assert ours.opaque_btu_h * BTU_H == pytest.approx(opaque_w, rel=1e-12)
    assert ours.windows_btu_h * BTU_H == pytest.approx(box.windows_w_k * difference_k, rel=1e-12)
    # Air near saturation comes in, by gaps and by a fan that draws one way: together less than their sum.
    pressure_pa = psychrolib.GetStandardAtmPressure(build["site"]["elevation_ft"] * FT)
    ratio = 0.9 * psychrolib.GetHumRatioFromRelHum(outdoor_c, 1.0, pressure_pa)
    fan_m3_s = build.get("occupancy", {}).get("fresh_air_cfm", 0.0) * FT**3 / 60
    gaps = gaps_m3_s(build["envelope"], box.volume_m3, room_c - outdoor_c, wind_m_s)
    air_kg_s = np.hypot(fan_m3_s, gaps) / psychrolib.GetMoistAirVolume(outdoor_c, ratio, pressure_pa)
    air_w = air_kg_s * (1006 + 1860 * ratio) * difference_k
    assert ours.air_btu_h * BTU_H == pytest.approx(air_w, rel=1e-9, abs=1e-9)
    load_w = opaque_w + box.windows_w_k * difference_k + air_w
    assert ours.load_btu_h * BTU_H == pytest.approx(load_w, rel=1e-9)
    assert ours.night_btu == pytest.approx(12 * load_w / BTU_H, rel=1e-9)
    assert ours.night_kwh == pytest.approx(12 * min(load_w, 9000 * BTU_H) / 1000, rel=1e-9)
