"""Any sequence of requests against a model that knows nothing but numbers: what goes in, what meets, what is undone."""

from __future__ import annotations

import tempfile
from contextlib import ExitStack
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from tests.keeping.kept import BOAT_HOUSE, length
from tests.web.server import Client, Json, serving

RUNS = ("J1", "J2", "U1", "U2", "U3")
START = {"J1": 24.0, "J2": 6.0, "U1": 9.0, "U2": 5.0, "U3": 11.0}
#: Stands for a revision that put in the whole document.
WHOLE = "whole"


class Revised(NamedTuple):
    """One revision as the model knows it: the lengths after it, and what it wrote."""

    lengths: dict[str, float]
    wrote: str


class Model:
    """One design: its revisions, whether it is in the lists."""

    def __init__(self, start: dict[str, float]) -> None:
        self.revisions, self.listed, self.names = [Revised(dict(start), WHOLE)], True, dict[int, str]()

    @property
    def head(self) -> int:
        return len(self.revisions)

    def meets(self, run: str, base: int) -> bool:
        return any(later.wrote in (run, WHOLE) for later in self.revisions[base:])

    def write(self, run: str, value: float) -> None:
        self.revisions.append(Revised(self.revisions[-1].lengths | {run: value}, run))

    def put(self, lengths: dict[str, float]) -> None:
        self.revisions.append(Revised(dict(lengths), WHOLE))


class Machine(RuleBasedStateMachine):
    """Requests and restarts in any order."""

    @initialize()
    def begin(self) -> None:
        self.folder = tempfile.TemporaryDirectory()
        self.database = Path(self.folder.name) / "a.db"
        self._start()
        self.client.post("/api/projects", {"name": "Quay"})
        self.client.post("/api/projects/1/designs", {"name": "boat house", "text": BOAT_HOUSE})
        self.models = {1: Model(START)}

    def _start(self) -> None:
        self.stack = ExitStack()
        self.client = self.stack.enter_context(Client(self.stack.enter_context(serving(self.database))))

    def teardown(self) -> None:
        if hasattr(self, "stack"):
            self.stack.close()
            self.folder.cleanup()

    def _any(self, data: st.DataObject) -> tuple[int, Model]:
        number = data.draw(st.sampled_from(sorted(self.models)), label="design")
        return number, self.models[number]

    def _revision(self, data: st.DataObject, model: Model) -> int:
        return data.draw(st.integers(max(1, model.head - 4), model.head), label="revision")

    def _ask(self, number: int, what: str, body: Json) -> tuple[int, Json]:
        found = self.client.ask("POST", f"/api/designs/{number}/{what}", body)
        return found.status, found.json

    @rule(data=st.data(), run=st.sampled_from(RUNS), tenths=st.integers(1, 300))
    def edit(self, data: st.DataObject, run: str, tenths: int) -> None:
        number, model = self._any(data)
        base, value = self._revision(data, model), tenths / 10
        status, body = self._ask(number, "edits", {"base": base, "edits": [length(run, f"{value:g} m")]})
        if not model.listed:
            assert status == 404
        elif model.meets(run, base):
            assert (status, body["head"]) == (409, model.head)
        else:
            assert (status, body["rebased"]) == (200, base != model.head)
            model.write(run, value)

    @rule(data=st.data())
    def undo(self, data: st.DataObject) -> None:
        number, model = self._any(data)
        revision = self._revision(data, model)
        status, _ = self._ask(number, "undo", {"revision": revision})
        wrote = model.revisions[revision - 1].wrote
        if not model.listed or revision == 1:
            assert status == 404
        elif wrote == WHOLE and revision == model.head:
            assert status == 200
            model.put(model.revisions[revision - 2].lengths)
        elif wrote == WHOLE or model.meets(wrote, revision):
            assert status == 409
        else:
            assert status == 200
            model.write(wrote, self._before(model, revision, wrote))

    @staticmethod
    def _before(model: Model, revision: int, run: str) -> float:
        """Length that a run had before a revision wrote it."""
        return model.revisions[revision - 2].lengths[run]

    @rule(data=st.data())
    def restore(self, data: st.DataObject) -> None:
        number, model = self._any(data)
        revision, base = self._revision(data, model), self._revision(data, model)
        status, _ = self._ask(number, "restore", {"revision": revision, "base": base})
        if not model.listed:
            assert status == 404
        elif base != model.head:
            assert status == 409
        else:
            assert status == 200
            model.put(model.revisions[revision - 1].lengths)

    @precondition(lambda self: len(self.models) < 4)
    @rule(data=st.data())
    def fork(self, data: st.DataObject) -> None:
        number, model = self._any(data)
        revision = self._revision(data, model)
        status, body = self._ask(number, "fork", {"revision": revision, "name": "variant"})
        assert status == (201 if model.listed else 404)
        if model.listed:
            self.models[body["id"]] = Model(model.revisions[revision - 1].lengths)

    @rule(data=st.data(), name=st.sampled_from(["", "for tender", "as built"]))
    def name(self, data: st.DataObject, name: str) -> None:
        number, model = self._any(data)
        revision = self._revision(data, model)
        path = f"/api/designs/{number}/revisions/{revision}/name"
        status = self.client.ask("PUT", path, {"name": name}).status
        assert status == (204 if model.listed else 404)
        if model.listed:
            model.names[revision] = name

    @rule(data=st.data())
    def take_away_or_bring_back(self, data: st.DataObject) -> None:
        number, model = self._any(data)
        if model.listed:
            assert self.client.ask("DELETE", f"/api/designs/{number}").status == 204
        else:
            assert self._ask(number, "bring-back", {})[0] == 200
        model.listed = not model.listed

    @rule()
    def start_again(self) -> None:
        self.stack.close()
        self._start()

    @invariant()
    def all_is_as_the_model_knows_it(self) -> None:
        if not hasattr(self, "models"):
            return
        listed = {one["id"]: one["head"] for one in self.client.get("/api/projects/1")["designs"]}
        assert listed == {number: model.head for number, model in self.models.items() if model.listed}
        for number, model in self.models.items():
            if model.listed:
                runs = self.client.get(f"/api/designs/{number}/evaluation")["systems"][0]["runs"]
                found = {run["id"]: run["length_m"] for run in runs}
                assert found == pytest.approx(model.revisions[-1].lengths)
                history = self.client.get(f"/api/designs/{number}/revisions?most=5")["revisions"]
                names = {one["number"]: one["name"] for one in history}
                assert names == {at: model.names.get(at, "") for at in range(model.head, max(model.head - 5, 0), -1)}


def run(examples: int, steps: int) -> None:
    checks = list(HealthCheck)
    how = settings(max_examples=examples, stateful_step_count=steps, deadline=None, suppress_health_check=checks)
    run_state_machine_as_test(Machine, settings=how)


def test_any_sequence_of_requests() -> None:
    run(4, 25)


@pytest.mark.soak
def test_any_long_sequence_of_requests() -> None:
    run(300, 80)
