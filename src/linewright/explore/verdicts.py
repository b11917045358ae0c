"""Whether a changed design still holds: everything of one system, and of the rooms that it serves, judged again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from linewright.engine import Evaluation, Library, evaluate
from linewright.engine.evaluate import overall
from linewright.engine.records import Check, Standing, SystemResult
from linewright.model.design import Design
from linewright.model.edits import Edit, EditRefusedError, apply

OPEN = (Standing.UNJUDGED, Standing.TO_CONFIRM)
#: Subject, place in the book (or measure) and sense: what tells one check from another.
Key = tuple[str, str, str]


class Verdict(NamedTuple):
    """Whether a design holds; what is over or no longer judged; why it is no design."""

    gives: tuple[Check, ...] = ()
    faults: tuple[str, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether nothing gives."""
        return not self.gives and not self.faults


def key_of_check(check: Check) -> Key:
    """Give what tells a check from the others of an evaluation."""
    return (check.subject, check.path or check.measure, check.sense.value)


def checks_of(evaluation: Evaluation, system: str) -> Iterator[Check]:
    """Every check of one system and of the rooms that it serves."""
    result = result_of(evaluation, system)
    yield from result.limits
    yield from result.checks
    served = {unit.room for unit in result.system.units}
    for room in evaluation.rooms:
        if room.id in served:
            yield from room.checks


def result_of(evaluation: Evaluation, system: str) -> SystemResult:
    """Give the result of a system."""
    return next(item for item in evaluation.systems if item.id == system)


def standing_of(evaluation: Evaluation, system: str) -> Standing:
    """How a system stands with the rooms that it serves; unjudged where nothing was judged."""
    found = {check.standing for check in checks_of(evaluation, system)}
    return overall(found) if found - {Standing.NOT_APPLICABLE, Standing.UNSTATED} else Standing.UNJUDGED


def alone(design: Design, system: str) -> Design:
    """Leave out the systems that share no room with `system`, by however many others; and the locks.

    What stays is judged as in the whole design: systems meet in rooms only.
    """
    rooms = {item.id: {unit.room for unit in item.units if unit.room} for item in design.systems}
    kept, reached = {system}, set(rooms[system])
    while more := {name for name, served in rooms.items() if name not in kept and served & reached}:
        kept |= more
        reached |= {room for name in more for room in rooms[name]}
    return replace(design, systems=tuple(item for item in design.systems if item.id in kept), locks=())


class Judge:
    """Judges changes of one system; counts how often."""

    def __init__(self, design: Design, library: Library, system: str) -> None:
        """Judge the design as it is; what is open now stays out of every later verdict."""
        self.library, self.system = library, system
        self.design = alone(design, system)
        self.tried = 0
        self.now = self.evaluate(self.design)
        found = list(checks_of(self.now, system))
        self.standing = standing_of(self.now, system)
        self.broken = tuple(check for check in found if check.standing is Standing.OVER)
        self.open = tuple(check for check in found if check.standing in OPEN)
        self._open = {key_of_check(check) for check in self.open}

    def evaluate(self, design: Design) -> Evaluation:
        """Judge a design, and count it."""
        self.tried += 1
        return evaluate(design, self.library)

    def after(self, edit: Edit) -> tuple[Verdict, Evaluation | None]:
        """Say what gives after an edit; no evaluation where it makes no design."""
        try:
            design = apply(self.design, edit).design
        except EditRefusedError as error:
            return Verdict(faults=tuple(_words(fault.message, fault.expected) for fault in error.faults)), None
        evaluation = self.evaluate(design)
        return self.verdict(evaluation), evaluation

    def verdict(self, evaluation: Evaluation) -> Verdict:
        """Say what gives: what is over, and what is open that was not open before; the gravest first."""
        found = [check for check in checks_of(evaluation, self.system) if self._gives(check)]
        return Verdict(tuple(sorted(found, key=lambda check: check.standing is not Standing.OVER)))

    def _gives(self, check: Check) -> bool:
        if check.standing in OPEN:
            return key_of_check(check) not in self._open
        return check.standing is Standing.OVER


def _words(message: str, expected: str) -> str:
    return f"{message}; expected {expected}" if expected else message
