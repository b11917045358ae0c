"""What all routes share, and the answers that several of them give."""

from __future__ import annotations

from typing import Annotated, Any

import orjson
from fastapi import Depends, Path, Request, Response

from linewright.app.keeping import Workspace
from linewright.web.bodies import ProblemOut
from linewright.web.events import Events
from linewright.web.jobs import Jobs
from linewright.web.rows import Rows
from linewright.web.scenes import Scenes


class State:
    """What a running server holds."""

    def __init__(self, workspace: Workspace, events: Events, jobs: Jobs) -> None:
        """Keep the open database, who listens, and what runs."""
        self.workspace, self.events, self.jobs = workspace, events, jobs
        self.scenes, self.rows = Scenes(), Rows()


async def _state(request: Request) -> State:
    """Give what the server holds; not by way of another thread, as it would be if this were a plain function."""
    found: State = request.app.state.linewright
    return found


Shared = Annotated[State, Depends(_state)]
Number = Annotated[int, Path(ge=1, le=2**31 - 1)]
_PROBLEM: dict[str, Any] = {"model": ProblemOut, "content": {"application/problem+json": {}}}
#: What any route may answer instead.
PROBLEMS: dict[int | str, dict[str, Any]] = {
    code: {**_PROBLEM, "description": words}
    for code, words in (
        (400, "The request is not understood"),
        (403, "The request may not come from there"),
        (404, "It is not there"),
        (409, "Changed meanwhile: both versions"),
        (413, "Too large"),
        (415, "Not JSON"),
        (422, "The input is not understood: every fault"),
        (500, "The database is not sound"),
        (503, "Busy: try again"),
    )
}


def json_response(data: object, status: int = 200) -> Response:
    """Give plain data quickly; what is not a number never gets out."""
    return Response(orjson.dumps(data), status, media_type="application/json")
