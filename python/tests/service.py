"""The HTTP service, run for the tests."""

from __future__ import annotations

import json
import os
import re
import subprocess
import time
import urllib.error
import urllib.request
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

PROGRAM = "WAINWRIGHT_BINARY"
"""The variable that names the service's program."""

ADDRESS = re.compile(r"127\.0\.0\.1:\d+")
PATIENCE_S = 30


@dataclass(frozen=True)
class Service:
    """A running service."""

    url: str

    @classmethod
    @contextmanager
    def running(cls, folder: Path) -> Iterator[Service]:
        """Starts the service on a free port and stops it in the end."""
        output = folder / "stdout"
        with output.open("wb") as stdout, (folder / "stderr").open("wb") as stderr:
            command = [str(program()), "serve", "--listen", "127.0.0.1:0"]
            process = subprocess.Popen(command, stdout=stdout, stderr=stderr)
        try:
            service = cls(f"http://{_address(process, output)}")
            service.wait_until_ready()
            yield service
        finally:
            process.terminate()
            process.wait(PATIENCE_S)

    def ask(self, path: str, document: bytes) -> tuple[int, Any]:
        """Posts a document; gives the status and the JSON of the answer."""
        head = {"Content-Type": "application/json"}
        request = urllib.request.Request(f"{self.url}/v1/{path}", document, head, method="POST")
        try:
            with urllib.request.urlopen(request, timeout=PATIENCE_S) as answer:
                return answer.status, json.load(answer)
        except urllib.error.HTTPError as refusal:
            with refusal:
                return refusal.code, json.load(refusal)

    def get(self, path: str) -> Any:
        """The JSON at a path."""
        with urllib.request.urlopen(f"{self.url}{path}", timeout=PATIENCE_S) as answer:
            return json.load(answer)

    def wait_until_ready(self) -> None:
        """Waits until the service says that it will serve."""
        end = time.monotonic() + PATIENCE_S
        while True:
            try:
                self.get("/health/ready")
            except OSError:
                if time.monotonic() > end:
                    raise
                time.sleep(0.05)
            else:
                return


def program() -> Path:
    """The service's program."""
    named = os.environ.get(PROGRAM)
    if named is None:
        raise RuntimeError(
            f"{PROGRAM} is not set; run `cargo xtask test`, or name the program wainwright in it"
        )
    if not Path(named).is_file():
        raise RuntimeError(
            f"{PROGRAM} names {named}, which is no file; run `cargo build -p wainwright-service`"
        )
    return Path(named)


def _address(process: subprocess.Popen[bytes], output: Path) -> str:
    """The address that the service prints when it listens."""
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end and process.poll() is None:
        if found := ADDRESS.search(output.read_text()):
            return found[0]
        time.sleep(0.02)
    complaint = output.with_name("stderr").read_text()
    raise RuntimeError(f"the service printed no address; status {process.poll()}; it said:\n{complaint}")
