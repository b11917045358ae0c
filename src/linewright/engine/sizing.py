"""Tube sizes: table, override, steps of the size actions, and the cap at the main's size last."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple, TypeVar

from linewright.book.bands import Bands, Found
from linewright.book.compiled import CompiledBook
from linewright.book.schema import Cap, Capped, IndoorModel, MainBy, SizeRow
from linewright.engine.figures import TableRow
from linewright.engine.frame import MOST_KNOWN, Frame
from linewright.engine.ground import Ground
from linewright.engine.sides import Sizes, main_role
from linewright.engine.still import Still
from linewright.engine.zones import Zone
from linewright.model.same import Same
from linewright.model.values import Role
from linewright.units import same_tube

RowT = TypeVar("RowT")
FoundRow = tuple[Mapping[Role, float], TableRow | None]
Steps = tuple[tuple[Role, tuple[tuple[int, int], ...]], ...]
#: Sizes that are kept at hand: those of some choices of actions for each of the systems that are.
MOST_SIZED = 4 * MOST_KNOWN


class TableSizes(NamedTuple):
    """Sizes that the tables give by role, with the row behind each run and the lacking runs."""

    by_role: Mapping[Role, Sizes]
    rows: tuple[TableRow | None, ...]


class Sized(NamedTuple):
    """Final sizes by role [m], steps asked of each tube, and the tubes that the cap held back."""

    by_role: Mapping[Role, Sizes]
    steps: Mapping[Role, Mapping[int, int]]
    short: frozenset[tuple[Role, int]]
    capped: frozenset[tuple[Role, int]]


def table_sizes(ground: Ground) -> TableSizes:
    """Look up every run: the main by the group, a unit's own run by the unit, other runs by the index downstream."""
    return _table_sizes(Same(ground.frame))


@lru_cache(maxsize=MOST_KNOWN)
def _table_sizes(of: Same[Frame]) -> TableSizes:
    frame = of.value
    book, main = frame.book, _main_row(frame)
    by_unit: dict[str, FoundRow] = {}
    before_boxes: dict[float, FoundRow] = {}
    behind_boxes: dict[float, FoundRow] = {}
    found: list[FoundRow] = []
    for i, (is_main, is_own) in enumerate(zip(frame.tree.is_main, frame.tree.is_own, strict=True)):
        if is_main:
            found.append(main)
        elif is_own:
            model = _unit_beyond(frame, i)
            if model.model not in by_unit:
                by_unit[model.model] = _unit_row(book, model)
            found.append(by_unit[model.model])
        else:
            index, inner = frame.downstream[i], bool(frame.zones) and frame.zones[i] is Zone.INNER
            by_index = behind_boxes if inner else before_boxes
            if index not in by_index:
                by_index[index] = _between_row(book, index, inner=inner)
            found.append(by_index[index])
    sizes = [of_run for of_run, _ in found]
    if frame.carried:
        sizes = [_carried(frame, i, of_run) for i, of_run in enumerate(sizes)]
    by_role = {role: tuple([of_run.get(role) for of_run in sizes]) for role in book.ladders}
    return TableSizes(by_role, tuple([row for _, row in found]))


def base_sizes(ground: Ground, table: TableSizes) -> Sized:
    """Sizes with overrides and cap but with no action."""
    return step_sizes(ground, table, {})


def step_sizes(ground: Ground, table: TableSizes, steps: Mapping[Role, Mapping[int, int]]) -> Sized:
    """Sizes after so many steps by role and run; overrides stay, the cap comes last."""
    asked = tuple([(role, tuple(by_run.items())) for role, by_run in steps.items()])
    return _step_sizes(Same(ground.still), Same(table), asked)


@lru_cache(maxsize=MOST_SIZED)
def _step_sizes(of: Same[Still], of_table: Same[TableSizes], asked: Steps) -> Sized:
    still, table, steps = of.value, of_table.value, {role: dict(by_run) for role, by_run in asked}
    sizing = still.frame.book.book.sizing
    wanted = {role: list(with_overrides(still, role, sizes)) for role, sizes in table.by_role.items()}
    short: set[tuple[Role, int]] = set()
    capped: set[tuple[Role, int]] = set()
    for role, sizes in wanted.items():
        for i, count in steps.get(role, {}).items():
            if not still.frame.carries(i, role):
                continue
            target = step_up(still.frame.book, role, table.by_role[role][i], count)
            if role in still.overrides(i):
                if target is None or is_up(target, sizes[i]):
                    short.add((role, i))
            elif target is None:
                short.add((role, i))
            else:
                sizes[i] = target
    if sizing.cap is Cap.MAIN:
        if sizing.capped is Capped.RAISES_MAIN:
            _raise_main(still, wanted, steps, short=short)
        for role in wanted:
            _cap(still, role, wanted, steps.get(role, {}), short=short, capped=capped)
    final = {role: tuple(sizes) for role, sizes in wanted.items()}
    return Sized(final, steps, frozenset(short), frozenset(capped))


@lru_cache(maxsize=MOST_SIZED)
def _up(of: Same[Sized], of_table: Same[TableSizes]) -> frozenset[int]:
    sized, table = of.value.by_role, of_table.value.by_role
    return frozenset(
        [
            i
            for role, sizes in sized.items()
            for i, (size, of_run) in enumerate(zip(sizes, table[role], strict=True))
            if is_up(size, of_run)
        ]
    )


def runs_up(table: TableSizes, sized: Sized) -> frozenset[int]:
    """Give the runs of which any tube is larger than its table size."""
    return _up(Same(sized), Same(table))


def with_overrides(still: Still, role: Role, sizes: Sizes) -> Sizes:
    """Sizes with the designer's overrides in place of the table's."""
    overridden = list(sizes)
    for i, override in still.bare.override.items():
        if role in override and still.frame.carries(i, role):
            overridden[i] = override[role]
    return tuple(overridden)


def is_up(size_m: float | None, table_m: float | None) -> bool:
    """Say whether a tube is larger than its table size."""
    return size_m is not None and table_m is not None and size_m > table_m and not same_tube(size_m, table_m)


def steps_up(ladder: tuple[float, ...], size_m: float | None, table_m: float | None) -> int:
    """How many steps of the ladder a size stands above its table size (0 where not above or not on it)."""
    if not is_up(size_m, table_m) or size_m is None or table_m is None:
        return 0
    return sum(1 for step in ladder if is_up(step, table_m) and not is_up(step, size_m))


def _main_row(frame: Frame) -> FoundRow:
    book, outdoor, indoor = frame.book, frame.group.index, frame.index_sum
    by = book.book.sizing.main.by
    if book.main is None:
        row = book.main_by_group.get(frame.group_id)
        if row is None:
            return {}, None
        position = book.book.sizing.main.rows.index(row)
        return row.sizes, TableRow("sizing.main.rows", position, book.book.sizing.main.page, None, None, None)
    index = {MainBy.INDOOR_INDEX: indoor, MainBy.SMALLER: min(outdoor, indoor)}.get(by, outdoor)
    return _band_row(book.main, index)


def _unit_beyond(frame: Frame, i: int) -> IndoorModel:
    """Model of the one unit that a run leads to."""
    tree = frame.tree
    while tree.unit_at[i] < 0:
        i = tree.children[i][0]
    return frame.models[tree.unit_at[i]]


def _unit_row(book: CompiledBook, model: IndoorModel) -> FoundRow:
    if book.unit_run is not None:
        return _band_row(book.unit_run, model.index)
    page = model.page if model.page is not None else book.book.indoor.page
    return model.ports, TableRow("indoor.models", book.model_at[model.model], page, None, None, None)


def _between_row(book: CompiledBook, index: float, *, inner: bool) -> FoundRow:
    """A run between the main and the units: by the index downstream, behind a mode box by its own table."""
    if not inner:
        return _band_row(book.branch, index)
    return ({}, None) if book.below_box is None else _band_row(book.below_box, index)


def _carried(frame: Frame, i: int, found: Mapping[Role, float]) -> Mapping[Role, float]:
    """The tubes that a run carries of those that a row gives; a unit's gas port without a box is on its gas side."""
    outer = frame.book.sides[Role.GAS]
    if frame.zones[i] is Zone.DIRECT and Role.GAS in found and outer not in found:
        found = {**found, outer: found[Role.GAS]}
    return {role: found[role] for role in frame.carried[i] if role in found}


def _band_row(bands: Bands[SizeRow], index: float) -> FoundRow:
    found = bands.find(index)
    return ({}, None) if found is None else (found.row.sizes, table_row(bands.path, bands.page, index, found=found))


def table_row(path: str, page: int | None, number: float, *, found: Found[RowT]) -> TableRow:
    """Say which row a look-up found."""
    lower = found.lower.value if found.lower is not None else None
    return TableRow(path, found.position, page, number, lower, found.upper.value)


def step_up(book: CompiledBook, role: Role, size_m: float | None, count: int) -> float | None:
    """So many steps up the ladder from a size; none where the ladder ends or does not have it [m]."""
    if size_m is None:
        return None
    ladder = book.ladders[role]
    at = next((i for i, step in enumerate(ladder) if same_tube(step, size_m)), None)
    return ladder[at + count] if at is not None and at + count < len(ladder) else None


def _cap(
    still: Still,
    role: Role,
    wanted: Mapping[Role, list[float | None]],
    steps: Mapping[int, int],
    *,
    short: set[tuple[Role, int]],
    capped: set[tuple[Role, int]],
) -> None:
    sizes, policy = wanted[role], still.frame.book.book.sizing.capped
    of_main = wanted[main_role(still.frame, role)]
    main = of_main[0]
    for i in still.frame.tree.main:
        if (size := of_main[i]) is not None and (main is None or size > main):
            main = size
    if main is None:
        return
    for i in _free(still, role):
        size = sizes[i]
        if size is not None and size > main and is_up(size, main):
            sizes[i] = main
            capped.add((role, i))
            if steps.get(i) and policy is not Capped.COUNTS:
                short.add((role, i))


def _free(still: Still, role: Role) -> list[int]:
    """Runs beyond the main whose tube the designer has not set."""
    set_ = {i for i, override in still.bare.override.items() if role in override}
    return [i for i, is_main in enumerate(still.frame.tree.is_main) if not is_main and i not in set_]


def _raise_main(
    still: Still,
    wanted: Mapping[Role, list[float | None]],
    steps: Mapping[Role, Mapping[int, int]],
    *,
    short: set[tuple[Role, int]],
) -> None:
    """Bring the main up to the largest run that has gone up."""
    for role, sizes in wanted.items():
        of_run = steps.get(role, {})
        stepped = [sizes[i] for i in _free(still, role) if of_run.get(i) and (role, i) not in short]
        most = max((size for size in stepped if size is not None), default=None)
        raised = main_role(still.frame, role)
        for i in still.frame.tree.main:
            if raised not in still.overrides(i) and most is not None and is_up(most, wanted[raised][i]):
                wanted[raised][i] = most
