"""A sweep for people: how many rows stand how, and the first of them with what decides."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from linewright.report.page import Page
from linewright.report.reasons import number
from linewright.report.schedules.tables import Cell as Value
from linewright.report.schedules.tables import Table
from linewright.report.table import Cell, Column
from linewright.units import Dimension, UnitSystem

#: Rows that are printed; the file has them all.
MOST_ROWS = 40
STANDING = "standing"


def sweep_text(table: Table, axes: Sequence[str], *, system: UnitSystem, colour: bool) -> str:
    """Write the rows in short: the worst of all systems, and the sum of what they are charged with.

    axes : names of the columns that are varied
    """
    page = Page(colour=colour)
    page.title(table.title)
    keys = [column.key for column in table.columns]
    columns = (
        *(Column(name, most=14) for name in axes),
        Column("standing", most=13),
        Column("margin", right=True),
        Column("delivered", right=True),
        Column("charge", right=True),
        Column("least margin of"),
    )
    page.table(columns, [_row(row, keys, len(axes), system) for row in table.rows[:MOST_ROWS]])
    if len(table.rows) > MOST_ROWS:
        page.text(f"and {len(table.rows) - MOST_ROWS:,} more rows, in the file")
    page.blank()
    counts = Counter(str(row[keys.index(STANDING)]) for row in table.rows)
    said = ", ".join(f"{count:,} {standing}" for standing, count in sorted(counts.items()))
    page.text(f"{len(table.rows):,} rows: {said}.")
    page.text(
        "margin: the least of any system, as a share of its bound; delivered: the least of any room, of what it needs; "
        "charge: added in all systems together. ? is not known, and no pass."
    )
    return str(page)


def _row(row: Sequence[Value], keys: Sequence[str], axes: int, system: UnitSystem) -> tuple[Cell | str, ...]:
    standing = str(row[keys.index(STANDING)])
    varied = [str(value) for value in row[1 : 1 + axes]]
    fault = str(row[-1])
    if fault:
        return (*varied, Cell(standing, "over"), "-", "-", "-", fault)
    systems = [key.removesuffix("/worst_margin") for key in keys if key.endswith("/worst_margin")]
    margin, of_margin = _least(row, keys, share="/worst_margin", name="/worst")
    delivered, _ = _least(row, keys, share="/shortest_share", name="/shortest")
    charge = _sum([value for key, value in zip(keys, row, strict=True) if key.endswith("/additional_charge")])
    return (
        *varied,
        Cell(standing, standing),
        number(margin, Dimension.RATIO, system),
        number(delivered, Dimension.RATIO, system),
        number(charge, Dimension.MASS, system),
        of_margin.removeprefix(f"{systems[0]}/").removeprefix("limit:") if len(systems) == 1 else of_margin,
    )


def _least(row: Sequence[Value], keys: Sequence[str], *, share: str, name: str) -> tuple[float | None, str]:
    """The least share of all systems, and of what; unknown as soon as one is that is not yet known to be worse."""
    found = [
        (row[i], str(row[keys.index(key.removesuffix(share) + name)] or ""))
        for i, key in enumerate(keys)
        if key.endswith(share) and row[i] != ""
    ]
    known = [(float(value), name) for value, name in found if isinstance(value, float | int)]
    bad = 0.0 if share == "/worst_margin" else 1.0
    if not known or (len(known) < len(found) and min(known)[0] >= bad):
        return None, ""
    return min(known)


def _sum(values: Sequence[Value]) -> float | None:
    stated = [value for value in values if value != ""]
    known = [float(value) for value in stated if isinstance(value, float | int)]
    return sum(known) if known and len(known) == len(stated) else None
