"""Nothing is cut off and no words stand on others, whatever they are, from one unit to sixty-four."""

from __future__ import annotations

import pytest

from linewright.draw import Axis, layout, sheet_scene
from linewright.draw.primitives import Circle, Hatch, Line, Rect, Scene
from linewright.engine import evaluate
from linewright.units import UnitSystem
from tests.draw.cases import ALL, TIDEWATER, book, drawn, library, tower
from tests.draw.geometry import box, of_role, text, texts

# Floors and units on each: one to sixty-four units. The last two are one chain of joints.
SIZES = ((1, 1), (2, 1), (1, 3), (5, 1), (2, 4), (1, 13), (3, 7), (6, 6), (7, 7), (32, 2), (1, 64), (64, 1))
each_system = pytest.mark.parametrize("units", UnitSystem)


def _check(scene: Scene) -> None:
    """The boxes are those of the committed widths; as in print, lines of one paragraph may touch."""
    boxes = sorted(((box(item), item.id) for item in texts(scene) if item.text), key=lambda found: found[0].top)
    for place, name in boxes:
        assert place.left >= 0, name
        assert place.top >= 0, name
        assert place.right <= scene.width, name
        assert place.bottom <= scene.height, name
    for i, (one, name) in enumerate(boxes):
        for other, below in boxes[i + 1 :]:
            if other.top > one.bottom - 0.5:
                break
            across = min(one.right, other.right) - max(one.left, other.left)
            assert across < 0.01, (name, below)


@pytest.mark.parametrize("axis", Axis)
@each_system
@pytest.mark.parametrize("name", ALL)
def test_words_stand_clear_of_each_other_and_of_the_edge(name: str, units: UnitSystem, axis: Axis) -> None:
    _check(drawn(name, axis, units).scene)


@each_system
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_words_stand_clear_at_every_size(size: tuple[int, int], units: UnitSystem) -> None:
    evaluation = evaluate(tower(*size), library())
    sheet = layout(evaluation, evaluation.systems[0], book=book(TIDEWATER).book)
    scene = sheet_scene(sheet, units)
    assert len(of_role(scene, "lane")) == size[0] * size[1]
    _check(scene)
    tree = [item for item in of_role(scene, "run", "run-beyond") if isinstance(item, Line)]
    assert max(item.x2 for item in tree) < text(scene, "lanes/room").x, "the tree stays beside the table"


@pytest.mark.parametrize("width", [900.0, 1280.0, 2400.0])
@pytest.mark.parametrize("name", ["long-names", "clinic-upper", "faults"])
def test_words_stand_clear_on_narrow_and_wide_pages(name: str, width: float) -> None:
    _check(drawn(name, Axis.ACTUAL, UnitSystem.IP, width).scene)


@each_system
@pytest.mark.parametrize("name", ALL)
def test_all_marks_stand_on_the_page(name: str, units: UnitSystem) -> None:
    scene = drawn(name, Axis.ACTUAL, units).scene
    for item in scene.primitives:
        match item:
            case Line():
                xs, ys = (item.x1, item.x2), (item.y1, item.y2)
            case Rect() | Hatch():
                assert item.width >= 0, item.id
                assert item.height >= 0, item.id
                xs, ys = (item.x, item.x + item.width), (item.y, item.y + item.height)
            case Circle():
                xs, ys = (item.x - item.radius, item.x + item.radius), (item.y - item.radius, item.y + item.radius)
            case _:
                continue
        assert min(*xs, *ys) >= 0, item.id
        assert max(xs) <= scene.width, item.id
        assert max(ys) <= scene.height, item.id


def test_words_can_be_read_at_the_size_of_the_page() -> None:
    assert min(item.size for name in ALL for item in texts(drawn(name).scene)) >= 10.0
