"""Designs to draw, from the plainest to the ugliest: built in memory on the demonstration books."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import NamedTuple

from linewright.book.compiled import CompiledBook
from linewright.document.files import link, load_book, load_design
from linewright.draw import Axis, Scene, SheetLayout, layout, sheet_scene
from linewright.engine import Evaluation, Library, evaluate
from linewright.engine.records import SystemResult
from linewright.model.design import (
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
from linewright.model.values import NodeKind, Role
from linewright.units import UnitSystem

ROOT = Path(__file__).parents[2]
MINIMAL, TIDEWATER = "minimal", "tidewater-r32"
EXAMPLES = {
    "boat-house": (ROOT / "examples" / "boat-house" / "boat-house.design.yaml", "main"),
    "clinic-ground": (ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml", "ground"),
    "clinic-quay": (ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml", "quay"),
    "clinic-upper": (ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml", "upper"),
    "ferry-terminal": (ROOT / "examples" / "ferry-terminal" / "ferry-terminal.design.yaml", "main"),
}
COOLING = CoolingConditions(outdoor_db_degc=33.0, indoor_wb_degc=19.0)
HEATING = HeatingConditions(outdoor_wb_degc=-5.0, indoor_db_degc=20.0)
LONG = "Anästhesie-Überwachungsraum mit Schleuse und Vorbereitung, Ost, zweiter Bauabschnitt"


class Drawn(NamedTuple):
    """A case as far as a test needs it: its records, its layout, its picture."""

    evaluation: Evaluation
    result: SystemResult
    sheet: SheetLayout
    scene: Scene


@cache
def book(name: str) -> CompiledBook:
    """Load a demonstration book."""
    return load_book(ROOT / "books" / f"{name}.book.yaml").compiled


def library() -> Library:
    return Library.of({name: book(name) for name in (MINIMAL, TIDEWATER)})


@cache
def drawn(name: str, axis: Axis = Axis.ACTUAL, units: UnitSystem = UnitSystem.SI, width: float = 1600.0) -> Drawn:
    """Judge, lay out and draw a case by name."""
    if name in EXAMPLES:
        path, system = EXAMPLES[name]
        loaded = load_design(path)
        design = loaded.design
        link(loaded, {key: book(key) for key in (MINIMAL, TIDEWATER)})
    else:
        design, system = MADE[name](), "main"
    evaluation = evaluate(design, library())
    result = next(item for item in evaluation.systems if item.id == system)
    sheet = layout(evaluation, result, axis=axis, book=book(result.book).book)
    return Drawn(evaluation, result, sheet, sheet_scene(sheet, units, width=width))


def design_of(
    runs: tuple[Run, ...],
    units: tuple[Unit, ...],
    *,
    outdoor: Outdoor,
    site: Site,
    rooms: tuple[Room, ...] = (),
    project: str = "Case",
    fittings: tuple[Fitting, ...] = (),
    on: str = TIDEWATER,
    name: str = "",
) -> Design:
    system = System(id="main", book=on, outdoor=outdoor, units=units, runs=runs, fittings=fittings, name=name)
    return Design(project=project, site=site, rooms=rooms, systems=(system,))


def run(near: str, far: str, length_m: float | None, **more: object) -> Run:
    return Run(from_=near, to=far, length_m=length_m, **more)  # type: ignore[arg-type]


def levels(count: int, storey_m: float = 3.6) -> tuple[Level, ...]:
    return tuple(Level(id=f"L{i}", name=f"Level {i}", elevation_m=storey_m * i) for i in range(count))


def one_unit() -> Design:
    """A single unit: no branch, and only the reach to judge."""
    room = Room(id="hall", level="L0", cooling_w=6000.0, sensible_w=4500.0, heating_w=6000.0)
    return design_of(
        (run("outdoor", "U1", 12.0),),
        (Unit(id="U1", model="cassette 7.1", room="hall", elevation_m=2.7),),
        outdoor=Outdoor(modules=(Module(model="outdoor 16"),), elevation_m=0.3),
        site=Site(cooling=COOLING, heating=HEATING, levels=levels(1)),
        rooms=(room,),
        on=MINIMAL,
    )


def corridor() -> Design:
    """The single unit again, in no room."""
    made = one_unit()
    (system,) = made.systems
    units = tuple(replace(unit, room="") for unit in system.units)
    return replace(made, rooms=(), systems=(replace(system, units=units),))


def tower(floors: int = 8, per_floor: int = 8, *, unknown_every: int = 0, name: str = "Tower") -> Design:
    """A riser with a joint on each floor, from which a chain of joints and a header serve the floor."""
    runs: list[Run] = []
    units: list[Unit] = []
    rooms: list[Room] = []
    before = "outdoor"
    for floor in range(floors - 1, -1, -1):
        riser = f"R{floor}"
        runs.append(run(before, riser, 18.0 if before == "outdoor" else 3.8, bends=1))
        before, at = riser, riser
        for k in range(per_floor):
            unit = f"U{floor}{k + 1:02d}"
            units.append(
                Unit(
                    id=unit,
                    model=("wall 2.2", "ducted 3.6", "cassette 2.8")[k % 3],
                    room=f"room-{unit}",
                    elevation_m=3.6 * floor + 2.6,
                )
            )
            rooms.append(
                Room(
                    id=f"room-{unit}",
                    level=f"L{floor}",
                    name=f"Office {floor}.{k + 1:02d}",
                    cooling_w=1400.0 + 500 * (k % 3),
                    sensible_w=1100.0 + 350 * (k % 3),
                    heating_w=900.0,
                )
            )
            length = None if unknown_every and len(units) % unknown_every == 0 else 2.0 + k % 4
            if k < per_floor - 1:
                joint = f"J{floor}{k + 1}"
                runs.append(run(at, joint, 4.0 + k % 3, bends=2))
                at = joint
            runs.append(run(at, unit, length, bends=1))
    modules = tuple(Module(model=m) for m in ("outdoor 33.5", "outdoor 22.4", "outdoor 22.4"))
    pipes = (run("outdoor", "M1", 1.2), run("outdoor", "OJ1", 0.8), run("OJ1", "M2", 1.0), run("OJ1", "M3", 2.4))
    fittings = (Fitting(id="J01", kind=NodeKind.HEADER),) if per_floor > 1 else ()
    return design_of(
        tuple(runs),
        tuple(units),
        rooms=tuple(rooms),
        fittings=fittings,
        project=name,
        outdoor=Outdoor(modules=modules, elevation_m=floors * 3.6, pipes=pipes),
        site=Site(
            cooling=COOLING,
            heating=HEATING,
            levels=(*levels(floors), Level(id="roof", name="Roof", elevation_m=floors * 3.6)),
        ),
    )


def long_names() -> Design:
    """Eight units whose every name is longer than its place."""
    made = tower(2, 4, name=f"{LONG}: {LONG} & <{LONG}>")
    system = made.systems[0]
    rename = {unit.id: f"{unit.id}-{LONG[:40].replace(' ', '-')}" for unit in system.units}
    return replace(
        made,
        site=replace(made.site, levels=tuple(replace(level, name=f"{level.id} {LONG}") for level in made.site.levels)),
        rooms=tuple(replace(room, name=f"{LONG} {room.id}") for room in made.rooms),
        systems=(
            replace(
                system,
                name=LONG,
                units=tuple(replace(unit, id=rename[unit.id]) for unit in system.units),
                runs=tuple(replace(r, to=rename.get(r.to, r.to)) for r in system.runs),
            ),
        ),
    )


def no_rooms() -> Design:
    """No levels, no rooms, no elevations, no module pipes, no conditions."""
    made = tower(2, 4)
    system = made.systems[0]
    return replace(
        made,
        site=Site(),
        rooms=(),
        systems=(
            replace(
                system,
                outdoor=replace(system.outdoor, pipes=(), elevation_m=None),
                units=tuple(replace(unit, room="") for unit in system.units),
            ),
        ),
    )


def all_unknown() -> Design:
    """Not one length is known."""
    made = tower(2, 6)
    system = made.systems[0]
    return replace(made, systems=(replace(system, runs=tuple(replace(item, length_m=None) for item in system.runs)),))


def faults() -> Design:
    """A joint of three arms, a branch after a header, a dead end, a tiny run, sizes too small, loads unknown."""
    site = Site(cooling=COOLING, heating=HEATING, levels=levels(3))
    room = {"cooling_w": 9000.0, "sensible_w": 7000.0, "heating_w": 2000.0}
    rooms = tuple(Room(id=f"r{i}", level=f"L{i % 3}", name=f"Room {i}", **room) for i in range(1, 8))  # type: ignore[arg-type]
    rooms = (*rooms, Room(id="r8", level="L1", name="Room of unknown load"))
    models = (
        "cassette 5.6",
        "wall 2.2",
        "ducted 11.2",
        "floor 4.5",
        "cassette 9.0",
        "wall 2.8",
        "cassette 3.6",
        "wall 2.2",
    )
    units = tuple(
        Unit(id=f"U{i}", model=model, room=f"r{i}", elevation_m=None if i == 4 else 2.5 + 3.6 * (i % 3))
        for i, model in enumerate(models, start=1)
    )
    runs = (
        run("outdoor", "J1", 48.0, override={Role.GAS: 0.0127}),
        run("J1", "J2", 0.2),
        run("J1", "H1", 30.0),
        run("J1", "K1", 12.0),
        run("K1", "U1", 60.0),
        run("J2", "U2", 0.0),
        run("J2", "E1", 8.0),
        run("H1", "U3", 61.0),
        run("H1", "U4", None),
        run("H1", "J3", 14.0),
        run("J3", "U5", 22.0, override={Role.GAS: 0.02222, Role.LIQUID: 0.01}),
        run("J3", "J4", 5.0),
        run("J4", "U6", 5.0),
        run("J4", "J5", 0.4),
        run("J5", "U7", 33.0),
        run("J5", "U8", 41.0),
    )
    return design_of(
        runs,
        units,
        rooms=rooms,
        site=site,
        project="Everything wrong",
        name="faults",
        outdoor=Outdoor(modules=(Module(model="outdoor 22.4"),), elevation_m=-3.0),
        fittings=(Fitting(id="H1", kind=NodeKind.HEADER), Fitting(id="E1", kind=NodeKind.JOINT)),
    )


def twin_risers() -> Design:
    """Two branches of equal lengths that both serve the same two levels: crossings and legs at one reach."""
    site = Site(cooling=COOLING, heating=HEATING, levels=levels(2))
    rooms, units = [], []
    runs = [run("outdoor", "J1", 10.0)]
    for side in "AB":
        runs.append(run("J1", f"J{side}", 12.0))
        for level in range(2):
            unit = f"{side}{level}"
            runs.append(run(f"J{side}", unit, 8.0 + level))
            rooms.append(Room(id=unit, level=f"L{level}", cooling_w=2000.0, sensible_w=1500.0, heating_w=1500.0))
            units.append(Unit(id=unit, model="cassette 5.6", room=unit, elevation_m=2.5 + 3.6 * level))
    return design_of(
        tuple(runs),
        tuple(units),
        rooms=tuple(rooms),
        site=site,
        outdoor=Outdoor(modules=(Module(model="outdoor 22.4"),), elevation_m=8.0),
    )


MADE: dict[str, Callable[[], Design]] = {
    "one-unit": one_unit,
    "corridor": corridor,
    "eight": lambda: tower(2, 4, name="Eight units"),
    "sixty-four": tower,
    "some-unknown": lambda: tower(3, 5, unknown_every=4, name="Some lengths unknown"),
    "all-unknown": all_unknown,
    "long-names": long_names,
    "no-rooms": no_rooms,
    "faults": faults,
    "twin-risers": twin_risers,
}
ALL = (*EXAMPLES, *MADE)
