"""Tube sizes: from the tables, with overrides, size actions and the cap at the main."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import NamedTuple

from linewright.book.schema import Cap, Capped, MainBy, SizeAction, SizeRow, UnitSizing
from linewright.model.values import Role
from tests.oracle.naive_numbers import ONE, exact, find_band, larger_tube, same_tube
from tests.oracle.naive_tree import Facts

ROLES = (Role.GAS, Role.LIQUID)


class Tube(NamedTuple):
    """One tube of a run: its size by the table, by the designer, and in the end [m]."""

    table: Decimal | None
    override: Decimal | None
    od: Decimal | None


@dataclass
class Sizes:
    """Every tube of every run, and which actions are carried out."""

    tubes: dict[tuple[str, Role], Tube]
    carried: dict[str, bool] = field(default_factory=dict)

    def od(self, run: str, role: Role) -> Decimal | None:
        return self.tubes[run, role].od


def table_size(facts: Facts, run: str, role: Role) -> Decimal | None:
    size = _table_sizes(facts, run).get(role)
    return None if size is None else exact(size)


def _table_sizes(facts: Facts, run: str) -> Mapping[Role, float]:
    sizing = facts.book.sizing
    if run in facts.main():
        return _row_sizes(_main_row(facts))
    owners = [unit for unit in facts.units_under(run) if run in facts.own_run(unit)]
    if not owners:
        return _row_sizes(find_band(sizing.branch.rows, facts.index(run)))
    if isinstance(sizing.unit, UnitSizing):
        return facts.model(owners[0]).ports
    return _row_sizes(find_band(sizing.unit.rows, facts.index(owners[0])))


def _row_sizes(row: SizeRow | None) -> Mapping[Role, float]:
    return row.sizes if row is not None else {}


def _main_row(facts: Facts) -> SizeRow | None:
    table = facts.book.sizing.main
    if table.by is MainBy.GROUP:
        return next((row for row in table.rows if row.group == facts.group_key()), None)
    outdoor = exact(facts.group.index)
    number = {
        MainBy.OUTDOOR_INDEX: outdoor,
        MainBy.INDOOR_INDEX: facts.indoor_index(),
        MainBy.SMALLER: min(outdoor, facts.indoor_index()),
    }[table.by]
    return find_band(table.rows, number)


def override_of(facts: Facts, run: str, role: Role) -> Decimal | None:
    size = facts.run[run].override.get(role)
    return None if size is None else exact(size)


def base_sizes(facts: Facts) -> Sizes:
    """Override, else the table size, no larger than the main's where the book caps."""
    tubes = {}
    for run in facts.run:
        for role in ROLES:
            table, override = table_size(facts, run, role), override_of(facts, run, role)
            tubes[run, role] = Tube(table, override, table if override is None else override)
    return Sizes(_capped(facts, tubes))


def _capped(facts: Facts, tubes: dict[tuple[str, Role], Tube]) -> dict[tuple[str, Role], Tube]:
    if facts.book.sizing.cap is not Cap.MAIN:
        return tubes
    result = dict(tubes)
    for (run, role), tube in tubes.items():
        main = main_size(facts, tubes, role)
        if run in facts.main() or main is None or tube.od is None or tube.override is not None:
            continue
        if larger_tube(tube.od, main):
            result[run, role] = tube._replace(od=main)
    return result


def main_size(facts: Facts, tubes: dict[tuple[str, Role], Tube], role: Role) -> Decimal | None:
    """The main's tube; of several sizes the largest."""
    known = [od for run in facts.main() if (od := tubes[run, role].od) is not None]
    return max(known) if known else None


def ladder(facts: Facts, role: Role) -> list[Decimal]:
    return sorted(exact(size) for size in facts.book.tubes.ladders[role])


def stepped(facts: Facts, role: Role, size: Decimal, *, steps: int) -> Decimal | None:
    """The size so many steps up the ladder; none past its end."""
    sizes = ladder(facts, role)
    at = next(i for i, step in enumerate(sizes) if same_tube(step, size))
    return sizes[at + steps] if at + steps < len(sizes) else None


def steps_up(facts: Facts, sizes: Sizes, run: str, *, role: Role) -> int:
    """How many steps of the ladder a tube is above its table size."""
    tube = sizes.tubes[run, role]
    if tube.od is None or tube.table is None:
        return 0
    return sum(larger_tube(step, tube.table) and not larger_tube(step, tube.od) for step in ladder(facts, role))


def is_up(sizes: Sizes, run: str) -> bool:
    """Whether any tube of a run is larger than its table size."""
    tubes = [sizes.tubes[run, role] for role in ROLES]
    return any(t.od is not None and t.table is not None and larger_tube(t.od, t.table) for t in tubes)


def act(facts: Facts, actions: Mapping[str, list[str]]) -> Sizes:
    """Carry out actions, each on its runs, then cap."""
    by_id = {action.id: action for action in facts.book.sizing.actions}
    tubes = dict(base_sizes(facts).tubes)
    for run, role in tubes:
        steps = [by_id[a].steps for a, runs in actions.items() if run in runs and role in by_id[a].lines]
        tubes[run, role] = _up(facts, run, role, steps=steps)
    if facts.book.sizing.capped is Capped.RAISES_MAIN:
        _raise_main(facts, tubes, actions, by_id=by_id)
    sizes = Sizes(_capped(facts, tubes))
    for action, runs in actions.items():
        sizes.carried[action] = all(
            _is_carried(facts, sizes.tubes[run, role], tubes[run, role], role=role, steps=by_id[action].steps)
            for run in runs
            for role in by_id[action].lines
        )
    return sizes


def _up(facts: Facts, run: str, role: Role, *, steps: list[int]) -> Tube:
    table, override = table_size(facts, run, role), override_of(facts, run, role)
    if override is not None or table is None:
        return Tube(table, override, override)
    raised = stepped(facts, role, table, steps=max(steps)) if steps else None
    return Tube(table, override, table if raised is None else raised)


def _raise_main(
    facts: Facts,
    tubes: dict[tuple[str, Role], Tube],
    actions: Mapping[str, list[str]],
    *,
    by_id: Mapping[str, SizeAction],
) -> None:
    if facts.book.sizing.cap is not Cap.MAIN:
        return
    for role in ROLES:
        touched = {run for a, runs in actions.items() if role in by_id[a].lines for run in runs}
        asked = [t for run in touched if (t := tubes[run, role]).override is None and t.table is not None]
        wanted = [t.od for t in asked if t.od is not None and t.table is not None and larger_tube(t.od, t.table)]
        for run in facts.main():
            tube = tubes[run, role]
            if tube.override is None and tube.od is not None and wanted and larger_tube(max(wanted), tube.od):
                tubes[run, role] = tube._replace(od=max(wanted))


def _is_carried(facts: Facts, tube: Tube, uncapped: Tube, *, role: Role, steps: int) -> bool:
    """Whether a tube is so many steps up; `capped: counts` asks for its size before the cap."""
    counted = uncapped if facts.book.sizing.capped is Capped.COUNTS else tube
    if tube.table is None or counted.od is None:
        return False
    due = stepped(facts, role, tube.table, steps=steps)
    return due is not None and not larger_tube(due, counted.od)


def upsized_main_steps(facts: Facts, sizes: Sizes, run: str, *, line: str) -> int:
    """Steps that a run of the main counts as up: of one line, or the lesser of both."""
    roles = ROLES if line == "both" else (Role(line),)
    return min(steps_up(facts, sizes, run, role=role) for role in roles)


def factor_for(factors: Mapping[int, float], steps: int) -> Decimal:
    """The factor for so many steps; for more steps than are listed the last that is."""
    listed = [count for count in factors if count <= steps]
    return exact(factors[max(listed)]) if listed else ONE
