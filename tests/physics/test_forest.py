"""Trees laid end to end: sums over them, that company changes nothing, and that no tree spoils another."""

from random import Random

import numpy as np
import pytest

from bench.forests import split_tree
from linewright.physics import fluids
from linewright.physics.compressor import Compressors, Control, CoolingAt, Rating, rating
from linewright.physics.cooling import Cooled, cool
from linewright.physics.heating import HeatingAt, heat
from linewright.physics.network import Forest, Tubes, forest_of, one_pipe
from linewright.physics.tables import tables

AT = CoolingAt()
BORES = (0.0079, 0.0139, 0.0202, 0.0266, 0.034, 0.0504)


def a_tree(units: int, seed: int) -> Tubes:
    """A tree that splits anywhere; wider where more hangs on it."""
    rng = Random(seed)  # noqa: S311 - random cases, no secrets
    shape, beyond = split_tree(units, lambda first, last: rng.randint(first + 1, last - 1))
    gas = np.array([BORES[min(5, 1 + int(np.log2(count)))] for count in beyond])
    count = len(beyond)
    length, rise = ([rng.uniform(*bounds) for _ in range(count)] for bounds in ((1, 12), (-2, 1)))
    return Tubes(shape, np.array(length), gas, gas, gas * 0.6, np.array(rise))


def by_hand(tubes: Tubes, run: int) -> list[int]:
    """Runs from the root to one, by climbing."""
    found = [run]
    while tubes.shape.parent[found[-1]] >= 0:
        found.append(int(tubes.shape.parent[found[-1]]))
    return found


def worked_out(trees: list[Tubes], name: str = "R-32", control: Control = Control.FLOATING) -> tuple[Forest, Cooled]:
    states, forest = tables(name), forest_of(trees)
    rated = np.full(len(forest.tree_of_unit), 2200.0)
    drawn = rating(states, forest.whole(rated), AT, bore_m=forest.tubes.gas_bore_m[forest.run_start])
    return forest, cool(states, forest, rated, AT, compressors=Compressors.of(drawn, [control] * len(trees)))


@pytest.mark.parametrize("seed", range(12))
def test_sums_along_and_beyond_are_those_of_climbing_the_tree(seed: int) -> None:
    trees = [a_tree(1 + (seed * 7 + i * 5) % 23, seed + i) for i in range(4)]
    forest = forest_of(trees)
    rng = np.random.default_rng(seed)
    of_run, of_unit = rng.uniform(1, 2, len(forest.tree_of_run)), rng.uniform(1, 2, len(forest.tree_of_unit))
    along, beyond, least = forest.along(of_run), forest.beyond(of_unit), forest.least_beyond(of_unit)
    for tree, runs, units in zip(trees, forest.run_start, forest.unit_start, strict=True):
        paths = [by_hand(tree, i) for i in range(len(tree.length_m))]
        for i, path in enumerate(paths):
            assert along[runs + i] == pytest.approx(sum(of_run[runs + j] for j in path), rel=1e-12)
            hung = [of_unit[units + k] for k, run in enumerate(tree.shape.unit_run) if i in paths[run]]
            assert beyond[runs + i] == pytest.approx(sum(hung), rel=1e-12)
            assert least[runs + i] == min(hung)


@pytest.mark.parametrize("control", Control)
@pytest.mark.parametrize("name", fluids())
def test_a_tree_in_company_is_the_tree_alone(name: str, control: Control) -> None:
    trees = [a_tree(units, seed) for seed, units in enumerate((1, 2, 7, 16, 33, 64))]
    forest, together = worked_out(trees, name, control)
    for i, tree in enumerate(trees):
        _, alone = worked_out([tree], name, control)
        mine = forest.tree_of_unit == i
        assert np.all(np.isfinite(alone.capacity_w))
        assert together.capacity_w[mine] == pytest.approx(alone.capacity_w, rel=1e-5)
        assert together.liquid.left_k[mine] == pytest.approx(alone.liquid.left_k, abs=1e-3)
        assert together.suction_degc[i] == pytest.approx(float(alone.suction_degc[0]), abs=1e-3)
    heated = heat(tables(name), forest, np.full(len(forest.tree_of_unit), 2200.0), HeatingAt())
    alone_h = heat(tables(name), forest_of([trees[3]]), np.full(16, 2200.0), HeatingAt())
    assert heated.left_k[3] == pytest.approx(float(alone_h.left_k[0]), abs=1e-3)


def test_a_tree_without_a_balance_leaves_the_others_alone() -> None:
    sound, narrow = a_tree(9, 1), a_tree(9, 2)
    narrow = narrow._replace(gas_bore_m=narrow.gas_bore_m * 0.2, hot_bore_m=narrow.hot_bore_m * 0.2)
    forest, found = worked_out([sound, narrow, sound])
    assert np.all(np.isnan(found.capacity_w[forest.tree_of_unit == 1]))
    assert np.all(np.isfinite(found.capacity_w[forest.tree_of_unit != 1]))
    heated = heat(tables("R-32"), forest, np.full(27, 2200.0), HeatingAt())
    assert [bool(np.isnan(one)) for one in heated.left_k] == [False, True, False]


@pytest.mark.parametrize("name", fluids())
def test_pipe_without_length_costs_nothing_under_any_control(name: str) -> None:
    states, pipe = tables(name), one_pipe(0.0, gas_bore_m=0.0266, liquid_bore_m=0.0139)
    one = rating(states, np.array([20e3]), AT, bore_m=np.array([0.0266]), length_m=0.0)
    three = Rating(np.repeat(one.volume_m3_s, 3), np.repeat(one.suction_pa, 3))
    found = cool(states, forest_of([pipe] * 3), np.full(3, 20e3), AT, compressors=Compressors.of(three, list(Control)))
    assert found.capacity_w / 20e3 == pytest.approx(np.ones(3), abs=1e-5)
    assert found.superheat_k == pytest.approx(np.full(3, AT.superheat_k), abs=0.01)
    warm = heat(states, forest_of([pipe]), np.array([20e3]), HeatingAt())
    assert float(warm.capacity_w[0]) == pytest.approx(20e3, rel=1e-6)
    assert float(warm.left_k[0]) == pytest.approx(HeatingAt().subcooling_k, abs=0.01)


@pytest.mark.parametrize("name", fluids())
def test_tables_are_within_their_stated_error_of_the_series(name: str) -> None:
    grid, series = tables(name), fluids()[name]
    rng = np.random.default_rng(3)
    ln_p = rng.uniform(series.ln_rho_gas.low, series.ln_rho_gas.high, 5000)
    p, above = np.exp(ln_p), rng.uniform(0.0, series.ln_rho_gas.most, 5000)
    enthalpy = series.dew_enthalpy(p) + above
    for one, other in zip(grid.gas_of_enthalpy(p, enthalpy), series.gas_of_enthalpy(p, enthalpy), strict=True):
        assert np.max(np.abs(one / other - 1)) < 5e-5
    assert np.max(np.abs(grid.dew_temperature(p) - series.dew_temperature(p))) < 1e-5
    for outside in (p[0] * 1e-3, p[0] * 1e3):
        assert all(np.isnan(one) for one in grid.gas_of_enthalpy(outside, enthalpy[0]))
        assert np.isnan(grid.dew_temperature(outside))
    assert all(np.isnan(one) for one in grid.gas_of_enthalpy(p[0], float(series.dew_enthalpy(p[0])) - 1e3))
