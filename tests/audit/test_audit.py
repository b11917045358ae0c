"""The audit of a book: one defect, one doubt at its place; shipped books raise none."""

import ast
import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.app.auditing import doubts_of
from linewright.app.shipped import shipped
from linewright.book import audit as package
from linewright.book.edits import apply_to_book
from linewright.cli.main import cli
from linewright.document.book_edits import book_edits_from_text
from linewright.document.files import book_from_text
from linewright.document.saving import save_book
from linewright.engine import book_physics, book_tubes
from tests.docs.pages import page, rows

BOOKS = sorted(shipped("books").glob("*.book.yaml"))
SKERRY = (shipped("books") / "skerry-hr-r410a.book.yaml").read_text(encoding="utf-8")
#: A defect made on purpose, the doubt that it raises, and its place. Figures that stood there before in the comment.
DEFECTS = [
    # the rows before have 41.28 mm
    (
        '{edit: set, at: "sizing.branch.rows[14].suction", to: 34.92 mm}',
        "smaller-tube",
        "sizing.branch.rows[14].suction",
    ),
    # a gas port of 22.22 mm
    ('{edit: set, at: "indoor.models[ducted 14.0].liquid", to: 25.4 mm}', "swapped-columns", "indoor.models[15]"),
    # the smaller unit before it has 22.22 mm
    ('{edit: set, at: "indoor.models[ducted 14.0].gas", to: 19.05 mm}', "smaller-port", "indoor.models[15].gas"),
    # the smaller module has 25.4 mm
    (
        '{edit: set, at: "outdoor.modules[outdoor 33.5].suction", to: 22.22 mm}',
        "smaller-port",
        "outdoor.modules[1].suction",
    ),
    # the row before it takes 28.58 mm
    ('{edit: set, at: "fittings.joint.rows[2].gas", to: 9.52 mm}', "smaller-joint", "fittings.joint.rows[2].gas"),
    # 34.92 mm have 1.2 mm
    ('{edit: set, at: "tubes.wall[41.28 mm]", to: 1.1 mm}', "thinner-wall", "tubes.wall"),
    ('{edit: set, at: "tubes.wall[44.45 mm]", to: 10 mm}', "odd-wall", "tubes.wall"),
    # behind 44.45 mm
    ("{edit: insert, at: tubes.suction, item: 95 mm}", "ladder-gap", "tubes.suction"),
    # the largest group has 78.5, the row before the last ends at 56
    ('{edit: remove, at: "sizing.main.rows[3]"}', "group-beyond-table", "sizing.main.rows"),
    # 110 % of 78.5 is 86.35, the row before the last ends at 60
    ('{edit: remove, at: "sizing.branch.rows[14]"}', "units-beyond-table", "sizing.branch.rows"),
    # the last row ends at 92 already
    (
        '{edit: insert, at: "fittings.joint.rows", item: {upto: 120, gas: 44.45 mm, model: joint T}}',
        "row-unreached",
        "fittings.joint.rows[4]",
    ),
    # the smallest unit has 2.2
    ('{edit: set, at: "sizing.branch.rows[0].from", to: 3}', "unit-before-table", "sizing.branch.rows[0]"),
    (
        '{edit: set, at: "limits[25]", to: {measure: indoor_count, max: 64, page: 3}}',
        "bound-unused",
        "outdoor.groups[0].indoor_count",
    ),
    # 22.22 mm have 0.313 kg/m
    ('{edit: set, at: "charge.liquid[25.4 mm]", to: 0.310 kg/m}', "charge-falls", "charge.liquid"),
    # ten times what the tube holds
    ('{edit: set, at: "charge.liquid[25.4 mm]", to: 4.20 kg/m}', "charge-density", "charge.liquid"),
    # 1.4 of 5.6 kW
    ('{edit: set, at: "indoor.models[wall 5.6].sensible", to: 1.4 kW}', "sensible-share", "indoor.models[20].sensible"),
    # 12 on 5.6 kW
    ('{edit: set, at: "indoor.models[wall 5.6].heating", to: 12 kW}', "heating-share", "indoor.models[20].heating"),
    # the smaller unit before it gives 12.5 kW
    (
        '{edit: set, at: "indoor.models[ducted 14.0].heating", to: 12 kW}',
        "larger-gives-less",
        "indoor.models[15].heating",
    ),
    # 8 for 5.6 kW
    ('{edit: set, at: "indoor.models[wall 5.6].index", to: 8}', "index-unit", "indoor.models[20].index"),
    # 37.5 and 25 kW make 62.5
    ('{edit: set, at: "outdoor.groups[pair 56].heating", to: 50 kW}', "group-sum", "outdoor.groups[2].heating"),
    (
        '{edit: set, at: "capacity.heating.length.factor[6][0]", to: 0.095}',
        "odd-factor",
        "capacity.heating.length.factor[6][0]",
    ),
    # between 1.05 and 0.96
    (
        '{edit: set, at: "capacity.cooling.temperature.factor[4][3]", to: 0.85}',
        "factor-jump",
        "capacity.cooling.temperature.factor[4][3]",
    ),
    # 0.985 before it
    (
        '{edit: set, at: "capacity.heating.length.factor[3][0]", to: 0.99}',
        "length-factor",
        "capacity.heating.length.factor",
    ),
    # 1.04 before it
    ('{edit: set, at: "capacity.cooling.ratio.factor[4]", to: 1.00}', "ratio-factor", "capacity.cooling.ratio.factor"),
    # 75 degF typed as degC
    (
        '{edit: set, at: "capacity.cooling.temperature.indoor_wb[6]", to: 75 C}',
        "odd-temperature",
        "capacity.cooling.temperature.indoor_wb[6]",
    ),
    # the total length
    ('{edit: remove, at: "limits[3]"}', "limit-missing", "limits"),
    ("{edit: insert, at: limits, item: {measure: box_count, max: 10, page: 9}}", "limit-twice", "limits[28]"),
    # 150 m are 492 ft
    ('{edit: set, at: "limits[0].max", to: 492 m}', "odd-length", "limits[0].max"),
    # 50 m are 164 ft
    ('{edit: set, at: "limits[9].max", to: 164 m}', "odd-length", "limits[9].max"),
    (
        '{edit: set, at: "limits[26]", to: {measure: connection_ratio, min: group, max: 130, page: 3}}',
        "odd-ratio",
        "limits[26].max",
    ),
    (
        '{edit: insert, at: "sizing.actions", item: {id: more, runs: main, lines: [suction], page: 13}}',
        "action-unneeded",
        "sizing.actions[2]",
    ),
    (
        (
            '{edit: insert, at: "outdoor.modules", item: {model: outdoor 14, index: 14, cooling: 14 kW, heating: 16 kW,'
            " factory_charge: 5 kg, suction: 22.22 mm, high_low: 19.05 mm, liquid: 12.7 mm}}"
        ),
        "module-unused",
        "outdoor.modules[2]",
    ),
    ("{edit: remove, at: fittings.outdoor_joint}", "outdoor-joint-missing", "fittings"),
    ('{edit: remove, at: "charge.suction[41.28 mm]"}', "rate-missing", "charge.suction"),
    ('{edit: remove, at: "limits[3].page"}', "page-missing", "limits[3]"),
    ("{edit: remove, at: tubes.page}", "page-missing", "tubes"),
    ("{edit: remove, at: capacity.cooling.temperature.page}", "page-missing", "capacity.cooling.temperature"),
    ("{edit: remove, at: capacity.heating.defrost.page}", "page-missing", "capacity.heating.defrost"),
    (
        "[{edit: set, at: status, to: transcribed}, {edit: remove, at: document.checked_by}]",
        "unchecked",
        "document.checked_by",
    ),
    # 78.5 kW, the largest group, in 9.52 mm of liquid
    (
        (
            '{edit: set, at: "sizing.branch.rows",'
            " to: [{upto: 14, suction: 22.22 mm, high_low: 19.05 mm, liquid: 9.52 mm},"
            " {upto: 88, suction: 41.28 mm, high_low: 34.92 mm, liquid: 9.52 mm}]}"
        ),
        "tube-for-load",
        "sizing.branch.rows[1].liquid",
    ),
    # the same in 22.22 mm of suction gas
    (
        (
            '{edit: set, at: "sizing.branch.rows",'
            " to: [{upto: 14, suction: 22.22 mm, high_low: 19.05 mm, liquid: 9.52 mm},"
            " {upto: 88, suction: 22.22 mm, high_low: 34.92 mm, liquid: 22.22 mm}]}"
        ),
        "tube-for-load",
        "sizing.branch.rows[1].suction",
    ),
    # 0.59 for 0.895: the pipe leaves about 0.90
    (
        '{edit: set, at: "capacity.cooling.length.factor[6][0]", to: 0.59}',
        "length-for-pipe",
        "capacity.cooling.length.factor[6][0]",
    ),
    # 0.048: what the tube holds of R-410A at 40 degC
    ('{edit: set, at: "charge.liquid[9.52 mm]", to: 0.037 kg/m}', "charge-for-liquid", "charge.liquid"),
    # 0.6
    (
        '{edit: set, at: "capacity.cooling.length.upsized_main", to: {1: 0.06, line: gas, counts: part}}',
        "upsized-for-ladder",
        "capacity.cooling.length.upsized_main",
    ),
    # 5.6 kW on 5.6
    ('{edit: set, at: "indoor.models[wall 5.6].cooling", to: 7.1 kW}', "index-share", "indoor.models[20].cooling"),
    # the table gives 22.22 mm
    ('{edit: set, at: "indoor.models[ducted 14.0].gas", to: 41.28 mm}', "port-for-table", "indoor.models[15].gas"),
    # 220 V
    (
        '{edit: set, at: "boxes.electrical.rows[0].voltage", to: [22 V]}',
        "odd-voltage",
        "boxes.electrical.rows[0].voltage",
    ),
    # 50 Hz
    (
        '{edit: set, at: "boxes.electrical.rows[0].frequency", to: [15 Hz]}',
        "odd-frequency",
        "boxes.electrical.rows[0].frequency",
    ),
    # 15 A
    (
        '{edit: set, at: "boxes.electrical.rows[0].min_circuit_current", to: 16 A}',
        "swapped-currents",
        "boxes.electrical.rows[0]",
    ),
    # 640 mm
    (
        "{edit: set, at: indoor.condensate, to: {page: 9, rows: [{model: wall 2.2, drain: pump, lift: 640 m}]}}",
        "odd-lift",
        "indoor.condensate.rows[0].lift",
    ),
    ("{edit: remove, at: boxes.electrical.page}", "page-missing", "boxes.electrical"),
    (
        "{edit: set, at: indoor.condensate, to: {rows: [{model: wall 2.2, drain: gravity}]}}",
        "page-missing",
        "indoor.condensate",
    ),
    # typed and checked by the project
    ("{edit: set, at: status, to: checked}", "unchecked", "document.checked_by"),
]


def damaged(edits: str) -> str:
    book = book_from_text(SKERRY, "skerry.book.yaml").compiled.book
    return save_book(SKERRY, apply_to_book(book, book_edits_from_text(edits, "edits", book)).book)


@pytest.mark.parametrize(("edits", "code", "path"), DEFECTS, ids=[f"{code}-{path}" for _, code, path in DEFECTS])
def test_one_defect_raises_one_doubt_at_its_place(edits: str, code: str, path: str) -> None:
    doubts = doubts_of(book_from_text(damaged(edits), "damaged.book.yaml").compiled.book)
    assert [(doubt.code, doubt.path) for doubt in doubts] == [(code, path)]
    assert doubts[0].message
    assert doubts[0].look


def test_a_ratio_without_its_percent_sign_raises_what_it_makes_of_tables_as_well() -> None:
    text = damaged('{edit: set, at: "outdoor.groups[single 22.4].connection_ratio.max", to: 130}')
    doubts = doubts_of(book_from_text(text, "damaged.book.yaml").compiled.book)
    assert ("odd-ratio", "outdoor.groups[0].connection_ratio.max") in [(doubt.code, doubt.path) for doubt in doubts]
    assert {doubt.code for doubt in doubts} == {"odd-ratio", "units-beyond-table"}


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.name)
def test_a_shipped_book_raises_no_doubt(path: Path) -> None:
    assert doubts_of(book_from_text(path.read_text(encoding="utf-8"), path.name).compiled.book) == ()


def codes() -> set[str]:
    """Every code that the audit can give, read from its source."""
    folder = Path(package.__file__).parent
    files = [*folder.glob("*.py"), Path(book_physics.__file__), Path(book_tubes.__file__)]
    calls = [node for path in files for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))]
    named = [node for node in calls if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Doubt"]
    return {str(node.args[0].value) for node in named if isinstance(node.args[0], ast.Constant)}


def test_every_doubt_has_a_defect_here_and_a_row_on_the_page() -> None:
    assert len(codes()) > 25
    assert codes() == {code for _, code, _ in DEFECTS}
    assert codes() == {row.names[0] for row in rows(page("reference/audit.md"))}


def checked(path: Path, *more: str) -> tuple[int, str]:
    done = CliRunner().invoke(cli, ["book", "check", str(path), *more])
    return done.exit_code, done.output


def test_a_doubt_is_told_with_its_line_and_its_page_and_exits_with_3(tmp_path: Path) -> None:
    book = tmp_path / "my.book.yaml"
    text = damaged(DEFECTS[0][0])
    book.write_text(text, encoding="utf-8")
    line = next(i for i, row in enumerate(text.splitlines(), start=1) if "{upto: 88," in row)
    code, output = checked(book)
    assert code == 3
    assert f"smaller-tube: sizing.branch.rows[14].suction (line {line}, page 11)" in output
    assert "1 doubt." in output
    code, output = checked(book, "--json")
    assert code == 3
    (doubt,) = json.loads(output)["doubts"]
    assert (doubt["code"], doubt["line"], doubt["page"]) == ("smaller-tube", line, 11)


def test_no_doubt_is_said_to_prove_nothing() -> None:
    code, output = checked(BOOKS[0])
    assert code == 0
    assert "no doubts. Nobody but a reader" in re.sub(r"\s+", " ", output)


def test_a_book_with_faults_is_not_audited(tmp_path: Path) -> None:
    book = tmp_path / "my.book.yaml"
    book.write_text(SKERRY.replace("max: 150 m", "max: 150"), encoding="utf-8")
    code, output = checked(book)
    assert code == 2
    assert "doubt" not in output
