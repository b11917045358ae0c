"""What an edit did, in words: each field before and after, and the verdicts that changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from typing import Annotated, Any, get_args, get_origin

from linewright.engine import Evaluation
from linewright.engine.records import Check
from linewright.model.design import Design
from linewright.model.edits.fits import hints_of
from linewright.model.edits.places import MissingError, element_named
from linewright.model.edits.touches import EXISTS, Touch, Touched
from linewright.model.values import key_of
from linewright.report.page import Page
from linewright.units import Quantity, UnitSystem, show

NOTHING = "nothing"
#: What begins so is a place in a list or an arm of a node, and no field that could be shown.
_NO_FIELDS = ("after ", "first", "arm ", "name ")


def edits_text(
    before: Evaluation, after: Evaluation, touched: Touched, *, system: UnitSystem, colour: bool, dry_run: bool
) -> str:
    """Write what changed and what that does to the standing."""
    page = Page(colour=colour)
    for line in sorted(_changes(before.design, after.design, touched, system)):
        page.text(line, indent=2)
    page.blank()
    page.text(f"Standing: {before.standing} before, {after.standing} after.")
    for line in _verdicts(before, after):
        page.text(line, indent=2)
    if dry_run:
        page.text("Nothing was written.")
    return str(page)


def _changes(before: Design, after: Design, touched: Touched, system: UnitSystem) -> Iterator[str]:
    for touch in touched.writes:
        if touch.field == EXISTS:
            was, is_now = (_is_there(design, touch.element) for design in (before, after))
            if was != is_now:
                yield f"{touch.element}: {'added' if is_now else 'removed'}"
        elif not touch.field.startswith(_NO_FIELDS):
            old, new = (_shown(design, touch, system) for design in (before, after))
            if old != new:
                yield f"{touch.element}: {key_of(touch.field).replace('_', ' ')} {old} -> {new}"


def _is_there(design: Design, name: str) -> bool:
    try:
        return element_named(design, name) is not None
    except MissingError:
        return False


def _shown(design: Design, touch: Touch, system: UnitSystem) -> str:
    head, _, tail = touch.field.partition(".")
    try:
        found: Any = element_named(design, touch.element)
    except MissingError:
        return NOTHING
    value = getattr(found, head)
    hint = hints_of(type(found))[head]
    if tail:
        value, hint = value.get(tail), get_args(hint)[1]
        if value is None:
            return "by the book"
    return _value(value, hint, system)


def _value(value: Any, hint: Any, system: UnitSystem) -> str:  # noqa: ANN401 - any value of a design
    if value is None:
        return "unknown"
    options = [hint, *get_args(hint)]
    for option in options:
        if get_origin(option) is Annotated:
            mark = next((mark for mark in option.__metadata__ if isinstance(mark, Quantity)), None)
            if mark is not None and isinstance(value, float | int):
                return show(value, mark.dimension, system)
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, tuple | Mapping):
        return f"{len(value)} entries"
    return str(value) or NOTHING


def _verdicts(before: Evaluation, after: Evaluation) -> Iterator[str]:
    old, new = dict(_checks(before)), dict(_checks(after))
    for key in sorted(old.keys() | new.keys()):
        was, is_now = old.get(key), new.get(key)
        if (was and was.standing) != (is_now and is_now.standing):
            yield f"{key[0]}: {was.standing if was else 'not judged'} -> {is_now.standing if is_now else 'not judged'}"


def _checks(evaluation: Evaluation) -> Iterator[tuple[tuple[str, str, str], Check]]:
    for result in evaluation.systems:
        where = result.state.ground.book.where
        for check in (*result.limits, *result.checks):
            yield (check.subject, where(check.path) or check.measure, check.sense.value), check
    for room in evaluation.rooms:
        for check in room.checks:
            yield (check.subject, check.measure, check.sense.value), check
