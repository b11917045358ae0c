"""`linewright sweep`: a design judged over values of its inputs."""

from __future__ import annotations

from pathlib import Path

import click

from linewright.cli.common import (
    books_option,
    colour,
    design_argument,
    faults_shown,
    json_option,
    stoppable,
    unit_system,
    units_option,
    write_json,
)
from linewright.cli.progress import Counter


@click.command("sweep")
@design_argument
@click.argument("spec", type=click.Path(path_type=Path))
@click.option("-o", "--output", type=click.Path(path_type=Path), required=True, help="Table to write (.csv).")
@click.option("--chart", "chart", type=click.Path(path_type=Path), help="Chart to write as well (.svg).")
@click.option("--workers", type=click.IntRange(0, 64), default=0, help="Processes.  [default: as many as are worth it]")
@click.option("--restart", is_flag=True, help="Throw away the rows that a stopped sweep has kept.")
@click.option("--prices", "prices", help="Prices by item of the take-off (CSV or XLSX), for a column of costs.")
@books_option
@json_option
@units_option
def command(
    design: Path,
    spec: Path,
    output: Path,
    chart: Path | None,
    *,
    workers: int,
    restart: bool,
    prices: str | None,
    books: tuple[Path, ...],
    units: str | None,
    as_json: bool,
) -> None:
    """Judge DESIGN over the values of SPEC and tabulate how it stands.

    Told to stop, or killed, it has kept the rows that are done beside the table; the same command goes on from there.
    """
    with stoppable(), faults_shown(as_json=as_json):
        from linewright.app.sweeps import Request, prepare, sweep
        from linewright.app.sweeps.running import check_files

        check_files(output, chart)
        prepared = prepare(design, spec, books, prices)
        shown = unit_system(units, prepared.bench.design.units)
        request = Request(output, chart, workers, restart, shown)
        with Counter() as counter:
            done = sweep(prepared, request, lambda n, of: counter.tell(n, of, "rows"))
    kept = f", {done.kept:,} of them kept from before" if done.kept else ""
    click.echo(f"wrote {output}: {len(done.table.rows):,} rows{kept}", err=True)
    if chart is not None:
        click.echo(f"wrote {chart}", err=True)
    axes = [axis.name for axis in prepared.bench.sweep.axes]
    if as_json:
        from linewright.report.sweep_json import sweep_json

        write_json(sweep_json(done.table, len(axes), done.about, kept=done.kept))
    else:
        from linewright.report.sweep_text import sweep_text

        click.echo(sweep_text(done.table, axes, system=shown, colour=colour()))
