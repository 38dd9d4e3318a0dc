"""Builds: three ways in, the document given back, and every fault named."""

from __future__ import annotations

import json
import math
import pickle
from collections import OrderedDict
from datetime import date
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

import wainwright

if TYPE_CHECKING:
    from pathlib import Path

LEAST: dict[str, Any] = {"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}}


def refused(document: Any) -> dict[str, wainwright.Fault]:
    """The faults of a document by pointer."""
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.Build.from_dict(document)
    return {fault["pointer"]: fault for fault in caught.value.errors}


def test_dict_text_and_file_make_the_same_build(demonstration: Path) -> None:
    from_file = wainwright.Build.from_file(demonstration)
    text = demonstration.read_text(encoding="utf-8")
    assert from_file == wainwright.Build.from_file(str(demonstration))
    assert from_file == wainwright.Build.from_json(text) == wainwright.Build.from_json(text.encode())
    assert from_file == wainwright.Build.from_dict(json.loads(text))
    assert from_file.payload() == wainwright.Build.from_dict(json.loads(text)).payload()


def test_the_document_comes_back_as_it_was_given() -> None:
    document = {"name": "Wren", **LEAST, "parts": {"z": {"mass_lb": 0.1}, "a": {"mass_lb": 1e-7}}}
    back = wainwright.Build.from_dict(document).to_dict()
    assert json.dumps(back) == json.dumps(document)


def test_builds_are_equal_when_their_documents_are() -> None:
    build = wainwright.Build.from_dict(LEAST)
    assert build == wainwright.Build.from_json(json.dumps(LEAST, indent=1))
    assert build != wainwright.Build.from_dict({"name": "other", **LEAST})
    assert build != LEAST


def test_a_build_survives_pickling(heron: wainwright.Build) -> None:
    copy = pickle.loads(pickle.dumps(heron))
    assert copy == heron
    assert copy.payload() == heron.payload()


def test_a_build_is_shown_in_a_line(heron: wainwright.Build) -> None:
    assert (
        repr(heron) == "<Build: Heron (invented demonstration build), 33 parts, 3 tanks, 5 cargo, 5 states>"
    )
    assert repr(wainwright.Build.from_dict(LEAST)) == "<Build: no name>"


def test_five_mistakes_are_reported_together() -> None:
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.Build.from_dict(
            {
                "trailer": {"gvwr_lb": -5, "bare": {"mass_lb": "heavy"}},
                "parts": {"bench": {"mas_lb": 40}},
                "tanks": {"fresh": {"fluid": "fresh_watr", "capacity_gal": 18}},
                "states": {"homebound": {"aboard": ["atv"]}},
            }
        )
    found = {(fault["pointer"], fault["code"]) for fault in caught.value.errors}
    assert found == {
        ("/trailer/gvwr_lb", "below_minimum"),
        ("/trailer/bare/mass_lb", "wrong_type"),
        ("/parts/bench/mas_lb", "unknown_field"),
        ("/parts/bench/mass_lb", "missing_field"),
        ("/tanks/fresh/fluid", "not_one_of"),
        ("/states/homebound/aboard/0", "unknown_id"),
    }
    message = str(caught.value)
    assert message.startswith("6 faults:\n  /trailer/gvwr_lb must be 1 or more; got -5\n")
    assert all(fault["detail"] in message for fault in caught.value.errors)
    by_pointer = {fault["pointer"]: fault for fault in caught.value.errors}
    assert by_pointer["/trailer/gvwr_lb"].get("minimum") == 1.0
    assert by_pointer["/parts/bench/mas_lb"].get("suggestion") == "mass_lb"
    assert "fresh_water" in by_pointer["/tanks/fresh/fluid"].get("known", [])


def test_a_build_error_is_a_value_error_and_survives_pickling() -> None:
    with pytest.raises(ValueError, match=r"^/trailer/gvwr_lb must be 1 or more; got 0$") as caught:
        wainwright.Build.from_dict({"trailer": {"gvwr_lb": 0, "bare": {"mass_lb": 1}}})
    copy = pickle.loads(pickle.dumps(caught.value))
    assert isinstance(copy, wainwright.BuildError)
    assert (copy.errors, copy.left_out, str(copy)) == (caught.value.errors, 0, str(caught.value))  # type: ignore[attr-defined]


def test_faults_beyond_a_hundred_are_counted() -> None:
    parts = {f"p{i}": {"mass_lb": -1} for i in range(130)}
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.Build.from_dict({**LEAST, "parts": parts})
    assert (len(caught.value.errors), caught.value.left_out) == (100, 30)
    assert str(caught.value).startswith("130 faults:")
    assert str(caught.value).endswith("and 30 more")


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [('{"trailer":\n  {"gvwr_lb": }}', 2, 15), ("", 1, 1), ('{"name": "\ud800"}', 1, 11), ("\ufeff{}", 1, 1)],
)
def test_text_that_is_not_json_is_refused_at_its_place(text: str, line: int, column: int) -> None:
    with pytest.raises(wainwright.BuildError, match=rf"^line {line}, column {column}: ") as caught:
        wainwright.Build.from_json(text)
    (fault,) = caught.value.errors
    assert (fault["pointer"], fault["code"]) == ("", "unreadable")
    assert (fault.get("line"), fault.get("column")) == (line, column)


def test_a_missing_section_is_named() -> None:
    build = wainwright.Build.from_dict({"name": "nothing yet"})
    with pytest.raises(wainwright.BuildError) as caught:
        build.payload()
    (fault,) = caught.value.errors
    assert (fault["pointer"], fault["code"]) == ("/trailer", "missing_section")


def test_circuit_load_names_the_section_it_needs(heron: wainwright.Build) -> None:
    document = heron.to_dict()
    # The stay names one of its modes.
    del document["electrical"], document["stay"]
    build = wainwright.Build.from_dict(document)
    with pytest.raises(wainwright.BuildError, match=r"^/electrical is missing; circuit load needs") as caught:
        build.circuit_load()
    (fault,) = caught.value.errors
    assert (fault["pointer"], fault["code"]) == ("/electrical", "missing_section")
    assert build.payload() == heron.payload()


def test_circuit_load_names_what_the_section_lacks() -> None:
    sources = {name: {"kind": "shore", "voltage_v": 120} for name in ("pedestal", "house")}
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.Build.from_dict({"electrical": {"sources": sources}}).circuit_load()
    assert {fault["pointer"]: fault["code"] for fault in caught.value.errors} == {
        "/electrical/circuits": "missing_section",
        "/electrical/modes": "missing_section",
    }


@pytest.mark.parametrize(
    ("pointer", "value", "code", "detail"),
    [
        ("/parts/kettle/electrical/circuit", "gally", "unknown_id", "galley"),
        ("/electrical/circuits/galley/wire/awg", "13", "not_one_of", "14, 12, 10"),
        ("/electrical/circuits/galley/wire/run_ft", -1, "below_minimum", "must be 0 or more; got -1"),
        ("/parts/kettle/electrical/power_factor", 0, "below_minimum", "must be 0.05 or more; got 0"),
        ("/parts/kettle/electrical/power_factor", 1.2, "above_maximum", "must be 1 or less; got 1.2"),
        ("/electrical/modes/plugged_in/feeds/galley", "shor", "unknown_id", "shore"),
    ],
)
def test_mistakes_in_circuits_are_named(
    heron: wainwright.Build, pointer: str, value: Any, code: str, detail: str
) -> None:
    document = heron.to_dict()
    *above, last = pointer.split("/")[1:]
    place = document
    for name in above:
        place = place[name]
    place[last] = value
    (fault,) = refused(document).values()
    assert (fault["pointer"], fault["code"]) == (pointer, code)
    assert detail in fault["detail"]


def test_mistakes_in_circuits_come_with_what_is_known(heron: wainwright.Build) -> None:
    document = heron.to_dict()
    document["parts"]["kettle"]["electrical"]["circuit"] = "gally"
    document["electrical"]["modes"]["plugged_in"]["feeds"]["galley"] = "shor"
    document["electrical"]["circuits"]["galley"]["wire"]["awg"] = "13"
    faults = refused(document)
    circuit = faults["/parts/kettle/electrical/circuit"]
    assert circuit.get("suggestion") == "galley"
    assert circuit.get("known") == list(document["electrical"]["circuits"])
    source = faults["/electrical/modes/plugged_in/feeds/galley"]
    assert source.get("suggestion") == "shore"
    assert source.get("known") == ["shore", "inverter", "house_battery"]
    assert {"14", "12", "10", "1/0"} <= {*faults["/electrical/circuits/galley/wire/awg"].get("known", [])}


def test_what_json_cannot_hold_is_reported_with_everything_else() -> None:
    trailer = {"gvwr_lb": math.nan, "bare": {}}
    faults = refused({"trailer": trailer, "parts": {"bed": {"mas_lb": 1}}})
    assert list(faults) == [
        "/trailer/gvwr_lb",
        "/trailer/bare/mass_lb",
        "/parts/bed/mas_lb",
        "/parts/bed/mass_lb",
    ]
    assert faults["/trailer/gvwr_lb"]["detail"] == "must be a finite number; got nan"


def test_numbers_that_are_not_finite_are_refused_at_their_places() -> None:
    parts = {"a/b": {"mass_lb": math.nan}, "c": {"mass_lb": -math.inf}, "d": {"mass_lb": 10**400}}
    faults = refused({**LEAST, "parts": parts, "states": {"s": {"fill": [np.float32("nan")]}}})
    not_finite = {"/parts/a~1b/mass_lb", "/parts/c/mass_lb", "/parts/d/mass_lb", "/states/s/fill/0"}
    assert set(faults) == not_finite | {"/parts/a~1b", "/states/s/fill"}
    assert faults["/parts/a~1b/mass_lb"]["detail"] == "must be a finite number; got nan"


def test_what_json_cannot_hold_is_refused_at_its_place() -> None:
    faults = refused({"name": date(2026, 3, 1), "parts": {3: {}}, "cargo": {"x": {"mass_lb": np.zeros(2)}}})
    assert {pointer: fault["detail"] for pointer, fault in faults.items()} == {
        "/name": "must be something that JSON can hold; got datetime.date",
        "/parts": "must have text for keys; got 3, int",
        "/cargo/x/mass_lb": "must be something that JSON can hold; got numpy.ndarray",
    }


def test_a_dict_inside_itself_is_refused() -> None:
    document: dict[str, Any] = {**LEAST}
    document["parts"] = {"loop": document}
    (first, *_) = refused(document).values()
    assert "32" in first["detail"]


def test_what_is_no_mapping_is_refused() -> None:
    assert refused([1, 2])[""]["detail"] == "must be an object; got a list"
    assert refused(None)[""]["code"] == "missing_field"


@pytest.mark.parametrize("number", [np.float64(86.25), np.float32(86.25), np.array(86.25)])
def test_numpy_floats_are_taken(number: Any) -> None:
    build = wainwright.Build.from_dict({**LEAST, "parts": {"bench": {"mass_lb": number}}})
    assert build.payload().parts_mass_lb == 86.25


def test_numpy_integers_flags_and_other_mappings_are_taken() -> None:
    part = OrderedDict(mass_lb=np.int64(40), quantity=np.uint8(2))
    states = {"wet": {"moving": np.bool_(False), "aboard": ()}}
    report = wainwright.Build.from_dict({**LEAST, "parts": {"bench": part}, "states": states}).payload()
    assert report.parts_mass_lb == 80.0
    assert report.states["wet"].moving is False


def test_a_file_that_is_not_there_is_an_os_error(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        wainwright.Build.from_file(tmp_path / "none.json")
