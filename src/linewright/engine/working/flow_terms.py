"""What the steps of flow are made of: inputs by name, and steps whose result is the formula itself."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.book.walls import wall_of
from linewright.engine import formulas_flow as known
from linewright.engine.formulas import FORMULAS
from linewright.engine.hydraulics_inputs import carriers
from linewright.engine.hydraulics_records import Conditions, Solved
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.model.tree import NO_PARENT
from linewright.model.values import Role
from linewright.physics.series import Array
from linewright.units import Dimension

D = Dimension
#: What is assumed where nobody states it, each a formula without inputs that says where it is from.
ASSUMED = {
    one.__name__: dimension
    for one, dimension in (
        (known.evaporating, D.TEMPERATURE),
        (known.superheat, D.TEMPERATURE_DIFFERENCE),
        (known.condensing, D.TEMPERATURE),
        (known.leaving_subcooling, D.TEMPERATURE_DIFFERENCE),
        (known.cooling_air, D.TEMPERATURE),
        (known.rated_length, D.LENGTH),
        (known.heating_condensing, D.TEMPERATURE),
        (known.discharge, D.TEMPERATURE),
        (known.coil_subcooling, D.TEMPERATURE_DIFFERENCE),
        (known.heating_air, D.TEMPERATURE),
        (known.roughness, D.LENGTH),
    )
}


class Terms(NamedTuple):
    """One system whose flow is worked out, and what inputs are made of."""

    at: Places
    solved: Solved
    conditions: Conditions

    @property
    def refrigerant(self) -> Input:
        """The refrigerant by the name that the book gives it."""
        return Input("refrigerant", self.solved.refrigerant, D.NUMBER, self.at.in_book("refrigerant"))

    def assumed(self, name: str) -> Input:
        """Something that nobody states."""
        value = FORMULAS[name].function()
        return Input(words(name), value, ASSUMED[name], self.at.subject(f"assumption:{name}"))

    @property
    def subcooling(self) -> Input:
        """Subcooling of the liquid that leaves the group: the book's, else the usual one."""
        if not self.conditions.subcooling_stated:
            return self.assumed("leaving_subcooling")
        place = self.at.in_book("operation.leaving_subcooling")
        return Input("leaving subcooling", self.conditions.cooling.subcooling_k, D.TEMPERATURE_DIFFERENCE, place)

    def run(self, name: str) -> int:
        """Position of a run."""
        return self.at.result.tree.at[name]

    def before(self, name: str) -> str | None:
        """The run before a run."""
        before = self.at.result.tree.parent[self.run(name)]
        return None if before == NO_PARENT else self.at.result.tree.ids[before]

    def after(self, name: str, flow: Array) -> tuple[str, ...]:
        """The runs that leave the far end of a run and in which something flows."""
        tree = self.at.result.tree
        return tuple(tree.ids[i] for i in tree.children[self.run(name)] if flow[i])

    def unit(self, name: str) -> int:
        """Position of a unit."""
        return next(i for i, unit in enumerate(self.at.result.system.units) if unit.id == name)

    def units_beyond(self, run: str, loads: Array) -> tuple[str, ...]:
        """The units beyond a run that have a load."""
        tree, at = self.at.result.tree, self.run(run)
        pairs = zip(self.at.result.system.units, tree.unit_runs, loads, strict=True)
        return tuple(unit.id for unit, own, load in pairs if load and at in tree.path_to(own))

    def root(self) -> str:
        """The first run."""
        return self.at.result.tree.ids[0]

    def of_run(self, what: str, run: str, field: str, values: Array, dimension: Dimension) -> Input:  # noqa: PLR0917
        """What the subject of a run gives."""
        value = float(values[self.run(run)])
        return Input(f"{what} of {run}", value, dimension, self.at.subject(f"run:{run}.{field}"))

    def length(self, run: str) -> Input:
        """Equivalent length of a run."""
        value = float(self.solved.forest.tubes.length_m[self.run(run)])
        return Input(f"equivalent length of {run}", value, D.LENGTH, self.at.subject(f"run:{run}.equivalent"))

    def rise(self, run: str) -> tuple[Input, ...]:
        """Rise of a run outward; nothing where nobody knows it."""
        rise = self.at.runs[run].rise_m
        return () if rise is None else (Input(f"rise of {run}", rise, D.LENGTH, self.at.subject(f"run:{run}.rise")),)

    def role(self, run: str, which: int) -> Role:
        """Which tube of a run carries cold gas (0), hot gas (1), liquid (2)."""
        return carriers(tuple(self.at.runs[run].tubes))[which]

    def bore(self, run: str, which: int) -> Input:
        """Bore of that tube."""
        tubes, role = self.solved.forest.tubes, self.role(run, which)
        bores = (tubes.gas_bore_m, tubes.hot_bore_m, tubes.liquid_bore_m)[which]
        value, place = float(bores[self.run(run)]), self.at.subject(f"run:{run}.{role}_bore")
        return Input(f"bore of {run}, {role.word}", value, D.TUBE, place)


def words(name: str) -> str:
    """The name of an assumption in words."""
    return name.replace("_", " ")


def step(name: str, formula: str, inputs: tuple[Input, ...], dimension: Dimension, *, note: str = "") -> Step:
    """A step whose result is what its formula gives; none where that is no number."""
    found = FORMULAS[formula].function(*(item.value for item in inputs))
    return Step(name, formula, inputs, dimension, found if np.isfinite(found) else None, note=note)


def given(found: Step, subject: str) -> Input:
    """The result of a step as an input of the next."""
    return Input(found.name, found.result if found.result is not None else float("nan"), found.dimension, subject)


def assumption_steps(name: str) -> tuple[Step, ...] | None:
    """What is assumed, and by whose word."""
    if name not in ASSUMED:
        return None
    return (step(words(name), name, (), ASSUMED[name]),)


def bore_steps(at: Places, run: str, role: Role) -> tuple[Step, ...]:
    """Bore of a tube from its outside diameter and the wall that the book states."""
    tube = at.runs[run].tubes[role]
    wall = None if tube.od_m is None else wall_of(at.result.state.ground.book.book, tube.od_m)
    name = f"bore of {run}, {role.word}"
    if tube.od_m is None or wall is None:
        return (Step(name, "bore", (), D.TUBE, None, note="the book states no wall, or no size is known"),)
    size = Input("outside diameter", tube.od_m, D.TUBE, at.subject(f"run:{run}.{role}_od"))
    return (step(name, "bore", (size, Input("wall", wall, D.TUBE, at.in_book("tubes.wall"))), D.TUBE),)
