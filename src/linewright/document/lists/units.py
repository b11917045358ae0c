"""Rows of units: each hangs on a run already."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from linewright.document.lists.items import ItemRows
from linewright.document.lists.reading import Stated
from linewright.errors import quoted
from linewright.model.edits import Edit, RemoveSubtree


class UnitRows(ItemRows):
    """Rows of units of a system."""

    def new(self, stated: Stated) -> Iterator[Edit]:
        """Refuse a unit that no run leads to; another kind of list adds both."""
        message = f"there is no unit {quoted(stated.name)}"
        near = self.read.source.nearest(stated.name, self.old)
        meant = "" if near is None else f"; or is {quoted(near)} meant?"
        expected = f"its run, with a model, in a list of runs{meant}"
        self.read.source.fault(self.of.key, message, expected, node=stated.node, value=stated.name)
        return iter(())

    def without(self, names: Iterable[str]) -> Iterator[Edit]:
        """Take a unit away with the run that it hangs on."""
        for name in names:
            yield RemoveSubtree(system=self.system, node=name)
