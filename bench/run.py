"""`make bench`: times the main paths, prints a table and writes bench/results.json.

Machines differ, so each figure stands beside a ratio to something timed in the same run: a fixed amount of plain
Python work (`yardstick`), or the start of a bare interpreter.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from itertools import cycle
from pathlib import Path
from statistics import median
from typing import NamedTuple

from bench import remedies
from bench.answers import edit_times
from bench.designs import doubled, tree_of, with_length
from bench.explore import ROWS, hostel_lengths, prepared_sweep, sweep_rows
from bench.forests import both_modes, tree_of_pipe, variants
from bench.page import KEY_MS, painted_times, script_kilobytes
from linewright.app.handover import Buying, hand_over
from linewright.app.project import open_project
from linewright.app.sheets import sheet
from linewright.app.shipped import shipped
from linewright.book.compiled import compile_book
from linewright.document.files import load_book
from linewright.draw import Axis
from linewright.engine import Library, evaluate
from linewright.engine.hydraulics import hydraulics
from linewright.engine.working import subjects, working
from linewright.physics.tables import tables
from linewright.takeoff import Settings
from linewright.units import UnitSystem
from tools.properties.per_state import PerState

RESULTS = Path(__file__).parent / "results.json"
#: Variants that are worked out together.
BATCH = 64
CLINIC = shipped("examples") / "harbour-clinic" / "harbour-clinic.design.yaml"


class Figure(NamedTuple):
    """One timing: median and least [ms], what it is compared with, and the ratio of the medians."""

    name: str
    median_ms: float
    least_ms: float
    goal_ms: float | None
    compared_with: str
    ratio: float


def main() -> None:
    """Time everything, print and write."""
    yardstick = timed(_yardstick, 30)
    bare = timed(lambda: _process("-c", "pass"), 9)
    figures = [*_in_process(yardstick), *_forests(), *_explored(yardstick), *_processes(bare), *_answers(yardstick)]
    _print(figures, yardstick, bare)
    rows = [
        {"name": f.name, "figure": f.median_ms, "least": f.least_ms, "unit": "ms", "goal": f.goal_ms}
        | {"compared_with": f.compared_with, "ratio": f.ratio}
        for f in figures
    ]
    RESULTS.write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8", newline="\n")


def timed(work: Callable[[], object], repeats: int) -> tuple[float, float]:
    """Median and least time of so many repeats [ms], after one that is not counted."""
    work()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) * 1e3)
    return median(times), min(times)


def _in_process(yardstick: tuple[float, float]) -> list[Figure]:
    library = _library()
    designs = {units: tree_of(units) for units in (8, 32, 64)}
    project = open_project(CLINIC)
    evaluation = project.evaluate()
    first = evaluation.systems[0]
    names = list(subjects(evaluation))
    large = evaluate(designs[64], library).systems[0]
    if hydraulics(large).missing:
        raise ValueError(f"no physics of the large system: {hydraulics(large).missing}")
    work: list[tuple[str, Callable[[], object], int, float | None]] = [
        (
            f"evaluate, {units} units",
            partial(evaluate, design, library),
            60,
            2.0 if units == 64 else None,
        )
        for units, design in designs.items()
    ]
    far = remedies.too_far()
    lengths = cycle([with_length(designs[64], 3.0 + step / 100) for step in range(99)])
    others = cycle([tree_of(64) for _ in range(99)])
    work += [
        ("evaluate, 64 units, a length changed", lambda: evaluate(next(lengths), library), 60, 2.0),
        ("evaluate, 64 units, nothing as before", lambda: evaluate(next(others), library), 60, None),
        ("evaluate, 64 units, every row asked for", lambda: _rows(evaluate(designs[64], library)), 60, None),
        ("evaluate the clinic", project.evaluate, 40, None),
        (
            f"working of {len(names)} subjects of the clinic",
            lambda: [working(evaluation, name) for name in names],
            3,
            None,
        ),
        ("physics of 64 units, both modes", lambda: hydraulics(large), 20, 3.0),
        ("first remedy, 64 units", partial(remedies.first, far, library), 5, 300.0),
        ("ranked remedies, 64 units", partial(remedies.ranked, far, library), 3, 2_000.0),
        ("open the clinic and its book", lambda: open_project(CLINIC), 10, None),
        (
            "sheet of the clinic's first system as SVG",
            lambda: sheet(project, evaluation, first, system=UnitSystem.SI, axis=Axis.ACTUAL, form="svg"),
            10,
            None,
        ),
        (
            "hand-over set of the clinic",
            lambda: hand_over(project, Buying(Settings()), UnitSystem.SI, lambda _: None),
            3,
            10_000.0,
        ),
    ]
    return [
        _figure(name, timed(job, repeats), goal, against=("yardstick", yardstick)) for name, job, repeats, goal in work
    ]


def _forests() -> list[Figure]:
    """Physics alone, both modes, beside the same equations that ask the reference library state by state."""
    states, tree = tables("R-410A"), tree_of_pipe(64)
    by_state = timed(lambda: both_modes(PerState("R410A"), [tree]), 3)
    batch = timed(lambda: both_modes(states, variants(tree, BATCH)), 10)
    each = batch[0] / BATCH, batch[1] / BATCH
    against = (f"state by state, {by_state[0]:.0f} ms", by_state)
    many = timed(lambda: both_modes(states, [tree_of_pipe(8)] * 128), 10)
    few = timed(lambda: both_modes(states, [tree_of_pipe(512)] * 2), 10)
    return [
        _figure("physics of one tree of 64 units", timed(lambda: both_modes(states, [tree]), 30), 3.0, against=against),
        _figure(f"a variant of it in a batch of {BATCH}, made and worked out", each, 0.3, against=against),
        _figure("physics of 2 trees of 512 units", few, None, against=("128 trees of 8", many)),
    ]


def _explored(yardstick: tuple[float, float]) -> list[Figure]:
    against, prepared = ("yardstick", yardstick), prepared_sweep()
    rows = timed(partial(sweep_rows, prepared), 3)
    each = rows[0] / ROWS, rows[1] / ROWS
    return [
        _figure("headroom of every length, 8 units", timed(hostel_lengths, 3), None, against=against),
        _figure("a row of a sweep, 8 units, kept on the disk", each, None, against=against),
    ]


def _answers(yardstick: tuple[float, float]) -> list[Figure]:
    against = ("yardstick", yardstick)
    print(f"script of the page, compressed: {script_kilobytes():.1f} kB (goal 120)")
    answered, painted, unforeseen = edit_times(_yardstick), painted_times(KEY_MS), painted_times(0.0)
    between = (f"yardstick between them, {answered.between[0]:.2f} ms", answered.between)
    return [
        _figure("edit of 64 units answered, with scene, 95th of 100", answered.edits, 15.0, against=between),
        _figure("key to painted sheet of 64 units, 95th of 30", painted.shown, 50.0, against=against),
        _figure("of it, until the sheet has changed", painted.changed, None, against=against),
        _figure("of it, until the first frame with it is done", painted.done, None, against=against),
        _figure("key to painted sheet, nothing foreseen", unforeseen.shown, None, against=against),
    ]


def _library() -> Library:
    """The demonstration family, its outdoor modules twice as large."""
    found = load_book(shipped("books") / "tidewater-r32.book.yaml").compiled.book
    return Library.of({found.id: compile_book(doubled(found), _refuse)})


def _refuse(path: str, message: str, expected: str = "") -> None:
    raise ValueError(f"{path}: {message}; expected {expected}")


def _processes(bare: tuple[float, float]) -> list[Figure]:
    jobs: list[tuple[str, tuple[str, ...], float | None]] = [
        ("linewright --help", ("-m", "linewright", "--help"), None),
        ("linewright check, the clinic", ("-m", "linewright", "check", str(CLINIC)), 500.0),
        ("the same with physics", ("-m", "linewright", "check", str(CLINIC), "--physics"), 700.0),
    ]
    return [
        _figure(f"process: {name}", timed(partial(_process, *job), 9), goal, against=("bare interpreter", bare))
        for name, job, goal in jobs
    ]


def _figure(
    name: str, found: tuple[float, float], goal: float | None, *, against: tuple[str, tuple[float, float]]
) -> Figure:
    compared_with, reference = against
    return Figure(name, round(found[0], 3), round(found[1], 3), goal, compared_with, round(found[0] / reference[0], 4))


def _rows(evaluation: object) -> object:
    return [(system.runs, system.measures) for system in evaluation.systems]  # type: ignore[attr-defined]


def _yardstick() -> int:
    """A fixed amount of plain Python work: ten thousand sums and tuples."""
    made = [(i, i + 1) for i in range(10_000)]
    return sum(first * second for first, second in made)


def _process(*arguments: str) -> None:
    subprocess.run([sys.executable, *arguments], check=False, capture_output=True)


def _print(figures: list[Figure], yardstick: tuple[float, float], bare: tuple[float, float]) -> None:
    print(f"yardstick {yardstick[0]:.2f} ms, bare interpreter {bare[0]:.1f} ms")
    print(f"{'':44} {'median ms':>10} {'least ms':>9} {'goal ms':>8}  compared with")
    for f in figures:
        goal = f"{f.goal_ms:8.1f}" if f.goal_ms is not None else f"{'-':>8}"
        print(f"{f.name:44} {f.median_ms:10.2f} {f.least_ms:9.2f} {goal}  {f.ratio:.3g} x {f.compared_with}")


if __name__ == "__main__":
    main()
