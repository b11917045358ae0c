"""Outdoor groups proposed for a needed index, for people and as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from linewright.engine.proposals import Proposal, Wanted
from linewright.report.page import Page
from linewright.report.reasons import number
from linewright.report.table import Cell, Column
from linewright.units import Dimension, UnitSystem

SCHEMA = "linewright/groups/1"
_COLUMNS = (
    Column("group", most=24),
    Column("index", right=True),
    Column("ratio", right=True),
    Column("cooling", right=True),
    Column("heating", right=True),
    Column("why not"),
)


def groups_text(proposals: Sequence[Proposal], wanted: Wanted, *, system: UnitSystem, colour: bool) -> str:
    """Write every group of a book, those that serve first."""
    page = Page(colour=colour)
    units = "" if wanted.units is None else f" and {wanted.units} units"
    page.title(f"Outdoor groups for an index of {wanted.index:g}{units}")
    page.table(_COLUMNS, [_row(item, system) for item in proposals])
    page.blank()
    if not any(item.serves for item in proposals):
        page.text("No group of this book serves it alone: split the system, or take another family.")
    page.text("Judged are connection ratio, unit count and rated capacity; the pipes are judged in a design.")
    return str(page)


def groups_json(proposals: Sequence[Proposal], wanted: Wanted) -> dict[str, Any]:
    """Give the same as plain values."""
    return {
        "schema": SCHEMA,
        "wanted": {
            "index": wanted.index,
            "indoor_count": wanted.units,
            "cooling_w": wanted.cooling_w,
            "heating_w": wanted.heating_w,
        },
        "groups": [
            {
                "id": item.group,
                "modules": list(item.modules),
                "index": item.index,
                "connection_ratio": item.connection_ratio,
                "cooling_w": item.cooling_w,
                "heating_w": item.heating_w,
                "serves": item.serves,
                "why_not": list(item.faults),
            }
            for item in proposals
        ],
    }


def _row(item: Proposal, system: UnitSystem) -> list[Cell | str]:
    return [
        item.group,
        f"{item.index:g}",
        number(item.connection_ratio, Dimension.RATIO, system),
        number(item.cooling_w, Dimension.POWER, system),
        number(item.heating_w, Dimension.POWER, system),
        Cell("; ".join(item.faults) or "-", "over" if item.faults else "within"),
    ]
