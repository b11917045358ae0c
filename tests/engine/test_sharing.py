"""How the system's capacity is shared: at full demand, and with each unit taking no more than it needs.

Every figure is worked by hand in the text beside it. Sharing in proportion to ratings is a convention.
"""

from collections.abc import Sequence

import pytest

from linewright.engine import Evaluation, Standing
from linewright.engine.records import ModeFigures
from tests.engine.builders import (
    SITE,
    Doc,
    book,
    design,
    judge,
    module,
    room,
    room_checks,
    run,
    system,
    the_check,
    the_system,
    the_unit,
    unit,
)

KW = 1000.0


def served(
    indices: Sequence[int],
    needs: Sequence[str],
    *,
    capacity: str = "10 kW",
    block: Doc | None = None,
    tables: Doc | None = None,
) -> Evaluation:
    """Units on a header, each in a room of its own, on an outdoor unit of that capacity."""
    names = [f"U{i}" for i in range(1, len(indices) + 1)]
    runs = [run("outdoor", "H1", "10 m"), *(run("H1", name, f"{10 * i} m") for i, name in enumerate(names))]
    units = [unit(name, index, room=f"R{name}") for name, index in zip(names, indices, strict=True)]
    rooms = [room(f"R{name}", need, heating=need) for name, need in zip(names, needs, strict=True)]
    outdoor = module(10) | {"cooling": capacity, "heating": capacity}
    used = book({"outdoor.modules": [outdoor], **(tables or {})})
    used["outdoor"]["groups"] = [{"modules": ["outdoor 10"], "index": 10}]
    laid_out = system(runs, units, fittings=[{"id": "H1", "kind": "header"}], block=block)
    return judge(design([laid_out], rooms=rooms, site=SITE), used)


def delivered(found: Evaluation, mode: str = "cooling") -> list[float | None]:
    return [
        round(figure / KW, 9) if (figure := item.delivered_w) is not None else None for item in figures(found, mode)
    ]


def coincident(found: Evaluation, mode: str = "cooling") -> list[float | None]:
    return [
        round(figure / KW, 9) if (figure := item.coincident_w) is not None else None for item in figures(found, mode)
    ]


def figures(found: Evaluation, mode: str) -> list[ModeFigures]:
    return [getattr(item, mode) for item in the_system(found).units]


def test_at_full_demand_capacity_is_shared_in_proportion_to_ratings() -> None:
    """9 kW on ratings 2 + 4 + 6 = 12: 9 x 2/12 = 1.5, 9 x 4/12 = 3, 9 x 6/12 = 4.5."""
    found = served((2, 4, 6), ("1 kW", "3.2 kW", "6 kW"), capacity="9 kW")
    assert delivered(found) == [1.5, 3.0, 4.5]
    assert delivered(found, "heating") == [1.5, 3.0, 4.5]


def test_at_full_demand_no_unit_delivers_more_than_its_rating() -> None:
    """20 kW on ratings 2 + 4 + 6 = 12: each its own."""
    found = served((2, 4, 6), ("1 kW", "1 kW", "1 kW"), capacity="20 kW")
    assert delivered(found) == [2.0, 4.0, 6.0]


def test_a_coincident_load_that_the_system_carries_is_met_exactly() -> None:
    """Needs 1 + 3 + 4 = 8 of 10 kW."""
    found = served((4, 4, 4), ("1 kW", "3 kW", "4 kW"))
    assert coincident(found) == [1.0, 3.0, 4.0]
    assert delivered(found) == pytest.approx([10 / 3, 10 / 3, 10 / 3])


@pytest.mark.parametrize(
    ("indices", "needs", "capacity", "got"),
    [
        # 8 x 1/3 = 2.667 each; the first takes 1, and 7 left are 3.5 for each of two, who need 4.
        ((4, 4, 4), ("1 kW", "4 kW", "4 kW"), "8 kW", [1.0, 3.5, 3.5]),
        # 1.5, 3, 4.5; the first takes 1, 8 left on 4 + 6: 3.2 and 4.8; the second needs just 3.2.
        ((2, 4, 6), ("1 kW", "3.2 kW", "6 kW"), "9 kW", [1.0, 3.2, 4.8]),
        # As before, but the second takes 3.1 of its 3.2, so 4.9 are left for the third.
        ((2, 4, 6), ("1 kW", "3.1 kW", "6 kW"), "9 kW", [1.0, 3.1, 4.9]),
        # Nobody reaches a cap: in proportion to ratings, whatever the needs.
        ((2, 4, 6), ("2 kW", "4 kW", "6 kW"), "6 kW", [1.0, 2.0, 3.0]),
        # A unit is capped by its rating as well: needs 9 on a rating of 2.
        ((2, 4, 6), ("9 kW", "1 kW", "1 kW"), "9 kW", [2.0, 1.0, 1.0]),
        # Four rounds: 10 on 1 + 2 + 3 + 4: 1, 2, 3, 4. Caps .5, 2.05, 3.3, 4: the first frees .5; 9.5 on 9: 2.111,
        # 3.167, 4.222: second and fourth are capped (2.05, 4), 3.45 left, third capped at 3.
        ((1, 2, 3, 4), ("0.5 kW", "2 kW", "3.3 kW", "4 kW"), "10 kW", [0.5, 2.0, 3.0, 4.0]),
        # No need takes nothing.
        ((4, 4), ("0 kW", "4 kW"), "3 kW", [0.0, 3.0]),
    ],
)
def test_what_a_capped_unit_leaves_is_shared_again(
    indices: tuple[int, ...], needs: tuple[str, ...], capacity: str, got: list[float]
) -> None:
    found = served(indices, needs, capacity=capacity)
    assert coincident(found) == pytest.approx(got)
    assert coincident(found, "heating") == pytest.approx(got)


def test_a_block_load_below_the_sum_of_needs_scales_every_need() -> None:
    """Needs 2 + 4 + 6 = 12 kW, block 6 kW: each coincident need is half: 1, 2, 3, of 9 kW."""
    needs = ("2 kW", "4 kW", "6 kW")
    found = served((2, 4, 6), needs, capacity="9 kW", block={"cooling": "6 kW", "heating": "6 kW"})
    assert coincident(found) == pytest.approx([1.0, 2.0, 3.0])
    cooling = the_system(found).cooling
    assert cooling is not None
    assert (cooling.block_w, cooling.coincident_w) == pytest.approx((6 * KW, 6 * KW))


@pytest.mark.parametrize(
    ("block", "standing", "bound_kw"),
    [
        (None, Standing.OVER, 12.0),
        ({"cooling": "9 kW"}, Standing.WITHIN, 9.0),
        ({"cooling": "9.001 kW"}, Standing.OVER, 9.001),
        ({"heating": "6 kW"}, Standing.OVER, 12.0),  # says nothing of cooling
    ],
    ids=["sum of needs", "block as large as the capacity", "block just larger", "block of the other mode"],
)
def test_the_system_is_judged_on_its_block_load_and_rooms_at_full_demand(
    block: Doc | None, standing: Standing, bound_kw: float
) -> None:
    """9 kW for needs of 2 + 4 + 6 = 12 kW: at full demand every room is short, whatever the block."""
    found = served((2, 4, 6), ("2 kW", "4 kW", "6 kW"), capacity="9 kW", block=block)
    check = the_check(found, "capacity.cooling")
    assert check.standing is standing
    assert (check.value, check.bound) == pytest.approx((9 * KW, bound_kw * KW))
    assert {room_checks(found, f"RU{i}")["cooling"].standing for i in (1, 2, 3)} == {Standing.OVER}


def each(factors: tuple[float, float]) -> Doc:
    """A length table for each unit: the first stands at 10 m (header at 10 m), the second at 20 m."""
    near, far = factors
    table = {"basis": "each", "equivalent": ["10 m", "20 m"], "factor": [[near], [far]]}
    return {"capacity.cooling": {"length": table}, "capacity.heating": {}}


def test_with_a_factor_for_each_unit_full_demand_is_shared_before_it_is_applied() -> None:
    """9 kW on 5 + 5: 4.5 each, x 1.0 and x 0.8; the system has 9 x (1.0 x 5 + 0.8 x 5) / 10 = 8.1 kW."""
    found = served((5, 5), ("2 kW", "5 kW"), capacity="9 kW", tables=each((1.0, 0.8)))
    assert delivered(found) == pytest.approx([4.5, 3.6])
    cooling = the_system(found).cooling
    assert cooling is not None
    assert cooling.capacity_w == pytest.approx(8.1 * KW)


@pytest.mark.parametrize(
    ("needs", "got"),
    [
        # The first is capped at 2 / 1.0; 7 left for the second, who takes no more than 5 / 0.8 = 6.25: delivers 5.
        (("2 kW", "5 kW"), [2.0, 5.0]),
        # The first is capped at 3; 6 left, less than 6.25: delivers 6 x 0.8.
        (("3 kW", "5 kW"), [3.0, 4.8]),
        # The second is capped at 2 / 0.8 = 2.5; 6.5 left, the first takes its 5.
        (("9 kW", "2 kW"), [5.0, 2.0]),
    ],
)
def test_with_a_factor_for_each_unit_a_cap_is_divided_by_it(needs: tuple[str, str], got: list[float]) -> None:
    found = served((5, 5), needs, capacity="9 kW", tables=each((1.0, 0.8)))
    assert coincident(found) == pytest.approx(got)


def test_with_the_farthest_unit_deciding_everybody_shares_its_factor() -> None:
    """9 kW x 0.8 at 20 m = 7.2 on 5 + 5."""
    table = {"equivalent": ["10 m", "20 m"], "factor": [[1.0], [0.8]]}
    found = served((5, 5), ("1 kW", "1 kW"), capacity="9 kW", tables={"capacity.cooling": {"length": table}})
    assert delivered(found) == pytest.approx([3.6, 3.6])


def test_sensible_capacity_is_the_delivered_capacity_times_the_units_share() -> None:
    """Half of every rating is sensible: of 4.5 kW delivered 2.25 kW."""
    found = served((2, 4, 6), ("1 kW", "1 kW", "1 kW"), capacity="9 kW")
    assert the_unit(found, "U3").sensible.delivered_w == pytest.approx(2.25 * KW)
    assert the_unit(found, "U3").sensible.rating_w == pytest.approx(3 * KW)


def test_ratings_are_corrected_by_the_units_own_table_before_sharing() -> None:
    """At 19 C wet bulb total x 0.9 and sensible x 0.8: ratings 1.8, 3.6, 5.4; 20 kW are enough for all."""
    own = {"indoor_wb": ["18 C", "20 C"], "total": [0.8, 1.0], "sensible": [0.7, 0.9]}
    tables = {"capacity.cooling": {"unit_temperature": own}}
    found = served((2, 4, 6), ("1 kW", "1 kW", "1 kW"), capacity="20 kW", tables=tables)
    assert delivered(found) == pytest.approx([1.8, 3.6, 5.4])
    # Sensible: 5.4 x (3 x 0.8) / 5.4 = 2.4 kW.
    assert the_unit(found, "U3").sensible.delivered_w == pytest.approx(2.4 * KW)
    assert delivered(found, "heating") == [2.0, 4.0, 6.0]


def test_capacity_outside_a_table_is_unjudged_and_never_a_pass() -> None:
    """The nearest row of the table ends at 15 m; the farthest unit stands at 20 m."""
    table = {"equivalent": ["10 m", "15 m"], "factor": [[1.0], [0.9]]}
    found = served((5, 5), ("1 kW", "1 kW"), tables={"capacity.cooling": {"length": table}})
    assert delivered(found) == [None, None]
    assert coincident(found) == [None, None]
    assert the_check(found, "capacity.cooling").standing is Standing.UNJUDGED
    assert room_checks(found, "RU1")["cooling"].standing is Standing.UNJUDGED
    assert room_checks(found, "RU1")["heating"].standing is Standing.WITHIN
    assert found.standing is Standing.UNJUDGED
