"""Branch fittings from the book's tables; no row is a result, not an error."""

from __future__ import annotations

from linewright.book.bands import Bands, Found
from linewright.book.schema import FittingBy, FittingRow, FittingTable, HeaderRow
from linewright.engine.figures import TableRow
from linewright.engine.ground import Ground
from linewright.engine.records import FittingResult
from linewright.engine.sizing import Sized, is_up, table_row
from linewright.model.values import NodeKind, Role

Chosen = tuple[str, int | None, TableRow | None]
NOTHING: Chosen = ("", None, None)


def find_fittings(ground: Ground, sized: Sized) -> tuple[FittingResult, ...]:
    """Choose a fitting for every branch and list the couplings, sorted by id."""
    seen: dict[tuple[bool, NodeKind, float, int, float | None], Chosen] = {}
    found = []
    for i, kind in enumerate(ground.tree.kind):
        if kind is NodeKind.UNIT:
            continue
        used, gas_m = len(ground.tree.children[i]), sized.by_role[Role.GAS][i]
        key = (i == ground.tree.first_branch, kind, judged_index(ground, i), used, gas_m)
        if key not in seen:
            seen[key] = _choose(ground, kind, judged_index(ground, i), used, first=key[0], gas_m=gas_m)
        model, ports, row = seen[key]
        level, assumed = ground.levels.node_m[i], ground.levels.assumed[i]
        found.append(
            FittingResult(ground.tree.ids[i], kind, ground.downstream[i], used, model, ports, row, level, assumed)
        )
    return tuple(sorted(found, key=lambda fitting: fitting.id))


def judged_index(ground: Ground, i: int) -> float:
    """Index by which a fitting is looked up: the group's for the first branch, else what is downstream."""
    return ground.group.index if i == ground.tree.first_branch else ground.downstream[i]


def _choose(ground: Ground, kind: NodeKind, index: float, used: int, *, first: bool, gas_m: float | None) -> Chosen:
    if kind is NodeKind.HEADER:
        header = _header(ground, index, used)
        return NOTHING if header is None else (header[0].model, header[0].ports, header[1])
    if kind is not NodeKind.JOINT or used > 2:
        return NOTHING
    tables, book = ground.book.book.fittings, ground.book
    bands, declared = (book.first, tables.first) if first else (book.joint, tables.joint)
    joint = None if bands is None else by_table(declared, bands, index, gas_m=gas_m)
    return NOTHING if joint is None else (joint[0].model, None, joint[1])


def by_table(
    declared: FittingTable, bands: Bands[FittingRow], index: float, *, gas_m: float | None
) -> tuple[FittingRow, TableRow] | None:
    """Find the row of a fitting table by index, by the entering gas tube [m], or whichever comes later."""
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
