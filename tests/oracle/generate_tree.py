"""Random trees of 1 to 64 indoor units: topology, lengths, levels and what is said of them."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from itertools import pairwise

from linewright.model.design import ROOT, Fitting, Item, Run
from linewright.model.values import NodeKind
from tests.oracle.generate_dice import Dice
from tests.oracle.naive_numbers import exact

ITEMS = ("valve", "trap", "trap", "loop", "sleeve")


@dataclass
class Grown:
    """A tree and the true level of each of its nodes [m]."""

    dice: Dice
    units: list[str]
    runs: list[Run] = field(default_factory=list)
    fittings: list[Fitting] = field(default_factory=list)
    level: dict[str, Decimal] = field(default_factory=dict)
    names: list[str] = field(default_factory=list)

    def under(self, node: str) -> list[str]:
        if node in self.units:
            return [node]
        return [unit for run in self.runs if run.from_ == node for unit in self.under(run.to)]


def grow(dice: Dice, count: int) -> Grown:
    """Names are dealt at random, so that their order says nothing of the tree."""
    names = [f"U{number}" for number in range(1, count + 1)]
    joints = [f"J{number}" for number in range(1, 3 * count + 5)]
    dice.rng.shuffle(names)
    dice.rng.shuffle(joints)
    grown = Grown(dice=dice, units=sorted(names), names=joints)
    grown.level[ROOT] = exact(dice.length_m(-20, 40))
    _extend(grown, ROOT, names)
    dice.rng.shuffle(grown.runs)
    return grown


def _extend(grown: Grown, near: str, units: list[str]) -> None:
    dice = grown.dice
    if dice.maybe(0.12):
        near = _run(grown, near, grown.names.pop())
        if dice.maybe(0.3):
            _say(grown, near, dice.pick((NodeKind.COUPLING, NodeKind.COUPLING, NodeKind.JOINT)))
    if len(units) == 1:
        _run(grown, near, units[0])
        return
    node = _run(grown, near, grown.names.pop())
    header = dice.maybe(0.2)
    arms = dice.between(2, min(6, len(units))) if header else 2 + (len(units) > 2 and dice.maybe(0.06))
    if header or dice.maybe(0.2):
        _say(grown, node, NodeKind.HEADER if header else NodeKind.JOINT)
    elif dice.maybe(0.3) or not dice.lacks:
        _say(grown, node, None)
    for part in _split(dice, units, arms):
        _extend(grown, node, part)


def _split(dice: Dice, units: list[str], arms: int) -> list[list[str]]:
    """Comb-like or anyhow: a pipe along a corridor gives off one unit after the other."""
    comb = dice.maybe(0.4)
    cuts = list(range(1, arms)) if comb else sorted(dice.rng.sample(range(1, len(units)), arms - 1))
    return [units[low:high] for low, high in pairwise([0, *cuts, len(units)])]


def _run(grown: Grown, near: str, far: str) -> str:
    dice = grown.dice
    length = dice.length_m(*dice.pick(((0, 3), (1, 10), (3, 25), (10, 40))))
    climb = Decimal(0)
    if dice.maybe(0.5):
        climb = dice.pick((Decimal(1), Decimal("0.5"), Decimal("-0.5"), Decimal(-1))) * exact(length)
    grown.level[far] = grown.level[near] + climb
    grown.runs.append(
        Run(
            from_=near,
            to=far,
            length_m=length if not dice.lacking(0.02) else None,
            rise_m=float(climb) if dice.maybe(0.3) else None,
            bends=dice.pick((0, 0, 1, 2, 4)),
            items=tuple(Item(kind=dice.pick(ITEMS), count=dice.between(1, 2)) for _ in range(dice.maybe(0.15))),
            as_built_m=dice.length_m(1, 20) if dice.maybe(0.06) else None,
        )
    )
    return far


def _say(grown: Grown, node: str, kind: NodeKind | None) -> None:
    dice = grown.dice
    grown.fittings.append(
        Fitting(
            id=node,
            kind=kind,
            elevation_m=float(grown.level[node]) if dice.maybe(0.4) else None,
            straight_before_m=dice.length_m(0, 2) if not dice.lacking(0.3) else None,
            straight_after_m=dice.length_m(0, 2) if not dice.lacking(0.3) else None,
        )
    )
