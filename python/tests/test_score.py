"""Many builds at once give what each gives by itself. All builds, options and numbers are invented."""

from __future__ import annotations

import json
import os
import signal
import threading
import time
from random import Random
from typing import TYPE_CHECKING, Any

import duckdb
import pandas as pd
import polars as pl
import pyarrow as pa
import pytest

import wainwright

from .packages import GALLEY, GROUPS, HERON, LEFT, arrow, cells, numbers, one_by_one, row_build

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from .packages import Columns

MASSES: dict[str, tuple[float, float]] = {
    GALLEY: (-4, 300),
    "parts.galley.x_in": (60, 200),
    "parts.bunk_left.y_in": (-40, 40),
    "cargo.atv.mass_lb": (300, 900),
    "cargo.atv.x_in": (150, 240),
}
OF_MASSES = [
    LEFT,
    "payload.unloaded_mass_lb",
    "payload.states.camped.gvwr_fraction",
    "axle_load.states.outbound.tongue_lb",
    "axle_load.states.homebound.center.z_in",
    "axle_load.states.delivered.tongue_fraction",
    "axle_load.states.outbound.axles.front.load_lb",
    "axle_load.states.outbound.axles.rear.left_lb",
    "axle_load.states.outbound.axles.rear.gawr_fraction",
    "axle_load.worst.gross_mass_lb.max.value",
    "axle_load.worst.tongue_fraction.min.value",
    "axle_load.worst.axles.front.right.min.value",
]
OF_FRAMES = [
    "energy_budget.autonomy_h",
    "energy_budget.months.11.unmet_kwh",
    "energy_budget.smallest_array_w",
    "energy_budget.days_to_recover",
    "cooling_load.peak.sensible_btu_h",
    "cooling_load.held_f",
    "cooling_load.heating.load_btu_h",
    "circuit_load.battery.fault_a",
    "evaluate.margins.autonomy_h",
    "evaluate.margins.tongue_margin_fraction",
    "evaluate.payload.unloaded_mass_lb",
]
LONG = pa.table(numbers(5, 20_000, {"battery.capacity_ah": (80, 500)}))
OF_LONG = ["evaluate.margins.autonomy_h"]
"""Of the long table it takes half a minute of two cores and more."""
KINDS: dict[str, Callable[[pa.Table], Any]] = {
    "pyarrow": lambda table: table,
    "polars": pl.DataFrame,
    "pandas": lambda table: table.to_pandas(),
    "duckdb": duckdb.from_arrow,
}


def assert_rows_are_those_one_by_one(scored: Any, columns: Columns, scores: list[str]) -> None:
    """No row is lost, each is in its place, and every cell is that of its row's build by itself."""
    got = cells(scored)
    rows = len(next(iter(columns.values())))
    assert list(got) == [*scores, "errors"]
    for row in range(rows):
        expected = one_by_one(columns, scores, row)
        assert {name: of[row] for name, of in got.items()} == expected, row
    assert {len(of) for of in got.values()} == {rows}


def options(seed: int, rows: int) -> Columns:
    """Columns of random choices: of groups, none among them, and of options by themselves."""
    random = Random(seed)
    draw: Columns = {
        group: [random.choice([None, *GROUPS[group]["options"]]) for _ in range(rows)]
        for group in ("battery", "running_gear", "toys")
    }
    return draw | {option: [random.random() < 0.5 for _ in range(rows)] for option in ("awning", "microwave")}


@pytest.mark.parametrize("kind", KINDS)
def test_a_thousand_rows_of_masses_are_those_one_by_one(kind: str) -> None:
    columns = numbers(1, 1000, MASSES)
    scored = wainwright.score(HERON, KINDS[kind](pa.table(columns)), OF_MASSES)
    assert type(scored) is type(KINDS[kind](pa.table(columns)))
    if kind == "pyarrow":
        assert_rows_are_those_one_by_one(scored, columns, OF_MASSES)
        assert 3 < 1000 - arrow(scored).column("errors").null_count < 40
    else:
        assert cells(scored) == cells(wainwright.score(HERON, pa.table(columns), OF_MASSES))


def test_a_thousand_rows_of_options_and_numbers_are_those_one_by_one() -> None:
    galley: Columns = numbers(2, 1000, {GALLEY: (-4, 300)})
    columns: Columns = options(2, 1000) | galley
    scored = wainwright.score(HERON, pa.table(columns), OF_MASSES, groups=GROUPS)
    assert_rows_are_those_one_by_one(scored, columns, OF_MASSES)


def test_tables_of_all_kinds_with_options_have_the_same_bits() -> None:
    table = pa.table(options(3, 300) | numbers(3, 300, MASSES))
    scores = [*OF_MASSES, "price_usd", "broken_rule_count"]
    scored = [cells(wainwright.score(HERON, of(table), scores, groups=GROUPS)) for of in KINDS.values()]
    assert all(other == scored[0] for other in scored[1:])


def test_circuits_energy_heat_and_all_together_are_those_one_by_one() -> None:
    bounds: dict[str, tuple[float, float]] = {
        "battery.capacity_ah": (80, 500),
        "solar.arrays.roof.power_w": (100, 900),
        "climate.cooling.setpoint_f": (68, 82),
        GALLEY: (0, 300),
    }
    drawn = numbers(4, 40, bounds)
    random = Random(4)
    places = [random.randrange(40) for _ in range(1000)]
    columns: Columns = {path: [of[place] for place in places] for path, of in drawn.items()}
    got = cells(wainwright.score(HERON, pa.table(columns), OF_FRAMES))
    distinct = wainwright.score(HERON, pa.table(drawn), OF_FRAMES)
    assert_rows_are_those_one_by_one(distinct, drawn, OF_FRAMES)
    assert got == {name: [of[place] for place in places] for name, of in cells(distinct).items()}


@pytest.mark.parametrize(
    "columns",
    [
        {GALLEY: [-5.5]},
        {GALLEY: [1e300]},
        {GALLEY: [float("inf")]},
        {GALLEY: [float("nan")]},
        {"trailer.bare.mass_tolerance_lb": [5000.0]},
        {"trailer.axles.front.tires": [3.0]},
        {"battery.series": [1.5]},
        {"site.heading_deg": [400.0]},
        {"trailer.bare.mass_tolerance_lb": [5000.0], "trailer.axles.front.tires": [3.0]},
        {"battery.series": [0.0], GALLEY: [-1.0]},
    ],
    ids=str,
)
def test_a_refused_row_says_what_its_build_says(columns: Columns) -> None:
    scored = wainwright.score(HERON, pa.table(columns), [LEFT, "energy_budget.autonomy_h"])
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.Build.from_dict(row_build(columns, 0))
    first = caught.value.errors[0]
    more = f" (and {len(caught.value.errors) - 1} more)" if len(caught.value.errors) > 1 else ""
    row = scored.to_pylist()[0]
    assert row == {
        LEFT: None,
        "energy_budget.autonomy_h": None,
        "errors": f"{first['pointer']} {first['detail']}{more}",
    }


def test_a_row_with_an_error_has_no_figures() -> None:
    groups = {
        "less": {
            "choose": "any",
            "options": {
                "no_battery": {"price_usd": 1, "patch": {"battery": None, "solar": None}},
                "no_outing": {"price_usd": 1, "patch": {"states": {"outbound": None}}},
            },
        }
    }
    table = pa.table(
        {"no_battery": [True, False, False], "no_outing": [False, True, False], GALLEY: [1.0, 2.0, 3.0]}
    )
    scores = [LEFT, "payload.unloaded_mass_lb", "energy_budget.autonomy_h", "price_usd"]
    rows = wainwright.score(HERON, table, scores, groups=groups).to_pylist()
    assert rows[0]["errors"].startswith("/battery is missing; ")
    assert rows[1]["errors"].startswith(f"{LEFT} leads nowhere: ")
    assert rows[2]["errors"] is None
    assert None not in [rows[2][score] for score in scores]
    assert [row[score] for row in rows[:2] for score in scores] == [None] * 8


def test_zeros_of_either_sign_keep_theirs() -> None:
    columns: Columns = {"stay.start_soc": [0.0, -0.0, 0.0]}
    scores = ["energy_budget.autonomy.start_soc", "energy_budget.autonomy_h"]
    scored = wainwright.score(HERON, pa.table(columns), scores)
    assert_rows_are_those_one_by_one(scored, columns, scores)


def test_threads_change_nothing() -> None:
    masses = pa.table(numbers(6, 400, MASSES))
    chosen = pa.table(options(6, 400) | numbers(6, 400, MASSES))
    frames = pa.table(numbers(6, 60, {"battery.capacity_ah": (-9, 500), GALLEY: (0, 300)}))
    for table, scores, groups in (
        (masses, OF_MASSES, None),
        (chosen, OF_MASSES, GROUPS),
        (frames, OF_FRAMES, None),
    ):
        one, two = (
            wainwright.score(HERON, table, scores, groups=groups, threads=threads) for threads in (1, 2)
        )
        assert cells(one) == cells(two)


def test_the_index_of_pandas_is_kept() -> None:
    index = pd.MultiIndex.from_tuples([("b", 2), ("a", 1), ("b", 2)], names=["shop", "order"])
    frame = pd.DataFrame({GALLEY: [10.0, -1.0, 30.0]}, index=index)
    scored = wainwright.score(HERON, frame, [LEFT])
    assert scored.index.equals(index)
    assert scored.index.names == ["shop", "order"]
    assert list(scored.columns) == [LEFT, "errors"]
    assert list(frame.columns) == [GALLEY]


def test_a_frame_of_ones_own_kind_is_one_of_pandas() -> None:
    own = type("Orders", (pd.DataFrame,), {})
    frame = own({GALLEY: [10.0, 20.0]}, index=["b", "a"])
    scored = wainwright.score(HERON, frame, [LEFT])
    assert isinstance(scored, pd.DataFrame)
    assert list(scored.index) == ["b", "a"]


def test_a_build_is_a_base_as_its_document_is() -> None:
    build = wainwright.Build.from_dict(HERON)
    columns = {**numbers(9, 40, MASSES), "battery.capacity_ah": [120.0, 240.0] * 20}
    scores = [*OF_MASSES, "energy_budget.months.0.unmet_kwh"]
    table = arrow(columns)
    assert wainwright.score(build, table, scores) == wainwright.score(HERON, table, scores)
    # Both with groups, and both with the same mistakes.
    chosen = pa.table({"battery": ["battery_100", None], GALLEY: [100.0, 200.0]})
    assert wainwright.score(build, chosen, [LEFT], groups=GROUPS) == wainwright.score(
        HERON, chosen, [LEFT], groups=GROUPS
    )
    wrong = pa.table({"parts.gallery.mass_lb": [1.0], "battery.nominal_v": ["12"]})
    told = []
    for base in (build, HERON):
        with pytest.raises(wainwright.BuildError) as caught:
            wainwright.score(base, wrong, ["payload.state.outbound.payload_left_lb", "cooling_load.hour"])
        told.append(caught.value.errors)
    assert told[0] == told[1]
    assert len(told[0]) == 4


def test_faults_of_scores_stand_at_their_scores_and_in_order() -> None:
    scores = ["bogus.x", "energy_budget.nope", "payload.states.outbound.payload_lft_lb"]
    for base in (HERON, wainwright.Build.from_dict(HERON)):
        with pytest.raises(wainwright.BuildError) as caught:
            wainwright.score(base, pa.table({GALLEY: [1.0]}), scores)
        pointers = [error["pointer"] for error in caught.value.errors]
        assert pointers == ["/scores/0", "/scores/1", "/scores/2"]
        assert caught.value.errors[2].get("suggestion") == LEFT


def test_faults_of_the_base_come_first() -> None:
    trailer = {"gvwr_lb": 7000, "bare": {"mass_lb": 2000}}
    base = {"parts": {"galley": {"mass_lb": 100}}, "trailer": trailer}
    table = pa.table({"parts.galley.mas_lb": [1.0], GALLEY: [1.0]})
    for of in (base, wainwright.Build.from_dict(base)):
        with pytest.raises(wainwright.BuildError) as caught:
            wainwright.score(of, table, ["payload.states.delivered.gros_mass_lb", "energy_budget.autonomy_h"])
        pointers = [error["pointer"] for error in caught.value.errors]
        assert pointers[-2:] == ["/columns/parts.galley.mas_lb", "/scores/0"]
        assert len(pointers) > 2
        assert all(pointer.startswith("/base/") for pointer in pointers[:-2])


def weather(folder: Path, air_c: float) -> Path:
    """A folder with a day of weather."""
    folder.mkdir()
    day = "LOCATION,Flats,NC,USA,invented,000000,36.10,-79.95,-5.0,273.0\n"
    day += "DATA PERIODS,1,1,Data,Sunday,6/1,6/1\n"
    for hour in range(1, 25):
        day += f"2001,6,1,{hour},60,?9?9,{air_c},8.0,60,98000,0,0,300,0,0,0,0,0,0,0,180,2.5\n"
    (folder / "flats.epw").write_text(day, encoding="utf-8")
    return folder


def test_a_build_brings_the_folder_of_its_weather(tmp_path: Path) -> None:
    cool, hot = weather(tmp_path / "cool", 15.0), weather(tmp_path / "hot", 31.0)
    document = {**HERON, "site": {"weather": {"file": "flats.epw"}}}
    build = wainwright.Build.from_dict(document, weather_folder=cool)
    table = pa.table({"battery.capacity_ah": [100.0, 200.0], GALLEY: [100.0, 200.0]})
    scores = ["energy_budget.total.load_kwh", LEFT]
    scored = wainwright.score(build, table, scores)
    assert scored == wainwright.score(document, table, scores, weather_folder=cool)
    assert scored.column("errors").null_count == 2
    # One that is given goes first.
    of_hot = wainwright.score(build, table, scores, weather_folder=hot)
    assert of_hot == wainwright.score(document, table, scores, weather_folder=hot)
    assert of_hot != scored


def test_a_build_brings_its_weather_to_catalogues_without(tmp_path: Path) -> None:
    cool, hot = weather(tmp_path / "cool", 15.0), weather(tmp_path / "hot", 31.0)
    catalogues = tmp_path / "catalogues"
    catalogues.mkdir()
    (catalogues / "few.json").write_text(json.dumps({"base": HERON, "groups": GROUPS}), encoding="utf-8")
    document = {**HERON, "site": {"weather": {"file": "flats.epw"}}}
    build = wainwright.Build.from_dict(document, weather_folder=cool)

    def load_kwh(folder: wainwright.CatalogueFolder | Path, given: Path | None = None) -> float:
        report = wainwright.options(
            build, chosen=["battery_100"], catalogue="few", catalogue_folder=folder, weather_folder=given
        ).report
        assert report.energy_budget is not None
        return report.energy_budget.total.load_kwh

    of_cool = load_kwh(catalogues)
    assert load_kwh(wainwright.CatalogueFolder(catalogues)) == of_cool
    assert load_kwh(wainwright.CatalogueFolder(catalogues, weather_folder=hot)) > of_cool
    assert load_kwh(wainwright.CatalogueFolder(catalogues), hot) > of_cool


def test_other_threads_run_meanwhile() -> None:
    stop, counted = threading.Event(), [0]

    def count() -> None:
        while not stop.wait(0.005):
            counted[0] += 1

    counter = threading.Thread(target=count)
    counter.start()
    try:
        begun, before = time.monotonic(), counted[0]
        wainwright.score(HERON, LONG.slice(0, 250), OF_LONG, threads=1)
        took, while_scoring = time.monotonic() - begun, counted[0] - before
    finally:
        stop.set()
        counter.join()
    assert took > 0.3
    assert while_scoring > 10


def test_progress_is_told_how_much_of_how_much_is_done() -> None:
    told: list[tuple[int, int]] = []
    wainwright.score(HERON, LONG.slice(0, 300), OF_LONG, progress=lambda *of: told.append(of))
    assert len(told) > 1
    assert all(0 <= done <= of == 300 for done, of in told)
    assert told == sorted(told)
    assert told[-1][0] > told[0][0]


def test_what_progress_raises_ends_the_work() -> None:
    begun: list[float] = []

    def progress(_done: int, _of: int) -> None:
        begun.append(time.monotonic())
        raise LookupError("enough")

    with pytest.raises(LookupError, match="enough"):
        wainwright.score(HERON, LONG, OF_LONG, progress=progress)
    assert len(begun) == 1
    assert time.monotonic() - begun[0] < 1


def test_an_interrupt_ends_the_work_within_a_second() -> None:
    sent: list[float] = []

    def interrupt() -> None:
        sent.append(time.monotonic())
        os.kill(os.getpid(), signal.SIGINT)

    timer = threading.Timer(0.4, interrupt)
    timer.start()
    try:
        with pytest.raises(KeyboardInterrupt):
            wainwright.score(HERON, LONG, OF_LONG)
        ended = time.monotonic()
    finally:
        timer.cancel()
        timer.join()
    assert ended - sent[0] < 1


def test_a_bar_is_shown_where_it_is_wanted(capsys: pytest.CaptureFixture[str]) -> None:
    wainwright.score(HERON, LONG.slice(0, 800), OF_LONG, threads=1, progress=True)
    shown = capsys.readouterr().err
    assert " builds/s" in shown or "s/ builds" in shown, shown
    assert "/800" in shown
    wainwright.score(HERON, LONG.slice(0, 10), OF_LONG, progress=False)
    assert capsys.readouterr().err == ""
