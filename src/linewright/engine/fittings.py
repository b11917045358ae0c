"""Branch fittings from the book's tables; no row is a result, not an error."""

from __future__ import annotations

from linewright.book.bands import Bands, Found
from linewright.book.schema import FittingBy, FittingRow, FittingTable, HeaderRow
from linewright.engine.ground import Ground
from linewright.engine.figures import TableRow
from linewright.engine.records import FittingResult
from linewright.engine.sizing import Sized, is_up, table_row
from linewright.model.values import NodeKind, Role


def find_fittings(ground: Ground, sized: Sized) -> tuple[FittingResult, ...]:
    """Choose a fitting for every branch and list the couplings, sorted by id."""
    found = [
        _choose(ground, sized, i)
        for i, kind in enumerate(ground.tree.kind)
        if kind in (NodeKind.JOINT, NodeKind.HEADER, NodeKind.COUPLING)
    ]
    return tuple(sorted(found, key=lambda fitting: fitting.id))


def judged_index(ground: Ground, i: int) -> float:
    """Index by which a fitting is looked up: the group's for the first branch, else what is downstream."""
    return ground.group.index if i == ground.tree.first_branch else ground.downstream[i]


def _choose(ground: Ground, sized: Sized, i: int) -> FittingResult:
    kind, used = ground.tree.kind[i], len(ground.tree.children[i])
    model, ports, row = "", None, None
    if kind is NodeKind.HEADER:
        header = _header(ground, judged_index(ground, i), used)
        if header is not None:
            model, ports, row = header[0].model, header[0].ports, header[1]
    elif kind is NodeKind.JOINT and used <= 2:  # noqa: PLR2004 - a joint splits one pipe into two
        joint = _joint(ground, sized, i)
        if joint is not None:
            model, row = joint[0].model, joint[1]
    return FittingResult(
        id=ground.tree.ids[i],
        kind=kind,
        index=ground.downstream[i],
        ports_used=used,
        model=model,
        ports=ports,
        row=row,
        elevation_m=ground.levels.node_m[i],
        assumed_elevation=ground.levels.assumed[i],
    )


def _joint(ground: Ground, sized: Sized, i: int) -> tuple[FittingRow, TableRow] | None:
    tables, book = ground.book.book.fittings, ground.book
    first = i == ground.tree.first_branch
    bands = book.first if first else book.joint
    declared = tables.first if first else tables.joint
    if bands is None:
        return None
    index = judged_index(ground, i)
    return _by(declared, bands, index, gas_m=sized.by_role[Role.GAS][i])


def _by(
    declared: FittingTable, bands: Bands[FittingRow], index: float, *, gas_m: float | None
) -> tuple[FittingRow, TableRow] | None:
    by_index = bands.find(index)
    if declared.by is FittingBy.INDEX:
        return None if by_index is None else (by_index.row, table_row(bands.path, bands.page, index, found=by_index))
    by_tube = _row_for_tube(bands, gas_m)
    positions = [by_tube] if declared.by is FittingBy.TUBE else [by_tube, by_index.position if by_index else None]
    known = [position for position in positions if position is not None]
    if len(known) != len(positions):
        return None
    at = max(known)
    edge = bands.edges[at]
    found = Found(bands.rows[at], at, bands.edges[at - 1] if at else None, edge)
    return found.row, table_row(bands.path, bands.page, index, found=found)


def _row_for_tube(bands: Bands[FittingRow], gas_m: float | None) -> int | None:
    if gas_m is None:
        return None
    return next((i for i, row in enumerate(bands.rows) if row.gas is not None and not is_up(gas_m, row.gas)), None)


def _header(ground: Ground, index: float, used: int) -> tuple[HeaderRow, TableRow] | None:
    bands = ground.book.header
    if bands is None:
        return None
    fits = [i for i, row in enumerate(bands.rows) if bands.edges[i].holds(index) and row.ports >= used]
    if not fits:
        return None
    at = min(fits, key=lambda i: (bands.rows[i].ports, i))
    found = Found(bands.rows[at], at, None, bands.edges[at])
    return bands.rows[at], table_row(bands.path, bands.page, index, found=found)
