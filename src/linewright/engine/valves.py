"""Where shut-off valves may stand for a room, and what the pipe beyond them holds.

The pipe is reckoned full at the book's own masses per length. What the units beyond contain no book states, so that
this is a lower bound: the maker of the unit has to be asked.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from linewright.book.roles import line_rates
from linewright.engine.ground import Ground
from linewright.engine.sizing import Sized
from linewright.units import over, same_tube


class Valve(NamedTuple):
    """The run at whose beginning valves stand, what the pipe beyond holds [kg], the units there."""

    run: str
    pipe_kg: float
    units: tuple[str, ...]


def valve_for(ground: Ground, sized: Sized, parts: Iterable[str], most_kg: float) -> Valve | None:
    """The place nearest to all parts that cuts them off; none where even there too much is left, or nobody knows."""
    tree = ground.tree
    ways = [tree.path_to(tree.at[name]) for name in parts]
    shared = [run for run in (ways[0] if ways else ()) if all(run in way for way in ways)]
    if not shared:
        return None
    run = shared[-1]
    beyond = [i for i in range(run, len(tree.ids)) if run in tree.path_to(i)]
    pipe_kg = _held(ground, sized, beyond)
    if pipe_kg is None or over(pipe_kg, most_kg):
        return None
    units = {unit.id for unit in ground.system.units}
    return Valve(tree.ids[run], pipe_kg, tuple(sorted(units & {tree.ids[i] for i in beyond})))


def _held(ground: Ground, sized: Sized, runs: Iterable[int]) -> float | None:
    """What some runs hold by the book's masses per length [kg]; none where a length, a size or a mass is not known."""
    total, known = 0.0, False
    rates = [(role, table) for role, table in line_rates(ground.book.book.charge) if table and role in sized.by_role]
    for i in runs:
        run = ground.tree.runs[i]
        length_m = run.as_built_m if run.as_built_m is not None else run.length_m
        for role, table in rates:
            if not ground.carries(i, role):
                continue
            size = sized.by_role[role][i]
            rate = next((kg for listed, kg in table.items() if size is not None and same_tube(listed, size)), None)
            if rate is None or length_m is None:
                return None
            total, known = total + rate * length_m, True
    return total if known else None
