"""The page on the API: its session, typed as it stands, and every operation, on a server."""

import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.docs.pages import blocks, page, rows, sections, ticked
from tests.web.server import Answer, Client, Json, serving

PAGE = page("reference/api.md")
SECTIONS = sections(PAGE)
METHODS = ("GET", "POST", "PUT", "DELETE")


class Request(NamedTuple):
    """One request of the session and the status that the page says it gets."""

    method: str
    path: str
    body: bytes | None
    status: int


@pytest.fixture
def client(tmp_path: Path) -> Iterator[Client]:
    with serving(tmp_path / "a.db") as port, Client(port) as found:
        yield found


def request(command: str, status: int) -> Request:
    """What a curl command asks: an address, a header, a body."""
    words = shlex.split(command)
    assert words[:2] == ["curl", "-s"]
    address = next(word for word in words if word.startswith("localhost:8340"))
    body = words[words.index("-d") + 1] if "-d" in words else None
    if body is not None:
        assert words[words.index("-H") + 1] == "Content-Type: application/json"
    data = None if body is None else body.encode()
    return Request("GET" if body is None else "POST", address.removeprefix("localhost:8340"), data, status)


def session() -> list[Request]:
    commands = [block.text for block in blocks(PAGE) if block.text.startswith("curl ")]
    statuses = [int(status) for status in re.findall(r"^answers `(\d+)`", PAGE, re.MULTILINE)]
    return [request(command, status) for command, status in zip(commands, statuses, strict=True)]


def play(client: Client, requests: list[Request]) -> list[Answer]:
    found = [client.ask(one.method, one.path, one.body) for one in requests]
    assert [one.status for one in found] == [one.status for one in requests], [one.body[:300] for one in found]
    return found


def test_the_session_goes_as_the_page_says_with_the_program_killed_in_the_middle(tmp_path: Path) -> None:
    requests = session()
    assert len(requests) == 13
    with serving(tmp_path / "a.db") as port, Client(port) as client:
        before = [one.json for one in play(client, requests[:-2])]
    with serving(tmp_path / "a.db") as port, Client(port) as client:
        after = [one.json for one in play(client, requests[-2:])]
    by_path: list[Json] = [*before, *after]
    built = by_path[2]
    assert built["scene"]["schema"] == "linewright/scene/1"
    assert [room["id"] for room in built["evaluation"]["rooms"]] == ["workshop"]
    (conflict,) = by_path[5]["conflicts"]
    assert (conflict["base"], conflict["mine"], conflict["theirs"]) == ("12 m", "30 m", "20 m")
    assert by_path[6]["rebased"]
    assert by_path[7]["again"]
    assert by_path[8]["revision"]["number"] == 5
    assert [one["number"] for one in by_path[9]["revisions"]] == [5, 4, 3, 2, 1]
    assert by_path[10]["differences"] == [
        {"element": "main/run:U2", "field": "length", "before": "5 m", "after": "6 m"}
    ]
    assert by_path[11]["head"] == 5
    assert by_path[12]["subject"] == "main/charge"


def test_the_page_lists_exactly_the_operations_of_the_description(client: Client) -> None:
    listed = [name for row in rows(SECTIONS["Operations"]) for name in row.names if name.startswith(METHODS)]
    described = {
        f"{method.upper()} {path}"
        for path, methods in client.get("/api/openapi.json")["paths"].items()
        for method in methods
    }
    assert sorted(listed) == sorted(described)


def test_every_refusal_and_every_event_is_told(client: Client) -> None:
    told = {row.names[0] for row in rows(SECTIONS["What goes wrong"])}
    described = client.get("/api/openapi.json")["paths"]
    codes = {
        code
        for methods in described.values()
        for operation in methods.values()
        for code in operation["responses"]
        if code >= "4"
    }
    assert told == codes | {"405"}
    assert {"revision", "document", "job", "missed", "export", "history"} <= ticked(SECTIONS["Events and jobs"])
    assert {"queued", "running", "done", "failed", "cancelled"} <= ticked(SECTIONS["Events and jobs"])
