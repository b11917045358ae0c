"""The columns of a sweep: whole systems first, then each subject that is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fnmatch import fnmatchcase
from functools import partial
from typing import NamedTuple, TypeAlias

from linewright.engine import Evaluation
from linewright.engine.records import Check, Standing
from linewright.engine.working import subjects, working
from linewright.errors import UnknownSubjectError
from linewright.explore.sweeps.figures import shortest_room, worst_margin
from linewright.explore.verdicts import OPEN, standing_of
from linewright.takeoff import PriceList, take_off
from linewright.units import Dimension

#: `None` is not known; "" has nothing to say here.
Cell: TypeAlias = str | float | None
NOTHING = ""


class Column(NamedTuple):
    """A column: its key for programs, its heading for people, the dimension of its numbers."""

    key: str
    heading: str
    dimension: Dimension | None = None


class Plan(NamedTuple):
    """Columns, and how the cells of a row are made for them, some at once."""

    columns: tuple[Column, ...]
    makers: tuple[Callable[[Evaluation], tuple[Cell, ...]], ...]

    def cells(self, evaluation: Evaluation) -> tuple[Cell, ...]:
        """Every cell of one row."""
        return tuple(cell for make in self.makers for cell in make(evaluation))


def subjects_shown(evaluation: Evaluation, wanted: Sequence[str]) -> list[str]:
    """Every subject that is asked for, `*` standing for any letters; each once.

    Raises UnknownSubjectError for one that is not there.
    """
    found: dict[str, None] = {}
    for name in wanted:
        if "*" in name:
            known = [*subjects(evaluation), *(check.subject for check in _checks(evaluation))]
            matching = [one for one in known if fnmatchcase(one, name.replace("[", "[[]"))]
            if not matching:
                raise UnknownSubjectError(name)
            found |= dict.fromkeys(matching)
        elif not _of_subject(evaluation, name):
            working(evaluation, name)
            found[name] = None
        else:
            found[name] = None
    return list(found)


def plan_columns(
    evaluation: Evaluation, wanted: Sequence[str], prices: PriceList | None, systems: Sequence[str] = ()
) -> Plan:
    """Plan the columns for the systems that a design has, and for subjects (see `subjects_shown`).

    evaluation : of the design before anything is varied; the dimensions are those that it has
    systems : the systems that are meant; all of them without any
    """
    columns: list[Column] = []
    makers: list[Callable[[Evaluation], tuple[Cell, ...]]] = []
    meant = [result for result in evaluation.systems if not systems or result.id in systems]
    several = len(meant) > 1
    for result in meant:
        columns += _of_system(result.id, several=several)
        makers.append(partial(_system_cells, result.id))
    for subject in wanted:
        found = _of_subject(evaluation, subject)
        columns += _checked(subject, found) if found else [_worked(evaluation, subject)]
        makers.append(partial(_check_cells if found else _worked_cells, subject))
    if prices is not None:
        currency = prices.currency or "as priced"
        columns.append(Column("cost", f"cost [{currency}]", Dimension.NUMBER))
        makers.append(partial(_cost_cells, prices))
    return Plan(tuple(columns), tuple(makers))


def _of_system(name: str, *, several: bool) -> Iterator[Column]:
    before = f"{name} " if several else ""
    yield Column(f"{name}/standing", f"{before}system")
    yield Column(f"{name}/worst", f"{before}worst")
    yield Column(f"{name}/worst_margin", f"{before}worst margin", Dimension.RATIO)
    yield Column(f"{name}/shortest", f"{before}shortest room")
    yield Column(f"{name}/shortest_share", f"{before}delivered of needed", Dimension.RATIO)
    yield Column(f"{name}/additional_charge", f"{before}additional charge", Dimension.MASS)
    yield Column(f"{name}/total_charge", f"{before}total charge", Dimension.MASS)


def _system_cells(system: str, evaluation: Evaluation) -> tuple[Cell, ...]:
    result = next((item for item in evaluation.systems if item.id == system), None)
    if result is None:
        return (NOTHING,) * 7
    worst, short = worst_margin(evaluation, system), shortest_room(evaluation, system)
    return (
        standing_of(evaluation, system).value,
        worst.name or None,
        worst.share,
        short.name or None,
        short.share,
        result.charge.rounded_kg,
        result.charge.total_kg,
    )


def _checked(subject: str, found: Sequence[Check]) -> Iterator[Column]:
    dimension = found[0].dimension
    yield Column(f"{subject}:standing", f"{subject} standing")
    yield Column(f"{subject}:value", f"{subject} value", dimension)
    yield Column(f"{subject}:margin", f"{subject} margin", dimension)


def _check_cells(subject: str, evaluation: Evaluation) -> tuple[Cell, ...]:
    """The gravest of the checks of one subject, and of them the one with the least margin.

    What an unjudged check has for a value is only what is known of it so far: no figure for a table.
    """
    found = sorted(_of_subject(evaluation, subject), key=_gravity)
    if not found:
        return (NOTHING,) * 3
    gravest = found[0]
    if gravest.standing in OPEN:
        return (gravest.standing.value, None, None)
    return (gravest.standing.value, gravest.value, gravest.margin)


def _gravity(check: Check) -> tuple[int, float]:
    grave = 0 if check.standing is Standing.OVER else 1 if check.standing in OPEN else 2
    return (grave, float("inf") if check.margin is None else check.margin)


def _worked(evaluation: Evaluation, subject: str) -> Column:
    value, dimension = _value(evaluation, subject)
    return Column(subject, subject, None if isinstance(value, str) else dimension)


def _value(evaluation: Evaluation, subject: str) -> tuple[Cell, Dimension]:
    """What a subject comes to: the result of its working's last step, unless that step goes on from it.

    A fitting comes to its model.
    """
    models = {f"{one.id}/fitting:{it.id}": it.model for one in evaluation.systems for it in one.fittings}
    if subject in models:
        return models[subject], Dimension.NUMBER
    last = working(evaluation, subject).steps[-1]
    own = next((item for item in last.inputs if item.from_ == subject), None)
    return (last.result, last.dimension) if own is None else (own.value, own.dimension)


def _worked_cells(subject: str, evaluation: Evaluation) -> tuple[Cell, ...]:
    try:
        return (_value(evaluation, subject)[0],)
    except UnknownSubjectError:
        return (NOTHING,)


def _cost_cells(prices: PriceList, evaluation: Evaluation) -> tuple[Cell, ...]:
    return (take_off(evaluation, prices=prices).cost,)


def _of_subject(evaluation: Evaluation, subject: str) -> list[Check]:
    return [check for check in _checks(evaluation) if check.subject == subject]


def _checks(evaluation: Evaluation) -> Iterator[Check]:
    for result in evaluation.systems:
        yield from result.limits
        yield from result.checks
    for room in evaluation.rooms:
        yield from room.checks
