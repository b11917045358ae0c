"""The print works: standing where its comments say."""

from linewright.app.project import open_project
from linewright.engine.records import CheckKind, Standing
from tests.house.files import ROOT

FOUND = open_project(ROOT / "examples" / "print-works" / "print-works.design.yaml").evaluate()
(MAIN,) = FOUND.systems


def test_nothing_is_over_and_what_is_open_waits_to_be_confirmed() -> None:
    standings = {check.standing for check in (*MAIN.limits, *MAIN.checks)}
    assert standings == {Standing.WITHIN, Standing.TO_CONFIRM, Standing.NOT_APPLICABLE}
    assert FOUND.standing is Standing.UNJUDGED


def test_drawn_tube_keeps_its_rating_and_soft_coil_waits() -> None:
    assert MAIN.pipework is not None
    standings = {tube.temper: tube.check.standing for tube in MAIN.pipework.tubes}
    assert standings == {"annealed": Standing.TO_CONFIRM, "drawn": Standing.WITHIN}


def test_the_void_of_the_shop_is_drier_than_the_yard() -> None:
    assert MAIN.pipework is not None
    dry = {item.place: item.dry_m or 0.0 for item in MAIN.pipework.insulation if item.check.subject.count("gas_22.")}
    assert dry["indoors"] < dry["outdoors"]


def test_the_long_run_moves_most_and_waits_for_its_loop() -> None:
    check = next(one for one in MAIN.checks if one.measure == "movement")
    assert (check.standing, check.governs) == (Standing.TO_CONFIRM, ("J2",))
    assert {one.kind for one in MAIN.checks if one.measure == "movement"} == {CheckKind.PIPEWORK}
