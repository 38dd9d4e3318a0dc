"""Moist air as callers meet it: any measure of humidity in, all of them out, and what is refused."""

from __future__ import annotations

import math
import pickle
import re
from dataclasses import FrozenInstanceError
from typing import Any

import pytest

import wainwright


def test_every_measure_of_humidity_leads_to_the_same_air() -> None:
    air = wainwright.moist_air(35, altitude_m=1609.344, relative_humidity=0.4)
    for measure in ("dew_point_c", "wet_bulb_c", "humidity_ratio"):
        given: dict[str, float] = {measure: getattr(air, measure)}
        again = wainwright.moist_air(35, pressure_pa=air.pressure_pa, **given)
        assert getattr(again, measure) == getattr(air, measure)
        assert again.relative_humidity == pytest.approx(0.4, rel=1e-8)
        assert again.enthalpy_j_kg == pytest.approx(air.enthalpy_j_kg, rel=1e-8)


def test_without_a_pressure_it_is_that_of_the_sea() -> None:
    assert wainwright.moist_air(20, relative_humidity=0.5).pressure_pa == 101_325
    assert wainwright.moist_air(20, altitude_m=0, relative_humidity=0.5).pressure_pa == 101_325


def test_air_may_be_dry_or_saturated() -> None:
    dry = wainwright.moist_air(25, relative_humidity=0)
    assert (dry.humidity_ratio, dry.dew_point_c) == (0, -100)
    wet = wainwright.moist_air(25, wet_bulb_c=25)
    assert wet.relative_humidity == pytest.approx(1, rel=1e-9)
    assert wet.dew_point_c == pytest.approx(25, abs=1e-8)


def test_it_is_a_value() -> None:
    air = wainwright.moist_air(25, relative_humidity=0.5)
    assert air == wainwright.moist_air(25, relative_humidity=0.5)
    assert pickle.loads(pickle.dumps(air)) == air
    assert len({air, wainwright.moist_air(25, relative_humidity=0.5)}) == 1
    with pytest.raises(FrozenInstanceError):
        air.dry_bulb_c = 26  # type: ignore[misc]


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({}, "give exactly one of relative_humidity, dew_point_c, wet_bulb_c and humidity_ratio"),
        (
            {"relative_humidity": 0.5, "dew_point_c": 14},
            "give exactly one of relative_humidity, dew_point_c,",
        ),
        (
            {"relative_humidity": 0.5, "pressure_pa": 1e5, "altitude_m": 9},
            "give pressure_pa or altitude_m, not both",
        ),
        ({"dry_bulb_c": math.nan, "relative_humidity": 0.5}, "dry_bulb_c must be from -100 to 200; got NaN"),
        ({"dry_bulb_c": 200.1, "relative_humidity": 0.5}, "dry_bulb_c must be from -100 to 200; got 200.1"),
        (
            {"pressure_pa": 0, "relative_humidity": 0.5},
            "pressure_pa must be from 10,000 to 200,000, 101,325 at sea level; got 0",
        ),
        (
            {"altitude_m": 12_000, "relative_humidity": 0.5},
            "altitude_m must be from -5,000 to 11,000 above sea level; got 12000",
        ),
        (
            {"relative_humidity": 55},
            "relative_humidity must be from 0 to 1, where this air is saturated; got 55",
        ),
        ({"relative_humidity": math.nan}, "relative_humidity must be from 0 to 1,"),
        ({"relative_humidity": -0.1}, "relative_humidity must be from 0 to 1,"),
        ({"dew_point_c": 26}, "dew_point_c must be from -100 to 25, where this air is saturated; got 26"),
        (
            {"wet_bulb_c": 25.1},
            "wet_bulb_c must be from 8.27144 to 25, where this air is saturated; got 25.1",
        ),
        ({"wet_bulb_c": 3}, "wet_bulb_c must be from 8.27144 to 25, where this air is saturated; got 3"),
        (
            {"humidity_ratio": 0.03},
            "humidity_ratio must be from 0 to 0.02008, where this air is saturated; got 0.03",
        ),
        (
            {"dry_bulb_c": 150, "relative_humidity": 0.5},
            "relative_humidity must be from 0 to 0.1915, where it is nine tenths steam; got 0.5",
        ),
    ],
)
def test_what_cannot_be_is_told_with_what_could(given: dict[str, Any], told: str) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(told)}"):
        wainwright.moist_air(**{"dry_bulb_c": 25, **given})
