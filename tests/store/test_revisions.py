"""Revisions: added behind the last, never changed, read back by their hash."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy.exc import DatabaseError, IntegrityError, OperationalError

from linewright.store import (
    HeadMovedError,
    NotThereError,
    Revision,
    Store,
    StoreError,
    documents,
    open_store,
    opening,
    revisions,
)
from linewright.store import jobs as rows


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    found = open_store(tmp_path / "a.db")
    with found.writing() as connection:
        project = documents.add_project(connection, "Quay", at="t")
        documents.add_document(connection, project.id, "design", "clinic", at="t")
    yield found
    found.close()


def revision(number: int, text: str = "x") -> Revision:
    return Revision(1, number, number - 1, "t", "", text, revisions.hash_of(text), "[]", "[]", "{}")


def add(store: Store, number: int, *, head: int | None = None, key: str = "") -> None:
    with store.writing() as connection:
        revisions.append(connection, revision(number), head=number - 1 if head is None else head, key=key)


def numbers(store: Store) -> list[int]:
    with store.reading() as connection:
        return [one.number for one in revisions.history(connection, 1, before=None, most=100)]


def test_who_does_not_know_the_last_revision_adds_none(store: Store) -> None:
    add(store, 1)
    add(store, 2)
    with pytest.raises(HeadMovedError):
        add(store, 2, head=1)
    assert numbers(store) == [2, 1]


def test_who_waits_too_long_for_another_writer_is_told_and_writes_later(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(opening, "BUSY_S", 0)
    one, other = open_store(tmp_path / "b.db"), open_store(tmp_path / "b.db")
    with (
        one.writing(),
        pytest.raises(OperationalError, match="locked"),
        other.writing(),
    ):
        pass
    with other.writing() as connection:
        documents.add_project(connection, "Quay", at="t")
    with one.reading() as connection:
        assert [project.name for project in documents.list_projects(connection)] == ["Quay"]
    one.close()
    other.close()


def test_a_revision_is_never_changed_nor_taken_away(store: Store) -> None:
    add(store, 1)
    for sql in ("UPDATE revision SET text = 'y'", "DELETE FROM revision"):
        with pytest.raises(DatabaseError, match="a revision stays as it is"), store.writing() as connection:
            connection.exec_driver_sql(sql)
    assert numbers(store) == [1]


def test_a_text_that_is_not_the_one_that_was_written_is_never_given(store: Store) -> None:
    add(store, 1)
    with store.writing() as connection:
        connection.exec_driver_sql("DROP TRIGGER revision_stays_update")
        connection.exec_driver_sql("UPDATE revision SET text = 'z'")
    with pytest.raises(StoreError, match="not the one that was written"), store.reading() as connection:
        revisions.read(connection, 1, 1, place=store.place)


def test_one_key_makes_one_revision(store: Store) -> None:
    add(store, 1, key="a")
    with pytest.raises(IntegrityError):
        add(store, 2, key="a")
    assert numbers(store) == [1]
    with store.reading() as connection:
        assert revisions.number_of_request(connection, 1, "a") == 1
        assert revisions.number_of_request(connection, 1, "b") is None


def test_a_block_that_fails_leaves_nothing(store: Store) -> None:
    def add_and_fail() -> None:
        with store.writing() as connection:
            revisions.append(connection, revision(1), head=0)
            revisions.name_revision(connection, 1, 9, "x", at="t")

    with pytest.raises(NotThereError):
        add_and_fail()
    assert numbers(store) == []
    with store.reading() as connection:
        assert documents.find_document(connection, "design", 1).head == 0


def test_history_is_given_in_parts_and_with_names(store: Store) -> None:
    for number in range(1, 8):
        add(store, number)
    with store.writing() as connection:
        revisions.name_revision(connection, 1, 3, "for tender", at="t")
        revisions.name_revision(connection, 1, 4, "wrong", at="t")
        revisions.name_revision(connection, 1, 4, "", at="t")
        with pytest.raises(NotThereError):
            revisions.name_revision(connection, 1, 9, "x", at="t")
    with store.reading() as connection:
        found = revisions.history(connection, 1, before=6, most=3)
    assert [(one.number, one.name) for one in found] == [(5, ""), (4, ""), (3, "for tender")]


def test_a_document_that_was_taken_away_keeps_its_revisions_and_comes_back(store: Store) -> None:
    add(store, 1)
    with store.writing() as connection:
        documents.take_away(connection, 1, at="t")
    with store.reading() as connection:
        assert documents.list_documents(connection, 1, "design") == []
        assert [one.id for one in documents.list_taken_away(connection, 1)] == [1]
        with pytest.raises(NotThereError):
            documents.find_document(connection, "design", 1)
    with pytest.raises(HeadMovedError):
        add(store, 2)
    with store.writing() as connection:
        documents.bring_back(connection, "design", 1)
    add(store, 2)
    assert numbers(store) == [2, 1]


def test_a_job_at_an_end_stays_at_it(store: Store) -> None:
    with store.writing() as connection:
        job = rows.add_job(connection, 1, "export", "{}", at="t")
        assert rows.set_job(connection, job.id, {"state": "cancelled"})
        assert not rows.set_job(connection, job.id, {"state": "done"})
        assert rows.find_job(connection, job.id).state == "cancelled"
        assert rows.live_jobs(connection) == []
