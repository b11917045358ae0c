"""Rows of runs, each with the unit at its far end where it has one: a whole tree can be pasted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from linewright.document.lists.items import ItemRows
from linewright.document.lists.kinds import ListKind, system_of
from linewright.document.lists.reading import Read, Stated
from linewright.document.lists.run_fields import OF_UNIT, far_unit_fields
from linewright.model.design import Design, Run, Unit
from linewright.model.edits import Drop, Edit, Kind, Put, Set, Table
from linewright.model.values import Role

_SIZE = "override."


class RunRows(ItemRows):
    """Rows of runs of a system."""

    def __init__(self, kind: ListKind, design: Design, system: str, read: Read) -> None:
        """Start with the units that hang on the runs."""
        super().__init__(kind, design, system, read)
        self.whole = system_of(design, system)
        self.units = {unit.id: unit for unit in self.whole.units}

    def row(self, stated: Stated) -> Iterator[Edit]:
        """Give the edits of a run, then those of the unit at its far end."""
        yield from super().row(stated)
        name = self.known_as(stated.name)
        if name in self.units:
            values = dict(self.differences(far_unit_fields(), self.units[name], stated.row))
            if values:
                self._note(name)
                yield Set(kind=Kind.UNIT, id=name, system=self.system, values=values)
        elif any(stated.row.get(key) for key in OF_UNIT):
            yield from self._new_unit(name, stated)

    def made(self, stated: Stated) -> Any:  # noqa: ANN401 - an item of the list
        """Give the run that a row states."""
        row = {field.name: stated.row[field.key] for field in self.fields if field.key in stated.row}
        sizes = {Role(name.removeprefix(_SIZE)): size for name, size in row.items() if name.startswith(_SIZE)}
        return Run(**{name: value for name, value in row.items() if not name.startswith(_SIZE)}, override=sizes)

    def without(self, names: Iterable[str]) -> Iterator[Edit]:
        """Take runs away, and what then hangs on nothing."""
        gone = set(names)
        for table, found in (
            (Table.FITTINGS, [fitting.id for fitting in self.whole.fittings]),
            (Table.UNITS, list(self.units)),
            (Table.RUNS, [run.to for run in reversed(self.whole.runs)]),
        ):
            yield from (Drop(table=table, id=name, system=self.system) for name in found if name in gone)

    def _note(self, name: str) -> None:
        """Count a run whose unit is another as changed, once, unless it is new."""
        if name not in (*self.changed[-1:], *self.added[-1:]):
            self.changed.append(name)

    def _new_unit(self, name: str, stated: Stated) -> Iterator[Edit]:
        values = {field.name: stated.row[field.key] for field in far_unit_fields() if field.key in stated.row}
        if "model" in values:
            self._note(name)
            yield Put(table=Table.UNITS, item=Unit(id=name, **values), by_name=True, system=self.system)
            return
        key, item = next((key.value, item) for key, item in stated.node.value if key.value in OF_UNIT)
        message = f"{self.of.named(name)} ends at no unit"
        self.read.source.fault(key, message, "a model as well, which makes it one, or nothing there", node=item)
