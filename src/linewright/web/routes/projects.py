"""Projects and what is in them."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Path

from linewright import __version__
from linewright.app.keeping.changes import add
from linewright.app.keeping.kinds import BOOK, DESIGN
from linewright.app.keeping.starting import empty_design
from linewright.app.keeping.texts import Form, book_text
from linewright.store import NotThereError, documents
from linewright.store.opening import versions
from linewright.units import UnitSystem
from linewright.web.bodies import About, BookLine, BookModels, DocumentOut, ProjectOut, ProjectWhole, TextOut
from linewright.web.overview import group_line, model_line
from linewright.web.requests import NewDocument, NewProject
from linewright.web.state import PROBLEMS, Number, Shared

BookId = Annotated[str, Path(max_length=200)]
Units = Literal["si", "ip", ""]
router = APIRouter(prefix="/api", tags=["projects"], responses=PROBLEMS)


@router.get("/about")
def about() -> About:
    """Which version of the program this is, and of its tables."""
    return About(version=__version__, tables=versions()[-1])


@router.get("/projects")
def list_projects(shared: Shared) -> list[ProjectOut]:
    """All projects."""
    with shared.workspace.store.reading() as connection:
        return [ProjectOut.of(one) for one in documents.list_projects(connection)]


@router.post("/projects", status_code=201)
def add_project(shared: Shared, body: NewProject) -> ProjectOut:
    """Make a project."""
    with shared.workspace.store.writing() as connection:
        return ProjectOut.of(documents.add_project(connection, body.name, at=shared.workspace.now()))


@router.get("/projects/{project}")
def show_project(shared: Shared, project: Number) -> ProjectWhole:
    """A project with its designs and books."""
    with shared.workspace.store.reading() as connection:
        found = documents.find_project(connection, project)
        designs, books = (documents.list_documents(connection, project, kind.name) for kind in (DESIGN, BOOK))
    return ProjectWhole(
        **found._asdict(),
        designs=[DocumentOut.of(one) for one in designs],
        books=[DocumentOut.of(one) for one in books],
    )


@router.get("/projects/{project}/taken-away")
def list_taken_away(shared: Shared, project: Number) -> list[DocumentOut]:
    """Designs and books that were taken out of the lists, and can be brought back."""
    with shared.workspace.store.reading() as connection:
        documents.find_project(connection, project)
        return [DocumentOut.of(one) for one in documents.list_taken_away(connection, project)]


@router.post("/projects/{project}/designs", status_code=201)
def add_design(shared: Shared, project: Number, body: NewDocument) -> DocumentOut:
    """Put in a design: the text of a file, or an empty one."""
    text = body.text or empty_design(body.name)
    made = add(shared.workspace, DESIGN, project, name=body.name, text=text, note=body.note)
    shared.events.tell(project, "document", {"id": made.document.id, "kind": DESIGN.name})
    return DocumentOut.of(made.document)


@router.post("/projects/{project}/books", status_code=201)
def add_book(shared: Shared, project: Number, body: NewDocument) -> DocumentOut:
    """Put in a book: the text of a file. It stands before a shipped one of the same id."""
    made = add(shared.workspace, BOOK, project, name=body.name, text=body.text, note=body.note)
    shared.events.tell(project, "document", {"id": made.document.id, "kind": BOOK.name})
    return DocumentOut.of(made.document)


@router.get("/projects/{project}/books")
def list_books(shared: Shared, project: Number) -> list[BookLine]:
    """Every book that the project can use: its own and the shipped demonstrations."""
    with shared.workspace.store.reading() as connection:
        documents.find_project(connection, project)
        own = documents.list_documents(connection, project, BOOK.name)
    ids = {shared.workspace.value(one, one.head).id: one.id for one in own}
    return [
        BookLine(
            id=name,
            title=book.compiled.book.title,
            refrigerant=book.compiled.book.refrigerant,
            status=book.compiled.book.status.value,
            sha256=book.sha256,
            document=ids.get(name),
        )
        for name, book in sorted(shared.workspace.shelf(project).books.items())
    ]


@router.get("/projects/{project}/books/{book}/models")
def book_models(shared: Shared, project: Number, book: BookId, units: Units = "") -> BookModels:
    """What a book offers to build with: outdoor groups and indoor models, with rated capacities and index."""
    with shared.workspace.store.reading() as connection:
        documents.find_project(connection, project)
    found = shared.workspace.shelf(project).books.get(book)
    if found is None:
        raise NotThereError("book", book)
    whole, how = found.compiled.book, UnitSystem(units or "si")
    return BookModels(
        id=book,
        groups=[group_line(found.compiled, group, how) for group in whole.outdoor.groups],
        units=[model_line(model, how) for model in whole.indoor.models],
    )


@router.get("/projects/{project}/books/{book}/text")
def text_of_book(shared: Shared, project: Number, book: BookId, form: Form = "yaml") -> TextOut:
    """Any book that the project can use as a file; a shipped one has no revisions, and stands at 0."""
    with shared.workspace.store.reading() as connection:
        documents.find_project(connection, project)
    return TextOut(**book_text(shared.workspace, project, book, form)._asdict())
