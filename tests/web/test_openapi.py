"""Every operation of the description of the API, with what fits it and what does not: never a fault of the server."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import Any, TypeAlias

import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.core.result import Ok
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from linewright.web.app import OPENAPI
from tests.keeping.kept import BOAT_HOUSE, MINIMAL_BOOK
from tests.web.server import Client, Json, serving

Operation: TypeAlias = "schemathesis.schemas.APIOperation[Any, Any, Any, Any]"
Case: TypeAlias = "schemathesis.Case[Any]"
MODES = (GenerationMode.POSITIVE, GenerationMode.NEGATIVE)
CHECKS = [not_a_server_error, status_code_conformance, content_type_conformance, response_schema_conformance]


def test_every_operation_answers_as_it_is_described(tmp_path: Path) -> None:
    """Cases are made from the description: right ones, and wrong ones in every way."""
    with serving(tmp_path / "a.db") as port:
        with Client(port) as client:
            client.post("/api/projects", {"name": "Quay"})
            client.post("/api/projects/1/designs", {"name": "boat house", "text": BOAT_HOUSE})
            client.post("/api/projects/1/books", {"name": "minimal", "text": MINIMAL_BOOK})
        schema = schemathesis.openapi.from_url(f"http://127.0.0.1:{port}{OPENAPI}")
        found = [one.ok() for one in schema.get_all_operations() if isinstance(one, Ok)]
        asked = sum(_try(operation, mode) for operation in found for mode in MODES)
    assert len(found) > 40
    assert asked > len(found) * 10


def _try(operation: Operation, mode: GenerationMode) -> int:
    """Ask one operation; the line of events, which does not end, is asked by another test. Says how often it asked."""
    answers = 0

    @given(case=operation.as_strategy(generation_mode=mode))
    @settings(max_examples=8, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    def asked(case: Case) -> None:
        nonlocal answers
        response = case.call(timeout=30)
        case.validate_response(response, checks=CHECKS)
        answers += 1

    if not operation.path.endswith("/events"):
        with suppress(Unsatisfiable):  # nothing can be wrong with a request that has no parameters
            asked()
    return answers


def description(client: Client) -> Json:
    return client.get(OPENAPI)


def test_the_description_is_complete(client: Client) -> None:
    """Every operation says what it is for, what it answers, and how it refuses."""
    found = description(client)
    operations = {
        (method, path): operation for path, methods in found["paths"].items() for method, operation in methods.items()
    }
    assert len(operations) > 40
    ids = [operation["operationId"] for operation in operations.values()]
    assert len(ids) == len(set(ids))
    for (method, path), operation in operations.items():
        assert len(operation["description"]) > 10, (method, path)
        assert {"404", "409", "422"} <= set(operation["responses"]), (method, path)
        good = [code for code in operation["responses"] if code.startswith("2")]
        assert good, (method, path)
        for code in good:
            content = operation["responses"][code].get("content", {})
            assert content or code == "204", (method, path)
            assert all(one.get("schema") != {} for kind, one in content.items() if kind == "application/json")


def test_every_part_of_the_description_says_what_it_is(client: Client) -> None:
    parts = description(client)["components"]["schemas"]
    assert len(parts) > 20
    own = {name: part for name, part in parts.items() if name not in {"HTTPValidationError", "ValidationError"}}
    assert [name for name, part in own.items() if not part.get("description")] == []
