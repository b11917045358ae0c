"""What is done while the disk is waited for: it relies on nothing, and a change that fails leaves nothing of it."""

from __future__ import annotations

import json
from functools import partial
from pathlib import Path
from typing import NamedTuple

import orjson
import pytest
from sqlalchemy import Connection, event

from linewright.app.keeping import Wanted, Workspace, change
from linewright.app.keeping.kinds import DESIGN
from linewright.app.keeping.workspace import Judged, Shelf
from linewright.engine import Evaluation
from linewright.model.design import Design
from linewright.report.check_json import check_json
from linewright.store import documents
from linewright.web import answers
from linewright.web.answers import told_ahead
from linewright.web.events import Events
from linewright.web.jobs import Jobs
from linewright.web.state import State
from tests.keeping.kept import length, lengths, with_boat_house


class Desk(NamedTuple):
    """A server's state, and the number of the design in it."""

    shared: State
    design: int

    def set_length(self, text: str, base: int) -> dict[str, object]:
        """Set the length of a run over the web; gives the answer."""
        wanted = Wanted(base, json.dumps([length("U1", text)]))
        answer = told_ahead(self.shared, None, partial(change, self.shared.workspace, DESIGN, self.design, wanted))
        found: dict[str, object] = orjson.loads(answer.body)
        return found


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    workspace, design = with_boat_house(tmp_path)
    events = Events()
    return Desk(State(workspace, events, Jobs(workspace, events)), design)


def fail_once(workspace: Workspace) -> None:
    """Let the next change fail when it is written through."""

    def fail(connection: Connection) -> None:
        if connection.get_execution_options().get("linewright_writes"):
            event.remove(workspace.store.engine, "commit", fail)
            raise OSError("the disk is full")

    event.listen(workspace.store.engine, "commit", fail)


def test_a_change_that_fails_on_the_disk_is_neither_answered_nor_kept(desk: Desk) -> None:
    """The next one gets the same number, and an answer of its own."""
    fail_once(desk.shared.workspace)
    with pytest.raises(OSError, match="full"):
        desk.set_length("29 m", 1)
    assert desk.shared.workspace.document("design", desk.design).head == 1
    desk.set_length("7.5 m", 1)
    assert lengths(desk.shared.workspace, desk.design)["U1"] == 7.5


def test_an_answer_of_a_failed_change_is_not_given_to_the_next_one(desk: Desk) -> None:
    """The same edit, at first failing: its answer is that of the evaluation by itself."""
    fail_once(desk.shared.workspace)
    with pytest.raises(OSError, match="full"):
        desk.set_length("29 m", 1)
    answer = desk.set_length("7.5 m", 1)
    workspace = desk.shared.workspace
    evaluation = workspace.judge(workspace.document("design", desk.design), 2)
    assert answer["evaluation"] == orjson.loads(orjson.dumps(check_json(evaluation, cures=False)))


def test_what_fails_meanwhile_leaves_the_change_made(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is worked out again when the change is on the disk, and is then answered."""
    tries = []
    sheet_of = answers.sheet_of

    def fails_first(*given: object, **named: object) -> object:
        tries.append(given)
        if len(tries) == 1:
            raise MemoryError
        return sheet_of(*given, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(answers, "sheet_of", fails_first)
    answer = desk.set_length("7.5 m", 1)
    assert answer["scene"] is not None
    assert len(tries) == 2
    assert lengths(desk.shared.workspace, desk.design)["U1"] == 7.5


def test_nobody_sees_a_change_before_it_is_on_the_disk(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """While it is judged the head is still the one before, and the new number is not there."""
    seen: list[int] = []
    ahead = Judged.ahead

    def looks(design: Design, shelf: Shelf) -> Judged:
        with desk.shared.workspace.store.reading() as connection:
            seen.append(documents.find_document(connection, "design", desk.design).head)
        return ahead(design, shelf)

    monkeypatch.setattr(Judged, "ahead", looks)
    fail_once(desk.shared.workspace)
    with pytest.raises(OSError, match="full"):
        desk.set_length("29 m", 1)
    assert seen == [1]
    assert desk.shared.workspace.document("design", desk.design).head == 1


def test_a_change_is_judged_once(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever asks for its evaluation later is given the one that was worked out ahead."""
    desk.set_length("7.5 m", 1)

    def never(*_: object) -> Evaluation:
        raise AssertionError("judged again")

    monkeypatch.setattr("linewright.app.keeping.workspace.evaluate", never)
    workspace = desk.shared.workspace
    assert workspace.judge(workspace.document("design", desk.design), 2).systems
