"""Rows of a list to edits, one after the other: what differs is set, a new name is a new item behind the others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from collections.abc import Mapping as MappingType
from typing import Any

from linewright.document.lists.fields import ListField
from linewright.document.lists.kinds import OF, ListKind, listed_items, own_fields
from linewright.document.lists.reading import Read, Stated
from linewright.errors import quoted
from linewright.model.design import Design
from linewright.model.edits import Edit, Put, RemoveLevel, RemoveRoom, Set
from linewright.model.edits.steps import field_of


class ItemRows:
    """Rows of levels and rooms; what was changed and added so far."""

    def __init__(self, kind: ListKind, design: Design, system: str, read: Read) -> None:
        """Start with nothing changed; raises MissingError where there is no such system."""
        self.kind, self.of, self.read = kind, OF[kind], read
        self.design, self.system = design, system
        self.fields = own_fields(kind)
        self.old = listed_items(kind, design, system)
        self.spaced = {" ".join(name.split()): name for name in self.old}
        self.last = next(reversed(self.old), None)
        self.changed: list[str] = []
        self.added: list[str] = []

    def known_as(self, name: str) -> str:
        """Give the name of the design that a cell means: cells do not keep blanks in a row."""
        return self.spaced.get(name, name)

    def row(self, stated: Stated) -> Iterator[Edit]:
        """Give the edits of one row."""
        name = self.known_as(stated.name)
        if name not in self.old:
            yield from self.new(stated)
            return
        values = dict(self.differences(self.fields, self.old[name], stated.row))
        if values:
            self.changed.append(name)
            yield from self.setting(name, values)

    def setting(self, name: str, values: MappingType[str, Any]) -> Iterator[Edit]:
        """Set what differs."""
        yield Set(kind=self.of.kind, id=name, system=self.system, values=values)

    def new(self, stated: Stated) -> Iterator[Edit]:
        """Add an item; what has to be there is asked for."""
        if self.is_whole(stated):
            self.added.append(stated.name)
            yield Put(table=self.of.table, item=self.made(stated), after=self.last, system=self.system)
            self.last = stated.name

    def is_whole(self, stated: Stated) -> bool:
        """Say whether all is stated that a new item has to have; what is not is noted."""
        missing = [field.key for field in self.fields if field.required and field.key not in stated.row]
        for key in missing:
            message = f"{self.of.named(stated.name)} is new, and its {key} is missing"
            self.read.source.fault(key, message, f"a cell under {quoted(key)}", node=stated.node, value="")
        return not missing

    def made(self, stated: Stated) -> Any:  # noqa: ANN401 - an item of the list
        """Give the item that a row states."""
        return self.of.cls(**{field.name: stated.row[field.key] for field in self.fields if field.key in stated.row})

    def differences(
        self, fields: Iterable[ListField], old: object, row: MappingType[str, Any]
    ) -> Iterator[tuple[str, Any]]:
        """Fields that differ; a blank cell says that nothing is stated, and leaves what has to be there."""
        for field in fields:
            if field.key == self.of.key or field.key not in self.read.keys or (field.required and field.key not in row):
                continue
            value = row.get(field.key, field.default)
            if not field.same(value, field_of(old, field.name)):
                yield field.name, value

    def without(self, names: Iterable[str]) -> Iterator[Edit]:
        """Take away what is left out."""
        for name in names:
            yield RemoveLevel(level=name) if self.kind is ListKind.LEVELS else RemoveRoom(room=name)
