"""Edits of a book: every change of one as a value that can be applied, undone and written down."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, NamedTuple, TypeAlias

from linewright.book.compiled import compile_book
from linewright.book.schema import Book
from linewright.errors import Fault
from linewright.model.edits import EditRefusedError, Touch, Touched
from linewright.model.edits.fits import fits, hints_of
from linewright.model.values import key_of, value

#: From the book inward: names of fields, positions in lists, keys of mappings.
Path: TypeAlias = tuple[Any, ...]


@value
class SetValue:
    """Put another value in place of one; an entry of a mapping may be new."""

    path: Path
    to: Any


@value
class InsertItem:
    """Put an item into a list, before the one at the position with which the path ends, or behind the last one."""

    path: Path
    item: Any


@value
class RemoveItem:
    """Take away an item of a list, an entry of a mapping, or a value that need not be stated."""

    path: Path


@value
class BookBatch:
    """Several edits, all or none."""

    edits: tuple[SetValue | InsertItem | RemoveItem | BookBatch, ...]


BookEdit: TypeAlias = SetValue | InsertItem | RemoveItem | BookBatch


class AppliedToBook(NamedTuple):
    """A book after an edit, the edit that undoes it, and what it touches."""

    book: Book
    inverse: BookEdit
    touched: Touched


class _MissingError(Exception):
    """A path that leads nowhere."""


def apply_to_book(book: Book, edit: BookEdit) -> AppliedToBook:
    """Change a sound book; pure. Raises EditRefusedError, with every fault, where no sound book comes of it."""
    done = carry_out(book, edit)
    faults: list[Fault] = []
    compile_book(done.book, lambda *told: faults.append(_fault(*told)))
    if faults:
        raise EditRefusedError(faults)
    return done


def path_words(path: Path) -> str:
    """A path in words, such as `sizing.branch.rows[2].gas`."""
    words = ""
    for part in path:
        named = isinstance(part, str) and part.isidentifier()
        words += f"[{part}]" if not named else f".{key_of(part)}" if words else key_of(part)
    return words


def carry_out(book: Book, edit: BookEdit) -> AppliedToBook:
    """Change a book without asking whether it is sound then; raises EditRefusedError where a path leads nowhere."""
    if isinstance(edit, BookBatch):
        return _batch(book, edit)
    change, undo = _CHANGES[type(edit)](book, edit)
    try:
        made = _changed(book, edit.path, change)
    except _MissingError as error:
        raise _refused(edit.path, str(error)) from None
    return AppliedToBook(made, undo, _touched(edit))


def _batch(book: Book, batch: BookBatch) -> AppliedToBook:
    inverse: list[Any] = []
    touched = Touched(frozenset(), frozenset())
    for edit in batch.edits:
        done = carry_out(book, edit)
        book, touched = done.book, touched.together(done.touched)
        inverse.append(done.inverse)
    return AppliedToBook(book, BookBatch(edits=tuple(reversed(inverse))), touched)


def _touched(edit: SetValue | InsertItem | RemoveItem) -> Touched:
    """A list is written as a whole where its items move; what stands inside rests on all that is around it."""
    path = edit.path
    moves = not isinstance(edit, SetValue) and isinstance(path[-1], int)
    written = path[:-1] if moves else path
    around = frozenset(Touch(path_words(written[:end]), "") for end in range(len(written)))
    return Touched(around, frozenset({Touch(path_words(written), "")}))


#: Takes what holds the last part of a path, and that part; gives the holder with the change.
_Change: TypeAlias = Callable[[Any, Any], Any]


def _set(book: Book, edit: SetValue) -> tuple[_Change, BookEdit]:
    def change(holder: Any, part: Any) -> Any:  # noqa: ANN401 - any value of a book
        if isinstance(holder, tuple):
            _check_at(holder, part)
            return (*holder[:part], edit.to, *holder[part + 1 :])
        if isinstance(holder, Mapping):
            return MappingProxyType({**holder, part: edit.to})
        return _with_field(holder, part, edit.to, edit.path)

    before = _found(book, edit.path)
    return change, RemoveItem(path=edit.path) if before is _NOTHING else SetValue(path=edit.path, to=before)


def _insert(_: Book, edit: InsertItem) -> tuple[_Change, BookEdit]:
    def change(holder: Any, part: Any) -> Any:  # noqa: ANN401 - any value of a book
        if not isinstance(holder, tuple) or not isinstance(part, int) or not 0 <= part <= len(holder):
            raise _refused(edit.path, "an item is put into a list", "the position of an item, or behind the last one")
        return (*holder[:part], edit.item, *holder[part:])

    return change, RemoveItem(path=edit.path)


def _remove(book: Book, edit: RemoveItem) -> tuple[_Change, BookEdit]:
    def change(holder: Any, part: Any) -> Any:  # noqa: ANN401 - any value of a book
        if isinstance(holder, tuple):
            return (*holder[:part], *holder[part + 1 :])
        if isinstance(holder, Mapping):
            return MappingProxyType({key: item for key, item in holder.items() if key != part})
        default = _default(holder, part, edit.path)
        if getattr(holder, part) == default:
            raise _refused(edit.path, "nothing is there that could be removed")
        return _with_field(holder, part, default, edit.path)

    before = _found(book, edit.path)
    if before is _NOTHING:
        raise _refused(edit.path, "nothing is there that could be removed")
    inside = edit.path and isinstance(edit.path[-1], int)
    return change, InsertItem(path=edit.path, item=before) if inside else SetValue(path=edit.path, to=before)


_CHANGES: dict[type, Callable[[Book, Any], tuple[_Change, BookEdit]]] = {
    SetValue: _set,
    InsertItem: _insert,
    RemoveItem: _remove,
}
_NOTHING = object()


def _changed(holder: Any, path: Path, change: _Change) -> Any:  # noqa: ANN401 - any value of a book
    """Give a value with one far inside it changed."""
    if not path:
        raise _MissingError("the whole book is no part of it")
    part, rest = path[0], path[1:]
    if not rest:
        return change(holder, part)
    made = _changed(_inside(holder, part), rest, change)
    if isinstance(holder, tuple):
        return (*holder[:part], made, *holder[part + 1 :])
    if isinstance(holder, Mapping):
        return MappingProxyType({**holder, part: made})
    return _with_field(holder, part, made, path)


def _inside(holder: Any, part: Any) -> Any:  # noqa: ANN401 - any value of a book
    if isinstance(holder, tuple):
        _check_at(holder, part)
        return holder[part]
    if isinstance(holder, Mapping):
        if part not in holder:
            raise _MissingError(f"there is no entry {part}")
        return holder[part]
    if not dataclasses.is_dataclass(holder) or part not in hints_of(type(holder)):
        raise _MissingError("nothing is there")
    return getattr(holder, part)


def _check_at(holder: tuple[Any, ...], part: Any) -> None:  # noqa: ANN401 - a part of a path
    if not isinstance(part, int) or not 0 <= part < len(holder):
        raise _MissingError(f"the list has {len(holder)} items, counted from 0")


def _found(book: Book, path: Path) -> Any:  # noqa: ANN401 - any value of a book
    """What stands at a path; a mark where its last part is no entry of a mapping yet."""
    found: Any = book
    try:
        for at, part in enumerate(path):
            if isinstance(found, Mapping) and at == len(path) - 1:
                return found.get(part, _NOTHING)
            found = _inside(found, part)
    except _MissingError as error:
        raise _refused(path, str(error)) from None
    return found


def _with_field(holder: Any, name: str, made: Any, path: Path) -> Any:  # noqa: ANN401 - any value of a book
    hints = hints_of(type(holder)) if dataclasses.is_dataclass(holder) else {}
    if name not in hints:
        raise _refused(path, "nothing is there")
    if not fits(hints[name], made):
        raise _refused(path, "the value is of another kind than what stands there")
    return dataclasses.replace(holder, **{name: made})


def _default(holder: Any, name: str, path: Path) -> Any:  # noqa: ANN401 - any value of a book
    field = next((one for one in dataclasses.fields(holder) if one.name == name), None)
    if field is not None and field.default is not dataclasses.MISSING:
        return field.default
    if field is not None and field.default_factory is not dataclasses.MISSING:
        return field.default_factory()
    raise _refused(path, "a book has to say this", "another value in its place")


def _refused(path: Path, message: str, expected: str = "") -> EditRefusedError:
    return EditRefusedError((_fault(path_words(path), message, expected),))


def _fault(path: str, message: str, expected: str = "") -> Fault:
    return Fault(file="edit", line=0, column=0, path=path, value="", message=message, expected=expected)
