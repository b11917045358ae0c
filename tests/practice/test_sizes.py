"""Tube sizes and fittings as the trade chooses them. Common practice, no source."""

import pytest

from linewright.engine import Evaluation
from linewright.model.values import Role
from tests.engine.builders import (
    Doc,
    book,
    design,
    judge,
    run,
    system,
    the_run,
    the_system,
    tube_mm,
    unit,
    upto,
)


def branching(changes: Doc | None = None, *, indices: tuple[int, int, int] = (2, 2, 2)) -> Evaluation:
    """Outdoor unit, J1 with U1, J2 with U2 and U3."""
    runs = [
        run("outdoor", "J1", "10 m"),
        run("J1", "U1", "5 m"),
        run("J1", "J2", "5 m"),
        run("J2", "U2", "5 m"),
        run("J2", "U3", "5 m"),
    ]
    units = [unit(f"U{i}", index) for i, index in enumerate(indices, start=1)]
    return judge(design([system(runs, units)]), book(changes))


# Common practice, no source: a branch pipe that comes out larger than the main takes the main's size.
def test_a_branch_pipe_larger_than_the_main_becomes_the_mains_size() -> None:
    found = branching({"sizing.branch": {"rows": [upto(30, "25.4 mm", "12.7 mm")]}})
    assert (tube_mm(found, "J1"), tube_mm(found, "J1", "liquid")) == (22.22, 9.52)
    assert (tube_mm(found, "J2"), tube_mm(found, "J2", "liquid")) == (22.22, 9.52)
    # The table's own size stays on record.
    assert the_run(found, "J2").tubes[Role.GAS].table_m == pytest.approx(0.0254)


def test_each_line_is_held_to_its_own_main() -> None:
    """Gas 25.4 is larger than the main's 22.22; liquid 6.35 is smaller than the main's 9.52 and stays."""
    found = branching({"sizing.branch": {"rows": [upto(30, "25.4 mm", "6.35 mm")]}})
    assert (tube_mm(found, "J2"), tube_mm(found, "J2", "liquid")) == (22.22, 6.35)


def test_a_book_may_let_a_branch_be_larger_than_the_main() -> None:
    rows = {"rows": [upto(30, "25.4 mm", "12.7 mm")]}
    found = branching({"sizing.branch": rows, "sizing.cap": "none"})
    assert (tube_mm(found, "J2"), tube_mm(found, "J2", "liquid")) == (25.4, 12.7)


def test_a_units_own_run_larger_than_the_main_becomes_the_mains_size_too() -> None:
    found = branching({"sizing.main": {"rows": [upto(20, "9.52 mm", "6.35 mm")]}})
    assert tube_mm(found, "U2") == 9.52  # its port is 12.7


FIRST = {"rows": [{"upto": 10, "model": "first up to 10"}, {"upto": 30, "model": "first up to 30"}]}
JOINT = {"rows": [{"upto": 10, "model": "joint up to 10"}, {"upto": 30, "model": "joint up to 30"}]}


# Common practice, no source: main and first fitting follow the outdoor unit (10), even where the indoor units come
# to more (14 here).
def test_main_and_first_fitting_follow_the_outdoor_unit_where_the_indoor_total_asks_for_more() -> None:
    found = branching({"fittings.first": FIRST, "fittings.joint": JOINT}, indices=(2, 6, 6))
    assert the_system(found).indoor_index == 14
    assert (tube_mm(found, "J1"), tube_mm(found, "J1", "liquid")) == (22.22, 9.52)
    models = {fitting.id: fitting.model for fitting in the_system(found).fittings}
    # J2 is looked up by what hangs on it: 12.
    assert models == {"J1": "first up to 10", "J2": "joint up to 30"}


def test_main_and_first_fitting_follow_the_outdoor_unit_where_the_indoor_total_asks_for_less() -> None:
    rows = {"rows": [upto(6, "19.05 mm", "6.35 mm"), upto(10, "22.22 mm", "9.52 mm")]}
    first = {"rows": [{"upto": 6, "model": "first up to 6"}, {"upto": 10, "model": "first up to 10"}]}
    found = branching({"sizing.main": rows, "fittings.first": first}, indices=(2, 2, 2))
    assert the_system(found).indoor_index == 6
    assert tube_mm(found, "J1") == 22.22
    assert the_system(found).fittings[0].model == "first up to 10"


# Common practice, no source: a book may say otherwise for the main.
@pytest.mark.parametrize(
    ("by", "indices", "gas_mm"),
    [
        ("outdoor-index", (2, 6, 6), 22.22),
        ("indoor-index", (2, 6, 6), 28.58),  # 14
        ("smaller", (2, 6, 6), 22.22),  # of 10 and 14
        ("smaller", (2, 2, 2), 19.05),  # of 10 and 6
        ("indoor-index", (2, 2, 2), 19.05),
    ],
)
def test_a_book_says_what_its_main_is_looked_up_by(by: str, indices: tuple[int, int, int], gas_mm: float) -> None:
    rows = [upto(6, "19.05 mm", "6.35 mm"), upto(10, "22.22 mm", "9.52 mm"), upto(20, "28.58 mm", "12.7 mm")]
    found = branching({"sizing.main": {"by": by, "rows": rows}}, indices=indices)
    assert tube_mm(found, "J1") == gas_mm


def test_other_runs_follow_the_sum_of_indices_downstream_and_unit_runs_the_units_ports() -> None:
    found = branching(indices=(2, 2, 3))
    assert the_run(found, "J2").downstream_index == 5
    assert (tube_mm(found, "J2"), tube_mm(found, "J2", "liquid")) == (15.88, 6.35)  # row up to 5
    assert (tube_mm(found, "U1"), tube_mm(found, "U1", "liquid")) == (12.7, 6.35)  # ports of unit 2
    found = branching(indices=(2, 3, 3))
    assert (tube_mm(found, "J2"), tube_mm(found, "J2", "liquid")) == (19.05, 9.52)  # 6: row up to 30
