"""Revisions: added behind the last one, listed, read back by their hash, named."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from sqlalchemy import Connection, bindparam, insert, select, update

from linewright.store.faults import HeadMovedError, NotThereError, StoreError
from linewright.store.records import Revision, RevisionLine
from linewright.store.schema import documents, labels, requests, revisions

_LINE = [revisions.c[name] for name in RevisionLine._fields[:-1]]
#: What every change asks and does, put into words once.
_MOVE_HEAD = (
    update(documents)
    .where(documents.c.id == bindparam("document"), documents.c.head == bindparam("before"), documents.c.gone_at == "")
    .values(head=bindparam("number"))
)
_APPEND = insert(revisions)
_ONE = select(revisions).where(
    revisions.c.document_id == bindparam("document"), revisions.c.number == bindparam("number")
)
_OF_KEY = select(requests.c.number).where(
    requests.c.document_id == bindparam("document"), requests.c.key == bindparam("key")
)
_KEEP_KEY = insert(requests)


def hash_of(text: str) -> str:
    """Hash of the text of a document."""
    return hashlib.sha256(text.encode()).hexdigest()


def append(connection: Connection, revision: Revision, *, head: int, key: str = "") -> None:
    """Add a revision behind the last one.

    head : number of the last revision, as it is known to who adds; key : by which the change is known again

    Raises HeadMovedError where another one came before it.
    """
    number = revision.number
    moved = connection.execute(_MOVE_HEAD, {"document": revision.document_id, "before": head, "number": number})
    if moved.rowcount != 1:
        raise HeadMovedError(f"document {revision.document_id} is past revision {head}")
    connection.execute(_APPEND, revision._asdict())
    if key:
        connection.execute(_KEEP_KEY, {"document_id": revision.document_id, "key": key, "number": number})


def number_of_request(connection: Connection, document: int, key: str) -> int | None:
    """Revision that was made for a key; none where none was."""
    found = connection.execute(_OF_KEY, {"document": document, "key": key}).scalar()
    return None if found is None else int(found)


def read(connection: Connection, document: int, number: int, *, place: str) -> Revision:
    """Read a revision.

    Raises NotThereError, and StoreError where its text is not the one that was written.
    """
    row = connection.execute(_ONE, {"document": document, "number": number}).first()
    if row is None:
        raise NotThereError("revision", number)
    found = Revision._make(row)
    if hash_of(found.text) != found.sha256:
        message = f"the text of revision {number} of document {document} is not the one that was written"
        raise StoreError(place, message, "a whole copy of the database")
    return found


def touched_after(connection: Connection, document: int, number: int) -> list[str]:
    """What every later revision touches, as it was written, oldest first."""
    wanted = (
        select(revisions.c.touched)
        .where(revisions.c.document_id == document, revisions.c.number > number)
        .order_by(revisions.c.number)
    )
    return [str(touched) for (touched,) in connection.execute(wanted)]


def history(connection: Connection, document: int, *, before: int | None, most: int) -> list[RevisionLine]:
    """Revisions without their texts, last first; with `before`, only those with a smaller number."""
    wanted = select(*_LINE).where(revisions.c.document_id == document)
    if before is not None:
        wanted = wanted.where(revisions.c.number < before)
    rows = connection.execute(wanted.order_by(revisions.c.number.desc()).limit(most)).all()
    names = _names(connection, document, [row[1] for row in rows])
    return [RevisionLine._make((*row, names.get(row[1], ""))) for row in rows]


def name_revision(connection: Connection, document: int, number: int, name: str, *, at: str) -> None:
    """Give a revision a name; an empty one takes it away. Raises NotThereError."""
    wanted = select(revisions.c.number).where(revisions.c.document_id == document, revisions.c.number == number)
    if connection.execute(wanted).first() is None:
        raise NotThereError("revision", number)
    connection.execute(insert(labels).values(document_id=document, number=number, name=name, made_at=at))


def _names(connection: Connection, document: int, numbers: Sequence[int]) -> dict[int, str]:
    wanted = (
        select(labels.c.number, labels.c.name)
        .where(labels.c.document_id == document, labels.c.number.in_(numbers))
        .order_by(labels.c.id)
    )
    return {int(number): str(name) for number, name in connection.execute(wanted)}
