"""Where moves are looked for: one failing check, and the system that it is about as it stands in a trial."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.compiled import CompiledBook
from linewright.book.measures import MeasureName
from linewright.book.schema import Limit, Need
from linewright.engine.library import Library
from linewright.engine.records import Check, CheckKind, RoomResult, Sense, SystemResult
from linewright.explore.remedies.wanted import Wanted
from linewright.model.design import Design, System
from linewright.model.tree import NO_PARENT, Tree
from linewright.model.values import value
from linewright.units import Amount

#: Straight pipe between two fittings where the book gives none [m]; common practice, no source.
SPACING_M = 0.5


@value
class At:
    """One failing check in one system of a trial, and the other checks that fail with it.

    rooms : those that the system serves; others : the other systems of the design
    names : of nodes that may not be given anew
    """

    design: Design
    library: Library
    result: SystemResult
    check: Check
    failing: tuple[Check, ...]
    rooms: tuple[RoomResult, ...]
    others: tuple[SystemResult, ...]
    wanted: Wanted
    names: frozenset[str]

    @property
    def system(self) -> System:
        """The system."""
        return self.result.system

    @property
    def tree(self) -> Tree:
        """Its tree."""
        return self.result.tree

    @property
    def book(self) -> CompiledBook:
        """Its book, with the options that are on."""
        return self.result.state.ground.book

    @property
    def limit(self) -> Limit | None:
        """The limit of the book that the check is on; none where it is on something else."""
        if self.check.kind is not CheckKind.LIMIT:
            return None
        return self.book.book.limits[int(self.check.path.removeprefix("limits[").removesuffix("]"))]

    @property
    def needs(self) -> tuple[Need, ...]:
        """What the wider bounds of the limit need."""
        limit = self.limit
        return () if limit is None else tuple(need for relaxed in limit.relaxed for need in relaxed.needs)

    @property
    def measures(self) -> frozenset[str]:
        """The measure that fails, and those on which its wider bounds depend."""
        return frozenset({self.check.measure, *(need.measure.value for need in self.needs if need.measure)})

    @property
    def beyond(self) -> float:
        """By how much the check is beyond its bound, in its own dimension; 0 where that is not known."""
        return max(0.0, -(self.check.margin or 0.0))

    @property
    def spacing_m(self) -> float:
        """The least length between two fittings [m]: the book's, else what is common."""
        for limit in self.book.book.limits:
            if limit.measure is MeasureName.JOINT_SPACING and isinstance(limit.min, Amount):
                return limit.min.value
        return SPACING_M

    @property
    def governing(self) -> tuple[int, ...]:
        """Runs to what governs, in the order in which it is named."""
        return tuple(self.tree.at[name] for name in self.check.governs if name in self.tree.at)

    def path(self, run: int) -> tuple[int, ...]:
        """Runs from the outdoor group to (and with) a run."""
        return self.tree.path_to(run)

    def beyond_node(self, run: int) -> Iterator[int]:
        """A run and all beyond it."""
        yield run
        for child in self.tree.children[run]:
            yield from self.beyond_node(child)

    def length_m(self, run: int) -> float | None:
        """Length of a run [m]."""
        return self.tree.runs[run].length_m

    def near(self, run: int) -> int:
        """The run before a run, or NO_PARENT."""
        return self.tree.parent[run]

    @property
    def is_largest(self) -> bool:
        """Whether the bound is a largest value."""
        return self.check.sense is Sense.MAX

    def name_of(self, run: int) -> str:
        """Name of the far node of a run; of none that of the outdoor group."""
        return "outdoor" if run == NO_PARENT else self.tree.ids[run]


def fresh(at: At, letter: str) -> str:
    """Give a name that no node has or had: the letter and the next number."""
    found = [name[len(letter) :] for name in at.names if name.startswith(letter)]
    number = max((int(digits) for digits in found if digits.isdigit()), default=0) + 1
    return f"{letter}{number}"
