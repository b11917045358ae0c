"""A kept document as a file: what somebody wrote in it stays, comments and order and all."""

from __future__ import annotations

from sqlalchemy import select

from linewright.app.keeping.kinds import DESIGN
from linewright.app.keeping.workspace import Workspace
from linewright.document.saving import NotSavedError, dump_book, dump_design, save_design
from linewright.store import Document
from linewright.store.schema import revisions


def file_text(workspace: Workspace, document: Document, number: int, *, as_json: bool = False) -> str:
    """Text of a document at a revision: the last one that was put in as a whole, with what changed since."""
    value = workspace.value(document, number)
    if as_json:
        return (dump_design if document.kind == DESIGN.name else dump_book)(value, as_json=True)
    revision = workspace.revision(document.id, number)
    if not revision.edits or document.kind != DESIGN.name:
        return revision.text
    try:
        return save_design(workspace.revision(document.id, _put_in(workspace, document, number)).text, value)
    except NotSavedError:
        return revision.text


def _put_in(workspace: Workspace, document: Document, number: int) -> int:
    """The last revision up to one at which the whole document was put in."""
    wanted = (
        select(revisions.c.number)
        .where(revisions.c.document_id == document.id, revisions.c.number <= number, revisions.c.edits == "")
        .order_by(revisions.c.number.desc())
        .limit(1)
    )
    with workspace.store.reading() as connection:
        return int(connection.execute(wanted).scalar_one())
