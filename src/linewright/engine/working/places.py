"""Where the inputs of a system stand: in the design file, in a book, or under another subject."""

from __future__ import annotations

from typing import NamedTuple

from linewright.book.schema import MeasureUse
from linewright.engine.figures import Series
from linewright.engine.measures.registry import measure_anew
from linewright.engine.records import Evaluation, RunResult, SystemResult, UnitResult
from linewright.engine.working.steps import Input
from linewright.model.design import Room
from linewright.model.values import Role
from linewright.units import Dimension


class Places(NamedTuple):
    """One system of an evaluation, with look-up of its records by id."""

    evaluation: Evaluation
    result: SystemResult
    system_path: str
    runs: dict[str, RunResult]
    units: dict[str, UnitResult]

    @property
    def id(self) -> str:
        """Id of the system."""
        return self.result.id

    @property
    def book(self) -> str:
        """Id of the system's book."""
        return self.result.book

    def subject(self, rest: str) -> str:
        """A subject of this system."""
        return f"{self.id}/{rest}"

    def in_book(self, path: str) -> str:
        """A place in the system's book."""
        return f"book:{self.book}:{self.result.state.ground.book.where(path)}"

    def run_path(self, run: str) -> str:
        """Where a run stands in the design."""
        runs = self.result.system.runs
        return f"design:{self.system_path}.runs[{next(i for i, item in enumerate(runs) if item.to == run)}]"

    def unit_path(self, unit: str) -> str:
        """Where a unit stands in the design."""
        units = self.result.system.units
        return f"design:{self.system_path}.units[{next(i for i, item in enumerate(units) if item.id == unit)}]"

    def model_path(self, model: str) -> str:
        """Where an indoor model stands in the book."""
        models = self.result.state.ground.book.book.indoor.models
        return self.in_book(f"indoor.models[{next(i for i, item in enumerate(models) if item.model == model)}]")

    def group_path(self) -> str:
        """Where the outdoor group stands in the book."""
        ground = self.result.state.ground
        return self.in_book(f"outdoor.groups[{ground.book.book.outdoor.groups.index(ground.group)}]")

    def measured(self, use: MeasureUse) -> Series:
        """A measure that no limit of the book names."""
        return measure_anew(self.result.state, use)

    def way_to(self, node: str, *, after: str | None = None) -> tuple[str, ...]:
        """Ids of the runs from the root (or from beyond the node `after`) to `node`."""
        tree = self.result.tree
        names = [tree.ids[i] for i in tree.path_to(tree.at[node])]
        return tuple(names[names.index(after) + 1 :] if after is not None else names)

    def run_length(self, run: str, *, equivalent: bool, role: Role | None = None) -> Input:
        """Actual or equivalent length of a run as an input [m]; an unknown one stands as 0."""
        if not equivalent:
            length = self.runs[run].length_m
            note = "" if length is not None else " (unknown, counted as 0)"
            return Input(f"length of {run}{note}", length or 0.0, Dimension.LENGTH, f"{self.run_path(run)}.length")
        lengths = self.result.state.lengths
        line = lengths.equivalent[lengths.roles.index(role) if role is not None else 0]
        at = self.result.tree.at[run]
        which = f"_{role}" if role is not None and len(lengths.roles) > 1 else ""
        note = " (lower bound)" if line.run_missing[at] else ""
        return Input(
            f"equivalent length of {run}{note}",
            line.run_m[at],
            Dimension.LENGTH,
            self.subject(f"run:{run}.equivalent{which}"),
        )

    def room(self, name: str) -> tuple[int, Room] | None:
        """A room and its position in the design."""
        return next(((i, room) for i, room in enumerate(self.evaluation.design.rooms) if room.id == name), None)


def places(evaluation: Evaluation, result: SystemResult) -> Places:
    """Make the look-up for one system."""
    position = next(i for i, system in enumerate(evaluation.design.systems) if system.id == result.id)
    return Places(
        evaluation,
        result,
        f"systems[{position}]",
        {run.id: run for run in result.runs},
        {unit.id: unit for unit in result.units},
    )
