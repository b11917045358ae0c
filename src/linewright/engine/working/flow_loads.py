"""Working of the loads that flow is worked out for: ratings of the coils, no more than the group's."""

from __future__ import annotations

import numpy as np

from linewright.engine.working.flow_terms import D, Terms, given, step
from linewright.engine.working.steps import Input, Step


def load_of(t: Terms, mode: str, unit: str) -> Input:
    """Load of a unit."""
    loads = t.solved.rated_w if mode == "cooling" else t.solved.load_w
    return Input(f"load of {unit}", float(loads[t.unit(unit)]), D.POWER, t.at.subject(f"unit:{unit}.{mode}_load"))


def whole_load(t: Terms, mode: str) -> Input:
    """Load of all units."""
    loads = t.solved.rated_w if mode == "cooling" else t.solved.load_w
    return Input("load of all units", float(np.sum(loads)), D.POWER, t.at.subject(f"physics.{mode}_load"))


def unit_load_steps(t: Terms, mode: str, unit: str) -> tuple[Step, ...] | None:
    """Rating of a coil times the share that the group can give of all; none of a unit that only cools, in heating."""
    if unit not in _loaded(t, mode):
        return None
    share = _share(t, mode)[-1]
    part = given(share, t.at.subject(f"physics.{mode}_load"))
    return (step(f"load of {unit}, {mode}", "product", (_rating(t, mode, unit), part), D.POWER),)


def load_steps(t: Terms, mode: str) -> tuple[Step, ...]:
    """What the coils are rated at, what the group is, the share of it, and the load that is worked out."""
    found = _share(t, mode)
    loads = tuple(load_of(t, mode, unit) for unit in _loaded(t, mode))
    return (*found, step(f"load of all units, {mode}", "total", loads, D.POWER))


def _share(t: Terms, mode: str) -> tuple[Step, ...]:
    own = t.at.subject(f"physics.{mode}_load")
    ratings = tuple(_rating(t, mode, unit) for unit in _loaded(t, mode))
    whole = step("ratings of the coils", "total", ratings, D.POWER)
    most = _group(t, mode)
    share = step("share that the group can give", "load_share", (given(most, own), given(whole, own)), D.RATIO)
    return (whole, most, share)


def _loaded(t: Terms, mode: str) -> tuple[str, ...]:
    loads = t.solved.rated_w if mode == "cooling" else t.solved.load_w
    return tuple(unit.id for unit, load in zip(t.at.result.system.units, loads, strict=True) if load)


def _rating(t: Terms, mode: str, unit: str) -> Input:
    model = t.at.result.state.ground.models[t.unit(unit)]
    watts = model.cooling_w if mode == "cooling" else model.heating_w
    return Input(f"rating of {unit}", watts, D.POWER, f"{t.at.model_path(model.model)}.{mode}")


def _group(t: Terms, mode: str) -> Step:
    """Rated capacity of the group: stated, or that of its modules."""
    ground = t.at.result.state.ground
    stated = ground.group.cooling_w if mode == "cooling" else ground.group.heating_w
    if stated is not None:
        item = Input("rating of the group", stated, D.POWER, f"{t.at.group_path()}.{mode}")
        return step("rating of the group", "stated", (item,), D.POWER)
    models = list(ground.book.book.outdoor.modules)
    inputs = tuple(
        Input(
            f"rating of {module.data.model}",
            module.data.cooling_w if mode == "cooling" else module.data.heating_w,
            D.POWER,
            f"{t.at.in_book(f'outdoor.modules[{models.index(module.data)}]')}.{mode}",
        )
        for module in ground.modules
    )
    return step("rating of the group", "total", inputs, D.POWER)
