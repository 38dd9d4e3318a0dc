"""Option packages: a base, a catalogue of options, and the choices that can be made of it."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, TypeAlias

from . import _wainwright, reports
from ._build import Build
from ._document import request_json
from ._weather import WeatherFolder

__all__ = ["CatalogueFolder", "options", "search"]

Base: TypeAlias = "Build | Mapping[str, Any] | None"
Groups: TypeAlias = "Mapping[str, Any] | None"
Catalogues: TypeAlias = "CatalogueFolder | str | os.PathLike[str] | None"
Weather: TypeAlias = "WeatherFolder | str | os.PathLike[str] | None"


class CatalogueFolder:
    """The catalogues (`*.json`) of a folder, read and checked once for any number of requests.

    A base in a catalogue, and the base of a request, may name the files of the weather folder.

    Raises `OSError` where the folder cannot be read, and `ValueError` with every fault of every file that is
    refused.
    """

    __slots__ = ("_path", "_weather", "named_files")

    def __init__(self, path: str | os.PathLike[str], *, weather_folder: Weather = None) -> None:
        self._path = Path(path)
        self._weather = None if weather_folder is None else WeatherFolder.of(weather_folder)
        files = sorted(file for file in self._path.iterdir() if file.is_file())
        taken = [file for file in files if _wainwright.NamedFiles.takes(file.name)]
        catalogues = [(file.name, file.read_bytes()) for file in taken]
        self.named_files = _wainwright.NamedFiles(_files(self._weather), catalogues)

    @property
    def names(self) -> list[str]:
        """The names that a request may give as `catalogue`."""
        return self.named_files.catalogues()

    @property
    def has_weather(self) -> bool:
        """Whether a folder of weather files was given beside it."""
        return self._weather is not None

    def __repr__(self) -> str:
        return f"<CatalogueFolder: {self._path}, {len(self.names)} catalogues>"

    def __reduce__(self) -> tuple[Any, ...]:
        return _reopened, (self._path, self._weather)


def options(
    base: Base = None,
    groups: Groups = None,
    chosen: Sequence[str] = (),
    *,
    catalogue: str | None = None,
    catalogue_folder: Catalogues = None,
    weather_folder: Weather = None,
) -> reports.OptionsReport:
    """A choice of options evaluated, its price, and which of the other options may be chosen.

    An option is a JSON Merge Patch (RFC 7396) with a price; patches apply in the order of the groups. One
    that is not chosen is tried by adding it; in a group of which one may be chosen it takes the place of that
    one. None need be chosen: the base then stays as it is.

    :param base: The build that the options change.
    :param groups: Groups of options by id: `{"battery": {"choose": "one", "options": {"battery_200": {
        "price_usd": 1150, "patch": {...}, "requires": [], "excludes": []}}}}`.
    :param chosen: The ids of the chosen options, in any order.
    :param catalogue: A catalogue of the folder by name, in place of `groups`, and of `base` where it has one.
    :param catalogue_folder: The folder of catalogues.
    :param weather_folder: The folder of the weather files that builds may name; left out, that of a
        `CatalogueFolder`, or of a base that is a `Build`.

    Raises `BuildError` with every fault of the request.

    >>> trailer = {"gvwr_lb": 3000, "bare": {"mass_lb": 2000}}
    >>> bench = {"price_usd": 200, "patch": {"parts": {"bench": {"mass_lb": 60}}}}
    >>> safe = {"price_usd": 900, "patch": {"parts": {"safe": {"mass_lb": 1100}}}}
    >>> groups = {"more": {"choose": "any", "options": {"bench": bench, "safe": safe}}}
    >>> report = options({"trailer": trailer}, groups, ["bench"])
    >>> report.price_usd, report.options["safe"].state, report.options["safe"].because[0].code
    (200.0, 'breaks', 'gross_over_gvwr')
    """
    asked = request(base, groups, catalogue, chosen=list(chosen))
    answer = _wainwright.operate("options", asked, named_files(base, catalogue_folder, weather_folder))
    return reports.OptionsReport.from_dict(answer)


def search(
    base: Base = None,
    groups: Groups = None,
    *,
    chosen: Sequence[str] = (),
    vary: Sequence[str] | None = None,
    weights: Mapping[str, float] | None = None,
    most: int | None = None,
    catalogue: str | None = None,
    catalogue_folder: Catalogues = None,
    weather_folder: Weather = None,
) -> reports.SearchReport:
    """All choices of options that break nothing: the best by weights, and those that no other beats.

    Every choice is looked at, exactly. What would take too much work is refused before it is begun.

    :param base: The build that the options change.
    :param groups: Groups of options by id, as for `options`.
    :param chosen: Options that are chosen in every choice, of groups that do not vary.
    :param vary: The groups that vary; left out, all of which nothing is chosen.
    :param weights: Points for each unit of `payload_left_lb`, `tongue_margin_fraction`, `autonomy_h` and
        `cooling_margin_fraction`, and points taken off for each of `price_usd`; left out, the cheapest come
        first.
    :param most: How many of the best are listed; left out, 10.
    :param catalogue: A catalogue of the folder by name, in place of `groups`, and of `base` where it has one.
    :param catalogue_folder: The folder of catalogues.
    :param weather_folder: The folder of the weather files that builds may name; left out, that of a
        `CatalogueFolder`, or of a base that is a `Build`.

    Raises `BuildError` with every fault of the request, or with the code `too_much_work`.

    >>> trailer = {"gvwr_lb": 3000, "bare": {"mass_lb": 2000}}
    >>> bench = {"price_usd": 200, "patch": {"parts": {"bench": {"mass_lb": 60}}}}
    >>> safe = {"price_usd": 900, "patch": {"parts": {"safe": {"mass_lb": 1100}}}}
    >>> groups = {"more": {"choose": "any", "options": {"bench": bench, "safe": safe}}}
    >>> report = search({"trailer": trailer}, groups)
    >>> report.choice_count, report.unbroken_count, report.best[0].chosen, report.best[1].chosen
    (4, 2, (), ('bench',))
    """
    more = {"vary": None if vary is None else list(vary), "weights": weights, "most": most}
    asked = request(base, groups, catalogue, chosen=list(chosen), **more)
    answer = _wainwright.operate("search", asked, named_files(base, catalogue_folder, weather_folder))
    return reports.SearchReport.from_dict(answer)


def request(base: Base, groups: Groups, catalogue: str | None, **members: object) -> bytes:
    """A request as JSON text."""
    rest = {"groups": groups, "catalogue": catalogue, **members}
    if isinstance(base, Build):
        return request_json({"base": base._json}, rest)
    return request_json({}, {"base": base, **rest})


def named_files(base: Base, catalogue_folder: Catalogues, weather_folder: Weather) -> _wainwright.NamedFiles:
    """The files that a request may name: weather as given, else the catalogues', else the base's."""
    weather = None if weather_folder is None else WeatherFolder.of(weather_folder)
    if isinstance(catalogue_folder, CatalogueFolder):
        known = catalogue_folder.named_files
        if weather is None and not catalogue_folder.has_weather:
            weather = _weather_of(base)
        return known if weather is None else known.with_weather(weather.files)
    if weather is None:
        weather = _weather_of(base)
    if catalogue_folder is not None:
        return CatalogueFolder(catalogue_folder, weather_folder=weather).named_files
    return _wainwright.NamedFiles(_files(weather), [])


def _weather_of(base: Base) -> WeatherFolder | None:
    return base._weather if isinstance(base, Build) else None


def _files(weather: WeatherFolder | None) -> _wainwright.WeatherLibrary | None:
    return None if weather is None else weather.files


def _reopened(path: Path, weather_folder: WeatherFolder | None) -> CatalogueFolder:
    return CatalogueFolder(path, weather_folder=weather_folder)
