"""A server with a boat house for each test."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.keeping.kept import BOAT_HOUSE
from tests.web.server import Client, serving


@pytest.fixture
def port(tmp_path: Path) -> Iterator[int]:
    with serving(tmp_path / "a.db") as found:
        yield found


@pytest.fixture
def client(port: int) -> Iterator[Client]:
    """A client of a server that has project 1 with design 1."""
    found = Client(port)
    found.post("/api/projects", {"name": "Quay"})
    found.post("/api/projects/1/designs", {"name": "boat house", "text": BOAT_HOUSE})
    yield found
    found.close()
