"""Lists of a design as tables, and changes by them."""

from __future__ import annotations

from typing import Literal

from fastapi import APIRouter, Response

from linewright.app.keeping import Wanted
from linewright.app.keeping.lists import Given, change_by_table, kept_table
from linewright.document.lists import ListKind
from linewright.units import UnitSystem
from linewright.web.answers import told
from linewright.web.bodies import TableOut
from linewright.web.requests import TableIn
from linewright.web.routes.documents import CHANGED, AtRevision
from linewright.web.routes.results import Name, Units
from linewright.web.state import PROBLEMS, Number, Shared

router = APIRouter(prefix="/api/designs/{document}/tables", tags=["tables"], responses=PROBLEMS)
Kind = Literal["levels", "rooms", "units", "runs", "fittings"]


@router.get("/{kind}")
def read_table(
    shared: Shared, document: Number, kind: Kind, *, system: Name = "", units: Units = "", revision: AtRevision = None
) -> TableOut:
    """A list of the design as a table; of which system has to be said for units, runs and fittings."""
    table = kept_table(
        shared.workspace,
        document,
        ListKind(kind),
        system,
        number=revision,
        units=UnitSystem(units) if units else None,
    )
    return TableOut.of(table)


@router.post("/{kind}", responses=CHANGED)
def change_table(shared: Shared, document: Number, kind: Kind, body: TableIn) -> Response:
    """Change a list by a table, all of it or nothing, by the same rules as edits. Columns that it has not stay.

    Faults carry row and column of the text. A table in which nothing differs is refused with 422.
    """
    given = Given(ListKind(kind), body.system, body.text, body.remove)
    done = change_by_table(shared.workspace, document, given, Wanted(body.base, "", body.note, body.key))
    return told(shared, done, body.view)
