"""Changing a document that is kept: at the head where the edit meets no later one, or not at all."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any, NamedTuple, TypeAlias

from linewright.app.keeping.kinds import DESIGN, Applied, Kind, met, touched_of, touched_text
from linewright.app.keeping.texts import file_text
from linewright.app.keeping.workspace import Shelf, Workspace, check_against
from linewright.errors import Fault, InputFaultsError, quoted
from linewright.model.edits import Touch
from linewright.model.edits.rebase import Conflict, conflict_at
from linewright.model.values import key_of
from linewright.store import Document, HeadMovedError, NotThereError, Revision, documents, revisions

#: How often a change is tried again when another program was quicker.
_TRIES = 20


class Wanted(NamedTuple):
    """What is asked for: on which revision it was made, edits as text, a note, a key by which it is known again."""

    base: int
    edits: str
    note: str = ""
    key: str = ""


class Changed(NamedTuple):
    """A change that is on the disk: the document and its new revision.

    again : whether it had been made before, under the same key
    """

    document: Document
    revision: Revision
    again: bool = False

    @property
    def rebased(self) -> bool:
        """Say whether others had changed the document meanwhile."""
        return self.revision.base != self.revision.number - 1


#: What is done with a change while the disk is waited for: the change as it will be, the value that it makes, and of a
#: design the books on which it names nothing unknown. Nothing of it may be told or kept before the change is made.
Meanwhile: TypeAlias = Callable[[Changed, Any, Shelf | None], None]


class ConflictsError(Exception):
    """Edits of an older revision that meet later ones; nothing was changed. Carries both versions of each field."""

    def __init__(self, head: int, conflicts: tuple[Conflict, ...]) -> None:
        """Keep the conflicts and the number of the last revision."""
        self.head, self.conflicts = head, conflicts
        fields = ", ".join(sorted({f"{key_of(one.field)} of {one.element}" for one in conflicts}))
        super().__init__(f"changed meanwhile: {fields}")


def change(
    workspace: Workspace, kind: Kind, document: int, wanted: Wanted, *, meanwhile: Meanwhile | None = None
) -> Changed:
    """Make edits of a document at its head.

    Raises ConflictsError where they meet later ones, InputFaultsError where they are not understood, cannot be made, or
    name what the books do not hold, NotThereError.
    """
    with workspace.alone(document):
        _bring_in(workspace, kind, document)
        for _ in range(_TRIES):
            try:
                return _change(workspace, kind, document, wanted, meanwhile)
            except HeadMovedError:
                continue
    raise HeadMovedError(f"document {document} changes too fast to be changed")


def undo(
    workspace: Workspace,
    kind: Kind,
    document: int,
    *,
    number: int,
    note: str = "",
    key: str = "",
    meanwhile: Meanwhile | None = None,
) -> Changed:
    """Take back what a revision did, and nothing that came after it; raises as `change` does."""
    found = workspace.document(kind.name, document)
    revision = workspace.revision(found.id, number)
    if revision.base == 0:
        raise NotThereError("revision before", number)
    if not revision.inverse:
        return restore(workspace, kind, document, number=number - 1, base=number, note=note, key=key)
    wanted = Wanted(number, revision.inverse, note or f"undo of revision {number}", key)
    return change(workspace, kind, document, wanted, meanwhile=meanwhile)


def restore(
    workspace: Workspace, kind: Kind, document: int, *, number: int, base: int, note: str = "", key: str = ""
) -> Changed:
    """Make the document what it was at a revision, as a new one; only on the head that is known."""
    found = workspace.document(kind.name, document)
    text = file_text(workspace, found, number)
    return put(workspace, kind, document, Wanted(base, text, note or f"as at revision {number}", key))


def put(workspace: Workspace, kind: Kind, document: int, wanted: Wanted) -> Changed:
    """Put in a whole text, `wanted.edits`; raises ConflictsError where the head is not the revision that is known."""
    with workspace.alone(document):
        _bring_in(workspace, kind, document)
        return put_outside(workspace, kind, document, wanted)


def put_outside(workspace: Workspace, kind: Kind, document: int, wanted: Wanted) -> Changed:
    """Put in a whole text as `put` does, for who has the document alone and knows its file."""
    found, made, shelf = workspace.begun(kind, document, wanted.key)
    if made is not None:
        return Changed(found, workspace.revision(found.id, made), again=True)
    if wanted.base != found.head:
        raise ConflictsError(found.head, (Conflict("the whole document", "text", None, None, None),))
    value = kind.read(wanted.edits, found.name)
    _check(workspace, found, value, shelf)
    revision = _revision(workspace, found, wanted, text=wanted.edits)
    try:
        return _added(workspace, found, revision, value, key=wanted.key)
    except HeadMovedError:
        raise ConflictsError(found.head + 1, (Conflict("the whole document", "text", None, None, None),)) from None


def _change(  # noqa: PLR0917 - what `change` is given
    workspace: Workspace, kind: Kind, document: int, wanted: Wanted, meanwhile: Meanwhile | None
) -> Changed:
    found, made, shelf = workspace.begun(kind, document, wanted.key)
    if made is not None:
        return Changed(found, workspace.revision(found.id, made), again=True)
    if not 0 < wanted.base <= found.head:
        raise NotThereError("revision", wanted.base)
    base, head = (workspace.value(found, number) for number in (wanted.base, found.head))
    edit = kind.read_edits(wanted.edits, base)
    applied = _at_head(workspace, kind, found, edit, base=base, head=head, number=wanted.base)
    _check(workspace, found, applied.value, shelf)
    revision = _revision(workspace, found, wanted, text=_text(workspace, kind, found, applied.value))
    revision = revision._replace(
        edits=kind.write_edits(edit, base),
        inverse=kind.write_edits(applied.inverse, applied.value),
        touched=touched_text(applied.touched),
    )
    work = None if meanwhile is None else partial(meanwhile, _made(found, revision), applied.value, shelf)
    return _added(workspace, found, revision, applied.value, key=wanted.key, work=work)


def _at_head(
    workspace: Workspace,
    kind: Kind,
    found: Document,
    edit: Any,  # noqa: ANN401 - an edit of the kind
    *,
    base: Any,  # noqa: ANN401 - a document of the kind
    head: Any,  # noqa: ANN401
    number: int,
) -> Applied:
    """Make edits of a revision at the head; where others came between, only if they meet none of them."""
    if number == found.head:
        return kind.apply(base, edit)
    mine = kind.apply(base, edit)
    with workspace.store.reading() as connection:
        later = [touched_of(text) for text in revisions.touched_after(connection, found.id, number)]
    touches = met(mine.touched, later)
    if touches:
        raise ConflictsError(found.head, _conflicts(kind, touches, base=base, mine=mine.value, head=head))
    return kind.apply(head, edit)


def _conflicts(
    kind: Kind,
    touches: frozenset[Touch],
    *,
    base: Any,  # noqa: ANN401 - a document of the kind
    mine: Any,  # noqa: ANN401
    head: Any,  # noqa: ANN401
) -> tuple[Conflict, ...]:
    if kind is not DESIGN:
        return tuple(Conflict(*touch, None, None, None) for touch in sorted(touches))
    return tuple(conflict_at(touch, base, mine, head) for touch in sorted(touches))


def _text(workspace: Workspace, kind: Kind, found: Document, value: object) -> str:
    before = "" if kind is DESIGN else workspace.revision(found.id, found.head).text
    return kind.dump(value, before)


def _check(workspace: Workspace, found: Document, value: Any, shelf: Shelf | None) -> None:  # noqa: ANN401 - of the kind
    """Raise InputFaultsError where a design names what the books do not hold, or a book is called otherwise."""
    if shelf is not None:
        check_against(value, shelf)
        return
    known = workspace.value(found, found.head).id
    if value.id != known:
        raise InputFaultsError(
            (_fault(found.name, "id", value.id, "the id of a book that is kept does not change", known),)
        )


def _revision(workspace: Workspace, found: Document, wanted: Wanted, *, text: str) -> Revision:
    sha256 = revisions.hash_of(text)
    return Revision(found.id, found.head + 1, wanted.base, workspace.now(), wanted.note, text, sha256, "", "", "")


def _added(
    workspace: Workspace,
    found: Document,
    revision: Revision,
    value: object,
    *,
    key: str,
    work: Callable[[], None] | None = None,
) -> Changed:
    with workspace.store.writing(work) as connection:
        revisions.append(connection, revision, head=found.head, key=key)
    workspace.remember(found.id, revision.number, value)
    if workspace.files is not None:
        workspace.files.changed(found.id)
    return _made(found, revision)


def _made(found: Document, revision: Revision) -> Changed:
    return Changed(found._replace(head=revision.number), revision)


def _bring_in(workspace: Workspace, kind: Kind, document: int) -> None:
    """Take in what was changed in the file of a document outside the program."""
    if workspace.files is not None:
        workspace.files.bring_in(workspace.document(kind.name, document))


def add(workspace: Workspace, kind: Kind, project: int, *, name: str, text: str, note: str = "") -> Changed:
    """Put a new document into a project.

    Raises InputFaultsError with everything that is wrong with its text, NotThereError.
    """
    value = kind.read(text, name)
    with workspace.store.reading() as connection:
        documents.find_project(connection, project)
    if kind is DESIGN:
        check_against(value, workspace.shelf(project))
    else:
        _refuse_second(workspace, project, name, value.id)
    at = workspace.now()
    with workspace.store.writing() as connection:
        made = documents.add_document(connection, project, kind.name, name, at=at)
        revision = Revision(made.id, 1, 0, at, note, text, revisions.hash_of(text), "", "", "")
        revisions.append(connection, revision, head=0)
    workspace.remember(made.id, 1, value)
    if workspace.files is not None:
        workspace.files.changed(made.id)
    return Changed(made._replace(head=1), revision)


def _refuse_second(workspace: Workspace, project: int, name: str, book: str) -> None:
    with workspace.store.reading() as connection:
        own = documents.list_documents(connection, project, "book")
    if any(workspace.value(one, one.head).id == book for one in own):
        raise InputFaultsError(
            (_fault(name, "id", book, f"the project has a book {quoted(book)} already", "an edit of it"),)
        )


def _fault(file: str, path: str, value: str, message: str, expected: str) -> Fault:  # noqa: PLR0917 - a fault's fields
    return Fault(file=file, line=0, column=0, path=path, value=value, message=message, expected=expected)
