"""What version 1 of the formats wrote is read for ever, and judged alike (a record of what was judged, no evidence)."""

import json
from collections import Counter
from pathlib import Path

import pytest

from linewright.app.project import open_project
from linewright.document.files import load_book
from tests.house.files import ROOT

KEPT = ROOT / "tests" / "fixtures" / "format-1"
DESIGNS, BOOKS = (sorted(KEPT.glob(f"*.{kind}.yaml")) for kind in ("design", "book"))
RECORD = json.loads((KEPT / "standings.json").read_text(encoding="utf-8"))


def standings(path: Path) -> dict[str, int]:
    evaluation = open_project(path, [KEPT]).evaluate()
    checks = [check for system in evaluation.systems for check in (*system.limits, *system.checks)]
    checks += [check for room in evaluation.rooms for check in room.checks]
    return dict(sorted(Counter(check.standing.value for check in checks).items()))


def test_nothing_that_was_kept_is_lost() -> None:
    assert (len(DESIGNS), len(BOOKS)) == (5, 5)
    assert set(RECORD) == {path.name for path in DESIGNS}


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.name)
def test_a_kept_book_is_read(path: Path) -> None:
    assert load_book(path).compiled.book.id in path.name


@pytest.mark.parametrize("path", DESIGNS, ids=lambda path: path.name)
def test_a_kept_design_is_judged_as_it_was(path: Path) -> None:
    assert standings(path) == RECORD[path.name]
