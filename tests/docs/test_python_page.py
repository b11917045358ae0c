"""The page on Python: its code runs, and it names what the package offers."""

import pytest

import linewright
from tests.docs.pages import blocks, page, ticked
from tests.house.files import ROOT

PAGE = page("reference/python.md")


def test_the_code_runs_as_it_stands(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(ROOT)
    names: dict[str, object] = {}
    found = [block.text for block in blocks(PAGE) if block.kind == "python"]
    assert len(found) == 3
    for text in found:
        exec(compile(text, "python.md", "exec"), names)  # noqa: S102 - our own page
    # The contract's minimal design: rooms are short, the total charge is 7.2 kg, worked by hand.
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "over"
    assert said[-1].startswith("total charge 7.2")


def test_every_public_name_is_told() -> None:
    said = {word.partition("(")[0] for word in ticked(PAGE)}
    assert set(vars(linewright)["__all__"]) - {"__version__"} <= said


def test_a_notebook_shows_a_sheet_and_a_table() -> None:
    library = linewright.load_library(ROOT / "books")
    evaluation = linewright.evaluate(linewright.load(ROOT / "examples/boat-house/boat-house.design.yaml"), library)
    picture = linewright.show_sheet(evaluation, library)._repr_svg_()
    checks = linewright.show_checks(evaluation)
    table = checks._repr_html_()
    assert picture.startswith("<svg")
    assert table.count("<tr>") == len(checks.rows) + 1
    # Worked by hand in the contract: after the first branch 17 m against 30 m, on conditions.
    assert "<td>main/limit:after_first_branch</td><td>17.0 m</td><td>max 30.0 m</td><td>13.0 m</td>" in table
    assert "main/limit:after_first_branch  17.0 m  max 30.0 m  13.0 m  on conditions" in str(checks)
