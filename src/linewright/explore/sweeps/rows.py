"""One row of a sweep: the edits of its values, the books that it is judged on, its cells."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from linewright.document.files import LoadedBook
from linewright.document.links import check_links
from linewright.document.sweeps import Case, Sweep
from linewright.engine import Evaluation, Library, evaluate
from linewright.engine.evaluate import overall
from linewright.engine.records import Standing
from linewright.errors import Fault
from linewright.explore.sweeps.columns import Cell, Plan
from linewright.explore.verdicts import standing_of
from linewright.model.design import Design
from linewright.model.edits import Batch, EditRefusedError, apply
from linewright.model.edits.faults import Found

#: How a row stands whose values make no design, or none that its books can judge.
NO_DESIGN = "no design"


class Bench(NamedTuple):
    """What every row is made of: the design, its books by id, the files of books that are varied, the columns."""

    design: Design
    books: Mapping[str, LoadedBook]
    files: Mapping[str, LoadedBook]
    sweep: Sweep
    plan: Plan


class Row(NamedTuple):
    """A row: its number from 0, how what is meant stands, why it is no design, and its cells."""

    row: int
    standing: str
    fault: str
    cells: tuple[Cell, ...]


def judge_row(bench: Bench, row: int) -> Row:
    """Judge one row; values that make no design are told in it, and stop nothing."""
    picked = bench.sweep.picked(row)
    try:
        design = apply(bench.design, Batch(edits=tuple(case.edit for case in picked))).design
    except EditRefusedError as error:
        return _none(bench, row, error.faults)
    library = library_for(bench, picked)
    notes = Found(design)
    check_links(design, library.books, notes)
    if notes.faults:
        return _none(bench, row, notes.faults)
    evaluation = evaluate(design, library)
    return Row(row, _standing(evaluation, bench.sweep.systems).value, "", bench.plan.cells(evaluation))


def _standing(evaluation: Evaluation, systems: Sequence[str]) -> Standing:
    """How the whole design stands, or the systems that are meant with the rooms that they serve."""
    if not systems:
        return evaluation.standing
    there = [result.id for result in evaluation.systems if result.id in systems]
    return overall({standing_of(evaluation, name) for name in there}) if there else Standing.UNJUDGED


def library_for(bench: Bench, picked: tuple[Case, ...]) -> Library:
    """The books of a row: those that there are, with the files in place of them that the row picks."""
    books = dict(bench.books)
    for axis, case in zip(bench.sweep.axes, picked, strict=True):
        if axis.book:
            books[axis.book] = bench.files[case.file]
    return Library.of(
        {name: book.compiled for name, book in books.items()},
        {name: book.sha256 for name, book in books.items()},
    )


def _none(bench: Bench, row: int, faults: tuple[Fault, ...] | list[Fault]) -> Row:
    said = "; ".join(dict.fromkeys(f"{fault.path}: {fault.message}" for fault in faults))
    return Row(row, NO_DESIGN, said, (None,) * len(bench.plan.columns))
