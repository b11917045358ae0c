"""Random edits of a book: values that stand there changed, items and entries taken away, doubled or moved."""

import dataclasses
from collections.abc import Iterator, Mapping
from enum import Enum
from random import Random
from typing import Any

from linewright.book.edits import BookBatch, BookEdit, InsertItem, Path, RemoveItem, SetValue
from linewright.book.schema import Book
from linewright.units import Amount


def places(found: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:  # noqa: ANN401 - any value of a book
    """Every path into a value, with what stands there."""
    if path:
        yield path, found
    if isinstance(found, Mapping):
        parts = list(found.items())
    elif isinstance(found, tuple):
        parts = list(enumerate(found))
    elif dataclasses.is_dataclass(found) and not isinstance(found, Amount):
        parts = [(field.name, getattr(found, field.name)) for field in dataclasses.fields(found)]
    else:
        parts = []
    for part, item in parts:
        yield from places(item, (*path, part))


def random_book_edit(rng: Random, book: Book) -> BookEdit:
    """An edit of any kind; some of them cannot apply."""
    if rng.random() < 0.15:
        return BookBatch(edits=tuple(_single(rng, book) for _ in range(rng.randrange(1, 4))))
    return _single(rng, book)


def _single(rng: Random, book: Book) -> BookEdit:
    everywhere = list(places(book))
    kind = rng.choice(("set", "set", "set", "remove", "insert", "copy"))
    if kind == "set":
        path, found = rng.choice([(path, found) for path, found in everywhere if isinstance(found, float | int | str)])
        return SetValue(path=path, to=_other(rng, found))
    if kind == "remove":
        return RemoveItem(path=rng.choice(everywhere)[0])
    lists = [(path, found) for path, found in everywhere if isinstance(found, tuple) and found]
    path, items = rng.choice(lists)
    if kind == "copy":
        return SetValue(path=path, to=tuple(rng.sample(items, len(items) - 1)))
    return InsertItem(path=(*path, rng.randrange(len(items) + 1)), item=_other(rng, rng.choice(items)))


def _other(rng: Random, found: Any) -> Any:  # noqa: ANN401 - any value of a book
    if isinstance(found, Enum | bool):
        return found
    if isinstance(found, Amount):
        return found._replace(value=found.value * rng.choice((0.5, 2.0))) if hasattr(found, "_replace") else found
    if isinstance(found, int):
        return found + rng.choice((-1, 1, 7))
    if isinstance(found, float):
        return found * rng.choice((0.5, 1.1, 3.0))
    if isinstance(found, str):
        return rng.choice((found, f"{found} b", "a: b # c", "§ 4"))
    return found
