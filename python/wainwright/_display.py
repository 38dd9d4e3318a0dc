"""Reports as a person at a notebook reads them: a summary of a few lines, and tables."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields
from html import escape
from typing import TYPE_CHECKING, Any, TypeGuard

if TYPE_CHECKING:
    from ._report import Record

WIDTH = 110
"""A line of a summary is no longer."""

COLUMNS = {
    "Finding": ("severity", "message", "remedy", "subject", "citation"),
    "Assumption": ("pointer", "value", "unit", "reason"),
}
"""The columns that are shown of records whose text is long."""


def figure(value: object) -> str:
    """A single value for people: numbers with five digits or so, thousands grouped."""
    if value is None:
        return "-"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, float):
        return str(value)
    decimals = 1 if abs(value) >= 100 else 2 if abs(value) >= 10 else 4
    text = f"{value:,.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def summary(report: Record) -> str:
    """The report in a line for each field, and one for each entry of its maps."""
    lines = [type(report).__name__]
    for field in fields(report):
        name, value = field.name, getattr(report, field.name)
        if isinstance(value, Mapping):
            lines.append(f"{name}: {len(value) or 'none'}")
            lines += [f"  {key}: {_in_short(entry)}" for key, entry in value.items()]
        else:
            lines.append(f"{name}: {_in_short(value)}")
    return "\n  ".join(line if len(line) <= WIDTH else line[: WIDTH - 1] + "…" for line in lines)


def _in_short(value: Any) -> str:
    if _is_record(value):
        singles = (
            (name, single) for name, single in _flat(value) if not isinstance(single, (tuple, Mapping))
        )
        return ", ".join(f"{name} {figure(single)}" for name, single in singles)
    if isinstance(value, tuple):
        return _counted(value)
    if isinstance(value, Mapping):
        return ", ".join(value) or "none"
    return figure(value)


def _counted(items: tuple[object, ...]) -> str:
    """How many there are; where they have a severity, of each."""
    severities = Counter(str(severity) for item in items if (severity := getattr(item, "severity", None)))
    if severities:
        return ", ".join(f"{count} {word}{'s' if count > 1 else ''}" for word, count in severities.items())
    return str(len(items) or "none")


def html(record: Record) -> str:
    """The record as tables: one of its single values, one for each of its maps and lists of records."""
    singles: list[tuple[str, Any]] = []
    tables: list[str] = []
    for name, value in _flat(record):
        if isinstance(value, Mapping):
            tables.append(_table(name, value.items()))
        elif isinstance(value, tuple):
            tables.append(_table(name, ((None, item) for item in value)))
        else:
            singles.append((name, value))
    return "\n".join([_table(type(record).__name__, singles), *filter(None, tables)])


def _table(caption: str, rows: Iterable[tuple[str | None, Any]]) -> str:
    """A table with a row for each entry; a record spreads over columns."""
    spread = [(key, _cells(value)) for key, value in rows]
    if not spread:
        return ""
    columns = list(dict.fromkeys(column for _, cells in spread for column in cells))
    keyed = any(key is not None for key, _ in spread)
    head = [""] * keyed + columns
    lines = [f"<table><caption>{escape(caption)}</caption>"]
    if any(head):
        lines.append("<thead><tr>" + "".join(f"<th>{escape(name)}</th>" for name in head) + "</tr></thead>")
    lines.append("<tbody>")
    for key, cells in spread:
        first = f'<th style="text-align:left">{escape(key or "")}</th>' if keyed else ""
        lines.append(f"<tr>{first}{''.join(_cell(cells.get(column)) for column in columns)}</tr>")
    return "\n".join([*lines, "</tbody></table>"])


def _cells(value: Any) -> dict[str, Any]:
    if not _is_record(value):
        return {"": value}
    shown = COLUMNS.get(type(value).__name__)
    return {name: single for name, single in _flat(value) if shown is None or name in shown}


def _cell(value: object) -> str:
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    text = figure(value) if is_number else _in_short(value)
    return f'<td style="text-align:{"right" if is_number else "left"}">{escape(text)}</td>'


def _flat(record: Record) -> Iterator[tuple[str, Any]]:
    """The fields, those of records inside under their name and a dot."""
    for field in fields(record):
        value = getattr(record, field.name)
        if _is_record(value):
            yield from ((f"{field.name}.{name}", inner) for name, inner in _flat(value))
        else:
            yield field.name, value


def _is_record(value: object) -> TypeGuard[Record]:
    return hasattr(value, "__dataclass_fields__")
