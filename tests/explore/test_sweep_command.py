"""`linewright sweep` as a user starts it: its table, going on after a kill, refusals, order of the processes."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import NamedTuple

import pytest

from linewright.app.sweeps.holding import hold
from tests.documents.program import Done, linewright
from tests.explore.boat import book_text, design_text

SPEC = (
    "linewright: sweep/1\ntitle: main and office\nvary:\n"
    "  - {name: main, edit: {edit: set, system: main, run: J1, length: $}, range: {from: 20 m, to: 60 m, step: 10 m}}\n"
    "  - {name: office, edit: {edit: set, room: office, cooling: $}, values: [3 kW, 12 MBH, unknown, 5 kW]}\n"
    'show: ["main/limit:farthest_actual"]\n'
)
LONG = SPEC.replace("step: 10 m", "step: 0.25 m")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return filled(tmp_path)


def filled(folder: Path, spec: str = SPEC) -> Path:
    """A folder with the boat house, its book and what is varied."""
    (folder / "boat.design.yaml").write_text(design_text(), encoding="utf-8", newline="\n")
    (folder / "minimal.book.yaml").write_text(book_text(), encoding="utf-8", newline="\n")
    (folder / "s.yaml").write_text(spec, encoding="utf-8", newline="\n")
    return folder


@pytest.fixture(scope="module")
def undisturbed(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The table of the long sweep, made in one go."""
    folder = filled(tmp_path_factory.mktemp("undisturbed"), LONG)
    run(folder, "--workers", "1")
    return table(folder)


def run(folder: Path, *options: str | Path, table: str = "t.csv") -> Done:
    return linewright("sweep", folder / "boat.design.yaml", folder / "s.yaml", "-o", folder / table, *options)


def table(folder: Path, name: str = "t.csv") -> bytes:
    return (folder / name).read_bytes()


def test_a_table_is_written_and_told(folder: Path) -> None:
    done = run(folder)
    assert done.code == 0
    assert "20 rows: " in done.output
    assert "wrote" in done.error
    lines = [line for line in table(folder).decode().splitlines() if not line.startswith("#")]
    assert lines[0].startswith("row,main,office,standing,system,worst,worst margin [%],")
    assert len(lines) == 21
    assert lines[1].startswith("1,20 m,3 kW,on conditions,")
    assert not (folder / "t.csv.rows").exists()


def test_the_json_has_si_units_beside_and_null_for_what_is_not_known(folder: Path) -> None:
    data = json.loads(run(folder, "--json").output)
    assert data["schema"] == "linewright/sweep/1"
    assert data["varied"] == ["main", "office"]
    keys = [column["key"] for column in data["columns"]]
    at = keys.index("main/limit:farthest_actual:value")
    assert data["columns"][at]["unit"] == "m"
    assert [row["cells"][at] for row in data["rows"][::4]] == [pytest.approx(n) for n in (37, 47, 57, 67, 77)]
    unknown = data["rows"][2]
    assert (unknown["values"], unknown["standing"]) == (["20 m", "unknown"], "unjudged")
    assert unknown["cells"][keys.index("main/shortest_share")] is None


def test_the_order_in_which_processes_end_does_not_matter(folder: Path) -> None:
    run(folder, "--workers", "1", table="one.csv")
    command = [sys.executable, "-m", "linewright", "sweep", "boat.design.yaml", "s.yaml", "-o", "three.csv"]
    subprocess.run([*command, "--workers", "3"], cwd=folder, check=True, capture_output=True, timeout=120)
    assert table(folder, "three.csv") == table(folder, "one.csv")


class Ended(NamedTuple):
    """How a sweep ended that was stopped: its code, how many rows it kept, what it said."""

    code: int
    kept: int
    said: str


def _heard() -> None:
    """What runs behind a shell ignores Ctrl-C, and so would all that it starts."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def _killed(folder: Path, workers: str, *, least: int, how: signal.Signals) -> Ended:
    """Start a sweep and stop it once so many rows are kept."""
    command = [sys.executable, "-m", "linewright", "sweep", "boat.design.yaml", "s.yaml", "-o", "t.csv"]
    kept = folder / "t.csv.rows"
    with subprocess.Popen(
        [*command, "--workers", workers],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=_heard,  # noqa: PLW1509 - no thread runs here
    ) as process:
        end = time.monotonic() + 60
        while time.monotonic() < end and process.poll() is None:
            if kept.exists() and kept.read_bytes().count(b"\n") > least:
                break
            time.sleep(0.01)
        process.send_signal(how)
        _, said = process.communicate(timeout=60)
    return Ended(process.returncode, kept.read_bytes().count(b"\n") - 1, said.decode())


@pytest.mark.parametrize("workers", ["1", "2"])
@pytest.mark.skipif(sys.platform == "win32", reason="a signal that kills")
def test_a_killed_sweep_goes_on_and_gives_the_same_table_byte_for_byte(
    folder: Path, undisturbed: bytes, workers: str
) -> None:
    (folder / "s.yaml").write_text(LONG, encoding="utf-8", newline="\n")
    kept = _killed(folder, workers, least=60, how=signal.SIGKILL).kept
    assert 60 <= kept < 644
    assert not (folder / "t.csv").exists()
    done = run(folder, "--workers", "1")
    assert f"wrote {folder / 't.csv'}: 644 rows, {kept:,} of them kept from before" in done.error
    assert table(folder) == undisturbed


@pytest.mark.skipif(sys.platform == "win32", reason="a signal as Ctrl-C gives it")
def test_a_sweep_that_is_told_to_stop_keeps_its_rows_and_says_so(folder: Path) -> None:
    (folder / "s.yaml").write_text(LONG, encoding="utf-8", newline="\n")
    ended = _killed(folder, "1", least=30, how=signal.SIGINT)
    assert ended.code == 2
    assert f"stopped: {ended.kept:,} of 644 rows are kept in t.csv.rows" in ended.said
    assert ended.kept >= 30
    assert run(folder, "--workers", "1").code == 0


def _stopped_early(folder: Path) -> None:
    """As a sweep looks that was stopped: two whole rows and half of one."""
    spare = folder / "spare.csv"
    run(folder, "--workers", "1", table="spare.csv")
    from linewright.app.sweeps import prepare  # noqa: PLC0415 - beside the one place that needs them
    from linewright.app.sweeps.journal import Journal  # noqa: PLC0415
    from linewright.explore.sweeps import judge_row  # noqa: PLC0415

    made = prepare(folder / "boat.design.yaml", folder / "s.yaml", ())
    with Journal(folder / "t.csv.rows", made.job.digest(), len(made.bench.plan.columns)) as journal:
        journal.add([judge_row(made.bench, 7), judge_row(made.bench, 2)])
    with (folder / "t.csv.rows").open("ab") as file:
        file.write(b'{"row": 3, "stand')
    assert spare.exists()


def test_a_row_that_was_written_half_is_judged_again(folder: Path) -> None:
    _stopped_early(folder)
    done = run(folder)
    assert "20 rows, 2 of them kept from before" in done.error
    assert table(folder) == table(folder, "spare.csv")


def test_two_sweeps_do_not_write_one_table(folder: Path) -> None:
    with (folder / "t.csv.rows").open("ab") as file:
        assert hold(file)
        done = run(folder)
    assert done.code == 2
    assert "another sweep is writing this table" in done.error
    assert run(folder).code == 0


CHANGES = [
    ("boat.design.yaml", "length: 11 m", "length: 12 m"),
    ("minimal.book.yaml", "farthest_actual, max: 70 m", "farthest_actual, max: 71 m"),
    ("s.yaml", "5 kW]", "6 kW]"),
]


@pytest.mark.parametrize(("name", "before", "after"), CHANGES, ids=[change[0] for change in CHANGES])
def test_a_changed_design_book_or_sweep_refuses_to_go_on(folder: Path, name: str, before: str, after: str) -> None:
    _stopped_early(folder)
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert text.count(before) == 1
    path.write_text(text.replace(before, after), encoding="utf-8", newline="\n")
    done = run(folder)
    assert done.code == 2
    assert "the rows that are kept here are of another design, book, sweep or version" in done.error
    assert "--restart to begin anew" in done.error
    assert not (folder / "t.csv").exists()
    assert (folder / "t.csv.rows").exists()
    assert run(folder, "--restart").code == 0
    assert not (folder / "t.csv.rows").exists()


def test_rows_that_are_none_are_refused_with_their_line(folder: Path) -> None:
    _stopped_early(folder)
    kept = folder / "t.csv.rows"
    lines = kept.read_bytes().split(b"\n")
    for damaged in (b"{", b'{"row": 1}', b"3"):
        kept.write_bytes(b"\n".join([lines[0], lines[1], damaged, lines[2], b""]))
        done = run(folder)
        assert done.code == 2
        assert "t.csv.rows:3:1" in done.error
        assert "this is no row of a sweep" in done.error


def test_a_table_is_a_csv_file_and_a_chart_an_svg_file_in_a_folder_that_exists(folder: Path) -> None:
    for options, message in (
        (("-o", folder / "t.xlsx"), "the table of a sweep is a CSV file"),
        (("-o", folder / "t.csv", "--chart", folder / "t.png"), "the chart of a sweep is an SVG file"),
        (("-o", folder / "none" / "t.csv"), "there is no such folder"),
    ):
        done = linewright("sweep", folder / "boat.design.yaml", folder / "s.yaml", *options)
        assert done.code == 2
        assert message in done.error
        assert sorted(path.name for path in folder.iterdir()) == ["boat.design.yaml", "minimal.book.yaml", "s.yaml"]


def test_a_sweep_that_cannot_be_understood_writes_nothing_and_lists_every_fault(folder: Path) -> None:
    text = SPEC.replace("length: $", "lenght: $").replace("[3 kW,", "[3,").replace("show:", "shwo:")
    (folder / "s.yaml").write_text(text, encoding="utf-8", newline="\n")
    done = run(folder)
    assert done.code == 2
    assert done.error.count("expected") == 3
    assert sorted(path.name for path in folder.iterdir()) == ["boat.design.yaml", "minimal.book.yaml", "s.yaml"]


def test_a_price_list_adds_the_cost_which_is_unknown_where_a_price_is_missing(folder: Path) -> None:
    (folder / "prices.csv").write_text("item,price\nsomething else,3\n", encoding="utf-8")
    data = json.loads(run(folder, "--json", "--prices", folder / "prices.csv").output)
    assert data["columns"][-1]["key"] == "cost"
    assert {row["cells"][-1] for row in data["rows"]} == {None}


def test_a_chart_is_drawn(folder: Path) -> None:
    assert run(folder, "--chart", folder / "t.svg").code == 0
    text = (folder / "t.svg").read_text(encoding="utf-8")
    assert "main/limit:farthest_actual value [m]" in text
    assert text.count('data-role="point"') == 20 + 5


def test_a_chart_of_what_is_no_figure_is_refused_before_anything_is_judged(folder: Path) -> None:
    for up in ("main/fitting:J1", "main/unit:*.cooling"):
        (folder / "s.yaml").write_text(f'{SPEC}chart: {{up: "{up}"}}\n', encoding="utf-8", newline="\n")
        done = run(folder, "--chart", folder / "t.svg")
        assert done.code == 2
        assert f"'{up}' is no figure that could be drawn" in done.error
        assert not (folder / "t.csv").exists()


def test_a_design_without_a_system_is_swept_as_unjudged_and_not_drawn(folder: Path) -> None:
    empty = "linewright: design/1\nproject: Empty\nsite: {cooling: {outdoor_db: 35 C, indoor_wb: 19 C}}\n"
    (folder / "boat.design.yaml").write_text(empty, encoding="utf-8")
    spec = (
        "linewright: sweep/1\nvary:\n  - name: high\n    edit: {edit: set, site: yes, altitude: $}\n"
        "    values: [0 m, 500 m]\n"
    )
    (folder / "s.yaml").write_text(spec, encoding="utf-8")
    assert "there is no figure to draw" in run(folder, "--chart", folder / "t.svg").error
    assert "2 rows: 2 unjudged." in run(folder).output
