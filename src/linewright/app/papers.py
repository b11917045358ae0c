"""The documents on paper of a hand-over set, by name."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from linewright.app.project import Project
from linewright.app.sheets import sheet_of
from linewright.draw import Axis
from linewright.engine import Evaluation
from linewright.report.checklist import checklist, checklist_blocks, checklist_text
from linewright.report.forms.blanks import blanks_of
from linewright.report.forms.papers import record_blocks
from linewright.report.forms.tables import form_csv, form_workbook
from linewright.report.pdf import Front, Parts, document_of, pdf, report_document
from linewright.report.pdf.drawn import drawings_document
from linewright.report.schedules import About, Table, table_csv
from linewright.takeoff import TakeOff
from linewright.units import UnitSystem

REPORT = "report.pdf"
RECORDS = "records"


class StoppedError(Exception):
    """Somebody no longer wants what is being made."""


def watched(progress: Callable[[str], None], stopped: Callable[[], bool]) -> Callable[[str], None]:
    """A progress that ends the work by StoppedError at the next step once `stopped` says so."""

    def tell(text: str) -> None:
        if stopped():
            raise StoppedError(text)
        progress(text)

    return tell


def paper_parts(
    project: Project,
    about: About,
    evaluation: Evaluation,
    found: TakeOff,
    *,
    tables: Sequence[Table],
    system: UnitSystem,
) -> Parts:
    """What the documents are made of."""
    sheets = [
        (result.id, sheet_of(project, evaluation, result, system=system, axis=Axis.ACTUAL))
        for result in evaluation.systems
    ]
    return Parts(about, evaluation, found, tables, sheets, project.book_lines(), project.file_names(), system)


def drawings_file(files: Mapping[str, bytes], about: About) -> dict[str, bytes]:
    """The drawings among the files of a set as one PDF."""
    drawn = {name: data for name, data in files.items() if name.startswith("drawings/") and name.endswith(".svg")}
    document = drawings_document(drawn, about)
    return {} if document is None else {"drawings.pdf": pdf(document)}


def paper_files(parts: Parts, front: Front, progress: Callable[[str], None]) -> dict[str, bytes]:
    """Every document as PDF."""
    progress("report on paper")
    files = {REPORT: pdf(report_document(parts, front))}
    progress("records")
    blanks = blanks_of(parts.evaluation, parts.system)
    files[f"{RECORDS}/record.csv"] = form_csv(blanks, parts.about).encode()
    files[f"{RECORDS}/record.xlsx"] = form_workbook(blanks, parts.about)
    forms = record_blocks(parts.evaluation, blanks, parts.system)
    files[f"{RECORDS}/forms.pdf"] = pdf(document_of("Records of the site", parts.about, front, forms))
    progress("checklist")
    checked = checklist(parts.evaluation, parts.found, parts.system)
    files |= {f"checklist/{one.name}.csv": table_csv(one, parts.about, parts.system).encode() for one in checked}
    files["checklist.txt"] = f"{parts.about.text()}\n{checklist_text(checked, parts.system)}".encode()
    blocks = tuple(checklist_blocks(checked, parts.system))
    files["checklist.pdf"] = pdf(document_of("Installer's checklist", parts.about, front, blocks))
    return files
