"""How far a long command is, on one line of a terminal; a file or a pipe gets a line now and then instead."""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import Self

import click

_OFTEN_S, _SELDOM_S = 0.1, 10.0
_WIDTH = 78


class Counter:
    """Writes to the error stream; nothing remains of it on a terminal when it is done."""

    def __init__(self) -> None:
        """Start without having said anything."""
        self._on_terminal = sys.stderr is not None and sys.stderr.isatty()
        self._next = time.monotonic() + (_OFTEN_S if self._on_terminal else _SELDOM_S)

    def tell(self, done: int, of: int, name: str) -> None:
        """Say that so many are done, and which one is being worked on."""
        now = time.monotonic()
        if now < self._next:
            return
        self._next = now + (_OFTEN_S if self._on_terminal else _SELDOM_S)
        text = f"{done:,} of {of:,}  {name}"
        if self._on_terminal:
            click.echo(f"\r{text[:_WIDTH]:{_WIDTH}}", nl=False, err=True)
        else:
            click.echo(text, err=True)

    def __enter__(self) -> Self:
        """Begin."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Wipe the line."""
        if self._on_terminal:
            click.echo(f"\r{'':{_WIDTH}}\r", nl=False, err=True)
