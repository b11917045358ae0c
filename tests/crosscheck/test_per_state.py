"""The network on its tables against the same network on the reference library: figures, and time as a ratio."""

import time

import numpy as np
import pytest

from bench.forests import both_modes, tree_of_pipe, variants
from linewright.physics.tables import tables
from tools.properties.per_state import PerState

KNOWN = {"R-32": "R32", "R-410A": "R410A"}


@pytest.mark.parametrize("name", KNOWN)
def test_tables_give_what_the_library_gives(name: str) -> None:
    trees = [tree_of_pipe(16), *variants(tree_of_pipe(12), 3)]
    (cooled, heated), (exact, warm) = (both_modes(used, trees) for used in (tables(name), PerState(KNOWN[name])))
    assert cooled.capacity_w == pytest.approx(exact.capacity_w, rel=2e-4)
    assert cooled.suction_degc == pytest.approx(exact.suction_degc, abs=0.01)
    assert cooled.superheat_k == pytest.approx(exact.superheat_k, abs=0.05)
    assert cooled.liquid.left_k == pytest.approx(exact.liquid.left_k, abs=0.02)
    assert cooled.gas.loss_k == pytest.approx(exact.gas.loss_k, abs=0.005)
    assert heated.left_k == pytest.approx(warm.left_k, abs=0.02)
    assert heated.capacity_w == pytest.approx(warm.capacity_w, rel=5e-4)
    assert heated.gas.loss_k == pytest.approx(warm.gas.loss_k, abs=0.005)


def took(work: object, repeats: int) -> float:
    """The least of some times: what others do on the machine meanwhile only adds to them."""
    assert callable(work)
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def test_a_variant_in_a_batch_is_three_hundred_times_quicker_than_state_by_state() -> None:
    """Making the variants is counted. The ratio is the claim; no machine's seconds are."""
    tree, states = tree_of_pipe(64), tables("R-410A")
    both_modes(states, [tree])
    of_library = took(lambda: both_modes(PerState(KNOWN["R-410A"]), [tree]), 1)
    of_batch = took(lambda: both_modes(states, variants(tree, 64)), 5) / 64
    of_one = took(lambda: both_modes(states, [tree]), 15)
    assert of_library / of_batch > 300
    assert of_library / of_one > 20


def test_time_grows_no_faster_than_the_number_of_units() -> None:
    """As many units in all, in trees of 8 and of 512: the larger trees may take twice as long for a unit, not more."""
    states = tables("R-32")
    small, large = [tree_of_pipe(8)] * 128, [tree_of_pipe(512)] * 2
    both_modes(states, small)
    assert took(lambda: both_modes(states, large), 5) < 2.0 * took(lambda: both_modes(states, small), 5)


def test_every_third_variant_hangs_together_otherwise() -> None:
    tree = tree_of_pipe(64)
    made = variants(tree, 30)
    assert sum(not np.array_equal(one.shape.parent, tree.shape.parent) for one in made) == 10
