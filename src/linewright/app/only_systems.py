"""Some systems of a design: whether it has them, and an evaluation that tells of nothing else."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import Path
from typing import NamedTuple

from linewright.app.project import Project
from linewright.engine import Evaluation, Standing
from linewright.engine.evaluate import overall
from linewright.engine.records import Deferred, RoomResult
from linewright.errors import Fault, InputFaultsError, one_of, quoted
from linewright.report.schedules.about import only_words


class Only(NamedTuple):
    """An evaluation of some systems out of a whole design.

    systems, others : ids of those that are in it, and of those that the design has besides
    lines : what has to be said of it before all else; none where it is the whole design
    """

    evaluation: Evaluation
    systems: tuple[str, ...]
    others: tuple[str, ...]
    lines: tuple[str, ...] = ()


def check_systems(project: Project, wanted: Collection[str]) -> None:
    """Raise InputFaultsError for every system that the design does not have."""
    names = sorted(item.id for item in project.loaded.design.systems)
    file = Path(project.loaded.source.file)
    faults = [_no_system(file, name, names) for name in dict.fromkeys(wanted) if name not in names]
    if faults:
        raise InputFaultsError(faults)


def only_systems(evaluation: Evaluation, wanted: Collection[str]) -> Only:
    """Take some systems out of an evaluation of the whole design; all of them where none is named.

    Nothing is judged anew: a system stands as it does in the whole. A room that a system which is left out serves as
    well is no longer told of, since its figures are those of both; how it stands still counts.
    """
    names = tuple(result.id for result in evaluation.systems)
    kept = tuple(name for name in names if name in wanted) or names
    others = tuple(name for name in names if name not in kept)
    if not others:
        return Only(evaluation, kept, ())
    mine = {name: frozenset(unit.partition("/")[0] for unit in room.units) for name, room in _rooms(evaluation)}
    rooms = tuple(room for name, room in _rooms(evaluation) if mine[name] <= set(kept) and mine[name])
    shared = tuple(room for name, room in _rooms(evaluation) if mine[name] & set(kept) and mine[name] - set(kept))
    systems = tuple(result for result in evaluation.systems if result.id in kept)
    found = {check.standing for result in systems for check in (*result.limits, *result.checks)}
    found |= {check.standing for room in (*rooms, *shared) for check in room.checks}
    part = evaluation._replace(
        systems=systems,
        deferred_rooms=Deferred(lambda: rooms),
        standing=overall(found),
        books={name: sha for name, sha in evaluation.books.items() if name in {one.book for one in systems}},
    )
    return Only(part, kept, others, tuple(_lines(evaluation.standing, kept, others, shared)))


def _rooms(evaluation: Evaluation) -> Iterator[tuple[str, RoomResult]]:
    yield from ((room.id, room) for room in evaluation.rooms)


def _lines(
    whole: Standing, kept: tuple[str, ...], others: tuple[str, ...], shared: tuple[RoomResult, ...]
) -> Iterator[str]:
    yield (
        f"FOR {only_words(kept)}: all that is listed, cut, bought and judged here is without "
        f"{', '.join(others)}, which the design has as well. The whole design stands: {whole.value}."
    )
    for room in shared:
        stands = overall({check.standing for check in room.checks}) if room.checks else Standing.UNJUDGED
        elsewhere = ", ".join(unit for unit in room.units if unit.partition("/")[0] in others)
        said = f"Room {room.id} is served by {elsewhere} as well and is left out"
        yield f"{said}; in the whole design it stands: {stands.value}."


def _no_system(file: Path, system: str, names: list[str]) -> Fault:
    return Fault(
        file=str(file),
        line=0,
        column=0,
        path="systems",
        value=system,
        message=f"there is no system {quoted(system)}",
        expected=one_of(system, names, otherwise="none: the design has no systems"),
    )
