"""What went wrong, as application/problem+json: with the same messages as on the command line."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import orjson
from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from sqlalchemy.exc import OperationalError
from starlette.exceptions import HTTPException

from linewright.app.keeping import ConflictsError
from linewright.app.keeping.conflicts import conflict_json
from linewright.errors import Fault, InputFaultsError, UnknownSubjectError
from linewright.report.faults_json import faults_json
from linewright.store import HeadMovedError, NotThereError, StoreError

MEDIA = "application/problem+json"
_TITLES = {
    400: "Not understood",
    403: "Not allowed",
    404: "Not there",
    405: "Not possible here",
    409: "Changed meanwhile",
    413: "Too large",
    415: "Not understood",
    422: "Input not understood",
    500: "Not answered",
    503: "Busy",
}


def problem_bytes(status: int, detail: str, **more: object) -> bytes:
    """Give a problem as JSON."""
    title = _TITLES.get(status, "Not possible")
    return orjson.dumps({"type": "about:blank", "title": title, "status": status, "detail": detail, **more})


def _problem(status: int, detail: str, **more: object) -> Response:
    return Response(problem_bytes(status, detail, **more), status, media_type=MEDIA)


def _faults(_: Request, error: InputFaultsError) -> Response:
    return _problem(422, str(error).partition("\n")[0], **faults_json(error.faults, more=error.more))


def _conflicts(_: Request, error: ConflictsError) -> Response:
    conflicts = [conflict_json(one) for one in error.conflicts]
    return _problem(409, str(error), head=error.head, conflicts=conflicts)


def _not_there(_: Request, error: NotThereError) -> Response:
    return _problem(404, str(error))


def _subject(_: Request, error: UnknownSubjectError) -> Response:
    return _problem(404, str(error), nearest=list(error.nearest))


def _moved(_: Request, error: HeadMovedError) -> Response:
    return _problem(503, str(error))


def _store(_: Request, error: StoreError) -> Response:
    return _problem(500, error.message, expected=error.expected)


def _not_written(_: Request, error: OperationalError) -> Response:
    """The disk is full, or another program holds the database: nothing was acknowledged."""
    return _problem(503, f"the database cannot be written now: {error.orig}", expected="room on the disk; try again")


def _unforeseen(_: Request, error: Exception) -> Response:
    """A fault of the program: its name is told, what it was doing stands in the log of the server."""
    return _problem(500, f"a fault of the program ({type(error).__name__}); what was acknowledged before stands")


def _http(_: Request, error: HTTPException) -> Response:
    found = _problem(error.status_code, str(error.detail))
    found.headers.update(error.headers or {})
    return found


def _invalid(_: Request, error: RequestValidationError) -> Response:
    faults = [_fault(one) for one in error.errors()]
    return _problem(422, str(faults[0]) if faults else "the request is not understood", **faults_json(faults))


def _fault(found: dict[str, Any]) -> Fault:
    place, *path = (str(part) for part in found["loc"])
    value = found.get("input")
    shown = "" if isinstance(value, dict | list) or value is None else str(value)[:60]
    message = str(found["msg"])[:1].lower() + str(found["msg"])[1:]
    return Fault(file=place, line=0, column=0, path=".".join(path), value=shown, message=message, expected="")


HANDLERS: dict[type[Exception], Callable[[Request, Any], Response]] = {
    InputFaultsError: _faults,
    ConflictsError: _conflicts,
    NotThereError: _not_there,
    UnknownSubjectError: _subject,
    HeadMovedError: _moved,
    StoreError: _store,
    OperationalError: _not_written,
    HTTPException: _http,
    Exception: _unforeseen,
    RequestValidationError: _invalid,
}


def answer_problems(app: FastAPI) -> None:
    """Answer every known fault as a problem."""
    for error, handler in HANDLERS.items():
        app.add_exception_handler(error, handler)
