"""Moist air over a whole grid, against psychrolib with the same equations and CoolProp with real gases."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from functools import cache

import psychrolib
import pytest
from CoolProp.CoolProp import HAPropsSI

import wainwright

PRESSURES_PA = (60e3, 70e3, 80e3, 90e3, 101_325.0, 105e3)
DRY_BULBS_C = (*range(-40, 61, 2), 0.01)
HUMIDITIES = (0.01, 0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
ICE_K = 273.15

psychrolib.SetUnitSystem(psychrolib.SI)


@cache
def grid() -> list[wainwright.MoistAir]:
    """Every state of the grid."""
    states = itertools.product(PRESSURES_PA, DRY_BULBS_C, HUMIDITIES)
    return [
        wainwright.moist_air(dry_bulb_c, pressure_pa=pressure_pa, relative_humidity=relative)
        for pressure_pa, dry_bulb_c, relative in states
    ]


@dataclass(frozen=True)
class RealAir:
    """The same air as a mixture of real gases."""

    humidity_ratio: float
    dew_point_c: float
    wet_bulb_c: float
    enthalpy_j_kg: float
    volume_m3_kg: float

    @classmethod
    def like(cls, air: wainwright.MoistAir) -> RealAir:
        """Air of its temperature, pressure and relative humidity."""
        state = ("T", air.dry_bulb_c + ICE_K, "P", air.pressure_pa, "R", air.relative_humidity)
        ratio, dew_k, wet_k, enthalpy, volume = (HAPropsSI(output, *state) for output in "WDBHV")
        # Counted from dry air at 0 °C of the same pressure, as ours is, and not at the pressure of the sea.
        start = HAPropsSI("H", "T", ICE_K, "P", air.pressure_pa, "W", 0)
        return cls(ratio, dew_k - ICE_K, wet_k - ICE_K, enthalpy - start, volume)


def test_every_state_is_that_of_psychrolib() -> None:
    for air in grid():
        dry_bulb_c, pressure_pa, relative = air.dry_bulb_c, air.pressure_pa, air.relative_humidity
        ratio = psychrolib.GetHumRatioFromRelHum(dry_bulb_c, relative, pressure_pa)
        assert air.humidity_ratio == pytest.approx(ratio, rel=1e-9), air
        assert air.enthalpy_j_kg == pytest.approx(
            psychrolib.GetMoistAirEnthalpy(dry_bulb_c, ratio), rel=1e-9, abs=1e-6
        ), air
        assert air.volume_m3_kg == pytest.approx(
            psychrolib.GetMoistAirVolume(dry_bulb_c, ratio, pressure_pa), rel=1e-9
        ), air
        assert air.density_kg_m3 == pytest.approx(
            psychrolib.GetMoistAirDensity(dry_bulb_c, ratio, pressure_pa), rel=1e-9
        ), air
        # Newton's method there ends with a step of 0.001 K, whose square is what is left.
        assert air.dew_point_c == pytest.approx(
            psychrolib.GetTDewPointFromRelHum(dry_bulb_c, relative), rel=1e-6, abs=1e-6
        ), air


def test_every_wet_bulb_is_that_of_psychrolib_or_the_other_of_two() -> None:
    """It is bisected there to 0.001 K.

    Just above freezing some air has two, with water on the wick and with ice. Ours is that of water;
    bisection ends at either.
    """
    others = 0
    for air in grid():
        bisected_c = psychrolib.GetTWetBulbFromHumRatio(air.dry_bulb_c, air.humidity_ratio, air.pressure_pa)
        if abs(air.wet_bulb_c - bisected_c) <= 0.002:
            continue
        others += 1
        assert bisected_c < 0 <= air.wet_bulb_c < bisected_c + 1, air
        # Ours is a solution too, as psychrolib's own equation says.
        for wet_bulb_c in (air.wet_bulb_c, bisected_c):
            again = psychrolib.GetHumRatioFromTWetBulb(air.dry_bulb_c, wet_bulb_c, air.pressure_pa)
            assert again == pytest.approx(air.humidity_ratio, abs=1e-6), air
    assert 0 < others < len(grid()) / 200


@pytest.mark.parametrize("altitude_m", [-400, 0, 250, 1609.344, 3500, 5000])
def test_the_pressure_is_that_of_psychrolib_at_every_height(altitude_m: float) -> None:
    air = wainwright.moist_air(20, altitude_m=altitude_m, relative_humidity=0.5)
    assert air.pressure_pa == pytest.approx(psychrolib.GetStandardAtmPressure(altitude_m), rel=1e-12)


def test_dew_point_and_wet_bulb_give_the_humidity_of_psychrolib() -> None:
    for pressure_pa, dry_bulb_c, drop_k in itertools.product(PRESSURES_PA, DRY_BULBS_C, (0, 0.1, 1.5, 6)):
        below_c = dry_bulb_c - drop_k
        by_dew = wainwright.moist_air(dry_bulb_c, pressure_pa=pressure_pa, dew_point_c=below_c)
        ratio = psychrolib.GetHumRatioFromTDewPoint(below_c, pressure_pa)
        assert by_dew.humidity_ratio == pytest.approx(ratio, rel=1e-9), by_dew
        assert by_dew.dew_point_c == below_c
        ratio = psychrolib.GetHumRatioFromTWetBulb(dry_bulb_c, below_c, pressure_pa)
        if ratio > psychrolib.MIN_HUM_RATIO:
            by_wet = wainwright.moist_air(dry_bulb_c, pressure_pa=pressure_pa, wet_bulb_c=below_c)
            assert by_wet.humidity_ratio == pytest.approx(ratio, rel=1e-9), by_wet
            assert by_wet.wet_bulb_c == below_c


def test_every_state_is_near_that_of_real_air() -> None:
    """Real air takes up to 0.6 % more vapor than two ideal gases would; these equations leave that out."""
    for air in grid():
        real = RealAir.like(air)
        # So much of the vapor's pressure. Little air among much vapor makes more of it in the ratio.
        ratio_rel = 0.007 * (1 + real.humidity_ratio / 0.622)
        assert air.humidity_ratio == pytest.approx(real.humidity_ratio, rel=ratio_rel), air
        assert air.volume_m3_kg == pytest.approx(real.volume_m3_kg, rel=0.002), air
        # Enthalpy passes through zero where its two parts, of air and of water, are equal: by their size.
        of_air = wainwright.moist_air(
            air.dry_bulb_c, pressure_pa=air.pressure_pa, humidity_ratio=0
        ).enthalpy_j_kg
        size_j_kg = abs(of_air) + (air.enthalpy_j_kg - of_air)
        assert air.enthalpy_j_kg == pytest.approx(real.enthalpy_j_kg, abs=0.007 * size_j_kg), air


def test_dew_points_above_freezing_are_near_those_of_real_air() -> None:
    """What real air takes more grows with temperature: hot and dry, it has a higher dew point."""
    count = 0
    for air in grid():
        dew_point_c = RealAir.like(air).dew_point_c
        if dew_point_c > 0.01:
            tolerance_k = 0.02 if air.dry_bulb_c < 50 else 0.026
            assert air.dew_point_c == pytest.approx(dew_point_c, abs=tolerance_k), air
            count += 1
    assert count > 1000


def test_wet_bulbs_above_freezing_are_near_those_of_real_air() -> None:
    """What more real air takes at the wick cools it further, where the air itself has little: when dry."""
    count = 0
    for air in grid():
        wet_bulb_c = RealAir.like(air).wet_bulb_c
        if wet_bulb_c > 0.01:
            # Only beyond the pressure of the sea and at a hundredth of saturation is it more than 0.03 K.
            tolerance_k = 0.03 if air.relative_humidity > 0.01 or air.pressure_pa < 102e3 else 0.0302
            assert air.wet_bulb_c == pytest.approx(wet_bulb_c, abs=tolerance_k), air
            count += 1
    assert count > 1500
