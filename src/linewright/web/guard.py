"""What stands before every request: who may ask, how much, how deep; and what goes with every answer."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any, TypeAlias

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from linewright.document.source import MOST_BYTES
from linewright.web.problems import problem_bytes

Headers: TypeAlias = dict[bytes, bytes]

#: Bytes of a request: a document, as JSON text that may be twice as long.
MOST_BODY = 2 * MOST_BYTES
#: Lists and objects within each other.
MOST_DEPTH = 64
#: Hosts by which a server on this machine may be called, each with its port or without.
LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
#: Texts, which are passed over, and brackets.
_BRACKETS = re.compile(rb'"[^"\\]*(?:\\.[^"\\]*)*"|[\[\]{}]', re.DOTALL)
_STEPS = {b"[": 1, b"{": 1, b"]": -1, b"}": -1}
SAFE = ("GET", "HEAD", "OPTIONS")
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
ALWAYS = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)


class Guard:
    """Lets in only requests that this machine's own page, or its user, can have sent."""

    def __init__(self, app: ASGIApp, *, hosts: Iterable[str] = LOOPBACK) -> None:
        """Keep what stands behind; `hosts` without ports."""
        self.app, self.hosts = app, tuple(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer what may not pass; hand on the rest with its body read and measured."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers: Headers = dict(scope["headers"])
        refused = self._refused(scope, headers)
        if refused is not None:
            await _answer(send, *refused)
            return
        if scope["method"] in SAFE:
            await self.app(scope, receive, _with_headers(send))
            return
        body = await _body(receive)
        refused = _refused_body(body)
        if refused is not None:
            await _answer(send, *refused)
            return
        await self.app(scope, _once(body or b"", receive), _with_headers(send))

    def _refused(self, scope: Scope, headers: Headers) -> tuple[int, str, str] | None:
        host = headers.get(b"host", b"").decode("latin-1").lower()
        if _without_port(host) not in self.hosts:
            return 403, "this server is not called by that name", f"Host: one of {', '.join(self.hosts)}"
        origin = headers.get(b"origin", b"").decode("latin-1").lower()
        if origin and origin != f"http://{host}":
            return 403, "the request comes from another page", f"Origin: http://{host}, or none"
        if headers.get(b"sec-fetch-site", b"none") not in (b"same-origin", b"none"):
            return 403, "the request comes from another page", "a request of this server's own page"
        if scope["method"] in SAFE or scope["method"] == "DELETE":
            return None
        if headers.get(b"content-type", b"").partition(b";")[0].strip().lower() != b"application/json":
            return 415, "the body is not JSON", "Content-Type: application/json"
        stated = headers.get(b"content-length", b"0")
        if not stated.isdigit() or int(stated) > MOST_BODY:
            return 413, "the body is too large", f"at most {MOST_BODY} bytes"
        return None


def is_deep(body: bytes, most: int = MOST_DEPTH) -> bool:
    """Say whether lists and objects of a JSON text stand deeper within each other; what is in texts does not count."""
    depth = 0
    for found in _BRACKETS.finditer(body):
        depth += _STEPS.get(found[0], 0)
        if depth > most:
            return True
    return False


def _without_port(host: str) -> str:
    if host.startswith("["):
        return host.partition("]")[0] + "]"
    return host.partition(":")[0]


async def _body(receive: Receive) -> bytes | None:
    """The whole body; none where it is larger than a body may be, however it was announced."""
    found = bytearray()
    while True:
        message = await receive()
        found += message.get("body", b"")
        if len(found) > MOST_BODY:
            return None
        if not message.get("more_body", False):
            return bytes(found)


def _refused_body(body: bytes | None) -> tuple[int, str, str] | None:
    if body is None:
        return 413, "the body is too large", f"at most {MOST_BODY} bytes"
    if is_deep(body):
        return 400, "the body is nested too deep", f"at most {MOST_DEPTH} lists and objects within each other"
    return None


def _once(body: bytes, receive: Receive) -> Receive:
    told = False

    async def replayed() -> Message:
        nonlocal told
        if told:
            return await receive()
        told = True
        return {"type": "http.request", "body": body, "more_body": False}

    return replayed


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            message["headers"] = [*message.get("headers", []), *ALWAYS]
        await send(message)

    return sending


async def _answer(send: Send, status: int, message: str, expected: str) -> None:
    body = problem_bytes(status, message, expected=expected)
    headers: list[tuple[bytes, Any]] = [(b"content-type", b"application/problem+json"), *ALWAYS]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
