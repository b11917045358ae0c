"""Drawings on paper of a project: the riser diagram and the sheet of each system."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import NamedTuple, TypeAlias

from linewright import __version__
from linewright.app.project import Project, book_line
from linewright.book.schema import Status
from linewright.draw import Axis, layout
from linewright.draw.paper import PAPERS, Drawing, Paper, TooSmallError, next_paper
from linewright.draw.paper.facts import Facts, Revision
from linewright.draw.paper.sheets import sheet_drawings
from linewright.draw.riser import diagram_sheets, riser_drawings
from linewright.engine import Evaluation
from linewright.engine.records import SystemResult
from linewright.errors import Fault, InputFaultsError, quoted
from linewright.report.schedules.about import ADVICE
from linewright.units import UnitSystem

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_Draw: TypeAlias = Callable[[Paper], list[Drawing]]
_DEFAULT = {UnitSystem.SI: "A3", UnitSystem.IP: "tabloid"}


class Kind(StrEnum):
    """What a drawing shows."""

    SHEET = "sheet"
    RISER = "riser"


class Request(NamedTuple):
    """How drawings are wanted.

    paper : name of a paper; without one the smallest usual one that does, for a riser diagram
        the smallest on which it needs the fewest sheets
    axis, with_flow : of a sheet, along which length pipe is drawn and whether the lanes tell what flows
    """

    paper: str = ""
    revisions: tuple[Revision, ...] = ()
    axis: Axis = Axis.ACTUAL
    with_flow: bool = False


def facts_of(project: Project, name: str, revisions: Sequence[Revision] = ()) -> Facts:
    """Give what the title block says of a project and of the book of one system, by its name."""
    books = [project.books[name].compiled.book]
    return Facts(
        project=project.loaded.design.project,
        design=Path(project.loaded.source.file).name,
        sha256=project.loaded.sha256,
        books=tuple(book_line(book) for book in books),
        demonstration=any(book.status is Status.DEMONSTRATION for book in books),
        caution=ADVICE,
        version=__version__,
        revisions=tuple(revisions),
    )


def drawings(
    project: Project, evaluation: Evaluation, result: SystemResult, kind: Kind, *, request: Request, system: UnitSystem
) -> list[Drawing]:
    """Draw one system on as many sheets as it needs.

    Raises InputFaultsError where the wanted paper has no room for it, saying which has.
    """
    draw = _painter(project, evaluation, result, kind, request=request, system=system)
    wanted = PAPERS[request.paper or _DEFAULT[system]]
    found, paper = _first(draw, wanted)
    if found is None or paper is None or (request.paper and paper is not wanted):
        raise _too_small(wanted, paper, kind, result)
    return found if request.paper or kind is Kind.SHEET else _on_fewest(draw, found, paper)


def _first(draw: _Draw, paper: Paper | None) -> tuple[list[Drawing] | None, Paper | None]:
    """Draw on the first paper that has room, from one on."""
    while paper is not None:
        try:
            return draw(paper), paper
        except TooSmallError:
            paper = next_paper(paper)
    return None, None


def _on_fewest(draw: _Draw, found: list[Drawing], paper: Paper) -> list[Drawing]:
    """Draw a divided diagram on the smallest of the larger papers on which it needs the fewest sheets."""
    larger = next_paper(paper)
    while larger is not None and diagram_sheets(found) > 1:
        other, drawn_on = _first(draw, larger)
        if other is not None and diagram_sheets(other) < diagram_sheets(found):
            found = other
        larger = None if drawn_on is None else next_paper(drawn_on)
    return found


def _painter(
    project: Project, evaluation: Evaluation, result: SystemResult, kind: Kind, *, request: Request, system: UnitSystem
) -> _Draw:
    """Give what draws a system on a paper."""
    facts = facts_of(project, result.book, request.revisions)
    if kind is Kind.RISER:
        return lambda paper: riser_drawings(evaluation, result, facts, paper, system=system)
    book = project.books[result.book].compiled.book
    plan = layout(evaluation, result, axis=request.axis, book=book, with_flow=request.with_flow)
    return lambda paper: sheet_drawings(plan, facts, paper, system)


def _too_small(wanted: Paper, enough: Paper | None, kind: Kind, result: SystemResult) -> InputFaultsError:
    """Say that letters of 2 mm find no room; nothing is made smaller."""
    fault = Fault(
        file="--paper",
        line=0,
        column=0,
        path="",
        value=wanted.name,
        message=f"the {kind} of system {quoted(result.id)} has no room on {quoted(wanted.name)} with letters of 2 mm",
        expected="a larger paper, which there is none of" if enough is None else f"{enough.name} or a larger paper",
    )
    return InputFaultsError((fault,))


def revision(text: str) -> Revision:
    """Read a revision such as `B, 2026-11-20, for tender`; raises ValueError where its mark or its day is none."""
    mark, _, rest = (part.strip() for part in text.partition(","))
    day, _, words = (part.strip() for part in rest.partition(","))
    if not mark or not _DAY.fullmatch(day):
        raise ValueError("expected a mark, a day and what it is for, such as 'B, 2026-11-20, for tender'")
    date.fromisoformat(day)
    return Revision(mark, day, words)
