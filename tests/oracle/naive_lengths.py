"""Lengths of runs and ways: actual, equivalent, from which origin; one line of tube at a time."""

from __future__ import annotations

from decimal import Decimal

from linewright.book.schema import AllowanceAt, AllowanceLine, Lengths, MeasureUse, Origin, UpCounts, UpsizedMain
from linewright.model.design import ROOT, Run
from linewright.model.values import NodeKind, Role
from tests.oracle.naive_numbers import MISSING, NOTHING, ONE, Known, exact, same_tube, total
from tests.oracle.naive_pipes import module_ids, module_way, pipe_size
from tests.oracle.naive_sizes import Sizes, factor_for, upsized_main_steps
from tests.oracle.naive_tree import Facts

HALF = Decimal("0.5")


def actual(run: Run) -> Known:
    return Known(exact(run.length_m)) if run.length_m is not None else MISSING


def lines_judged(facts: Facts) -> list[Role]:
    """The lines whose diameters decide allowances."""
    line = facts.book.fittings.allowance_line
    return [Role.GAS, Role.LIQUID] if line is AllowanceLine.BOTH else [Role(line.value)]


def allowance(facts: Facts, kind: str, od: Decimal | None) -> Known:
    """Allowance of one bend, item or fitting; one that the book does not give is not assumed."""
    given = facts.book.fittings.allowance.get(kind)
    if given is None:
        return NOTHING if kind == NodeKind.COUPLING else MISSING
    if isinstance(given, (int, float)):
        return Known(exact(given))
    for size, length in given.items():
        if od is not None and same_tube(exact(size), od):
            return Known(exact(length))
    return MISSING


def at_far_end(facts: Facts, node: str, od: Decimal | None) -> Known:
    """The part of the allowance of the fitting at the far end that its entering run carries."""
    if node in facts.unit:
        return NOTHING
    share = {AllowanceAt.ENTERS: ONE, AllowanceAt.SPLIT: HALF, AllowanceAt.LEAVES: Decimal(0)}
    coupling = facts.kind[node] is NodeKind.COUPLING
    part = ONE if coupling else share[facts.book.fittings.allowance_at]
    return allowance(facts, facts.kind[node], od).times(part) if part else NOTHING


def at_near_end(facts: Facts, node: str, od: Decimal | None) -> Known:
    """The part of the allowance of the fitting that a run leaves that the leaving run carries."""
    near = facts.run[node].from_
    if near == ROOT or facts.kind[near] is NodeKind.COUPLING:
        return NOTHING
    share = {AllowanceAt.ENTERS: Decimal(0), AllowanceAt.SPLIT: HALF, AllowanceAt.LEAVES: ONE}
    part = share[facts.book.fittings.allowance_at]
    return allowance(facts, facts.kind[near], od).times(part) if part else NOTHING


def equivalent(facts: Facts, sizes: Sizes, node: str, *, line: Role, near_end: bool = True) -> Known:
    """With or without what the run carries for the fitting that it leaves."""
    run, od = facts.run[node], sizes.od(node, line)
    near = at_near_end(facts, node, od) if near_end else NOTHING
    return total([actual(run), at_far_end(facts, node, od), near, _bends_and_items(facts, run, od)])


def _bends_and_items(facts: Facts, run: Run, od: Decimal | None) -> Known:
    counted = [("bend", run.bends), *((item.kind, item.count) for item in run.items)]
    return total([allowance(facts, kind, od).times(Decimal(count)) for kind, count in counted if count])


def length_of(facts: Facts, sizes: Sizes, node: str, *, lengths: Lengths, line: Role) -> Known:
    if lengths is Lengths.ACTUAL:
        return actual(facts.run[node])
    return equivalent(facts, sizes, node, line=line)


def upsized_factor(facts: Facts, sizes: Sizes, node: str, *, rule: UpsizedMain | None) -> Decimal:
    """What the equivalent length of a run of the main is multiplied by."""
    main = facts.main()
    if rule is None or node not in main:
        return ONE
    counted = main if rule.counts is UpCounts.WHOLE else [node]
    steps = min(upsized_main_steps(facts, sizes, run, line=rule.line) for run in counted)
    return factor_for(rule.factors, steps)


def origin_of(facts: Facts, use: MeasureUse) -> Origin:
    return use.origin if use.origin is not None else facts.book.origin


def reach(
    facts: Facts, sizes: Sizes, unit: str, *, lengths: Lengths, line: Role, origin: Origin, rule: UpsizedMain | None
) -> Known:
    """Length along the pipe from an origin to a unit."""
    from_branch = origin is Origin.FIRST_BRANCH and facts.first_branch() is not None
    runs = facts.after_first(unit) if from_branch else facts.way(unit)
    parts = [
        length_of(facts, sizes, run, lengths=lengths, line=line).times(upsized_factor(facts, sizes, run, rule=rule))
        for run in runs
    ]
    if origin is Origin.OUTDOOR:
        parts.append(before_root(facts, lengths, line))
    return total(parts)


def before_root(facts: Facts, lengths: Lengths, line: Role) -> Known:
    """Length of the module pipes to the farthest module; none with one module."""
    if len(facts.system.outdoor.modules) < 2:
        return NOTHING
    pipes = [module_length(facts, module, lengths=lengths, line=line) for module in module_ids(facts)]
    return Known(max(pipe.value for pipe in pipes), all(pipe.whole for pipe in pipes))


def module_length(facts: Facts, module: str, *, lengths: Lengths, line: Role) -> Known:
    way = module_way(facts, module)
    if way is None:
        return MISSING
    return total([module_pipe_length(facts, pipe, lengths=lengths, line=line) for pipe in way])


def module_pipe_length(facts: Facts, pipe: Run, *, lengths: Lengths, line: Role) -> Known:
    """Equivalent: actual, bends, items, and the outdoor joint at the end where there is one."""
    if lengths is Lengths.ACTUAL:
        return actual(pipe)
    od = pipe_size(facts, pipe, line)
    length = actual(pipe).plus(_bends_and_items(facts, pipe, od))
    return length if pipe.to in module_ids(facts) else length.plus(allowance(facts, "outdoor_joint", od))
