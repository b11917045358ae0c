"""`linewright/sweep/1`: a sweep as JSON. SI units stand beside the columns; `null` is not known, "" is nothing."""

from __future__ import annotations

from typing import Any

from linewright.report.schedules.about import About
from linewright.report.schedules.tables import Table

SCHEMA = "linewright/sweep/1"


def sweep_json(table: Table, axes: int, about: About, *, kept: int) -> dict[str, Any]:
    """Give every row.

    axes : how many columns behind the first are varied; kept : how many rows were kept from a sweep that was stopped
    """
    first = axes + 2
    return {
        "schema": SCHEMA,
        "title": table.title,
        "about": about.json(),
        "kept": kept,
        "varied": [column.heading for column in table.columns[1 : first - 1]],
        "columns": [
            {
                "key": column.key,
                "heading": column.heading,
                "unit": None if column.dimension is None else column.dimension.si,
            }
            for column in table.columns[first:-1]
        ],
        "rows": [
            {
                "row": row[0],
                "values": list(row[1 : first - 1]),
                "standing": row[first - 1],
                "cells": list(row[first:-1]),
                "fault": row[-1] or None,
            }
            for row in table.rows
        ],
    }
