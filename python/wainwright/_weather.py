"""The folder of weather files that builds may name."""

from __future__ import annotations

import os
from pathlib import Path

from . import _wainwright

__all__ = ["WeatherFolder"]


class WeatherFolder:
    """The weather files of a folder, EPW (`*.epw`) and TMY3 (`*.csv`), read once for any number of builds.

    Raises `OSError` where the folder cannot be read, and `ValueError` with every fault of every file that is
    refused.
    """

    __slots__ = ("_path", "files")

    def __init__(self, path: str | os.PathLike[str]) -> None:
        self._path = Path(path)
        files = sorted(file for file in self._path.iterdir() if file.is_file())
        taken = [file for file in files if _wainwright.WeatherLibrary.takes(file.name)]
        self.files = _wainwright.WeatherLibrary([(file.name, file.read_bytes()) for file in taken])

    @classmethod
    def of(cls, folder: WeatherFolder | str | os.PathLike[str]) -> WeatherFolder:
        """The folder itself, or the one at a path."""
        return folder if isinstance(folder, WeatherFolder) else cls(folder)

    @property
    def names(self) -> list[str]:
        """The names that a build may give as `site.weather.file`."""
        return self.files.names()

    def __repr__(self) -> str:
        return f"<WeatherFolder: {self._path}, {len(self.names)} files>"

    def __reduce__(self) -> tuple[type[WeatherFolder], tuple[Path]]:
        return WeatherFolder, (self._path,)
