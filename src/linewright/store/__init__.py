"""Projects, documents and their revisions in a database: what was acknowledged is there for ever."""

from linewright.store.faults import HeadMovedError, NotThereError, StoreError
from linewright.store.opening import Store, open_store
from linewright.store.records import Document, Job, Project, Revision, RevisionLine

__all__ = [
    "Document",
    "HeadMovedError",
    "Job",
    "NotThereError",
    "Project",
    "Revision",
    "RevisionLine",
    "Store",
    "StoreError",
    "open_store",
]
