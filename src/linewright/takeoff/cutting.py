"""Cutting tube: which lengths to buy and how to lay runs on them, so that waste and couplings are least.

Runs that share lengths make a group. Laid end to end on lengths laid end to end, a group of b lengths needs at most
b - 1 couplings, and no group needs less: its pieces hang together as a tree. So a group costs its lengths, each with a
coupling, less one coupling, and the plan is the cheapest set of groups in which every run stands once. Groups are
found one by one where they help (column generation); what the last of them may still help bounds every plan.

Lengths are whole millimetres.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import combinations_with_replacement, product
from math import ceil, gcd, prod
from typing import NamedTuple

from linewright.takeoff.highs import Group, Pricing, chosen, price, relaxed

#: Sets of runs that are all looked at where there are no more of them; else so many groups
#: are added, by the number of different runs.
MOST_COUNTED, MOST_WORK = 2_000, 1_200
#: Steps in which a plan is put together group by group, and groups that are added at each.
MOST_STEPS, MOST_AT_STEP = 40, 6
#: A group that helps by less is none [m].
_HELPS = 1e-6
_MM = 1000.0


class Plan(NamedTuple):
    """Groups as positions of runs and lengths [mm], and the least that any plan costs [mm].

    A plan costs its lengths and, for each group of b lengths, b - 1 couplings.
    """

    groups: tuple[tuple[tuple[int, ...], tuple[int, ...]], ...]
    cost_mm: int
    bound_mm: int
    proven: bool = False


def cut_plan(runs_mm: Sequence[int], stock_mm: Sequence[int], coupling_mm: int) -> Plan:
    """Plan the cuts of runs out of lengths; a coupling counts as so much tube.

    runs_mm : 1 or more, each above 0; stock_mm : lengths that are sold, 1 or more, each above 0.
    """
    if not runs_mm:
        return Plan((), 0, 0)
    stock = sorted(set(stock_mm))
    kinds = sorted(Counter(runs_mm).items(), reverse=True)
    problem = _Problem([size for size, _ in kinds], [count for _, count in kinds], stock, coupling_mm)
    groups, every, bound = _columns(problem)
    found = _choose(problem, groups, runs_mm)
    if every:
        return found._replace(bound_mm=found.cost_mm if found.proven else problem.raised(bound))
    if found.cost_mm > problem.raised(bound):
        bound = max(bound, _generated(problem, groups))
        found = min(found, _choose(problem, groups, runs_mm), key=lambda plan: plan.cost_mm)
    return found._replace(bound_mm=min(problem.raised(bound), found.cost_mm))


def _choose(problem: _Problem, groups: Sequence[Group], runs_mm: Sequence[int]) -> Plan:
    choice = chosen(groups, [problem.cost_m(group) for group in groups], problem.wanted)
    taken = [group for group, count in zip(groups, choice.counts, strict=True) for _ in range(count)]
    parted = _placed(problem, taken, runs_mm)
    cost = sum(sum(lengths) + problem.coupling_mm * (len(lengths) - 1) for _, lengths in parted)
    return Plan(parted, cost, 0, choice.proven)


class _Problem:
    """Runs by length with how many there are, the lengths that are sold, what a coupling counts as."""

    def __init__(self, sizes: list[int], wanted: list[int], stock: list[int], coupling_mm: int) -> None:
        self.sizes, self.wanted, self.stock, self.coupling_mm = sizes, wanted, stock, coupling_mm
        self._step = gcd(*stock)
        self._covers: list[tuple[int, int]] = [(0, -1)]

    @property
    def least_m(self) -> float:
        """What every plan costs at the least, by length alone [m].

        Lengths cover the runs; a run longer than the longest of them has couplings; no group is without a run.
        """
        runs = [size for size, count in zip(self.sizes, self.wanted, strict=True) for _ in range(count)]
        total, longest = sum(runs), self.stock[-1]
        inside = sum(-(-size // longest) - 1 for size in runs) * self.coupling_mm
        covered = -(-total // self._step) * self._step
        pooled = self._cost_mm(self.cheapest(total)) - self.coupling_mm * len(runs)
        return max(covered + inside, pooled) / _MM

    def raised(self, bound_m: float) -> int:
        """A bound as whole millimetres [mm]: whatever a plan costs is a whole number of steps."""
        step = gcd(self.coupling_mm, self._step)
        return ceil((bound_m * _MM - 1e-3) / step) * step

    def _cost_mm(self, lengths: Sequence[int]) -> int:
        return sum((size + self.coupling_mm) * count for size, count in zip(self.stock, lengths, strict=True))

    def cost_m(self, group: Group) -> float:
        return (self._cost_mm(group.lengths) - self.coupling_mm) / _MM

    def cheapest(self, total_mm: int) -> tuple[int, ...]:
        """How many of each length cover so much at the least cost."""
        steps = -(-total_mm // self._step)
        for reach in range(len(self._covers), steps + 1):
            options = (
                (self._covers[max(reach - size // self._step, 0)][0] + size + self.coupling_mm, i)
                for i, size in enumerate(self.stock)
            )
            self._covers.append(min(options))
        counts = [0] * len(self.stock)
        while steps > 0:
            which = self._covers[steps][1]
            counts[which] += 1
            steps -= self.stock[which] // self._step
        return tuple(counts)

    def group_of(self, counts: Sequence[int]) -> Group:
        total = sum(size * count for size, count in zip(self.sizes, counts, strict=True))
        return Group(tuple(counts), self.cheapest(total))


def _columns(problem: _Problem) -> tuple[list[Group], bool, float]:
    """Groups worth choosing among, whether they are all there are, and what every plan costs at the least [m]."""
    if prod(count + 1 for count in problem.wanted) <= MOST_COUNTED:
        counts = product(*(range(count + 1) for count in problem.wanted))
        return [problem.group_of(taken) for taken in counts if any(taken)], True, problem.least_m
    groups = list(dict.fromkeys((*_alone(problem), *_fitted(problem), *_snug(problem), *_pairs(problem))))
    return groups, False, problem.least_m


def _generated(problem: _Problem, groups: list[Group]) -> float:
    """Add the groups that help, and those of a plan that is put together of them; give the least of any plan [m]."""
    work = MOST_WORK // len(problem.sizes)
    root = _grown(problem, groups, problem.wanted, work // 2)
    left, mix, work = list(problem.wanted), root, work // 2
    for _ in range(MOST_STEPS):
        likeliest = max(range(len(mix.taken)), key=lambda i: (_whole(groups[i], left, mix.taken[i]), mix.taken[i]))
        times = max(_whole(groups[likeliest], left, mix.taken[likeliest]), 1)
        left = [max(count - cut * times, 0) for count, cut in zip(left, groups[likeliest].cuts, strict=True)]
        if not any(left):
            break
        mix = _grown(problem, groups, left, min(MOST_AT_STEP, work))
        work = max(work - MOST_AT_STEP, 0)
    return root.bound_m


class _Mix(NamedTuple):
    """How much is taken of each group, and what no plan costs less than [m]."""

    taken: tuple[float, ...]
    bound_m: float


def _whole(group: Group, left: Sequence[int], taken: float) -> int:
    """How often a group is taken wholly by a mix, as far as so many runs are left."""
    most = min((count // cut for count, cut in zip(left, group.cuts, strict=True) if cut), default=0)
    return min(int(taken + _HELPS), most)


def _grown(problem: _Problem, groups: list[Group], wanted: Sequence[int], most: int) -> _Mix:
    """Add the groups that help most where so many runs are wanted, one by one."""
    known = set(groups)
    stock = [size / _MM for size in problem.stock]
    costs = [(size + problem.coupling_mm) / _MM for size in problem.stock]
    sizes = [size / _MM for size in problem.sizes]
    coupling, bound = problem.coupling_mm / _MM, 0.0
    while True:
        found = relaxed(groups, [problem.cost_m(group) for group in groups], wanted)
        if most <= 0:
            return _Mix(found.taken, bound)
        best = price(Pricing(sizes, wanted, stock, costs, found.duals))
        # No plan has more groups than runs, and none of them helps by more than this.
        helps = best.most + coupling
        bound = max(bound, found.cost - max(helps, 0.0) * sum(wanted))
        group = problem.group_of(best.group.cuts)
        most -= 1
        if helps < _HELPS or group in known or not any(group.cuts):
            return _Mix(found.taken, bound)
        known.add(group)
        groups.append(group)


def _pairs(problem: _Problem) -> list[Group]:
    """Every two lengths of runs together, and all runs together."""
    kinds = range(len(problem.sizes))
    found = [problem.group_of(problem.wanted)]
    for first, second in combinations_with_replacement(kinds, 2):
        counts = [int(i == first) + int(i == second) for i in kinds]
        if counts[first] <= problem.wanted[first]:
            found.append(problem.group_of(counts))
    return found


def _alone(problem: _Problem) -> list[Group]:
    kinds = range(len(problem.sizes))
    return [problem.group_of([int(i == kind) for i in kinds]) for kind in kinds]


def _fitted(problem: _Problem) -> list[Group]:
    """Groups of runs that go on one length each, longest first, for each length."""
    found = []
    for size in problem.stock:
        left = list(problem.wanted)
        while any(left):
            room, counts = size, [0] * len(left)
            for i, run in enumerate(problem.sizes):
                counts[i] = min(left[i], room // run)
                room -= counts[i] * run
            if not any(counts):
                break
            left = [a - b for a, b in zip(left, counts, strict=True)]
            found.append(problem.group_of(counts))
    return found


def _snug(problem: _Problem) -> list[Group]:
    """Groups that leave least over, for each length: the longest run that waits, then what fills up behind it."""
    found = []
    for size in problem.stock:
        left = list(problem.wanted)
        while any(left):
            longest = next(i for i, count in enumerate(left) if count)
            left[longest] -= 1
            room = -problem.sizes[longest] % size
            counts = _filling(problem.sizes, left, room)
            left = [a - b for a, b in zip(left, counts, strict=True)]
            counts[longest] += 1
            found.append(problem.group_of(counts))
    return found


def _filling(sizes: Sequence[int], left: Sequence[int], room: int) -> list[int]:
    """How many runs of each size fill a room best; a set of sums is a whole number, a bit for each sum."""
    mask = (1 << (room + 1)) - 1
    reached = [1]
    items = [i for i, count in enumerate(left) for _ in range(min(count, room // sizes[i]))]
    for i in items:
        reached.append((reached[-1] | (reached[-1] << sizes[i])) & mask)
    total = reached[-1].bit_length() - 1
    counts = [0] * len(sizes)
    for i, before in zip(reversed(items), reversed(reached[:-1]), strict=True):
        if not before >> total & 1:
            counts[i] += 1
            total -= sizes[i]
    return counts


def _placed(
    problem: _Problem, taken: Sequence[Group], runs_mm: Sequence[int]
) -> tuple[tuple[tuple[int, ...], tuple[int, ...]], ...]:
    """Give each run to one group, drop what is covered twice, and buy no more than what is left needs."""
    waiting = {size: [i for i, run in enumerate(runs_mm) if run == size] for size in problem.sizes}
    found = []
    for group in taken:
        mine: list[int] = []
        for size, count in zip(problem.sizes, group.cuts, strict=True):
            mine += waiting[size][:count]
            del waiting[size][:count]
        if mine:
            counts = problem.cheapest(sum(runs_mm[i] for i in mine))
            lengths = [size for size, count in zip(problem.stock, counts, strict=True) for _ in range(count)]
            found.append((tuple(mine), tuple(sorted(lengths, reverse=True))))
    return tuple(sorted(found))


def couplings_of(plan: Plan) -> int:
    """How many couplings a plan needs at the most."""
    return sum(len(lengths) - 1 for _, lengths in plan.groups)


def waste_of(plan: Plan, runs_mm: Sequence[int]) -> int:
    """What is left over of all lengths [mm]."""
    return sum(size for _, lengths in plan.groups for size in lengths) - sum(runs_mm)
