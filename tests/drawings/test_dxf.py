"""The DXF as a drawing program reads it: sound, layered, counted, and equal to the evaluation."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import ezdxf
import pytest
from ezdxf.document import Drawing as Document
from ezdxf.entities.insert import Insert

from linewright.draw.dxf import dxf
from linewright.draw.dxf.tables import COLOURS, DIMENSION_STYLE, INKS
from linewright.draw.paper import PAPERS, paper_svg
from linewright.draw.paper.marks import Layer
from linewright.draw.riser import riser_drawings
from linewright.draw.run_words import size_words
from linewright.engine import evaluate
from linewright.units import Dimension, UnitSystem, show
from tests.draw import cases
from tests.drawings.drawn import FACTS, risers, sheets
from tests.drawings.geometry import words

CLINIC = ("clinic-ground", "clinic-quay", "clinic-upper")


@cache
def read(name: str, number: int = 0) -> Document:
    return ezdxf.read(io.StringIO(dxf(risers(name)[number]).decode()))  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", [*CLINIC, "faults", "long-names", "no-rooms", "sixty-four"])
def test_a_drawing_program_finds_nothing_to_mend(name: str) -> None:
    for drawing in (*risers(name), *sheets(name)):
        document = ezdxf.read(io.StringIO(dxf(drawing).decode()))  # type: ignore[attr-defined]
        audit = document.audit()
        assert (audit.errors, audit.fixes) == ([], [])
        assert document.dxfversion == "AC1024"
        assert document.header["$INSUNITS"] == 4


def test_the_same_drawing_gives_the_same_bytes() -> None:
    first, again = dxf(risers("clinic-quay")[0]), dxf(risers("clinic-quay")[0])
    assert first == again
    assert len(first) > 10_000


@pytest.mark.parametrize("name", CLINIC)
def test_units_can_be_counted_and_their_fields_extracted(name: str) -> None:
    case = cases.drawn(name)
    found = {}
    for number in range(len(risers(name))):
        for insert in read(name, number).modelspace().query("INSERT"):
            if isinstance(insert, Insert) and insert.dxf.name in {"LW-UNIT", "LW-UNIT-ABOVE"}:
                fields = {attrib.dxf.tag: attrib.dxf.text for attrib in insert.attribs}
                found[fields["TAG"]] = fields
    assert sorted(found) == sorted(unit.id for unit in case.result.units)
    rooms = {room.id: room for room in case.evaluation.design.rooms}
    for unit in case.result.units:
        fields, room = found[unit.id], rooms[unit.room]
        assert (fields["MODEL"], fields["ROOM"], fields["SYSTEM"]) == (unit.model, room.name, case.result.id)
        assert room.cooling_w is not None
        assert unit.elevation_m is not None
        assert float(fields["COOLING_W"]) == pytest.approx(room.cooling_w)
        assert float(fields["ELEVATION_M"]) == pytest.approx(unit.elevation_m)


def test_fittings_and_modules_are_blocks_too() -> None:
    names = [
        insert.dxf.name for number in (0, 1) for insert in read("clinic-quay", number).modelspace().query("INSERT")
    ]
    fittings = [item.kind.value for item in cases.drawn("clinic-quay").result.fittings]
    assert names.count("LW-OUTDOOR") == 2
    assert names.count("LW-HEADER") == fittings.count("header")
    # The joint between the two modules is one more.
    assert names.count("LW-JOINT") == fittings.count("joint") + 1
    assert names.count("LW-COUPLING") == fittings.count("coupling")


@pytest.mark.parametrize("name", CLINIC)
def test_sizes_and_lengths_are_those_of_the_evaluation(name: str) -> None:
    found = [
        text.dxf.text for number in range(len(risers(name))) for text in read(name, number).modelspace().query("TEXT")
    ]
    for run in cases.drawn(name).result.runs:
        assert size_words(run, UnitSystem.SI) in found
        assert run.length_m is not None
        assert show(run.length_m, Dimension.LENGTH, UnitSystem.SI) in found


def test_tubes_lie_on_layers_of_their_own_and_text_is_2_mm() -> None:
    document = read("clinic-quay")
    space = document.modelspace()
    assert {layer.dxf.name for layer in document.layers} >= {layer.value for layer in Layer}
    assert len(space.query('LINE[layer=="LW-TUBE-GAS"]')) >= len(space.query('LINE[layer=="LW-TUBE-LIQUID"]')) > 10
    assert min(text.dxf.height for text in space.query("TEXT")) >= 2.0
    assert {text.dxf.style for text in space.query("TEXT")} <= {"LW-TEXT", "LW-TEXT-BOLD"}


def test_letters_that_the_face_has_not_stand_whole_in_the_files() -> None:
    design = cases.MADE["one-unit"]()
    design = replace(design, rooms=(replace(design.rooms[0], name="玄関 مدخل"),))
    evaluation = evaluate(design, cases.library())
    sheets = riser_drawings(evaluation, evaluation.systems[0], FACTS, PAPERS["A3"], system=UnitSystem.SI)
    for sheet in sheets:
        assert "玄関 مدخل" in dxf(sheet).decode()
        assert "玄関 مدخل" in paper_svg(sheet)


def test_the_documentation_names_every_layer() -> None:
    said = (Path(__file__).parents[2] / "docs" / "drawings.md").read_text(encoding="utf-8")
    table = said.partition("| layer | holds |")[2].partition("\n\n")[0]
    assert sorted(re.findall(r"`(LW-[A-Z-]+)`", table)) == sorted(layer.value for layer in Layer)


def test_the_dimension_style_measures_true_heights() -> None:
    """At 1:25 a millimetre of paper is 0.025 m."""
    assert "heights 1:25, widths not to scale" in [item.text for item in words(risers("clinic-ground")[0])]
    style = read("clinic-ground").dimstyles.get(DIMENSION_STYLE)
    assert style.dxf.dimlfac == pytest.approx(0.025)
    assert style.dxf.dimtxsty == "LW-TEXT"
    assert style.dxf.dimscale == 1.0


@pytest.mark.parametrize("colour", sorted({*COLOURS.values(), *INKS.values()}))
def test_colours_stand_out_from_white_and_from_black(colour: int) -> None:
    """Contrast by the relative luminance of WCAG 2: (L1 + 0.05) / (L2 + 0.05)."""
    channels = [(colour >> shift & 255) / 255 for shift in (16, 8, 0)]
    linear = [value / 12.92 if value <= 0.03928 else ((value + 0.055) / 1.055) ** 2.4 for value in channels]
    light = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    assert 1.05 / (light + 0.05) >= 3.0
    assert (light + 0.05) / 0.05 >= 3.0
