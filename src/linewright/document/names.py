"""Names of a book that stand in the names of results."""

from __future__ import annotations

from linewright.book.schema import Book
from linewright.document.source import Source
from linewright.model.soundness.names import check_id


def check_book_names(book: Book, source: Source) -> None:
    """Check the ids of a book that stand in the names of results."""
    check_id(book.id, "id", source)
    for i, action in enumerate(book.sizing.actions):
        check_id(action.id, f"sizing.actions[{i}].id", source)
