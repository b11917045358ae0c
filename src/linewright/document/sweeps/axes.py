"""What is varied: an edit with a place for the value, named cases of edits, or the files of a book."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from linewright.document.decode import decode_at
from linewright.document.edits import edits_at
from linewright.document.parsing import pairs
from linewright.document.source import Mapping, Node, Scalar, Sequence, Source, step
from linewright.document.sweeps.ranges import range_texts
from linewright.document.sweeps.values import Axis, Case, Place
from linewright.errors import one_of, quoted
from linewright.model.edits import Batch, Edit
from linewright.units import Amount, UnitFault, parse

#: Stands in an edit where the value goes.
HERE = "$"
KEYS = ("name", "edit", "values", "range", "cases", "book", "files")
CASE_KEYS = ("name", "edits")
_RIGHT = "edit: with values: or range:, or cases:, or book: with files:"
_NOTHING = Batch(edits=())

Entries: TypeAlias = dict[str, tuple[Scalar, Node]]


def axis_at(source: Source, node: Node, path: str) -> Axis:
    """Read one axis; what is faulty is noted."""
    place = place_of(node, path)
    if not isinstance(node, Mapping):
        source.fault(path, "this is not a mapping of keys to values", f"keys such as name, {_RIGHT}", node=node)
        return Axis("", (), "", place)
    entries = _entries(source, node, path, KEYS)
    name = _text(source, node, entries, path, key="name")
    ways = [key for key in ("edit", "cases", "book") if key in entries]
    if len(ways) != 1:
        message = f"{' and '.join(ways)} stand together" if ways else "nothing is varied"
        source.fault(path, message, _RIGHT, node=node)
        return Axis(name, (), "", place)
    _refuse_others(source, entries, path, way=ways[0])
    if ways == ["edit"]:
        return Axis(name, tuple(_edited(source, node, entries, path)), "", place)
    if ways == ["cases"]:
        return Axis(name, tuple(_named(source, entries["cases"][1], step(path, "cases"))), "", place)
    return Axis(name, tuple(_files(source, node, entries, path)), _text(source, node, entries, path, key="book"), place)


def place_of(node: Node, path: str) -> Place:
    """Where a node stands."""
    return Place(node.start_mark.line + 1, node.start_mark.column + 1, path)


def _entries(source: Source, node: Mapping, path: str, known: tuple[str, ...]) -> Entries:
    entries = {key.value: (key, item) for key, item in pairs(source, node, path)}
    for name, (at, _) in entries.items():
        if name not in known:
            message = f"the key {quoted(name)} is not known here"
            source.fault(step(path, name), message, one_of(name, known), node=at)
    return entries


def _text(source: Source, node: Node, entries: Entries, path: str, *, key: str) -> str:
    where = step(path, key)
    if key not in entries:
        source.fault(where, f"the key '{key}' is missing", "a text", node=node, value="")
        return ""
    text: str = decode_at(source, entries[key][1], str, where)
    if isinstance(entries[key][1], Scalar) and not text.strip():
        source.fault(where, "nothing is written here", "a text", node=entries[key][1])
    return text


_WITH = {"edit": ("values", "range"), "cases": (), "book": ("files",)}


def _refuse_others(source: Source, entries: Entries, path: str, *, way: str) -> None:
    for key in ("values", "range", "files"):
        if key in entries and key not in _WITH[way]:
            source.fault(step(path, key), f"{key} does not go with {way}", _RIGHT, node=entries[key][0])


def _edited(source: Source, node: Mapping, entries: Entries, path: str) -> Iterator[Case]:
    template, where = entries["edit"][1], step(path, "edit")
    if not _holds_here(template):
        source.fault(where, f"the edit has no {HERE}", f"{HERE} where the value stands", node=template)
        return
    given = [key for key in ("values", "range") if key in entries]
    if len(given) != 1:
        message = "values and range stand together" if given else "no values are given"
        source.fault(path, message, "a list of values:, or a range:", node=node)
        return
    for item in _values(source, entries[given[0]][1], step(path, given[0]), key=given[0]):
        edit = edits_at(source, _filled(template, item), where)
        label = str(item.value) if isinstance(item, Scalar) else ""
        yield Case(label, edit, "", _amount(label), place_of(item, where))


def _values(source: Source, node: Node, path: str, *, key: str) -> list[Node]:
    if key == "range":
        marks = node.start_mark, node.end_mark
        return [Scalar("", text, *marks) for text in range_texts(source, node, path)]
    return list(_items(source, node, path))


def _items(source: Source, node: Node, path: str) -> Iterator[Node]:
    if not isinstance(node, Sequence) or not node.value:
        source.fault(path, "no value is listed", "a list of one or more", node=node)
        return
    yield from node.value


def _holds_here(node: Node) -> bool:
    if isinstance(node, Mapping):
        return any(_holds_here(item) for _, item in node.value)
    if isinstance(node, Sequence):
        return any(_holds_here(item) for item in node.value)
    return isinstance(node, Scalar) and node.value == HERE


def _filled(node: Node, item: Node) -> Node:
    """The same with the value in each place for it."""
    if not _holds_here(node):
        return node
    if isinstance(node, Mapping):
        filled = [(key, _filled(inner, item)) for key, inner in node.value]
        return Mapping(node.tag, filled, node.start_mark, node.end_mark, flow_style=node.flow_style)
    if isinstance(node, Sequence):
        inner_items = [_filled(inner, item) for inner in node.value]
        return Sequence(node.tag, inner_items, node.start_mark, node.end_mark, flow_style=node.flow_style)
    return item


def _amount(label: str) -> Amount | None:
    try:
        return parse(label)
    except UnitFault:
        return None


def _named(source: Source, node: Node, path: str) -> Iterator[Case]:
    first: dict[str, int] = {}
    for i, item in enumerate(_items(source, node, path)):
        where = f"{path}[{i}]"
        if not isinstance(item, Mapping):
            source.fault(where, "this is not a mapping of keys to values", "keys name and edits", node=item)
            continue
        entries = _entries(source, item, where, CASE_KEYS)
        name = _text(source, item, entries, where, key="name")
        if name in first:
            message = f"the name {quoted(name)} is used twice, first in {path}[{first[name]}]"
            source.fault(step(where, "name"), message, "each name once", node=item)
        first.setdefault(name, i)
        yield Case(name, _edits(source, item, entries, where), "", None, place_of(item, where))


def _edits(source: Source, node: Mapping, entries: Entries, path: str) -> Edit:
    where = step(path, "edits")
    if "edits" not in entries:
        source.fault(where, "the key 'edits' is missing", "a list of edits, [] for none", node=node, value="")
        return _NOTHING
    return edits_at(source, entries["edits"][1], where)


def _files(source: Source, node: Mapping, entries: Entries, path: str) -> Iterator[Case]:
    if "files" not in entries:
        source.fault(step(path, "files"), "the key 'files' is missing", "a list of files", node=node, value="")
        return
    where = step(path, "files")
    for i, item in enumerate(_items(source, entries["files"][1], where)):
        name: str = decode_at(source, item, str, f"{where}[{i}]")
        yield Case(name, _NOTHING, name, None, place_of(item, f"{where}[{i}]"))
