"""Nothing is cut off and no words stand on others, from one unit to sixty-four, in both systems of units."""

from __future__ import annotations

import struct
from itertools import combinations

import pytest

from linewright.draw import Axis, layout, sheet_scene
from linewright.draw.primitives import Circle, Hatch, Line, Rect, Scene, Weight
from linewright.draw.typeface import ELLIPSIS, face_file, text_width, widths
from linewright.engine import evaluate
from linewright.units import UnitSystem
from tests.draw.cases import ALL, LONG, TIDEWATER, book, drawn, library, tower
from tests.draw.reading import Box, box, meet, texts

# Floors and units on each: one to sixty-four units.
SIZES = ((1, 1), (2, 1), (1, 3), (5, 1), (2, 4), (1, 13), (3, 7), (6, 6), (7, 7), (1, 64), (32, 2), (64, 1))
each_axis = pytest.mark.parametrize("axis", Axis)
each_system = pytest.mark.parametrize("units", UnitSystem)


def _check(scene: Scene) -> None:
    boxes = [(text.id, box(text)) for text in texts(scene) if text.text]
    page = Box(0.0, 0.0, scene.width, scene.height)
    outside = [name for name, at in boxes if not _holds(page, at)]
    assert not outside, "cut off at the edge of the page"
    boxes.sort(key=lambda item: item[1].top)
    on_others = [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if meet(one, other)]
    assert not on_others


def _holds(page: Box, inner: Box) -> bool:
    across = page.left <= inner.left and inner.right <= page.right
    return across and page.top <= inner.top and inner.bottom <= page.bottom


@each_axis
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
    assert sum(item.role == "lane" for item in scene.primitives) == size[0] * size[1]
    _check(scene)


@pytest.mark.parametrize("width", [900.0, 1280.0, 2400.0])
@pytest.mark.parametrize("name", ["long-names", "clinic-upper", "faults"])
def test_words_stand_clear_on_narrow_and_wide_pages(name: str, width: float) -> None:
    _check(drawn(name, Axis.ACTUAL, UnitSystem.IP, width).scene)


@each_system
@pytest.mark.parametrize("name", ALL)
def test_all_marks_stand_on_the_page(name: str, units: UnitSystem) -> None:
    scene = drawn(name, Axis.ACTUAL, units).scene
    page = Box(0.0, 0.0, scene.width, scene.height)
    for item in scene.primitives:
        match item:
            case Line():
                xs, ys = sorted((item.x1, item.x2)), sorted((item.y1, item.y2))
                at = Box(xs[0], ys[0], xs[1], ys[1])
            case Rect() | Hatch():
                assert item.width >= 0
                assert item.height >= 0
                at = Box(item.x, item.y, item.x + item.width, item.y + item.height)
            case Circle():
                at = Box(item.x - item.radius, item.y - item.radius, item.x + item.radius, item.y + item.radius)
            case _:
                continue
        assert _holds(page, at), item.id


def test_figures_are_never_shortened_and_the_whole_name_stands_behind_what_is() -> None:
    scene = drawn("long-names").scene
    short = [text for text in texts(scene) if ELLIPSIS in text.text]
    assert len(short) > 10
    for text in short:
        part = text.id.rpartition("/")[2]
        assert part not in {"reach", "cooling", "sensible", "heating", "used", "size"}
    rooms = [text for text in texts(scene) if text.id.startswith("unit:") and text.id.endswith("/room")]
    assert all(text.title.startswith(LONG) for text in rooms)


@pytest.mark.parametrize("weight", Weight)
def test_the_widths_are_those_of_the_committed_face(weight: Weight) -> None:
    measured = _advances(face_file(weight))
    for mark, width in widths(weight).items():
        assert abs(width - measured[ord(mark)]) <= 1, mark
    assert set("▲?◇□~↑†≥→·–−′″°…") <= set(widths(weight)), "the signs of the sheet"
    assert text_width("AVA", 20.0, weight) == pytest.approx(sum(widths(weight)[m] for m in "AVA") / 50)


def _advances(data: bytes) -> dict[int, float]:
    """Read advance widths by code point [1/1000 em] from the tables cmap, hhea, hmtx, head of a TrueType file.

    Source: OpenType specification 1.9, chapters `head`, `hhea`, `hmtx`, `cmap` (format 4); from memory.
    """
    count = struct.unpack_from(">H", data, 4)[0]
    records = (struct.unpack_from(">4sIII", data, 12 + 16 * i) for i in range(count))
    at = {tag.decode("ascii"): offset for tag, _, offset, _ in records}
    em = struct.unpack_from(">H", data, at["head"] + 18)[0]
    full = struct.unpack_from(">H", data, at["hhea"] + 34)[0]

    def advance(glyph: int) -> float:
        place = at["hmtx"] + 4 * min(glyph, full - 1)
        return float(struct.unpack_from(">H", data, place)[0] * 1000 / em)

    return {code: advance(glyph) for code, glyph in _glyphs(data, at["cmap"]).items()}


def _glyphs(data: bytes, cmap: int) -> dict[int, int]:
    count = struct.unpack_from(">H", data, cmap + 2)[0]
    offsets = [cmap + struct.unpack_from(">HHI", data, cmap + 4 + 8 * i)[2] for i in range(count)]
    start = next(offset for offset in offsets if struct.unpack_from(">H", data, offset)[0] == 4)
    segments = struct.unpack_from(">H", data, start + 6)[0] // 2
    found: dict[int, int] = {}
    for i in range(segments):
        end = struct.unpack_from(">H", data, start + 14 + 2 * i)[0]
        first = struct.unpack_from(">H", data, start + 16 + 2 * segments + 2 * i)[0]
        delta = struct.unpack_from(">H", data, start + 16 + 4 * segments + 2 * i)[0]
        place = start + 16 + 6 * segments + 2 * i
        offset = struct.unpack_from(">H", data, place)[0]
        for code in range(first, min(end, 0xFFFE) + 1):
            glyph = code
            if offset:
                glyph = struct.unpack_from(">H", data, place + offset + 2 * (code - first))[0]
            found[code] = (glyph + delta) % 0x10000
    return found


def test_words_can_be_read_at_the_size_of_the_page() -> None:
    assert min(text.size for name in ALL for text in texts(drawn(name).scene)) >= 10.0
