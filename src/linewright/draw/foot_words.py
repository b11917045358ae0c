"""The words below the lanes. Nothing that is over or unjudged is left out, however long the list."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator

from linewright.draw.flow import flow_words
from linewright.draw.gathering import faults_all, missing_all, names_all
from linewright.draw.plan import Axis, Pipe, SheetLayout
from linewright.draw.run_words import size_words
from linewright.draw.tube_words import pipework_words
from linewright.draw.verdicts import other_checks, own_checks
from linewright.draw.wording import (
    CONDITIONS_SIGN,
    CONFIRM_SIGN,
    OVER_SIGN,
    UNJUDGED_SIGN,
    UNKNOWN,
    check_name,
    measure_words,
    number,
    quantity,
    standing_words,
    used_of_allowed,
)
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.figures import ChargeTerm
from linewright.engine.records import Check, CheckKind, NeedResult, Standing
from linewright.engine.rules import is_setting
from linewright.model.kept import Kept, KeptEach
from linewright.units import Dimension, UnitSystem, from_unit, show, show_number, tube_name

Words = tuple[str, str, str, str]
SEPARATOR = "  ·  "
# A term of the charge is named by its tube in millimetres.
_SIZE = re.compile(r"(\d+(?:\.\d+)?) mm$")


def paragraphs(sheet: SheetLayout, system: UnitSystem, *, unlabelled: list[Pipe]) -> list[Words]:
    """Give id, head, words and class of each text below the lanes that has something to say."""
    checks, own = own_checks(sheet), sheet.result.id
    unjudged = tuple([check for check in checks if check.standing is Standing.UNJUDGED])
    found = [
        ("capacity", "Capacity", capacity_words(sheet, system), "text"),
        ("charge", "Charge", charge_words(sheet, system), "text"),
        ("flow", "Flow", flow_words(sheet), "text"),
        ("over", f"{OVER_SIGN} Over", SEPARATOR.join(_over(sheet, system)), "warning"),
        ("conditions", f"{CONDITIONS_SIGN} On conditions", SEPARATOR.join(_conditions(sheet, system)), "text"),
        ("pipework", "Pipework", SEPARATOR.join(pipework_words(sheet, system)), "text"),
        ("actions", "Size actions", SEPARATOR.join(_actions(sheet)), "text"),
        ("unjudged", f"{UNJUDGED_SIGN} Unjudged", _UNJUDGED(own, unjudged), "text"),
        ("confirm", f"{CONFIRM_SIGN} To confirm", SEPARATOR.join(_to_confirm(sheet, checks)), "text"),
        ("other-axis", "Other axis", _other_axis(sheet, system), "quiet"),
        ("unbounded", "No bound", _unstated(sheet), "quiet"),
        ("sizes", "Sizes", SEPARATOR.join(_SIZES(own, [(pipe, system) for pipe in unlabelled])), "text"),
        ("notes", "Notes", SEPARATOR.join(_notes(sheet)), "text"),
        ("caution", "Caution", " ".join(sheet.evaluation.cautions), "quiet"),
    ]
    return [item for item in found if item[2]]


def capacity_words(sheet: SheetLayout, system: UnitSystem) -> str:
    """Give rated, delivered and coincident capacity beside the block load, in both modes."""
    modes = (("cooling", sheet.result.cooling), ("heating", sheet.result.heating))
    return SEPARATOR.join(_capacity(mode, capacity, system) for mode, capacity in modes)


def _capacity(mode: str, capacity: SystemCapacity | None, system: UnitSystem) -> str:
    if capacity is None:
        return f"{mode}: not computed"
    rated, had, block = (
        quantity(value, Dimension.POWER, system) for value in (capacity.rated_w, capacity.capacity_w, capacity.block_w)
    )
    first = f"rated {rated}" if capacity.power is None else f"by the book's table {rated}"
    used = "" if capacity.used is None else f", input {quantity(capacity.used.input_w, Dimension.POWER, system)}"
    return f"{mode}: {first}, at these conditions and lengths {had}{used}, block load {block}"


def charge_words(sheet: SheetLayout, system: UnitSystem) -> str:
    """Give the terms of the charge, their sum, rounding and total; unknown terms stay unknown."""
    charge = sheet.result.charge
    terms = Counter(_TERMS(sheet.result.id, [(term, system) for term in charge.terms]))
    told = [f"{words} ({times} times)" if times > 1 else words for words, times in terms.items()]
    added, total = (quantity(value, Dimension.MASS, system) for value in (charge.rounded_kg, charge.total_kg))
    factory = show(charge.factory_kg, Dimension.MASS, system)
    refrigerant = f" {sheet.book.refrigerant}" if sheet.book else ""
    words = f"{' + '.join(told) or 'no terms'} = {added} to add{_before_rounding(sheet, system)}"
    words += f"{SEPARATOR}factory {factory}{SEPARATOR}total {total}{refrigerant}"
    return f"{words}{SEPARATOR}missing: {missing_all(charge.missing)}" if charge.missing else words


def _term(term: ChargeTerm, system: UnitSystem) -> str:
    length = "" if term.length_m is None else f" {show(term.length_m, Dimension.LENGTH, system)}"
    name = _SIZE.sub(lambda size: tube_name(from_unit(float(size[1]), "mm"), system), measure_words(term.name))
    return f"{name}{length} {number(term.kg, Dimension.MASS, system)}"


def _before_rounding(sheet: SheetLayout, system: UnitSystem) -> str:
    charge = sheet.result.charge
    if charge.unrounded_kg is None or charge.unrounded_kg == charge.rounded_kg:
        return ""
    return f" ({show_number(charge.unrounded_kg, Dimension.MASS, system)} before rounding)"


def _over(sheet: SheetLayout, system: UnitSystem) -> Iterator[str]:
    rooms = [c for room in sheet.rooms for c in room.checks if c.standing is Standing.OVER]
    for check in rooms:
        yield f"{check_name(check)} {standing_words(check, system)}"
    yield from faults_all(other_checks(sheet, Standing.OVER))


def _conditions(sheet: SheetLayout, system: UnitSystem) -> Iterator[str]:
    for check in sheet.result.limits:
        if check.standing is Standing.ON_CONDITIONS and check.relaxed:
            needs = "; ".join(_need(need, system) for need in check.relaxed[-1].needs)
            yield f"{check_name(check)} {used_of_allowed(check, system)} because {needs}"


def _need(need: NeedResult, system: UnitSystem) -> str:
    head, _, rest = need.text.partition(" ")
    words = f"{measure_words(head)} {rest}".strip()
    if need.bound is None:
        return words
    value, bound = (quantity(item, need.dimension, system) for item in (need.value, need.bound))
    return f"{words} {bound} ({value})"


def _actions(sheet: SheetLayout) -> Iterator[str]:
    for action in sheet.result.actions:
        runs = f" on {', '.join(action.runs)}" if action.runs else ""
        if action.forbidden:
            yield f"{action.id}: forbidden by the designer"
        elif action.due or action.chosen:
            kind = "mandatory" if action.mandatory else "elective"
            state = "carried out" if action.carried_out else "not carried out" if action.mandatory else "not chosen"
            yield ": ".join(filter(None, (f"{action.id}{runs}, {kind}, {state}", action.why_not)))


def _unjudged(checks: Iterable[Check]) -> str:
    """Name what is unjudged by what is missing, so that one gap is told once."""
    by_missing: dict[str, list[Check]] = {}
    for check in checks:
        missing = missing_all(check.missing) or check.note or str(check.standing)
        by_missing.setdefault(missing, []).append(check)
    return SEPARATOR.join(f"{names_all(found)}: {missing}" for missing, found in by_missing.items())


def _to_confirm(sheet: SheetLayout, checks: Iterable[Check]) -> Iterator[str]:
    """Give what the design has yet to state, with where it is open."""
    for check in checks:
        if check.standing is Standing.TO_CONFIRM:
            if check.kind is CheckKind.PIPEWORK:
                yield f"{check_name(check)}: {check.note}"
                continue
            name = check.subject.rpartition("/")[2].partition(":")[2]
            if is_setting(sheet.result, check):
                name = f"at start-up, {name}"
            page = f" (page {check.page})" if check.page is not None else ""
            yield f"{name}{page}: {check.note} Open at {', '.join(check.governs)}"


def _other_axis(sheet: SheetLayout, system: UnitSystem) -> str:
    names = [f"{check_name(check)} {_bound(check, system)}" for check in sheet.limits_elsewhere]
    axis = Axis.EQUIVALENT if sheet.axis is Axis.ACTUAL else Axis.ACTUAL
    return f"limits on the {axis} axis, not drawn here: {', '.join(names)}" if names else ""


def _bound(check: Check, system: UnitSystem) -> str:
    return "" if check.bound is None else show(check.bound, check.dimension, system)


def _unstated(sheet: SheetLayout) -> str:
    names = [measure_words(name) for name in sheet.result.unstated]
    return f"the book states none on {', '.join(names)}" if names else ""


def _sizes(pipe: Pipe, system: UnitSystem) -> str:
    sizes = UNKNOWN if pipe.result is None else size_words(pipe.result, system)
    return f"{pipe.near.id} to {pipe.id} {sizes}"


def _notes(sheet: SheetLayout) -> Iterator[str]:
    for note in sheet.result.notes:
        yield note.text
    if sheet.book is not None and sheet.book.note:
        yield f"book: {sheet.book.note}"
    if sheet.evaluation.design.note:
        yield f"design: {sheet.evaluation.design.note}"


#: The words of the sheet before, by system.
_UNJUDGED: Kept[str] = Kept(_unjudged)
_TERMS: KeptEach[str] = KeptEach(_term)
_SIZES: KeptEach[str] = KeptEach(_sizes)
