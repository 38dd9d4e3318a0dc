"""The energy budget as Python sees it: its report, its detail, its weather files, what it asks for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest

import wainwright
from wainwright import reports

from .test_weather_files import DAY

if TYPE_CHECKING:
    from pathlib import Path

Document = dict[str, Any]
LEAST: Document = {
    "parts": {"lamp": {"mass_lb": 1, "electrical": {"circuit": "lights", "power_w": 10}}},
    "battery": {"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8},
    "site": {"weather": {"place": "golden_co"}},
}
"""The least that answers."""


def budget(**sections: Any) -> reports.EnergyBudgetReport:
    """The budget of the least build with other sections."""
    return wainwright.Build.from_dict(LEAST | sections).energy_budget()


def test_the_buyers_question_is_answered_in_two_sentences(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).energy_budget()
    assert report.stay is not None
    sentences = re.findall(r"[A-Z].*?[.](?= [A-Z]|$)", report.summary)
    assert len(sentences) == 2
    assert " ".join(sentences) == report.summary
    assert sentences[0].startswith("Arriving on ")
    assert sentences[1].startswith("Without any sun the battery carries the loads ")
    assert report.summary in str(report)


def test_a_year_is_twelve_months_that_add_up(demonstration: Path) -> None:
    report = wainwright.Build.from_file(demonstration).energy_budget()
    assert [month.month for month in report.months] == list(range(1, 13))
    assert sum(month.days for month in report.months) == report.total.days == 365
    for name in ("harvest_kwh", "load_kwh", "spilled_kwh", "other_kwh", "lost_kwh", "unmet_kwh", "unmet_h"):
        whole = sum(getattr(month, name) for month in report.months)
        assert getattr(report.total, name) == pytest.approx(whole, rel=1e-9, abs=1e-12)
    assert min(month.lowest_soc for month in report.months) == report.total.lowest_soc
    assert 1000 * report.total.load_kwh == pytest.approx(365 * report.load_wh_per_day, rel=1e-12)


def test_every_month_keeps_its_energy(demonstration: Path) -> None:
    """Sun and other sources less load are stored, lost, spilled, or were not there."""
    report = wainwright.Build.from_file(demonstration).energy_budget()
    capacity_kwh = report.bank.capacity_wh / 1000
    before_soc = 1.0
    for month in report.months:
        stored_kwh = (month.end_soc - before_soc) * capacity_kwh
        before_soc = month.end_soc
        left_kwh = month.harvest_kwh + month.other_kwh - month.load_kwh
        went_kwh = stored_kwh + month.lost_kwh + month.spilled_kwh - month.unmet_kwh
        assert left_kwh == pytest.approx(went_kwh, abs=1e-9)


def test_what_each_part_takes_adds_up(demonstration: Path) -> None:
    build = wainwright.Build.from_file(demonstration)
    report = build.energy_budget()
    parts = sum(load.load_wh_per_day for load in report.loads.values()) + report.inverter_idle_wh_per_day
    constant_wh = 24 * build.to_dict().get("solar", {}).get("controller", {}).get("standby_w", 0)
    heater = "heater_w" in build.to_dict()["battery"]
    assert heater or parts + constant_wh == pytest.approx(report.load_wh_per_day, rel=1e-9)


def test_figures_of_the_least_build_are_attributes() -> None:
    report = budget()
    assert report.load_wh_per_day == 240
    assert report.loads["lamp"] == reports.LoadShare(running_w=10.0, load_wh_per_day=240.0, load_fraction=1.0)
    assert report.bank.capacity_wh == 1280
    assert report.weather.form == "place"
    assert (report.weather.step_count, report.weather.step_min) == (8760, 60)
    assert report.stay is None
    assert report.mode is None
    assert report.worksheet is None
    assert report.arrays == {}
    assert report.charging == {}
    assert report.total.harvest_kwh == 0
    assert report.total.unmet_kwh > 80


def test_a_warm_battery_carries_a_load_as_long_as_its_energy_lasts() -> None:
    """90 percent of 1280 Wh, less the way out, at 10 W; in so long it loses 0.3 percent by itself."""
    report = budget(stay={"heated_to_f": 80})
    assert report.autonomy_h == pytest.approx(0.9 * 1280 * 0.94**0.5 / 10, rel=0.004)
    cold_h = budget().autonomy_h
    assert cold_h is not None
    assert cold_h < 0.95 * 0.9 * 1280 * 0.94**0.5 / 10


def test_without_arrays_the_autonomy_ends_where_the_year_first_goes_short() -> None:
    report = budget(stay={"first_day": "01-01", "first_hour": 0, "detail": "steps"})
    trace = report.steps
    assert trace is not None
    first = next(hour for hour, unmet_wh in enumerate(trace.unmet_wh) if unmet_wh > 0)
    assert report.autonomy_h == pytest.approx(
        first + 1 - trace.unmet_wh[first] / trace.load_w[first], rel=1e-12
    )


def test_the_smallest_array_does_and_a_smaller_one_does_not() -> None:
    wanted_w = budget(solar={"arrays": {"roof": {"power_w": 100}}}).smallest_array_w
    assert wanted_w is not None
    for size, unmet in ((1.001, False), (0.99, True)):
        report = budget(solar={"arrays": {"roof": {"power_w": wanted_w * size}}})
        assert (report.total.unmet_kwh > 1e-6) == unmet


def test_detail_grows_by_days_and_steps() -> None:
    months, days, steps = (budget(stay={"detail": detail}) for detail in ("months", "days", "steps"))
    assert (months.days, months.steps) == ((), None)
    assert budget(stay={}) == months
    assert len(days.days) == 365
    assert days.steps is None
    assert (days.days[0].month, days.days[0].day) == (1, 1)
    assert steps.days == days.days
    trace = steps.steps
    assert trace is not None
    for series in (trace.end_soc, trace.harvest_w, trace.load_w, trace.unmet_wh, trace.battery_f):
        assert len(series) == 8760
    assert trace.start == "2025-01-01T00:00"
    assert trace.end_soc[23::24] == tuple(day.end_soc for day in days.days)
    assert sum(trace.unmet_wh[:24]) == pytest.approx(days.days[0].unmet_wh, abs=1e-9)
    # Beside what was asked for the answer is the same.
    assert months.to_dict() | {"days": [], "steps": None} == steps.to_dict() | {"days": [], "steps": None}


def test_a_weather_file_of_a_folder_is_used(tmp_path: Path) -> None:
    (tmp_path / "flats.epw").write_text(DAY, encoding="utf-8")
    named = LEAST | {"site": {"weather": {"file": "flats.epw"}}}
    report = wainwright.Build.from_dict(named, weather_folder=tmp_path).energy_budget()
    assert (report.weather.form, report.weather.step_count) == ("file", 24)
    assert "Heron Flats" in report.weather.meaning
    assert report.weather.latitude_deg == pytest.approx(36.10, rel=1e-12)
    as_text = budget(site={"weather": {"text": DAY}})
    assert as_text.months == report.months


@pytest.mark.parametrize(
    ("changes", "pointers"),
    [
        ({"battery": None}, ["/battery"]),
        ({"parts": None}, ["/parts"]),
        ({"site": None}, ["/site"]),
        ({"site": {}}, ["/site/weather"]),
        ({"site": {"weather": {"clear_sky": {}}}}, ["/site/latitude_deg", "/site/longitude_deg"]),
        ({"battery": None, "parts": None, "site": None}, ["/battery", "/parts", "/site"]),
        (
            {"solar": {"arrays": {"a": {"power_w": 9}}, "controller": {"kind": "pwm", "max_output_a": 9}}},
            [f"/solar/arrays/a/{name}" for name in ("imp_a", "isc_a", "vmp_v", "voc_v")],
        ),
    ],
)
def test_what_is_missing_is_pointed_at(changes: Document, pointers: list[str]) -> None:
    build = wainwright.Build.from_dict(LEAST | changes)
    with pytest.raises(wainwright.BuildError) as caught:
        build.energy_budget()
    assert sorted(fault["pointer"] for fault in caught.value.errors) == pointers
    assert {fault["code"] for fault in caught.value.errors} == {"missing_section"}
    with pytest.raises(wainwright.BuildError, match=re.escape(pointers[0])):
        build.text("energy_budget")
