"""Working of refrigerant in a room: its sizes, the table values, the limits of the standard, what is left."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from linewright.engine import formulas_safety as known
from linewright.engine.formulas import FORMULAS
from linewright.engine.safety_records import SafetyResult, SpaceResult
from linewright.engine.spaces import lowest_unit
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.model.design import Room
from linewright.model.values import key_of
from linewright.standards.safety.case import Given
from linewright.standards.safety.profiles import STANDARDS
from linewright.units import Dimension

D = Dimension
HEAD = "refrigerant"


class Told(NamedTuple):
    """One room of a system whose working is told."""

    at: Places
    safety: SafetyResult
    space: SpaceResult

    @property
    def own(self) -> str:
        """Its subject."""
        return self.at.subject(f"{HEAD}:{self.space.room.id}")

    def path(self, room: Room, field: str) -> str:
        """Where a field of a room stands in the design."""
        found = self.at.room(room.id)
        return f"design:rooms[{found[0] if found else 0}].{key_of(field)}"


def room_safety_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """Everything behind the verdict on one room."""
    safety = at.result.safety
    space = None if safety is None else next((one for one in safety.spaces if one.room.id == name), None)
    if safety is None or space is None:
        return None
    told = Told(at, safety, space)
    made: dict[str, Step] = {}
    for term in space.verdict.terms:
        for item in term.inputs:
            if item.source != "own" and item.source not in made:
                made[item.source] = _step(told, item)
    steps = list(made.values())
    for term in space.verdict.terms:
        inputs = tuple(Input(item.name, item.value, item.dimension, told.own) for item in term.inputs)
        steps.append(Step(term.name, term.formula, inputs, term.dimension, term.value))
    return (*steps, _left(told))


def other_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """A verdict that is not about one room: what it holds and what it lacks."""
    safety = at.result.safety
    check = None if safety is None else next((c for c in safety.others if c.subject.endswith(f".{name}")), None)
    if check is None:
        return None
    note = "; ".join(filter(None, (str(check.standing), check.note, *(f"without {one}" for one in check.missing))))
    return (Step(name, "stated", (), check.dimension, None, note=note),)


def _left(told: Told) -> Step:
    """What is left to the bound, or why nobody can say."""
    check, space = told.space.check, told.space
    note = "; ".join(filter(None, (str(check.standing), check.note, *(f"without {one}" for one in check.missing))))
    charge, bound = space.verdict.charge_kg, space.verdict.bound_kg
    if charge is None or bound is None:
        return Step("left in the room", "stated", (), D.MASS, None, note=note)
    whole = charge == told.safety.charge_kg
    released = told.at.result.system.releasable
    valved = next((room.id for room in space.rooms if released.get(room.id) == charge), space.room.id)
    where = told.at.subject("charge") if whole else f"design:{told.at.system_path}.releasable.{valved}"
    inputs = (
        Input("allowed", bound, D.MASS, told.own),
        Input("charge" if whole else "charge that can be released", charge, D.MASS, where),
    )
    return Step("left in the room", "difference", inputs, D.MASS, bound - charge, note=note)


def _step(told: Told, item: Given) -> Step:
    kind, _, name = item.source.partition(":")
    return _datum(told, item, name) if kind == "data" else CASE.get(name, _summed)(told, item)


def _datum(told: Told, item: Given, quantity: str) -> Step:
    """A value of the standard's table, with its edition, source and confidence."""
    standard = STANDARDS[told.safety.profile]
    datum = getattr(standard.fluid(told.safety.refrigerant), quantity)
    note = f"{datum.edition}; {datum.source}; {datum.confidence}" + ("; tables differ" if datum.disputed else "")
    name = told.at.result.state.ground.book.book.refrigerant
    inputs = (Input("refrigerant", name, D.NUMBER, told.at.in_book("refrigerant")),)
    formula = known.table_formula(told.safety.profile, quantity)
    return Step(item.name, formula, inputs, D.DENSITY, item.value, note=note)


def _sides(told: Told, item: Given) -> Step:
    """Volume of the rooms that count, from area and height of each."""
    formula = "low_volume" if item.source.endswith("low_volume_m3") else "volume"
    inputs = tuple(
        Input(f"{word} of {room.id}", getattr(room, field) or 0.0, dimension, told.path(room, field))
        for room in told.space.rooms
        for word, field, dimension in (("area", "area_m2", D.AREA), ("height", "height_m", D.LENGTH))
    )
    return _applied(item, formula, inputs)


def _summed(told: Told, item: Given) -> Step:
    """A quantity of the rooms that count, summed."""
    field = item.source.partition(":")[2]
    stated = [room for room in told.space.rooms if getattr(room, field)]
    if field == "opening_m2":
        stated = [room for room in stated if room.opening_edge_m is not None]
    inputs = tuple(
        Input(f"{item.name} of {room.id}", getattr(room, field), item.dimension, told.path(room, field))
        for room in stated
    )
    return _applied(item, "total", inputs)


def _own_area(told: Told, item: Given) -> Step:
    room = told.space.room
    return _applied(item, "stated", (Input("area", item.value, D.AREA, told.path(room, "area_m2")),))


def _join(told: Told, item: Given) -> Step:
    design = told.at.evaluation.design
    position = next(i for i, space in enumerate(design.spaces) if space is told.space.joined)
    where = f"design:spaces[{position}].opening"
    return _applied(item, "stated", (Input("opening between the rooms", item.value, D.AREA, where),))


def _height(told: Told, item: Given) -> Step:
    """Height by the mounting of the unit that hangs lowest."""
    ground = told.at.result.state.ground
    unit = lowest_unit(ground, told.space.rooms)
    if unit is None or told.space.case.mounting is None:
        return _applied(item, "floor_height", ())
    where, word = f"{told.at.unit_path(unit.id)}.mounting", str(unit.mounting)
    if unit.mounting is None:
        model = next(one for one in ground.models if one.model == unit.model)
        where, word = f"{told.at.model_path(unit.model)}.kind", model.kind
    return _applied(item, "mounting_height", (Input(f"mounting of {unit.id}", word, D.NUMBER, where),))


def _occupancy(told: Told, item: Given) -> Step:
    word = str(told.space.case.occupancy)
    room = next((room for room in told.space.rooms if room.occupancy is told.space.case.occupancy), None)
    where = "design:refrigerant.occupancy" if room is None else told.path(room, "occupancy")
    return _applied(item, "institutional", (Input("occupancy", word, D.NUMBER, where),))


def _mass(told: Told, item: Given) -> Step:
    name = told.at.result.state.ground.book.book.refrigerant
    return _applied(item, "molar_mass", (Input("refrigerant", name, D.NUMBER, told.at.in_book("refrigerant")),))


def _applied(item: Given, formula: str, inputs: tuple[Input, ...]) -> Step:
    found = FORMULAS[formula].function(*(one.value for one in inputs))
    return Step(item.name, formula, inputs, item.dimension, found)


CASE: dict[str, Callable[[Told, Given], Step]] = {
    "volume_m3": _sides,
    "low_volume_m3": _sides,
    "own_area_m2": _own_area,
    "join_m2": _join,
    "mounting": _height,
    "occupancy": _occupancy,
    "molar_mass": _mass,
}
