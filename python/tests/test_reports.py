"""Reports: typed, unchangeable, comparable, and readable."""

from __future__ import annotations

import copy
import dataclasses
import html.parser
import inspect
import json
import pickle
from typing import TYPE_CHECKING, Any

import pytest

import wainwright
from wainwright import _wainwright, reports

if TYPE_CHECKING:
    from pathlib import Path

QUESTIONS = _wainwright.questions()


@pytest.fixture(params=QUESTIONS)
def report(request: pytest.FixtureRequest, demonstration: Path) -> reports.Report:
    """The answer to each question, for each demonstration build."""
    answer: reports.Report = getattr(wainwright.Build.from_file(demonstration), request.param)()
    return answer


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_question_is_a_method_that_says_what_it_returns(question: str) -> None:
    method = getattr(wainwright.Build, question)
    named = inspect.signature(method).return_annotation.removeprefix("reports.")
    assert issubclass(getattr(reports, named), reports.Report)
    assert inspect.getdoc(method)


def test_figures_are_attributes(heron: wainwright.Build) -> None:
    report = heron.payload()
    outbound = report.states["outbound"]
    assert isinstance(report, reports.PayloadReport)
    assert isinstance(outbound, reports.StateMass)
    assert outbound.payload_left_lb == pytest.approx(7700 - outbound.gross_mass_lb, rel=1e-15)
    assert list(report.states) == ["delivered", "outbound", "homebound", "relocation", "camped"]
    assert type(report.states) is dict


def test_circuits_are_attributes(heron: wainwright.Build) -> None:
    report = heron.circuit_load()
    assert list(report.modes) == ["plugged_in", "off_grid"]
    plugged_in = report.modes["plugged_in"]
    assert plugged_in.circuits["galley"].current_a == 1200 / 120
    assert plugged_in.circuits["galley"].source == "shore"
    assert plugged_in.sources["shore"].limit_a == pytest.approx(24, rel=1e-15)
    assert plugged_in.conflicts == (("air_conditioner", "converter", "kettle", "bay_heater"),)
    assert "bay_heater" in report.modes["off_grid"].unpowered
    assert report.circuits["galley"].mode == "plugged_in"
    assert report.circuits["galley"].smallest_awg == "12"
    assert report.solar is not None
    assert report.solar.arrays["roof"].required_a == pytest.approx(10.4 * 1.25 * 1.25, rel=1e-15)


def test_text_of_circuit_load_is_for_people(heron: wainwright.Build) -> None:
    text = str(heron.circuit_load())
    assert text.startswith("CIRCUIT LOAD\n")
    assert text == heron.text("circuit_load")
    assert "In mode plugged_in" in text
    assert "not together: air_conditioner + converter + kettle + bay_heater" in text
    for caution in heron.circuit_load().cautions:
        assert caution.text in text


def test_every_value_is_of_the_declared_type(report: reports.Report) -> None:
    """What comes from the calculation is what the classes promise, all the way down."""
    _assert_as_declared(report)


def _assert_as_declared(record: Any) -> None:
    for field in dataclasses.fields(record):
        value = getattr(record, field.name)
        if isinstance(value, dict):
            each = list(value.values())
        else:
            each = list(value) if isinstance(value, tuple) else [value]
        for one in each:
            name = "None" if one is None else type(one).__name__
            assert name in str(field.type) or (isinstance(one, str) and "Literal" in str(field.type)), (
                field.name
            )
            if dataclasses.is_dataclass(one):
                _assert_as_declared(one)


def test_a_report_cannot_be_changed(heron: wainwright.Build) -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        heron.payload().gvwr_lb = 1.0  # type: ignore[misc]
    with pytest.raises((AttributeError, TypeError)):
        heron.payload().new = 1  # type: ignore[attr-defined]


def test_to_dict_holds_json_alone_and_reads_back(report: reports.Report) -> None:
    values = report.to_dict()
    assert json.loads(json.dumps(values, allow_nan=False)) == values
    assert type(report).from_dict(values) == report
    assert list(values) == [field.name for field in dataclasses.fields(report)]


def test_to_dict_is_what_the_calculation_gave(heron: wainwright.Build) -> None:
    native = _wainwright.Build.from_json(json.dumps(heron.to_dict()).encode())
    for question in QUESTIONS:
        assert getattr(heron, question)().to_dict() == native.ask(question)


def test_members_of_a_later_version_are_left_out(report: reports.Report) -> None:
    later = {**report.to_dict(), "not_yet_known": 1}
    assert type(report).from_dict(later) == report


def test_equality_follows_the_figures(heron: wainwright.Build) -> None:
    document = heron.to_dict()
    assert heron.payload() == wainwright.Build.from_dict(document).payload()
    document["parts"]["galley"]["mass_lb"] += 1
    assert heron.payload() != wainwright.Build.from_dict(document).payload()


def test_a_report_survives_pickling_and_copying_with_its_text(report: reports.Report) -> None:
    for protocol in range(2, pickle.HIGHEST_PROTOCOL + 1):
        again = pickle.loads(pickle.dumps(report, protocol))
        assert again == report
        assert str(again) == str(report)
    assert copy.deepcopy(report) == copy.copy(report) == report


def test_a_part_of_a_report_survives_pickling(heron: wainwright.Build) -> None:
    state = heron.payload().states["outbound"]
    assert pickle.loads(pickle.dumps(state)) == state
    assert dataclasses.replace(state, cargo_lb=0.0) != state


def test_str_is_the_report_for_people(heron: wainwright.Build) -> None:
    text = str(heron.payload())
    assert text.startswith("PAYLOAD\n")
    assert text == heron.text("payload")
    assert "unloaded, propane full  3,937.9" in text
    changed = reports.PayloadReport.from_dict(heron.payload().to_dict())
    assert str(changed) == repr(changed)


def test_repr_is_a_summary(report: reports.Report) -> None:
    lines = repr(report).splitlines()
    assert lines[0] == type(report).__name__
    assert len(lines) < 60
    assert max(map(len, lines)) <= 114


def test_repr_counts_findings_by_severity(heron: wainwright.Build) -> None:
    document = heron.to_dict()
    document["trailer"]["gvwr_lb"] = 4000
    shown = repr(wainwright.Build.from_dict(document).payload())
    assert "findings: 3 violations, 1 caution, 1 note\n    violation: In state outbound" in shown
    assert "gvwr_lb: 4,000" in shown


class Tables(html.parser.HTMLParser):
    """Checks that every element is closed, and gathers the text."""

    def __init__(self) -> None:
        super().__init__()
        self.opened: list[str] = []
        self.tags: set[str] = set()
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert {name for name, _ in attrs} <= {"style"}
        self.opened.append(tag)
        self.tags.add(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.opened.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data


def test_html_is_tables_and_nothing_from_elsewhere(report: reports.Report) -> None:
    tables = Tables()
    tables.feed(report._repr_html_())
    assert not tables.opened
    of_evaluation = {"h3", "p", "details", "summary"} if hasattr(report, "margins") else set()
    assert tables.tags <= {"table", "caption", "thead", "tbody", "tr", "th", "td"} | of_evaluation
    assert type(report).__name__ in tables.text


def test_html_escapes_text() -> None:
    label = "<script>alert('x')</script>"
    document = {
        "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}},
        "parts": {"bench": {"mass_lb": 40, "category": label}},
    }
    shown = wainwright.Build.from_dict(document).payload()._repr_html_()
    assert "<script" not in shown
    assert "&lt;script&gt;" in shown


def test_every_class_and_field_is_described() -> None:
    for name in sorted({*reports.__all__} - {"Answer", "Record", "Report"}):
        kind = getattr(reports, name)
        assert kind.__doc__
        source = inspect.getsource(kind)
        assert source.count('"""') == 2 * (1 + len(dataclasses.fields(kind)))
