"""The two programs of cutting, as HiGHS solves them: which groups are worth taking, and which group is missing.

Limits are counts of nodes, never of seconds, so that the same cuts give the same plan on any machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

MOST_NODES = 300
_INFINITE = 1e30


class Group(NamedTuple):
    """Runs that are laid end to end on lengths that are laid end to end: how many of each."""

    cuts: tuple[int, ...]
    lengths: tuple[int, ...]


class Relaxed(NamedTuple):
    """The cheapest mix of the groups at hand, fractions allowed: its cost, that of one more run, how much of each."""

    cost: float
    duals: tuple[float, ...]
    taken: tuple[float, ...]


class Priced(NamedTuple):
    """The group that helps most, and how much any group may help at the most."""

    group: Group
    most: float


def relaxed(groups: Sequence[Group], costs: Sequence[float], wanted: Sequence[int]) -> Relaxed:
    """Solve the choice among groups without wholeness."""
    model = _master(groups, costs, wanted)
    model.run()
    found = model.getSolution()
    return Relaxed(model.getObjectiveValue(), tuple(map(float, found.row_dual)), tuple(map(float, found.col_value)))


class Choice(NamedTuple):
    """How often each group is taken, and whether no other choice is cheaper."""

    counts: list[int]
    proven: bool


class Pricing(NamedTuple):
    """What a helpful group is looked for with: runs [m] and how many, lengths [m] and their costs, worth of a run."""

    lengths: Sequence[float]
    wanted: Sequence[int]
    stock: Sequence[float]
    costs: Sequence[float]
    duals: Sequence[float]


def chosen(groups: Sequence[Group], costs: Sequence[float], wanted: Sequence[int]) -> Choice:
    """Choose how often each group is taken."""
    import highspy  # noqa: PLC0415 - keeps start-up short

    model = _master(groups, costs, wanted)
    for column in range(len(groups)):
        model.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    model.run()
    proven = model.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return Choice([round(value) for value in model.getSolution().col_value], bool(proven))


def price(asked: Pricing) -> Priced:
    """Find the group whose runs are worth most beyond what its lengths cost."""
    import highspy  # noqa: PLC0415 - keeps start-up short

    model = _solver()
    total = sum(length * count for length, count in zip(asked.lengths, asked.wanted, strict=True))
    for dual, count in zip(asked.duals, asked.wanted, strict=True):
        model.addCol(-dual, 0.0, float(count), 0, [], [])
    for length, cost in zip(asked.stock, asked.costs, strict=True):
        model.addCol(cost, 0.0, float(int(total / length) + 1), 0, [], [])
    columns = list(range(len(asked.wanted) + len(asked.stock)))
    for column in columns:
        model.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    model.addRow(-_INFINITE, 0.0, len(columns), columns, [*asked.lengths, *(-length for length in asked.stock)])
    # A group has at least one length.
    model.addRow(1.0, _INFINITE, len(asked.stock), columns[len(asked.wanted) :], [1.0] * len(asked.stock))
    model.run()
    values = [round(value) for value in model.getSolution().col_value]
    bound = -float(model.getInfo().mip_dual_bound)
    kinds = len(asked.wanted)
    return Priced(Group(tuple(values[:kinds]), tuple(values[kinds:])), bound)


def _master(groups: Sequence[Group], costs: Sequence[float], wanted: Sequence[int]) -> Any:  # noqa: ANN401 - untyped
    model = _solver()
    for count in wanted:
        model.addRow(float(count), _INFINITE, 0, [], [])
    for group, cost in zip(groups, costs, strict=True):
        rows = [row for row, count in enumerate(group.cuts) if count]
        model.addCol(cost, 0.0, _INFINITE, len(rows), rows, [float(group.cuts[row]) for row in rows])
    return model


def _solver() -> Any:  # noqa: ANN401 - untyped
    import highspy  # noqa: PLC0415 - keeps start-up short

    model = highspy.Highs()  # type: ignore[no-untyped-call]
    for option, setting in (
        ("output_flag", False),
        ("threads", 1),
        ("random_seed", 1),
        ("mip_rel_gap", 0.0),
        ("mip_max_nodes", MOST_NODES),
    ):
        model.setOptionValue(option, setting)
    return model
