"""Long jobs as rows: they outlive the page that asked for them, and the program too."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import Connection, insert, select, update

from linewright.store.documents import made_id
from linewright.store.faults import NotThereError
from linewright.store.records import Job
from linewright.store.schema import jobs

#: States in which a job still has something to do.
LIVE = ("queued", "running")


def add_job(connection: Connection, project: int, kind: str, asked: str, *, at: str) -> Job:
    """Put a job into the queue."""
    values = {"project_id": project, "kind": kind, "asked": asked, "state": "queued", "made_at": at}
    empty = {"done": 0, "of": 0, "message": "", "result": ""}
    done = connection.execute(insert(jobs).values(**values, **empty))
    return Job(made_id(done), project, kind, asked, "queued", 0, 0, "", "", at)


def find_job(connection: Connection, job: int) -> Job:
    """One job; raises NotThereError."""
    row = connection.execute(select(jobs).where(jobs.c.id == job)).first()
    if row is None:
        raise NotThereError("job", job)
    return Job._make(row)


def list_jobs(connection: Connection, project: int) -> list[Job]:
    """Jobs of a project, last first."""
    return [
        Job._make(row)
        for row in connection.execute(select(jobs).where(jobs.c.project_id == project).order_by(jobs.c.id.desc()))
    ]


def live_jobs(connection: Connection) -> list[Job]:
    """Jobs that are not at an end, oldest first."""
    return [
        Job._make(row) for row in connection.execute(select(jobs).where(jobs.c.state.in_(LIVE)).order_by(jobs.c.id))
    ]


def set_job(connection: Connection, job: int, values: Mapping[str, object]) -> bool:
    """Change a job that is not at an end; say whether it was one."""
    done = connection.execute(update(jobs).where(jobs.c.id == job, jobs.c.state.in_(LIVE)).values(**values))
    return done.rowcount == 1
