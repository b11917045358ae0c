"""A design that differs a little from a sound one is found as sound as one that nobody has seen."""

from collections.abc import Callable
from dataclasses import replace
from random import Random
from types import MappingProxyType

from linewright.errors import Fault
from linewright.model.design import Design, Run
from linewright.model.edits.faults import Found
from linewright.model.soundness import check_structure
from linewright.model.values import Role
from tests.edits.test_edits import some_design, some_dice

SEEDS, STEPS = 12, 40
Change = Callable[[Random, Design], Design]


def _of_run(make: Callable[[Random, Run], Run]) -> Change:
    def change(dice: Random, design: Design) -> Design:
        at = dice.randrange(len(design.systems))
        system = design.systems[at]
        of = dice.randrange(len(system.runs))
        runs = (*system.runs[:of], make(dice, system.runs[of]), *system.runs[of + 1 :])
        made = replace(system, runs=runs)
        return replace(design, systems=(*design.systems[:at], made, *design.systems[at + 1 :]))

    return change


def _level(dice: Random, design: Design) -> Design:
    system = design.systems[0]
    units = tuple(replace(unit, elevation_m=dice.choice((None, 0.0, 3.0))) for unit in system.units)
    return replace(design, systems=(replace(system, units=units), *design.systems[1:]))


CHANGES: tuple[Change, ...] = (
    _of_run(lambda dice, run: replace(run, length_m=dice.choice((None, -1.0, 0.0, 2.0, 30.0)))),
    _of_run(lambda dice, run: replace(run, rise_m=dice.choice((None, -4.0, 0.0, 1.5)))),
    _of_run(lambda dice, run: replace(run, as_built_m=dice.choice((None, -2.0, 5.0)))),
    _of_run(lambda dice, run: replace(run, bends=dice.randrange(3))),
    _of_run(lambda dice, run: replace(run, override=MappingProxyType({Role.GAS: dice.choice((0.0, 0.01588))}))),
    _of_run(lambda dice, run: replace(run, ports=dice.choice(((), (0,), (1,))))),
    _of_run(lambda dice, run: replace(run, crosses=dice.choice(((), ("nowhere",))))),
    _of_run(lambda dice, run: replace(run, to=dice.choice((run.to, "J1", "U1")))),
    _level,
    lambda _, design: replace(design, rooms=design.rooms[1:]),
)


def noted(design: Design) -> list[Fault]:
    notes = Found(design)
    check_structure(design, notes)
    return notes.faults


def test_a_changed_design_is_found_as_sound_as_a_new_one() -> None:
    """A project that nobody has seen is checked anew; what a project is called is no fault."""
    found = []
    for seed in range(SEEDS):
        dice, design = some_dice(seed), some_design(seed)
        assert not noted(design)
        for step in range(STEPS):
            changed = dice.choice(CHANGES)(dice, design)
            faults = noted(changed)
            assert faults == noted(replace(changed, project=f"seen by nobody {seed} {step}"))
            found.append(bool(faults))
            design = design if faults else changed
    assert {True, False} == set(found)
