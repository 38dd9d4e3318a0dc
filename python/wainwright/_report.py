"""What all reports and their parts have in common.

The classes themselves are in `reports`, made from the published schemas.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Mapping
from dataclasses import fields
from functools import cache
from typing import TYPE_CHECKING, Any

from . import _display

if TYPE_CHECKING:
    from dataclasses import Field
    from typing import ClassVar

    from typing_extensions import Self

    from ._build import Build

__all__ = ["Answer", "Record", "Report"]


class Record:
    """An object of a report: its fields are attributes, and cannot be changed."""

    __slots__ = ()

    if TYPE_CHECKING:
        __dataclass_fields__: ClassVar[dict[str, Field[Any]]]

    @classmethod
    def from_dict(cls, values: Mapping[str, Any]) -> Self:
        """The object of which `values` is the `to_dict`, or the JSON that the HTTP service answers with.

        Members that this version does not know are left out.
        """
        kind: Any = cls
        report: Self = kind(**{name: read(values[name]) for name, read in _readers(kind)})
        return report

    def to_dict(self) -> dict[str, Any]:
        """The same as plain dicts, lists, numbers and text, every float as it is."""
        return {field.name: _plain(getattr(self, field.name)) for field in fields(self)}

    def __reduce__(self) -> tuple[Callable[..., Any], tuple[Any, ...]]:
        return type(self).from_dict, (self.to_dict(),)

    def _repr_html_(self) -> str:
        return _display.html(self)


class Answer(Record):
    """The answer to a request of its own. `str` gives the whole of it as text, `repr` a summary."""

    __slots__ = ()

    def __str__(self) -> str:
        return _display.text(self)

    def __repr__(self) -> str:
        return _display.summary(self)


class Report(Record):
    """The answer to a question. `str` gives the whole of it as text, `repr` a summary."""

    __slots__ = ("_asked",)

    if TYPE_CHECKING:
        _asked: tuple[Build, str]

    @classmethod
    def answering(cls, build: Build, question: str, values: Mapping[str, Any]) -> Self:
        """The report that a build got in answer to a question."""
        report = cls.from_dict(values)
        object.__setattr__(report, "_asked", (build, question))
        return report

    def __str__(self) -> str:
        if not hasattr(self, "_asked"):
            return repr(self)  # made from a dict: without the build there is no text
        build, question = self._asked
        return build.text(question)

    def __repr__(self) -> str:
        return _display.summary(self)

    def __reduce__(self) -> tuple[Callable[..., Any], tuple[Any, ...]]:
        if not hasattr(self, "_asked"):
            return super().__reduce__()
        return type(self).answering, (*self._asked, self.to_dict())


Reader = Callable[[Any], Any]


@cache
def _readers(cls: type[Record]) -> tuple[tuple[str, Reader], ...]:
    """Each field with what makes its value from JSON."""
    hints = typing.get_type_hints(cls)
    return tuple((field.name, _reader(hints[field.name])) for field in fields(cls))


def _reader(hint: Any) -> Reader:
    if hint is float:
        return float
    if isinstance(hint, type) and issubclass(hint, Record):
        return hint.from_dict
    origin, arguments = typing.get_origin(hint), typing.get_args(hint)
    if origin is tuple:
        item = _reader(arguments[0])
        return lambda values: tuple(map(item, values))
    if origin is Mapping:
        entry = _reader(arguments[1])
        return lambda values: {key: entry(value) for key, value in values.items()}
    if origin in (types.UnionType, typing.Union) and len(arguments) == 2 and type(None) in arguments:
        some = _reader(next(argument for argument in arguments if argument is not type(None)))
        return lambda value: None if value is None else some(value)
    return _as_it_is


def _as_it_is(value: Any) -> Any:
    return value


def _plain(value: Any) -> Any:
    if isinstance(value, Record):
        return value.to_dict()
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, Mapping):
        return {key: _plain(entry) for key, entry in value.items()}
    return value
