"""The page on remedies: every move with its weight, every duty, and nothing that is none."""

from linewright.explore.remedies import BUDGET, Duty, MoveKind
from linewright.explore.remedies.moves.lengths import LEAST_SHARE, STEP_M
from linewright.explore.remedies.moves.trees import UNMEASURED
from linewright.explore.remedies.wanted import FEW_MOVES, LONGER, MOST_MOVES
from linewright.explore.remedies.weights import FURTHER, WEIGHTS
from tests.docs.pages import page

PAGE = page("remedies.md")
TABLES = [
    [[cell.strip() for cell in line.strip("|").split("|")] for line in part.splitlines() if line.startswith("| ")]
    for part in PAGE.split("\n\n")
    if part.startswith("| ")
]


def table(heading: str) -> list[list[str]]:
    return next(rows[1:] for rows in TABLES if rows[0][0] == heading)


def test_every_move_is_listed_with_its_weight() -> None:
    assert {row[0]: float(row[2]) for row in table("move")} == {kind.value: WEIGHTS[kind] for kind in MoveKind}
    assert set(WEIGHTS) == set(MoveKind)


def test_every_duty_is_explained() -> None:
    assert {row[0] for row in table("duty")} == {duty.value for duty in Duty}


def test_the_figures_of_the_search_are_those_of_the_program() -> None:
    assert BUDGET == 160
    assert f"{BUDGET} without it, and as long as nothing was found {BUDGET * LONGER}" in PAGE
    assert (FEW_MOVES, MOST_MOVES) == (4, 12)
    assert "four moves and one more for each further target, twelve at most" in " ".join(PAGE.split())
    assert f"in steps of {STEP_M:g} m; never below {LEAST_SHARE:g}" in PAGE
    assert UNMEASURED == 1.5
    assert "weighs 1.5 times as much" in " ".join(PAGE.split())
    assert FURTHER == 0.25
    assert "adds a quarter of its weight" in PAGE
