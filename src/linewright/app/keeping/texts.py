"""A kept document as a file: what somebody wrote in it stays, comments and order and all."""

from __future__ import annotations

import json
from typing import Literal, NamedTuple

from sqlalchemy import select

from linewright.app.books import book_files
from linewright.app.keeping.kinds import BOOK, DESIGN
from linewright.app.keeping.workspace import Workspace
from linewright.app.shipped import shipped
from linewright.document.files import load_book
from linewright.document.reading import read_text
from linewright.document.saving import NotSavedError, dump_book, dump_design, save_design
from linewright.document.typed import typed_values
from linewright.store import Document, NotThereError, documents
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


class BookText(NamedTuple):
    """A book as a file; revision 0 for a shipped one."""

    name: str
    revision: int
    text: str


Form = Literal["yaml", "json", "typed"]


def book_text(workspace: Workspace, project: int, book: str, form: Form = "yaml") -> BookText:
    """Text of a book that a project can use: its own as it is now, else the shipped one; raises NotThereError.

    form : `yaml` as a file, `json` with every value in SI units, `typed` as JSON with every value as it was typed
    """
    if form == "typed":
        found = book_text(workspace, project, book)
        return found._replace(text=json.dumps(typed_values(found.text, found.name), ensure_ascii=False))
    as_json = form == "json"
    with workspace.store.reading() as connection:
        own = documents.list_documents(connection, project, BOOK.name)
    document = next((one for one in own if workspace.value(one, one.head).id == book), None)
    if document is not None:
        return BookText(document.name, document.head, file_text(workspace, document, document.head, as_json=as_json))
    path = book_files([shipped("books")]).get(book)
    if path is None:
        raise NotThereError("book", book)
    text = dump_book(load_book(path).compiled.book, as_json=True) if as_json else read_text(path)
    return BookText(path.name, 0, text)


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
