"""The build: one document, put to every question."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal, TypeAlias, TypeVar

from . import _wainwright, reports
from ._document import request_json, to_json
from ._report import Report
from ._weather import WeatherFolder

__all__ = ["Build", "compare"]

R = TypeVar("R", bound=Report)
Folder: TypeAlias = "WeatherFolder | str | os.PathLike[str] | None"


class Build:
    """One trailer and everything in it, read and checked.

    Made from a dict, from JSON text or from a file; all three go through the same reader. Cannot be changed:
    change the document and make another.

    All three take the folder of the weather files that the document may name: as a path or, where many builds
    share it, as a `WeatherFolder`, which is read but once.
    """

    __slots__ = ("_json", "_native", "_weather")

    def __init__(self, document: bytes, weather_folder: Folder = None) -> None:
        """Reads JSON text in UTF-8. `BuildError` names every fault of the document."""
        self._json = document
        self._weather = None if weather_folder is None else WeatherFolder.of(weather_folder)
        files = None if self._weather is None else self._weather.files
        self._native = _wainwright.Build.from_json(document, files)

    @classmethod
    def from_dict(cls, document: Mapping[str, Any], *, weather_folder: Folder = None) -> Build:
        """Reads a build from a dict of what JSON can hold; numpy's scalars are the numbers they hold.

        Raises `BuildError` with every fault of the document, NaN and infinity among them.
        """
        return cls(to_json(document), weather_folder)

    @classmethod
    def from_json(cls, text: str | bytes, *, weather_folder: Folder = None) -> Build:
        """Reads a build from JSON text.

        Raises `BuildError` with every fault of the document, or with the place where it is not JSON.
        """
        json_text = text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text
        return cls(json_text, weather_folder)

    @classmethod
    def from_file(cls, path: str | os.PathLike[str], *, weather_folder: Folder = None) -> Build:
        """Reads a build from a JSON file in UTF-8.

        Raises `OSError` where there is no such file, otherwise as `from_json`.
        """
        return cls(Path(path).read_bytes(), weather_folder)

    def to_dict(self) -> dict[str, Any]:
        """The document as it was given. The dict is a copy."""
        document: dict[str, Any] = json.loads(self._json)
        return document

    def payload(self) -> reports.PayloadReport:
        """What it weighs in every loading state, and what is left of its rating."""
        return self._ask(reports.PayloadReport, "payload")

    def axle_load(self) -> reports.AxleLoadReport:
        """What tongue, axles, wheels and tow vehicle carry, the worst case, and where things may stand."""
        return self._ask(reports.AxleLoadReport, "axle_load")

    def circuit_load(self) -> reports.CircuitLoadReport:
        """What every circuit carries in every supply mode, what it needs, and what may run together."""
        return self._ask(reports.CircuitLoadReport, "circuit_load")

    def energy_budget(self) -> reports.EnergyBudgetReport:
        """How long battery and sun carry the loads by month, and the smallest array and battery that do."""
        return self._ask(reports.EnergyBudgetReport, "energy_budget")

    def cooling_load(self) -> reports.CoolingLoadReport:
        """The heat of a hot day, what the air conditioner makes of it, and the heat of a cold night."""
        return self._ask(reports.CoolingLoadReport, "cooling_load")

    def evaluate(self) -> reports.EvaluateReport:
        """Every question put to the build: their reports, all findings gravest first, and a verdict."""
        return self._ask(reports.EvaluateReport, "evaluate")

    def solve(
        self,
        vary: str,
        *,
        figure: str | None = None,
        at_least: float | None = None,
        at_most: float | None = None,
        equal: float | None = None,
        finding: str | None = None,
        subject: str | None = None,
        until: Literal["gone", "appears"] | None = None,
        question: str | None = None,
        from_: float | None = None,
        to: float | None = None,
        steps: int | None = None,
    ) -> reports.SolveReport:
        """The value of one input at which a figure just keeps a bound, or a finding is just gone or appears.

        :param vary: The input: a numeric field of the build by its keys joined by dots.
        :param figure: A figure of an answer: the question's name and the keys to it, joined by dots.
        :param at_least: The figure is this or more. A figure goes with one of the three bounds.
        :param at_most: The figure is this or less.
        :param equal: The figure is this.
        :param finding: In place of a figure: a finding by its code.
        :param subject: The finding's subject, a JSON Pointer into the build; left out, any.
        :param until: Whether it holds once the finding is `"gone"`, which is usual, or once it `"appears"`.
        :param question: The question that is asked for the finding; `"evaluate"` for all together.
        :param from_: The least value to look at.
        :param to: The greatest value to look at.
        :param steps: In how many even steps the range is looked at.

        Raises `BuildError` with every fault of the request; pointers go into the request, as over HTTP.

        >>> build = Build.from_dict({"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}})
        >>> left = "payload.states.delivered.payload_left_lb"
        >>> round(build.solve("trailer.bare.mass_lb", figure=left, at_least=3000).value)
        4000
        """
        target = {
            "figure": figure,
            "at_least": at_least,
            "at_most": at_most,
            "equal": equal,
            "finding": finding,
            "subject": subject,
            "until": until,
            "question": question,
        }
        request = {"vary": vary, "target": target, "from": from_, "to": to, "steps": steps}
        return reports.SolveReport.from_dict(operate("solve", {"build": self}, request))

    def _ask(self, kind: type[R], question: str) -> R:
        return kind.answering(self, question, self._native.ask(question))

    def text(self, question: str) -> str:
        """The answer to a question as text for people; the same as `str` of the report."""
        return self._native.text(question)

    def papers(self, *, markdown: bool = False) -> str:
        """The hand-over papers: one page of HTML to print on US Letter, which loads nothing, or Markdown."""
        return self._native.papers(markdown)

    def __repr__(self) -> str:
        document = self.to_dict()
        name = document.get("name") or "no name"
        sections = ("parts", "tanks", "cargo", "states")
        counts = [f"{len(document[section])} {section}" for section in sections if document.get(section)]
        return f"<Build: {', '.join([name, *counts])}>"

    def __eq__(self, other: object) -> bool:
        return self.to_dict() == other.to_dict() if isinstance(other, Build) else NotImplemented

    def __reduce__(self) -> tuple[type[Build], tuple[bytes, WeatherFolder | None]]:
        return Build, (self._json, self._weather)


def compare(before: Build, after: Build) -> reports.CompareReport:
    """What changed between two builds, and what it did to every figure and finding.

    Weather files that the builds name are those of one folder.

    >>> document = {"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}}
    >>> before = Build.from_dict(document)
    >>> after = Build.from_dict({**document, "parts": {"bed": {"mass_lb": 142}}})
    >>> compare(before, after).changes[0].pointer
    '/parts'
    """
    return reports.CompareReport.from_dict(operate("compare", {"before": before, "after": after}, {}))


def operate(operation: str, builds: Mapping[str, Build], more: Mapping[str, object]) -> dict[str, Any]:
    """The answer of an operation to builds and what else its request has."""
    text = request_json({name: build._json for name, build in builds.items()}, more)
    folders = [build._weather for build in builds.values() if build._weather is not None]
    files = folders[0].files if folders else None
    named_files = None if files is None else _wainwright.NamedFiles(files, [])
    return _wainwright.operate(operation, text, named_files)
