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
    assert len(found) == 2
    for text in found:
        exec(compile(text, "python.md", "exec"), names)  # noqa: S102 - our own page
    # The contract's minimal design: rooms are short, the total charge is 7.2 kg, worked by hand.
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "over"
    assert said[-1].startswith("total charge 7.2")


def test_every_public_name_is_told() -> None:
    said = {word.partition("(")[0] for word in ticked(PAGE)}
    assert set(vars(linewright)["__all__"]) - {"__version__"} <= said
