"""The cooling load as Python sees it: its report, its detail, its weather files, what it asks for."""

from __future__ import annotations

import dataclasses
import re
from typing import TYPE_CHECKING, Any

import pytest

import wainwright
from wainwright import reports

from .test_weather_files import DAY

if TYPE_CHECKING:
    from pathlib import Path

Document = dict[str, Any]
SURFACES: Document = {
    "roof": {"area_ft2": 112, "facing": "roof", "r_value": 8},
    "floor": {"area_ft2": 112, "facing": "floor", "r_value": 6},
    "front": {"area_ft2": 45, "facing": "front", "r_value": 5},
    "ramp": {"area_ft2": 45, "facing": "rear", "r_value": 3},
    "left": {"area_ft2": 104, "facing": "left", "r_value": 5},
    "right": {"area_ft2": 104, "facing": "right", "r_value": 5},
}
LEAST: Document = {"envelope": {"surfaces": SURFACES}, "site": {"weather": {"place": "golden_co"}}}
"""The least that answers."""
COOLED: Document = {"climate": {"cooling": {"capacity_btu_h": 5000, "setpoint_f": 76}}}


def load(**sections: Any) -> reports.CoolingLoadReport:
    """The load of the least build with other sections."""
    return wainwright.Build.from_dict(LEAST | sections).cooling_load()


def test_the_campers_question_is_answered_in_two_sentences(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).cooling_load()
    sentences = re.findall(r"[A-Z].*?[.](?= [A-Z]|$)", report.summary)
    assert len(sentences) == 2
    assert " ".join(sentences) == report.summary
    assert sentences[0].startswith("On the hottest afternoon, ")
    assert sentences[1].startswith("On the coldest night, ")
    assert report.summary in str(report)


def test_the_peak_is_the_greatest_of_the_hours(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).cooling_load()
    assert [hour.hour for hour in report.hours] == list(range(24))
    peak = max(report.hours, key=lambda hour: hour.load_btu_h)
    assert (report.peak.hour, report.peak.total_btu_h) == (peak.hour, peak.load_btu_h)
    assert report.peak.sensible_btu_h + report.peak.latent_btu_h == pytest.approx(report.peak.total_btu_h)
    for hour in report.hours:
        assert hour.sensible_btu_h + hour.latent_btu_h == pytest.approx(hour.load_btu_h, abs=1e-9)


def test_what_comes_in_less_what_is_stored_is_the_load(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).cooling_load()
    for hour in report.hours:
        parts = dataclasses.asdict(hour.parts)
        stored = parts.pop("stored_btu_h")
        assert sum(parts.values()) - stored == pytest.approx(hour.sensible_btu_h, rel=1e-9, abs=1e-6)


def test_the_day_is_the_sum_of_its_hours(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).cooling_load()
    if report.cooler is None:
        assert (report.held_f, report.cooling_kwh_per_day, report.pull_down) == (None, None, None)
        assert {hour.electric_w for hour in report.hours} == {0}
        return
    kwh = sum(hour.electric_w for hour in report.hours) / 1000
    assert report.cooling_kwh_per_day == pytest.approx(kwh, rel=1e-12)
    assert report.cooler.run_h == pytest.approx(sum(hour.run_fraction for hour in report.hours), rel=1e-12)
    assert report.held_f is not None
    assert max(hour.indoor_f for hour in report.hours) <= report.held_f < report.uncooled_f


def test_a_year_is_twelve_months(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).cooling_load()
    assert [(month.year, month.month) for month in report.months] == [(2025, i) for i in range(1, 13)]
    for month in report.months:
        assert (month.cooling_kwh > 0) == (month.run_h > 0)
        assert month.coldest_f <= month.warmest_f


def test_figures_of_the_least_build_are_attributes() -> None:
    report = load()
    # By U-values and the summer's film of 17 W/(m²·K) in place of 25: 0.334 for 0.227 h·ft²·°F/BTU.
    passes = sum(surface["area_ft2"] / (surface["r_value"] + 0.1069) for surface in SURFACES.values())
    assert report.envelope.opaque_btu_h_f == pytest.approx(passes, rel=1e-4)
    assert report.envelope.volume_ft3 == pytest.approx((112 * 45 * 104) ** 0.5)
    assert list(report.envelope.surfaces) == list(SURFACES)
    assert report.design.hot_day.startswith("design conditions of Golden, CO")
    assert (report.cooler, report.airing, report.mode, report.trace) == (None, None, None, None)
    assert report.heating.capacity_btu_h is None
    assert report.gains == {}
    assert report.smallest_btu_h == 5000


def test_an_air_conditioner_holds_what_it_can_and_a_larger_one_more() -> None:
    held_f = []
    for capacity_btu_h in (1500, 2500, 20000):
        report = load(climate={"cooling": {"capacity_btu_h": capacity_btu_h, "setpoint_f": 76}})
        assert report.held_f is not None
        held_f.append(report.held_f)
    assert held_f[0] > held_f[1] > held_f[2] == pytest.approx(76, abs=1e-6)


def test_detail_adds_every_step_and_alters_nothing_else() -> None:
    hours = load(climate=COOLED["climate"] | {"detail": "hours"})
    steps = load(climate=COOLED["climate"] | {"detail": "steps"})
    assert hours == load(**COOLED)
    trace = steps.trace
    assert hours.trace is None
    assert trace is not None
    assert (trace.start, trace.step_min, trace.floor_load_j_k) == ("2025-01-01T00:00", 60, None)
    series = [value for value in dataclasses.asdict(trace).values() if isinstance(value, tuple)]
    assert [len(each) for each in series] == 12 * [8760]
    assert trace.floor_load_c == trace.mass_c
    assert sum(trace.electric_w) == pytest.approx(1000 * sum(month.cooling_kwh for month in steps.months))
    # Beside what was asked for the answer is the same.
    assert hours.to_dict() == steps.to_dict() | {"trace": None}


def test_changes_come_with_what_they_save_and_the_best_first(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).cooling_load()
    saved = [change.peak_saved_btu_h for change in report.changes]
    assert saved == sorted(saved, reverse=True)
    for change in report.changes:
        assert change.peak_btu_h + change.peak_saved_btu_h == pytest.approx(report.peak.total_btu_h)
        assert (change.cooling_kwh_per_day is None) == (report.cooler is None)


def test_a_weather_file_of_a_folder_is_used(tmp_path: Path) -> None:
    (tmp_path / "flats.epw").write_text(DAY, encoding="utf-8")
    named = LEAST | {"site": {"weather": {"file": "flats.epw"}}}
    report = wainwright.Build.from_dict(named, weather_folder=tmp_path).cooling_load()
    assert report.design.hot_day == "the extreme of the weather given, which is no whole year"
    assert [month.month for month in report.months] == [6]
    as_text = load(site={"weather": {"text": DAY}})
    assert as_text.hours == report.hours
    assert as_text.months == report.months


@pytest.mark.parametrize(
    ("changes", "pointers"),
    [
        ({"envelope": None}, ["/envelope/surfaces"]),
        ({"envelope": {}}, ["/envelope/surfaces"]),
        ({"envelope": {"surfaces": {"roof": SURFACES["roof"]}}}, ["/envelope/volume_ft3"]),
        ({"site": None}, ["/site"]),
        ({"site": {}}, ["/site/weather"]),
        ({"site": {"weather": {"clear_sky": {}}}}, ["/site/latitude_deg", "/site/longitude_deg"]),
        ({"envelope": None, "site": None}, ["/envelope/surfaces", "/site"]),
    ],
)
def test_what_is_missing_is_pointed_at(changes: Document, pointers: list[str]) -> None:
    build = wainwright.Build.from_dict(LEAST | changes)
    with pytest.raises(wainwright.BuildError) as caught:
        build.cooling_load()
    assert sorted(fault["pointer"] for fault in caught.value.errors) == pointers
    assert {fault["code"] for fault in caught.value.errors} == {"missing_section"}
    with pytest.raises(wainwright.BuildError, match=re.escape(pointers[0])):
        build.text("cooling_load")
