"""An evaluation for people: tables of at most 80 columns, least margin first where something fails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.book.roles import outer_roles
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.figures import ChargeTerm
from linewright.engine.ground import Ground
from linewright.engine.outdoor_records import ModulePipeResult
from linewright.engine.records import (
    Check,
    CheckKind,
    Evaluation,
    ModeFigures,
    RoomResult,
    RunResult,
    Standing,
    SystemResult,
    TubeSize,
)
from linewright.engine.rules import is_setting
from linewright.model.values import Role
from linewright.report.book_notes import notes_on
from linewright.report.page import Page
from linewright.report.pipework_text import pipework
from linewright.report.reasons import UNKNOWN, because, number
from linewright.report.safety_text import safety
from linewright.report.table import Cell, Column
from linewright.units import Dimension, UnitSystem, show, show_number, tube_name, unit_label


def check_text(evaluation: Evaluation, *, system: UnitSystem, colour: bool, books: dict[str, str]) -> str:
    """Write the whole evaluation; `books` gives a line about each book by id."""
    page = Page(colour=colour)
    for result in evaluation.systems:
        _system(page, evaluation, result, system=system, book=books.get(result.book, result.book))
        page.blank()
    _rooms(page, evaluation.rooms, system)
    page.blank()
    for caution in evaluation.cautions:
        page.text(f"Caution: {caution}")
    page.blank()
    for line in summary(evaluation):
        page.text(line)
    return str(page)


def summary(evaluation: Evaluation) -> Iterator[str]:
    """Say in a line or two where the design stands."""
    checks = [check for result in evaluation.systems for check in (*result.limits, *result.checks)]
    rooms = [check for room in evaluation.rooms for check in room.checks]
    counts = [
        (sum(check.standing is Standing.OVER for check in checks), "over"),
        (sum(check.standing is Standing.OVER for check in rooms), "short in rooms"),
        (sum(check.standing is Standing.UNJUDGED for check in (*checks, *rooms)), "unjudged"),
        (sum(check.standing is Standing.TO_CONFIRM for check in checks), "to confirm"),
        (sum(check.standing is Standing.ON_CONDITIONS for check in checks), "on conditions"),
    ]
    said = ", ".join(f"{count} {word}" for count, word in counts if count)
    nothing = "nothing over, nothing unjudged" if checks or rooms else "nothing was judged: the design has no system"
    yield f"{evaluation.design.project}: {said or nothing}."


def _system(page: Page, evaluation: Evaluation, result: SystemResult, *, system: UnitSystem, book: str) -> None:
    name = f" ({result.name})" if result.name else ""
    page.title(f"{evaluation.design.project} - system {result.id}{name}")
    page.text(f"{book}")
    if said := result.state.ground.book.book.note:
        page.text(said)
    ratio = result.indoor_index / result.outdoor_index
    page.text(
        f"group {result.group}: {len(result.units)} units, index {result.indoor_index:g} on {result.outdoor_index:g} "
        f"({show(ratio, Dimension.RATIO, system)})"
    )
    page.blank()
    judged = [check for check in result.limits if check.standing is not Standing.NOT_APPLICABLE]
    page.table(_LIMITS, [_limit_row(check, system) for check in judged])
    for check in judged:
        for line in because(check, system):
            page.text(line, indent=2)
    for line in notes_on(result):
        page.text(line, indent=2)
    idle = dict.fromkeys(check.measure for check in result.limits if check.standing is Standing.NOT_APPLICABLE)
    if idle:
        page.text(f"Not applicable here: {', '.join(idle)}.")
    if result.unstated:
        page.text(f"The book gives no limit on: {', '.join(result.unstated)}.")
    page.blank()
    told_below = (CheckKind.REFRIGERANT, CheckKind.PIPEWORK)
    checks = [check for check in result.checks if check.kind not in told_below]
    page.table(_CHECKS, [_check_row(check, result, system) for check in checks])
    page.blank()
    page.table(
        _run_columns(result, system),
        [
            *(_module_row(pipe, result, system) for pipe in result.outdoor.pipes),
            *(_run_row(run, result, system) for run in _walking(result)),
        ],
    )
    for line in _sides_lines(result.state.ground, system):
        page.text(line)
    _outdoor_joints(page, result)
    page.blank()
    _capacity(page, result, system)
    _charge(page, result, system)
    safety(page, result, system)
    pipework(page, result, system)
    _notes(page, result)


def _outdoor_joints(page: Page, result: SystemResult) -> None:
    for joint in result.outdoor.joints:
        if joint.model:
            page.text(f"Outdoor joint at {joint.id}: {joint.model} (index {joint.index:g})")


def _notes(page: Page, result: SystemResult) -> None:
    for note in result.notes:
        page.text(note.text if note.of_book else f"Note: {note.text}")


_LIMITS = (
    Column("limit", most=20),
    Column("value", right=True),
    Column("bound", right=True),
    Column("left", right=True),
    Column("standing", most=13),
    Column("page", right=True),
    Column("governs"),
)


def _limit_row(check: Check, system: UnitSystem) -> list[Cell | str]:
    return [
        f"{check.measure} ({check.note})" if check.note else check.measure,
        number(check.value, check.dimension, system, unit=False),
        _bound(check, system),
        number(check.margin, check.dimension, system, unit=False),
        Cell(check.standing.value, check.standing.value),
        "" if check.page is None else str(check.page),
        " ".join(check.governs),
    ]


def _bound(check: Check, system: UnitSystem) -> str:
    if check.bound is None:
        return "-"
    return f"{check.sense.value} {number(check.bound, check.dimension, system)}"


_CHECKS = (
    Column("check", most=28),
    Column("value", right=True),
    Column("bound", right=True),
    Column("standing", most=14),
    Column("note"),
)


def _check_row(check: Check, result: SystemResult, system: UnitSystem) -> list[Cell | str]:
    return [
        check.subject.partition("/")[2] or check.subject,
        number(check.value, check.dimension, system) if check.value is not None else "-",
        _bound(check, system) if check.bound is not None else "-",
        Cell(check.standing.value, check.standing.value),
        "; ".join(_check_notes(check, result)),
    ]


def _check_notes(check: Check, result: SystemResult) -> Iterator[str]:
    if check.note:
        yield f"at start-up: {check.note}" if is_setting(result, check) else check.note
    if check.standing is Standing.TO_CONFIRM:
        yield f"open at {', '.join(check.governs)}"
    yield from (f"without {name}" for name in check.missing if name != check.note)


def _run_columns(result: SystemResult, system: UnitSystem) -> tuple[Column, ...]:
    length, ground = unit_label(Dimension.LENGTH, system), result.state.ground
    gas, liquid = (_side(ground, side) for side in (Role.GAS, Role.LIQUID))
    return (
        Column("run", most=14),
        Column("from", most=12),
        Column(f"{length}", right=True),
        Column(f"eq {length}", right=True),
        Column("index", right=True),
        Column(gas, right=True),
        *(Column(role.word, right=True) for role in _between(ground)),
        Column(liquid, right=True),
        *((Column("port", right=True),) if ground.boxes else ()),
        Column("fitting or unit"),
    )


def _side(ground: Ground, side: Role) -> str:
    """Name of a column that holds one side, which before the boxes is another tube than behind them."""
    return str(side) if ground.book.sides[side] is side else f"{side} side"


def _sides_lines(ground: Ground, system: UnitSystem) -> Iterator[str]:
    """In what unit the tubes of several roles stand, and which tube stands for a side before the boxes."""
    if ground.zones:
        yield f"tubes in {unit_label(Dimension.TUBE, system)}"
    for side in (Role.GAS, Role.LIQUID):
        outer = ground.book.sides[side]
        if outer is not side:
            yield f"{side} side: the {outer} tube up to the mode boxes, the {side} tube behind them"


def _between(ground: Ground) -> tuple[Role, ...]:
    """Tubes before the boxes that are on neither side."""
    return tuple(role for role in outer_roles(ground.book.book) if role not in ground.book.sides.values())


def _walking(result: SystemResult) -> list[RunResult]:
    """Runs in walking order, as they stand on the drawing."""
    return sorted(result.runs, key=lambda run: result.tree.at[run.id])


def _run_row(run: RunResult, result: SystemResult, system: UnitSystem) -> list[Cell | str]:
    fitting = next((f for f in result.fittings if f.id == run.id), None)
    unit = next((u for u in result.units if u.id == run.id), None)
    ground = result.state.ground
    short = bool(ground.zones)
    what = fitting.model or fitting.kind.value if fitting else unit.model if unit else ""
    return [
        run.id,
        run.from_,
        number(run.length_m, Dimension.LENGTH, system, unit=False),
        number(run.equivalent_m, Dimension.LENGTH, system, unit=False),
        f"{run.downstream_index:g}",
        _tube(run.gas_side, system, short=short),
        *(_tube(tube, system, short=short) if (tube := run.tubes.get(role)) else "" for role in _between(ground)),
        _tube(run.liquid_side, system, short=short),
        *(("+".join(str(port) for port in run.ports),) if ground.boxes else ()),
        what,
    ]


def _module_row(pipe: ModulePipeResult, result: SystemResult, system: UnitSystem) -> list[Cell | str]:
    ground = result.state.ground
    module = next((item for item in ground.modules if item.id == pipe.id), None)
    return [
        pipe.id,
        pipe.from_,
        number(pipe.length_m, Dimension.LENGTH, system, unit=False),
        number(pipe.equivalent_m, Dimension.LENGTH, system, unit=False),
        f"{pipe.served_index:g}",
        *(_plain_tube(pipe, role, system, short=bool(ground.zones)) for role in _columns_of(ground)),
        *(("",) if ground.boxes else ()),
        "outdoor joint" if module is None else module.data.model,
    ]


def _plain_tube(pipe: ModulePipeResult, role: Role, system: UnitSystem, *, short: bool) -> str:
    size = pipe.tubes.get(role)
    if size is None:
        return UNKNOWN
    name = show_number(size, Dimension.TUBE, system) if short else tube_name(size, system)
    return name + ("*" if pipe.source[role] == "override" else "")


def _columns_of(ground: Ground) -> tuple[Role, ...]:
    """Tubes of a module pipe in the order of the columns."""
    return (ground.book.sides[Role.GAS], *_between(ground), ground.book.sides[Role.LIQUID])


def _tube(tube: TubeSize | None, system: UnitSystem, *, short: bool) -> str:
    """Size of a tube with its marks; `short` without its unit."""
    if tube is None or tube.od_m is None:
        return UNKNOWN
    mark = "*" if tube.source == "override" else "+" if tube.source == "action" else ""
    size = show_number(tube.od_m, Dimension.TUBE, system) if short else tube_name(tube.od_m, system)
    return size + mark


def _capacity(page: Page, result: SystemResult, system: UnitSystem) -> None:
    for capacity in (result.cooling, result.heating):
        if capacity is None:
            continue
        page.text(f"{capacity.mode.capitalize()}: {_product(capacity, system)}", indent=0)
    marks = {tube.source for run in result.runs for tube in run.tubes.values()}
    if marks & {"override", "action"}:
        page.text("+ one or more steps up by a size action of the book; * override")


def _product(capacity: SystemCapacity, system: UnitSystem) -> str:
    parts = [number(capacity.rated_w, Dimension.POWER, system)]
    parts += [
        f"{factor.value:.4f} ({factor.name})" if factor.value is not None else f"? ({factor.missing})"
        for factor in capacity.factors
    ]
    total = number(capacity.capacity_w, Dimension.POWER, system)
    block = number(capacity.block_w, Dimension.POWER, system)
    used = "" if capacity.used is None else f", input {number(capacity.used.input_w, Dimension.POWER, system)}"
    by_table = " (by the book's table)" if capacity.power is not None else ""
    return (
        f"{parts[0]}{by_table}{''.join(f' x {part}' for part in parts[1:])} = {total}{used} on a block load of {block}"
    )


def _charge(page: Page, result: SystemResult, system: UnitSystem) -> None:
    charge = result.charge
    terms = " + ".join(
        f"{number(term.kg, Dimension.MASS, system, unit=False)} ({_term(term, system)})" for term in charge.terms
    )
    added = number(charge.rounded_kg, Dimension.MASS, system)
    total = number(charge.total_kg, Dimension.MASS, system)
    before = number(charge.unrounded_kg, Dimension.MASS, system)
    page.text(
        f"Additional charge: {terms or 'no terms'} = {before}, rounded {added}; with the factory charge of "
        f"{number(charge.factory_kg, Dimension.MASS, system)}: {total}"
    )


def _term(term: ChargeTerm, system: UnitSystem) -> str:
    """Name of a term, a tube in the units of the page."""
    return term.name if term.od_m is None else f"{term.name.partition(' ')[0]} {tube_name(term.od_m, system)}"


_ROOMS = (
    Column("room", most=22),
    Column("units", most=14),
    Column("cooling", right=True),
    Column("sensible", right=True),
    Column("heating", right=True),
    Column("standing"),
)


def _rooms(page: Page, rooms: Sequence[RoomResult], system: UnitSystem) -> None:
    if not rooms:
        return
    page.title(f"Rooms: delivered at full demand / needed, {unit_label(Dimension.POWER, system)}")
    page.table(_ROOMS, [_room_row(room, system) for room in rooms])


def _room_row(room: RoomResult, system: UnitSystem) -> list[Cell | str]:
    short = [check.measure for check in room.checks if check.standing is Standing.OVER]
    open_ = [check.measure for check in room.checks if check.standing is Standing.UNJUDGED]
    standing = Cell("within", "within")
    if open_:
        standing = Cell(f"unjudged: {', '.join(open_)}", "unjudged")
    if short:
        standing = Cell(f"short: {', '.join(short)}", "over")
    return [
        room.name or room.id,
        " ".join(unit.partition("/")[2] for unit in room.units) or "-",
        _pair(room.cooling, system),
        _pair(room.sensible, system),
        _pair(room.heating, system),
        standing,
    ]


def _pair(figures: ModeFigures, system: UnitSystem) -> str:
    delivered = number(figures.delivered_w, Dimension.POWER, system, unit=False)
    return f"{delivered}/{number(figures.needed_w, Dimension.POWER, system, unit=False)}"
