"""From Python objects to the JSON text that the calculation reads."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from typing import TypeAlias

from . import _wainwright
from ._errors import BuildError, Fault

JSON: TypeAlias = "dict[str, JSON] | list[JSON] | str | float | bool | None"

NESTING_LIMIT = 32
"""Objects and lists may lie this deep inside one another."""


def to_json(document: Mapping[str, object], *, is_build: bool = True) -> bytes:
    """The document as JSON text, every float in the shortest form that reads back to the same float.

    Raises `BuildError` naming every value that JSON cannot hold and, of a build, whatever else the reader
    finds wrong.
    """
    writer = _Writer()
    text = json.dumps(writer.plain(document, "", 0), allow_nan=False).encode()
    if writer.faults:
        others = _others(text, writer.faults) if is_build else []
        raise BuildError([*writer.faults, *others])
    return text


def request_json(builds: Mapping[str, bytes], members: Mapping[str, object]) -> bytes:
    """A request as JSON text: builds that are text already, and after them what else it has.

    Raises `BuildError` naming every value that JSON cannot hold.
    """
    texts = [json.dumps(name).encode() + b": " + text for name, text in builds.items()]
    if members:
        texts.append(to_json(members, is_build=False)[1:-1])
    return b"{" + b", ".join(texts) + b"}"


def _others(text: bytes, known: list[Fault]) -> list[Fault]:
    """What the reader finds wrong besides: at the places known it meets `null` and calls it missing."""
    places = {fault["pointer"] for fault in known}
    try:
        _wainwright.Build.from_json(text)
    except BuildError as error:
        return [fault for fault in error.errors if fault["pointer"] not in places]
    return []


class _Writer:
    """Turns a document into what `json` can write and notes what cannot be written."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []

    def plain(self, value: object, pointer: str, depth: int) -> JSON:
        """The value in plain JSON types; `None` in place of what JSON cannot hold."""
        if value is None or isinstance(value, (str, bool)):
            return value
        if isinstance(value, (int, float)):
            return self._number(value, pointer)
        if depth >= NESTING_LIMIT:
            return self._fault(pointer, f"must not lie deeper than {NESTING_LIMIT} objects and lists")
        if isinstance(value, Mapping):
            return self._object(value, pointer, depth)
        if isinstance(value, (list, tuple)):
            return [self.plain(item, f"{pointer}/{i}", depth + 1) for i, item in enumerate(value)]
        item = getattr(value, "item", None)
        if callable(item) and getattr(value, "ndim", None) == 0:  # a scalar of numpy and the like
            return self.plain(item(), pointer, depth + 1)
        return self._fault(pointer, f"must be something that JSON can hold; got {_name(value)}")

    def _number(self, value: float, pointer: str) -> JSON:
        try:
            finite = math.isfinite(value)
        except OverflowError:
            return self._fault(pointer, "must be a number that a double can hold; got one too large")
        return value if finite else self._fault(pointer, f"must be a finite number; got {value}")

    def _object(self, value: Mapping[object, object], pointer: str, depth: int) -> JSON:
        members: dict[str, JSON] = {}
        for key, member in value.items():
            if isinstance(key, str):
                escaped = key.replace("~", "~0").replace("/", "~1")
                members[key] = self.plain(member, f"{pointer}/{escaped}", depth + 1)
            else:
                self._fault(pointer, f"must have text for keys; got {key!r:.64}, {_name(key)}")
        return members

    def _fault(self, pointer: str, detail: str) -> JSON:
        self.faults.append({"pointer": pointer, "code": "wrong_type", "detail": detail})
        return None


def _name(value: object) -> str:
    kind = type(value)
    return kind.__name__ if kind.__module__ == "builtins" else f"{kind.__module__}.{kind.__name__}"
