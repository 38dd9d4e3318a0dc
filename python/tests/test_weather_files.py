"""Weather files: a folder of them, and one as text. All weather here is invented."""

from __future__ import annotations

import pickle
from typing import TYPE_CHECKING, Any

import pytest

import wainwright

if TYPE_CHECKING:
    from pathlib import Path

HEADER = (
    "LOCATION,Heron Flats,NC,USA,invented,000000,36.10,-79.95,-5.0,273.0\n"
    "DATA PERIODS,1,1,Data,Sunday,6/1,6/1\n"
)
ROWS = "".join(
    f"2001,6,1,{hour},60,?9?9,15.0,8.0,60,98000,0,0,300,0,0,0,0,0,0,0,180,2.5\n" for hour in range(1, 25)
)
DAY = HEADER + ROWS
"""A day as an EPW file."""


def naming(name: str) -> dict[str, Any]:
    """A build that names a file."""
    trailer = {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}
    return {"trailer": trailer, "site": {"weather": {"file": name}}}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with two files, and one of another kind."""
    for name in ("flats.epw", "Lake.EPW", "notes.txt"):
        (tmp_path / name).write_text(DAY, encoding="utf-8")
    return tmp_path


def test_a_build_names_a_file_of_a_folder(folder: Path, tmp_path: Path) -> None:
    build = wainwright.Build.from_dict(naming("flats.epw"), weather_folder=folder)
    assert build.payload() == wainwright.Build.from_dict({"trailer": naming("")["trailer"]}).payload()
    file = tmp_path / "build.json"
    file.write_bytes(b'{"site": {"weather": {"file": "Lake.EPW"}}}')
    once = wainwright.WeatherFolder(folder)
    assert once.names == ["Lake.EPW", "flats.epw"]
    assert wainwright.Build.from_file(file, weather_folder=once) == wainwright.Build.from_json(
        file.read_text(encoding="utf-8"), weather_folder=str(folder)
    )
    assert pickle.loads(pickle.dumps(build)) == build


def test_a_name_that_is_not_there_is_a_fault(folder: Path) -> None:
    with pytest.raises(wainwright.BuildError, match=r"did you mean flats\.epw") as caught:
        wainwright.Build.from_dict(naming("flat.epw"), weather_folder=folder)
    assert caught.value.errors[0].get("known") == ["Lake.EPW", "flats.epw"]
    with pytest.raises(wainwright.BuildError, match="no folder with weather files was given"):
        wainwright.Build.from_dict(naming("flats.epw"))


def test_a_file_that_is_refused_is_named_with_its_faults(folder: Path) -> None:
    (folder / "page.csv").write_text("<html>", encoding="utf-8")
    (folder / "flats.epw").write_text(DAY.replace("36.10", "95"), encoding="utf-8")
    with pytest.raises(
        ValueError, match=r"(?s)flats\.epw is refused:\nline 1, column 7, latitude.*page\.csv is refused"
    ):
        wainwright.WeatherFolder(folder)
    with pytest.raises(FileNotFoundError):
        wainwright.Build.from_dict({}, weather_folder=folder / "none")


def test_the_text_of_a_file_may_stand_in_the_build() -> None:
    assert wainwright.Build.from_dict({"site": {"weather": {"text": DAY}}})
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.Build.from_dict({"site": {"weather": {"text": DAY.replace(",2.5", ",calm", 2)}}})
    assert [fault["pointer"] for fault in caught.value.errors] == ["/site/weather/text"] * 2
    assert "line 3, column 22, wind speed: must be a number" in caught.value.errors[0]["detail"]


def test_builds_with_a_folder_are_compared(folder: Path) -> None:
    build = wainwright.Build.from_dict(naming("flats.epw"), weather_folder=folder)
    assert wainwright.compare(build, build).changes == ()
