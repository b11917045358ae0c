"""What is sent of a scene to who holds one: only what differs, and together they are the whole."""

from __future__ import annotations

from typing import Any

import pytest

from tests.keeping.kept import length
from tests.web.server import Client, Json

VIEW = {"system": "main", "units": "si", "width_px": 1400}


def patched(held: dict[str, Any], changes: dict[str, Any]) -> dict[str, Any]:
    """Make one scene of another by the rules of docs/reference/scene.md."""
    assert changes["since"] == held["drawn"]
    painted = {one["id"]: one for one in sorted(held["primitives"], key=lambda one: one["order"])}
    for name in changes["gone"]:
        del painted[name]
    painted |= {one["id"]: one for one in changes["changed"]}
    sequence = changes["sequence"] or list(painted)
    primitives = [{**painted[name], "order": order} for order, name in enumerate(sequence)]
    frame = {key: changes[key] for key in ("title", "description", "width_px", "height_px", "units", "axis", "groups")}
    return {**frame, "schema": held["schema"], "primitives": sorted(primitives, key=lambda one: one["id"])}


def fetched(client: Client) -> dict[str, Any]:
    found: dict[str, Any] = client.get("/api/designs/1/scene?system=main&units=si&width_px=1400")
    return found


def edited(client: Client, base: int, since: str, *made: dict[str, Json], **view: Json) -> dict[str, Any]:
    body = {"base": base, "edits": list(made), "view": {**VIEW, "since": since, **view}}
    found: dict[str, Any] = client.post("/api/designs/1/edits", body)
    return found


def test_what_differs_and_what_is_held_are_the_whole(client: Client) -> None:
    """Lengths, a joint, a unit that goes, and all of it taken back, each on what came before."""
    held = fetched(client)
    steps: list[dict[str, Json]] = [
        length("U1", "4.5 m"),
        length("J2", "60 m"),
        {"edit": "split", "system": "main", "run": "U2", "node": "J9", "at": "1 m"},
        {"edit": "remove", "system": "main", "node": "U3"},
        {"edit": "label", "system": "main", "kind": "unit", "id": "U1", "label": "West"},
    ]
    for base, step in enumerate(steps, start=1):
        answer = edited(client, base, held["drawn"], step)
        assert answer["scene"] is None
        whole = fetched(client)
        made = patched(held, answer["scene_changes"])
        assert made == {key: value for key, value in whole.items() if key != "drawn"}
        held = {**made, "drawn": answer["scene_changes"]["drawn"]}


def test_what_moves_nothing_sends_little(client: Client) -> None:
    """The name of a room stands on its lane and in the strip of margins."""
    held = fetched(client)
    rename = {"edit": "label", "kind": "room", "id": "workshop", "label": "Boats"}
    changes = edited(client, 1, held["drawn"], rename)["scene_changes"]
    assert 0 < len(changes["changed"]) < len(held["primitives"]) / 10
    assert changes["sequence"] is None


@pytest.mark.parametrize("view", [{"axis": "equivalent"}, {"units": "ip"}, {"width_px": 1401}, {"margin_rows": 1}])
def test_another_view_is_sent_whole(client: Client, view: dict[str, Json]) -> None:
    held = fetched(client)
    answer = edited(client, 1, held["drawn"], length("U1", "4.5 m"), **view)
    assert answer["scene_changes"] is None
    assert answer["scene"]["schema"] == "linewright/scene/1"


def test_a_scene_that_is_not_known_is_sent_whole(client: Client) -> None:
    fork = client.post("/api/designs/1/fork", {"revision": 1, "name": "another"})["id"]
    held = fetched(client)
    assert edited(client, 1, "no such mark", length("U1", "4.5 m"))["scene"] is not None
    body = {"base": 1, "edits": [length("U1", "4 m")], "view": {**VIEW, "since": held["drawn"]}}
    assert client.post(f"/api/designs/{fork}/edits", body)["scene"] is not None
    for _ in range(20):
        fetched(client)
    assert edited(client, 2, held["drawn"], length("U1", "5 m"))["scene"] is not None
