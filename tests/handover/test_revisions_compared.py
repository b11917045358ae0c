"""A design or a revision of one, as a command names it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from linewright.app.keeping.folders import DATABASE, Folder
from linewright.app.keeping.kinds import DESIGN
from linewright.app.keeping.revision import open_side
from linewright.app.keeping.workspace import Workspace
from linewright.cli.main import cli
from linewright.errors import InputFaultsError
from linewright.store import open_store
from tests.keeping.kept import BOAT_HOUSE, edit, length, with_boat_house


@pytest.fixture
def database(tmp_path: Path) -> Path:
    """A database with two revisions of a design: J2 is 6 m long, then 26 m."""
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, length("J2", "26 m"))
    made.store.close()
    return tmp_path / "a.db"


def compared(*sides: str) -> dict[str, Any]:
    done = CliRunner().invoke(cli, ["compare", *sides, "--json"])
    assert done.exit_code == 0, done.output
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_revisions_of_a_database_are_compared(database: Path) -> None:
    found = compared(f"{database}/boat house@1", f"{database}/boat house@2")
    assert [(one["element"], one["before"], one["after"]) for one in found["fields"]] == [
        ("main/run:J2", "6 m", "26 m")
    ]
    assert found["before"]["file"].endswith("a.db/boat house@1")
    assert compared(f"{database}/boat house", f"{database}/boat house@2")["same"], "without a number: the last"


def test_a_file_is_compared_with_what_it_was(tmp_path: Path) -> None:
    path = tmp_path / "my.design.yaml"
    path.write_text(BOAT_HOUSE, encoding="utf-8")
    store = open_store(tmp_path / DATABASE)
    folder = Folder(Workspace(store), tmp_path)
    folder.open()
    folder.close()
    store.close()
    path.write_text(BOAT_HOUSE.replace("to: J2, length: 6 m", "to: J2, length: 7 m"), encoding="utf-8")
    found = compared(f"{path}@1", str(path))
    assert [(one["field"], one["before"], one["after"]) for one in found["fields"]] == [("length", "6 m", "7 m")]


def test_a_file_whose_name_looks_like_a_revision_is_a_file(tmp_path: Path) -> None:
    path = tmp_path / "my.design.yaml@3"
    path.write_text(BOAT_HOUSE, encoding="utf-8")
    assert open_side(str(path)).loaded.design.systems[0].id == "main"


def refused(*sides: str) -> Result:
    done = CliRunner().invoke(cli, ["compare", *sides])
    assert done.exit_code == 2, done.output
    assert "Traceback" not in done.stderr
    return done


def test_what_is_not_kept_is_refused_with_what_there_is(
    database: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    good = f"{database}/boat house@1"
    assert "there is no revision 9 of it" in refused(good, f"{database}/boat house@9").stderr
    assert "1 to 2" in refused(good, f"{database}/boat house@0").stderr
    assert "no design is called 'boot house' there" in refused(good, f"{database}/boot house@1").stderr
    assert "boat house" in refused(good, f"{database}/boot house@1").stderr
    monkeypatch.chdir(tmp_path)
    assert "there is no database 'none.db'" in refused(good, "none.db/boat house@1").stderr
    assert "there is no database '.linewright.db'" in refused(good, "my.design.yaml@1").stderr
    foreign = tmp_path / "text.db"
    foreign.write_text("no database", encoding="utf-8")
    assert "this is no database" in refused(good, f"{foreign}/boat house@1").stderr


def test_a_name_that_two_designs_have_is_refused(database: Path) -> None:
    from linewright.app.keeping.changes import add  # noqa: PLC0415 - only here

    store = open_store(database)
    add(Workspace(store), DESIGN, 1, name="boat house", text=BOAT_HOUSE)
    store.close()
    with pytest.raises(InputFaultsError, match="2 designs are called 'boat house' there"):
        open_side(f"{database}/boat house@1")


def test_nothing_is_written_to_the_database(database: Path) -> None:
    before = database.read_bytes()
    compared(f"{database}/boat house@1", f"{database}/boat house@2")
    assert database.read_bytes() == before
