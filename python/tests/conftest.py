"""What the tests share: the demonstration builds, and the HTTP service."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import wainwright
from wainwright import _wainwright

from .service import Service

if TYPE_CHECKING:
    from collections.abc import Iterator

BUILDS = sorted((Path(__file__).parents[2] / "tests" / "builds").glob("*.json"))


@pytest.fixture(params=BUILDS, ids=lambda path: path.stem)
def demonstration(request: pytest.FixtureRequest) -> Path:
    """The file of each demonstration build in turn."""
    path: Path = request.param
    return path


def _can_answer(path: Path, question: str) -> bool:
    """Does the build say what the question needs? One demonstration build has no circuits."""
    return question != "circuit_load" or "electrical" in json.loads(path.read_text(encoding="utf-8"))


ASKED = [
    (question, path) for question in _wainwright.questions() for path in BUILDS if _can_answer(path, question)
]


@pytest.fixture(params=ASKED, ids=lambda asked: f"{asked[0]}-{asked[1].stem}")
def asked(request: pytest.FixtureRequest) -> tuple[str, Path]:
    """Each question with each demonstration build that it can be put to."""
    asked: tuple[str, Path] = request.param
    return asked


@pytest.fixture
def heron() -> wainwright.Build:
    """A complete build."""
    return wainwright.Build.from_file(BUILDS[0].with_name("heron.json"))


@pytest.fixture(scope="session")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    """The HTTP service, running."""
    with Service.running(tmp_path_factory.mktemp("service")) as service:
        yield service
