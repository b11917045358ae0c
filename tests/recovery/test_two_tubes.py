"""A family with two tubes up to the boxes: low is the gas side, high the liquid side. Worked by hand.

The system: 10 m of main to J1; B1 4 m on with A at 2 m behind it; B2 3 m on with B at 1 m behind it, A and B of 2.
"""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from linewright.document.files import book_from_text, design_from_text, link
from linewright.engine import Evaluation, Library, evaluate
from linewright.errors import InputFaultsError
from linewright.model.values import Role
from linewright.report.check_text import check_text
from linewright.units import UnitSystem
from tests.engine.builders import Doc, design, subjects, system, the_limit, the_run, the_system, tube_mm, unit
from tests.recovery.builders import box, run

TEXT = (Path(__file__).parents[1] / "fixtures" / "two-tube.book.yaml").read_text(encoding="utf-8")


def parted(*, bends: int = 0) -> Doc:
    runs = [run("outdoor", "J1", "10 m", bends=bends), run("J1", "B1", "4 m"), run("B1", "A", "2 m", bends=bends)]
    runs += [run("J1", "B2", "3 m"), run("B2", "B", "1 m")]
    return system(runs, [unit("A", 2), unit("B", 2)], fittings=[box("B1"), box("B2")]) | {"book": "two-tube"}


def judged(laid_out: Doc, changes: dict[str, Any] | None = None) -> Evaluation:
    used = {**yaml.safe_load(TEXT), **(changes or {})}
    compiled = {"two-tube": book_from_text(json.dumps(used, default=str), "two-tube.book.yaml").compiled}
    loaded = design_from_text(json.dumps(design([laid_out])), "test.design.yaml")
    link(loaded, compiled)
    return evaluate(loaded.design, Library.of(compiled))


def test_high_and_low_lead_to_the_boxes_and_gas_and_liquid_from_them() -> None:
    found = judged(parted())
    assert set(the_run(found, "J1").tubes) == {Role.HIGH, Role.LOW}
    assert set(the_run(found, "A").tubes) == {Role.GAS, Role.LIQUID}
    assert [tube_mm(found, "B1", role) for role in ("high", "low")] == [12.7, 15.88]
    assert subjects(found) == []


def test_each_side_decides_its_allowances() -> None:
    """Bends of the main: low 22.22 gives 5, high 19.05 gives 4. Behind the box: gas 12.7 gives 2, liquid 6.35 gives 1.

    A by the gas side 10 + 5 + 4 + 2 + 2 = 23, by the liquid side 10 + 4 + 4 + 2 + 1 = 21; the longer counts.
    """
    assert the_limit(judged(parted(bends=1)), "farthest_equivalent").value == pytest.approx(23)


def test_joints_are_chosen_by_the_low_tube_that_enters() -> None:
    """The first joint by the main's low of 22.22, beyond the small one's 19.05."""
    found = {fitting.id: fitting.model for fitting in the_system(judged(parted())).fittings}
    assert (found["J1"], found["B1"]) == ("large", "box 2")


def test_two_tubes_all_the_way_are_counted_twice() -> None:
    """Ten, four, two, three and one metre: 20 m of pipe with two tubes each."""
    assert the_limit(judged(parted()), "total_length").value == pytest.approx(40)


def test_the_charge_goes_by_both() -> None:
    """high 10 x 0.2 + 7 x 0.1 = 2.7; low 10 x 0.02 + 7 x 0.01 = 0.27; liquid 3 x 0.05 = 0.15."""
    assert the_system(judged(parted())).charge.sum_kg == pytest.approx(3.12)


def test_tubes_behind_a_box_are_capped_by_the_main_on_their_own_side() -> None:
    """Unit 5 has gas of 28.58 and liquid of 25.4; the main has low 22.22 and high 19.05."""
    laid_out = system([run("outdoor", "B1"), run("B1", "A")], [unit("A", 5)], fittings=[box("B1")])
    found = judged(laid_out | {"book": "two-tube"})
    assert [tube_mm(found, "A", role) for role in ("gas", "liquid")] == [22.22, 19.05]


def test_the_table_of_runs_says_which_tube_is_which_side() -> None:
    text = check_text(judged(parted()), system=UnitSystem.SI, colour=False, books={})
    assert "gas side: the low tube up to the mode boxes, the gas tube behind them" in text
    assert "liquid side: the high tube up to the mode boxes, the liquid tube behind them" in text


def test_no_unit_can_do_without_a_box() -> None:
    """It would want a liquid and a suction tube."""
    boxes = {"models": yaml.safe_load(TEXT)["boxes"]["models"], "direct": {}}
    with pytest.raises(InputFaultsError) as refused:
        judged(parted(), {"boxes": boxes})
    assert [fault.message for fault in refused.value.faults] == [
        "a unit without a box wants a liquid and a suction tube, and the main of this book has not both"
    ]


def test_a_unit_without_a_box_has_no_tubes_that_anybody_knows() -> None:
    runs = [run("outdoor", "J1"), run("J1", "X"), run("J1", "B1"), run("B1", "A")]
    laid_out = system(runs, [unit("X", 2), unit("A", 2)], fittings=[box("B1")]) | {"book": "two-tube"}
    found = judged(laid_out)
    assert the_run(found, "X").tubes == {}
    assert subjects(found) == ["unit:X"]
