"""Starting the server: on this machine only, with a word when it is there, until it is told to end."""

from __future__ import annotations

import gc
import socket
import sys
from collections.abc import Callable
from contextlib import suppress

import uvicorn

from linewright.app.keeping import Workspace
from linewright.web.app import make_app

LOOPBACK = "127.0.0.1"
#: An open line of events does not keep the program from ending longer than this [s].
_GRACE_S = 2
#: How long a thread may keep others waiting [s].
_TURN_S = 0.0005


class _Server(uvicorn.Server):
    """Says when it listens."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self._ready()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        state = self.config.loaded_app.state if hasattr(self.config.loaded_app, "state") else None
        if state is not None:
            state.linewright.events.close()
        await super().shutdown(sockets)


def listening(port: int) -> socket.socket:
    """Take a port of this machine, any that is free where it is 0; raises OSError."""
    # With the protocol named, asyncio sends each part of an answer at once; without, the last part waits 40 ms.
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind((LOOPBACK, port))
        found.listen(128)
    except OSError:
        found.close()
        raise
    return found


def _rest_garbage() -> None:
    """Leave what was loaded at the start out of every search for garbage, and let an answer hardly ever start one.

    An answer makes many thousand values that live as long as it does; searching among them and all that was loaded
    would double the time of one answer in twenty. What is left is found while nobody waits (`TidyWhenIdle`).
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(100_000, 50, 100)


def _take_turns() -> None:
    """Let threads take turns quickly: one that writes to the disk has little to do, but what it does is waited for."""
    sys.setswitchinterval(_TURN_S)


def serve(workspace: Workspace, listener: socket.socket, *, ready: Callable[[str], None]) -> None:
    """Serve until the program is told to end; `ready` is called with the address."""
    app = make_app(workspace)
    _rest_garbage()
    _take_turns()
    address = f"http://{LOOPBACK}:{listener.getsockname()[1]}/"
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=_GRACE_S,
    )
    with suppress(KeyboardInterrupt):  # told to end, it says so again when it has ended
        _Server(config, lambda: ready(address)).run(sockets=[listener])
