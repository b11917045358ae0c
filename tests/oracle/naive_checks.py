"""Verdicts beside the limits: sizes, overrides, actions, fittings, charge and capacity of one system."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import NamedTuple

from linewright.book.schema import ActionRuns, Cap, SizeAction
from linewright.model.values import NodeKind, Role
from tests.oracle.naive_capacity import Mode
from tests.oracle.naive_charge import Charge, is_over_cap
from tests.oracle.naive_limits import holds
from tests.oracle.naive_numbers import exact, larger_tube, over, same_tube
from tests.oracle.naive_pipes import pipe_size
from tests.oracle.naive_sizes import ROLES, Sizes, base_sizes, ladder, main_size
from tests.oracle.naive_tree import Facts


class Judged(NamedTuple):
    """What is judged, by which measure, and how it stands."""

    subject: str
    measure: str
    standing: str


def size_checks(facts: Facts, sizes: Sizes) -> Iterator[Judged]:
    for run in facts.run:
        if any(sizes.tubes[run, role].table is None for role in ROLES):
            yield Judged(f"run:{run}", "table_index", "over")
        for role in facts.run[run].override:
            yield Judged(f"run:{run}.{role}", "override", _override(facts, sizes, run, role))
    for pipe in facts.system.outdoor.pipes:
        if any(pipe_size(facts, pipe, role) is None for role in ROLES):
            yield Judged(f"module_pipe:{pipe.to}", "table_index", "over")


def _override(facts: Facts, sizes: Sizes, run: str, role: Role) -> str:
    table, size = sizes.tubes[run, role].table, sizes.tubes[run, role].override
    assert size is not None
    if not any(same_tube(step, size) for step in ladder(facts, role)):
        return "over"
    if table is None:
        return "unjudged"
    main = main_size(facts, sizes.tubes, role)
    beyond = facts.book.sizing.cap is Cap.MAIN and run not in facts.main() and main is not None
    if larger_tube(table, size) or (beyond and main is not None and larger_tube(size, main)):
        return "over"
    up = sum(larger_tube(step, table) and not larger_tube(step, size) for step in ladder(facts, role))
    return "within" if up <= max([0, *_steps_given(facts, run, role)]) else "unjudged"


def _steps_given(facts: Facts, run: str, role: Role) -> list[int]:
    """Steps of each action that may touch a tube in some design."""
    return [a.steps for a in facts.book.sizing.actions if role in a.lines and _may_touch(facts, a, run)]


def _may_touch(facts: Facts, action: SizeAction, run: str) -> bool:
    if action.runs is ActionRuns.PATH:
        return True
    if run in facts.main():
        return action.runs is ActionRuns.MAIN
    if any(run in facts.own_run(unit) for unit in facts.unit):
        return action.runs is ActionRuns.UNIT_RUN or action.unit_run
    return action.runs is ActionRuns.FIRST_TO_LAST_BRANCH


def action_checks(facts: Facts, sizes: Sizes) -> Iterator[Judged]:
    """A mandatory action that is due and forbidden is over; one that may be due is unjudged."""
    base = base_sizes(facts)
    for action in facts.book.sizing.actions:
        due = False if action.when is None else holds(facts, base, action.when)
        if due is None:
            yield Judged(f"action:{action.id}", "size_action", "unjudged")
        elif due:
            done = sizes.carried.get(action.id, False)
            yield Judged(f"action:{action.id}", "size_action", "within" if done else "over")


def fitting_checks(facts: Facts, models: Mapping[str, str]) -> Iterator[Judged]:
    for branch in facts.branches():
        if not models[branch]:
            yield Judged(f"fitting:{branch}", "fitting", "over")
        elif facts.kind[branch] is NodeKind.HEADER and _is_port_over(facts, branch, models[branch]):
            yield Judged(f"fitting:{branch}", "header_port", "over")


def _is_port_over(facts: Facts, header: str, model: str) -> bool:
    table = facts.book.fittings.header
    most = next((row.port_index for row in table.rows if row.model == model), None) if table is not None else None
    return most is not None and any(over(facts.index(arm), exact(most)) for arm in facts.arms[header])


def charge_check(facts: Facts, charge: Charge) -> Iterator[Judged]:
    if charge.additional is None:
        yield Judged("charge", "additional_charge", "unjudged")
    elif facts.book.charge.max_kg is not None:
        yield Judged("charge", "additional_charge", "over" if is_over_cap(facts, charge) else "within")


def capacity_check(mode: Mode, block: Decimal | None) -> Judged:
    capacity = mode.whole_capacity
    standing = "unjudged"
    if capacity is not None and block is not None:
        standing = "over" if over(block, capacity) else "within"
    return Judged(f"capacity.{mode.name}", f"system_{mode.name}", standing)
