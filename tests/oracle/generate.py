"""Random cases: a faultless book, a design for it, and bounds on either side of what the design has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from linewright.book.compiled import compile_book
from linewright.book.schema import Book, Document, IndexUnit, IndoorTables, Kind, Origin, OutdoorTables, Status
from linewright.model.design import ROOT, Block, Design, Room, Run, System, Unit
from linewright.model.values import Role
from tests.oracle import generate_book as parts
from tests.oracle.generate_bounds import tighten
from tests.oracle.generate_capacity import capacity_of, site_of
from tests.oracle.generate_dice import Dice, new_dice
from tests.oracle.generate_limits import DECLARED, Names, limits_of, mandatory
from tests.oracle.generate_outdoor import outdoor_side
from tests.oracle.generate_tree import Grown, grow
from tests.oracle.naive_numbers import exact

SIZES = (1, 1, 2, 2, 3, 3, 4, 5, 6, 7, 8, 9, 10, 12, 16)
LARGE = (24, 40, 64)


@dataclass(frozen=True)
class Case:
    """A design and the books that it names."""

    seed: int
    design: Design
    books: Mapping[str, Book]


def faultless(path: str, message: str, expected: str = "") -> None:
    raise AssertionError(f"a generated book must be faultless: {path}: {message}; expected {expected}")


def generate(seed: int) -> Case:
    """The case of a seed; mostly one system, now and then two that share rooms."""
    dice = new_dice(seed)
    site = site_of(dice)
    halves = [_half(dice, name) for name in (("main", "annexe") if dice.maybe(0.1) else ("main",))]
    systems = tuple(system for system, _ in halves)
    rooms = _rooms(dice, systems, {system.id: book for system, book in halves})
    design = Design(project="Random", site=site, rooms=rooms, systems=systems)
    books = {book.id: tighten(dice, design, system, book) for system, book in halves}
    for book in books.values():
        compile_book(book, faultless)
    return Case(seed, design, books)


def _half(dice: Dice, name: str) -> tuple[System, Book]:
    """One system and its own book."""
    ladders = parts.ladders_of(dice)
    models = parts.models_of(dice, ladders)
    count = dice.pick(LARGE) if dice.maybe(0.02) else dice.pick(SIZES)
    grown = grow(dice, count)
    unit_model = {unit: dice.pick(models) for unit in grown.units}
    index = {unit: exact(model.index) for unit, model in unit_model.items()}
    sums = [float(sum((index[u] for u in grown.under(run.to)), Decimal(0))) for run in grown.runs]
    total = sum(index.values(), Decimal(0))
    watts = float(round(models[0].cooling_w / models[0].index))
    modules, group = parts.outdoor_of(
        dice, ladders, count=dice.pick((1, 1, 2, 3, 4)), indoor_index=float(total), watts_per_index=watts
    )
    ratio = float(total / exact(group.index))
    counts, ratios = parts.ranges_of(dice, count=count, ratio=ratio)
    group = replace(group, indoor_count=counts, connection_ratio=ratios)
    other_module, other = parts.other_group(dice)
    sizing = parts.sizing_of(dice, ladders, models=models, group=group, sums=sums)
    kinds = tuple(sorted({model.kind for model in models}))
    names = Names(kinds, tuple(model.model for model in models), sizing.actions)
    actions = tuple(mandatory(dice, names, action) if dice.maybe(0.4) else action for action in sizing.actions)
    names.actions = actions
    book = Book(
        id=f"book of {name}",
        title="Invented at random",
        status=Status.DEMONSTRATION,
        document=Document(title="Invented", edition="1", date="2026-01-01", typed_by="a die"),
        refrigerant="R-32",
        kind=Kind.HEAT_PUMP,
        index=IndexUnit(unit="1"),
        origin=dice.pick((Origin.OUTDOOR, Origin.FIRST_OUTDOOR_JOINT, Origin.FIRST_OUTDOOR_JOINT, Origin.FIRST_BRANCH)),
        outdoor=OutdoorTables(modules=(*modules, other_module), groups=(other, group)),
        indoor=IndoorTables(models=models),
        tubes=parts.tubes_of(ladders),
        sizing=replace(sizing, actions=actions),
        fittings=parts.fittings_of(dice, ladders, group=group, sums=sums),
        limits=limits_of(dice, names),
        capacity=capacity_of(dice, group=group.id or group.modules[0], kinds=kinds, reach_m=_reach(grown), ratio=ratio),
        charge=parts.charge_of(dice, ladders, modules=modules, group=group, models=models, ratio=ratio),
    )
    system = System(
        id=name,
        book=book.id,
        outdoor=outdoor_side(dice, grown, group.modules, ladders=ladders),
        units=tuple(_unit(grown, unit, unit_model[unit].model) for unit in grown.units),
        runs=_overridden(dice, grown, ladders),
        fittings=tuple(grown.fittings),
        block=_block(dice, total=float(total) * watts) if dice.maybe(0.3) else None,
        declared=dice.some(DECLARED, 0),
        forbidden_actions=tuple(a.id for a in actions if a.when is None and dice.maybe(0.1)),
    )
    return system, book


def _block(dice: Dice, *, total: float) -> Block:
    """A coincident load, mostly below what the units are rated at."""
    shares = (0.3, 0.6, 0.9, 1.0, 1.2)
    return Block(
        cooling_w=round(total * dice.pick(shares), -2) if dice.maybe(0.9) else None,
        heating_w=round(total * dice.pick(shares), -2) if dice.maybe(0.9) else None,
    )


def _reach(grown: Grown) -> float:
    length = {ROOT: 0.0}
    while len(length) <= len(grown.runs):
        for run in grown.runs:
            if run.from_ in length:
                length[run.to] = length[run.from_] + (run.length_m or 0.0)
    return max(length.values())


def _unit(grown: Grown, unit: str, model: str) -> Unit:
    dice = grown.dice
    room = f"room {dice.between(1, max(1, len(grown.units) * 3 // 4))}" if dice.maybe(0.95) else ""
    level = float(grown.level[unit]) if not dice.lacking(0.03) else None
    return Unit(id=unit, model=model, room=room, elevation_m=level)


def _overridden(dice: Dice, grown: Grown, ladders: parts.Ladders) -> tuple[Run, ...]:
    """Some runs with sizes that the designer sets."""
    if dice.maybe(0.5):
        return tuple(grown.runs)
    runs = []
    for run in grown.runs:
        if not dice.maybe(0.15):
            runs.append(run)
            continue
        roles = dice.some((Role.GAS, Role.LIQUID))
        runs.append(replace(run, override={role: ladders.size_m(role, dice.between(0, 8)) for role in roles}))
    return tuple(runs)


def _rooms(dice: Dice, systems: tuple[System, ...], books: Mapping[str, Book]) -> tuple[Room, ...]:
    """A room for each name that a unit gives, with loads near what its units are rated at."""
    rooms = []
    for name in sorted({unit.room for system in systems for unit in system.units if unit.room}):
        models = [
            next(m for m in books[system.id].indoor.models if m.model == unit.model)
            for system in systems
            for unit in system.units
            if unit.room == name
        ]

        def load(rated: float) -> float | None:
            return round(rated * dice.factor(50, 115) / 10) * 10.0 if not dice.lacking(0.03) else None

        rooms.append(
            Room(
                id=name,
                level="",
                cooling_w=load(sum(m.cooling_w for m in models)),
                sensible_w=load(sum(m.sensible_w for m in models)),
                heating_w=load(sum(m.heating_w for m in models)),
            )
        )
    return tuple(rooms)
