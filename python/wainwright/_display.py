"""Reports as a person at a notebook reads them: a summary of a few lines, and tables."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import fields
from html import escape
from typing import TYPE_CHECKING, Any, TypeGuard

if TYPE_CHECKING:
    from ._report import Record

WIDTH = 110
"""A line of a summary is no longer."""

LISTED = 6
"""So many entries of a map, so many findings are listed in a summary; the gravest stand first."""

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
        value = getattr(report, field.name)
        lines.append(f"{field.name}: {_in_short(value)}")
        lines += [f"  {line}" for line in _details(value)]
    return "\n  ".join(line if len(line) <= WIDTH else line[: WIDTH - 1] + "…" for line in lines)


def text(record: Record) -> str:
    """The record in a line for each field, and one for each entry of its maps and lists of records."""
    lines = [type(record).__name__]
    for field in fields(record):
        value = getattr(record, field.name)
        rows = _rows(value)
        lines.append(f"{field.name}: {_in_short(value)}")
        lines += [f"  {key}: {_in_short(entry)}" if key else f"  {_in_short(entry)}" for key, entry in rows]
    return "\n  ".join(lines)


def _details(value: Any) -> list[str]:
    """A line for each of the first entries of a map of records, and for each of the gravest findings."""
    if isinstance(value, Mapping):
        lines = [f"{key}: {_in_short(entry)}" for key, entry in _rows(value)]
    elif isinstance(value, tuple):
        lines = [f"{item.severity}: {item.message}" for item in value if hasattr(item, "severity")]
    else:
        lines = []
    return lines if len(lines) <= LISTED else [*lines[:LISTED], f"and {len(lines) - LISTED} more"]


def _in_short(value: Any) -> str:
    """A value in a few words: records by their single values, what holds records by names or number."""
    if _is_record(value):
        singles = [pair for pair in _flat(value) if not isinstance(pair[1], (tuple, Mapping))]
        singles.sort(key=lambda pair: "." in pair[0])  # its own values before those of records inside
        return ", ".join(f"{name} {figure(single)}" for name, single in singles)
    if isinstance(value, Mapping):
        records = any(_is_record(entry) for entry in value.values())
        entries = (key if records else f"{key} {_in_short(entry)}" for key, entry in value.items())
        return ", ".join(entries) or "none"
    if isinstance(value, tuple):
        return _counted(value) if _rows(value) else ", ".join(map(_in_short, value)) or "none"
    return figure(value)


def _counted(records: tuple[Any, ...]) -> str:
    """How many there are; where they have a severity, of each."""
    severities = Counter(str(record.severity) for record in records if hasattr(record, "severity"))
    if severities:
        return ", ".join(f"{count} {word}{'s' if count > 1 else ''}" for word, count in severities.items())
    return str(len(records))


def html(record: Record) -> str:
    """The record as HTML: an evaluation with its verdict and its findings first, anything else as tables."""
    return evaluation(record) if hasattr(record, "margins") else tables(record)


def evaluation(report: Any) -> str:
    """The whole build: what to read first, all findings, the margins, and each report to unfold."""
    name = type(report).__name__
    head = f"<h3>{name}: {escape(report.verdict.status)}</h3><p>{escape(report.verdict.sentence)}</p>"
    parts = [head, _table("findings", _rows(report.findings)), tables(report.margins)]
    for field in fields(report):
        value = getattr(report, field.name)
        if field.name in ("verdict", "margins", "findings", "assumptions", "cautions", "engine"):
            continue
        body = tables(value) if _is_record(value) else "<p>Not worked out.</p>"
        name = escape(field.name.replace("_", " "))
        parts.append(f"<details><summary>{name}</summary>{body}</details>")
    assumptions = _table("assumptions", _rows(report.assumptions))
    parts.append(f"<details><summary>assumptions</summary>{assumptions}</details>")
    parts.append(_table("cautions", _rows(report.cautions)))
    return "\n".join(parts)


def tables(record: Record) -> str:
    """The record as tables: one of its single values, one for each of its maps and lists of records."""
    values = list(_flat(record))
    singles = [(name, value) for name, value in values if not _rows(value)]
    tables = [_table(name, rows) for name, value in values if (rows := _rows(value))]
    return "\n".join([_table(type(record).__name__, singles), *tables])


def _rows(value: Any) -> list[tuple[str, Any]]:
    """The entries of a map of records with their keys, or of a list of records; none of anything else."""
    if isinstance(value, Mapping):
        rows = list(value.items())
    elif isinstance(value, tuple):
        rows = [("", item) for item in value]
    else:
        return []
    return rows if any(_is_record(row) for _, row in rows) else []


def _table(caption: str, rows: list[tuple[str, Any]]) -> str:
    """A table with a row for each entry; a record spreads over columns."""
    spread = [(key, _cells(value)) for key, value in rows]
    columns = list(dict.fromkeys(column for _, cells in spread for column in cells))
    keyed = any(key for key, _ in spread)
    head = [""] * keyed + columns
    lines = [f"<table><caption>{escape(caption)}</caption>"]
    if any(head):
        lines.append("<thead><tr>" + "".join(f"<th>{escape(name)}</th>" for name in head) + "</tr></thead>")
    lines.append("<tbody>")
    for key, cells in spread:
        first = f'<th style="text-align:left">{escape(key)}</th>' if keyed else ""
        lines.append(f"<tr>{first}{''.join(_cell(cells.get(column)) for column in columns)}</tr>")
    return "\n".join([*lines, "</tbody></table>"])


def _cells(value: Any) -> dict[str, Any]:
    """The cells of a row by column; a value that is no record stands in a column without a name."""
    if value is None:
        return {}
    if not _is_record(value):
        return {"": value}
    shown = COLUMNS.get(type(value).__name__)
    return {name: single for name, single in _flat(value) if shown is None or name in shown}


def _cell(value: object) -> str:
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return f'<td style="text-align:{"right" if is_number else "left"}">{escape(_in_short(value))}</td>'


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
