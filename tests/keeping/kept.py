"""A workspace on a new database, with a small design in it."""

from __future__ import annotations

import json
from itertools import count
from pathlib import Path
from typing import Any

from linewright.app.keeping import Changed, Wanted, Workspace, change
from linewright.app.keeping.changes import add
from linewright.app.keeping.kinds import DESIGN
from linewright.app.shipped import shipped
from linewright.store import documents, open_store

BOAT_HOUSE = next(shipped("examples").glob("boat-house/*.design.yaml")).read_text(encoding="utf-8")
MINIMAL_BOOK = (shipped("books") / "minimal.book.yaml").read_text(encoding="utf-8")


def workspace(folder: Path) -> Workspace:
    """A workspace whose clock counts."""
    ticks = count(1)
    return Workspace(open_store(folder / "a.db"), now=lambda: f"t{next(ticks)}")


def with_boat_house(folder: Path) -> tuple[Workspace, int]:
    """A workspace, and the number of the design in it."""
    made = workspace(folder)
    with made.store.writing() as connection:
        project = documents.add_project(connection, "Quay", at="t")
    return made, add(made, DESIGN, project.id, name="boat house", text=BOAT_HOUSE).document.id


def length(run: str, text: str) -> dict[str, Any]:
    """An edit of a length."""
    return {"edit": "set", "system": "main", "run": run, "length": text}


def edit(made: Workspace, design: int, base: int, *edits: dict[str, Any], key: str = "") -> Changed:
    """Make edits that were made on a revision."""
    return change(made, DESIGN, design, Wanted(base, json.dumps(list(edits)), key=key))


def lengths(made: Workspace, design: int, number: int | None = None) -> dict[str, float | None]:
    """Length of every run at a revision [m], the last one where none is named."""
    document = made.document("design", design)
    found = made.value(document, number or document.head)
    return {run.to: run.length_m for run in found.systems[0].runs}
