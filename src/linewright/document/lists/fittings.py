"""Rows of fittings: what is said of the points of a system that are no units."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from linewright.document.lists.items import ItemRows
from linewright.document.lists.kinds import ListKind, system_of
from linewright.document.lists.reading import Read, Stated
from linewright.errors import quoted
from linewright.model.design import Design, Fitting
from linewright.model.edits import ChangeKind, Drop, Edit, Put, Table


class FittingRows(ItemRows):
    """Rows of joints, headers, mode boxes and couplings."""

    def __init__(self, kind: ListKind, design: Design, system: str, read: Read) -> None:
        """Start with the points of which something is said."""
        super().__init__(kind, design, system, read)
        self.said = {fitting.id for fitting in system_of(design, system).fittings}

    def row(self, stated: Stated) -> Iterator[Edit]:
        """Give the edits of one row; with its kind go the model and the ports of a fitting, unless they are stated."""
        name = self.known_as(stated.name)
        old = self.old.get(name)
        kind = stated.row.get("kind")
        if isinstance(old, Fitting) and name in self.said and "kind" in self.read.keys and kind is not old.kind:
            self.changed.append(name)
            yield ChangeKind(system=self.system, fitting=name, kind=kind)
            values = dict(self.differences(self.fields, replace(old, kind=kind, model=""), stated.row))
            if values:
                yield from super().setting(name, values)
            return
        yield from super().row(stated)

    def setting(self, name: str, values: Mapping[str, Any]) -> Iterator[Edit]:
        """Set what differs; a point of which nothing was said is listed first."""
        if name in self.said:
            yield from super().setting(name, values)
        else:
            yield Put(table=Table.FITTINGS, item=Fitting(id=name, **values), by_name=True, system=self.system)

    def new(self, stated: Stated) -> Iterator[Edit]:
        """Refuse what is no point of the system."""
        message = f"there is no fitting {quoted(stated.name)}"
        points = self.read.source.one_of(stated.name, self.old, otherwise="there is none")
        expected = f"the far end of a run that is no unit: {points}"
        self.read.source.fault(self.of.key, message, expected, node=stated.node, value=stated.name)
        return iter(())

    def without(self, names: Iterable[str]) -> Iterator[Edit]:
        """Take back what is said; the point itself stays."""
        return (Drop(table=Table.FITTINGS, id=name, system=self.system) for name in names if name in self.said)
