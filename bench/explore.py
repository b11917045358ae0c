"""Headroom and sweeps, timed on the demonstration designs."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from linewright.app.project import open_project
from linewright.app.shipped import shipped
from linewright.app.sweeps import Prepared, prepare
from linewright.app.sweeps.journal import Journal
from linewright.app.sweeps.pool import judged
from linewright.explore.headroom import headroom
from linewright.explore.headroom_records import GrowthKind

HOSTEL = shipped("examples") / "ridge-hostel" / "ridge-hostel.design.yaml"
SPEC = """linewright: sweep/1
vary:
  - name: first run
    edit: {edit: set, system: lodge, run: J1, length: $}
    range: {from: 10 m, to: 30 m, step: 0.1 m}
"""
#: Rows of the sweep.
ROWS = 201


def hostel_lengths() -> object:
    """How far each length of the hostel, of eight units, may grow."""
    project = open_project(HOSTEL)
    return headroom(project.loaded.design, project.library, "lodge", kinds=[GrowthKind.LENGTH])


def prepared_sweep() -> Prepared:
    """A sweep of the hostel's first run."""
    with TemporaryDirectory() as folder:
        spec = Path(folder) / "s.yaml"
        spec.write_text(SPEC, encoding="utf-8", newline="\n")
        return prepare(HOSTEL, spec, ())


def sweep_rows(prepared: Prepared) -> None:
    """Judge every row and keep it on the disk, in this process."""
    bench = prepared.bench
    if bench.sweep.rows != ROWS:
        raise ValueError(f"the sweep has {bench.sweep.rows} rows")
    with TemporaryDirectory() as folder, _journal(Path(folder), prepared) as journal:
        for rows in judged(prepared.job, bench, range(ROWS), 1):
            journal.add(rows)


def _journal(folder: Path, prepared: Prepared) -> Journal:
    return Journal(folder / "t.rows", prepared.job.digest(), len(prepared.bench.plan.columns))
