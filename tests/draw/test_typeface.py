"""Widths of text: the committed table against the committed faces themselves, and what is made of widths."""

from __future__ import annotations

import json
import struct
import subprocess
import sys
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.draw.primitives import Weight
from linewright.draw.typeface import MOST_EMBEDDED_BYTES, embedded_face, face_file, fit, text_width, widths, wrap

WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=60)


class Face:
    """Just enough of a TrueType file: its character map (format 4) and advance widths (OpenType specification)."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        count = struct.unpack_from(">H", data, 4)[0]
        records = [struct.unpack_from(">4sIII", data, 12 + 16 * i) for i in range(count)]
        self.tables = {tag.decode("ascii"): offset for tag, _, offset, _ in records}

    def advance(self, mark: str) -> float:
        units: int = struct.unpack_from(">H", self.data, self.tables["head"] + 18)[0]
        count: int = struct.unpack_from(">H", self.data, self.tables["hhea"] + 34)[0]
        glyph = min(self.glyph(ord(mark)), count - 1)
        width: int = struct.unpack_from(">H", self.data, self.tables["hmtx"] + 4 * glyph)[0]
        return 1000 * width / units

    def glyph(self, code: int) -> int:
        start = self._format_4()
        segments = struct.unpack_from(">H", self.data, start + 6)[0] // 2
        for i in range(segments):
            end = self._word(start + 14 + 2 * i)
            first = self._word(start + 16 + 2 * segments + 2 * i)
            if not first <= code <= end:
                continue
            delta = self._word(start + 16 + 4 * segments + 2 * i)
            at = start + 16 + 6 * segments + 2 * i
            offset = self._word(at)
            if offset == 0:
                return (code + delta) % 65536
            found = self._word(at + offset + 2 * (code - first))
            return (found + delta) % 65536 if found else 0
        return 0

    def _format_4(self) -> int:
        cmap = self.tables["cmap"]
        for i in range(self._word(cmap + 2)):
            start: int = cmap + struct.unpack_from(">I", self.data, cmap + 8 + 8 * i)[0]
            if self._word(start) == 4:
                return start
        raise AssertionError("no character map of format 4")

    def _word(self, at: int) -> int:
        found: tuple[int] = struct.unpack_from(">H", self.data, at)
        return found[0]


@pytest.mark.parametrize("weight", list(Weight))
def test_the_table_is_that_of_the_face(weight: Weight) -> None:
    face, table = Face(face_file(weight)), widths(weight)
    assert len(table) > 450
    for mark, width in table.items():
        assert face.glyph(ord(mark)), f"no glyph for {mark!r}"
        assert width == pytest.approx(face.advance(mark), abs=0.51), mark


@pytest.mark.parametrize("weight", list(Weight))
def test_figures_are_as_wide_as_each_other(weight: Weight) -> None:
    assert len({widths(weight)[mark] for mark in "0123456789"}) == 1


@pytest.mark.parametrize("weight", list(Weight))
def test_the_face_has_every_mark_of_the_trade(weight: Weight) -> None:
    assert set("°²³·×≤≥≈Δηφ▲◇□○→↑†~…–−′″½¼⅛∅äöüßéñçåøłžğαβΩ") <= set(widths(weight))


def test_faces_are_small_enough_to_embed() -> None:
    for weight in Weight:
        assert len(face_file(weight)) < MOST_EMBEDDED_BYTES
        assert embedded_face(weight).startswith("data:font/ttf;base64,")


def test_the_licence_stands_beside_the_faces() -> None:
    text = (files("linewright.draw") / "fonts" / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
    assert "The Inter Project Authors" in text


def test_width_is_the_sum_of_advances_in_proportion_to_size() -> None:
    table = widths(Weight.REGULAR)
    assert text_width("Ab", 10) == pytest.approx((table["A"] + table["b"]) / 100)
    assert text_width("室外機", 12) == pytest.approx(36)  # full-width marks are an em wide
    assert text_width("e\u0301", 10) == pytest.approx(text_width("e", 10))


@given(WORDS, st.floats(20, 400), st.sampled_from(list(Weight)))
def test_fitted_text_fits(words: str, width: float, weight: Weight) -> None:
    found = fit(words, width, 12, weight=weight)
    assert text_width(found, 12, weight) <= width
    assert found == words or (found.endswith("…") and words.startswith(found[:-1]))


@given(WORDS, st.floats(30, 300))
def test_wrapped_text_keeps_every_mark_and_every_line_fits(words: str, width: float) -> None:
    lines = wrap(words, width, 11)
    assert "".join("".join(lines).split()) == "".join(words.split())
    assert all(text_width(line, 11) <= width for line in lines)


def test_no_font_library_is_loaded_at_run_time() -> None:
    code = (
        "import sys, json; from linewright.draw import svg; from linewright.draw.typeface import text_width;"
        "text_width('a', 1); print(json.dumps(sorted(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True, encoding="utf-8")
    loaded = set(json.loads(done.stdout))
    assert not loaded & {"fontTools", "PIL", "numpy", "yaml", "click"}
