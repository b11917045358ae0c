"""Long jobs, and the line on which pages hear of changes."""

from __future__ import annotations

import base64
from typing import Any

import orjson
from fastapi import APIRouter, Response
from fastapi.responses import StreamingResponse

from linewright.app.keeping.kinds import DESIGN
from linewright.app.set_options import read_options
from linewright.errors import Fault, InputFaultsError
from linewright.store import NotThereError, documents
from linewright.store import jobs as rows
from linewright.web.bodies import JobOut
from linewright.web.requests import NewJob
from linewright.web.state import PROBLEMS, Number, Shared, json_response

router = APIRouter(prefix="/api", tags=["jobs"], responses=PROBLEMS)
_RESULT: dict[int | str, dict[str, Any]] = {
    200: {"content": {"application/zip": {}, "application/json": {"schema": {"type": "object"}}}}
}
_NO_SET = Fault(
    file="body",
    line=0,
    column=0,
    path="options",
    value="",
    message="options go with a hand-over set",
    expected="kind 'hand-over', or no options",
)
_EVENTS: dict[int | str, dict[str, Any]] = {200: {"content": {"text/event-stream": {}}}}


@router.post("/projects/{project}/jobs", status_code=202)
def ask(shared: Shared, project: Number, body: NewJob) -> JobOut:
    """Ask for a long piece of work."""
    with shared.workspace.store.reading() as connection:
        documents.find_project(connection, project)
    if body.kind != "export":
        design = shared.workspace.document(DESIGN.name, body.design or 0)
        if design.project_id != project:
            raise NotThereError("design of this project", design.id)
    options = {} if body.options is None else body.options.model_dump(exclude_defaults=True)
    if options and body.kind != "hand-over":
        raise InputFaultsError([_NO_SET])
    read_options(options)
    return JobOut.of_row(shared.jobs.ask(project, body.kind, {"design": body.design or 0, "options": options}))


@router.get("/projects/{project}/jobs")
def list_jobs(shared: Shared, project: Number) -> list[JobOut]:
    """Jobs of a project, last first."""
    with shared.workspace.store.reading() as connection:
        documents.find_project(connection, project)
        return [JobOut.of_row(one) for one in rows.list_jobs(connection, project)]


@router.get("/jobs/{job}")
def show(shared: Shared, job: Number) -> JobOut:
    """How far a job is."""
    return JobOut.of_row(shared.jobs.find(job))


@router.delete("/jobs/{job}")
def cancel(shared: Shared, job: Number) -> JobOut:
    """Stop a job; one that is at an end stays as it is."""
    return JobOut.of_row(shared.jobs.cancel(job))


@router.get("/jobs/{job}/result", responses=_RESULT, response_class=Response)
def result(shared: Shared, job: Number) -> Response:
    """What came of a job that is done: a zip of files, or JSON."""
    found = shared.jobs.find(job)
    if found.state != "done":
        raise NotThereError("result yet of job", f"{job}: it is {found.state}")
    data = orjson.loads(found.result)
    if "zip" in data:
        return Response(base64.b64decode(data["zip"]), media_type="application/zip")
    return json_response(data)


@router.get("/projects/{project}/events", responses=_EVENTS, response_class=Response)
async def events(shared: Shared, project: Number) -> StreamingResponse:
    """Server-sent events: `revision`, `document`, `job`; `missed` where a page fell behind and must look anew."""
    with shared.workspace.store.reading() as connection:
        documents.find_project(connection, project)
    return StreamingResponse(shared.events.listen(project), media_type="text/event-stream")
