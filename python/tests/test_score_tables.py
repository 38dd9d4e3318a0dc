"""Odd tables are scored right, or refused with the column named. All numbers are invented."""

from __future__ import annotations

import struct
from datetime import date, datetime, time, timedelta, timezone
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import duckdb
import numpy as np
import pandas as pd
import polars as pl
import pyarrow as pa
import pytest

import wainwright

from .packages import GALLEY, GROUPS, HERON, LEFT, cells, one_by_one

if TYPE_CHECKING:
    from collections.abc import Callable

NULL = f"/{GALLEY.replace('.', '/')} is null; give a number, or leave the column out to keep the base's"
OPTION_NULL = "awning is null; give true or false"


def fault(table: Any, groups: dict[str, Any] | None = None) -> wainwright.Fault:
    """The one fault of a table that is refused."""
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.score(HERON, table, [LEFT], groups=groups)
    (only,) = caught.value.errors
    return only


def scored(table: Any) -> dict[str, list[Any]]:
    """The cells of a table that is scored."""
    return cells(wainwright.score(HERON, table, [LEFT]))


def of_floats(*masses: float | None) -> dict[str, list[Any]]:
    """The cells of a plain table with these masses of the galley."""
    return scored(pa.table({GALLEY: pa.array(masses, pa.float64())}))


def chosen(table: Any) -> dict[str, list[Any]]:
    """The price of each row's options, in plain numbers, and what is wrong with it."""
    got = wainwright.score(HERON, table, ["price_usd"], groups=GROUPS)
    return {name: of.to_pylist() for name, of in zip(["price", "errors"], _columns(got), strict=True)}


def _columns(table: Any) -> list[Any]:
    plain = table.reset_index(drop=True) if hasattr(table, "reset_index") else table
    return list(pa.table(plain).columns)


def test_a_column_that_names_no_field_is_named_with_what_is_near() -> None:
    name = "parts.galey.mass_lb"
    for table in (pa.table({name: [1.0]}), pl.DataFrame({name: [1.0]}), pd.DataFrame({name: [1.0]})):
        only = fault(table)
        assert (only["pointer"], only["code"]) == (f"/columns/{name}", "unknown_id")
        assert only.get("suggestion") == GALLEY
    assert fault(pa.table({"batery": ["battery_300"]}), GROUPS).get("suggestion") == "battery"


def test_a_slash_in_a_name_is_escaped() -> None:
    assert (
        fault(pa.table({"parts.gal/ley~.mass_lb": [1.0]}))["pointer"] == "/columns/parts.gal~1ley~0.mass_lb"
    )
    assert fault(pa.table({"a/b": [[1.0]]}))["pointer"] == "/columns/a~1b"


@pytest.mark.parametrize(
    "kind",
    [pa.string(), pa.large_string(), pa.string_view(), pa.dictionary(pa.int8(), pa.string())],
    ids=str,
)
def test_text_where_numbers_belong_is_refused(kind: pa.DataType) -> None:
    only = fault(pa.table({GALLEY: pa.array(["heavy"], pa.string()).cast(kind)}))
    assert only["pointer"] == f"/columns/{GALLEY}"
    assert only["detail"] == "must hold numbers; it holds text"


ODD: dict[str, pa.Array] = {
    "list": pa.array([[1.0]]),
    "large_list": pa.array([[1.0]], pa.large_list(pa.float64())),
    "fixed_list": pa.array([[1.0]], pa.list_(pa.float64(), 1)),
    "struct": pa.array([{"a": 1}]),
    "map": pa.array([[("a", 1)]], pa.map_(pa.string(), pa.int64())),
    "date": pa.array([date(2025, 6, 1)]),
    "timestamp": pa.array([datetime(2025, 6, 1, tzinfo=timezone.utc)]),
    "time": pa.array([time(12)]),
    "duration": pa.array([timedelta(hours=1)]),
    "binary": pa.array([b"heavy"]),
    "fixed_binary": pa.array([b"heavy"], pa.binary(5)),
    "dictionary_of_dates": pa.array([date(2025, 6, 1)]).dictionary_encode(),
}


@pytest.mark.parametrize("kind", ODD)
def test_a_column_of_what_no_field_holds_is_refused(kind: str) -> None:
    only = fault(pa.table({"parts.bunk_left.mass_lb": [3.0], GALLEY: ODD[kind]}))
    assert (only["pointer"], only["code"]) == (f"/columns/{GALLEY}", "wrong_type")
    assert only["detail"].startswith("must hold numbers, text, or true and false; it holds ")


def test_columns_of_polars_and_pandas_that_no_field_holds_are_refused() -> None:
    tables = [
        pl.DataFrame({GALLEY: [date(2025, 6, 1)]}),
        pl.DataFrame({GALLEY: [[1.0, 2.0]]}),
        pl.DataFrame({GALLEY: [{"a": 1.0}]}),
        pd.DataFrame({GALLEY: pd.to_datetime(["2025-06-01"])}),
        pd.DataFrame({GALLEY: [[1.0]]}),
    ]
    assert {fault(table)["pointer"] for table in tables} == {f"/columns/{GALLEY}"}


def test_true_and_false_where_numbers_belong_are_refused() -> None:
    only = fault(pa.table({GALLEY: [True, None]}))
    assert (only["pointer"], only["detail"]) == (
        f"/columns/{GALLEY}",
        "must hold numbers; it holds true and false",
    )


def test_what_belongs_to_no_group_or_option_is_refused() -> None:
    assert fault(pa.table({"battery": [1.0]}), GROUPS)["pointer"] == "/columns/battery"
    assert fault(pa.table({"awning": [1]}), GROUPS)["pointer"] == "/columns/awning"
    assert fault(pa.table({"awning": ["true"]}), GROUPS)["pointer"] == "/columns/awning"
    assert fault(pa.table({"extras": ["awning"]}), GROUPS)["pointer"] == "/columns/extras"


def test_a_name_given_twice_is_refused() -> None:
    twice = pa.table([pa.array([1.0]), pa.array([2.0])], names=[GALLEY, GALLEY])
    only = fault(twice)
    assert (only["pointer"], only["code"]) == (f"/columns/{GALLEY}", "duplicate_key")


def test_every_odd_column_is_named_at_once() -> None:
    table = pa.table({"a.b": [1.0], GALLEY: ["heavy"], "parts.bench.mass_lb": [1.0]})
    with pytest.raises(wainwright.BuildError) as caught:
        wainwright.score(HERON, table, [LEFT])
    pointers = [one["pointer"] for one in caught.value.errors]
    assert pointers == ["/columns/a.b", f"/columns/{GALLEY}", "/columns/parts.bench.mass_lb"]


NOT_FINITE = "/parts/galley/mass_lb must be a finite number; got "


def test_a_null_is_an_error_of_its_row_alone() -> None:
    plain = of_floats(10.0, 30.0)[LEFT]
    tables = [
        pa.table({GALLEY: [10.0, None, 30.0]}),
        pl.DataFrame({GALLEY: [10.0, None, 30.0]}),
        pd.DataFrame({GALLEY: pd.array([10, None, 30], dtype="Int64")}),
        duckdb.from_arrow(pa.table({GALLEY: [10, None, 30]})),
    ]
    for table in tables:
        assert scored(table) == {LEFT: [plain[0], None, plain[1]], "errors": [None, NULL, None]}


def test_nan_and_infinity_are_errors_of_their_rows_alone() -> None:
    got = scored(pl.DataFrame({GALLEY: [float("nan"), 165.0, float("inf"), float("-inf")]}))
    assert got[LEFT] == [None, *of_floats(165.0)[LEFT], None, None]
    assert got["errors"][1] is None
    assert [error.lower() for error in got["errors"] if error] == [
        NOT_FINITE + "nan",
        NOT_FINITE + "inf",
        NOT_FINITE + "-inf",
    ]


def test_a_column_of_nulls_alone_is_one_of_any_kind() -> None:
    for nulls in (pa.nulls(2), pa.nulls(2, pa.string()), pa.nulls(2, pa.bool_())):
        assert scored(pa.table({GALLEY: nulls})) == {LEFT: [None, None], "errors": [NULL, NULL]}
    assert chosen(pa.table({"battery": pa.nulls(2)})) == {"price": [0.0, 0.0], "errors": [None, None]}
    assert chosen(pa.table({"awning": pa.nulls(1)})) == {"price": [None], "errors": [OPTION_NULL]}


NONE: dict[str, Any] = {
    "pyarrow": pa.table({GALLEY: pa.array([], pa.float64())}),
    "no_chunk": pa.table({GALLEY: pa.chunked_array([], pa.float64())}),
    "polars": pl.DataFrame({GALLEY: pl.Series([], dtype=pl.Float64)}),
    "pandas": pd.DataFrame({GALLEY: pd.Series([], dtype="float64")}),
    "duckdb": duckdb.from_arrow(pa.table({GALLEY: pa.array([], pa.float64())})),
    "no_column": pa.table({}),
    "no_column_of_polars": pl.DataFrame(),
    "no_column_of_pandas": pd.DataFrame(),
}


@pytest.mark.parametrize("kind", NONE)
def test_no_row_gives_no_row(kind: str) -> None:
    got = wainwright.score(HERON, NONE[kind], [LEFT])
    assert type(got) is type(NONE[kind])
    assert cells(got) == {LEFT: [], "errors": []}


def test_rows_without_a_column_are_the_base() -> None:
    base = of_floats(HERON["parts"]["galley"]["mass_lb"])[LEFT]
    for table in (
        pl.DataFrame(height=3),
        pd.DataFrame(index=[7, 8, 9]),
        pa.table({"a": [1, 2, 3]}).select([]),
    ):
        assert scored(table) == {LEFT: base * 3, "errors": [None] * 3}


def test_a_single_row_is_scored() -> None:
    expected = of_floats(165.0, 165.0)[LEFT][:1]
    for table in (
        pa.table({GALLEY: [165.0]}),
        pl.DataFrame({GALLEY: [165.0]}),
        pd.DataFrame({GALLEY: [165]}),
    ):
        assert scored(table) == {LEFT: expected, "errors": [None]}


def test_dictionaries_of_text_choose() -> None:
    ids = ["battery_300", None, "battery_100", "battery_300"]
    tables = [
        pa.table({"battery": pa.array(ids).dictionary_encode()}),
        pa.table({"battery": pa.array(ids, pa.string_view())}),
        pa.table({"battery": pa.array(ids, pa.large_string())}),
        pl.DataFrame({"battery": pl.Series(ids, dtype=pl.Categorical)}),
        pl.DataFrame({"battery": pl.Series(ids, dtype=pl.Enum(["battery_100", "battery_300"]))}),
        pd.DataFrame({"battery": pd.Categorical(ids)}),
        pd.DataFrame({"battery": ids}),
        duckdb.from_arrow(pa.table({"battery": ids})),
    ]
    for table in tables:
        assert chosen(table) == {"price": [460.0, 0.0, -420.0, 460.0], "errors": [None] * 4}


def test_an_id_that_is_none_is_an_error_of_its_row() -> None:
    got = chosen(pl.DataFrame({"battery": pl.Series(["battery_301", "battery_100"], dtype=pl.Categorical)}))
    assert got["price"] == [None, -420.0]
    assert got["errors"][0].startswith('battery has no option "battery_301"; its options are battery_100, ')
    assert got["errors"][1] is None


def test_dictionaries_of_numbers_are_numbers() -> None:
    values = pa.DictionaryArray.from_arrays(pa.array([1, 0, None, 2]), pa.array([10.0, 30.0, None]))
    expected = of_floats(30.0, 10.0, None, None)
    assert scored(pa.table({GALLEY: values})) == expected
    assert scored(pd.DataFrame({GALLEY: pd.Categorical([30, 10, None, None])})) == expected


def test_true_and_false_with_nulls_choose() -> None:
    flags = [True, None, False]
    for table in (
        pa.table({"awning": flags}),
        pl.DataFrame({"awning": flags}),
        pd.DataFrame({"awning": pd.array(flags, dtype="boolean")}),
        pa.table({"awning": pa.DictionaryArray.from_arrays(pa.array([1, None, 0]), pa.array([False, True]))}),
    ):
        assert chosen(table) == {"price": [780.0, None, 0.0], "errors": [None, OPTION_NULL, None]}


def test_chunks_are_put_together() -> None:
    chunks: list[list[float | None]] = [[], [10.0, None], [], [-1.0, 30.0, 40.0], []]
    masses = [mass for chunk in chunks for mass in chunk]
    assert scored(pa.table({GALLEY: pa.chunked_array(chunks, pa.float64())})) == of_floats(*masses)
    assert scored(
        pl.concat([pl.DataFrame({GALLEY: [1.0]}), pl.DataFrame({GALLEY: [2.0]})], rechunk=False)
    ) == (of_floats(1.0, 2.0))
    words = [pa.array([name, None]).dictionary_encode() for name in ("battery_300", "battery_100")]
    table = pa.table({"battery": pa.chunked_array(words), "awning": pa.chunked_array([[True], [False] * 3])})
    assert chosen(table) == {"price": [1240.0, 0.0, -420.0, 0.0], "errors": [None] * 4}


def test_a_slice_is_the_rows_it_has() -> None:
    table = pa.table(
        {
            "awning": [True, False, None, True, True],
            "battery": pa.array(
                ["battery_100", "battery_300", None, "battery_100", None]
            ).dictionary_encode(),
            GALLEY: [1.0, 2.0, 3.0, None, 5.0],
        }
    )
    expected = {"price": [460.0, None, None], "errors": [None, OPTION_NULL, NULL]}
    assert chosen(table.slice(1, 3)) == expected
    frame = pl.DataFrame(table)
    assert chosen(frame[1:4]) == expected
    longer = pa.table({GALLEY: [None if row % 7 == 0 else float(row) for row in range(100)]})
    assert scored(longer.slice(13, 40)) == of_floats(*longer.column(0).to_pylist()[13:53])


@pytest.mark.parametrize(
    "kind",
    [
        *(pa.int8(), pa.int16(), pa.int32(), pa.int64()),
        *(pa.uint8(), pa.uint16(), pa.uint32(), pa.uint64()),
        *(pa.float16(), pa.float32(), pa.float64()),
        *(pa.decimal32(5, 1), pa.decimal64(9, 2), pa.decimal128(12, 3), pa.decimal256(50, 4)),
    ],
    ids=str,
)
def test_numbers_of_any_kind_are_those_numbers(kind: pa.DataType) -> None:
    wanted = [10, None, 127, 0]
    plain = (
        [np.float16(mass) if mass is not None else None for mass in wanted]
        if kind == pa.float16()
        else wanted
    )
    if pa.types.is_decimal(kind):
        plain = [None if mass is None else Decimal(mass) for mass in wanted]
    assert scored(pa.table({GALLEY: pa.array(plain, kind)})) == of_floats(10.0, None, 127.0, 0.0)


@pytest.mark.parametrize("kind", [pa.decimal64(9, 3), pa.decimal128(12, 3), pa.decimal256(50, 3)], ids=str)
def test_a_decimal_is_the_nearest_float(kind: pa.DataType) -> None:
    masses = [Decimal("165.1"), Decimal("0.003"), Decimal("299.999"), Decimal("12.345")]
    assert scored(pa.table({GALLEY: pa.array(masses, kind)})) == of_floats(*map(float, masses))


def test_a_decimal_of_duckdb_is_the_nearest_float() -> None:
    assert scored(duckdb.sql(f'select 165.1 as "{GALLEY}"')) == of_floats(165.1)


def test_short_floats_are_widened_exactly() -> None:
    masses = [165.1, 0.1, 299.7, 1 / 3]
    singles = [struct.unpack("<f", struct.pack("<f", mass))[0] for mass in masses]
    halves = [struct.unpack("<e", struct.pack("<e", mass))[0] for mass in masses]
    expected = of_floats(*singles)
    assert expected != of_floats(*masses)
    assert scored(pa.table({GALLEY: pa.array(masses, pa.float32())})) == expected
    assert scored(pl.DataFrame({GALLEY: pl.Series(masses, dtype=pl.Float32)})) == expected
    assert scored(pd.DataFrame({GALLEY: np.array(masses, dtype="float32")})) == expected
    assert scored(pa.table({GALLEY: pa.array(np.array(masses, dtype="float16"))})) == of_floats(*halves)


def test_a_large_whole_number_is_out_of_range() -> None:
    (error,) = scored(pa.table({GALLEY: [2**62]}))["errors"]
    assert error == one_by_one({GALLEY: [float(2**62)]}, [LEFT], 0)["errors"]


def test_a_batch_and_a_stream_are_tables_of_pyarrow() -> None:
    table = pa.table({GALLEY: [10.0, None, 30.0]})
    expected = of_floats(10.0, None, 30.0)
    assert scored(pa.record_batch({GALLEY: [10.0, None, 30.0]})) == expected
    reader = pa.RecordBatchReader.from_batches(table.schema, table.to_batches(max_chunksize=2))
    assert scored(reader) == expected
    duck = wainwright.score(HERON, duckdb.from_arrow(table), [LEFT])
    assert type(duck) is duckdb.DuckDBPyRelation
    assert cells(duck) == expected


NO_TABLES: dict[str, Callable[[], Any]] = {
    "none": lambda: None,
    "dict": lambda: {GALLEY: [1.0]},
    "list": lambda: [{GALLEY: 1.0}],
    "array": lambda: np.zeros(3),
    "arrow_array": lambda: pa.array([1.0]),
    "arrow_chunks": lambda: pa.chunked_array([[1.0]]),
    "lazy_frame": lambda: pl.DataFrame({GALLEY: [1.0]}).lazy(),
    "series_of_polars": lambda: pl.Series(GALLEY, [1.0]),
    "series_of_pandas": lambda: pd.Series([1.0], name=GALLEY),
}


@pytest.mark.parametrize("kind", NO_TABLES)
def test_what_is_no_table_is_a_type_error(kind: str) -> None:
    with pytest.raises(TypeError, match="table"):
        wainwright.score(HERON, NO_TABLES[kind](), [LEFT])
