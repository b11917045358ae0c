"""The hand-over set of a project: every file, made from one evaluation, and the folder that holds them."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from typing import Any, NamedTuple
from xml.sax.saxutils import escape

from linewright import __version__
from linewright.app.drawing_files import drawing_files
from linewright.app.drawings import Request
from linewright.app.only_systems import Only, check_systems, only_systems
from linewright.app.output_names import file_names
from linewright.app.papers import drawings_file, paper_files, paper_parts
from linewright.app.project import Project
from linewright.app.sheets import sheet
from linewright.draw import Axis
from linewright.engine import Evaluation
from linewright.report.calculations import annex_text
from linewright.report.cautions import caution_sections, lines, open_sections, sections_text
from linewright.report.check_text import check_text
from linewright.report.pdf import Front
from linewright.report.schedules import About, BookOf, Table, schedules, table_csv, tables_json, workbook
from linewright.takeoff import PriceList, Settings, Stock, TakeOff, take_off
from linewright.units import UnitSystem

CONTENTS = "contents.json"
SCHEMA = "linewright/report/1"
_BOUGHT = ("takeoff", "cuts", "by_system", "gaps")


class Buying(NamedTuple):
    """What a take-off is made with."""

    settings: Settings
    stock: Stock | None = None
    prices: PriceList | None = None


class HandOver(NamedTuple):
    """A set: its files by name, the evaluation and the take-off that they were made from."""

    files: Mapping[str, bytes]
    evaluation: Evaluation
    found: TakeOff
    summary: dict[str, Any]


def hand_over(
    project: Project,
    buying: Buying,
    system: UnitSystem,
    progress: Callable[[str], None],
    *,
    front: Front = Front(),  # noqa: B008 - a frozen value
    drawn: Request | None = None,
    systems: Collection[str] = (),
) -> HandOver:
    """Make every file of the set in memory; whatever `progress` raises stops the work (`papers.watched`).

    front : revision, date and paper of the documents; drawn : on which paper drawings stand, with which revisions
    systems : ids of the only systems that it is made for; all of the design without any
    Raises InputFaultsError where the stock list has nothing for a tube, the paper no room for a drawing, or the
    design no such system.
    """
    check_systems(project, systems)
    progress("judging")
    whole = project.evaluate()
    only = only_systems(whole, systems)
    evaluation = only.evaluation
    book_lines = {name: line for name, line in project.book_lines().items() if name in evaluation.books}
    about = about_project(project, only)
    found = take_off(
        evaluation, buying.settings, stock=buying.stock, prices=buying.prices, system=system, progress=progress
    )
    about = about._replace(
        cautions=(*only.lines, *lines(caution_sections(evaluation, found, book_lines))),
        not_judged=lines(open_sections(evaluation, found)),
    )
    progress("schedules")
    tables = tuple(_for(about, table) for table in schedules(evaluation, found, system))
    files: dict[str, bytes] = {f"schedules/{one.name}.csv": table_csv(one, about, system).encode() for one in tables}
    files["schedules.xlsx"] = workbook(tables, about, system)
    files["schedules.json"] = _json(tables_json(tables, about))
    names = list(file_names([one.id for one in evaluation.systems]).values())
    for name, result in zip(names, evaluation.systems, strict=True):
        progress(f"sheet of {result.id}")
        text = sheet(project, evaluation, result, system=system, axis=Axis.ACTUAL, form="svg")
        said = f"<metadata>{escape(about.text())}</metadata><defs>"
        files[f"sheets/{name}.svg"] = text.replace("<defs>", said, 1).encode()
    files |= drawing_files(
        project, evaluation, names, about, request=drawn or Request(), system=system, progress=progress
    )
    progress("texts")
    texts = {
        "check.txt": check_text(evaluation, system=system, colour=False, books=book_lines) + "\n",
        "caution.txt": sections_text(caution_sections(evaluation, found, book_lines)),
        "not-judged.txt": sections_text(open_sections(evaluation, found)),
    }
    progress("calculations")
    texts["calculations.txt"] = annex_text(evaluation, project.file_names(), system)
    said_first = "".join(f"{line}\n" for line in (*only.lines, ""))
    files |= {
        name: f"{about.text()}\n{said_first if only.lines else ''}{text}".encode() for name, text in texts.items()
    }
    parts = paper_parts(project, about, evaluation, found, tables=tables, system=system)
    files |= paper_files(parts, front, progress) | drawings_file(files, about)
    summary = _summary(about, evaluation, found, files) | {"standing_of_design": whole.standing.value}
    return HandOver(files | {CONTENTS: _json(summary)}, evaluation, found, summary)


def _for(about: About, table: Table) -> Table:
    """Lists to buy and to cut by bear in their title for which systems they are, where that is not all."""
    if not about.others or table.name not in _BOUGHT:
        return table
    return table._replace(title=f"{table.title}: {about.only}", notes=(*about.only_lines, *table.notes))


def about_project(project: Project, only: Only | None = None) -> About:
    """Say of which files a project was read, and of which of its systems it is told."""
    books = [
        BookOf(name, doc.edition, doc.date, book.compiled.book.status.value, book.sha256)
        for name, book in sorted(project.books.items())
        if only is None or name in only.evaluation.books
        for doc in (book.compiled.book.document,)
    ]
    loaded = project.loaded
    name = Path(loaded.source.file).name
    made = About(loaded.design.project, name, loaded.sha256, __version__, tuple(books))
    return made if only is None else made._replace(systems=only.systems, others=only.others, only_lines=only.lines)


def _summary(about: About, evaluation: Evaluation, found: TakeOff, files: Mapping[str, bytes]) -> dict[str, Any]:
    return {
        "schema": SCHEMA,
        "about": about.json(),
        **about.warned_json(),
        "standing": evaluation.standing.value,
        "takeoff": {
            "complete": found.complete,
            "couplings": sum(cutting.couplings for cutting in found.cuttings),
            "waste_m": sum(cutting.waste_mm for cutting in found.cuttings) / 1000.0,
            "worth_m": sum(cutting.worth_mm for cutting in found.cuttings) / 1000.0,
            "bound_m": sum(cutting.bound_mm for cutting in found.cuttings) / 1000.0,
            "cost": found.cost,
            "priced": found.priced,
            "currency": "" if found.prices is None else found.prices.currency,
            "gaps": len(found.gaps),
        },
        "files": {name: hashlib.sha256(files[name]).hexdigest() for name in sorted(files)},
    }


def _json(data: dict[str, Any]) -> bytes:
    return (json.dumps(data, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()
