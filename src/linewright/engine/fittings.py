"""Branch fittings from the book's tables; no row is a result, not an error."""

from __future__ import annotations

from functools import lru_cache
from operator import attrgetter
from typing import NamedTuple

from linewright.book.bands import Bands, Found
from linewright.book.compiled import CompiledBook
from linewright.book.schema import FittingBy, FittingRow, FittingTable, HeaderRow
from linewright.engine.boxes import Box
from linewright.engine.figures import TableRow
from linewright.engine.frame import MOST_KNOWN, Frame
from linewright.engine.ground import Ground
from linewright.engine.records import FittingResult
from linewright.engine.sides import side_sizes
from linewright.engine.sizing import Sized, is_up, table_row
from linewright.engine.still import Still
from linewright.engine.zones import Zone
from linewright.model.same import Same
from linewright.model.values import NodeKind, Role

Chosen = tuple[str, int | None, TableRow | None]
NOTHING: Chosen = ("", None, None)


class Asked(NamedTuple):
    """What decides the choice of a joint or header; `model` is the designer's choice, if there is one."""

    kind: NodeKind
    number: float
    used: int
    gas_m: float | None
    first: bool
    inner: bool
    model: str


def find_fittings(ground: Ground, sized: Sized) -> tuple[FittingResult, ...]:
    """Choose a fitting for every branch and list the couplings, sorted by id."""
    return _fittings(Same(ground.still), Same(sized))


@lru_cache(maxsize=MOST_KNOWN)
def _fittings(of: Same[Still], of_sizes: Same[Sized]) -> tuple[FittingResult, ...]:
    still, sized = of.value, of_sizes.value
    frame, tree, levels = still.frame, still.frame.tree, still.levels
    seen: dict[tuple[object, ...], Chosen] = {}
    chosen = {fitting.id: fitting.model for fitting in still.bare.fittings if fitting.model}
    found = []
    gas = side_sizes(frame, sized.by_role, Role.GAS)
    boxes = {box.run: box for box in still.boxes}
    ids, children = tree.ids, tree.children
    zones, downstream = frame.zones, frame.downstream
    for i, kind in enumerate(tree.kind):
        if kind is NodeKind.UNIT:
            continue
        if i in boxes:
            found.append(_box(still, boxes[i]))
            continue
        used, first = len(children[i]), i == tree.first_branch
        inner = bool(zones) and zones[i] is Zone.INNER
        stated = chosen.get(ids[i], "") if chosen else ""
        key = (kind, judged_index(frame, i), used, gas[i], first, inner, stated)
        if key not in seen:
            seen[key] = _choose(frame.book, Asked._make(key))
        model, ports, row = seen[key]
        level, assumed = levels.node_m[i], levels.assumed[i]
        found.append(FittingResult(ids[i], kind, downstream[i], used, model, ports, row, level, assumed))
    return tuple(sorted(found, key=attrgetter("id")))


def judged_index(frame: Frame, i: int) -> float:
    """Index by which a fitting is looked up: the group's for the first branch, else what is downstream."""
    return frame.group.index if i == frame.tree.first_branch else frame.downstream[i]


def _box(still: Still, box: Box) -> FittingResult:
    """A mode box with the index on its own ports, which its model has to hold."""
    declared, row, level = still.frame.book.book.boxes, None, still.levels.node_m[box.run]
    model = box.model
    if model is not None and box.position is not None and declared is not None:
        page = model.page if model.page is not None else declared.page
        row = TableRow("boxes.models", box.position, page, box.own_index, None, model.index)
    return FittingResult(
        box.id,
        NodeKind.BOX,
        still.frame.downstream[box.run],
        len(box.used),
        "" if model is None else model.model,
        None if model is None else model.ports,
        row,
        level,
        still.levels.assumed[box.run],
    )


def _choose(book: CompiledBook, of: Asked) -> Chosen:
    if of.kind is NodeKind.HEADER:
        header = _header(book.below_box_header if of.inner else book.header, of)
        return NOTHING if header is None else (header[0].model, header[0].ports, header[1])
    if of.kind is not NodeKind.JOINT or of.used > 2:
        return NOTHING
    tables = book.book.fittings
    bands, declared = (book.first, tables.first) if of.first else (book.joint, tables.joint)
    if of.inner:
        bands, declared = book.below_box_joint, tables.below_box or declared
    joint = None if bands is None else by_table(declared, bands, of.number, gas_m=of.gas_m)
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


def _header(bands: Bands[HeaderRow] | None, of: Asked) -> tuple[HeaderRow, TableRow] | None:
    """Of the headers that hold index and pipes the one with the fewest ports, or of those the designer's."""
    if bands is None:
        return None
    fits = [
        i
        for i, row in enumerate(bands.rows)
        if bands.edges[i].holds(of.number) and row.ports >= of.used and of.model in ("", row.model)
    ]
    if not fits:
        return None
    at = min(fits, key=lambda i: (bands.rows[i].ports, i))
    found = Found(bands.rows[at], at, None, bands.edges[at])
    return bands.rows[at], table_row(bands.path, bands.page, of.number, found=found)
