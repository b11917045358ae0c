"""Edits from a file: one, or a list of them that are one gesture. All faults are told at once."""

from __future__ import annotations

from collections.abc import Mapping as MappingType
from types import MappingProxyType
from typing import Any

from linewright.document.decode import UNKNOWN, decode_at
from linewright.document.edit_words import CLASSES, EDIT, ITEMS, NONE, OF_SYSTEM, WITHOUT_NAME, WORDS
from linewright.document.parsing import pairs, parse_text
from linewright.document.plans import FieldPlan, plan
from linewright.document.source import Mapping, Node, Scalar, Sequence, Source, step
from linewright.errors import listed, nearest, one_of, quoted
from linewright.model.edits.steps import NAMES, PARTS
from linewright.model.edits.values import Batch, Drop, Edit, Kind, Put, Set, Table
from linewright.model.values import Role

Entries = dict[str, tuple[Scalar, Node]]
_NOTHING = Batch(edits=())


def edits_from_text(text: str, file: str) -> Edit:
    """Read edits; a list of them is one batch.

    Raises InputFaultsError with every fault.
    """
    source = parse_text(text, file)
    source.nodes[""] = source.root
    found = _edits(source, source.root, "")
    source.refuse()
    return found[0] if len(found) == 1 else Batch(edits=found)


def edits_at(source: Source, node: Node, path: str) -> Edit:
    """Read the edits at a node of another document; a list of them is one batch. Faults are noted in its source."""
    if isinstance(node, Sequence) and not node.value:
        return _NOTHING
    found = _edits(source, node, path)
    return found[0] if len(found) == 1 else Batch(edits=found)


def _edits(source: Source, node: Node, path: str) -> tuple[Edit, ...]:
    if isinstance(node, Sequence):
        return tuple(_edit(source, item, f"{path}[{i}]") for i, item in enumerate(node.value))
    return (_edit(source, node, path),)


def _edit(source: Source, node: Node, path: str) -> Edit:
    source.nodes[path] = node
    if not isinstance(node, Mapping):
        source.fault(path, "this is no edit", f"keys such as {EDIT}, one of {', '.join(WORDS)}", node=node)
        return _NOTHING
    entries = {key.value: (key, item) for key, item in pairs(source, node, path)}
    word = entries.pop(EDIT, None)
    stated = word[1].value if word is not None and isinstance(word[1], Scalar) else ""
    cls = WORDS.get(stated)
    if cls is None:
        message = f"there is no edit {quoted(stated)}" if stated else f"the key '{EDIT}' is missing"
        source.fault(step(path, EDIT), message, one_of(stated, WORDS), node=word[1] if word else node, value=stated)
        return _NOTHING
    if cls is Batch:
        return _batch(source, node, entries, path)
    if cls is Set:
        return _set(source, node, entries, path)
    return _put_or_other(source, node, entries, path=path, cls=cls)


def _put_or_other(source: Source, node: Mapping, entries: Entries, *, path: str, cls: type) -> Edit:
    if cls is Put:
        return _put(source, node, entries, path)
    if cls is Drop:
        return _drop(source, node, entries, path)
    rest = Mapping("", list(entries.values()), node.start_mark, node.end_mark, flow_style=node.flow_style)
    edit: Edit = decode_at(source, rest, cls, path)
    return edit


def _batch(source: Source, node: Mapping, entries: Entries, path: str) -> Edit:
    inner = entries.pop("edits", None)
    _leave_nothing(source, entries, path, known=("edits",))
    if inner is None or not isinstance(inner[1], Sequence):
        source.fault(step(path, "edits"), "a batch has no edits", "a list of edits", node=node, value="")
        return _NOTHING
    return Batch(edits=_edits(source, inner[1], step(path, "edits")))


def _set(source: Source, node: Mapping, entries: Entries, path: str) -> Edit:
    system = _text(source, entries, "system", path)
    kind = _kind(entries, system=system)
    if kind is None:
        expected = f"system: and one of {', '.join(OF_SYSTEM)}, or one of room, level, site, project, system"
        source.fault(path, "nothing is named that could be set", expected, node=node)
        return _NOTHING
    if kind is Kind.SYSTEM:
        name, system = system, ""
    elif kind in WITHOUT_NAME:
        name, _ = "", entries.pop(kind.value)
    else:
        name = _text(source, entries, kind.value, path)
    values = _values(source, entries, path, kind=kind)
    return Set(kind=kind, id=name, system=system, values=MappingProxyType(values))


def _kind(entries: Entries, *, system: str) -> Kind | None:
    """What is set: the element that is named, else the system itself."""
    named = OF_SYSTEM if system else (Kind.ROOM, Kind.LEVEL)
    found = next((kind for kind in (*named, *WITHOUT_NAME) if kind.value in entries), None)
    return Kind.SYSTEM if found is None and system else found


def _values(source: Source, entries: Entries, path: str, *, kind: Kind) -> dict[str, Any]:
    fields = {field.key: field for field in plan(CLASSES[kind]) if field.name not in NAMES}
    parts = PARTS - {"units"} if kind is Kind.PROJECT else PARTS
    known = {key: field for key, field in fields.items() if field.name not in parts}
    found: dict[str, Any] = {}
    for key, (at, item) in entries.items():
        where = step(path, key)
        field = known.get(key)
        if field is None:
            message = f"the key {quoted(key)} is not known here"
            near = nearest(key, known, alike=0.5)
            source.fault(where, message, quoted(near) if near else listed(sorted(known)), node=at)
        elif field.name == "override" and isinstance(item, Mapping):
            found |= {f"override.{role}": size for role, size in _sizes(source, item, where, field=field).items()}
        else:
            found[field.name] = decode_at(source, item, field.hint, where)
    if not found and not entries:
        source.fault(path, "no field is set", listed(sorted(known)))
    return found


def _sizes(source: Source, node: Mapping, path: str, *, field: FieldPlan) -> MappingType[Role, Any]:
    taken = {key.value: item for key, item in node.value if isinstance(item, Scalar) and item.value in (NONE, UNKNOWN)}
    rest = [(key, item) for key, item in node.value if key.value not in taken]
    sizes: dict[Role, Any] = {Role(name): None for name in taken if name in set(Role)}
    for name in taken:
        if name not in set(Role):
            source.fault(step(path, name), f"there is no {quoted(name)} line", listed([role.value for role in Role]))
    stated = Mapping("", rest, node.start_mark, node.end_mark, flow_style=node.flow_style)
    return {**sizes, **decode_at(source, stated, field.hint, path)}


def _put(source: Source, node: Mapping, entries: Entries, path: str) -> Edit:
    system, table = _text(source, entries, "system", path), _table(source, node, entries, key="in", path=path)
    after = _text(source, entries, "after", path) or None
    by_name, item = entries.pop("by_name", None), entries.pop("item", None)
    _leave_nothing(source, entries, path, known=("system", "in", "after", "by_name", "item"))
    if item is None or table is None:
        if item is None:
            source.fault(step(path, "item"), "the key 'item' is missing", "what is put there", node=node, value="")
        return _NOTHING
    flag = False if by_name is None else decode_at(source, by_name[1], bool, step(path, "by_name"))
    made = decode_at(source, item[1], ITEMS[table], step(path, "item"))
    return Put(table=table, item=made, after=after, by_name=flag, system=system)


def _drop(source: Source, node: Mapping, entries: Entries, path: str) -> Edit:
    system, table = _text(source, entries, "system", path), _table(source, node, entries, key="from", path=path)
    name = _text(source, entries, "id", path)
    _leave_nothing(source, entries, path, known=("system", "from", "id"))
    return _NOTHING if table is None else Drop(table=table, id=name, system=system)


def _table(source: Source, node: Mapping, entries: Entries, *, key: str, path: str) -> Table | None:
    name = _text(source, entries, key, path)
    if name in set(Table):
        return Table(name)
    source.fault(
        step(path, key), f"there is no list {quoted(name)}", listed([table.value for table in Table]), node=node
    )
    return None


def _text(source: Source, entries: Entries, key: str, path: str) -> str:
    entry = entries.pop(key, None)
    if entry is None:
        return ""
    text: str = decode_at(source, entry[1], str, step(path, key))
    return text


def _leave_nothing(source: Source, entries: Entries, path: str, *, known: tuple[str, ...]) -> None:
    for key, (at, _) in entries.items():
        source.fault(step(path, key), f"the key {quoted(key)} is not known here", one_of(key, known), node=at)
