"""What the database gives: frozen rows."""

from __future__ import annotations

from typing import NamedTuple


class Project(NamedTuple):
    """A project: documents that belong together."""

    id: int
    name: str
    made_at: str


class Document(NamedTuple):
    """A design or a book.

    kind : `design` or `book`; name : of its file, or as it was called
    head : number of its last revision
    file : name of the file in an opened folder that it is kept in step with, or ""
    file_sha256 : hash of the text that was last read from or written to that file, or ""
    """

    id: int
    project_id: int
    kind: str
    name: str
    head: int
    made_at: str
    file: str
    file_sha256: str


class RevisionLine(NamedTuple):
    """One revision without its text, as the history lists it; `base` is the revision that its edits were made on."""

    document_id: int
    number: int
    base: int
    made_at: str
    note: str
    sha256: str
    edits: str
    name: str


class Revision(NamedTuple):
    """One revision whole.

    text : the document after it; edits, inverse : edits as JSON, "" where the whole document was put in
    touched : what the edits touch as JSON, "" for all
    """

    document_id: int
    number: int
    base: int
    made_at: str
    note: str
    text: str
    sha256: str
    edits: str
    inverse: str
    touched: str


class Job(NamedTuple):
    """A long piece of work: `state` is queued, running, done, failed or cancelled; `result` is JSON."""

    id: int
    project_id: int
    kind: str
    asked: str
    state: str
    done: int
    of: int
    message: str
    result: str
    made_at: str
