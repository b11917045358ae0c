"""Writing a changed value into the text that it came from: what was not touched keeps its text, order and comments."""

from __future__ import annotations

from collections.abc import Mapping as MappingType
from collections.abc import Sequence as SequenceType
from difflib import SequenceMatcher
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from linewright.book.schema import OneOrMany
from linewright.document.encode import Style, Tree, default_of, encode
from linewright.document.plans import FieldPlan, Hint, is_value, plan
from linewright.document.render import Form
from linewright.document.source import Mapping, Node, Scalar, Sequence, Source
from linewright.document.spans import Spans, Splice, applied, dash_before, line_end, line_start
from linewright.model.design import Run
from linewright.units import Dimension, UnitFault, parse
from linewright.units.reading import unit_of


def patched(source: Source, text: str, *, old: Any, new: Any, how: Style) -> str:  # noqa: ANN401 - any declared value
    """Give the text of `old` with only that changed in which `new` differs.

    text : str — what the source was read from, without a byte order mark and with line feeds
    """
    patcher = _Patcher(text, how, as_json=_is_json(source.root))
    patcher.value(source.root, type(old), old, new)
    return applied(text, patcher.splices)


def _is_json(root: Node) -> bool:
    return isinstance(root, Mapping) and bool(root.flow_style) and all(key.style == '"' for key, _ in root.value)


class _Patcher:
    """Compares two values along the nodes of one of them and notes what has to be written."""

    def __init__(self, text: str, how: Style, *, as_json: bool) -> None:
        self.text, self.how, self.form = text, how, Form(as_json=as_json)
        self.splices: list[Splice] = []

    def value(self, node: Node, cls: type, old: Any, new: Any) -> None:  # noqa: ANN401 - any declared value
        """Compare two declared values."""
        if old == new:
            return
        if not isinstance(node, Mapping):
            self.replace(node, encode(new, cls, self.how))
            return
        entries = {key.value: (key, item) for key, item in node.value}
        gone: list[str] = []
        added: dict[str, Tree] = {}
        for field in plan(cls):
            before, after = getattr(old, field.name), getattr(new, field.name)
            if field.inline:
                self._inline(field, before, after, entries=entries, gone=gone, added=added)
            elif before != after:
                self._field(field, before, after, entries=entries, gone=gone, added=added, cls=cls)
        if gone and len(gone) == len(node.value):
            self.replace(node, encode(new, cls, self.how))
            return
        self._remove(node, gone)
        self._add(node, added)

    def _field(
        self,
        field: FieldPlan,
        before: Any,  # noqa: ANN401 - any value
        after: Any,  # noqa: ANN401 - any value
        *,
        entries: MappingType[str, tuple[Scalar, Node]],
        gone: list[str],
        added: dict[str, Tree],
        cls: type,
    ) -> None:
        if field.key not in entries:
            added[field.key] = encode(after, field.hint, self.how)
        elif not field.required and after == default_of(cls, field.name):
            gone.append(field.key)
        else:
            self.any(entries[field.key][1], field.hint, before, after)

    def _inline(
        self,
        field: FieldPlan,
        before: MappingType[Any, Any],
        after: MappingType[Any, Any],
        *,
        entries: MappingType[str, tuple[Scalar, Node]],
        gone: list[str],
        added: dict[str, Tree],
    ) -> None:
        item = get_args(get_args(field.hint)[0])[1]
        names = {str(getattr(key, "value", key)): key for key in (*before, *after)}
        for name, key in names.items():
            if key not in after:
                gone.append(name)
            elif key not in before or name not in entries:
                added[name] = encode(after[key], item, self.how)
            elif before[key] != after[key]:
                self.any(entries[name][1], item, before[key], after[key])

    def any(self, node: Node, hint: Hint, old: Any, new: Any) -> None:  # noqa: ANN401 - any value
        """Compare two values of any hint."""
        if old == new:
            return
        if _stands_alone(hint, node) and len(old) == len(new) == 1:
            self.any(node, get_args(_bare(hint))[0], old[0], new[0])
            return
        hint = _plain(hint, old, new)
        if is_value(hint) and type(old) is type(new):
            self.value(node, hint, old, new)
        elif _origin(_bare(hint)) is tuple and isinstance(node, Sequence) and new:
            self._items(node, get_args(_bare(hint))[0], old, new)
        elif _origin(_bare(hint)) is MappingType and isinstance(node, Mapping) and new:
            self._entries(node, _bare(hint), old, new)
        else:
            self.replace(node, encode(new, hint, self._near(node)))

    def _entries(self, node: Mapping, hint: Hint, old: MappingType[Any, Any], new: MappingType[Any, Any]) -> None:
        item_hint = get_args(hint)[1]
        order = list(old)
        entries = {order[i]: pair for i, pair in enumerate(node.value)} if len(order) == len(node.value) else {}
        if not entries:
            self.replace(node, encode(new, hint, self.how))
            return
        added = {key: new[key] for key in new if key not in old}
        for key in order:
            if key in new:
                self.any(entries[key][1], item_hint, old[key], new[key])
        gone = [entries[key][0].value for key in order if key not in new]
        if len(gone) == len(order):
            self.replace(node, encode(new, hint, self.how))
            return
        self._remove(node, gone)
        trees = encode(added, hint, self.how)
        self._add(node, trees if isinstance(trees, dict) else {})

    def _items(self, node: Sequence, item: Hint, old: SequenceType[Any], new: SequenceType[Any]) -> None:
        """Compare two lists by the names of their items; what has no name is itself its name."""
        before, after = _names(old, new)
        kept = [name for name in before if name in after]
        unclear = len(set(before)) < len(before) or len(set(after)) < len(after) or len(before) != len(node.value)
        if unclear or kept != [name for name in after if name in before] or not kept:
            self._rewrite(node, item, new)
            return
        for name in kept:
            at = before.index(name)
            self.any(node.value[at], item, old[at], new[after.index(name)])
        spans = Spans.of(node, self.text)
        self.splices += spans.without([at for at, name in enumerate(before) if name not in after])
        for at, name in enumerate(after):
            if name not in before:
                behind = next((before.index(other) for other in reversed(after[:at]) if other in before), None)
                self._insert(node, spans, behind, encode(new[at], item, self.how))

    def _rewrite(self, node: Sequence, item: Hint, new: SequenceType[Any]) -> None:
        trees = [encode(one, item, self.how) for one in new]
        if node.flow_style or not node.value:
            self.replace(node, list(trees))
            return
        dash = dash_before(self.text, node.value[0].start_mark.index)
        text = self.form.block(list(trees), dash - line_start(self.text, dash))
        self.splices.append(Splice(dash, node.end_mark.index, text.lstrip()))

    def replace(self, node: Node, tree: Tree) -> None:
        """Write another value at a node, in place of a block on one line."""
        start, end = node.start_mark.index, node.end_mark.index
        if isinstance(node, Sequence) and not node.flow_style and node.value:
            start = dash_before(self.text, node.value[0].start_mark.index)
        text = self.form.flow(tree)
        self.splices.append(Splice(start, end, text if start and self.text[start - 1] in " \n[{," else f" {text}"))

    def _near(self, node: Node) -> Style:
        """Quantities are written in the unit that stood there."""
        if not isinstance(node, Scalar):
            return self.how
        try:
            amount = parse(node.value)
        except UnitFault:
            return self.how
        unit = unit_of(node.value)
        if unit is None:
            return self.how
        dimensions = {amount.dimension, *((Dimension.TUBE,) if amount.dimension is Dimension.LENGTH else ())}
        return self.how._replace(units={**self.how.units, **dict.fromkeys(dimensions, unit)})

    def _remove(self, node: Mapping, gone: SequenceType[str]) -> None:
        places = [at for at, (key, _) in enumerate(node.value) if key.value in gone]
        self.splices += Spans.of(node, self.text).without(places)

    def _add(self, node: Mapping, added: MappingType[str, Tree]) -> None:
        if not added:
            return
        if node.flow_style or not node.value:
            text = ", ".join(f"{self.form.key(key)}: {self.form.flow(tree)}" for key, tree in added.items())
            end = node.value[-1][1].end_mark.index if node.value else node.start_mark.index + 1
            self.splices.append(Splice(end, end, f", {text}" if node.value else text))
            return
        first = node.value[0][0].start_mark.index
        indent = first - line_start(self.text, first)
        end = line_end(self.text, node.value[-1][1].end_mark.index)
        text = "".join(f"\n{' ' * indent}{self.form.entry(key, tree, indent)}" for key, tree in added.items())
        self.splices.append(Splice(end, end, text))

    def _insert(self, node: Sequence, spans: Spans, behind: int | None, tree: Tree) -> None:
        if spans.flow:
            text = self.form.flow(tree)
            at = spans.items[0][0] if behind is None else spans.items[behind][1]
            self.splices.append(Splice(at, at, f"{text}, " if behind is None else f", {text}"))
            return
        dash = spans.items[0][0]
        indent = dash - line_start(self.text, dash)
        neighbour = node.value[behind or 0]
        on_lines = isinstance(neighbour, Mapping) and not neighbour.flow_style
        text = f"{' ' * indent}- {self.form.item(tree, indent, on_lines=on_lines)}"
        if behind is None:
            start = line_start(self.text, dash)
            self.splices.append(Splice(start, start, f"{text}\n"))
        else:
            end = line_end(self.text, spans.items[behind][1])
            self.splices.append(Splice(end, end, f"\n{text}"))


def _names(old: SequenceType[Any], new: SequenceType[Any]) -> tuple[list[object], list[object]]:
    """Names of the items of two lists; where some have none, items that stand in for one another are paired."""
    before, after = ([_name(item) for item in items] for items in (old, new))
    return (before, after) if None not in (*before, *after) else _paired(old, new)


def _paired(old: SequenceType[Any], new: SequenceType[Any]) -> tuple[list[object], list[object]]:
    after: list[object] = [("new", at) for at in range(len(new))]
    matcher = SequenceMatcher(a=[repr(item) for item in old], b=[repr(item) for item in new], autojunk=False)
    for _, start, end, to, until in matcher.get_opcodes():
        for i in range(min(end - start, until - to)):
            after[to + i] = start + i
    return list(range(len(old))), after


def _name(item: Any) -> object:  # noqa: ANN401 - any item of a list
    """What tells an item of a list from the others, if anything does."""
    if isinstance(item, str | float | int):
        return item
    if isinstance(item, Run):
        return item.to
    for field in ("id", "model"):
        name = getattr(item, field, "")
        if isinstance(name, str) and name:
            return name
    return None


def _stands_alone(hint: Hint, node: Node) -> bool:
    """Whether the one item of a list is written without the list."""
    marks: tuple[object, ...] = get_args(hint)[1:] if _origin(hint) is Annotated else ()
    return any(isinstance(mark, OneOrMany) for mark in marks) and not isinstance(node, Sequence)


def _bare(hint: Hint) -> Hint:
    return get_args(hint)[0] if _origin(hint) is Annotated else hint


def _origin(hint: Hint) -> Hint:
    return get_origin(hint)


def _plain(hint: Hint, old: object, new: object) -> Hint:
    """Which option of a union both values are of; of a list for which one item may stand, the list."""
    marks: tuple[object, ...] = get_args(hint)[1:] if _origin(hint) is Annotated else ()
    if _origin(hint) in (Union, UnionType):
        options = [option for option in get_args(hint) if option is not type(None)]
        of_both = [option for option in options if is_value(option) and type(old) is type(new) is option]
        return of_both[0] if of_both else hint
    return _bare(hint) if any(isinstance(mark, OneOrMany) for mark in marks) else hint
