"""Moist air, by the equations of the ASHRAE Handbook."""

from __future__ import annotations

from dataclasses import dataclass

from . import _wainwright

__all__ = ["MoistAir", "moist_air"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistAir:
    """Air with water vapor in it, and its properties. Units stand in brackets."""

    dry_bulb_c: float
    """Temperature [°C]."""
    pressure_pa: float
    """Pressure [Pa]."""
    relative_humidity: float
    """Pressure of its vapor by that of saturated air, 0 to 1; over ice below freezing."""
    humidity_ratio: float
    """Water for each kilogram of dry air [kg/kg]."""
    dew_point_c: float
    """Temperature at which it begins to lose water [°C], as frost below freezing; -100 or more."""
    wet_bulb_c: float
    """Temperature of a wetted thermometer in it [°C]."""
    enthalpy_j_kg: float
    """Heat content for each kilogram of dry air [J/kg], counted from dry air and water at 0 °C."""
    volume_m3_kg: float
    """Volume for each kilogram of dry air [m³/kg]."""
    density_kg_m3: float
    """Density, its water counted [kg/m³]."""


def moist_air(
    dry_bulb_c: float,
    *,
    pressure_pa: float | None = None,
    altitude_m: float | None = None,
    relative_humidity: float | None = None,
    dew_point_c: float | None = None,
    wet_bulb_c: float | None = None,
    humidity_ratio: float | None = None,
) -> MoistAir:
    """The properties of air of a temperature, a pressure and a humidity.

    >>> round(moist_air(35, relative_humidity=0.5).wet_bulb_c, 2)
    26.14

    `dry_bulb_c` is -100 to 200 [°C]. The pressure is `pressure_pa`, 10,000 to 200,000 [Pa], or that of the
    standard atmosphere at `altitude_m`, -5,000 to 11,000 [m]; without either that of the sea, 101,325 Pa.

    The humidity is exactly one of `relative_humidity`, 0 to 1; `dew_point_c` [°C]; `wet_bulb_c` [°C]; and
    `humidity_ratio` [kg/kg dry air]. It comes back as it was given.

    Raises `ValueError` that says what is wrong and what would be right: a number out of its range, a dew
    point or wet bulb above the dry bulb, more water than the air can hold, a wet bulb that no air is dry
    enough for.

    Source: ASHRAE Handbook Fundamentals 2017, chapter 1.
    """
    properties = _wainwright.moist_air(
        dry_bulb_c, pressure_pa, altitude_m, relative_humidity, dew_point_c, wet_bulb_c, humidity_ratio
    )
    return MoistAir(**properties)
