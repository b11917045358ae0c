"""What a cell may hold where it is one of what there is."""

from __future__ import annotations

import types
from collections.abc import Mapping
from enum import Enum
from typing import Union, get_args, get_origin

from linewright.book.schema import Book
from linewright.document.lists.kinds import ListKind, all_fields
from linewright.document.plans import Hint
from linewright.document.scalars import FALSE, TRUE
from linewright.model.design import Design
from linewright.model.soundness.systems import FITTING_KINDS
from linewright.model.values import NodeKind


def choices_of(kind: ListKind, design: Design, book: Book | None) -> Mapping[str, tuple[str, ...]]:
    """Give the choices of each column that has some; models only where the book of the system is at hand."""
    known = {
        "level": tuple(level.id for level in design.site.levels),
        "room": tuple(room.id for room in design.rooms),
        "model": () if book is None else _models(kind, book),
    }
    words = {field.key: _words(field.hint) for field in all_fields(kind)}
    return {key: known.get(key) or found for key, found in words.items() if key in known or found}


def _models(kind: ListKind, book: Book) -> tuple[str, ...]:
    if kind is not ListKind.FITTINGS:
        return tuple(model.model for model in book.indoor.models)
    tables = (book.fittings.header, book.fittings.below_box_header)
    headers = [row.model for table in tables if table is not None for row in table.rows]
    boxes = () if book.boxes is None else book.boxes.models
    return tuple(dict.fromkeys([*headers, *(box.model for box in boxes)]))


def _words(hint: Hint) -> tuple[str, ...]:
    origin: Hint = get_origin(hint)
    if origin in (Union, types.UnionType):
        return next((words for option in get_args(hint) if (words := _words(option))), ())
    if hint is NodeKind:
        return tuple(one.value for one in FITTING_KINDS)
    if hint is bool:
        return (TRUE[-1], FALSE[-1])
    return tuple(str(one.value) for one in hint) if isinstance(hint, type) and issubclass(hint, Enum) else ()
