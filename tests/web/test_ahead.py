"""Edits that are only looked at: what they would come to is what they come to, and nothing is kept of it."""

from __future__ import annotations

from typing import Any

import pytest

from tests.keeping.kept import length
from tests.web.server import Client, Json

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
