"""Many builds at once: a base, a table of what varies in it, and figures of every row."""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any, TypeVar

from . import _wainwright
from ._build import Build
from ._options import Base, Catalogues, Groups, Weather, named_files, request

__all__ = ["score"]

T = TypeVar("T")
KINDS = ("polars", "pandas", "pyarrow", "duckdb", "_duckdb")
"""Packages of whose tables the scores are made one again."""


def score(
    base: Base,
    table: T,
    scores: Sequence[str],
    *,
    groups: Groups = None,
    catalogue: str | None = None,
    catalogue_folder: Catalogues = None,
    weather_folder: Weather = None,
    threads: int | None = None,
    progress: bool | Callable[[int, int], object] | None = None,
) -> T:
    """Figures of many builds at once: those of each row of a table, in its order, none left out.

    Returns a table of the same kind: a column for each score and, last, a column `errors` that says what is
    wrong with a row, null where nothing is. A figure is the same to the bit as that of the row's build put to
    the question by itself; null where the report has none, and where the row has an error.

    Other Python threads run meanwhile; Ctrl-C ends the work.

    :param base: The build that the columns vary.
    :param table: A table of polars, pandas, pyarrow or duckdb, or another that speaks the Arrow PyCapsule
        interface. A column named by a path into the build, its keys joined by dots
        (`parts.galley.mass_lb`), holds numbers. With `groups` or `catalogue`, a column named by a group of
        which one may be chosen holds ids of its options, null for none; one named by an option holds true
        and false.
    :param scores: Figures by their paths, a question first (`payload.states.outbound.payload_left_lb`);
        beside them `price_usd` and `broken_rule_count` of the options chosen.
    :param groups: Groups of options by id, as for `options`.
    :param catalogue: A catalogue of the folder by name, in place of `groups`.
    :param catalogue_folder: The folder of catalogues.
    :param weather_folder: The folder of the weather files that the base may name; left out, that of a
        `CatalogueFolder`, or of a base that is a `Build`.
    :param threads: How many work at it; left out, one for each core. Give 1 where the rows are shared out
        among processes.
    :param progress: `True` for a bar on standard error, which takes the package tqdm; `False` for none; left
        out, one where the work is long, standard error is a terminal and tqdm is there. Or a function: called
        now and then with how much of how much is done.

    Raises `BuildError` with every fault of base, columns and scores, each column by its name; `TypeError`
    where `table` is none.

    >>> import pyarrow
    >>> trailer = {"gvwr_lb": 7000, "bare": {"mass_lb": 2000}}
    >>> base = {"trailer": trailer, "parts": {"bench": {"mass_lb": 60}}}
    >>> table = pyarrow.table({"parts.bench.mass_lb": [60.0, 160.0, -1.0]})
    >>> scored = score(base, table, ["payload.states.delivered.payload_left_lb"])
    >>> [left and round(left) for left in scored.column(0).to_pylist()]
    [4940, 4840, None]
    >>> scored.column("errors").to_pylist()[2]
    '/parts/bench/mass_lb must be 0 or more; got -1'
    """
    if isinstance(scores, str):
        raise TypeError("scores must be a list of paths; got one text")
    if threads is not None and threads < 1:
        raise ValueError(f"threads must be 1 or more; got {threads}")
    kind = _kind(table)
    # pandas hands an index over as a column of its own; it is put back afterwards.
    plain: Any = table
    if kind == "pandas":
        plain = plain.reset_index(drop=True)
    asked: tuple[_wainwright.Build, bytes] | bytes
    if isinstance(base, Build) and groups is None and catalogue is None and weather_folder is None:
        asked = (base._native, base._json)
    else:
        asked = request(base, groups, catalogue)
    files = named_files(base, catalogue_folder, weather_folder)
    if not hasattr(plain, "__arrow_c_stream__"):
        given = f"{type(table).__module__}.{type(table).__qualname__}"
        raise TypeError(f"table must speak the Arrow PyCapsule interface for streams; {given} does not")
    with _told(progress) as told:
        native = _wainwright.score(asked, plain, list(scores), files, threads, told)
    scored: T = _as(kind, native, table)
    return scored


def _kind(table: object) -> str:
    """The package that a table, or what it is made from, belongs to."""
    modules = (base.__module__.partition(".")[0] for base in type(table).__mro__)
    return next((module for module in modules if module in KINDS), "")


def _as(kind: str, scored: Any, given: Any) -> Any:
    """The scores as a table of the kind that was given."""
    if kind == "polars":
        return type(given)(scored)
    if kind == "pandas":
        frame = type(given).from_arrow(scored)
        frame.index = given.index
        return frame
    if kind in ("duckdb", "_duckdb"):
        import duckdb
        import pyarrow

        return duckdb.from_arrow(pyarrow.table(scored))
    if kind == "pyarrow":
        import pyarrow

        whole = pyarrow.table(scored).combine_chunks()
        if isinstance(given, pyarrow.RecordBatch):
            arrays = [column.combine_chunks() for column in whole.columns]
            return pyarrow.RecordBatch.from_arrays(arrays, schema=whole.schema)
        return whole
    return scored


@contextmanager
def _told(
    progress: bool | Callable[[int, int], object] | None,
) -> Iterator[Callable[[int, int], object] | None]:
    """What is called with how much of how much is done."""
    if callable(progress):
        yield progress
        return
    wanted = progress
    if wanted is None:
        wanted = sys.stderr.isatty() and importlib.util.find_spec("tqdm") is not None
    if not wanted:
        yield None
        return
    from tqdm import tqdm

    with tqdm(unit=" builds", unit_scale=True, delay=1) as bar:

        def show(done: int, of: int) -> None:
            bar.total = of
            bar.update(done - bar.n)

        yield show
