"""Working of capacity: the system's product of factors, a unit's share, a room's sum."""

from __future__ import annotations

from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.formulas import product
from linewright.engine.records import Check, Evaluation, ModeFigures, RoomResult
from linewright.engine.working.factors import factor_step, input_steps, power_steps
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.units import Dimension


def capacity_of(at: Places, mode: str) -> SystemCapacity | None:
    """The system's capacity in a mode; sensible goes with cooling."""
    return at.result.heating if mode == "heating" else at.result.cooling


def system_steps(at: Places, mode: str) -> tuple[Step, ...]:
    """Rated capacity through every factor, against the block load."""
    capacity = capacity_of(at, mode)
    if capacity is None:
        return (
            Step(
                f"system capacity, {mode}",
                "product",
                (),
                Dimension.POWER,
                None,
                note="the site or the book states nothing for this mode",
            ),
        )
    steps = [*power_steps(at, capacity, mode), *(factor_step(at, factor) for factor in capacity.factors)]
    if capacity.rated_w is not None and capacity.plant_w is not None:
        inputs = (
            _rated(at, capacity),
            *(
                Input(f.name, f.value or 0.0, Dimension.RATIO, at.subject(f"capacity.{mode}.{f.name}"))
                for f in capacity.factors
            ),
        )
        name = (
            f"system capacity, {mode}" if not capacity.unit_length_factors else f"system capacity before length, {mode}"
        )
        steps.append(Step(name, "product", inputs, Dimension.POWER, product(*(float(item.value) for item in inputs))))
        steps.extend(_mean(at, capacity, mode))
    else:
        steps.append(
            Step(
                f"system capacity, {mode}",
                "product",
                (),
                Dimension.POWER,
                None,
                note="; ".join(capacity.missing),
            )
        )
    if capacity.capacity_w is not None and capacity.block_w is not None:
        got = Input("system capacity", capacity.capacity_w, Dimension.POWER, at.subject(f"capacity.{mode}"))
        block = Input("block load", capacity.block_w, Dimension.POWER, _block_from(at, mode))
        spare = capacity.capacity_w - capacity.block_w
        steps.append(Step(f"spare on the block load, {mode}", "difference", (got, block), Dimension.POWER, spare))
    return tuple(steps)


def _rated(at: Places, capacity: SystemCapacity) -> Input:
    """Rated capacity of the group, or what the book's own table of capacities gives."""
    rated = capacity.rated_w or 0.0
    if capacity.power is None:
        return Input("rated capacity of the group", rated, Dimension.POWER, at.group_path())
    return Input("capacity by the table", rated, Dimension.POWER, at.in_book(f"capacity.{capacity.mode}.table"))


def factor_steps(at: Places, mode: str, name: str) -> tuple[Step, ...] | None:
    """One factor of the system's capacity, or the power that it takes up."""
    capacity = capacity_of(at, mode)
    if name == "input":
        return tuple(input_steps(at, capacity, mode)) or None if capacity is not None else None
    found = [factor for factor in (capacity.factors if capacity else ()) if factor.name == name]
    return (factor_step(at, found[0]),) if found else None


def unit_steps(at: Places, unit: str, mode: str) -> tuple[Step, ...]:
    """A unit's share of the system's capacity at full demand."""
    record, capacity = at.units[unit], capacity_of(at, mode)
    figures = {"cooling": record.cooling, "sensible": record.sensible, "heating": record.heating}[mode]
    if capacity is None or figures.delivered_w is None or capacity.plant_w is None or capacity.ratings_w is None:
        note = "; ".join(capacity.missing) if capacity else "the site or the book states nothing for this mode"
        return (Step(f"{mode} of {unit}", "share", (), Dimension.POWER, None, note=note),)
    if mode == "sensible":
        return (*unit_steps(at, unit, "cooling"), _sensible(at, unit, figures))
    steps = []
    plant = Input("system capacity", capacity.plant_w, Dimension.POWER, at.subject(f"capacity.{mode}"))
    own = capacity.unit_length_factors.get(unit)
    if own is not None and own.value is not None:
        steps.append(factor_step(at, own))
        part = Input(
            f"length factor of {unit}",
            own.value,
            Dimension.RATIO,
            at.subject(f"unit:{unit}.{mode}"),
        )
        plant_own = capacity.plant_w * own.value
        steps.append(Step(f"system capacity as {unit} sees it", "product", (plant, part), Dimension.POWER, plant_own))
        plant = Input(
            "system capacity as the unit sees it", plant_own, Dimension.POWER, at.subject(f"unit:{unit}.{mode}")
        )
    rating = Input(
        f"rating of {unit}", figures.rating_w or 0.0, Dimension.POWER, at.subject(f"unit:{unit}.{mode}_rating")
    )
    whole = Input("sum of ratings", capacity.ratings_w, Dimension.POWER, at.subject(f"capacity.{mode}.ratings"))
    steps.append(
        Step(
            f"{mode} of {unit}",
            "share",
            (plant, rating, whole),
            Dimension.POWER,
            figures.delivered_w,
            note="sharing by ratings is a convention, not physics",
        )
    )
    return (*steps, *_need(at, unit, mode, figures))


def room_steps(evaluation: Evaluation, room: RoomResult, check: Check) -> tuple[Step, ...]:
    """What the units of a room deliver, and what is spare."""
    units = {f"{system.id}/{unit.id}": unit for system in evaluation.systems for unit in system.units}
    figures = [(name, getattr(units[name], check.measure)) for name in room.units]
    position = next(i for i, item in enumerate(evaluation.design.rooms) if item.id == room.id)
    needed = check.bound
    if check.value is None or needed is None:
        return (
            Step(
                f"{check.measure} of room {room.id}",
                "total",
                (),
                Dimension.POWER,
                None,
                note="; ".join(check.missing),
            ),
        )
    inputs = tuple(
        Input(
            f"delivered by {name}",
            item.delivered_w or 0.0,
            Dimension.POWER,
            f"{name.replace('/', '/unit:', 1)}.{check.measure}",
        )
        for name, item in figures
    )
    got = Input("delivered", check.value, Dimension.POWER, check.subject)
    load = Input("load", needed, Dimension.POWER, f"design:rooms[{position}].{check.measure}")
    return (
        Step(f"{check.measure} of room {room.id}", "total", inputs, Dimension.POWER, check.value),
        Step(
            f"spare of room {room.id}",
            "difference",
            (got, load),
            Dimension.POWER,
            check.value - needed,
            note=check.standing.value,
        ),
    )


def _mean(at: Places, capacity: SystemCapacity, mode: str) -> list[Step]:
    if not capacity.unit_length_factors or capacity.plant_w is None or capacity.capacity_w is None:
        return []
    mean = capacity.capacity_w / capacity.plant_w if capacity.plant_w else 0.0
    inputs = (
        Input("before length", capacity.plant_w, Dimension.POWER, at.subject(f"capacity.{mode}")),
        Input("mean length factor by rating", mean, Dimension.RATIO, at.in_book(f"capacity.{mode}.length")),
    )
    return [Step(f"system capacity, {mode}", "product", inputs, Dimension.POWER, capacity.capacity_w)]


def _sensible(at: Places, unit: str, figures: ModeFigures) -> Step:
    record = at.units[unit]
    inputs = (
        Input(
            "delivered total",
            record.cooling.delivered_w or 0.0,
            Dimension.POWER,
            at.subject(f"unit:{unit}.cooling"),
        ),
        Input("rated sensible", figures.rating_w or 0.0, Dimension.POWER, at.subject(f"unit:{unit}.sensible_rating")),
        Input(
            "rated total", record.cooling.rating_w or 0.0, Dimension.POWER, at.subject(f"unit:{unit}.cooling_rating")
        ),
    )
    return Step(f"sensible of {unit}", "sensible_share", inputs, Dimension.POWER, figures.delivered_w)


def _need(at: Places, unit: str, mode: str, figures: ModeFigures) -> list[Step]:
    if figures.needed_w is None or figures.delivered_w is None:
        return []
    got = Input("delivered", figures.delivered_w, Dimension.POWER, at.subject(f"unit:{unit}.{mode}"))
    need = Input("its part of the room's load", figures.needed_w, Dimension.POWER, f"room:{at.units[unit].room}.{mode}")
    return [
        Step(
            f"spare of {unit}",
            "difference",
            (got, need),
            Dimension.POWER,
            figures.delivered_w - figures.needed_w,
        )
    ]


def _block_from(at: Places, mode: str) -> str:
    block = at.result.system.block
    stated = block is not None and (block.heating_w if mode == "heating" else block.cooling_w) is not None
    return f"design:{at.system_path}.block.{mode}" if stated else "design:rooms"
