"""Drawings on paper of a project: the riser diagram and the sheet of each system."""

from __future__ import annotations

import re
from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import NamedTuple

from linewright import __version__
from linewright.app.project import Project, book_line
from linewright.book.schema import Status
from linewright.draw.paper import PAPERS, Drawing, Paper, TooSmallError, next_paper
from linewright.draw.paper.facts import Facts, Revision
from linewright.draw.paper.sheets import sheet_drawings
from linewright.draw.riser import riser_drawings
from linewright.engine import Evaluation
from linewright.engine.records import SystemResult
from linewright.errors import Fault, InputFaultsError, one_of, quoted
from linewright.report.schedules.about import ADVICE
from linewright.units import UnitSystem

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_DEFAULT = {UnitSystem.SI: "A3", UnitSystem.IP: "tabloid"}


class Kind(StrEnum):
    """What a drawing shows."""

    SHEET = "sheet"
    RISER = "riser"


class Request(NamedTuple):
    """How drawings are wanted: on which paper (none: the smallest usual one that does), with which revisions."""

    paper: str = ""
    revisions: tuple[Revision, ...] = ()


def facts_of(project: Project, revisions: Sequence[Revision] = ()) -> Facts:
    """Give what the title block says of a project."""
    books = [book.compiled.book for _, book in sorted(project.books.items())]
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
    facts = facts_of(project, request.revisions)
    wanted = PAPERS[request.paper or _DEFAULT[system]]
    paper: Paper | None = wanted
    while paper is not None:
        try:
            found = _drawn(project, evaluation, result, kind, facts=facts, paper=paper, system=system)
        except TooSmallError:
            paper = next_paper(paper)
            continue
        if request.paper and paper is not wanted:
            break
        return found
    raise _too_small(wanted, paper, kind, result)


def _drawn(
    project: Project,
    evaluation: Evaluation,
    result: SystemResult,
    kind: Kind,
    *,
    facts: Facts,
    paper: Paper,
    system: UnitSystem,
) -> list[Drawing]:
    if kind is Kind.RISER:
        return riser_drawings(evaluation, result, facts, paper, system=system)
    return sheet_drawings(evaluation, result, project.books[result.book].compiled.book, facts, paper, system=system)


def _too_small(wanted: Paper, enough: Paper | None, kind: Kind, result: SystemResult) -> InputFaultsError:
    """Say that letters of 2 mm find no room; nothing is made smaller."""
    return _fault(
        "paper",
        wanted.name,
        f"the {kind.value} of system {result.id} has no room on it with letters of 2 mm",
        "no paper here is large enough" if enough is None else f"{enough.name} or larger",
    )


def revision(text: str) -> Revision:
    """Read a revision such as `B, 2026-11-20, for tender`.

    Raises InputFaultsError where the mark or the day is none.
    """
    mark, _, rest = (part.strip() for part in text.partition(","))
    day, _, words = (part.strip() for part in rest.partition(","))
    if not mark or not _is_day(day):
        raise _fault("revision", text, f"{quoted(text)} is no revision", "a mark, a day and what it is for, such as B, 2026-11-20, for tender")
    return Revision(mark, day, words)


def _is_day(text: str) -> bool:
    from datetime import date  # noqa: PLC0415 - only to check what was typed

    if not _DAY.fullmatch(text):
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _fault(name: str, value: str, message: str, expected: str) -> InputFaultsError:
    return InputFaultsError((Fault(file=f"--{name}", line=0, column=0, path="", value=value, message=message, expected=expected),))
