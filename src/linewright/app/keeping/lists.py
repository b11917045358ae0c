"""Lists of a design that is kept: as tables, and changed by tables by the same rules as by edits."""

from __future__ import annotations

from typing import NamedTuple

from linewright.app.keeping.changes import Changed, Wanted, change
from linewright.app.keeping.kinds import DESIGN
from linewright.app.keeping.workspace import Workspace, check_against
from linewright.app.list_faults import at_cells
from linewright.document.encode import Style
from linewright.document.grid import grid_from_text
from linewright.document.lists import ListEdits, ListKind, ListTable, choices_of, edits_from_grid, list_table
from linewright.errors import Fault, InputFaultsError, listed
from linewright.model.design import Design
from linewright.model.edits import apply
from linewright.store import Document, NotThereError
from linewright.units import UnitSystem

#: What a table is called in faults: it comes from a request, not from a file.
TABLE = "table"


class Given(NamedTuple):
    """A table that is given: of which list, of which system, as text, and whether what it leaves out goes."""

    kind: ListKind
    system: str
    text: str
    remove: bool = False


def kept_table(
    workspace: Workspace,
    document: int,
    kind: ListKind,
    system: str,
    *,
    number: int | None = None,
    units: UnitSystem | None = None,
) -> ListTable:
    """Give a list of a design as it was at a revision, the last one where none is named.

    Raises NotThereError, InputFaultsError where no system is named that has to be.
    """
    found = workspace.document(DESIGN.name, document)
    design: Design = workspace.value(found, number or found.head)
    of = _system(design, kind, system)
    name = next((one.book for one in design.systems if one.id == of), "")
    book = workspace.shelf(found.project_id).books.get(name)
    return list_table(
        kind,
        design,
        Style(units or design.units),
        system=of,
        choices=choices_of(kind, design, None if book is None else book.compiled.book),
        roles=() if book is None else book.compiled.book.tubes.ladders,
    )


def change_by_table(workspace: Workspace, document: int, given: Given, wanted: Wanted) -> Changed:
    """Change a list of a design by a table, which was made on the revision `wanted.base`.

    Raises as `change` does; faults carry row and column of the table. Raises InputFaultsError as well where the table
    changes nothing.
    """
    found = workspace.document(DESIGN.name, document)
    if not 0 < wanted.base <= found.head:
        raise NotThereError("revision", wanted.base)
    base: Design = workspace.value(found, wanted.base)
    system = _system(base, given.kind, given.system)
    read = edits_from_grid(given.kind, grid_from_text(given.text, TABLE), base, system=system, remove=given.remove)
    if not read.edit.edits:
        message = f"nothing differs from the {given.kind} of the design"
        raise _refused("", message, "a table that changes, adds or, with remove, leaves out something")
    try:
        return change(workspace, DESIGN, document, wanted._replace(edits=DESIGN.write_edits(read.edit, base)))
    except InputFaultsError as error:
        raise at_cells(error, read, _judged_on(workspace, found, read, base), file=TABLE) from None


def _judged_on(workspace: Workspace, found: Document, read: ListEdits, base: Design) -> Design:
    """Give the design whose edited form has the faults: of the base, or where that is sound, of the head."""
    try:
        check_against(apply(base, read.edit).design, workspace.shelf(found.project_id))
    except InputFaultsError:
        return base
    head: Design = workspace.value(found, workspace.document(DESIGN.name, found.id).head)
    return head


def _system(design: Design, kind: ListKind, name: str) -> str:
    """Give the system that is meant, none where a list belongs to none."""
    if not kind.of_system:
        return ""
    names = [system.id for system in design.systems]
    if not name:
        message = f"the {kind} are those of one system, and none is named"
        raise _refused("system", message, listed(names, otherwise="a system: the design has none"))
    if name not in names:
        raise NotThereError("system", name)
    return name


def _refused(path: str, message: str, expected: str) -> InputFaultsError:
    return InputFaultsError(
        [Fault(file=TABLE, line=0, column=0, path=path, value="", message=message, expected=expected)]
    )
