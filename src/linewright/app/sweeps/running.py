"""A sweep from its files to its table: what is done is kept, what is missing is judged, the table is written whole."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from linewright.app.handover import about_project
from linewright.app.output import write_aside
from linewright.app.sweeps.journal import Journal
from linewright.app.sweeps.picture import chart_svg, check_figure
from linewright.app.sweeps.pool import judged, usual_workers
from linewright.app.sweeps.preparing import Prepared
from linewright.app.sweeps.table import sweep_table
from linewright.document.reading import refuse
from linewright.explore.sweeps import Row
from linewright.report.schedules import About, Table, table_csv
from linewright.units import UnitSystem

#: Told before each portion: how many rows are done, how many there are.
Progress = Callable[[int, int], None]


class Request(NamedTuple):
    """Where table and chart go, on how many processes (0: as many as it is worth), whether to throw kept rows away."""

    output: Path
    chart: Path | None
    workers: int
    restart: bool
    units: UnitSystem


class Outcome(NamedTuple):
    """The table, of what it is, and how many of its rows were kept from before."""

    table: Table
    about: About
    kept: int


class Stopped(KeyboardInterrupt):
    """Told to stop; carries how many rows are kept, of how many, and where."""

    def __init__(self, done: int, of: int, journal: Path) -> None:
        """Keep how far it was."""
        self.done, self.of, self.journal = done, of, journal
        super().__init__(f"{done:,} of {of:,} rows are kept in {journal.name}; the same command goes on from there")


def journal_path(output: Path) -> Path:
    """Where the rows of a table are kept while it is made."""
    return output.with_name(f"{output.name}.rows")


def sweep(prepared: Prepared, request: Request, progress: Progress = lambda _done, _of: None) -> Outcome:
    """Judge every row that is not kept, and write the table.

    Raises InputFaultsError where the rows that are kept are of another sweep or there is nothing to draw, OSError, and
    Stopped.
    """
    if request.chart is not None:
        check_figure(prepared.bench, prepared.job.sweep.file)
    bench, place = prepared.bench, journal_path(request.output)
    total = bench.sweep.rows
    with Journal(place, prepared.job.digest(), len(bench.plan.columns), restart=request.restart) as journal:
        kept = len(journal.rows)
        missing = [row for row in range(total) if row not in journal.rows]
        workers = request.workers or usual_workers(len(missing))
        try:
            progress(kept, total)
            for portion in judged(prepared.job, bench, missing, workers):
                journal.add(portion)
                progress(len(journal.rows), total)
        except KeyboardInterrupt:
            raise Stopped(journal.written(), total, place) from None
        rows = tuple(journal.rows[row] for row in range(total))
        made = _write(prepared, request, rows)
        journal.remove()
    return made._replace(kept=kept)


def _write(prepared: Prepared, request: Request, rows: tuple[Row, ...]) -> Outcome:
    table, about = sweep_table(prepared.bench, rows), about_project(prepared.project)
    write_aside(request.output, table_csv(table, about, request.units))
    if request.chart is not None:
        write_aside(request.chart, chart_svg(prepared.bench, rows, about.project, request.units))
    return Outcome(table, about, 0)


def check_files(output: Path, chart: Path | None) -> None:
    """Raise InputFaultsError for a table or a chart that would not be one."""
    if output.suffix.lower() != ".csv":
        refuse(str(output), "the table of a sweep is a CSV file", "a name that ends with .csv")
    if chart is not None and chart.suffix.lower() != ".svg":
        refuse(str(chart), "the chart of a sweep is an SVG file", "a name that ends with .svg")
    if not output.resolve().parent.is_dir():
        refuse(str(output), "there is no such folder", "a folder that exists")
