"""Walls of tube as a book states them."""

from __future__ import annotations

from linewright.book.schema import Book
from linewright.units import same_tube


def wall_of(book: Book, od_m: float) -> float | None:
    """Wall of a tube [m], where the book states one."""
    return next((wall for size, wall in book.tubes.wall_m.items() if same_tube(size, od_m)), None)


def bore_of(book: Book, od_m: float) -> float | None:
    """Bore of a tube [m], where the book states its wall."""
    wall = wall_of(book, od_m)
    return None if wall is None else od_m - 2.0 * wall
