from typing import Any, final

__all__ = ["VERSION", "Build", "questions"]

VERSION: str

@final
class Build:
    @staticmethod
    def from_json(json: bytes) -> Build: ...
    def ask(self, question: str) -> dict[str, Any]: ...
    def text(self, question: str) -> str: ...

def questions() -> list[str]: ...
