"""A folder of files: changes are saved back with all comments, those from outside are taken in, none is lost."""

from collections.abc import Callable, Iterator
from pathlib import Path
from time import monotonic, sleep

import pytest

from linewright.app.keeping import ConflictsError, Workspace
from linewright.app.keeping.changes import add
from linewright.app.keeping.folders import DATABASE, OUTSIDE, Folder, Opened
from linewright.app.keeping.kinds import DESIGN
from linewright.app.keeping.starting import empty_design
from linewright.errors import InputFaultsError
from linewright.store import documents, open_store, revisions
from tests.keeping.kept import BOAT_HOUSE, edit, length, lengths

NAME = "boat-house.design.yaml"


class Session:
    """One run of the program on a folder."""

    def __init__(self, folder: Path) -> None:
        self.path = folder
        self.workspace = Workspace(open_store(folder / DATABASE))
        self.folder = Folder(self.workspace, folder)
        self.opened: Opened = self.folder.open()

    def end(self) -> None:
        self.folder.close()
        self.workspace.store.close()

    def notes(self) -> list[str]:
        with self.workspace.store.reading() as connection:
            return [one.note for one in revisions.history(connection, 1, before=None, most=50)]

    def text(self) -> str:
        return (self.path / NAME).read_text(encoding="utf-8")


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Callable[[], Session]]:
    (tmp_path / NAME).write_text(BOAT_HOUSE, encoding="utf-8")
    begun: list[Session] = []

    def session() -> Session:
        begun.append(Session(tmp_path))
        return begun[-1]

    yield session
    for one in begun:
        one.end()


def soon(true: Callable[[], bool]) -> None:
    ends = monotonic() + 10
    while not true():
        assert monotonic() < ends
        sleep(0.01)


def outside(session: Session, old: str, new: str) -> None:
    text = session.text()
    assert old in text
    sleep(0.01)
    (session.path / NAME).write_text(text.replace(old, new), encoding="utf-8")


def test_a_change_is_saved_into_the_file_and_nothing_else_of_it_moves(start: Callable[[], Session]) -> None:
    session = start()
    assert session.opened.taken_in == (NAME,)
    edit(session.workspace, 1, 1, length("J2", "7 m"))
    soon(lambda: session.text() == BOAT_HOUSE.replace("to: J2, length: 6 m", "to: J2, length: 7 m"))


def test_what_is_opened_again_is_what_was_left(start: Callable[[], Session]) -> None:
    first = start()
    edit(first.workspace, 1, 1, length("J2", "7 m"))
    first.end()
    second = start()
    assert second.opened.taken_in == ()
    assert second.workspace.document("design", 1).head == 2


def test_a_change_from_outside_is_a_revision_before_the_next_edit(start: Callable[[], Session]) -> None:
    session = start()
    outside(session, "to: U1, length: 9 m", "to: U1, length: 12 m")
    with pytest.raises(ConflictsError):
        edit(session.workspace, 1, 1, length("J2", "7 m"))
    assert session.notes()[0] == OUTSIDE
    edit(session.workspace, 1, 2, length("J2", "7 m"))
    soon(lambda: "to: J2, length: 7 m" in session.text())
    assert "to: U1, length: 12 m" in session.text()


def test_a_change_while_the_program_does_not_run_is_taken_in(start: Callable[[], Session]) -> None:
    first = start()
    first.end()
    outside(first, "to: U1, length: 9 m", "to: U1, length: 12 m")
    second = start()
    assert second.opened.taken_in == (NAME,)
    assert lengths(second.workspace, 1)["U1"] == 12
    assert lengths(second.workspace, 1, 1)["U1"] == 9


def test_a_change_that_did_not_reach_the_file_reaches_it_at_the_next_start(start: Callable[[], Session]) -> None:
    """As after a power cut between the database and the file."""
    first = start()
    first.end()
    alone = Workspace(open_store(first.path / DATABASE))
    edit(alone, 1, 1, length("J2", "7 m"))
    alone.store.close()
    assert "to: J2, length: 6 m" in first.text()
    second = start()
    soon(lambda: "to: J2, length: 7 m" in second.text())


def test_a_file_that_is_not_understood_stays_as_it_is_and_out(start: Callable[[], Session]) -> None:
    first = start()
    first.end()
    outside(first, "to: U1, length: 9 m", "to: U1, length: nine")
    broken = first.text()
    second = start()
    (faulty,) = second.opened.faulty
    assert faulty.faults[0].file.endswith(NAME)
    assert second.workspace.document("design", 1).head == 1
    with pytest.raises(InputFaultsError):
        edit(second.workspace, 1, 1, length("J2", "7 m"))
    sleep(0.2)
    assert second.text() == broken


def test_a_file_that_is_gone_takes_its_design_out_of_the_lists(start: Callable[[], Session]) -> None:
    first = start()
    first.end()
    (first.path / NAME).unlink()
    second = start()
    assert second.opened.gone == (NAME,)
    with second.workspace.store.reading() as connection:
        assert documents.list_documents(connection, 1, "design") == []
        assert [one.name for one in documents.list_taken_away(connection, 1)] == ["boat-house"]
    assert not (second.path / NAME).exists()


def test_a_design_made_here_gets_a_file_of_its_own(start: Callable[[], Session]) -> None:
    session = start()
    for _ in range(2):
        add(session.workspace, DESIGN, 1, name="Loft / east", text=empty_design("Loft"))
    names = {"Loft---east.design.yaml", "Loft---east-2.design.yaml"}
    soon(lambda: names <= {path.name for path in session.path.iterdir()})


def test_a_project_of_another_folder_is_not_mixed_in(tmp_path: Path) -> None:
    (tmp_path / NAME).write_text(BOAT_HOUSE, encoding="utf-8")
    (tmp_path / "other.design.yaml").write_text(empty_design("Other"), encoding="utf-8")
    workspace = Workspace(open_store(tmp_path / DATABASE))
    folder = Folder(workspace, tmp_path, only=NAME)
    assert folder.open().taken_in == (NAME,)
    folder.close()
    workspace.store.close()
