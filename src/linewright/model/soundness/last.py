"""What was found sound last: of a design that differs from it only in numbers of runs, these alone are looked at."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace

from linewright.model.design import Design, Run, System
from linewright.model.soundness.notes import Notes
from linewright.model.soundness.numbers import check_run
from linewright.model.soundness.rises import check_levels, stated_levels
from linewright.units import UnitSystem

#: Projects of which a design is kept at hand.
_MOST_KEPT = 40


class LastSound:
    """The design of each project that was found sound last."""

    def __init__(self, check: Callable[[Design, Notes], None]) -> None:
        """Keep how a design is checked, which must depend on nothing else."""
        self._check = check
        self._last: dict[str, Design] = {}

    def __call__(self, design: Design) -> bool:
        """Say whether nothing can be noted of a design."""
        last = self._last.get(design.project)
        sound = (last is not None and _is_as_sound(design, last)) or _notes_nothing(lambda: self._check(design, _FIRST))
        if sound:
            if len(self._last) >= _MOST_KEPT:
                self._last.clear()
            self._last[design.project] = design
        return sound


def _is_as_sound(design: Design, last: Design) -> bool:
    """Say whether a design differs from a sound one in nothing but numbers of runs, and these can be."""
    return (
        len(design.systems) == len(last.systems)
        and replace(design, systems=last.systems) == last
        and all(_system_is(one, before) for one, before in zip(design.systems, last.systems, strict=True))
    )


def _system_is(system: System, last: System) -> bool:
    if system is last:
        return True
    if len(system.runs) != len(last.runs) or replace(system, runs=last.runs) != last:
        return False
    changed = [(run, was) for run, was in zip(system.runs, last.runs, strict=True) if run is not was]
    return all(_differs_in_numbers(run, was) for run, was in changed) and _notes_nothing(
        lambda: _check_numbers(system, [run for run, _ in changed])
    )


def _differs_in_numbers(run: Run, was: Run) -> bool:
    """Say whether two runs differ in nothing but what is checked of a run by itself."""
    numbered = replace(
        was,
        length_m=run.length_m,
        rise_m=run.rise_m,
        as_built_m=run.as_built_m,
        override=run.override,
        bends=run.bends,
    )
    return numbered == run


def _check_numbers(system: System, runs: Collection[Run]) -> None:
    stated = stated_levels(system)
    for run in runs:
        check_run(run, "", _FIRST)
        check_levels(run, stated, "", notes=_FIRST, units=UnitSystem.SI)


class _FoundError(Exception):
    """There is something to note."""


class _First:
    """Ends a check at its first fault; nothing is in doubt, so that whoever doubts finds no other fault."""

    def derive(self, path: str, message: str, expected: str = "") -> None:  # noqa: ARG002 - what it is does not matter
        raise _FoundError

    def sound(self, *paths: str) -> bool:  # noqa: ARG002 - nothing is in doubt
        return True

    def stands(self, path: str) -> bool:  # noqa: ARG002 - the words of a fault do not matter
        return True

    def place(self, path: str) -> str:
        return path

    def written(self, path: str) -> str:
        return path

    def nearest(self, name: str, known: Collection[str], *, alike: float = 0.6) -> str | None:  # noqa: ARG002
        return None

    def one_of(self, name: str, known: Collection[str], *, otherwise: str = "") -> str:  # noqa: ARG002
        return otherwise


_FIRST = _First()


def _notes_nothing(check: Callable[[], None]) -> bool:
    try:
        check()
    except _FoundError:
        return False
    return True
