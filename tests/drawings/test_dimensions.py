"""The heights between levels as dimensions of a drawing program: they measure what the evaluation says."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import ezdxf
import pytest
from ezdxf.document import Drawing as Document
from ezdxf.entities.dimension import Dimension

from linewright.draw.dxf import dxf
from linewright.draw.paper import PAPERS, Drawing
from linewright.draw.paper.dimension import painted
from linewright.draw.paper.marks import Height, Layer
from linewright.draw.riser import diagram_sheets, riser_drawings
from linewright.engine import evaluate
from linewright.model.design import Level
from linewright.units import UnitSystem
from tests.draw import cases
from tests.drawings.drawn import FACTS, risers
from tests.drawings.geometry import ids, overlapping, struck, words

CASES = [
    *((name, paper) for name in ("clinic-ground", "clinic-quay", "clinic-upper") for paper in ("A4", "A3", "A1")),
    ("sixty-four", "A3"),
    ("twin-risers", "A3"),
    ("ferry-terminal", "A3"),
]
#: Metres in a foot, exact by definition.
FOOT_M = 0.3048


@cache
def read(drawing: Drawing) -> Document:
    return ezdxf.read(io.StringIO(dxf(drawing).decode()))  # type: ignore[attr-defined]


def dimensions(drawing: Drawing) -> list[Dimension]:
    return list(read(drawing).modelspace().query("DIMENSION"))


def diagrams(name: str, paper: str, units: UnitSystem = UnitSystem.SI) -> tuple[Drawing, ...]:
    sheets = risers(name, paper, units)
    return sheets[: diagram_sheets(sheets)]


def differences(name: str) -> set[float]:
    """Heights from one level of the design to the next [m]."""
    stated = sorted(level.elevation_m for level in cases.drawn(name).evaluation.design.site.levels)
    return {round(upper - lower, 6) for lower, upper in pairwise(stated)}


def true(dimension: Dimension, document: Document) -> float:
    """What a drawing program reads off: the measured length, times the factor of the style."""
    return float(dimension.get_measurement()) * float(document.dimstyles.get(dimension.dxf.dimstyle).dxf.dimlfac)


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_dimension_measures_the_difference_of_two_levels(name: str, paper: str, units: UnitSystem) -> None:
    metre = 1.0 if units is UnitSystem.SI else FOOT_M
    found = 0
    for sheet in diagrams(name, paper, units):
        for one in dimensions(sheet):
            if one.dxf.text != "<>":
                continue
            assert min(abs(true(one, read(sheet)) * metre - height) for height in differences(name)) < 1e-6
            found += 1
    assert found


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize(("name", "paper"), CASES)
def test_a_dimension_prints_what_the_picture_prints(name: str, paper: str, units: UnitSystem) -> None:
    """By its text, or by what it measures with the decimals and the unit of its style."""
    for sheet in diagrams(name, paper, units):
        said = sorted(mark.text for mark in sheet.marks if isinstance(mark, Height) and mark.text)
        document = read(sheet)
        style = document.dimstyles.get("LW-DIMENSION").dxf
        shown = []
        for one in dimensions(sheet):
            assert one.dxf.text != "<>" or one.override().get("dimpost") == f"<> {said[0].split()[1]}"
            measured = one.override().get("dimpost").replace("<>", f"{true(one, document):.{style.dimdec}f}")
            shown.append(measured if one.dxf.text == "<>" else one.dxf.text)
            block = document.blocks.get(one.dxf.geometry)
            assert block is not None
            assert [text.dxf.text for text in block.query("TEXT")] == [shown[-1]]
        assert sorted(shown) == said


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_picture_of_a_dimension_is_the_one_on_paper(name: str, paper: str) -> None:
    """A line, ticks and a text of 2 mm and more in a block of its own, all on the layer of heights."""
    for sheet in diagrams(name, paper):
        document, names = read(sheet), set()
        for one in dimensions(sheet):
            assert one.dxf.layer == Layer.HEIGHT.value
            assert one.dxf.dimstyle == "LW-DIMENSION"
            block = document.blocks.get(one.dxf.geometry)
            assert block is not None
            names.add(one.dxf.geometry)
            assert {part.dxf.layer for part in block} == {Layer.HEIGHT.value}
            assert min(text.dxf.height for text in block.query("TEXT")) >= 2.0
            assert one.override().get("dimtxt") >= 2.0
            upright = [line for line in block.query("LINE") if abs(line.dxf.start.x - line.dxf.end.x) < 1e-9]
            (line,) = upright
            assert abs(line.dxf.start.y - line.dxf.end.y) == pytest.approx(float(one.get_measurement()))
        assert len(names) == len(dimensions(sheet))


def test_a_height_that_a_match_line_cuts_says_its_whole() -> None:
    """Drawn shorter than it is: it measures a piece, so that it has words of its own, which are those of the whole."""
    cut = [(sheet, one) for sheet in diagrams("sixty-four", "A3") for one in dimensions(sheet) if one.dxf.text != "<>"]
    assert cut
    for sheet, one in cut:
        assert one.dxf.text == "3.60 m"
        assert true(one, read(sheet)) < 3.6
    pieces = [mark for sheet in diagrams("sixty-four", "A3") for mark in sheet.marks if isinstance(mark, Height)]
    for mark in pieces:
        ends = sum(part.id.rpartition("/")[2] in {"upper", "lower"} for part in painted(mark))
        assert ends == 2 - sum(mark.cut)


def split_level(outdoor_m: float, elevations_m: tuple[float, ...]) -> tuple[Drawing, ...]:
    """A unit 2.7 m above the datum, its outdoor unit and the levels as stated."""
    design = cases.MADE["one-unit"]()
    (system,) = design.systems
    outdoor = replace(system.outdoor, elevation_m=outdoor_m)
    design = replace(design, systems=(replace(system, outdoor=outdoor),))
    levels = tuple(Level(id=f"L{i}", name=f"Level {i}", elevation_m=one) for i, one in enumerate(elevations_m))
    design = replace(design, site=replace(design.site, levels=levels))
    evaluation = evaluate(design, cases.library())
    return tuple(riser_drawings(evaluation, evaluation.systems[0], FACTS, PAPERS["A3"], system=UnitSystem.SI))


@pytest.mark.parametrize(
    ("outdoor_m", "levels", "said"),
    [
        (0.1, (0.0, 0.15, 0.3, 3.6), ["0.15 m", "0.15 m", "3.30 m"]),
        (-3.0, (-3.2, 0.0, 0.4, 4.0), ["3.20 m", "0.40 m", "3.60 m"]),
        (-6.0, (-7.0, -3.45, 0.0, 0.0, 0.005, 20.0), ["3.55 m", "3.45 m", "0.01 m", "20.00 m"]),
    ],
)
def test_split_levels_and_basements_have_every_height(
    outdoor_m: float, levels: tuple[float, ...], said: list[str]
) -> None:
    """Shorter than its text, a height still has it, and nothing runs through it; below ground no height is negative."""
    sheet = split_level(outdoor_m, levels)[0]
    shown = [mark.text for mark in reversed(sheet.marks) if isinstance(mark, Height)]
    assert shown == said
    assert (overlapping(sheet), struck(sheet)) == ([], [])
    assert len(ids(sheet)) == len(set(ids(sheet)))
    audit = read(sheet).audit()
    assert (audit.errors, audit.fixes) == ([], [])
    for one, text in zip(dimensions(sheet), reversed(shown), strict=True):
        assert abs(true(one, read(sheet)) - float(text.removesuffix(" m"))) <= 0.005 + 1e-9


def test_what_a_designer_dimensions_in_the_file_reads_true_in_the_unit_of_the_sheet() -> None:
    """On a drawing in feet at 1/2" to the foot, 12.7 mm of paper are a foot."""
    (sheet,) = diagrams("clinic-ground", "tabloid", UnitSystem.IP)
    assert 'heights 1/2" = 1\'-0", widths not to scale' in [item.text for item in words(sheet)]
    style = read(sheet).dimstyles.get("LW-DIMENSION").dxf
    assert 12.7 * style.dimlfac == pytest.approx(1.0)
    assert style.dimdec == 1


_TWICE = """
import hashlib, sys
from linewright.draw.dxf import dxf
from tests.drawings.drawn import risers
print([hashlib.sha256(dxf(sheet)).hexdigest() for sheet in risers("clinic-quay")])
"""


def test_two_runs_of_the_program_give_the_same_bytes() -> None:
    """Whatever the order of sets is: handles, names of blocks, no clock."""
    root = Path(__file__).parents[2]
    found = set()
    for seed in ("1", "2"):
        done = subprocess.run(
            [sys.executable, "-c", _TWICE],
            cwd=root,
            env={**os.environ, "PYTHONPATH": os.pathsep.join((str(root / "src"), str(root))), "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        )
        found.add(done.stdout)
    assert len(found) == 1
