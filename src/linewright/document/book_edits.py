"""Edits of a book from a file, and to plain trees. All faults are told at once."""

from __future__ import annotations

from typing import get_args

from linewright.book.edits import BookBatch, BookEdit, InsertItem, RemoveItem, SetValue, carry_out
from linewright.book.schema import Book
from linewright.document.book_paths import NoPlaceError, Place, meant, place_in, text_of
from linewright.document.decode import decode_at
from linewright.document.encode import Style, Tree, Word, encode
from linewright.document.parsing import pairs, parse_text
from linewright.document.plans import Hint
from linewright.document.source import Mapping, Node, Scalar, Sequence, Source, step
from linewright.errors import listed, nearest, quoted
from linewright.model.edits import EditRefusedError

EDIT, AT = "edit", "at"
#: Key of the value that each kind of edit carries, if it does.
CARRIED = {"set": "to", "insert": "item", "remove": ""}
_NOTHING = BookBatch(edits=())


def book_edits_from_text(text: str, file: str, book: Book) -> BookEdit:
    """Read edits of a book; a list of them is one batch. A path is one of the book as the edits before it leave it.

    Raises InputFaultsError with every fault.
    """
    source = parse_text(text, file)
    source.nodes[""] = source.root
    nodes = source.root.value if isinstance(source.root, Sequence) else [source.root]
    paths = [f"[{i}]" for i in range(len(nodes))] if isinstance(source.root, Sequence) else [""]
    found = []
    for node, path in zip(nodes, paths, strict=True):
        edit = _edit(source, node, path, book)
        found.append(edit)
        book = _after(source, node, path, book, edit=edit)
    source.refuse()
    return found[0] if len(found) == 1 else BookBatch(edits=tuple(found))


def _after(source: Source, node: Node, path: str, book: Book, *, edit: BookEdit) -> Book:
    if not source.sound(path):
        return book
    try:
        return carry_out(book, edit).book
    except EditRefusedError as error:
        for fault in error.faults:
            source.fault(step(path, AT), fault.message, fault.expected, node=node, value=fault.path)
        return book


def _edit(source: Source, node: Node, path: str, book: Book) -> BookEdit:
    source.nodes[path] = node
    if not isinstance(node, Mapping):
        source.fault(path, "this is no edit", f"keys such as {EDIT}, one of {', '.join(CARRIED)}", node=node)
        return _NOTHING
    entries = {key.value: (key, item) for key, item in pairs(source, node, path)}
    kind = _word(entries, EDIT)
    if kind not in CARRIED:
        message = f"there is no edit {quoted(kind)}" if kind else f"the key '{EDIT}' is missing"
        near = nearest(kind, CARRIED)
        source.fault(
            step(path, EDIT), message, quoted(near) if near else f"one of {listed(sorted(CARRIED))}", node=node
        )
        return _NOTHING
    known = [key for key in (EDIT, AT, CARRIED[kind]) if key]
    for key, (at, _) in entries.items():
        if key not in known:
            source.fault(step(path, key), f"the key {quoted(key)} is not known here", listed(known), node=at)
    for key in known:
        if key not in entries:
            source.fault(step(path, key), f"the key {quoted(key)} is missing", "", node=node, value="")
            return _NOTHING
    try:
        place = _place(book, kind, _word(entries, AT))
    except NoPlaceError as error:
        source.fault(step(path, AT), str(error), error.expected, node=entries[AT][1])
        return _NOTHING
    if not CARRIED[kind]:
        return RemoveItem(path=place.path)
    made = decode_at(source, entries[CARRIED[kind]][1], place.hint, step(path, CARRIED[kind]))
    return SetValue(path=place.path, to=made) if kind == "set" else InsertItem(path=place.path, item=made)


def _word(entries: dict[str, tuple[Scalar, Node]], key: str) -> str:
    entry = entries.get(key)
    return str(entry[1].value) if entry is not None and isinstance(entry[1], Scalar) else ""


def _place(book: Book, kind: str, text: str) -> Place:
    """A list by itself means behind its last item, where something is put into it."""
    place = place_in(book, text)
    if kind == "insert" and isinstance(place.found, tuple):
        return Place((*place.path, len(place.found)), _item_hint(place.hint), None)
    return place


def _item_hint(hint: Hint) -> Hint:
    item: Hint = get_args(meant(hint, ()))[0]
    return item


def encode_book_edits(edit: BookEdit, book: Book, how: Style) -> list[Tree]:
    """Give an edit of a book as a list, as `book_edits_from_text` reads it beside that book."""
    if isinstance(edit, BookBatch):
        made: list[Tree] = []
        for inner in edit.edits:
            made += encode_book_edits(inner, book, how)
            book = carry_out(book, inner).book
        return made
    text = text_of(book, edit.path)
    at: dict[str, Tree] = {AT: Word(text, is_text=True)}
    if isinstance(edit, RemoveItem):
        return [{EDIT: Word("remove")} | at]
    hint = place_in(book, text).hint
    if isinstance(edit, SetValue):
        return [{EDIT: Word("set")} | at | {"to": encode(edit.to, hint, how)}]
    return [{EDIT: Word("insert")} | at | {"item": encode(edit.item, hint, how)}]
