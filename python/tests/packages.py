"""What the tests of tables share: the demonstration build, its options, and tables read cell by cell."""

from __future__ import annotations

import json
from pathlib import Path
from random import Random
from typing import Any, TypeAlias

import pyarrow as pa

import wainwright

ROOT = Path(__file__).parents[2]
HERON: dict[str, Any] = json.loads((ROOT / "tests/builds/heron.json").read_bytes())
GROUPS: dict[str, Any] = json.loads((ROOT / "tests/catalogues/heron.json").read_bytes())["groups"]

GALLEY = "parts.galley.mass_lb"
LEFT = "payload.states.outbound.payload_left_lb"

Columns: TypeAlias = "dict[str, list[Any]]"


def numbers(seed: int, rows: int, bounds: dict[str, tuple[float, float]]) -> Columns:
    """Columns of random numbers within their bounds, always the same for the same seed."""
    random = Random(seed)
    return {path: [random.uniform(*of) for _ in range(rows)] for path, of in bounds.items()}


def arrow(scored: Any) -> pa.Table:
    """A table of any kind as one of Arrow."""
    return pa.table(scored.reset_index(drop=True) if hasattr(scored, "reset_index") else scored)


def cells(scored: Any) -> dict[str, list[Any]]:
    """Every cell of a table of any kind, numbers with all their bits."""
    table = arrow(scored)
    return {name: [bits(cell) for cell in table.column(name).to_pylist()] for name in table.column_names}


def bits(cell: Any) -> Any:
    """A cell that equals another only where every bit does."""
    return cell.hex() if isinstance(cell, float) else cell


def row_build(columns: Columns, row: int) -> dict[str, Any]:
    """The build of a row, made as anyone would: its options' patches in their order, then its numbers."""
    build: dict[str, Any] = json.loads(json.dumps(HERON))
    for group, of in GROUPS.items():
        for option, what in of["options"].items():
            if columns.get(group, {row: None})[row] == option or columns.get(option, {row: False})[row]:
                build = merged(build, what["patch"])
    for path, values in columns.items():
        if "." in path:
            *place, last = path.split(".")
            here = build
            for key in place:
                here = here[key]
            here[last] = values[row]
    return build


def merged(target: Any, patch: Any) -> Any:
    """A document with a JSON Merge Patch applied to it."""
    if not isinstance(patch, dict):
        return patch
    result = dict(target) if isinstance(target, dict) else {}
    for key, value in patch.items():
        if value is None:
            result.pop(key, None)
        else:
            result[key] = merged(result.get(key), value)
    return result


def figure(report: dict[str, Any], path: str) -> Any:
    """A figure of a report by its path, which begins with the question."""
    here: Any = report
    for key in path.split(".")[1:]:
        here = here[int(key)] if isinstance(here, list) else here[key]
    return None if here is None else float(here)


def one_by_one(columns: Columns, scores: list[str], row: int) -> dict[str, Any]:
    """The scores of a row, its build put to every question by itself; what is wrong with it as `errors`."""
    try:
        build = wainwright.Build.from_dict(row_build(columns, row))
        reports = {question: getattr(build, question)().to_dict() for question in _questions(scores)}
    except wainwright.BuildError as error:
        return {**dict.fromkeys(scores), "errors": str(error)}
    figures = {path: bits(figure(reports[path.partition(".")[0]], path)) for path in scores}
    return {**figures, "errors": None}


def _questions(scores: list[str]) -> list[str]:
    return sorted({path.partition(".")[0] for path in scores})
