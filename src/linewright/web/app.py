"""The application: routes, guard, problems."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from fastapi import FastAPI

from linewright import __version__
from linewright.app.keeping import Workspace
from linewright.web.events import Events
from linewright.web.guard import Guard
from linewright.web.idle import TidyWhenIdle
from linewright.web.jobs import Jobs
from linewright.web.pages import pages
from linewright.web.problems import answer_problems
from linewright.web.routes import ahead, documents, jobs, projects, results, tables
from linewright.web.state import State

OPENAPI = "/api/openapi.json"


def make_app(workspace: Workspace) -> FastAPI:
    """Make the application for an open database."""
    events = Events()
    state = State(workspace, events, Jobs(workspace, events))

    @asynccontextmanager
    async def while_open(_: FastAPI) -> AsyncIterator[None]:
        yield
        state.jobs.close()

    app = FastAPI(
        title="Linewright",
        version=__version__,
        description="Checks, sizes and charges refrigerant piping; keeps every revision of a design.",
        openapi_url=OPENAPI,
        docs_url=None,
        redoc_url=None,
        lifespan=while_open,
    )
    app.state.linewright = state
    for router in (projects.router, documents.designs, documents.books):
        app.include_router(router)
    for part in (results, tables, ahead, jobs):
        app.include_router(part.router)
    app.include_router(pages())
    answer_problems(app)
    app.add_middleware(Guard)
    app.add_middleware(TidyWhenIdle)
    return app
