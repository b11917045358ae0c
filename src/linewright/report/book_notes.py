"""What a book says beside its numbers: all of it for who reads the book, and what bears on one system."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.schema import Book, Limit
from linewright.engine.measures import variant_words
from linewright.engine.records import Check, Standing, SystemResult

#: A limit that is plainly kept needs no remark.
_REMARKABLE = (Standing.ON_CONDITIONS, Standing.OVER, Standing.UNJUDGED, Standing.TO_CONFIRM)


def notes_in(book: Book) -> Iterator[str]:
    """Every note of a book, each with what it stands on."""
    if book.note:
        yield book.note
    for limit in book.limits:
        words = variant_words(limit)
        name = f"limit {limit.measure}" + (f" ({words})" if words else "")
        if limit.note:
            yield f"{name}: {limit.note}"
        yield from (f"{name}, wider bound: {relaxed.note}" for relaxed in limit.relaxed if relaxed.note)
    yield from (f"action {action.id}: {action.note}" for action in book.sizing.actions if action.note)


def notes_on(result: SystemResult) -> Iterator[str]:
    """Notes of the book on limits that are not plainly kept and on size actions that are carried out."""
    book = result.state.ground.book.book
    by_path = {f"limits[{i}]": limit for i, limit in enumerate(book.limits)}
    for check in result.limits:
        if check.standing in _REMARKABLE:
            yield from dict.fromkeys(f"{check.measure}: {note}" for note in _of_limit(by_path[check.path], check))
    done = {action.id for action in result.actions if action.carried_out}
    yield from (f"{action.id}: {action.note}" for action in book.sizing.actions if action.id in done and action.note)


def _of_limit(limit: Limit, check: Check) -> Iterator[str]:
    if limit.note:
        yield limit.note
    for relaxed in limit.relaxed:
        bound = relaxed.max if relaxed.max is not None else relaxed.min
        shown = check.standing is not Standing.ON_CONDITIONS or (bound is not None and bound.value == check.bound)
        if relaxed.note and shown:
            yield relaxed.note
