"""Remedies for people: what each does, what has to be done on site, what it cures, what it trades."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.draw.wording import check_name
from linewright.engine.records import Check, CheckKind, Standing
from linewright.explore.remedies.records import Effect, Outcome, Reached, Remedy
from linewright.report.page import Page
from linewright.report.reasons import number
from linewright.units import UnitSystem

#: So many effects of one kind are told of a remedy; --json tells all.
MOST_TOLD = 4
CAUTION = (
    "Caution: a remedy is proven against the books as they were typed, not on site. What is to be built, measured, "
    "ordered or carried out is only true once somebody has done it; sign nothing before."
)

FLOW = (
    "What flows is worked out from first principles, beside the book, and advisory; its bounds, 0 K of subcooling left "
    "at a valve and an oil margin of 1.25, are a judgement, no source."
)


def remedies_text(outcome: Outcome, *, project: str, system: UnitSystem, colour: bool) -> str:
    """Write an outcome."""
    page = Page(colour=colour)
    if not outcome.targets:
        page.text(f"{project}: nothing of what was asked for is over; there is nothing to cure.")
        return str(page)
    page.title(f"{project}: to be cured")
    for check in outcome.targets:
        page.text(f"{check.subject}: {_stand(check, system)}", indent=2)
    page.blank()
    for line in _counted(outcome):
        page.text(line)
    for i, remedy in enumerate((*outcome.remedies, *outcome.trades)):
        if i == len(outcome.remedies):
            page.blank()
            page.title("These make something else stand worse:")
        page.blank()
        _remedy(page, i + 1, remedy, system)
    if outcome.reached is not None:
        page.blank()
        _reached(page, outcome.reached, system)
    for line in _tried(outcome):
        page.text(line)
    page.blank()
    if any(check.kind is CheckKind.FLOW for check in outcome.targets):
        page.text(FLOW)
    page.text(CAUTION)
    return str(page)


def _counted(outcome: Outcome) -> Iterator[str]:
    count = len(outcome.remedies)
    if count:
        by_price = any(one.price is not None for one in outcome.remedies)
        order = "the least price first" if by_price else "those that change least first"
        yield f"{count} remed{'ies' if count > 1 else 'y'}, {order}:"
    else:
        yield "No remedy was found that meets all of this and makes nothing else worse."


def _remedy(page: Page, place: int, remedy: Remedy, system: UnitSystem) -> None:
    words = "; ".join(move.words.say(system) for move in remedy.moves)
    page.text(f"{place:2}  {words[:1].upper()}{words[1:]}")
    price = "" if remedy.price is None else f", {remedy.price:+.2f} to the take-off"
    cost = f"change {remedy.cost:g}{price}"
    duties = f"; {', '.join(duty.value for duty in remedy.duties)}" if remedy.duties else ""
    page.text(f"{cost}{duties}", indent=4)
    if remedy.unpriced:
        page.text(f"no price, for want of one for: {_few(remedy.unpriced)}", indent=4)
    _effects(page, "cures", remedy.cured, system)
    _effects(page, "worse", remedy.worse, system)
    _effects(page, "trades", remedy.traded, system)


def _few(names: Sequence[str]) -> str:
    more = f" and {len(names) - MOST_TOLD} more" if len(names) > MOST_TOLD else ""
    return f"{'; '.join(names[:MOST_TOLD])}{more}"


def _effects(page: Page, word: str, found: Sequence[Effect], system: UnitSystem) -> None:
    if not found:
        return
    told = [effect_words(effect, system) for effect in found[:MOST_TOLD]]
    more = f"; and {len(found) - MOST_TOLD} more" if len(found) > MOST_TOLD else ""
    page.text(f"{word}: {'; '.join(told)}{more}", indent=4)


def effect_words(effect: Effect, system: UnitSystem) -> str:
    """Say what becomes of one check."""
    check = effect.after or effect.before
    name = effect.key.subject if check is None else f"{_where(check)}{check_name(check)}"
    return f"{name} {_value(effect.before, system)} -> {_value(effect.after, system)}"


def _where(check: Check) -> str:
    system, inside, _ = check.subject.partition("/")
    return f"{system} " if inside else ""


def _value(check: Check | None, system: UnitSystem) -> str:
    if check is None:
        return "nothing"
    if check.value is None or check.bound is None:
        return check.standing.value
    bound = number(check.bound, check.dimension, system)
    standing = "" if check.standing is Standing.WITHIN else f", {check.standing.value}"
    return f"{number(check.value, check.dimension, system, unit=False)} ({check.sense.value} {bound}{standing})"


def _stand(check: Check, system: UnitSystem) -> str:
    value = _value(check, system)
    return f"{value}; {check.note}" if check.note and check.bound is None else value


def _reached(page: Page, reached: Reached, system: UnitSystem) -> None:
    if not reached.moves:
        page.text("Nothing that was tried brought it nearer.")
    else:
        words = "; ".join(move.words.say(system) for move in reached.moves)
        page.text(f"Nearest that was reached: {words}")
    for effect in reached.left:
        page.text(f"left: {effect_words(effect, system)}", indent=4)


def _tried(outcome: Outcome) -> Iterator[str]:
    tried = ", ".join(f"{count} {kind.value}" for kind, count in outcome.tried.items())
    end = " Stopped before the end." if outcome.stopped else ""
    yield f"Judged {outcome.evaluations} times of at most {outcome.budget}; tried: {tried or 'nothing'}.{end}"
    if outcome.locks and not outcome.remedies:
        yield f"Locks that forbid some of it: {', '.join(outcome.locks)}."
