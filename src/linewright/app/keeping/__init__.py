"""Documents that are kept in a database: opened, changed, undone, compared, judged."""

from linewright.app.keeping.changes import Changed, ConflictsError, Wanted, change, restore, undo
from linewright.app.keeping.workspace import Workspace

__all__ = ["Changed", "ConflictsError", "Wanted", "Workspace", "change", "restore", "undo"]
