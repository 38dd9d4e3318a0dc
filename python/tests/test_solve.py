"""What would it take: a value solved is put back, and HTTP gives the same."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from typing_extensions import assert_type

import wainwright
from wainwright import reports

from .test_same_bits import bits

if TYPE_CHECKING:
    from .service import Service

LEFT = "payload.states.outbound.payload_left_lb"


def with_value(build: wainwright.Build, path: str, value: float) -> wainwright.Build:
    """The build with another value at a path."""
    document = build.to_dict()
    *around, last = path.split(".")
    here: Any = document
    for key in around:
        here = here[key]
    here[last] = value
    return wainwright.Build.from_dict(document)


def test_the_largest_toy_is_put_back(heron: wainwright.Build) -> None:
    solved = heron.solve("cargo.atv.mass_lb", figure=LEFT, at_least=0)
    assert_type(solved, reports.SolveReport)
    assert solved.value is not None
    assert solved.beyond is not None
    assert solved.beyond.value is not None
    assert solved.holds == "at_most"
    assert solved.method == "linear"
    inside = with_value(heron, "cargo.atv.mass_lb", solved.value).payload()
    beyond = with_value(heron, "cargo.atv.mass_lb", solved.beyond.value).payload()
    assert inside.states["outbound"].payload_left_lb >= 0 > beyond.states["outbound"].payload_left_lb
    left_lb = heron.payload().states["outbound"].payload_left_lb
    assert solved.value == pytest.approx(690 + left_lb, rel=1e-12)
    assert solved.change == pytest.approx(left_lb, rel=1e-9)


@pytest.mark.parametrize("capacity_ah", [150.0, 200.0])
def test_a_battery_for_so_many_hours_lasts_so_many(heron: wainwright.Build, capacity_ah: float) -> None:
    build = with_value(heron, "battery.capacity_ah", capacity_ah)
    solved = build.solve("battery.capacity_ah", figure="energy_budget.autonomy_h", at_least=60)
    assert solved.value is not None
    hours = with_value(build, "battery.capacity_ah", solved.value).energy_budget().autonomy_h
    less = with_value(build, "battery.capacity_ah", solved.value * (1 - 1e-6)).energy_budget().autonomy_h
    assert hours is not None
    assert less is not None
    assert hours >= 60 > less


def test_people_are_whole(heron: wainwright.Build) -> None:
    solved = heron.solve("occupancy.people", figure="cooling_load.peak.total_btu_h", at_most=5000)
    assert solved.value is not None
    assert solved.value == int(solved.value)
    assert solved.searched.is_whole
    assert solved.bracket_width == 1


def test_it_is_shown_in_a_few_lines_and_in_whole(heron: wainwright.Build) -> None:
    solved = heron.solve("cargo.atv.mass_lb", figure=LEFT, at_least=0)
    assert repr(solved).startswith("SolveReport\n  summary: cargo.atv.mass_lb may be ")
    assert max(map(len, repr(solved).splitlines())) <= 114
    assert solved.summary in str(solved)
    assert "<table>" in solved._repr_html_()


def test_a_request_that_is_refused_names_every_fault(heron: wainwright.Build) -> None:
    with pytest.raises(wainwright.BuildError) as caught:
        heron.solve("cargo.atv.mass", figure="payload.states.outbond.payload_left_lb", from_=3, to=2)
    codes = {fault["pointer"]: fault["code"] for fault in caught.value.errors}
    assert codes == {
        "/vary": "unknown_field",
        "/target/figure": "contradiction",
        "/from": "contradiction",
    }
    with pytest.raises(wainwright.BuildError) as caught:
        heron.solve("cargo.atv.mass_lb", figure=LEFT, at_least=math.nan)
    assert [fault["pointer"] for fault in caught.value.errors] == ["/target/at_least"]


def test_numbers_of_numpy_are_numbers(heron: wainwright.Build) -> None:
    plain = heron.solve("cargo.atv.mass_lb", figure=LEFT, at_least=100.5)
    assert heron.solve("cargo.atv.mass_lb", figure=LEFT, at_least=np.float64(100.5)) == plain


def test_http_solves_to_the_same_bits(service: Service, heron: wainwright.Build) -> None:
    for vary, target in (
        ("cargo.atv.mass_lb", {"figure": LEFT, "at_least": 0.1 + 0.2}),
        ("battery.capacity_ah", {"finding": "stay_runs_empty", "subject": "/stay"}),
        (
            "parts.battery_bank.x_in",
            {"figure": "axle_load.states.homebound.tongue_fraction", "at_least": 0.1},
        ),
    ):
        request = {"build": heron.to_dict(), "vary": vary, "target": target}
        status, http = service.ask("solve", json.dumps(request).encode())
        assert status == 200, http
        arguments: dict[str, Any] = target
        assert bits(heron.solve(vary, **arguments).to_dict()) == bits(http)
