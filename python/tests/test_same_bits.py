"""HTTP and Python give the same numbers for the same build, to the bit."""

from __future__ import annotations

import json
import struct
from typing import TYPE_CHECKING, Any

import pytest

import wainwright
from wainwright import _wainwright, reports

from .random_builds import COUNT, random_builds

if TYPE_CHECKING:
    from pathlib import Path

    from .service import Service

QUESTIONS = _wainwright.questions()
SEED = 2601


def bits(value: Any) -> Any:
    """The value with every float as its eight bytes and every object as its members in order."""
    if isinstance(value, float):
        return struct.pack(">d", value)
    if isinstance(value, list):
        return [bits(item) for item in value]
    if isinstance(value, dict):
        return [(key, bits(member)) for key, member in value.items()]
    return type(value), value


def assert_same(service: Service, question: str, document: bytes) -> None:
    """Python's answer is HTTP's."""
    status, http = service.ask(question.replace("_", "-"), document)
    assert status == 200, http
    report: reports.Report = getattr(wainwright.Build.from_json(document), question)()
    assert bits(http) == bits(report.to_dict())
    assert type(report).from_dict(http) == report
    assert str(type(report).from_dict(http)) == repr(report)


@pytest.mark.parametrize("question", QUESTIONS)
def test_demonstration_builds_have_the_same_bits(
    service: Service, question: str, demonstration: Path
) -> None:
    assert_same(service, question, demonstration.read_bytes())


@pytest.mark.parametrize("question", QUESTIONS)
def test_random_builds_have_the_same_bits(service: Service, question: str) -> None:
    for build in random_builds(SEED):
        assert_same(service, question, json.dumps(build).encode())


REFUSED: list[Any] = [
    {},
    {"trailer": {"gvwr_lb": -1}},
    {"parts": {"galley": {"mass": 3}}, "states": {"wet": {"aboard": ["atv"]}}},
    {"parts": {f"part_{i}": {"mass_lb": -i} for i in range(130)}},
    {"electrical": {"sources": {"shore": {"kind": "shore", "voltage_v": 120}, "spare": {"kind": "shore"}}}},
    {
        "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}},
        "electrical": {
            "sources": {"shore": {"kind": "shore", "voltage_v": 0.1 + 0.2, "circuit": "galey"}},
            "circuits": {"galley": {"wire": {"awg": "13", "run_ft": -1 / 3}, "feeder": "galley"}},
            "modes": {"plugged_in": {"feeds": {"galley": "shor"}}},
        },
        "parts": {"kettle": {"mass_lb": 2, "electrical": {"circuit": "gally", "power_factor": 1.2}}},
    },
    {
        "envelope": {
            "surfaces": {
                "roof": {"area_ft2": 100 / 3, "facing": "up", "r_value": 0.1 + 0.2},
                "wall": {"area_ft2": 200 / 3, "facing": "left", "r_value": 7, "layers": []},
            },
            "windows": {"hatch": {"area_ft2": 200 / 3 + 1e-13, "facing": "left", "surface": "wal"}},
            "leakage_in2": 10 / 3,
            "air_changes_per_h": 1 / 3,
        },
        "climate": {
            "cooling": {"capacity_btu_h": 1e6 / 3, "setpoint_f": 68.1},
            "heating": {"setpoint_f": 70.2},
        },
        "occupancy": {"people": 2.5, "away_from": 25},
    },
]


ASKED_IN_VAIN = [
    (name, document) for name in QUESTIONS for document in REFUSED if document or name != "evaluate"
]
"""Each question with each of them; evaluate answers an empty build too."""


@pytest.mark.parametrize(("question", "document"), ASKED_IN_VAIN)
def test_a_refusal_names_the_same_faults(service: Service, question: str, document: Any) -> None:
    status, http = service.ask(question.replace("_", "-"), json.dumps(document).encode())
    with pytest.raises(wainwright.BuildError) as caught:
        getattr(wainwright.Build.from_dict(document), question)()
    assert status == 422
    assert bits(http["errors"]) == bits(caught.value.errors)


def test_random_builds_are_answered() -> None:
    """Builds that were refused would compare nothing."""
    answered = 0
    for build in random_builds(SEED):
        for question in QUESTIONS:
            getattr(wainwright.Build.from_dict(build), question)()
            answered += 1
    assert answered == COUNT * len(QUESTIONS)
