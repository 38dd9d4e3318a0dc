"""Reports of any shape are read, given back and shown: a made-up one with every kind of value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from wainwright.reports import Record, Report


@dataclass(frozen=True, slots=True, kw_only=True)
class Range(Record):
    min_x_in: float
    bound_by: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst(Record):
    value: float
    fill: Mapping[str, float]
    sets: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class MadeUpReport(Report):
    count: int
    nothing: float | None
    worst: Worst
    placement: Mapping[str, Range | None]
    ranges: tuple[Range, ...]
    empty: Mapping[str, Range]


RANGE = {"min_x_in": 1234.5, "bound_by": ["front", "rear"]}
VALUES: dict[str, Any] = {
    "count": 3,
    "nothing": None,
    "worst": {"value": 0.125, "fill": {"fresh": 1.0, "grey": 0.5}, "sets": [["a", "b"], []]},
    "placement": {"galley": RANGE, "bench": None},
    "ranges": [RANGE],
    "empty": {},
}


def test_every_shape_is_read_and_given_back() -> None:
    report = MadeUpReport.from_dict(VALUES)
    placed = report.placement["galley"]
    assert placed == Range(min_x_in=1234.5, bound_by=("front", "rear"))
    assert report.placement["bench"] is None
    assert report.worst.sets == (("a", "b"), ())
    assert report.to_dict() == VALUES


def test_whole_numbers_become_floats_where_floats_belong() -> None:
    value = Worst.from_dict({"value": 2, "fill": {"fresh": 1}, "sets": []})
    assert (type(value.value), type(value.fill["fresh"])) == (float, float)


def test_the_summary_names_and_counts() -> None:
    assert repr(MadeUpReport.from_dict(VALUES)) == "\n  ".join(
        [
            "MadeUpReport",
            "count: 3",
            "nothing: -",
            "worst: value 0.125",
            "placement: galley, bench",
            "  galley: min_x_in 1,234.5",
            "  bench: -",
            "ranges: 1",
            "empty: none",
        ]
    )


def test_tables_are_made_of_records_and_the_rest_stands_in_cells() -> None:
    shown = MadeUpReport.from_dict(VALUES)._repr_html_()
    assert shown.count("<table>") == 3
    assert "<caption>placement</caption>" in shown
    assert '<td style="text-align:left">fresh 1, grey 0.5</td>' in shown
    assert '<td style="text-align:left">front, rear</td>' in shown
    bench = '<tr><th style="text-align:left">bench</th>' + 2 * '<td style="text-align:left">-</td>' + "</tr>"
    assert bench in shown
