"""The SVG: sound XML that needs nothing beside it, with the data a reader of the picture looks for."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from linewright.draw import layout, sheet_scene, svg
from linewright.draw.style import CLASSES
from linewright.draw.svg import number
from linewright.engine import evaluate
from linewright.units import UnitSystem
from tests.draw.cases import ALL, drawn, library, one_unit

SPACE = "{http://www.w3.org/2000/svg}"
HOSTILE = 'A<script>alert("1")</script> & "quotes" \'single\' ]]> \x00\x07\ud800 \U0001f600 \u202e'


def parsed(name: str) -> ET.Element:
    return ET.fromstring(svg(drawn(name).scene))  # noqa: S314 - our own output


def elements(root: ET.Element) -> dict[str, ET.Element]:
    return {item.attrib["data-id"]: item for item in root.iter() if "data-id" in item.attrib}


@pytest.mark.parametrize("name", ALL)
def test_every_primitive_is_one_element_with_its_id(name: str) -> None:
    root = parsed(name)
    names = [item.attrib["data-id"] for item in root.iter() if "data-id" in item.attrib]
    assert sorted(names) == sorted(item.id for item in drawn(name).scene.primitives)


def test_pipe_and_limits_carry_their_metres() -> None:
    found = elements(parsed("boat-house"))
    # 24 + 6 m and then 11 m; 30 m beyond the first branch at 24 m (contract/README.md)
    assert (found["run:U3"].attrib["data-x0-m"], found["run:U3"].attrib["data-x1-m"]) == ("30", "41")
    assert found["limit:after_first_branch"].attrib["data-x0-m"] == "54"
    assert found["limit:farthest_actual"].attrib["data-x1-m"] == "70"
    assert found["limit:last_joint_to_unit/U1"].attrib["data-x0-m"] == "39"


def test_coordinates_follow_the_stated_scale() -> None:
    root = parsed("clinic-upper")
    origin, per_m = float(root.attrib["data-origin-px"]), float(root.attrib["data-px-per-m"])
    limit = elements(root)["limit:after_first_branch"]
    assert float(limit.attrib["x1"]) == pytest.approx(origin + per_m * float(limit.attrib["data-x0-m"]), abs=0.011)


@pytest.mark.parametrize("name", ALL)
def test_nothing_outside_the_file_is_named(name: str) -> None:
    text = svg(drawn(name).scene)
    assert text.count("http") == 1  # the name space
    assert "href" not in text
    assert all(target.startswith(("#", "data:")) for target in re.findall(r"url\(([^)]*)\)", text))
    assert "<script" not in text


def test_faces_are_embedded_unless_left_out() -> None:
    scene = drawn("one-unit").scene
    assert svg(scene).count("@font-face") == 2
    bare = svg(scene, embed_fonts=False)
    assert "@font-face" not in bare
    assert "Linewright Sans" in bare
    assert "sans-serif" in bare


@pytest.mark.parametrize("name", ALL)
def test_every_class_is_defined(name: str) -> None:
    assert {item.css for item in drawn(name).scene.primitives} <= set(CLASSES)


def test_hostile_names_stay_text() -> None:
    made = one_unit()
    hostile = replace(
        made,
        project=HOSTILE,
        rooms=(replace(made.rooms[0], name=HOSTILE),),
        systems=(replace(made.systems[0], name=HOSTILE),),
    )
    evaluation = evaluate(hostile, library())
    text = svg(sheet_scene(layout(evaluation, evaluation.systems[0]), UnitSystem.SI))
    root = ET.fromstring(text)  # noqa: S314 - our own output
    assert not list(root.iter(f"{SPACE}script"))
    assert "\x00" not in text
    assert '&lt;script&gt;alert("1")' in text
    text.encode("utf-8")


def test_the_lanes_are_a_table_to_a_screen_reader() -> None:
    root = parsed("boat-house")
    tables = [item for item in root.iter(f"{SPACE}g") if item.attrib.get("role") == "table"]
    rows = [[row for row in table if row.attrib.get("role") == "row"] for table in tables]
    assert [len(found) for found in rows] == [4]  # the heads and three units
    heads = [item for item in rows[0][0] if item.attrib.get("role") == "columnheader"]
    cells = [item for item in rows[0][1] if item.attrib.get("role") == "cell"]
    assert len(heads) == 8
    assert [item.attrib["data-id"].rpartition("/")[2] for item in cells] == [
        "room", "unit", "reach", "cooling", "sensible", "heating", "verdict",
    ]  # fmt: skip


def test_full_names_stand_in_titles() -> None:
    case = drawn("long-names")
    titles = {item.text for item in parsed("long-names").iter(f"{SPACE}title")}
    assert {room.name for room in case.evaluation.rooms} <= titles


@pytest.mark.parametrize(
    ("value", "words"), [(0.0, "0"), (-0.001, "0"), (1.5, "1.5"), (100.0, "100"), (1e7, "10000000"), (-3.456, "-3.46")]
)
def test_coordinates_as_text(value: float, words: str) -> None:
    assert number(value) == words
