"""Working of pipework: the terms that its results keep, each input followed to where it stands."""

from __future__ import annotations

from collections.abc import Iterable

from linewright.engine.pipework_records import PipeworkResult
from linewright.engine.records import Check
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.standards.pipework.terms import OWN, Given, Term
from linewright.units import Dimension

Steps = tuple[Step, ...] | None


def pipework_subjects(result: PipeworkResult, system: str) -> Iterable[str]:
    """Everything of pipework that can be asked for."""
    yield f"{system}/design-pressure"
    yield f"{system}/low-side-pressure"
    yield from (check.subject for check in result.checks)
    yield from (f"{system}/test:{stage.number}" for stage in result.test)
    yield from (move.subject for move in result.moves)


def pipework_steps(at: Places, rest: str) -> Steps:
    """The working behind one subject of pipework."""
    found = at.result.pipework
    if found is None:
        return None
    subject = at.subject(rest)
    if rest == "design-pressure":
        return _steps(at, subject, found.design.terms, note=found.design.missing or found.design.by)
    if rest == "low-side-pressure":
        return _steps(
            at, subject, found.low.terms, note=found.low.missing or f"{found.low.by}; no tube is judged by it"
        )
    for stage in found.test:
        if rest == f"test:{stage.number}":
            return _steps(at, subject, stage.terms, note=stage.missing)
    for move in found.moves:
        if move.subject == subject:
            return _steps(at, subject, move.terms, note="; ".join(f"without {one}" for one in move.missing))
    judged: list[tuple[Check, tuple[Term, ...]]] = [
        *((tube.check, tube.terms) for tube in found.tubes),
        *((item.check, item.terms) for item in found.insulation),
        *((check, ()) for check in found.others),
    ]
    return next(
        (_steps(at, subject, terms, note=_note(check)) for check, terms in judged if check.subject == subject), None
    )


def _note(check: Check) -> str:
    return "; ".join(filter(None, (str(check.standing), check.note, *(f"without {one}" for one in check.missing))))


def _steps(at: Places, subject: str, terms: tuple[Term, ...], *, note: str) -> tuple[Step, ...]:
    """Terms as steps; how it stands is said under the last."""
    if not terms:
        return (Step(subject.partition("/")[2], "stated", (), Dimension.NUMBER, None, note=note),)
    steps = [
        Step(
            term.name,
            term.formula,
            tuple(Input(item.name, item.value, item.dimension, _place(at, subject, item)) for item in term.inputs),
            term.dimension,
            term.value,
        )
        for term in terms
    ]
    return (*steps[:-1], steps[-1]._replace(note=note))


def _place(at: Places, subject: str, item: Given) -> str:
    """Where an input stands."""
    kind, _, rest = item.source.partition(":")
    if item.source == OWN:
        return subject
    if kind == "subject":
        return at.subject(rest)
    if kind == "book":
        return at.in_book(rest)
    return f"design:{at.system_path}.{rest}" if kind == "system" else item.source
