"""Builds and reports against the published schemas, as an outside validator reads them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator

from wainwright import _wainwright

from .random_builds import random_builds

if TYPE_CHECKING:
    from .service import Service

DOCUMENT = Path(__file__).parents[2] / "openapi" / "v1.json"
QUESTIONS = _wainwright.questions()
SEED = 2603


@pytest.fixture(scope="module")
def contract() -> dict[str, Any]:
    """The published document."""
    document: dict[str, Any] = json.loads(DOCUMENT.read_text(encoding="utf-8"))
    return document


def validator(contract: dict[str, Any], media: dict[str, Any]) -> Draft202012Validator:
    """Holds values against the schema of a body."""
    schema = media["application/json"]["schema"]
    return Draft202012Validator({**schema, "components": contract["components"]})


def test_the_service_serves_the_published_document(service: Service, contract: dict[str, Any]) -> None:
    assert service.get("/openapi.json") == contract


@pytest.mark.parametrize("question", QUESTIONS)
def test_builds_and_reports_follow_the_published_schemas(
    service: Service, contract: dict[str, Any], question: str
) -> None:
    path = question.replace("_", "-")
    operation = contract["paths"][f"/v1/{path}"]["post"]
    request = validator(contract, operation["requestBody"]["content"])
    answer = validator(contract, operation["responses"]["200"]["content"])
    for build in random_builds(SEED, 50):
        assert not [error.message for error in request.iter_errors(build)]
        status, report = service.ask(path, json.dumps(build).encode())
        assert status == 200
        assert not [error.message for error in answer.iter_errors(report)]
        assert [error.message for error in answer.iter_errors({**report, "findings": 1})]
