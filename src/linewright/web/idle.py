"""Garbage is searched for while nobody waits.

What an answer leaves behind is found by a search that keeps everybody waiting, most of all whoever happens to ask just
then. So it is made shortly after an answer that no other request follows.
"""

from __future__ import annotations

import asyncio
import gc

from starlette.types import ASGIApp, Receive, Scope, Send

#: So long after an answer somebody has stopped to look at it [s]: longer than between two keys.
IDLE_S = 0.15
#: Fewer new things than these are not searched.
LEAST = 2_000
#: Searches of new things after which those that outlived one are searched too, and of these before all are.
SEARCHES, LARGER = 50, 20


class TidyWhenIdle:
    """Hands every request on, and has garbage searched for when no other one follows."""

    def __init__(self, app: ASGIApp) -> None:
        """Keep what stands behind."""
        self._app = app
        self._later: asyncio.TimerHandle | None = None

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request; a search that waits for nobody to ask waits on."""
        self._put_off()
        try:
            await self._app(scope, receive, send)
        finally:
            self._put_off()
            self._later = asyncio.get_running_loop().call_later(IDLE_S, tidy)

    def _put_off(self) -> None:
        if self._later is not None:
            self._later.cancel()
            self._later = None


def tidy() -> None:
    """Search what is new for garbage, now and then also what is older."""
    new, searches, larger = gc.get_count()
    if new >= LEAST:
        gc.collect(2 if larger > LARGER else 1 if searches > SEARCHES else 0)
