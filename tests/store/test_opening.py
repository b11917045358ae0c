"""Opening a database: sound ones come up whole, others are named and stay as they are."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import create_engine

from linewright.store import Revision, StoreError, documents, open_store, revisions
from linewright.store.opening import APPLICATION_ID, upgrade, versions

TEXT = "linewright: design/1\nproject: X\nsite: {}\n"


def filled(path: Path, count: int = 5) -> None:
    store = open_store(path)
    with store.writing() as connection:
        project = documents.add_project(connection, "Quay", at="t")
        made = documents.add_document(connection, project.id, "design", "clinic", at="t")
    for number in range(1, count + 1):
        text = TEXT + f"# {number}\n" * 400
        with store.writing() as connection:
            one = Revision(made.id, number, number - 1, "t", "", text, revisions.hash_of(text), "", "", "")
            revisions.append(connection, one, head=number - 1)
    with store.reading() as connection:
        connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
    store.close()


def count_of(path: Path) -> int:
    store = open_store(path)
    with store.reading() as connection:
        found = [one.number for one in revisions.history(connection, 1, before=None, most=100)]
        texts = [revisions.read(connection, 1, number, place="") for number in found]
    store.close()
    assert all(one.text.startswith(TEXT) for one in texts)
    return len(found)


def refused(path: Path) -> StoreError:
    """The refusal of a database, which stays as it is."""
    before = path.read_bytes() if path.is_file() else b""
    with pytest.raises(StoreError) as caught:
        open_store(path)
    assert not path.is_file() or path.read_bytes() == before
    assert caught.value.place == str(path)
    assert caught.value.expected
    return caught.value


def test_a_new_database_is_made_and_found_again(tmp_path: Path) -> None:
    path = tmp_path / "a.db"
    filled(path)
    assert count_of(path) == 5
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def test_every_connection_writes_through(tmp_path: Path) -> None:
    store = open_store(tmp_path / "a.db")
    with store.reading() as connection:
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2  # FULL
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    store.close()


def test_an_empty_file_becomes_a_database(tmp_path: Path) -> None:
    path = tmp_path / "a.db"
    path.touch()
    filled(path)
    assert count_of(path) == 5


def test_what_is_no_database_is_named(tmp_path: Path) -> None:
    path = tmp_path / "a.db"
    path.write_text("linewright: design/1\n", encoding="utf-8")
    assert "this is no database" in refused(path).message
    folder = tmp_path / "b.db"
    folder.mkdir()
    assert "folder" in refused(folder).message


def test_the_database_of_another_program_is_named(tmp_path: Path) -> None:
    path = tmp_path / "a.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE x (y)")
        connection.commit()
    assert "another program" in refused(path).message


def test_a_newer_database_is_named(tmp_path: Path) -> None:
    path = tmp_path / "a.db"
    filled(path)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    assert "newer version" in refused(path).message
    assert "9999" in refused(path).message


@pytest.mark.parametrize("share", [0.02, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99])
def test_a_database_that_is_cut_off_is_named(tmp_path: Path, share: float) -> None:
    whole = tmp_path / "whole.db"
    filled(whole, 20)
    path = tmp_path / "a.db"
    data = whole.read_bytes()
    path.write_bytes(data[: int(len(data) * share)])
    assert "damaged" in refused(path).message


def test_damage_anywhere_is_named_or_does_no_harm(tmp_path: Path) -> None:
    """A page of nonsense in turn at every place: the database is refused, or all that is read is what was written."""
    whole = tmp_path / "whole.db"
    filled(whole, 6)
    data = whole.read_bytes()
    named = 0
    for page in range(1, len(data) // 4096):
        path = tmp_path / f"{page}.db"
        path.write_bytes(data[: page * 4096] + b"\xa5" * 4096 + data[(page + 1) * 4096 :])
        try:
            assert count_of(path) == 6
        except StoreError:
            named += 1
    assert named > len(data) // 4096 // 2


def rows(path: Path) -> dict[str, list[tuple[object, ...]]]:
    with closing(sqlite3.connect(path)) as connection:
        return {
            table: connection.execute(f"SELECT id, name FROM {table}").fetchall()  # noqa: S608 - names of this test
            for table in ("project", "document")
        }


@pytest.mark.parametrize("version", versions()[:-1])
def test_every_earlier_version_is_brought_forward_and_a_copy_stays(tmp_path: Path, version: str) -> None:
    path = tmp_path / "old.db"
    engine = create_engine(f"sqlite:///{path}")
    with engine.begin() as connection:
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        upgrade(connection, version)
    with engine.begin() as connection:
        connection.exec_driver_sql("INSERT INTO project VALUES (1, 'Quay', 't')")
        sql = "INSERT INTO document (id, project_id, kind, name, head, made_at) VALUES (1, 1, 'design', 'c', 1, 't')"
        connection.exec_driver_sql(sql)
        connection.exec_driver_sql(
            "INSERT INTO revision VALUES (1, 1, 0, 't', '', ?, ?, '', '', '')", (TEXT, revisions.hash_of(TEXT))
        )
    engine.dispose()
    before = rows(path)
    assert count_of(path) == 1
    assert rows(path) == before
    copy = path.with_name(f"old.db.before-{versions()[-1]}")
    with closing(sqlite3.connect(copy)) as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == (version,)
        assert connection.execute("SELECT count(*) FROM revision").fetchone() == (1,)


def test_there_are_three_versions_and_the_newest_needs_nothing(tmp_path: Path) -> None:
    assert versions() == ["0001", "0002", "0003"]
    path = tmp_path / "a.db"
    filled(path)
    count_of(path)
    assert [item.name for item in tmp_path.iterdir() if "before" in item.name] == []


def test_the_tables_are_those_of_the_declarations(tmp_path: Path) -> None:
    """What the migrations make is what the program declares: columns by name, in every table."""
    from linewright.store.schema import metadata  # noqa: PLC0415 - beside its one use

    path = tmp_path / "a.db"
    filled(path)
    with closing(sqlite3.connect(path)) as connection:
        for table in metadata.sorted_tables:
            made = {row[1] for row in connection.execute(f"PRAGMA table_info({table.name})")}
            assert made == {column.name for column in table.columns}


def test_a_copy_taken_while_it_is_open_is_whole(tmp_path: Path) -> None:
    """With its log beside it, as a backup of the folder has it."""
    path = tmp_path / "a.db"
    filled(path)
    store = open_store(path)
    with store.writing() as connection:
        documents.add_project(connection, "Later", at="t")
    away = tmp_path / "copy"
    away.mkdir()
    for item in tmp_path.glob("a.db*"):
        shutil.copy(item, away / item.name)
    store.close()
    again = open_store(away / "a.db")
    with again.reading() as connection:
        assert [one.name for one in documents.list_projects(connection)] == ["Quay", "Later"]
    again.close()
