"""Rules that manuals of heat-recovery families commonly hold. Common practice, no source; figures worked by hand."""

import pytest

from linewright.engine import Standing
from linewright.engine.records import Check
from tests.engine.builders import Doc, system, the_limit, the_run, the_system, unit
from tests.recovery.builders import box, boxes, in_series, judged, notes_on, one_box, run


def limit_of(limit: Doc, laid_out: Doc, changes: Doc | None = None) -> Check:
    return the_limit(judged(laid_out, {"limits": [limit], **(changes or {})}), limit["measure"])


def rule_46() -> None:
    found = judged(one_box({"A": 2, "B": 2}))
    assert set(the_run(found, "B1").tubes) == {"suction", "high_low", "liquid"}
    assert set(the_run(found, "A").tubes) == {"gas", "liquid"}


def rule_47() -> None:
    """A port of box 4 carries 5, two of them joined 10."""
    limit = {"measure": "port_index", "max": "box"}
    single = limit_of(limit, one_box({"A": 6}, model="box 4"))
    joined = limit_of(limit, one_box({"A": 6}, model="box 4", ports={"A": [1, 2]}))
    assert (single.standing, single.bound) == (Standing.OVER, 5)
    assert (joined.standing, joined.bound) == (Standing.WITHIN, 10)
    units = limit_of({"measure": "units_per_port", "max": "box"}, one_box({"A": 2}, model="box 4"))
    assert (units.value, units.bound) == (1, 2)


def rule_48() -> None:
    """Box 4 carries on 8: 8 are within, 9 are not. Without leave no box stands behind another."""
    limit, series = {"measure": "through_index", "max": "box"}, boxes({"series": {"max": 2}})
    for last, standing in ((4, Standing.WITHIN), (5, Standing.OVER)):
        laid_out = in_series({"A": 1}, {"B": 4, "C": last}, models=("box 4", "box 8"))
        assert limit_of(limit, laid_out, series).standing is standing
    assert notes_on(judged(in_series({"A": 1}, {"B": 1})), "fitting:B2") != []


def rule_49() -> None:
    """2 m from the box to each unit; two boxes, 3 m apart in height."""
    assert limit_of({"measure": "box_to_unit", "max": "2 m"}, one_box({"A": 1})).standing is Standing.WITHIN
    runs = [
        run("outdoor", "J1"),
        run("J1", "B1", "4 m"),
        run("J1", "B2", "4 m"),
        run("B1", "A", "9 m"),
        run("B2", "B", "9 m"),
    ]
    fittings = [box("B1", elevation="0 m"), box("B2", elevation="3 m")]
    apart = system(runs, [unit("A", 2), unit("B", 2)], fittings=fittings)
    found = limit_of({"measure": "level_between_boxes", "max": "2.9 m"}, apart)
    assert (found.standing, found.value) == (Standing.OVER, 3)


def rule_50() -> None:
    runs = [run("outdoor", "J1"), run("J1", "X"), run("J1", "B1"), run("B1", "A")]
    laid_out = system(runs, [unit("X", 2), unit("A", 2)], fittings=[box("B1")])
    assert notes_on(judged(laid_out), "unit:X") != []
    assert notes_on(judged(laid_out, boxes({"direct": {}})), "unit:X") == []


def rule_51() -> None:
    """One box of one port at 0.2 kg."""
    found = the_system(judged(one_box({"A": 1}), {"charge": {"box": {"box 1": "0.2 kg"}}}))
    assert found.charge.sum_kg == pytest.approx(0.2)
