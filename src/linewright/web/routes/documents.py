"""What designs and books have in common: their text, their edits, their history."""

from __future__ import annotations

import json
from functools import partial
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query, Response

from linewright.app.keeping import Wanted, change, restore, undo
from linewright.app.keeping.changes import add, put
from linewright.app.keeping.kinds import BOOK, DESIGN, Kind
from linewright.app.keeping.texts import file_text
from linewright.store import documents, revisions
from linewright.web.answers import told, told_ahead
from linewright.web.bodies import ChangedOut, DocumentOut, HistoryOut, RevisionOut, TextOut
from linewright.web.requests import Edits, Fork, Restore, RevisionName, Undo, WholeText
from linewright.web.state import PROBLEMS, Number, Shared

#: So many revisions are listed at once.
MOST_LISTED = 200
AtRevision = Annotated[int | None, Query(ge=1, le=2**31 - 1, description="the last one where none is named")]
CHANGED: dict[int | str, dict[str, Any]] = {200: {"model": ChangedOut}}


def router_of(kind: Kind) -> APIRouter:
    """Give the routes of one kind of documents."""
    router = APIRouter(prefix=f"/api/{kind.name}s", tags=[f"{kind.name}s"], responses=PROBLEMS)
    _add_reading(router, kind)
    _add_changing(router, kind)
    _add_history(router, kind)
    return router


def _add_reading(router: APIRouter, kind: Kind) -> None:
    @router.get("/{document}", operation_id=f"show_{kind.name}")
    def show(shared: Shared, document: Number) -> DocumentOut:
        """One of them, with the number of its last revision."""
        return DocumentOut.of(shared.workspace.document(kind.name, document))

    @router.delete("/{document}", status_code=204, operation_id=f"take_away_{kind.name}")
    def take_away(shared: Shared, document: Number) -> None:
        """Take it out of the lists. Its revisions stay in the database."""
        found = shared.workspace.document(kind.name, document)
        with shared.workspace.store.writing() as connection:
            documents.take_away(connection, document, at=shared.workspace.now())
        shared.events.tell(found.project_id, "document", {"id": document, "kind": kind.name})

    @router.post("/{document}/bring-back", operation_id=f"bring_back_{kind.name}")
    def bring_back(shared: Shared, document: Number) -> DocumentOut:
        """Put one that was taken away into the lists again."""
        with shared.workspace.store.writing() as connection:
            documents.bring_back(connection, kind.name, document)
        found = shared.workspace.document(kind.name, document)
        shared.events.tell(found.project_id, "document", {"id": document, "kind": kind.name})
        return DocumentOut.of(found)

    @router.get("/{document}/text", operation_id=f"read_{kind.name}")
    def text(
        shared: Shared, document: Number, revision: AtRevision = None, form: Literal["yaml", "json"] = "yaml"
    ) -> TextOut:
        """Its text as a file."""
        found = shared.workspace.document(kind.name, document)
        number = revision or found.head
        made = file_text(shared.workspace, found, number, as_json=form == "json")
        return TextOut(name=found.name, revision=number, text=made)


def _add_changing(router: APIRouter, kind: Kind) -> None:
    @router.put("/{document}/text", responses=CHANGED, operation_id=f"replace_{kind.name}")
    def replace(shared: Shared, document: Number, body: WholeText) -> Response:
        """Put in a whole text. Refused with 409 where `base` is not the last revision."""
        wanted = Wanted(body.base, body.text, body.note, body.key)
        return told(shared, put(shared.workspace, kind, document, wanted), body.view)

    @router.post("/{document}/edits", responses=CHANGED, operation_id=f"edit_{kind.name}")
    def edit(shared: Shared, document: Number, body: Edits) -> Response:
        """Make edits, all or none. Where they meet later ones: 409 with both versions, and nothing is changed."""
        wanted = Wanted(body.base, json.dumps(body.edits), body.note, body.key)
        return told_ahead(shared, body.view, partial(change, shared.workspace, kind, document, wanted))

    @router.post("/{document}/undo", responses=CHANGED, operation_id=f"undo_{kind.name}")
    def take_back(shared: Shared, document: Number, body: Undo) -> Response:
        """Take back what a revision did, and nothing that came after it; by the same rule as edits."""
        make = partial(undo, shared.workspace, kind, document, number=body.revision, note=body.note, key=body.key)
        return told_ahead(shared, body.view, make)

    @router.post("/{document}/restore", responses=CHANGED, operation_id=f"restore_{kind.name}")
    def as_it_was(shared: Shared, document: Number, body: Restore) -> Response:
        """Make it what it was at a revision, as a new one. Refused with 409 where `base` is not the last revision."""
        shared.workspace.document(kind.name, document)
        done = restore(
            shared.workspace, kind, document, number=body.revision, base=body.base, note=body.note, key=body.key
        )
        return told(shared, done, body.view)


def _add_history(router: APIRouter, kind: Kind) -> None:
    @router.post("/{document}/fork", status_code=201, operation_id=f"fork_{kind.name}")
    def fork(shared: Shared, document: Number, body: Fork) -> DocumentOut:
        """Make another one of it as it is at a revision; what becomes of one does not touch the other."""
        found = shared.workspace.document(kind.name, document)
        made = file_text(shared.workspace, found, body.revision)
        note = f"as {found.name} at revision {body.revision}"
        done = add(shared.workspace, kind, found.project_id, name=body.name, text=made, note=note)
        shared.events.tell(found.project_id, "document", {"id": done.document.id, "kind": kind.name})
        return DocumentOut.of(done.document)

    @router.get("/{document}/revisions", operation_id=f"history_of_{kind.name}")
    def history(
        shared: Shared,
        document: Number,
        before: AtRevision = None,
        most: Annotated[int, Query(ge=1, le=MOST_LISTED)] = 50,
    ) -> HistoryOut:
        """Its revisions, last first."""
        shared.workspace.document(kind.name, document)
        with shared.workspace.store.reading() as connection:
            found = revisions.history(connection, document, before=before, most=most + 1)
        return HistoryOut(revisions=[RevisionOut.of(one) for one in found[:most]], more=len(found) > most)

    @router.put("/{document}/revisions/{revision}/name", status_code=204, operation_id=f"name_revision_of_{kind.name}")
    def name(shared: Shared, document: Number, revision: Number, body: RevisionName) -> None:
        """Give a revision a name, such as "for tender"; an empty one takes it away."""
        shared.workspace.document(kind.name, document)
        with shared.workspace.store.writing() as connection:
            revisions.name_revision(connection, document, revision, body.name, at=shared.workspace.now())


designs, books = router_of(DESIGN), router_of(BOOK)
