from typing import Any, final

__all__ = ["VERSION", "Build", "WeatherLibrary", "moist_air", "operate", "questions"]

VERSION: str

@final
class Build:
    @staticmethod
    def from_json(json: bytes, library: WeatherLibrary | None = None) -> Build: ...
    def ask(self, question: str) -> dict[str, Any]: ...
    def text(self, question: str) -> str: ...

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
def operate(operation: str, json: bytes, library: WeatherLibrary | None = None) -> dict[str, Any]: ...
def questions() -> list[str]: ...
