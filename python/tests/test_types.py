"""What a type checker sees. Run by mypy and pyright; pytest only sees that it runs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from typing_extensions import assert_type

import wainwright
from wainwright import reports


def test_builds_are_typed(heron: wainwright.Build) -> None:
    assert_type(wainwright.Build.from_dict(heron.to_dict()), wainwright.Build)
    assert_type(heron.to_dict(), dict[str, Any])
    assert_type(wainwright.__version__, str)


def test_payload_is_typed(heron: wainwright.Build) -> None:
    report = heron.payload()
    assert_type(report, reports.PayloadReport)
    assert_type(report.states, Mapping[str, reports.StateMass])
    assert_type(report.states["outbound"].payload_left_lb, float)
    assert_type(report.states["outbound"].moving, bool)
    assert_type(report.states["outbound"].band.without_tolerance_count, int)
    assert_type(report.fluids["propane"].label_lb, float | None)
    assert_type(report.label, reports.Label)
    assert_type(report.heaviest, tuple[reports.HeavyPart, ...])
    assert_type(report.to_dict(), dict[str, Any])
    assert_type(reports.PayloadReport.from_dict({**report.to_dict()}), reports.PayloadReport)


def test_axle_load_is_typed(heron: wainwright.Build) -> None:
    report = heron.axle_load()
    assert_type(report, reports.AxleLoadReport)
    outbound = report.states["outbound"]
    assert_type(outbound.tongue_lb, float)
    assert_type(outbound.center.x_in, float)
    assert_type(outbound.axles["front"].left_lb, float)
    assert_type(outbound.tow_vehicle, reports.TowState | None)
    assert_type(report.worst.tongue_fraction.max.fill, Mapping[str, float])
    assert_type(report.worst.tongue_fraction.max.aboard, tuple[str, ...])
    assert_type(report.placement, Mapping[str, reports.Placement | None])
    assert_type(report.largest_mass["atv"], reports.LargestMass | None)


def test_circuit_load_is_typed(heron: wainwright.Build) -> None:
    report = heron.circuit_load()
    assert_type(report, reports.CircuitLoadReport)
    assert_type(report.circuits["galley"].mode, str | None)
    assert_type(report.circuits["galley"].bound_by, Literal["ampacity", "drop", "device", "minimum"] | None)
    plugged_in = report.modes["plugged_in"]
    assert_type(plugged_in.circuits["galley"].current_a, float)
    assert_type(plugged_in.circuits["galley"].arriving_v, float | None)
    assert_type(plugged_in.sources["shore"].legs, reports.Legs | None)
    assert_type(plugged_in.sources["shore"].hours, tuple[reports.HourDemand, ...])
    assert_type(plugged_in.conflicts, tuple[tuple[str, ...], ...])
    assert_type(plugged_in.conflict_count, int)
    assert_type(plugged_in.best_set, tuple[str, ...])
    assert_type(report.battery, reports.BatteryFault | None)
    if report.solar is not None:
        assert_type(report.solar.arrays, Mapping[str, reports.ArrayWiring])
        assert_type(report.solar.controller, reports.ControllerWiring | None)


def test_energy_budget_is_typed(heron: wainwright.Build) -> None:
    report = heron.energy_budget()
    assert_type(report, reports.EnergyBudgetReport)
    assert_type(report.autonomy_h, float | None)
    assert_type(report.months, tuple[reports.MonthBalance, ...])
    assert_type(report.months[0].generator_h, float | None)
    assert_type(report.loads, Mapping[str, reports.LoadShare])
    assert_type(report.stay, reports.StayReport | None)
    assert_type(report.steps, reports.StepTrace | None)
    if report.steps is not None:
        assert_type(report.steps.end_soc, tuple[float, ...])


def test_cooling_load_is_typed(heron: wainwright.Build) -> None:
    report = heron.cooling_load()
    assert_type(report, reports.CoolingLoadReport)
    assert_type(report.peak.total_btu_h, float)
    assert_type(report.hours, tuple[reports.HourLoad, ...])
    assert_type(report.hours[0].parts.roof_btu_h, float)
    assert_type(report.held_f, float | None)
    assert_type(report.cooling_kwh_per_day, float | None)
    assert_type(report.heating.load_btu_h, float)
    assert_type(report.cooler, reports.CoolerReport | None)
    assert_type(report.envelope.surfaces, Mapping[str, reports.SurfaceUsed])
    assert_type(report.changes, tuple[reports.ChangeReport, ...])
    assert_type(report.trace, reports.TraceReport | None)
    if report.trace is not None:
        assert_type(report.trace.air_c, tuple[float, ...])


def test_findings_are_typed(heron: wainwright.Build) -> None:
    for finding in heron.payload().findings:
        assert_type(finding, reports.Finding)
        assert_type(finding.severity, Literal["violation", "caution", "note"])
        assert_type(finding.limit_kind, Literal["maximum", "minimum"] | None)
        assert_type(finding.value, float | None)
    for assumption in heron.payload().assumptions:
        assert_type(assumption.value, float | str | bool)


def test_moist_air_is_typed() -> None:
    air = wainwright.moist_air(25, altitude_m=300, dew_point_c=14)
    assert_type(air, wainwright.MoistAir)
    assert_type(air.wet_bulb_c, float)


def test_errors_are_typed() -> None:
    try:
        wainwright.Build.from_json("{")
    except wainwright.BuildError as error:
        assert_type(error.errors, list[wainwright.Fault])
        assert_type(error.errors[0]["pointer"], str)
