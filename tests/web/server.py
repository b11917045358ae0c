"""A server in this process, on a port of its own, and how it is talked to."""

from __future__ import annotations

import asyncio
import http.client
import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple, Self, TypeAlias

import uvicorn

from linewright.app.keeping import Workspace
from linewright.store import open_store
from linewright.web.app import make_app
from linewright.web.serving import listening

#: Whatever JSON may hold.
Json: TypeAlias = Any


class Answer(NamedTuple):
    """What a server answered."""

    status: int
    headers: dict[str, str]
    body: bytes

    @property
    def json(self) -> Json:
        return json.loads(self.body)


class Client:
    """A connection to a server, kept open between requests."""

    def __init__(self, port: int) -> None:
        self.port = port
        self._connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)

    def ask(self, method: str, path: str, body: Json = None, headers: dict[str, str] | None = None) -> Answer:
        data = body if isinstance(body, bytes) else None if body is None else json.dumps(body).encode()
        sent = {} if data is None else {"Content-Type": "application/json"}
        self._connection.request(method, path, data, sent | (headers or {}))
        found = self._connection.getresponse()
        return Answer(found.status, {name.lower(): value for name, value in found.getheaders()}, found.read())

    def get(self, path: str) -> Json:
        found = self.ask("GET", path)
        assert found.status == 200, found.body
        return found.json

    def post(self, path: str, body: Json) -> Json:
        found = self.ask("POST", path, body)
        assert found.status < 300, found.body
        return found.json

    def close(self) -> None:
        self._connection.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


class _Server(uvicorn.Server):
    """Ends as soon as it is told to: by itself it would look ten times a second whether it is."""

    async def main_loop(self) -> None:
        while not await self.on_tick(0):  # noqa: ASYNC110 - another thread tells it
            await asyncio.sleep(0.01)


@contextmanager
def serving(database: Path, port: int = 0) -> Iterator[int]:
    """Serve a database on a port, any free one where none is named; gives the port."""
    store = open_store(database)
    listener = listening(port)
    app = make_app(Workspace(store))
    config = uvicorn.Config(
        app, log_level="warning", access_log=False, server_header=False, timeout_graceful_shutdown=1
    )
    server = _Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    try:
        yield listener.getsockname()[1]
    finally:
        app.state.linewright.events.close()
        server.should_exit = True
        thread.join(10)
        listener.close()
        store.close()
