"""Edits over HTTP on this machine: from the request to the last byte of an answer with evaluation and scene."""

from __future__ import annotations

import http.client
import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median, quantiles
from typing import NamedTuple

from bench.designs import tree_of
from linewright.app.keeping import Workspace
from linewright.app.keeping.changes import add
from linewright.app.keeping.kinds import DESIGN
from linewright.document.saving import dump_design
from linewright.store import documents, open_store
from linewright.web.serving import listening

EDITS = 100


class Answered(NamedTuple):
    """The 95th of the times of edits, and the least; the median and the least of the work done between them [ms]."""

    edits: tuple[float, float]
    between: tuple[float, float]


def edit_times(work: Callable[[], object]) -> Answered:
    """Time a hundred edits of a design of 64 units, no two of which give the same length.

    Between them `work` is timed, of which the amount is fixed: it tells how fast the machine was just then.
    """
    design = tree_of(64)
    run = design.systems[0].runs[20].to
    times, between = [], []
    with tempfile.TemporaryDirectory() as folder, serving_design(Path(folder), dump_design(design)) as port:
        client = http.client.HTTPConnection("127.0.0.1", port)
        for base in range(1, EDITS + 11):
            edit = {"edit": "set", "system": design.systems[0].id, "run": run, "length": f"{3 + base * 0.013:.3f} m"}
            body = json.dumps({"base": base, "edits": [edit]})
            start = time.perf_counter()
            client.request("POST", "/api/designs/1/edits", body, {"Content-Type": "application/json"})
            answer = client.getresponse()
            answer.read()
            times.append((time.perf_counter() - start) * 1e3)
            if answer.status != 200:
                raise ValueError(f"an edit was answered with {answer.status}")
            start = time.perf_counter()
            work()
            between.append((time.perf_counter() - start) * 1e3)
        client.close()
    counted = times[10:]
    return Answered((quantiles(counted, n=20)[-1], min(counted)), (median(between), min(between)))


@contextmanager
def serving_design(folder: Path, text: str) -> Iterator[int]:
    """Serve a database with one design in it, by the program itself as a process of its own; gives the port."""
    database = folder / "a.db"
    _fill(database, text)
    with listening(0) as free:
        port = int(free.getsockname()[1])
    command = [sys.executable, "-m", "linewright", "serve", str(database), "--port", str(port)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as program:
        try:
            for line in program.stdout or ():
                if "http://" in line:
                    break
            yield port
        finally:
            program.kill()


def _fill(database: Path, text: str) -> None:
    store = open_store(database)
    with store.writing() as connection:
        project = documents.add_project(connection, "bench", at="")
    add(Workspace(store), DESIGN, project.id, name="large", text=text)
    store.close()
