"""Charts of sweeps: signs at what does not hold, names of lines apart, nothing off the page."""

from __future__ import annotations

from itertools import pairwise

from linewright.draw.chart import HEIGHT, MOST_LINES, TOP, WIDTH, chart_scene
from linewright.draw.chart_records import Across, Chart, Curve, Mark, Point
from linewright.draw.primitives import Anchor, Circle, Line, Scene, Text
from linewright.draw.typeface import text_width
from linewright.units import Dimension, UnitSystem

LENGTHS = (20.0, 30.0, 40.0)


def chart(*curves: Curve, across: Across | None = None, title: str = "A sweep") -> Chart:
    return Chart(
        title=title,
        subtitle="Boat house",
        across=across or Across("main", Dimension.LENGTH, ("20 m", "30 m", "40 m")),
        up="farthest",
        dimension=Dimension.LENGTH,
        lines="office",
        curves=curves,
        notes=("A note.",),
    )


def curve(name: str, *values: float | None, marks: tuple[Mark, ...] = (Mark.HOLDS,) * 3) -> Curve:
    points = zip(LENGTHS, values, marks, strict=True)
    return Curve(name, tuple(Point(x, y, mark, f"{name} {x}") for x, y, mark in points))


def points(scene: Scene) -> list[Circle | Text]:
    return [
        item
        for item in scene.primitives
        if isinstance(item, Circle | Text) and item.role == "point" and item.id.startswith("curve:")
    ]


def test_points_stand_where_their_figures_are() -> None:
    scene = chart_scene(chart(curve("a", 10.0, 20.0, 30.0)), UnitSystem.SI)
    first, middle, last = points(scene)
    assert middle.x - first.x == last.x - middle.x > 0
    assert (first.y, last.y) == (TOP + HEIGHT, TOP)
    assert middle.y == TOP + HEIGHT / 2


def test_in_feet_the_picture_is_the_same_with_other_numbers() -> None:
    scene = chart_scene(chart(curve("a", 10.0, 20.0, 30.0)), UnitSystem.IP)
    words = {item.text for item in scene.primitives if isinstance(item, Text)}
    assert {"farthest [ft]", "main [ft]", "100"} <= words


def test_signs_tell_what_does_not_hold_and_never_colour_alone() -> None:
    marks = (Mark.OVER, Mark.OPEN, Mark.NO_DESIGN)
    over, open_, none = points(chart_scene(chart(curve("a", 10.0, 20.0, None, marks=marks)), UnitSystem.SI))
    assert isinstance(over, Text)
    assert over.css == "warning"
    assert isinstance(open_, Circle)
    assert open_.css == "node"
    assert isinstance(none, Text)
    assert none.text == "×"


def test_what_is_over_and_not_known_says_both() -> None:
    marks = (Mark.OVER, Mark.OPEN, Mark.HOLDS)
    over, open_, _ = points(chart_scene(chart(curve("a", None, None, 3.0, marks=marks)), UnitSystem.SI))
    assert isinstance(over, Text)
    assert isinstance(open_, Text)
    assert (over.text[-1], len(over.text), open_.text) == ("?", 2, "?")


def test_no_line_leads_over_a_figure_that_is_not_known() -> None:
    scene = chart_scene(chart(curve("a", 10.0, None, 30.0)), UnitSystem.SI)
    assert [item for item in scene.primitives if isinstance(item, Line) and item.role == "curve"] == []


def test_names_of_lines_that_end_together_stand_apart() -> None:
    scene = chart_scene(chart(*(curve(f"line {i}", 1.0, 2.0, 3.0) for i in range(6))), UnitSystem.SI)
    heights = sorted(item.y for item in scene.primitives if isinstance(item, Text) and item.role == "tag")
    assert len(heights) == 6
    assert all(below - above >= 13.9 for above, below in pairwise(heights))


def test_lines_beyond_the_most_are_said() -> None:
    curves = [curve(f"line {i}", 1.0, 2.0, 3.0 + i) for i in range(MOST_LINES + 3)]
    scene = chart_scene(chart(*curves), UnitSystem.SI)
    assert len({item.id.split("/")[0] for item in points(scene)}) == MOST_LINES
    assert "3 more lines are not drawn; the table has them." in {
        item.text for item in scene.primitives if isinstance(item, Text)
    }


def test_nothing_is_written_off_the_page_however_long_it_is() -> None:
    words = tuple(f"a case with a long name, number {i}" for i in range(30))
    across = Across("x" * 300, None, words)
    long = Curve("n" * 300, tuple(Point(float(i), 1.0 + i, Mark.OVER, "") for i in range(30)))
    scene = chart_scene(chart(long, across=across, title="t" * 300)._replace(up="u" * 300), UnitSystem.SI)
    for item in scene.primitives:
        if isinstance(item, Text):
            width = text_width(item.text, item.size, item.weight)
            share = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[item.anchor]
            assert item.x - width * share >= 0, item.id
            assert item.x + width * (1 - share) <= WIDTH, item.id


def test_a_chart_of_nothing_known_is_drawn_all_the_same() -> None:
    scene = chart_scene(chart(curve("a", None, None, None)), UnitSystem.SI)
    assert len(points(scene)) == 3


def test_what_is_not_known_of_two_lines_stands_one_over_the_other_with_their_names() -> None:
    scene = chart_scene(chart(curve("a", None, None, None), curve("b", None, None, None)), UnitSystem.SI)
    heights = {item.id.partition("/")[0]: item.y for item in points(scene)}
    names = {item.text: item.y for item in scene.primitives if isinstance(item, Text) and item.role == "tag"}
    assert abs(heights["curve:a"] - heights["curve:b"]) >= 13.9
    assert abs(names["a"] - heights["curve:a"]) < 3
    assert abs(names["b"] - heights["curve:b"]) < 3


def test_ids_are_used_once() -> None:
    scene = chart_scene(chart(curve("a", 1.0, 2.0, 3.0), curve("b", 1.0, 2.0, 3.0)), UnitSystem.SI)
    ids = [item.id for item in scene.primitives]
    assert len(ids) == len(set(ids))
