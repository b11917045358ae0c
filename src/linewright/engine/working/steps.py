"""The working behind a number: ordered steps that can be replayed."""

from __future__ import annotations

from typing import NamedTuple

from linewright.engine.figures import TableRow
from linewright.engine.formulas import FORMULAS
from linewright.units import Dimension


class Input(NamedTuple):
    """One input of a step: where it is from is another subject, or a path in the design or a book."""

    name: str
    value: float | str
    dimension: Dimension
    from_: str


class Step(NamedTuple):
    """One application of a formula; `result` is what the evaluation holds, `None` where it is unknown."""

    name: str
    formula: str
    inputs: tuple[Input, ...]
    dimension: Dimension
    result: float | str | None
    table: str = ""
    row: int | None = None
    page: int | None = None
    note: str = ""

    @property
    def text(self) -> str:
        """The formula in words."""
        return FORMULAS[self.formula].text

    @property
    def source(self) -> str:
        """Where the formula comes from."""
        return FORMULAS[self.formula].source


class Working(NamedTuple):
    """All steps behind one subject, in order; the last gives the subject's value."""

    subject: str
    steps: tuple[Step, ...]


def replay(step: Step) -> float:
    """Apply the step's formula to its inputs again."""
    return FORMULAS[step.formula].function(*(item.value for item in step.inputs))


def from_row(
    name: str, row: TableRow | None, size: float | None, *, dimension: Dimension, index_from: str, book: str
) -> Step:
    """A value that a row of a table gives."""
    if row is None or size is None:
        return Step(name, "stated", (), dimension, None, note="no row of the table serves this index")
    where = f"book:{book}:{row.path}[{row.position}]"
    value = Input("value of the row", size, dimension, where)
    if row.number is None or row.upper is None:
        return Step(name, "stated", (value,), dimension, size, row.path, row.position, row.page)
    index = Input("index", row.number, Dimension.NUMBER, index_from)
    edge = Input("upper edge of the row", row.upper, Dimension.NUMBER, where)
    return Step(name, "band_row", (index, edge, value), dimension, size, row.path, row.position, row.page)
