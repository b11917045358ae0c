"""A naive evaluator, written from the definitions alone, to compare the engine with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Context, Decimal, localcontext
from typing import NamedTuple

from linewright.book.schema import Book, FittingBy, FittingRow
from linewright.model.design import Design, Room, System
from linewright.model.values import NodeKind, Role
from tests.oracle.naive_actions import choose
from tests.oracle.naive_capacity import Mode, modes_of
from tests.oracle.naive_charge import Charge, charge_of
from tests.oracle.naive_lengths import equivalent, lines_judged
from tests.oracle.naive_limits import Verdict
from tests.oracle.naive_numbers import ONE, PRECISION, ZERO, Known, exact, larger_tube, over, within_upper
from tests.oracle.naive_sizes import Sizes
from tests.oracle.naive_tree import Facts, facts_of

MODES = ("cooling", "sensible", "heating")


@dataclass
class SystemAnswer:
    """What the naive evaluator makes of one system."""

    facts: Facts
    chosen: tuple[str, ...]
    sizes: Sizes
    verdicts: list[Verdict]
    charge: Charge
    modes: dict[str, Mode]
    equivalents: dict[str, Known]
    fittings: dict[str, str]
    needs: dict[tuple[str, str], Decimal | None] = field(default_factory=dict)
    block: dict[str, Decimal | None] = field(default_factory=dict)
    coincident: dict[tuple[str, str], Decimal | None] = field(default_factory=dict)

    def delivered(self, unit: str, mode: str) -> Decimal | None:
        found = self.modes.get("heating" if mode == "heating" else "cooling")
        if found is None:
            return None
        return (found.sensible if mode == "sensible" else found.delivered)[unit]


class RoomAnswer(NamedTuple):
    """What a room gets at full demand [W] and whether that is enough."""

    standing: str
    delivered: Decimal | None


@dataclass
class Answer:
    """Systems by id, and what each room gets of what it needs [W]."""

    systems: dict[str, SystemAnswer]
    rooms: dict[tuple[str, str], RoomAnswer]


def answer(design: Design, books: Mapping[str, Book]) -> Answer:
    with localcontext(Context(prec=PRECISION)):
        systems = {system.id: _system(design, system, books[system.book]) for system in design.systems}
        for mode in MODES:
            needs = needs_of(design, list(systems.values()), mode)
            for one in systems.values():
                one.needs |= {(unit, mode): needs.get((one.facts.system.id, unit)) for unit in one.facts.unit}
                if mode in one.modes:
                    _coincide(one, mode, needs=needs)
        return Answer(systems, _rooms(design, list(systems.values())))


def _system(design: Design, system: System, book: Book) -> SystemAnswer:
    facts = facts_of(design, system, book)
    chosen, sizes, verdicts = choose(facts)
    return SystemAnswer(
        facts=facts,
        chosen=chosen,
        sizes=sizes,
        verdicts=verdicts,
        charge=charge_of(facts, sizes),
        modes=modes_of(facts, sizes),
        equivalents={run: _equivalent(facts, sizes, run) for run in facts.run},
        fittings={branch: fitting_model(facts, sizes, branch) for branch in facts.branches()},
    )


def _equivalent(facts: Facts, sizes: Sizes, run: str) -> Known:
    lines = [equivalent(facts, sizes, run, line=line) for line in lines_judged(facts)]
    return Known(max(line.value for line in lines), all(line.whole for line in lines))


def fitting_model(facts: Facts, sizes: Sizes, branch: str) -> str:
    """The fitting's model; empty where no row serves."""
    tables = facts.book.fittings
    first = branch == facts.first_branch()
    index = exact(facts.group.index) if first else facts.index(branch)
    if facts.kind[branch] is NodeKind.HEADER:
        return _header_model(facts, branch, index)
    if len(facts.arms[branch]) > 2:
        return ""
    table = tables.first if first else tables.joint
    by_index = _row_by_index(table.rows, index)
    by_tube = _row_by_tube(table.rows, sizes.od(branch, Role.GAS))
    if table.by is FittingBy.INDEX:
        position = by_index
    elif table.by is FittingBy.TUBE:
        position = by_tube
    else:
        position = None if by_index is None or by_tube is None else max(by_index, by_tube)
    return "" if position is None else table.rows[position].model


def _row_by_index(rows: Sequence[FittingRow], index: Decimal) -> int | None:
    return next((i for i, row in enumerate(rows) if within_upper(row, index)), None)


def _row_by_tube(rows: Sequence[FittingRow], od: Decimal | None) -> int | None:
    if od is None:
        return None
    return next((i for i, r in enumerate(rows) if r.gas is not None and not larger_tube(od, exact(r.gas))), None)


def _header_model(facts: Facts, branch: str, index: Decimal) -> str:
    table = facts.book.fittings.header
    rows = () if table is None else table.rows
    fits = [row for row in rows if within_upper(row, index) and row.ports >= len(facts.arms[branch])]
    return min(fits, key=lambda row: row.ports).model if fits else ""


def _load(room: Room, mode: str) -> Decimal | None:
    load = {"cooling": room.cooling_w, "sensible": room.sensible_w, "heating": room.heating_w}[mode]
    return None if load is None else exact(load)


def needs_of(design: Design, systems: list[SystemAnswer], mode: str) -> dict[tuple[str, str], Decimal | None]:
    """By system and unit: the room's load in proportion to the ratings of the units in it."""
    needs: dict[tuple[str, str], Decimal | None] = {}
    for room in design.rooms:
        units = _units_in(room.id, systems)
        ratings = {(one.facts.system.id, unit): _rating(one, unit, mode) for one, unit in units}
        known = [rating for rating in ratings.values() if rating is not None]
        load = _load(room, mode)
        if len(ratings) == 1:
            needs.update(dict.fromkeys(ratings, load))
            continue
        for key, rating in ratings.items():
            whole = len(known) == len(ratings) and load is not None and rating is not None
            needs[key] = load * rating / sum(known, ZERO) if whole else None  # type: ignore[operator]
    return needs


def _rating(one: SystemAnswer, unit: str, mode: str) -> Decimal | None:
    found = one.modes.get("heating" if mode == "heating" else "cooling")
    if found is None:
        return _rated(one, unit, mode)
    return (found.sensible_rating if mode == "sensible" else found.rating)[unit]


def _rated(one: SystemAnswer, unit: str, mode: str) -> Decimal:
    model = one.facts.model(unit)
    return exact({"cooling": model.cooling_w, "sensible": model.sensible_w, "heating": model.heating_w}[mode])


def _units_in(room: str, systems: list[SystemAnswer]) -> list[tuple[SystemAnswer, str]]:
    return [(one, unit.id) for one in systems for unit in one.facts.system.units if unit.room == room]


def _coincide(one: SystemAnswer, mode: str, *, needs: Mapping[tuple[str, str], Decimal | None]) -> None:
    """Share capacity by ratings; what a unit's cap frees is shared again until nothing changes."""
    found, system = one.modes[mode], one.facts.system
    own = {unit: needs.get((system.id, unit), ZERO) for unit in one.facts.unit}
    known = [need for need in own.values() if need is not None]
    block = None if system.block is None else getattr(system.block, f"{mode}_w")
    all_needs = sum(known, ZERO) if len(known) == len(own) else None
    housed = any(unit.room for unit in system.units)
    one.block[mode] = (all_needs if housed else None) if block is None else exact(block)
    ratings = {unit: rating for unit, rating in found.rating.items() if rating is not None}
    if len(known) < len(own) or len(ratings) < len(own) or found.capacity is None or None in found.unit_length.values():
        one.coincident = {**one.coincident, **{(unit, mode): None for unit in own}}
        return
    share = exact(block) / sum(known, ZERO) if block is not None and sum(known, ZERO) else ONE
    factors = {unit: found.unit_length.get(unit, ONE) or ZERO for unit in own}
    caps = {unit: min(ratings[unit], (need or ZERO) * share) / factors[unit] for unit, need in own.items()}
    given = share_out(found.capacity, ratings, caps)
    one.coincident = {**one.coincident, **{(unit, mode): watts * factors[unit] for unit, watts in given.items()}}


def share_out(capacity: Decimal, weights: Mapping[str, Decimal], caps: Mapping[str, Decimal]) -> dict[str, Decimal]:
    given: dict[str, Decimal] = {}
    while True:
        free = {unit: weight for unit, weight in weights.items() if unit not in given}
        left = capacity - sum(given.values(), ZERO)
        parts = {unit: left * weight / sum(free.values(), ZERO) for unit, weight in free.items()}
        capped = {unit: caps[unit] for unit in free if parts[unit] >= caps[unit]}
        if not capped:
            return {**given, **parts}
        given.update(capped)


def _rooms(design: Design, systems: list[SystemAnswer]) -> dict[tuple[str, str], RoomAnswer]:
    """Each room and mode at full demand."""
    return {(room.id, mode): _room(room, mode, systems) for room in design.rooms for mode in MODES}


def _room(room: Room, mode: str, systems: list[SystemAnswer]) -> RoomAnswer:
    delivered = [one.delivered(unit, mode) for one, unit in _units_in(room.id, systems)]
    known = [watts for watts in delivered if watts is not None]
    if len(known) < len(delivered):
        return RoomAnswer("unjudged", None)
    load, got = _load(room, mode), sum(known, ZERO)
    if load is None:
        return RoomAnswer("unjudged", got)
    return RoomAnswer("over" if over(load, got) else "within", got)
