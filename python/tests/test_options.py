"""Option packages and the search, in Python and over HTTP. All builds and catalogues are invented."""

from __future__ import annotations

import json
import pickle
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

import wainwright

from .test_same_bits import bits

if TYPE_CHECKING:
    from .service import Service

ROOT = Path(__file__).parents[2]
HERON = json.loads((ROOT / "tests/builds/heron.json").read_bytes())
GROUPS = json.loads((ROOT / "tests/catalogues/heron.json").read_bytes())["groups"]
CHOSEN = ["battery_300", "awning"]


def test_every_option_has_its_state() -> None:
    report = wainwright.options(HERON, GROUPS, CHOSEN)
    assert report.chosen == ("battery_300", "awning")
    assert report.price_usd == 1240.0
    assert report.options["awning"].state == "chosen"
    assert report.options["solar_600"].state == "available"
    unvented = report.options["heater_unvented"]
    assert (unvented.state, unvented.because[0].code) == ("breaks", "unvented_burner")
    assert report.options["battery_400"].price_difference_usd == 440.0
    assert report.report.verdict.violation_count == 0
    assert type(report).from_dict(report.to_dict()) == report
    assert pickle.loads(pickle.dumps(report)) == report


def test_a_build_is_a_base_as_its_document_is() -> None:
    build = wainwright.Build.from_dict(HERON)
    assert wainwright.options(build, GROUPS, CHOSEN) == wainwright.options(HERON, GROUPS, CHOSEN)
    assert wainwright.options(build, GROUPS).report == build.evaluate()


def test_the_search_agrees_with_options() -> None:
    vary = ["water", "battery", "kitchen"]
    report = wainwright.search(
        HERON, GROUPS, chosen=["awning"], vary=vary, weights={"price_usd": 1, "autonomy_h": 20}, most=5
    )
    assert report.choice_count == 4 * 4 * 2**4
    assert 0 < report.unbroken_count < report.workable_count < report.choice_count
    assert len(report.best) == 5
    for best in report.best:
        evaluated = wainwright.options(HERON, GROUPS, best.chosen)
        assert evaluated.report.margins == best.margins
        assert evaluated.report.verdict.violation_count == 0
        assert evaluated.price_usd == best.price_usd
        assert "awning" in best.chosen
    scores = [best.score for best in report.best]
    assert scores == sorted(scores, reverse=True)


def test_faults_come_all_together() -> None:
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.options(HERON, GROUPS, ["batery_300", "solar_200", "solar_600"])
    assert [fault["pointer"] for fault in caught.value.errors] == ["/chosen/0", "/chosen/2"]
    assert caught.value.errors[0].get("suggestion") == "battery_300"
    with pytest.raises(wainwright.BuildError, match="must be a finite number"):
        wainwright.options({"trailer": {"gvwr_lb": float("nan")}}, GROUPS)
    wrong: dict[str, Any] = {
        "a": {"choose": "any", "options": {"b": {"price_usd": 1, "patch": {"parts": {"c": {}}}}}}
    }
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.options({}, wrong, ["b"])
    fault = caught.value.errors[0]
    assert fault["pointer"] == "/groups/a/options/b/patch/parts/c/mass_lb"
    assert fault.get("in_build") == "/parts/c/mass_lb"


def test_too_much_work_is_refused_with_its_size() -> None:
    with pytest.raises(wainwright.BuildError, match="too much work") as caught:
        wainwright.search(HERON, GROUPS)
    fault = caught.value.errors[0]
    assert fault["code"] == "too_much_work"
    assert fault.get("work", 0) > fault.get("limit", 0) == 2**20


def test_a_folder_of_catalogues(tmp_path: Path) -> None:
    (tmp_path / "heron.json").write_bytes((ROOT / "tests/catalogues/heron.json").read_bytes())
    (tmp_path / "own.json").write_text(json.dumps({"base": HERON, "groups": GROUPS}), encoding="utf-8")
    (tmp_path / "notes.txt").write_text("none", encoding="utf-8")
    folder = wainwright.CatalogueFolder(tmp_path)
    assert folder.names == ["heron", "own"]
    assert repr(folder).endswith("2 catalogues>")
    assert pickle.loads(pickle.dumps(folder)).names == folder.names
    given = wainwright.options(HERON, GROUPS, CHOSEN)
    assert wainwright.options(HERON, chosen=CHOSEN, catalogue="heron", catalogue_folder=folder) == given
    assert wainwright.options(chosen=CHOSEN, catalogue="own", catalogue_folder=tmp_path) == given
    with pytest.raises(wainwright.BuildError, match=r"did you mean own\?"):
        wainwright.options(catalogue="owm", catalogue_folder=folder)
    (tmp_path / "own.json").write_text(
        '{"groups": {"a": {"choose": "two", "options": {}}}}', encoding="utf-8"
    )
    with pytest.raises(ValueError, match=r"(?s)own\.json is refused:\n/groups/a/choose must be one of"):
        wainwright.CatalogueFolder(tmp_path)


def test_http_and_python_give_the_same_bits(service: Service) -> None:
    request: dict[str, Any] = {"base": HERON, "groups": GROUPS, "chosen": CHOSEN}
    status, http = service.ask("options", json.dumps(request).encode())
    assert status == 200, http
    assert bits(http) == bits(wainwright.options(HERON, GROUPS, CHOSEN).to_dict())
    request = {"base": HERON, "groups": GROUPS, "chosen": ["awning"], "vary": ["battery"]}
    status, http = service.ask("search", json.dumps(request).encode())
    assert status == 200, http
    assert bits(http) == bits(wainwright.search(HERON, GROUPS, chosen=["awning"], vary=["battery"]).to_dict())
