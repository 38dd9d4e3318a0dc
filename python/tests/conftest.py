"""What the tests share: the demonstration builds, and the HTTP service."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import wainwright

from .service import Service

if TYPE_CHECKING:
    from collections.abc import Iterator

FOLDER = Path(__file__).parents[2] / "tests" / "builds"
BUILDS = [FOLDER / f"{name}.json" for name in ("bison", "heron", "pika")]
"""Complete builds, of which every question can be asked. Beside them is what benchmarks read."""


@pytest.fixture(params=BUILDS, ids=lambda path: path.stem)
def demonstration(request: pytest.FixtureRequest) -> Path:
    """The file of each demonstration build in turn."""
    path: Path = request.param
    return path


@pytest.fixture
def heron() -> wainwright.Build:
    """A complete build."""
    return wainwright.Build.from_file(FOLDER / "heron.json")


@pytest.fixture(scope="session")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    """The HTTP service, running."""
    with Service.running(tmp_path_factory.mktemp("service")) as service:
        yield service
