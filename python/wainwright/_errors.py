"""What is raised for a build that cannot be worked with."""

from __future__ import annotations

from typing import TypedDict

__all__ = ["BuildError", "Fault"]


class _Place(TypedDict):
    pointer: str
    code: str
    detail: str


class Fault(_Place, total=False):
    """One fault of a build: where it is, of which kind, and what is wrong, for a person.

    The pointer is a JSON Pointer (RFC 6901); `""` is the whole document. Branch on the code, not the words.
    """

    minimum: float
    """The least value allowed, where one was passed."""
    maximum: float
    """The greatest value, length or count allowed, where one was passed."""
    suggestion: str
    """The nearest known name."""
    known: list[str]
    """The names there are."""
    other_pointer: str
    """JSON Pointer to the other of two things that cannot both be so."""
    in_build: str
    """JSON Pointer into the build that the patches of a request make, where the fault is one of it."""
    work: int
    """How much work a request would take that takes too much, counted as `detail` says."""
    limit: int
    """How much work is done for one request."""
    line: int
    """Line of the place where the text stops being JSON, from 1."""
    column: int
    """Column of that place, from 1."""


class BuildError(ValueError):
    """A build that cannot be worked with, with all its faults."""

    errors: list[Fault]
    """The faults, at most 100."""
    left_out: int
    """How many faults there are beyond those listed."""

    def __init__(self, errors: list[Fault], left_out: int = 0) -> None:
        super().__init__(errors, left_out)
        self.errors = errors
        self.left_out = left_out

    def __str__(self) -> str:
        lines = [f"{_place(fault)} {fault['detail']}" for fault in self.errors]
        if self.left_out:
            lines.append(f"and {self.left_out} more")
        if len(lines) == 1:
            return lines[0]
        count = len(self.errors) + self.left_out
        return "\n  ".join([f"{count} faults:", *lines])


def _place(fault: Fault) -> str:
    if "line" in fault and "column" in fault:
        return f"line {fault['line']}, column {fault['column']}:"
    if "work" in fault:
        return "too much work:"
    return fault["pointer"] or "the document"
