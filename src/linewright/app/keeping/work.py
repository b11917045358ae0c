"""Long pieces of work on what is kept: each tells its steps, so that it can be watched and stopped."""

from __future__ import annotations

import base64
import io
import json
import re
import zipfile
from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from linewright.app.keeping.kinds import BOOK, DESIGN
from linewright.app.keeping.texts import file_text
from linewright.app.keeping.workspace import Workspace
from linewright.app.project import book_line
from linewright.draw import Axis, layout, sheet_scene, svg
from linewright.engine import Evaluation
from linewright.engine.records import Standing
from linewright.errors import InputFaultsError
from linewright.report.check_json import check_json
from linewright.report.check_text import check_text
from linewright.store import Document, documents

#: The same bytes for the same project.
_DATE = (2000, 1, 1, 0, 0, 0)
_PLAIN = re.compile(r"[^A-Za-z0-9._-]+")


class Step(NamedTuple):
    """One step of a piece of work that was made: how many of how many, and what it was."""

    done: int
    of: int
    message: str


#: Takes the steps of a piece of work as they are made; raises what ends it, where it is to be stopped.
Tell = Callable[[Step], None]


def export(workspace: Workspace, project: int, tell: Tell) -> str:
    """Pack a project: designs and books as files, and of each system its sheet and the check of its design."""
    with workspace.store.reading() as connection:
        designs, books = (documents.list_documents(connection, project, kind.name) for kind in (DESIGN, BOOK))
    of = len(designs) + len(books)
    taken: set[str] = set()
    files: dict[str, bytes] = {}
    for done, one in enumerate([*books, *designs], start=1):
        files |= {name: text.encode() for name, text in _files(workspace, one, taken)}
        tell(Step(done, of, one.name))
    return packed(files)


def history(workspace: Workspace, design: int, tell: Tell) -> str:
    """Judge every revision of a design: since when it stands as it does."""
    found: list[dict[str, Any]] = []
    document = workspace.document(DESIGN.name, design)
    for number in range(1, document.head + 1):
        found.append({"revision": number, **_standing(workspace, document, number)})
        tell(Step(number, document.head, f"revision {number}"))
    return json.dumps({"revisions": found})


def packed(files: Mapping[str, bytes]) -> str:
    """Pack files into a zip, the same bytes for the same files; as it is kept with a job."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(zipfile.ZipInfo(name, _DATE), data, zipfile.ZIP_DEFLATED)
    return json.dumps({"zip": base64.b64encode(made.getvalue()).decode()})


def _standing(workspace: Workspace, document: Document, number: int) -> dict[str, Any]:
    try:
        evaluation = workspace.judge(document, number)
    except InputFaultsError as error:
        return {"standing": Standing.UNJUDGED.value, "over": [], "problem": str(error).partition("\n")[0]}
    checks = [check for system in evaluation.systems for check in (*system.limits, *system.checks)]
    checks += [check for room in evaluation.rooms for check in room.checks]
    over = sorted({check.subject for check in checks if check.standing is Standing.OVER})
    return {"standing": evaluation.standing.value, "over": over}


def _files(workspace: Workspace, one: Document, taken: set[str]) -> Iterator[tuple[str, str]]:
    stem = _free(one.name, taken)
    yield f"{stem}.{one.kind}.yaml", file_text(workspace, one, one.head)
    if one.kind != DESIGN.name:
        return
    try:
        evaluation = workspace.judge(one, one.head)
    except InputFaultsError as error:
        yield f"{stem}.problem.txt", f"{error}\n"
        return
    yield from _judged(workspace, one, stem, evaluation)


def _judged(workspace: Workspace, one: Document, stem: str, evaluation: Evaluation) -> Iterator[tuple[str, str]]:
    units, shelf = evaluation.design.units, workspace.shelf(one.project_id)
    yield f"{stem}.check.json", json.dumps(check_json(evaluation), indent=1, ensure_ascii=False) + "\n"
    lines = {name: book_line(shelf.books[name].compiled.book) for name in evaluation.books}
    yield f"{stem}.check.txt", check_text(evaluation, system=units, colour=False, books=lines) + "\n"
    for result in evaluation.systems:
        book = shelf.books[result.book].compiled.book
        sheet = sheet_scene(layout(evaluation, result, axis=Axis.ACTUAL, book=book), units)
        yield f"{stem}.{_PLAIN.sub('-', result.id)}.svg", svg(sheet)


def _free(name: str, taken: set[str]) -> str:
    """A plain name for files; one that is taken gets a number."""
    plain = _PLAIN.sub("-", name).strip("-.") or "document"
    found, number = plain, 1
    while found in taken:
        number += 1
        found = f"{plain}-{number}"
    taken.add(found)
    return found
