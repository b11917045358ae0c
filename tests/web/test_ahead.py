"""Edits that are only looked at: what they would come to is what they come to, and nothing is kept of it."""

from __future__ import annotations

import json
from typing import Any

import pytest

from linewright.app.shipped import shipped
from tests.keeping.kept import length
from tests.web.server import Client, Json

CLINIC = next(shipped("examples").glob("harbour-clinic/*.design.yaml")).read_text(encoding="utf-8")
VIEW = {"system": "main", "units": "si", "width_px": 1400}
SPLIT = {"edit": "split", "system": "main", "run": "U2", "node": "J9", "at": "1 m"}


def preview(client: Client, base: int, *edits: Json, **view: Json) -> dict[str, Any]:
    found: dict[str, Any] = client.post(
        "/api/designs/1/preview", {"base": base, "edits": list(edits), "view": {**VIEW, **view}}
    )
    return found


@pytest.mark.parametrize(
    "edits", [(length("J2", "60 m"),), (SPLIT, length("U1", "4.5 m"))], ids=["a length", "two edits"]
)
def test_what_is_looked_at_is_what_comes_of_it(client: Client, edits: tuple[Json, ...]) -> None:
    ahead = preview(client, 1, *edits)
    assert client.get("/api/designs/1")["head"] == 1
    assert len(client.get("/api/designs/1/revisions")["revisions"]) == 1
    made = client.post("/api/designs/1/edits", {"base": 1, "edits": list(edits), "view": VIEW})
    assert ahead["evaluation"] == made["evaluation"]
    assert without_mark(ahead["scene"]) == without_mark(made["scene"])
    assert ahead["systems"] == client.get("/api/designs/1/systems?units=si")


def without_mark(scene: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in scene.items() if key != "drawn"}


def test_who_holds_a_sheet_is_sent_what_differs(client: Client) -> None:
    held = client.get("/api/designs/1/scene?system=main&units=si&width_px=1400")
    ahead = preview(client, 1, length("J2", "60 m"), since=held["drawn"], tree=True)
    assert ahead["scene"] is None
    assert ahead["evaluation"] is None
    assert ahead["scene_changes"]["since"] == held["drawn"]
    assert ahead["tree"]["schema"] == "linewright/tree/1"


def test_what_the_edits_change_is_named(client: Client) -> None:
    assert preview(client, 1, length("J2", "60 m"))["elements"] == ["main/run:J2"]


def test_an_older_revision_can_be_looked_at(client: Client) -> None:
    client.post("/api/designs/1/edits", {"base": 1, "edits": [length("J2", "60 m")]})
    assert preview(client, 1)["evaluation"] == client.get("/api/designs/1/evaluation?revision=1")


def test_what_cannot_be_made_is_refused_as_an_edit_is(client: Client) -> None:
    for edit in (length("J7", "60 m"), length("J2", "-1 m"), {"edit": "set"}):
        asked = client.ask("POST", "/api/designs/1/preview", {"base": 1, "edits": [edit]})
        made = client.ask("POST", "/api/designs/1/edits", {"base": 1, "edits": [edit]})
        assert asked.status == made.status == 422
        assert asked.json["faults"] == made.json["faults"]
    assert client.ask("POST", "/api/designs/1/preview", {"base": 9, "edits": []}).status == 404
    assert client.ask("POST", "/api/designs/9/preview", {"base": 1, "edits": []}).status == 404


def searched(client: Client, **asked: str) -> list[dict[str, Any]]:
    """Every line of a search."""
    query = "&".join(f"{key}={value}" for key, value in asked.items())
    answer = client.ask("GET", f"/api/designs/1/remedies?{query}")
    assert answer.status == 200
    return [json.loads(line) for line in answer.body.splitlines()]


BRANCH = "main/limit:after_first_branch"


@pytest.fixture
def too_long(client: Client) -> Client:
    """The boat house with a branch that is longer than its book allows."""
    client.post("/api/designs/1/edits", {"base": 1, "edits": [length("J2", "60 m")]})
    return client


def test_a_search_tells_its_way_and_ends_with_all_that_it_found(too_long: Client) -> None:
    *way, last = searched(too_long, subject=BRANCH, budget="150")
    assert [line["evaluations"] for line in way] == sorted(line["evaluations"] for line in way)
    assert all(line["found"] is None for line in way)
    found = last["found"]
    told = [line["newest"]["edits"] for line in way if line["newest"] is not None]
    assert found["remedies"]
    assert all(one["edits"] in told for one in found["remedies"])
    assert last["evaluations"] <= last["budget"] == 150
    assert found["targets"] == [BRANCH]


def test_every_remedy_that_is_told_cures_when_it_is_made(too_long: Client) -> None:
    found = searched(too_long, subject=BRANCH, budget="150")[-1]["found"]
    for remedy in found["remedies"]:
        ahead = preview(too_long, 2, *remedy["edits"])
        (branch,) = (
            one for one in ahead["evaluation"]["systems"][0]["limits"] if one["measure"] == "after_first_branch"
        )
        assert branch["standing"] in {"within", "on conditions"}
        assert remedy["words"]
        assert {effect["subject"] for effect in remedy["cured"]} >= set(found["targets"])


def test_what_holds_has_nothing_to_cure(client: Client) -> None:
    (last,) = searched(client, subject=BRANCH)
    assert last["found"]["targets"] == last["found"]["remedies"] == []
    assert last["evaluations"] == 1


@pytest.mark.parametrize(
    ("query", "status"), [("subject=main/nothing", 404), ("budget=0", 422), ("units=furlong", 422)]
)
def test_what_cannot_be_looked_for_is_refused(client: Client, query: str, status: int) -> None:
    assert client.ask("GET", f"/api/designs/1/remedies?{query}").status == status


def test_words_are_in_the_units_that_are_asked_for(too_long: Client) -> None:
    metric, inch_pound = (
        searched(too_long, subject=BRANCH, budget="60", units=units)[-1]["found"]["remedies"] for units in ("si", "ip")
    )
    assert [one["edits"] for one in metric] == [one["edits"] for one in inch_pound]
    assert any(" m" in words for one in metric for words in one["words"])
    assert not any(" m " in words for one in inch_pound for words in one["words"])


def test_how_far_a_run_may_grow(client: Client) -> None:
    """The clinic's ground floor: 34 of 40 m after the first branch leave 6 m to the runs on the way there."""
    client.post("/api/projects/1/designs", {"name": "clinic", "text": CLINIC})
    for units, words in (("si", "holds to 15.000 m, 6.000 m more; then gives: after_first_branch."), ("ip", " ft")):
        found = client.get(f"/api/designs/2/room?system=ground&subject=ground/run:J3.length&units={units}")
        assert found["claimed"]
        (line,) = found["says"]
        assert words in line


def test_no_room_is_told_where_something_fails(client: Client) -> None:
    found = client.get("/api/designs/1/room?system=main&subject=main/run:J2.length")
    assert not found["claimed"]
    assert found["says"][0].startswith("No headroom is claimed")


def test_what_cannot_grow_is_not_there(client: Client) -> None:
    client.post("/api/projects/1/designs", {"name": "clinic", "text": CLINIC})
    for query in ("system=ground&subject=ground/run:J99.length", "system=attic&subject=ground/run:J3.length"):
        assert client.ask("GET", f"/api/designs/2/room?{query}").status == 404
