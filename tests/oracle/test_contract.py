"""The naive evaluator reproduces the check that was worked by hand, so that it is worth comparing with."""

import json
from typing import Any

import pytest

from linewright.document.files import load_book, load_design
from tests.contract.program import DATA
from tests.oracle.naive import SystemAnswer, answer


@pytest.fixture(scope="module")
def wanted() -> dict[str, Any]:
    """The only system of the hand-worked check."""
    found: dict[str, Any] = json.loads((DATA / "minimal.check.json").read_text(encoding="utf-8"))["systems"][0]
    return found


@pytest.fixture(scope="module")
def naive() -> SystemAnswer:
    """The naive answer for the same design."""
    book = load_book(DATA / "minimal.book.yaml").compiled.book
    design = load_design(DATA / "minimal.design.yaml").design
    return answer(design, {book.id: book}).systems["main"]


def test_delivered_capacities(naive: SystemAnswer, wanted: dict[str, Any]) -> None:
    for unit in wanted["units"]:
        for mode in ("cooling", "heating"):
            delivered = naive.delivered(unit["id"], mode)
            assert delivered is not None
            assert float(delivered) == pytest.approx(unit[mode]["delivered_w"], rel=1e-6)


def test_limits(naive: SystemAnswer, wanted: dict[str, Any]) -> None:
    assert len(naive.verdicts) == len(wanted["limits"])
    for verdict, limit in zip(naive.verdicts, wanted["limits"], strict=True):
        assert str(verdict.standing) == limit["standing"]
