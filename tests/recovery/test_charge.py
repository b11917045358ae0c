"""The charge of a heat-recovery system: every tube by its role, boxes by model, worked by hand."""

import pytest

from linewright.engine import Evaluation
from linewright.report.check_text import check_text
from linewright.units import UnitSystem
from tests.engine.builders import Doc, system, the_system, unit
from tests.recovery.builders import box, boxes, in_series, judged, one_box, run


def terms(found: Evaluation) -> dict[str, float | None]:
    return {term.name: term.kg for term in the_system(found).charge.terms}


def missing(found: Evaluation) -> tuple[str, ...]:
    return the_system(found).charge.missing


RATES: Doc = {
    "liquid": {"9.52 mm": "0.1 kg/m", "6.35 mm": "0.05 kg/m"},
    "gas": {"12.7 mm": "0.01 kg/m"},
    "suction": {"22.22 mm": "0.02 kg/m", "12.7 mm": "0.01 kg/m"},
    "high_low": {"19.05 mm": "0.04 kg/m"},
}


def test_each_tube_is_charged_where_it_is() -> None:
    """Main 10 m: liquid 1.0, suction 0.2, high_low 0.4; two runs of 2 m behind the box: liquid 0.2, gas 0.04."""
    found = judged(one_box({"A": 2, "B": 2}), {"charge": RATES})
    assert terms(found) == pytest.approx(
        {
            "liquid 6.35 mm": 0.2,
            "liquid 9.52 mm": 1.0,
            "gas 12.7 mm": 0.04,
            "suction 22.22 mm": 0.2,
            "high/low 19.05 mm": 0.4,
        }
    )
    assert the_system(found).charge.sum_kg == pytest.approx(1.84)


def test_a_unit_without_a_box_has_suction_and_no_gas() -> None:
    """J1 10 m of main; X 3 m of suction 12.7 (0.03) and liquid 6.35; B1 1 m and A 1 m."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "X", "3 m"), run("J1", "B1"), run("B1", "A")]
    laid_out = system(runs, [unit("X", 2), unit("A", 2)], fittings=[box("B1")])
    rates = RATES | {"suction": RATES["suction"] | {"15.88 mm": "0 kg/m"}}
    rates |= {"high_low": RATES["high_low"] | {"12.7 mm": "0 kg/m"}}
    found = terms(judged(laid_out, {"charge": rates}))
    assert found["suction 12.7 mm"] == pytest.approx(0.03)
    assert found["gas 12.7 mm"] == pytest.approx(0.01)


def test_module_pipes_are_charged_by_the_tubes_of_the_main() -> None:
    """Two module pipes of 1 and 2 m with the modules' ports: suction 22.22 adds 0.06, the main of 28.58 has no rate."""
    pipes = [{"from": "outdoor", "to": "M1", "length": "1 m"}, {"from": "outdoor", "to": "M2", "length": "2 m"}]
    laid_out = one_box({"A": 5})
    laid_out["outdoor"] = {"modules": ["outdoor 10", "outdoor 10"], "pipes": pipes, "elevation": "0 m"}
    rates: Doc = {"suction": {"22.22 mm": "0.02 kg/m", "28.58 mm": "0 kg/m"}}
    assert terms(judged(laid_out, {"charge": rates}))["suction 22.22 mm"] == pytest.approx(0.06)


def test_boxes_are_charged_by_model() -> None:
    """B1 is a box 4 (0.5 kg), B2 a box 1 (0.2 kg)."""
    laid_out = in_series({"A": 1, "B": 1}, {"C": 2})
    charge = {"box": {"box 1": "0.2 kg", "box 4": "0.5 kg"}}
    found = judged(laid_out, boxes({"series": {"max": 2}}) | {"charge": charge})
    assert terms(found) == {"box": pytest.approx(0.7)}


def test_a_box_that_is_not_listed_leaves_the_charge_unknown() -> None:
    found = judged(one_box({"A": 1, "B": 1}), {"charge": {"box": {"box 1": "0.2 kg"}}})
    assert missing(found) == ("charge of B1",)


def test_a_box_without_a_model_leaves_the_charge_unknown() -> None:
    found = judged(one_box({f"U{i}": 1 for i in range(9)}), {"charge": {"box": {"box 1": "0.2 kg"}}})
    assert missing(found) == ("charge of B1",)


def test_every_box_alike() -> None:
    found = judged(in_series({"A": 1}, {"B": 1}), boxes({"series": {"max": 2}}) | {"charge": {"box_each": "0.3 kg"}})
    assert terms(found) == {"box_each": pytest.approx(0.6)}


def test_a_term_of_its_own_shape_counts_boxes_by_the_index_on_their_ports() -> None:
    """3 on B1 and 4 on B2: 0.1 kg up to 3, 0.4 kg up to 9."""
    rows = [{"upto": 3, "add": "0.1 kg"}, {"upto": 9, "add": "0.4 kg"}]
    charge = {"terms": [{"name": "boxes", "per": "box", "rows": rows}]}
    found = judged(in_series({"A": 3}, {"B": 4}), boxes({"series": {"max": 2}}) | {"charge": charge})
    assert terms(found) == {"boxes": pytest.approx(0.5)}


def test_a_term_of_its_own_shape_counts_boxes_by_model() -> None:
    charge = {"terms": [{"name": "boxes", "per": "box", "each": {"box 1": "0.2 kg", "box 4": "0.5 kg"}}]}
    found = judged(one_box({"A": 1, "B": 1}), {"charge": charge})
    assert terms(found) == {"boxes": pytest.approx(0.5)}


def test_a_tube_that_is_not_listed_leaves_the_charge_unknown() -> None:
    found = judged(one_box({"A": 2}), {"charge": {"high_low": {"15.88 mm": "0.1 kg/m"}}})
    assert missing(found) == ("kg/m of high/low 19.05 mm",)


def test_the_terms_are_printed_by_role() -> None:
    text = check_text(judged(one_box({"A": 2}), {"charge": RATES}), system=UnitSystem.SI, colour=False, books={})
    assert "0.40 (high/low 19.05 mm)" in " ".join(text.split())
