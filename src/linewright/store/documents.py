"""Projects and documents: made, listed, found. Every function works within the connection that it is given."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, CursorResult, bindparam, insert, select, update

from linewright.store.faults import NotThereError
from linewright.store.records import Document, Project
from linewright.store.schema import documents, projects

_DOCUMENT = [documents.c[name] for name in Document._fields]
#: What every request asks, put into words once.
_OF_KIND = (
    select(*_DOCUMENT)
    .where(
        documents.c.project_id == bindparam("project"), documents.c.kind == bindparam("kind"), documents.c.gone_at == ""
    )
    .order_by(documents.c.id)
)
_ONE = select(*_DOCUMENT).where(
    documents.c.id == bindparam("document"), documents.c.kind == bindparam("kind"), documents.c.gone_at == ""
)


def add_project(connection: Connection, name: str, *, at: str) -> Project:
    """Make a project."""
    done = connection.execute(insert(projects).values(name=name, made_at=at))
    return Project(made_id(done), name, at)


def list_projects(connection: Connection) -> list[Project]:
    """All projects, oldest first."""
    return [Project._make(row) for row in connection.execute(select(projects).order_by(projects.c.id))]


def find_project(connection: Connection, project: int) -> Project:
    """One project; raises NotThereError."""
    row = connection.execute(select(projects).where(projects.c.id == project)).first()
    if row is None:
        raise NotThereError("project", project)
    return Project._make(row)


def add_document(connection: Connection, project: int, kind: str, name: str, *, at: str) -> Document:
    """Make a document without a revision."""
    values = {"project_id": project, "kind": kind, "name": name, "head": 0, "made_at": at}
    done = connection.execute(insert(documents).values(**values))
    return Document(made_id(done), project, kind, name, 0, at, "", "")


def list_documents(connection: Connection, project: int, kind: str) -> list[Document]:
    """Documents of a kind in a project that were not taken away, oldest first."""
    found = connection.execute(_OF_KIND, {"project": project, "kind": kind})
    return [Document._make(row) for row in found]


def find_document(connection: Connection, kind: str, document: int) -> Document:
    """One document of a kind; raises NotThereError."""
    row = connection.execute(_ONE, {"document": document, "kind": kind}).first()
    if row is None:
        raise NotThereError(kind, document)
    return Document._make(row)


def take_away(connection: Connection, document: int, *, at: str) -> None:
    """Take a document out of the lists; its revisions stay."""
    connection.execute(update(documents).where(documents.c.id == document).values(gone_at=at))


def bring_back(connection: Connection, kind: str, document: int) -> None:
    """Put a document that was taken away into the lists again; raises NotThereError."""
    mine = (documents.c.id == document, documents.c.kind == kind)
    done = connection.execute(update(documents).where(*mine).values(gone_at="", file="", file_sha256=""))
    if done.rowcount != 1:
        raise NotThereError(kind, document)


def list_taken_away(connection: Connection, project: int) -> list[Document]:
    """Documents of a project that were taken away, oldest first."""
    wanted = select(*_DOCUMENT).where(documents.c.project_id == project, documents.c.gone_at != "")
    return [Document._make(row) for row in connection.execute(wanted.order_by(documents.c.id))]


def keep_file(connection: Connection, document: int, file: str, sha256: str) -> None:
    """Note the file that a document is kept in step with, and the hash of the text that stands in it."""
    connection.execute(update(documents).where(documents.c.id == document).values(file=file, file_sha256=sha256))


def made_id(done: CursorResult[Any]) -> int:
    """Number that the database gave to a row that was just put in."""
    key = done.inserted_primary_key
    if key is None:
        raise RuntimeError("the database gave no number to a new row")
    return int(key[0])
