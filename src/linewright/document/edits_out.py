"""Edits to plain trees, as `edits` reads them."""

from __future__ import annotations

from typing import Any

from linewright.document.edit_words import CLASSES, EDIT, ITEMS, NONE, WITHOUT_NAME, WORD_OF
from linewright.document.encode import Style, Tree, Word, encode, encode_value
from linewright.document.plans import plan
from linewright.model.edits.values import Batch, Drop, Edit, Kind, Put, Set
from linewright.model.values import Role


def encode_edits(edit: Edit, how: Style) -> list[Tree]:
    """Give an edit as a list; a batch is the list of what it holds."""
    if isinstance(edit, Batch):
        return [encode_edit(inner, how) for inner in edit.edits]
    return [encode_edit(edit, how)]


def encode_edit(edit: Edit, how: Style) -> dict[str, Tree]:
    """Give one edit as a mapping."""
    made: dict[str, Tree] = {EDIT: Word(WORD_OF[type(edit)])}
    if isinstance(edit, Batch):
        return made | {"edits": encode_edits(edit, how)}
    if isinstance(edit, Set):
        return made | _set(edit, how)
    if isinstance(edit, Put):
        return made | _put(edit, how)
    if isinstance(edit, Drop):
        of = {"system": _name(edit.system)} if edit.system else {}
        return made | of | {"from": Word(edit.table.value), "id": _name(edit.id)}
    return made | encode_value(edit, how)


def _name(text: str) -> Word:
    return Word(text, is_text=True)


def _set(edit: Set, how: Style) -> dict[str, Tree]:
    made: dict[str, Tree] = {"system": _name(edit.system or edit.id)} if edit.system or edit.kind is Kind.SYSTEM else {}
    if edit.kind in WITHOUT_NAME:
        made[edit.kind.value] = Word("yes")
    elif edit.kind is not Kind.SYSTEM:
        made[edit.kind.value] = _name(edit.id)
    sizes: dict[str, Tree] = {}
    fields = {field.name: field for field in plan(CLASSES[edit.kind])}
    for name, value in edit.values.items():
        head, _, role = name.partition(".")
        if role:
            sizes[role] = Word(NONE) if value is None else _size(value, fields[head].hint, how)
        else:
            made[fields[head].key] = encode(value, fields[head].hint, how)
    return made | ({"override": sizes} if sizes else {})


def _size(value: Any, hint: Any, how: Style) -> Tree:  # noqa: ANN401 - a size and the hint of its mapping
    made = encode({Role.GAS: value}, hint, how)
    return next(iter(made.values())) if isinstance(made, dict) else Word(NONE)


def _put(edit: Put, how: Style) -> dict[str, Tree]:
    made: dict[str, Tree] = {"system": _name(edit.system)} if edit.system else {}
    made["in"] = Word(edit.table.value)
    if edit.after is not None:
        made["after"] = _name(edit.after)
    if edit.by_name:
        made["by_name"] = Word("yes")
    return made | {"item": encode(edit.item, ITEMS[edit.table], how)}
