"""The tree of one system, by plain dictionaries, and what its book says of its parts."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property

from linewright.book.schema import Book, Group, IndoorModel, OutdoorModule
from linewright.model.design import ROOT, Design, Run, System, Unit
from linewright.model.values import NodeKind
from tests.oracle.naive_numbers import ZERO, exact

BRANCHES = (NodeKind.JOINT, NodeKind.HEADER)


@dataclass
class Facts:
    """One system with its design and book, and its tree; a run is named by its far node."""

    design: Design
    system: System
    book: Book
    group: Group
    run: dict[str, Run] = field(default_factory=dict)
    arms: dict[str, list[str]] = field(default_factory=dict)
    kind: dict[str, NodeKind] = field(default_factory=dict)
    unit: dict[str, Unit] = field(default_factory=dict)
    level: dict[str, Decimal] = field(default_factory=dict)
    assumed: set[str] = field(default_factory=set)

    @cached_property
    def _ways(self) -> dict[str, list[str]]:
        return {node: self._walked(node) for node in (ROOT, *self.run)}

    @cached_property
    def _branches(self) -> list[str]:
        return sorted(node for node in self.run if self.is_branch(node))

    @cached_property
    def _first_branch(self) -> str | None:
        firsts = [node for node in self.branches() if len(self.branches_on(node)) == 1]
        assert len(firsts) <= 1
        return firsts[0] if firsts else None

    def _walked(self, node: str) -> list[str]:
        return [] if node == ROOT else [*self._walked(self.run[node].from_), node]

    def way(self, node: str) -> list[str]:
        """The runs from the root to a node."""
        return self._ways[node]

    def units_under(self, node: str) -> list[str]:
        if node in self.unit:
            return [node]
        return sorted(unit for arm in self.arms[node] for unit in self.units_under(arm))

    def is_branch(self, node: str) -> bool:
        return self.kind.get(node) in BRANCHES

    def branches(self) -> list[str]:
        return self._branches

    def first_branch(self) -> str | None:
        return self._first_branch

    def branches_on(self, node: str) -> list[str]:
        """Branch fittings on the way to a node, the node itself with them."""
        return [step for step in self.way(node) if self.is_branch(step)]

    def main(self) -> list[str]:
        """The runs of the main; with no branch fitting the whole way to the unit."""
        first = self.first_branch()
        return self.way(first if first is not None else min(self.unit))

    def after_first(self, node: str) -> list[str]:
        return [step for step in self.way(node) if step not in self.main()]

    def own_run(self, unit: str) -> list[str]:
        """The runs from the last branch fitting to a unit."""
        way = self.way(unit)
        last = self.branches_on(unit)[-1]
        return way[way.index(last) + 1 :]

    def model(self, unit: str) -> IndoorModel:
        return next(m for m in self.book.indoor.models if m.model == self.unit[unit].model)

    def index(self, node: str) -> Decimal:
        """Sum of indoor indices downstream."""
        return sum((exact(self.model(unit).index) for unit in self.units_under(node)), ZERO)

    def indoor_index(self) -> Decimal:
        return sum((exact(self.model(unit).index) for unit in self.unit), ZERO)

    def modules(self) -> list[OutdoorModule]:
        by_model = {module.model: module for module in self.book.outdoor.modules}
        return [by_model[module.model] for module in self.system.outdoor.modules]

    def group_key(self) -> str:
        return self.group.id or "+".join(self.group.modules)


def facts_of(design: Design, system: System, book: Book) -> Facts:
    models = sorted(module.model for module in system.outdoor.modules)
    group = next(g for g in book.outdoor.groups if sorted(g.modules) == models)
    facts = Facts(design=design, system=system, book=book, group=group)
    facts.unit = {unit.id: unit for unit in system.units}
    facts.run = {run.to: run for run in system.runs}
    for node in (ROOT, *facts.run):
        facts.arms[node] = sorted(run.to for run in system.runs if run.from_ == node)
    stated = {fitting.id: fitting.kind for fitting in system.fittings if fitting.kind is not None}
    for node in facts.run:
        facts.kind[node] = _kind(facts, node, stated)
    _levels(facts)
    return facts


def _kind(facts: Facts, node: str, stated: dict[str, NodeKind]) -> NodeKind:
    if node in facts.unit:
        return NodeKind.UNIT
    if node in stated:
        return stated[node]
    return NodeKind.JOINT if len(facts.arms[node]) > 1 else NodeKind.COUPLING


def _levels(facts: Facts) -> None:
    if facts.system.outdoor.elevation_m is not None:
        facts.level[ROOT] = exact(facts.system.outdoor.elevation_m)
    stated = [(unit.id, unit.elevation_m) for unit in facts.system.units]
    stated += [(fitting.id, fitting.elevation_m) for fitting in facts.system.fittings]
    facts.level.update({name: exact(level) for name, level in stated if level is not None})
    _by_stated_rises(facts)
    assumed = {node: _nearest_level(facts, node) for node in facts.run if _needs_level(facts, node)}
    for node, level in assumed.items():
        if level is not None:
            facts.level[node] = level
            facts.assumed.add(node)


def _needs_level(facts: Facts, node: str) -> bool:
    return node not in facts.level and node not in facts.unit


def _by_stated_rises(facts: Facts) -> None:
    """Take levels over stated rises until nothing more follows: outward first, then inward."""
    while _outward(facts) or _inward(facts):
        pass


def _outward(facts: Facts) -> bool:
    for node, run in facts.run.items():
        if node not in facts.level and run.from_ in facts.level and run.rise_m is not None:
            facts.level[node] = facts.level[run.from_] + exact(run.rise_m)
            return True
    return False


def _inward(facts: Facts) -> bool:
    for node in sorted(facts.run):
        rise = facts.run[node].rise_m
        near = facts.run[node].from_
        if near != ROOT and near not in facts.level and node in facts.level and rise is not None:
            facts.level[near] = facts.level[node] - exact(rise)
            return True
    return False


def _nearest_level(facts: Facts, node: str) -> Decimal | None:
    """Level of the unit of known level nearest downstream along the pipe."""

    def distance(unit: str) -> Decimal:
        beyond = [step for step in facts.way(unit) if step not in facts.way(node)]
        return sum((exact(facts.run[step].length_m or 0.0) for step in beyond), ZERO)

    known = [unit for unit in facts.units_under(node) if unit in facts.level]
    return facts.level[min(known, key=lambda unit: (distance(unit), unit))] if known else None


def rise_of(facts: Facts, node: str) -> Decimal | None:
    """Change of level over a run, outward."""
    run = facts.run[node]
    if run.rise_m is not None:
        return exact(run.rise_m)
    if run.from_ in facts.level and node in facts.level:
        return facts.level[node] - facts.level[run.from_]
    return None
