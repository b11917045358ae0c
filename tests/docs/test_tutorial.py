"""The tutorial can be followed: its file loads, its commands end as it says and print what it shows."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.cli.main import cli
from linewright.document.files import design_from_text
from tests.docs import tutorial
from tests.docs.pages import blocks, page

STEPS = tutorial.steps()


def test_the_tutorial_has_what_it_promises() -> None:
    assert [step.arguments[0] for step in STEPS] == ["book", "check", "why", "check", "why", "draw", "check", "check"]
    assert [step.code for step in STEPS if step.arguments[0] == "check"] == [1, 0, 3, 0]
    quoted = [block for block in blocks(page("tutorial.md")) if block.kind == "text"]
    assert len([step for step in STEPS if step.shown]) == len(quoted) >= 5


@pytest.mark.parametrize("step", STEPS, ids=[f"{i} {step.arguments[0]}" for i, step in enumerate(STEPS)])
def test_a_command_ends_and_prints_as_shown(
    step: tutorial.Step, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    tutorial.write(tmp_path, step.design)
    done = CliRunner().invoke(cli, step.arguments)
    assert done.exit_code == step.code, done.output
    assert tutorial.first_not_shown(step.shown, done.output) is None
    if "-o" in step.arguments:
        assert (tmp_path / step.arguments[-1]).read_text(encoding="utf-8").startswith("<svg")


def test_every_stage_of_the_file_is_sound() -> None:
    stages = dict.fromkeys(step.design for step in STEPS if "runs:" in step.design)
    assert len(stages) == 4
    for text in stages:
        assert len(design_from_text(text, tutorial.DESIGN).design.systems[0].runs) == 11


def test_a_wrong_quotation_is_found() -> None:
    output = "one 1.0\ntwo 2.0\nthree 3.0\n"
    assert tutorial.first_not_shown("one 1.0\n…\nthree 3.0\n", output) is None
    assert tutorial.first_not_shown("one …\ntwo 2.0\n", output) is None
    assert tutorial.first_not_shown("three 3.0\n…\none 1.0\n", output) == "one 1.0\n"
    assert tutorial.first_not_shown("two 2.1\n", output) == "two 2.1\n"
    assert tutorial.first_not_shown("one 1\n", output) == "one 1\n"
