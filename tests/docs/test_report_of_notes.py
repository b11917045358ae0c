"""Notes of a book are printed, as the guide to books promises; what is unknown is told once, with no false figure."""

from pathlib import Path

from click.testing import CliRunner

from linewright.cli.main import cli
from tests.docs import tutorial
from tests.house.files import ROOT

BOOK = (ROOT / "books" / "minimal.book.yaml").read_text(encoding="utf-8")
BOAT_HOUSE = ROOT / "examples" / "boat-house" / "boat-house.design.yaml"
STAGES = {step.code: step.design for step in tutorial.steps() if step.arguments[0] == "check"}


def printed(*arguments: str | Path) -> str:
    """The output with its line breaks taken out, so that it can be searched."""
    return " ".join(CliRunner().invoke(cli, [str(argument) for argument in arguments]).output.split())


def noted(folder: Path) -> Path:
    """The minimal book with a remark of the test's own on a wider bound, and the boat house beside it."""
    text = BOOK.replace("        needs:", "        note: Order the long-line kit.\n        needs:", 1)
    assert text != BOOK
    (folder / "minimal.book.yaml").write_text(text, encoding="utf-8", newline="\n")
    design = folder / "boat-house.design.yaml"
    design.write_text(BOAT_HOUSE.read_text(encoding="utf-8"), encoding="utf-8", newline="\n")
    return design


def test_a_note_on_a_wider_bound_is_printed_where_the_bound_is_used(tmp_path: Path) -> None:
    design = noted(tmp_path)
    assert "after_first_branch: Order the long-line kit." in printed("check", design, "--books", tmp_path)
    assert "wider bound: Order the long-line kit." in printed("book", "show", tmp_path / "minimal.book.yaml")
    assert "long-line kit" not in printed("check", BOAT_HOUSE)


def test_a_plain_bound_that_is_passed_has_nothing_left(tmp_path: Path) -> None:
    tutorial.write(tmp_path, STAGES[3])
    said = printed("check", tmp_path / tutorial.DESIGN)
    assert "after_first_branch: over 40.0 m; the wider bound is unjudged without length of run J1" in said
    assert "-4.0 m left" not in said


def test_what_is_unknown_of_an_action_is_said_once(tmp_path: Path) -> None:
    tutorial.write(tmp_path, STAGES[3])
    said = printed("check", tmp_path / tutorial.DESIGN)
    assert said.count("action:long-main") == 1
    assert "; without whether" not in said
