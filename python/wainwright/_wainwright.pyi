from collections.abc import Callable
from typing import Any, Protocol, final

__all__ = ["VERSION", "Build", "NamedFiles", "WeatherLibrary", "moist_air", "operate", "questions", "score"]

VERSION: str

class _ArrowStream(Protocol):
    def __arrow_c_stream__(self, requested_schema: object | None = None) -> object: ...

@final
class Build:
    @staticmethod
    def from_json(json: bytes, library: WeatherLibrary | None = None) -> Build: ...
    def ask(self, question: str) -> dict[str, Any]: ...
    def text(self, question: str) -> str: ...
    def papers(self, markdown: bool = False) -> str: ...

@final
class NamedFiles:
    def __new__(cls, weather: WeatherLibrary | None, catalogues: list[tuple[str, bytes]]) -> NamedFiles: ...
    @staticmethod
    def takes(name: str) -> bool: ...
    def catalogues(self) -> list[str]: ...

@final
class WeatherLibrary:
    def __new__(cls, files: list[tuple[str, bytes]]) -> WeatherLibrary: ...
    @staticmethod
    def takes(name: str) -> bool: ...
    def names(self) -> list[str]: ...

def moist_air(
    dry_bulb_c: float,
    pressure_pa: float | None,
    altitude_m: float | None,
    relative_humidity: float | None,
    dew_point_c: float | None,
    wet_bulb_c: float | None,
    humidity_ratio: float | None,
) -> dict[str, float]: ...
def operate(operation: str, json: bytes, named_files: NamedFiles | None = None) -> dict[str, Any]: ...
def questions() -> list[str]: ...
def score(
    base: Build | bytes,
    table: _ArrowStream,
    scores: list[str],
    named_files: NamedFiles,
    threads: int | None = None,
    progress: Callable[[int, int], object] | None = None,
) -> _ArrowStream: ...
