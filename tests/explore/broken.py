"""Valid designs at random on a demonstration book, broken by what happens to a project: never by a move turned round.

Loads grow, units move to another level, a length is measured again, a later edition of the book is stricter.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from random import Random

from linewright.book.compiled import CompiledBook, compile_book
from linewright.book.measures import MeasureName
from linewright.book.schema import Book
from linewright.document.files import load_book
from linewright.engine import Evaluation, Library, Standing, evaluate
from linewright.model.design import (
    ROOT,
    CoolingConditions,
    Design,
    Fitting,
    HeatingConditions,
    Level,
    Module,
    Outdoor,
    Room,
    Run,
    Site,
    System,
    Unit,
)
from linewright.model.values import NodeKind
from linewright.units import Amount

BOOK_FILE = Path(__file__).parents[2] / "books" / "tidewater-r32.book.yaml"
GROUPS = (("outdoor 22.4",), ("outdoor 33.5",), ("outdoor 33.5", "outdoor 22.4"))
KINDS = ("cassette", "ducted", "wall")
SIZES = ("2.2", "2.8", "3.6", "4.5", "5.6")
#: How far the second storey is above the first [m].
STOREY_M = 12.5
#: Limits that a later edition may tighten.
TIGHTENED = (
    *(MeasureName.FARTHEST_ACTUAL, MeasureName.TOTAL_LENGTH, MeasureName.AFTER_FIRST_BRANCH),
    *(MeasureName.LAST_JOINT_TO_UNIT, MeasureName.LEVEL_BETWEEN_INDOOR, MeasureName.TOTAL_CHARGE),
)


@dataclass(frozen=True)
class Broken:
    """A design that held and what happened to it."""

    seed: int
    cause: str
    before: Design
    design: Design
    book: Book

    @property
    def library(self) -> Library:
        """The book that holds now."""
        return Library.of({self.book.id: compile_book(self.book, faultless)})


def faultless(path: str, message: str, expected: str = "") -> None:
    raise AssertionError(f"{path}: {message}; expected {expected}")


@cache
def compiled() -> CompiledBook:
    return load_book(BOOK_FILE).compiled


def library() -> Library:
    return Library.of({compiled().book.id: compiled()})


def is_over(evaluation: Evaluation) -> bool:
    return evaluation.standing is Standing.OVER


def broken(seed: int) -> Broken:
    """The case of a seed: tried again with the same die until a design holds and then does not."""
    die = Random(f"broken {seed}")  # noqa: S311 - random cases, no secrets
    while True:
        design = _valid(die)
        if design is None:
            continue
        for _ in range(6):
            cause, changed, book = die.choice(CAUSES)(die, design)
            case = Broken(seed, cause, design, changed, book)
            if is_over(evaluate(changed, case.library)):
                return case


def _valid(die: Random) -> Design | None:
    """A system, often one more on a storey above, rooms that ask for what they get; none where it does not hold."""
    systems = [_system(die, "main", "U", "one")]
    if die.random() < 0.5:
        systems.append(_system(die, "upper", "V", "two"))
    rooms = tuple(
        Room(id=unit.room, level="one" if system.id == "main" else "two", area_m2=25.0, height_m=3.0)
        for system in systems
        for unit in system.units
    )
    design = Design(project=f"Random {die.randrange(10**6)}", site=SITE, rooms=rooms, systems=tuple(systems))
    return _with_loads(die, design)


def _system(die: Random, name: str, letter: str, level: str) -> System:
    """A tree of joints, with a header now and then."""
    modules = die.choice(GROUPS)
    target = sum(float(module.split()[1]) for module in modules) * die.uniform(0.7, 1.1)
    units: list[Unit] = []
    total = 0.0
    while total < target and len(units) < 10:
        size = die.choice(SIZES)
        total += float(size)
        unit = f"{letter}{len(units) + 1}"
        elevation = 3.0 if level == "one" else 3.0 + STOREY_M
        units.append(Unit(id=unit, model=f"{die.choice(KINDS)} {size}", room=f"R-{unit}", elevation_m=elevation))
    runs, fittings = _tree(die, [unit.id for unit in units])
    pipes: tuple[Run, ...] = ()
    if len(modules) > 1:
        pipes = (Run(from_=ROOT, to="M1", length_m=1.0), Run(from_=ROOT, to="M2", length_m=1.5))
    outdoor = Outdoor(
        modules=tuple(Module(model=module, id=f"M{i + 1}") for i, module in enumerate(modules)),
        elevation_m=die.choice((0.5, 6.0, 12.0)),
        pipes=pipes,
    )
    book = compiled().book.id
    return System(id=name, book=book, outdoor=outdoor, units=tuple(units), runs=runs, fittings=fittings)


SITE = Site(
    cooling=CoolingConditions(outdoor_db_degc=35.0, indoor_wb_degc=19.0),
    heating=HeatingConditions(outdoor_wb_degc=-5.0, indoor_db_degc=20.0),
    levels=(Level(id="one", elevation_m=0.0), Level(id="two", elevation_m=STOREY_M)),
)


def _with_loads(die: Random, design: Design) -> Design | None:
    """Give each room a little less than it gets."""
    found = evaluate(design, library())
    share = die.uniform(0.8, 0.97)
    got = {unit.room: unit for system in found.systems for unit in system.units}
    rooms = []
    for room in design.rooms:
        modes = (got[room.id].cooling, got[room.id].sensible, got[room.id].heating)
        if any(mode.delivered_w is None for mode in modes):
            return None
        cooling, sensible, heating = (round((mode.delivered_w or 0.0) * share, -1) for mode in modes)
        rooms.append(replace(room, cooling_w=cooling, sensible_w=sensible, heating_w=heating))
    made = replace(design, rooms=tuple(rooms))
    return None if evaluate(made, library()).standing not in (Standing.WITHIN, Standing.ON_CONDITIONS) else made


def _tree(die: Random, units: list[str]) -> tuple[tuple[Run, ...], tuple[Fitting, ...]]:
    runs: list[Run] = []
    fittings: list[Fitting] = []

    def grow(names: list[str], near: str) -> None:
        first = near == ROOT
        length = round(die.uniform(13.0, 60.0) if first else die.uniform(1.0, 9.0), 1)
        if len(names) == 1:
            runs.append(Run(from_=near, to=names[0], length_m=length, bends=die.randrange(4)))
            return
        node = f"N{len(runs) + 1}"
        runs.append(Run(from_=near, to=node, length_m=length, bends=die.randrange(4)))
        if len(names) <= 4 and not first and die.random() < 0.3:
            fittings.append(Fitting(id=node, kind=NodeKind.HEADER))
            for name in names:
                grow([name], node)
            return
        split = die.randrange(1, len(names))
        grow(names[:split], node)
        grow(names[split:], node)

    grow(units, ROOT)
    return tuple(runs), tuple(fittings)


def _loads_grow(die: Random, design: Design) -> tuple[str, Design, Book]:
    grown = set(die.sample([room.id for room in design.rooms], min(die.randrange(1, 4), len(design.rooms))))
    factor = die.uniform(1.1, 1.5)

    def more(watts: float | None) -> float | None:
        return None if watts is None else round(watts * factor, -1)

    rooms = tuple(
        replace(room, cooling_w=more(room.cooling_w), sensible_w=more(room.sensible_w), heating_w=more(room.heating_w))
        if room.id in grown
        else room
        for room in design.rooms
    )
    return "loads", replace(design, rooms=rooms), compiled().book


def _rooms_move(die: Random, design: Design) -> tuple[str, Design, Book]:
    """Some rooms come to be on the other storey; the own runs of their units are longer by that."""
    system = design.systems[0]
    moved = set(die.sample([unit.id for unit in system.units], min(die.randrange(1, 3), len(system.units))))
    by = die.choice((STOREY_M, STOREY_M, -8.0, 17.0))
    units = tuple(
        replace(unit, elevation_m=(unit.elevation_m or 0.0) + by) if unit.id in moved else unit for unit in system.units
    )
    runs = tuple(
        replace(run, length_m=round((run.length_m or 0.0) + abs(by), 1)) if run.to in moved else run
        for run in system.runs
    )
    there = {unit.room for unit in system.units if unit.id in moved and by > 0}
    rooms = tuple(replace(room, level="two") if room.id in there else room for room in design.rooms)
    made = _with(replace(design, rooms=rooms), replace(system, units=units, runs=runs))
    return "levels", made, compiled().book


def _measured(die: Random, design: Design) -> tuple[str, Design, Book]:
    """One or two lengths were typed wrongly; joints may turn out to be close together."""
    system = design.systems[0]
    wrong = set(die.sample([run.to for run in system.runs], min(die.randrange(1, 3), len(system.runs))))
    by = {name: die.choice((0.2, 15.0, 25.0, 40.0, 70.0)) for name in sorted(wrong)}
    runs = tuple(replace(run, length_m=by[run.to]) if run.to in by else run for run in system.runs)
    return "length", _with(design, replace(system, runs=runs)), compiled().book


def _edition(die: Random, design: Design) -> tuple[str, Design, Book]:
    """A later edition of the book is stricter than what the design has."""
    book, found = compiled().book, evaluate(design, library()).systems[0]
    measure = die.choice(TIGHTENED)
    value = next((check.value for check in found.limits if check.measure == measure.value and check.value), None)
    if value is None:
        return "edition", design, book
    bound = value * die.uniform(0.75, 0.98)
    limits = tuple(
        replace(limit, max=Amount(bound, limit.max.dimension))
        if limit.measure is measure and isinstance(limit.max, Amount)
        else limit
        for limit in book.limits
    )
    return "edition", design, replace(book, limits=limits)


def _with(design: Design, system: System) -> Design:
    return replace(design, systems=(system, *design.systems[1:]))


CAUSES = (_loads_grow, _rooms_move, _measured, _edition)


def cases(first: int, count: int) -> Iterator[Broken]:
    return (broken(seed) for seed in range(first, first + count))
