"""Two builds side by side: what changed, what it did, and HTTP gives the same."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from typing_extensions import assert_type

import wainwright
from wainwright import reports

from .test_same_bits import bits

if TYPE_CHECKING:
    from .service import Service


@pytest.fixture
def heavier(heron: wainwright.Build) -> wainwright.Build:
    """The same with a heavier galley, a smaller battery and without a wardrobe."""
    document = heron.to_dict()
    document["parts"]["galley"]["mass_lb"] = 300.5
    document["battery"]["capacity_ah"] = 100
    del document["parts"]["wardrobe"]
    return wainwright.Build.from_dict(document)


def test_what_changed_and_what_it_did(heron: wainwright.Build, heavier: wainwright.Build) -> None:
    compared = wainwright.compare(heron, heavier)
    assert_type(compared, reports.CompareReport)
    changes = {change.pointer: (change.kind, change.before, change.after) for change in compared.changes}
    assert changes["/parts/galley/mass_lb"] == ("changed", 165, 300.5)
    assert changes["/battery/capacity_ah"] == ("changed", 200, 100)
    assert changes["/parts/wardrobe"][0] == "removed"
    figures = {change.path: change for change in compared.figures}
    left = figures["payload.states.outbound.payload_left_lb"]
    assert left.before == heron.evaluate().payload.states["outbound"].payload_left_lb  # type: ignore[union-attr]
    assert left.difference == pytest.approx(165 + 98 - 300.5)
    assert left.unit == "lb"
    assert figures["margins.autonomy_h"].difference is not None
    assert figures["margins.autonomy_h"].difference < 0


def test_a_build_beside_itself_differs_in_nothing(heron: wainwright.Build) -> None:
    compared = wainwright.compare(heron, heron)
    assert compared.summary == "The two builds are the same."
    assert not compared.changes
    assert not compared.figures


def test_it_is_shown_in_a_few_lines_and_in_whole(heron: wainwright.Build, heavier: wainwright.Build) -> None:
    compared = wainwright.compare(heron, heavier)
    assert len(repr(compared).splitlines()) < 60
    assert compared.summary in str(compared)
    assert "payload.states.outbound.payload_left_lb" in str(compared)
    assert "<table>" in compared._repr_html_()
    assert reports.CompareReport.from_dict(json.loads(json.dumps(compared.to_dict()))) == compared


def test_http_compares_to_the_same_bits(
    service: Service, heron: wainwright.Build, heavier: wainwright.Build
) -> None:
    request = {"before": heron.to_dict(), "after": heavier.to_dict()}
    status, http = service.ask("compare", json.dumps(request).encode())
    assert status == 200, http
    assert bits(wainwright.compare(heron, heavier).to_dict()) == bits(http)
