"""Long jobs: one thread works them off; they can be watched and stopped, and go on when the program starts again."""

from __future__ import annotations

import json
import queue
from collections.abc import Mapping
from threading import Thread

from linewright.app.keeping import Workspace
from linewright.app.keeping.handing_over import hand_over_set
from linewright.app.keeping.work import Step, Tell, export, history
from linewright.app.set_options import read_options
from linewright.errors import InputFaultsError
from linewright.store import Job, NotThereError, StoreError
from linewright.store import jobs as rows
from linewright.web.events import Events


class _StoppedError(Exception):
    """A job was stopped, or the program ends."""


class Jobs:
    """The queue of jobs and the thread that works it off."""

    def __init__(self, workspace: Workspace, events: Events) -> None:
        """Start with the jobs that were not at an end when the program ended."""
        self._workspace, self._events = workspace, events
        self._queue: queue.SimpleQueue[int | None] = queue.SimpleQueue()
        self._closing = False
        self._thread = Thread(target=self._work, name="jobs", daemon=True)
        with workspace.store.writing() as connection:
            for job in rows.live_jobs(connection):
                rows.set_job(connection, job.id, {"state": "queued", "done": 0, "message": "begun again"})
                self._queue.put(job.id)
        self._thread.start()

    def ask(self, project: int, kind: str, asked: Mapping[str, object]) -> Job:
        """Put a job into the queue."""
        with self._workspace.store.writing() as connection:
            job = rows.add_job(connection, project, kind, json.dumps(asked), at=self._workspace.now())
        self._queue.put(job.id)
        return job

    def cancel(self, job: int) -> Job:
        """Stop a job that is not at an end; raises NotThereError."""
        with self._workspace.store.writing() as connection:
            found = rows.find_job(connection, job)
            rows.set_job(connection, job, {"state": "cancelled", "message": "stopped"})
        self._tell(found._replace(state="cancelled"))
        return self.find(job)

    def find(self, job: int) -> Job:
        """One job; raises NotThereError."""
        with self._workspace.store.reading() as connection:
            return rows.find_job(connection, job)

    def close(self) -> None:
        """End after the step that is being made; what is left goes on when the program starts again."""
        self._closing = True
        self._queue.put(None)
        self._thread.join(timeout=5)

    def _work(self) -> None:
        while not self._closing:
            job = self._queue.get()
            if job is None:
                return
            self._one(job)

    def _one(self, number: int) -> None:
        job = self.find(number)
        if not self._set(job, state="running"):
            return

        def tell(step: Step) -> None:
            if self._closing or not self._set(job, done=step.done, of=step.of, message=step.message):
                raise _StoppedError

        try:
            self._set(job, state="done", result=_worked(self._workspace, job, tell))
        except _StoppedError:
            return
        except (InputFaultsError, NotThereError, StoreError) as error:
            self._set(job, state="failed", message=str(error))

    def _set(self, job: Job, **values: object) -> bool:
        with self._workspace.store.writing() as connection:
            live = rows.set_job(connection, job.id, values)
            now = rows.find_job(connection, job.id)
        self._tell(now)
        return live

    def _tell(self, job: Job) -> None:
        data = {"id": job.id, "state": job.state, "done": job.done, "of": job.of, "message": job.message}
        self._events.tell(job.project_id, "job", data)


def _worked(workspace: Workspace, job: Job, tell: Tell) -> str:
    asked = json.loads(job.asked)
    if job.kind == "export":
        return export(workspace, job.project_id, tell)
    if job.kind == "history":
        return history(workspace, int(asked["design"]), tell)
    return hand_over_set(workspace, int(asked["design"]), tell, read_options(asked.get("options", {})))
