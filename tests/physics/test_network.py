"""What must hold in any tree: flow is kept at joints, loss grows with length and falls with bore, names say nothing."""

from random import Random

import numpy as np
import pytest

from linewright.physics import Fluid, fluid, fluids
from linewright.physics.compressor import CoolingAt
from linewright.physics.cooling import Cooled
from linewright.physics.heating import HeatingAt
from linewright.physics.network import Tubes, forest_of, shape_of
from linewright.physics.oil import OILS, USUAL, oil_margin
from tests.physics.singly import cool_one, heat_one, rated_at

AT = CoolingAt()


def shipped(name: str = "R-32") -> Fluid:
    found = fluid(name)
    assert found is not None
    return found


def a_tree(units: int, seed: int = 1, *, stretch: float = 1.0) -> tuple[Tubes, np.ndarray]:
    """A trunk with a joint for every unit but the last; rated capacities by unit."""
    rng = Random(seed)  # noqa: S311 - random cases, no secrets
    parent, unit_run, length, gas, liquid, rise = [-1], [], [20.0], [0.032], [0.017], [-3.0]
    at = 0
    for i in range(units):
        parent.append(at)
        unit_run.append(len(parent) - 1)
        length.append(rng.uniform(2, 10))
        gas.append(0.0139)
        liquid.append(0.0079)
        rise.append(rng.choice((0.0, -1.0, 1.0)))
        if i < units - 2:
            parent.append(at)
            at = len(parent) - 1
            length.append(rng.uniform(2, 6))
            gas.append(0.0266)
            liquid.append(0.0139)
            rise.append(0.0)
    tubes = Tubes(
        shape_of(parent, unit_run),
        np.array(length) * stretch,
        np.array(gas),
        np.array(gas),
        np.array(liquid),
        np.array(rise),
    )
    return tubes, np.array([rng.choice((2200.0, 3600.0)) for _ in range(units)])


def cooled(tubes: Tubes, rated: np.ndarray, *, name: str = "R-32") -> Cooled:
    used = shipped(name)
    return cool_one(used, tubes, rated, AT, rated_at(used, float(np.sum(rated)), AT, bore_m=0.0266))


@pytest.mark.parametrize("name", fluids())
@pytest.mark.parametrize("units", [2, 9, 16])
def test_flow_is_kept_at_every_joint_and_pressure_falls_with_the_flow(name: str, units: int) -> None:
    tubes, rated = a_tree(units)
    tubes = tubes._replace(rise_m=np.zeros(len(tubes.shape.parent)))
    found = cooled(tubes, rated, name=name)
    assert np.all(found.gas.far_pa > found.gas.near_pa)  # gas flows inward
    for i in range(len(tubes.shape.parent)):
        children = [j for j, before in enumerate(tubes.shape.parent) if before == i]
        if children:
            assert sum(found.gas.flow_kg_s[j] for j in children) == pytest.approx(found.gas.flow_kg_s[i], rel=1e-9)
    assert np.all(found.gas.loss_k > 0)
    assert np.all(np.isfinite(found.liquid.left_k))


def test_the_compressor_takes_what_the_coils_give() -> None:
    """Flow over density at the suction is the displacement."""
    tubes, rated = a_tree(12)
    used = shipped()
    compressor = rated_at(used, float(np.sum(rated)), AT, bore_m=0.0266)
    found = cool_one(used, tubes, rated, AT, compressor)
    p = found.suction_pa
    coil = found.gas.far_pa[tubes.shape.unit_run]
    h_gas = used.dew_enthalpy(coil) + used.above_dew(coil, np.full(len(coil), AT.superheat_k))
    flow = found.gas.flow_kg_s[tubes.shape.unit_run]
    mixed = np.sum(flow * h_gas) / np.sum(flow)
    density = float(used.gas_density(p, mixed - used.dew_enthalpy(p))[0])
    assert float(np.sum(flow)) / density == pytest.approx(compressor.volume_m3_s[0], rel=1e-5)
    assert found.capacity_w == pytest.approx(flow * (h_gas - used.liquid_enthalpy(41.0)), rel=1e-5)


def test_longer_pipe_gives_less_and_wider_pipe_more() -> None:
    tubes, rated = a_tree(10)
    plain = float(np.sum(cooled(tubes, rated).capacity_w))
    longer, _ = a_tree(10, stretch=2.0)
    wider = tubes._replace(gas_bore_m=tubes.gas_bore_m * 1.2)
    assert float(np.sum(cooled(longer, rated).capacity_w)) < plain < float(np.sum(cooled(wider, rated).capacity_w))


def test_the_order_of_siblings_says_nothing() -> None:
    """Two units on one joint, their runs written the other way round."""
    both = [
        Tubes(
            shape_of([-1, 0, 0], ends),
            np.array([30.0, *lengths]),
            np.array([0.0266, *bores]),
            np.array([0.0266, *bores]),
            np.array([0.0139, 0.0079, 0.0079]),
            np.zeros(3),
        )
        for ends, lengths, bores in (([1, 2], [5.0, 9.0], [0.0139, 0.0108]), ([2, 1], [9.0, 5.0], [0.0108, 0.0139]))
    ]
    found = [cooled(tubes, np.array([3600.0, 2200.0])) for tubes in both]
    assert found[0].capacity_w == pytest.approx(found[1].capacity_w, rel=1e-9)
    assert found[0].liquid.left_k == pytest.approx(found[1].liquid.left_k, rel=1e-9)


def test_liquid_that_rises_loses_its_subcooling() -> None:
    tubes, rated = a_tree(4)
    level = tubes._replace(rise_m=np.zeros(len(tubes.shape.parent)))
    raised = tubes._replace(rise_m=np.where(np.arange(len(tubes.shape.parent)) == 0, 20.0, 0.0))
    lost = cooled(level, rated).liquid.left_k - cooled(raised, rated).liquid.left_k
    assert np.all((lost > 2.0) & (lost < 4.0))  # 1.45 K per 10 m at 40 degC


def test_heating_keeps_flow_and_its_pressure_falls_outward() -> None:
    tubes, rated = a_tree(8)
    tubes = tubes._replace(rise_m=np.zeros(len(tubes.shape.parent)))
    found = heat_one(shipped(), tubes, rated, HeatingAt())
    flow = found.gas.flow_kg_s
    assert forest_of([tubes]).beyond(flow[tubes.shape.unit_run]) == pytest.approx(flow, rel=1e-9)
    assert np.all(found.gas.far_pa < found.gas.near_pa)


def test_liquid_that_returns_downhill_keeps_more() -> None:
    """Units 10 m above or below: the head of the liquid less that of the hot gas, over 60.4 kPa/K at 40 degC."""
    tubes, rated = a_tree(2)
    found = [
        heat_one(shipped(), tubes._replace(rise_m=np.array([rise, 0.0, 0.0])), rated, HeatingAt())
        for rise in (10.0, -10.0)
    ]
    head = 20 * 9.80665 * (893.0 - float(found[0].gas.density_kg_m3[0])) / 60.4e3
    assert found[0].left_k - found[1].left_k == pytest.approx(head, abs=0.1)


def test_where_pipes_meet_the_least_pressure_counts() -> None:
    """A narrow liquid pipe from one of two units takes from what is left; a wide one from it adds nothing."""
    tubes, rated = a_tree(2)
    tubes = tubes._replace(rise_m=np.zeros(3))
    plain = heat_one(shipped(), tubes, rated, HeatingAt()).left_k[0]

    def with_bore(bore_m: float) -> float:
        bores = tubes.liquid_bore_m.copy()
        bores[tubes.shape.unit_run[0]] = bore_m
        return float(heat_one(shipped(), tubes._replace(liquid_bore_m=bores), rated, HeatingAt()).left_k[0])

    assert with_bore(0.0025) < plain - 0.5
    assert with_bore(0.02) == pytest.approx(plain, abs=0.2)


def test_hot_gas_that_cannot_get_through_leaves_no_number() -> None:
    """Nor is it lost where pipes meet: what one unit lacks is not made up by the others."""
    tubes, rated = a_tree(4)
    bores = tubes.gas_bore_m.copy()
    bores[tubes.shape.unit_run[0]] = 0.002
    found = heat_one(shipped(), tubes._replace(hot_bore_m=bores), rated, HeatingAt())
    assert np.isnan(found.left_k)


def test_what_leaves_the_tables_is_no_number() -> None:
    """A pipe so narrow that the suction would be colder than the tables go: nothing is made up."""
    tubes, rated = a_tree(6)
    found = cooled(tubes._replace(gas_bore_m=tubes.gas_bore_m * 0.25), rated)
    assert np.all(np.isnan(found.capacity_w))
    assert np.isnan(found.suction_degc)


def test_oil_is_asked_only_where_gas_rises() -> None:
    tubes, rated = a_tree(6)
    found = cooled(tubes, rated)
    margin = oil_margin(found.gas, forest_of([tubes]), found.gas.flow_kg_s * 0.25, OILS[USUAL], hot=False)
    assert np.array_equal(np.isfinite(margin), tubes.rise_m < 0)


def test_a_designation_is_found_in_any_spelling() -> None:
    for spelling in ("R32", "r-32", "R 32", "r_32"):
        found = fluid(spelling)
        assert found is not None
        assert found.name == "R-32"
    assert fluid("R-999") is None
