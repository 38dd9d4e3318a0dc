"""The service holds what its OpenAPI document promises, whatever is thrown at it."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .service import Service

PROGRAM = "WAINWRIGHT_SCHEMATHESIS"
"""The variable that names schemathesis' program."""

SETTINGS = Path(__file__).parents[2] / "tests" / "schemathesis.toml"
PATIENCE_S = 600


def test_the_service_holds_its_contract(service: Service, tmp_path: Path) -> None:
    program = os.environ.get(PROGRAM)
    assert program, f"{PROGRAM} is not set; run `cargo xtask test`, or name the program schemathesis in it"
    settings = ["--config-file", str(SETTINGS)]
    command = [program, *settings, "run", f"{service.url}/openapi.json", "--checks", "all"]
    done = subprocess.run(
        command, cwd=tmp_path, capture_output=True, text=True, timeout=PATIENCE_S, check=False
    )
    assert done.returncode == 0, done.stdout[-20_000:] + done.stderr
