"""Everything that a careful reader would ask of a book."""

from __future__ import annotations

from linewright.book.audit import Doubt, audit
from linewright.book.schema import Book
from linewright.engine.book_physics import physics_doubts


def doubts_of(book: Book) -> tuple[Doubt, ...]:
    """Give the doubts about a sound book, those of first principles last."""
    return (*audit(book), *physics_doubts(book))
