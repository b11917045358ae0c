"""The scene as data, and the page that documents it."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest

from linewright.draw import Axis, scene_json
from linewright.draw.style import CLASSES
from linewright.units import UnitSystem
from tests.draw.cases import ALL, ROOT, drawn

PAGE = ROOT / "docs" / "reference" / "scene.md"


def values(found: object) -> Iterator[dict[str, object]]:
    assert isinstance(found, list)
    yield from found


@pytest.mark.parametrize("name", ALL)
def test_it_is_plain_sorted_json(name: str) -> None:
    scene = drawn(name).scene
    found = scene_json(scene)
    assert found["schema"] == "linewright/scene/1"
    assert json.loads(json.dumps(found, allow_nan=False)) == found
    names = [str(item["id"]) for item in values(found["primitives"])]
    assert names == sorted(names)
    orders = {item["order"]: item["id"] for item in values(found["primitives"])}
    assert [orders[i] for i in range(len(orders))] == [item.id for item in scene.primitives]
    groups = [str(item["id"]) for item in values(found["groups"])]
    assert groups == sorted(groups)


def test_a_run_and_a_text_as_data() -> None:
    items = {item["id"]: item for item in values(scene_json(drawn("boat-house").scene)["primitives"])}
    run = items["run:U3"]
    assert (run["kind"], run["role"], run["x0_m"], run["x1_m"]) == ("line", "run", 30, 41)
    cell = items["unit:U3/cooling"]
    assert (cell["kind"], cell["text"], cell["anchor"], cell["size_px"]) == ("text", "▲ 3.36 / 3.50", "end", 12.0)


def test_the_page_names_every_key_kind_role_and_class() -> None:
    page = PAGE.read_text(encoding="utf-8")
    words: set[str] = set(CLASSES)
    for name in ALL:
        for axis in Axis:
            found = scene_json(drawn(name, axis, UnitSystem.SI).scene)
            words |= set(found) | set(found["axis"])  # type: ignore[call-overload]
            for item in values(found["primitives"]):
                words |= {str(item["kind"]), str(item["role"]), *item}
            for group in values(found["groups"]):
                words |= {str(group["aria"]), *group}
    missing = sorted(word for word in words if f"`{word}`" not in page)
    assert missing == []
