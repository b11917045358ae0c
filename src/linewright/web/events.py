"""Telling other pages: who listens to a project hears of every change and of every step of a job."""

from __future__ import annotations

import asyncio
from collections import defaultdict
from collections.abc import AsyncIterator
from threading import Lock
from typing import Any

import orjson

#: A listener that is so far behind is told that it missed something, and not everything that it missed.
_MOST_WAITING = 100
#: A word now and then keeps the line open, and shows who has gone [s].
_EVERY_S = 15.0
MISSED = b"event: missed\ndata: {}\n\n"


class _Listener:
    def __init__(self, loop: asyncio.AbstractEventLoop) -> None:
        self.loop, self.queue = loop, asyncio.Queue[bytes](_MOST_WAITING)

    def put(self, message: bytes) -> None:
        if self.queue.full():
            while not self.queue.empty():
                self.queue.get_nowait()
            message = MISSED
        self.queue.put_nowait(message)


class Events:
    """Listeners by project; may be told from any thread."""

    def __init__(self) -> None:
        """Start with nobody."""
        self._listeners: defaultdict[int, set[_Listener]] = defaultdict(set)
        self._lock, self._open = Lock(), True

    def tell(self, project: int, name: str, data: dict[str, Any]) -> None:
        """Tell everybody who listens to a project."""
        message = b"event: %s\ndata: %s\n\n" % (name.encode(), orjson.dumps(data))
        with self._lock:
            for listener in self._listeners[project]:
                listener.loop.call_soon_threadsafe(listener.put, message)

    def close(self) -> None:
        """Let everybody go: the server ends."""
        with self._lock:
            self._open = False
            for listeners in self._listeners.values():
                for listener in listeners:
                    listener.loop.call_soon_threadsafe(listener.put, b"")

    async def listen(self, project: int) -> AsyncIterator[bytes]:
        """Give events as they come, until the listener goes or the server ends."""
        listener = _Listener(asyncio.get_running_loop())
        with self._lock:
            self._listeners[project].add(listener)
        try:
            yield b": here\n\n"
            while self._open:
                try:
                    message = await asyncio.wait_for(listener.queue.get(), _EVERY_S)
                except TimeoutError:
                    message = b": still here\n\n"
                if not message:
                    return
                yield message
        finally:
            with self._lock:
                self._listeners[project].discard(listener)
