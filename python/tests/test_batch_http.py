"""Tables scored over HTTP, in JSON and as a stream of Arrow, against the same in Python."""

from __future__ import annotations

import io
import json
import urllib.error
import urllib.request
from random import Random
from typing import TYPE_CHECKING, Any

import pyarrow
import pytest

import wainwright

from .conftest import FOLDER

if TYPE_CHECKING:
    from .service import Service

ARROW = "application/vnd.apache.arrow.stream"
ROWS = 1000
SEED = 2611
SCORES = [
    "payload.states.outbound.payload_left_lb",
    "payload.unloaded_mass_lb",
    "axle_load.states.outbound.tongue_lb",
    "axle_load.states.homebound.tongue_fraction",
    "axle_load.states.outbound.axles.rear.left_lb",
]


def base() -> dict[str, Any]:
    """A complete build."""
    document: dict[str, Any] = json.loads((FOLDER / "heron.json").read_text(encoding="utf-8"))
    return document


def columns() -> dict[str, list[float | None]]:
    """A thousand rows, some of which are refused."""
    random = Random(SEED)
    galley: list[float | None] = [random.uniform(-5, 300) for _ in range(ROWS)]
    galley[17] = None
    return {
        "parts.galley.mass_lb": galley,
        "parts.galley.x_in": [random.uniform(60, 200) for _ in range(ROWS)],
        "cargo.atv.mass_lb": [random.uniform(300, 900) for _ in range(ROWS)],
    }


def as_stream(table: pyarrow.Table, **given: Any) -> bytes:
    """A table with the rest of the request in its metadata."""
    sink = io.BytesIO()
    named = table.replace_schema_metadata({"wainwright": json.dumps(given)})
    with pyarrow.ipc.new_stream(sink, named.schema) as writer:
        writer.write_table(named)
    return sink.getvalue()


def asked(service: Service, body: bytes, accept: str = "*/*") -> tuple[int, bytes, str]:
    """Posts a stream; gives status, body and type of the answer."""
    head = {"Content-Type": ARROW, "Accept": accept}
    request = urllib.request.Request(f"{service.url}/v1/batch", body, head, method="POST")
    try:
        with urllib.request.urlopen(request, timeout=30) as answer:
            return answer.status, answer.read(), answer.headers["Content-Type"]
    except urllib.error.HTTPError as refusal:
        with refusal:
            return refusal.code, refusal.read(), refusal.headers["Content-Type"]


@pytest.fixture(scope="module")
def scored() -> pyarrow.Table:
    """What Python says."""
    return wainwright.score(base(), pyarrow.table(columns()), SCORES)


def test_json_is_the_same_to_the_bit(service: Service, scored: pyarrow.Table) -> None:
    request = {"base": base(), "columns": columns(), "scores": SCORES}
    status, answer = service.ask("batch", json.dumps(request).encode())
    assert (status, answer["rows"]) == (200, ROWS)
    for name in SCORES:
        assert answer["scores"][name] == scored.column(name).to_pylist()
    told = {error["row"]: f"{error['subject']} {error['message']}" for error in answer["errors"]}
    assert told == {row: error for row, error in enumerate(scored.column("errors").to_pylist()) if error}
    assert 5 < len(told) < 50
    assert 17 in told


def test_a_stream_of_arrow_is_the_same_to_the_bit(service: Service, scored: pyarrow.Table) -> None:
    body = as_stream(pyarrow.table(columns()), base=base(), scores=SCORES)
    status, answer, media_type = asked(service, body)
    assert (status, media_type) == (200, ARROW)
    with pyarrow.ipc.open_stream(answer) as reader:
        table = reader.read_all()
    assert table.schema == scored.schema
    assert table.equals(scored)


def test_options_are_chosen_in_a_stream_too(service: Service) -> None:
    bench = {"price_usd": 200, "patch": {"parts": {"bench": {"mass_lb": 60}}}}
    groups = {"more": {"choose": "one", "options": {"bench": bench}}}
    table = pyarrow.table({"more": pyarrow.array(["bench", None, "safe"]).dictionary_encode()})
    body = as_stream(table, base=base(), groups=groups, scores=["price_usd", SCORES[1]])
    _, answer, _ = asked(service, body)
    with pyarrow.ipc.open_stream(answer) as reader:
        there = reader.read_all()
    assert there.column("price_usd").to_pylist() == [200.0, 0.0, None]
    first, second, third = there.column(SCORES[1]).to_pylist()
    assert (round(first - second, 6), third) == (60, None)
    assert there.column("errors").to_pylist()[2] == 'more has no option "safe"; its options are bench'


@pytest.mark.parametrize(
    ("body", "status", "said"),
    [
        (b"nothing", 400, "no stream of Arrow"),
        (as_stream(pyarrow.table({"a": [1.0]})), 400, "scores must be a list of text"),
        (as_stream(pyarrow.table({"a": [1.0]}), base={}, scores=[1]), 400, "scores must be a list of text"),
        (as_stream(pyarrow.table({"a.b": [1.0]}), base={}, scores=[]), 422, "/columns/a.b"),
        (as_stream(pyarrow.table({"parts": [[1.0]]}), base={}, scores=[]), 422, "it holds List"),
    ],
)
def test_what_is_wrong_with_a_stream_is_told(service: Service, body: bytes, status: int, said: str) -> None:
    code, answer, media_type = asked(service, body)
    assert (code, media_type) == (status, "application/problem+json")
    assert said in answer.decode()


def test_an_answer_that_is_not_taken_is_not_made(service: Service) -> None:
    body = as_stream(pyarrow.table({"a": [1.0]}), base={}, scores=[])
    assert asked(service, body, accept="application/json")[0] == 406


def test_too_many_rows_are_refused_with_the_most_that_may_be(service: Service) -> None:
    table = pyarrow.table({"parts.galley.mass_lb": [1.0] * 100_001})
    status, answer, _ = asked(service, as_stream(table, base=base(), scores=SCORES))
    assert status == 422
    assert "must have 100000 rows or fewer; it has 100001" in answer.decode()
