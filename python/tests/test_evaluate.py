"""The whole build as Python sees it: one call, five answers that agree."""

from __future__ import annotations

import json
from html.parser import HTMLParser
from pathlib import Path

import pytest

import wainwright

QUESTIONS = ("payload", "axle_load", "circuit_load", "energy_budget", "cooling_load")
WEIGHTS = {"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}, "parts": {"bed": {"mass_lb": 142}}}
"""A build of which the payload can be asked, and nothing else."""


def test_every_demonstration_build_is_answered_whole(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).evaluate()
    assert all(getattr(report, question) is not None for question in QUESTIONS)
    assert report.handed_over is not None
    assert report.handed_over.settled
    order = [("violation", "caution", "note").index(finding.severity) for finding in report.findings]
    assert order == sorted(order)
    assert report.verdict.violation_count == order.count(0)
    first = report.findings[0].message
    assert first in report.verdict.sentence


def test_what_another_question_does_not_touch_is_as_asked_alone(heron: wainwright.Build) -> None:
    report = heron.evaluate()
    assert report.payload == heron.payload()
    assert report.axle_load == heron.axle_load()


def test_refrigerators_and_battery_stand_in_the_air_of_the_box(heron: wainwright.Build) -> None:
    coupled, alone = heron.evaluate().energy_budget, heron.energy_budget()
    assert coupled is not None
    # The box in the sun is warmer than the air outside.
    assert coupled.loads["refrigerator"].load_wh_per_day > alone.loads["refrigerator"].load_wh_per_day
    assert coupled.loads["lights"].load_wh_per_day == alone.loads["lights"].load_wh_per_day


def test_a_build_with_too_little_for_most_says_so() -> None:
    report = wainwright.Build.from_dict(WEIGHTS).evaluate()
    assert report.payload is not None
    assert report.verdict.not_worked_out == ("axle_load", "circuit_load", "energy_budget", "cooling_load")
    assert report.handed_over is None
    assert report.margins.payload_left_lb == pytest.approx(7000 - 2180 - 142)
    assert "Not worked out: axle load" in report.verdict.sentence


def test_the_text_begins_with_the_verdict(heron: wainwright.Build) -> None:
    report = heron.evaluate()
    lines = str(report).splitlines()
    assert lines[:2] == ["WHOLE BUILD", f"  {report.verdict.sentence}"]
    for heading in ("PAYLOAD", "AXLE LOAD", "CIRCUIT LOAD", "ENERGY BUDGET", "COOLING LOAD", "Findings"):
        assert lines.count(heading) == 1, heading


class Outline(HTMLParser):
    """The captions and summaries of a page in their order, and whether its elements close."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.names: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: object) -> None:  # noqa: ARG002
        self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] in ("h3", "caption", "summary"):
            self.names.append(data)


def test_in_a_notebook_verdict_and_findings_come_first(heron: wainwright.Build) -> None:
    outline = Outline(heron.evaluate()._repr_html_())
    assert outline.open == []
    assert outline.names[:3] == ["EvaluateReport: caution", "findings", "Margins"]
    for question in QUESTIONS:
        assert question.replace("_", " ") in outline.names


def test_what_a_caller_writes_is_text_in_a_notebook() -> None:
    build = json.loads(json.dumps(WEIGHTS))
    build["trailer"]["gvwr_lb"] = 2000
    page = wainwright.Build.from_dict(build | {"name": "<b>Bison</b>"}).evaluate()._repr_html_()
    assert "<b>" not in page
    Outline(page)
    assert "Not worked out." in page
