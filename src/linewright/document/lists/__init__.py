"""Lists of a design as tables: levels, rooms, units, runs, fittings; out of it, and back as edits."""

from linewright.document.lists.choices import choices_of
from linewright.document.lists.edits import ListEdits, edits_from_grid
from linewright.document.lists.kinds import ListKind
from linewright.document.lists.table import Column, ListTable, Row, list_table, run_roles

__all__ = [
    "Column",
    "ListEdits",
    "ListKind",
    "ListTable",
    "Row",
    "choices_of",
    "edits_from_grid",
    "list_table",
    "run_roles",
]
