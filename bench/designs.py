"""Designs of any size for timing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import count
from typing import TypeVar

from linewright.book.schema import Band, Book, Range, SizeTable
from linewright.model.design import (
    CoolingConditions,
    Design,
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
from linewright.model.values import no_entries
from linewright.units import Amount, Dimension

B = TypeVar("B", bound=Band)

MODELS = ("cassette 2.2", "wall 2.2", "ducted 2.2", "floor 2.2")


def tree_of(units: int) -> Design:
    """Give a design with one system of so many units on a tree of joints."""
    rooms = tuple(
        Room(
            id=f"R{i}",
            level="one",
            area_m2=20.0,
            height_m=3.0,
            cooling_w=900.0,
            sensible_w=600.0,
            heating_w=700.0,
        )
        for i in range(units)
    )
    pipes = (
        Run(from_="outdoor", to="M1", length_m=1.0),
        Run(from_="outdoor", to="OJ1", length_m=0.6),
        Run(from_="OJ1", to="M2", length_m=1.0),
        Run(from_="OJ1", to="M3", length_m=1.6),
    )
    outdoor = Outdoor(
        modules=(
            Module(id="M1", model="outdoor 33.5"),
            Module(id="M2", model="outdoor 22.4"),
            Module(id="M3", model="outdoor 22.4"),
        ),
        elevation_m=10.0,
        pipes=pipes,
    )
    system = System(
        id="main",
        book="tidewater-r32",
        outdoor=outdoor,
        units=tuple(
            Unit(id=f"U{i}", model=MODELS[i % len(MODELS)], room=f"R{i}", elevation_m=2.7) for i in range(units)
        ),
        runs=tuple(_runs(units)),
    )
    site = Site(
        cooling=CoolingConditions(outdoor_db_degc=35.0, indoor_wb_degc=19.0),
        heating=HeatingConditions(outdoor_wb_degc=-5.0, indoor_db_degc=20.0),
        levels=(Level(id="one", elevation_m=0.0),),
    )
    return Design(project="Timing", site=site, rooms=rooms, systems=(system,))


def with_length(design: Design, length_m: float) -> Design:
    """Give the design with another length of one run in the middle of its first system."""
    system = design.systems[0]
    middle = len(system.runs) // 2
    runs = tuple(replace(run, length_m=length_m) if i == middle else run for i, run in enumerate(system.runs))
    return replace(design, systems=(replace(system, runs=runs),))


def _runs(units: int) -> Iterator[Run]:
    """Halve the units again and again, so that the tree is as deep as a designer would make it."""
    joints = count()

    def split(first: int, last: int, before: str) -> Iterator[Run]:
        if last - first == 1:
            yield _run(before, f"U{first}", 4.0)
            return
        joint = f"J{next(joints)}"
        yield _run(before, joint, 20.0 if before == "outdoor" else 3.0)
        middle = (first + last) // 2
        yield from split(first, middle, joint)
        yield from split(middle, last, joint)

    yield from split(0, units, "outdoor")


def _run(from_: str, to: str, length_m: float) -> Run:
    return Run(from_=from_, to=to, length_m=length_m, bends=1, override=no_entries())


def doubled(book: Book) -> Book:
    """Give a family whose outdoor modules are twice as large, so that 64 units are within its ratio and count."""
    outdoor = replace(
        book.outdoor,
        modules=tuple(
            replace(m, index=m.index * 2, cooling_w=m.cooling_w * 2, heating_w=m.heating_w * 2)
            for m in book.outdoor.modules
        ),
        groups=tuple(
            replace(
                g,
                index=g.index * 2,
                cooling_w=g.cooling_w and g.cooling_w * 2,
                heating_w=g.heating_w and g.heating_w * 2,
                indoor_count=Range(max=Amount(100.0, Dimension.NUMBER)),
            )
            for g in book.outdoor.groups
        ),
    )
    sizing, fittings = book.sizing, book.fittings
    module = sizing.module and _wider(sizing.module)
    return replace(
        book,
        outdoor=outdoor,
        sizing=replace(sizing, main=_wider(sizing.main), branch=_wider(sizing.branch), module=module),
        fittings=replace(
            fittings,
            first=replace(fittings.first, rows=tuple(_edge(row) for row in fittings.first.rows)),
            joint=replace(fittings.joint, rows=tuple(_edge(row) for row in fittings.joint.rows)),
        ),
    )


def _wider(table: SizeTable) -> SizeTable:
    return replace(table, rows=tuple(_edge(row) for row in table.rows))


def _edge(row: B) -> B:
    if row.upto is None:
        return row
    return replace(row, upto=Amount(row.upto.value * 2, row.upto.dimension))
