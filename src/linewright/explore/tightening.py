"""What could be less while the system still holds: a smaller outdoor group, smaller units, smaller tubes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import NamedTuple

from linewright.book.compiled import CompiledBook
from linewright.book.naming import group_name
from linewright.book.schema import Group, IndoorModel
from linewright.engine import Evaluation
from linewright.engine.proposals import rated
from linewright.engine.records import ActionResult
from linewright.explore.headroom_records import LeftOut, Tightening, TighteningKind
from linewright.explore.verdicts import Judge, result_of
from linewright.model.design import Design, Module, Outdoor, System
from linewright.model.edits import (
    ChangeModel,
    Edit,
    EditRefusedError,
    ForbidAction,
    OverrideSize,
    SetOutdoor,
    apply,
)
from linewright.model.values import Role
from linewright.units import Dimension, same_tube

Progress = Callable[[int, int, str], None]


class Candidate(NamedTuple):
    """Something that could be smaller: the edit, and its figures before and after."""

    kind: TighteningKind
    subject: str
    words: str
    edit: Edit
    dimension: Dimension
    before: float | None
    after: float | None


def tighten(judge: Judge, design: Design, progress: Progress) -> Iterator[Tightening | LeftOut]:
    """Try each thing that could be less, one at a time, and give those with which all still holds.

    design : with its locks, which are respected: what is locked is given as left out

    Outdoor groups come first, the smallest before the others; then units, tubes and size actions. None is tried
    together with another.
    """
    of = next(item for item in judge.design.systems if item.id == judge.system)
    book = judge.library.books[of.book].with_options(of.options)
    before = result_of(judge.now, of.id).charge.rounded_kg
    found = list(candidates(of, book, judge.now))
    for done, item in enumerate(found):
        if isinstance(item, LeftOut):
            yield item
            continue
        progress(done, len(found), item.words)
        locked = _locked(design, item)
        if locked is not None:
            yield locked
            continue
        verdict, after = judge.after(item.edit)
        if after is not None and verdict.holds:
            yield Tightening(*item, before, result_of(after, of.id).charge.rounded_kg)


def candidates(system: System, book: CompiledBook, now: Evaluation) -> Iterator[Candidate | LeftOut]:
    """Everything that could be less, tried or not."""
    yield from _groups(system, book)
    yield from _units(system, book)
    yield from _tubes(system, book)
    yield from _actions(system, result_of(now, system.id).actions)


def _locked(design: Design, item: Candidate) -> LeftOut | None:
    if not design.locks:
        return None
    try:
        apply(design, item.edit)
    except EditRefusedError as error:
        locked = [fault.message for fault in error.faults if fault.message.startswith("it is locked by ")]
        return LeftOut(item.subject, f"{item.words}: {locked[0]}") if locked else None
    return None


def _groups(system: System, book: CompiledBook) -> Iterator[Candidate | LeftOut]:
    now = book.group_of(tuple(module.model for module in system.outdoor.modules))
    if now is None:
        return
    cooling_w = rated(book, now)[0]
    smaller = [group for group in book.book.outdoor.groups if rated(book, group)[0] < cooling_w]
    subject, not_laid = f"{system.id}/outdoor", 0
    for group in sorted(smaller, key=lambda group: (rated(book, group)[0], group_name(group))):
        outdoor = _outdoor(system.outdoor, group)
        if outdoor is None:
            not_laid += 1
            continue
        words = f"outdoor group {group_name(group)} in place of {group_name(now)}"
        edit, after = SetOutdoor(system=system.id, outdoor=outdoor), rated(book, group)[0]
        yield Candidate(TighteningKind.GROUP, subject, words, edit, Dimension.POWER, cooling_w, after)
    if not_laid:
        noun = "group has" if not_laid == 1 else "groups have"
        why = f"{not_laid} smaller {noun} another count of modules: the pipes between them would have to be laid out"
        yield LeftOut(subject, why)


def _outdoor(now: Outdoor, group: Group) -> Outdoor | None:
    """The group in the places of the one that stands there; none where its module pipes are not known."""
    if len(group.modules) == len(now.modules):
        pairs = zip(now.modules, group.modules, strict=True)
        return replace(now, modules=tuple(replace(module, model=model) for module, model in pairs))
    if len(group.modules) == 1:
        return Outdoor(modules=(Module(model=group.modules[0]),), elevation_m=now.elevation_m)
    return None


def _units(system: System, book: CompiledBook) -> Iterator[Candidate]:
    for unit in system.units:
        smaller = _next_smaller(book, book.models[unit.model])
        if smaller is not None:
            words = f"unit {unit.id} {smaller.model} in place of {unit.model}"
            edit = ChangeModel(system=system.id, id=unit.id, model=smaller.model)
            before = book.models[unit.model].cooling_w
            yield Candidate(
                *(TighteningKind.UNIT, f"{system.id}/unit:{unit.id}", words, edit, Dimension.POWER),
                before,
                smaller.cooling_w,
            )


def _next_smaller(book: CompiledBook, model: IndoorModel) -> IndoorModel | None:
    below = [one for one in book.book.indoor.models if one.kind == model.kind and one.index < model.index]
    return max(below, key=lambda one: one.index, default=None)


def _tubes(system: System, book: CompiledBook) -> Iterator[Candidate]:
    """Sizes that the design states: one step down the ladder, and as the book has it."""
    for run in system.runs:
        for role in sorted(run.override):
            size_m = run.override[role]
            below = _step_below(book.ladders.get(role, ()), size_m)
            subject = f"{system.id}/run:{run.to}.{role}_od"
            of = f"{role.word} line of run {run.from_} - {run.to}"
            for words, after in ((f"{of} one size down", below), (f"{of} by the book's table", None)):
                if after is not None or words.endswith("table"):
                    edit = OverrideSize(system=system.id, run=run.to, role=Role(role), size_m=after)
                    yield Candidate(TighteningKind.TUBE, subject, words, edit, Dimension.TUBE, size_m, after)


def _step_below(ladder: tuple[float, ...], size_m: float) -> float | None:
    return max((size for size in ladder if size < size_m and not same_tube(size, size_m)), default=None)


def _actions(system: System, actions: tuple[ActionResult, ...]) -> Iterator[Candidate]:
    """Elective size actions that are carried out: without them tubes stay as the tables have them."""
    for action in actions:
        if action.chosen and not action.mandatory:
            edit = ForbidAction(system=system.id, action=action.id)
            words = f"without the size action {action.id}"
            subject = f"{system.id}/action:{action.id}"
            yield Candidate(TighteningKind.ACTION, subject, words, edit, Dimension.NUMBER, None, None)
