"""Killed at any moment: every edit that was acknowledged is there, none is half there, and nothing has to be mended."""

from __future__ import annotations

import http.client
import random
import threading
from contextlib import suppress
from pathlib import Path
from time import sleep

import pytest

from linewright.app.keeping import Workspace
from linewright.store import open_store, revisions
from tests.keeping.kept import BOAT_HOUSE, length, lengths
from tests.web.program import Program
from tests.web.server import Client

RUNS = ("J1", "J2", "U1", "U2", "U3")


class Told:
    """What was acknowledged: of each revision, which run got which length."""

    def __init__(self) -> None:
        self.acknowledged: dict[int, tuple[str, str]] = {}
        self.sent = 0


def edit_until_killed(program: Program, told: Told, dice: random.Random, most: int) -> None:
    """Edit one run after another; the last request may have been made or not."""
    with Client(program.port) as client, suppress(OSError, http.client.HTTPException):
        head = client.get("/api/designs/1")["head"]
        while told.sent < most:
            run, text = dice.choice(RUNS), f"{dice.randint(1, 400) / 10:g} m"
            told.sent += 1
            done = client.post("/api/designs/1/edits", {"base": head, "edits": [length(run, text)]})
            head = done["revision"]["number"]
            told.acknowledged[head] = (run, text)


def kill_later(program: Program, after_s: float) -> threading.Thread:
    """Kill a server after a time, whatever it does then."""

    def wait_and_kill() -> None:
        sleep(after_s)
        program.kill()

    thread = threading.Thread(target=wait_and_kill)
    thread.start()
    return thread


def survives(folder: Path, *, edits: int, kills: int, seed: int) -> Told:
    """Edit a design while its server is killed again and again; give what was acknowledged."""
    database, told, dice = folder / "a.db", Told(), random.Random(seed)  # noqa: S311 - moments, not secrets
    program = Program(database)
    with Client(program.port) as client:
        client.post("/api/projects", {"name": "Quay"})
        client.post("/api/projects/1/designs", {"name": "boat house", "text": BOAT_HOUSE})
    for kill in range(kills):
        killer = kill_later(program, dice.uniform(0.01, 0.6))
        edit_until_killed(program, told, dice, edits - kills + kill)
        killer.join()
        program = Program(database)
        check(program, told)
    edit_until_killed(program, told, dice, edits)
    check(program, told)
    program.kill()
    return told


def check(program: Program, told: Told) -> None:
    """The head is at least the last that was acknowledged; what is beyond was under way when the server was killed."""
    with Client(program.port) as client:
        head = client.get("/api/designs/1")["head"]
    assert head >= max(told.acknowledged, default=1)
    unanswered = set(range(2, head + 1)) - set(told.acknowledged)
    assert len(unanswered) <= told.sent - len(told.acknowledged)


def whole(database: Path, told: Told) -> int:
    """Read every revision back: its hash holds, it follows from the one before, and says what was acknowledged."""
    workspace = Workspace(open_store(database))
    with workspace.store.reading() as connection:
        numbers = [one.number for one in revisions.history(connection, 1, before=None, most=100_000)]
    assert numbers == list(range(len(numbers), 0, -1))
    before = lengths(workspace, 1, 1)
    for number in sorted(numbers)[1:]:
        revision, after = workspace.revision(1, number), lengths(workspace, 1, number)
        changed = {run for run in after if after[run] != before[run]}
        assert len(changed) <= 1
        if number in told.acknowledged:
            run, text = told.acknowledged[number]
            assert changed <= {run}
            assert after[run] == pytest.approx(float(text.removesuffix(" m")))
        assert revision.base == number - 1
        before = after
    workspace.store.close()
    return len(numbers)


def test_three_hundred_edits_with_a_server_that_is_killed_again_and_again(tmp_path: Path) -> None:
    told = survives(tmp_path, edits=300, kills=10, seed=20261129)
    assert told.sent == 300
    assert len(told.acknowledged) >= 280
    assert whole(tmp_path / "a.db", told) >= len(told.acknowledged) + 1


@pytest.mark.soak
def test_ten_thousand_edits_with_a_server_that_is_killed_again_and_again(tmp_path: Path) -> None:
    told = survives(tmp_path, edits=10_000, kills=150, seed=7)
    assert told.sent == 10_000
    assert whole(tmp_path / "a.db", told) >= len(told.acknowledged) + 1
