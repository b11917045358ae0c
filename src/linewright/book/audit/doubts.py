"""What a careful reader would ask about a book that can be understood: doubts, each with its place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple, TypeAlias

from linewright.book.schema import Book


class Doubt(NamedTuple):
    """One question: of which kind, where in the book and in the document, what looks wrong, what to look at."""

    code: str
    path: str
    page: int | None
    message: str
    look: str


#: Looks through a book for doubts.
Audit: TypeAlias = Callable[[Book], Iterator[Doubt]]
