"""Cutting tube: against every plan there is where there are few, against its own bound, against a worked example."""

from collections import Counter
from collections.abc import Iterator
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.takeoff.cutting import Plan, cut_plan
from linewright.takeoff.laying import lay

RUNS = st.lists(st.integers(1, 90).map(lambda tenths: tenths * 100), min_size=1, max_size=5)
MANY = st.lists(st.integers(300, 30_000), min_size=1, max_size=30)
STOCK = st.lists(st.sampled_from([3000, 4000, 5000, 6100, 15_240, 25_000]), min_size=1, max_size=3, unique=True)
COUPLING = st.sampled_from([0, 100, 1000, 5000])
COUPLINGS = st.sampled_from([500, 1000])


def parted(items: list[int]) -> Iterator[list[list[int]]]:
    """Every way to part items into groups."""
    if not items:
        yield []
        return
    first, rest = items[0], items[1:]
    for groups in parted(rest):
        yield [[first], *groups]
        for i, group in enumerate(groups):
            yield [*groups[:i], [first, *group], *groups[i + 1 :]]


def cheapest(total: int, stock: list[int], coupling: int) -> int:
    """Least cost of lengths that cover a total, by trying every mixture."""
    ranges = [range(-(-total // size) + 1) for size in stock]
    costs = [
        sum(size * count for size, count in zip(stock, counts, strict=True)) + coupling * (sum(counts) - 1)
        for counts in product(*ranges)
        if sum(size * count for size, count in zip(stock, counts, strict=True)) >= total
    ]
    return min(costs)


@settings(max_examples=60, deadline=None)
@given(RUNS, STOCK, COUPLING)
def test_a_small_plan_is_the_best_of_all_plans(runs: list[int], stock: list[int], coupling: int) -> None:
    best = min(sum(cheapest(sum(group), stock, coupling) for group in groups) for groups in parted(runs))
    found = cut_plan(runs, stock, coupling)
    assert (found.cost_mm, found.bound_mm) == (best, best)


def check_pieces(found: Plan, runs: list[int], coupling: int) -> None:
    """Every run is made whole, no length is longer than it is, and the plan costs what it says."""
    pieces = lay(found, runs, 300)
    served: Counter[int] = Counter()
    used: Counter[int] = Counter()
    for piece in pieces:
        assert piece.piece_mm > 0
        served[piece.run] += piece.piece_mm
        used[piece.length] += piece.piece_mm
    assert [served[i] for i in range(len(runs))] == runs
    lengths = [size for _, sizes in found.groups for size in sizes]
    assert all(used[i] <= size for i, size in enumerate(lengths))
    assert {(piece.length, piece.stock_mm) for piece in pieces} <= set(enumerate(lengths))
    assert sum(lengths) + coupling * (len(pieces) - len(runs)) <= found.cost_mm


@settings(max_examples=12, deadline=None)
@given(MANY, STOCK, COUPLINGS)
def test_any_plan_serves_every_run_and_keeps_to_its_bound(runs: list[int], stock: list[int], coupling: int) -> None:
    check_plan(runs, stock, coupling)


@pytest.mark.soak
@settings(max_examples=200, deadline=None)
@given(MANY, STOCK, COUPLINGS)
def test_many_plans_serve_every_run_and_keep_to_their_bounds(runs: list[int], stock: list[int], coupling: int) -> None:
    check_plan(runs, stock, coupling)


def check_plan(runs: list[int], stock: list[int], coupling: int) -> None:
    found = cut_plan(runs, stock, coupling)
    assert sum(runs) <= found.bound_mm <= found.cost_mm
    assert sorted(run for group, _ in found.groups for run in group) == list(range(len(runs)))
    check_pieces(found, runs, coupling)


#: Widths of a paper machine and how many of each (Wikipedia, "Cutting stock problem", from memory); 73 rolls of 5600
#: are the least. No roll is joined, so a coupling costs more than anything.
ROLLS = {1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20}
ROLLS |= {2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20}


def test_the_worked_example_of_the_paper_machine_takes_73_rolls() -> None:
    runs = [size for size, count in ROLLS.items() for _ in range(count)]
    found = cut_plan(runs, [5600], 5600 * 1000)
    assert sum(len(lengths) for _, lengths in found.groups) == 73
    assert found.bound_mm == found.cost_mm == 73 * 5600


def test_a_run_longer_than_any_length_is_joined() -> None:
    """12 m out of 5 m: three lengths, two couplings, 3 m over; by hand."""
    found = cut_plan([12_000], [5000], 1000)
    assert (found.groups, found.cost_mm) == ((((0,), (5000, 5000, 5000)),), 17_000)


def test_what_is_left_of_one_run_serves_the_next() -> None:
    """Two runs of 7.5 m out of 5 m: three lengths end to end and two couplings beat four lengths; by hand."""
    found = cut_plan([7500, 7500], [5000], 1000)
    assert found.cost_mm == 17_000
    check_pieces(found, [7500, 7500], 1000)


def test_a_coupling_that_costs_more_than_the_waste_is_not_made() -> None:
    """Two runs of 3 m and one of 2 m out of 4 m with couplings as 5 m: three lengths, none joined; by hand."""
    found = cut_plan([3000, 3000, 2000], [4000], 5000)
    assert found.cost_mm == 12_000


def test_a_short_piece_is_avoided_where_that_costs_nothing() -> None:
    """5.1 m out of 5 m would leave a piece of 0.1 m; there is 4.9 m over to move the coupling."""
    found = cut_plan([5100], [5000], 1000)
    assert min(piece.piece_mm for piece in lay(found, [5100], 300)) >= 300


def test_nothing_to_cut_is_no_plan() -> None:
    assert cut_plan([], [5000], 1000) == Plan((), 0, 0)


@pytest.mark.parametrize("order", [1, -1])
def test_the_order_of_the_stock_list_does_not_count(order: int) -> None:
    runs = [3100, 4700, 8800, 2500, 6100, 990]
    assert cut_plan(runs, [4000, 5000, 6000][::order], 1000) == cut_plan(runs, [5000, 4000, 6000], 1000)
