"""Two designs side by side: what is stated otherwise, and what that does to verdicts, margins and charge."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from linewright.app.keeping.comparing import compare
from linewright.app.project import Project
from linewright.app.review_results import resulted
from linewright.engine import Evaluation
from linewright.engine.records import Check
from linewright.model.design import Design, Run, System
from linewright.report.compared import Changed, Charged, Compared, Field, Side

#: Figures that differ by less are the same.
_ALIKE = 1e-9


class Reviewed(NamedTuple):
    """What differs, and the evaluations of both designs."""

    compared: Compared
    before: Evaluation
    after: Evaluation


def review(before: Project, after: Project) -> Reviewed:
    """Compare two designs. The order of lists and the way in which a file is written do not count."""
    first, second = before.evaluate(), after.evaluate()
    return Reviewed(_compared(before, after, first=first, second=second), first, second)


def _compared(before: Project, after: Project, *, first: Evaluation, second: Evaluation) -> Compared:
    fields = compare(_sorted(before.loaded.design), _sorted(after.loaded.design))
    return Compared(
        before=_side(before, first),
        after=_side(after, second),
        fields=tuple(Field(*one) for one in fields),
        results=tuple(resulted(first, second)),
        verdicts=tuple(verdicts_changed(first, second)),
        charges=tuple(charges_changed(first, second)),
    )


def _side(project: Project, evaluation: Evaluation) -> Side:
    loaded = project.loaded
    books = {name: book.sha256 for name, book in sorted(project.books.items())}
    return Side(loaded.source.file, loaded.sha256, evaluation.standing, books)


def _sorted(design: Design) -> Design:
    """A design whose lists without an order stand in one."""
    chosen = design.refrigerant
    return replace(
        design,
        refrigerant=None if chosen is None else replace(chosen, read=tuple(sorted(chosen.read))),
        locks=tuple(sorted(design.locks)),
        spaces=tuple(
            replace(space, rooms=tuple(sorted(space.rooms))) for space in sorted(design.spaces, key=lambda one: one.id)
        ),
        systems=tuple(_sorted_system(system) for system in design.systems),
    )


def _sorted_system(system: System) -> System:
    return replace(
        system,
        outdoor=replace(system.outdoor, pipes=tuple(map(_sorted_run, system.outdoor.pipes))),
        runs=tuple(map(_sorted_run, system.runs)),
        declared=tuple(sorted(system.declared)),
        options=tuple(sorted(system.options)),
        confirmed=tuple(
            replace(one, at=tuple(sorted(one.at))) for one in sorted(system.confirmed, key=lambda one: one.id)
        ),
        forbidden_actions=tuple(sorted(system.forbidden_actions)),
    )


def _sorted_run(run: Run) -> Run:
    items = tuple(sorted(run.items, key=lambda item: (item.kind, item.count)))
    return replace(run, items=items, crosses=tuple(sorted(run.crosses)), ports=tuple(sorted(run.ports)))


def verdicts_changed(first: Evaluation, second: Evaluation) -> Iterator[Changed]:
    """Every check whose standing or figures differ."""
    old, new = _checks(first), _checks(second)
    for key in [*old, *(key for key in new if key not in old)]:
        one, other = old.get(key), new.get(key)
        if one is None or other is None or _differ(one, other):
            yield Changed(key[0], one, other)


def _checks(evaluation: Evaluation) -> dict[tuple[str, int], Check]:
    """Every check by its subject, and by its turn where several have the same."""
    found: dict[tuple[str, int], Check] = {}
    for check in _all(evaluation):
        turn = next(i for i in range(len(found) + 1) if (check.subject, i) not in found)
        found[check.subject, turn] = check
    return found


def _all(evaluation: Evaluation) -> Iterator[Check]:
    for result in evaluation.systems:
        yield from (*result.limits, *result.checks)
    for room in evaluation.rooms:
        yield from room.checks


def _differ(one: Check, other: Check) -> bool:
    if (one.standing, one.sense, sorted(one.missing)) != (other.standing, other.sense, sorted(other.missing)):
        return True
    pairs = ((one.value, other.value), (one.bound, other.bound), (one.margin, other.margin))
    return any(_changed(a, b) for a, b in pairs)


def _changed(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is not other
    return abs(one - other) > _ALIKE * max(1.0, abs(one))


def charges_changed(first: Evaluation, second: Evaluation) -> Iterator[Charged]:
    """Every system whose charge differs, and every one that only one of the designs has."""
    old = {result.id: result.charge for result in first.systems}
    new = {result.id: result.charge for result in second.systems}
    for name in [*old, *(name for name in new if name not in old)]:
        one, other = old.get(name), new.get(name)
        found = Charged(
            name,
            one is not None,
            other is not None,
            None if one is None else one.rounded_kg,
            None if other is None else other.rounded_kg,
            None if one is None else one.total_kg,
            None if other is None else other.total_kg,
        )
        differ = _changed(found.additional_before, found.additional_after)
        if differ or found.in_before != found.in_after or _changed(found.total_before, found.total_after):
            yield found
