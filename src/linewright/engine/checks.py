"""Verdicts beside the limits: sizes, overrides, actions, fittings, rooms, capacity and charge."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.book.schema import ActionRuns, Cap
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.figures import ChargeResult, TableRow
from linewright.engine.ground import Ground
from linewright.engine.records import ActionResult, Check, CheckKind, FittingResult, Sense, Standing
from linewright.engine.sides import main_role
from linewright.engine.sizing import Sized, TableSizes, is_up, steps_up
from linewright.engine.zones import Zone
from linewright.model.values import NodeKind, Role
from linewright.units import Dimension, over, same_tube

#: A joint splits one pipe into two.
ARMS = 2


def size_checks(ground: Ground, table: TableSizes, sized: Sized) -> Iterator[Check]:
    """Runs that no row serves, and overrides against the table and the main."""
    unsized = {
        i
        for role, sizes in table.by_role.items()
        if None in sizes
        for i, size in enumerate(sizes)
        if size is None and ground.carries(i, role)
    }
    for i in sorted({*unsized, *ground.still.bare.override}):
        name, run = ground.tree.ids[i], ground.tree.runs[i]
        if i in unsized:
            lacking = [role for role in table.by_role if table.by_role[role][i] is None and ground.carries(i, role)]
            yield _no_row(ground, i, lacking)
        for role in sorted(run.override):
            if role in sized.by_role and ground.carries(i, role):
                yield _override(ground, table, sized, i=i, role=role)
            else:
                where = "the pipe here" if role in sized.by_role else "this book"
                yield _blank(f"{ground.system.id}/run:{name}.{role}", CheckKind.OVERRIDE, "override")._replace(
                    standing=Standing.OVER, note=f"{where} has no {role.word} line", dimension=Dimension.TUBE
                )


def action_checks(ground: Ground, actions: Sequence[ActionResult]) -> Iterator[Check]:
    """Mandatory actions that are due."""
    for action in actions:
        subject = f"{ground.system.id}/action:{action.id}"
        doubtful = action.mandatory and not action.due and bool(action.why_not)
        if not doubtful and not (action.mandatory and action.due):
            continue
        standing = Standing.UNJUDGED if doubtful else Standing.WITHIN if action.carried_out else Standing.OVER
        yield _blank(subject, CheckKind.ACTION, "size_action")._replace(
            standing=standing,
            governs=action.runs,
            page=action.page,
            note=action.why_not or "carried out",
            missing=(action.why_not,) if doubtful else (),
        )


def fitting_checks(ground: Ground, fittings: Sequence[FittingResult]) -> Iterator[Check]:
    """Branches for which the book has no fitting, joints with too many arms, ends without a unit."""
    for fitting in fittings:
        if fitting.kind is NodeKind.HEADER and fitting.row is not None:
            yield from _ports(ground, fitting, fitting.row)
        if fitting.ports_used and (fitting.model or fitting.kind is NodeKind.COUPLING):
            continue
        leads_on = bool(ground.tree.children[ground.tree.at[fitting.id]])
        if leads_on and fitting.kind is NodeKind.BOX and ground.boxes:
            continue
        subject = f"{ground.system.id}/fitting:{fitting.id}"
        blank = _blank(subject, CheckKind.FITTING, "fitting")._replace(standing=Standing.OVER, governs=(fitting.id,))
        if not leads_on:
            yield blank._replace(note=f"the pipe ends at {fitting.id} without a unit")
        elif fitting.kind is NodeKind.JOINT and fitting.ports_used > ARMS:
            yield blank._replace(
                value=float(fitting.ports_used),
                bound=float(ARMS),
                margin=float(ARMS - fitting.ports_used),
                note="a joint splits one pipe into two: declare a header or add a joint",
            )
        else:
            yield blank._replace(value=fitting.index, note=f"no {fitting.kind} of this book serves it")


def _ports(ground: Ground, fitting: FittingResult, row: TableRow) -> Iterator[Check]:
    """Ports of a header that carry more than the book lets one port carry."""
    bands = ground.book.below_box_header if row.path.startswith("fittings.below_box") else ground.book.header
    most = bands.rows[row.position].port_index if bands is not None else None
    if most is None:
        return
    ports = {ground.tree.ids[i]: ground.downstream[i] for i in ground.tree.children[ground.tree.at[fitting.id]]}
    worst = max(ports.values(), default=0.0)
    if over(worst, most):
        yield _blank(f"{ground.system.id}/fitting:{fitting.id}", CheckKind.FITTING, "header_port")._replace(
            standing=Standing.OVER,
            value=worst,
            bound=most,
            margin=most - worst,
            governs=(min(name for name, index in ports.items() if index == worst),),
            page=row.page,
            note="a port carries more than one port of this header may",
        )


def charge_check(ground: Ground, charge: ChargeResult) -> Check | None:
    """The cap on the additional charge, where the book has one."""
    book = ground.book.book.charge
    blank = _blank(f"{ground.system.id}/charge", CheckKind.CHARGE, "additional_charge")._replace(
        dimension=Dimension.MASS, sense=Sense.MAX, page=book.page, path="charge.max"
    )
    caps = [cap for cap in (book.max_kg, ground.group.largest_charge_kg) if cap is not None]
    cap = min(caps, default=None)
    if charge.rounded_kg is None:
        return blank._replace(missing=charge.missing, bound=cap)
    if cap is None:
        return None
    broken = over(charge.rounded_kg, cap)
    return blank._replace(
        standing=Standing.OVER if broken else Standing.WITHIN,
        value=charge.rounded_kg,
        bound=cap,
        margin=cap - charge.rounded_kg,
    )


def capacity_check(ground: Ground, capacity: SystemCapacity) -> Check | None:
    """The system's capacity against its block load; none where it serves no room."""
    check = at_least(
        f"{ground.system.id}/capacity.{capacity.mode}",
        CheckKind.CAPACITY,
        f"system_{capacity.mode}",
        value=capacity.capacity_w,
        bound=capacity.block_w,
    )
    missing = capacity.missing or (("the load of a room, or a block load",) if capacity.block_w is None else ())
    return check._replace(missing=missing) if check.standing is Standing.UNJUDGED else check


def at_least(
    subject: str,
    kind: CheckKind,
    measure: str,
    *,
    value: float | None,
    bound: float | None,
    governs: tuple[str, ...] = (),
) -> Check:
    """What is delivered against what is needed [W]."""
    standing, margin = Standing.UNJUDGED, None
    if value is not None and bound is not None:
        standing = Standing.OVER if over(bound, value) else Standing.WITHIN
        margin = value - bound
    return Check(subject, kind, measure, Dimension.POWER, Sense.MIN, standing, value, bound, margin, governs)


def _no_row(ground: Ground, i: int, lacking: Sequence[Role]) -> Check:
    book, index = ground.book, ground.downstream[i]
    bands, path = book.branch, "sizing.branch"
    if ground.is_main[i]:
        index, path = ground.group.index, "sizing.main"
        if book.main is not None:
            bands = book.main
    elif ground.is_own[i]:
        path = "sizing.unit"
        if book.unit_run is not None:
            bands = book.unit_run
    elif ground.zones and ground.zones[i] is Zone.INNER:
        path = "sizing.below_box"
        if book.below_box is None:
            return _without_table(ground, i, path)
        bands = book.below_box
    return _blank(f"{ground.system.id}/run:{ground.tree.ids[i]}", CheckKind.SIZE, "table_index")._replace(
        dimension=Dimension.NUMBER,
        standing=Standing.OVER,
        value=index,
        bound=bands.end,
        margin=bands.end - index,
        page=bands.page,
        path=path,
        governs=(ground.tree.ids[i],),
        note=f"no row of the table gives {' and '.join(sorted(lacking))}",
    )


def _without_table(ground: Ground, i: int, path: str) -> Check:
    name = ground.tree.ids[i]
    return _blank(f"{ground.system.id}/run:{name}", CheckKind.SIZE, "table_index")._replace(
        standing=Standing.OVER,
        value=ground.downstream[i],
        path=path,
        governs=(name,),
        note="this book has no sizes for pipe that branches behind a mode box",
    )


def _override(ground: Ground, table: TableSizes, sized: Sized, *, i: int, role: Role) -> Check:
    size, wanted = ground.tree.runs[i].override[role], table.by_role[role][i]
    check = _blank(f"{ground.system.id}/run:{ground.tree.ids[i]}.{role}", CheckKind.OVERRIDE, "override")._replace(
        dimension=Dimension.TUBE, value=size, bound=wanted, governs=(ground.tree.ids[i],), path="override"
    )
    if not any(same_tube(size, step) for step in ground.book.ladders[role]):
        return check._replace(standing=Standing.OVER, note="not a tube size of this book")
    if wanted is None:
        return check._replace(missing=("a table size to judge it against",))
    if is_up(wanted, size):
        return check._replace(standing=Standing.OVER, note="smaller than the table size")
    of_main = sized.by_role[main_role(ground.frame, role)]
    main = max((s for m in ground.tree.main if (s := of_main[m]) is not None), default=None)
    if ground.book.book.sizing.cap is Cap.MAIN and not ground.is_main[i] and is_up(size, main):
        return check._replace(standing=Standing.OVER, note="larger than the main")
    up = steps_up(ground.book.ladders[role], size, wanted)
    if up == 0 or up <= _most_steps(ground, i, role):
        return check._replace(standing=Standing.WITHIN, note=f"{up} steps up" if up else "the table size")
    return check._replace(missing=("a size action of the book that allows it",), note=f"{up} steps up")


def _most_steps(ground: Ground, i: int, role: Role) -> int:
    """Most steps that any action of the book may give this run."""
    most = 0
    for action in ground.book.book.sizing.actions:
        main = action.runs in (ActionRuns.MAIN, ActionRuns.PATH)
        own = action.runs in (ActionRuns.UNIT_RUN, ActionRuns.PATH) or action.unit_run
        between = action.runs in (ActionRuns.FIRST_TO_LAST_BRANCH, ActionRuns.PATH)
        reaches = main if ground.is_main[i] else own if ground.is_own[i] else between
        if reaches and role in action.lines:
            most = max(most, action.steps)
    return most


def _blank(subject: str, kind: CheckKind, measure: str) -> Check:
    return Check(subject, kind, measure, Dimension.NUMBER, Sense.MAX, Standing.UNJUDGED)
