"""Changes of what is kept: at the head, or refused with both versions; undone, restored, forked; never lost."""

import json
from pathlib import Path

import pytest

from linewright.app.keeping import ConflictsError, Wanted, Workspace, change, restore, undo
from linewright.app.keeping.changes import add, put
from linewright.app.keeping.conflicts import conflict_json
from linewright.app.keeping.kinds import BOOK, DESIGN
from linewright.app.keeping.texts import file_text
from linewright.errors import InputFaultsError
from linewright.store import NotThereError, Revision, StoreError, open_store, revisions
from tests.keeping.kept import BOAT_HOUSE, MINIMAL_BOOK, edit, length, lengths, with_boat_house


def test_an_edit_makes_a_revision_that_reads_back_as_it_is(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    done = edit(made, design, 1, length("J2", "7 m"))
    assert (done.revision.number, done.revision.base, done.rebased, done.again) == (2, 1, False, False)
    again = Workspace(open_store(tmp_path / "a.db"))
    assert again.value(again.document("design", design), 2) == made.value(done.document, 2)
    assert lengths(again, design)["J2"] == 7
    assert lengths(again, design, 1)["J2"] == 6


def test_edits_of_different_runs_on_one_revision_both_go_in(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, length("J2", "7 m"))
    second = edit(made, design, 1, length("U1", "10 m"))
    assert second.rebased
    assert (lengths(made, design)["J2"], lengths(made, design)["U1"]) == (7, 10)


def test_edits_of_one_run_meet_and_both_versions_are_told(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, length("J2", "7 m"))
    with pytest.raises(ConflictsError) as caught:
        edit(made, design, 1, length("U1", "10 m"), length("J2", "8 m"))
    assert caught.value.head == 2
    (conflict,) = [conflict_json(one) for one in caught.value.conflicts]
    assert conflict == {"element": "main/run:J2", "field": "length", "base": "6 m", "mine": "8 m", "theirs": "7 m"}
    assert lengths(made, design)["U1"] == 9


def test_what_was_removed_meanwhile_is_told_whole(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, {"edit": "remove", "system": "main", "node": "U3"})
    with pytest.raises(ConflictsError) as caught:
        edit(made, design, 1, length("U3", "12 m"))
    found = [conflict_json(one) for one in caught.value.conflicts]
    assert all(one["element"] == "main/run:U3" and one["theirs"] is None for one in found)


def test_undo_takes_back_one_edit_and_nothing_that_came_after(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, length("J2", "7 m"))
    edit(made, design, 2, length("U1", "10 m"))
    done = undo(made, DESIGN, design, number=2)
    assert done.revision.number == 4
    assert (lengths(made, design)["J2"], lengths(made, design)["U1"]) == (6, 10)
    redone = undo(made, DESIGN, design, number=4)
    assert redone.revision.number == 5
    assert lengths(made, design)["J2"] == 7


def test_undo_of_what_was_changed_again_meets_it(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, length("J2", "7 m"))
    edit(made, design, 2, length("J2", "8 m"))
    with pytest.raises(ConflictsError):
        undo(made, DESIGN, design, number=2)
    assert lengths(made, design)["J2"] == 8
    with pytest.raises(NotThereError):
        undo(made, DESIGN, design, number=1)


def test_the_same_request_sent_twice_is_made_once(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    first = edit(made, design, 1, length("J2", "7 m"), key="k1")
    again = edit(made, design, 1, length("J2", "7 m"), key="k1")
    assert again.again
    assert again.revision == first.revision
    assert made.document("design", design).head == 2


def test_restore_is_a_revision_of_its_own_and_can_be_undone(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, length("J2", "7 m"))
    edit(made, design, 2, length("J2", "8 m"))
    done = restore(made, DESIGN, design, number=1, base=3)
    assert done.revision.number == 4
    assert lengths(made, design)["J2"] == 6
    with pytest.raises(ConflictsError):
        restore(made, DESIGN, design, number=2, base=3)
    with pytest.raises(ConflictsError):
        edit(made, design, 3, length("U1", "10 m"))
    undo(made, DESIGN, design, number=4)
    assert lengths(made, design)["J2"] == 8


def test_a_text_in_place_of_the_whole_is_read_like_any_file(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    with pytest.raises(InputFaultsError) as caught:
        put(made, DESIGN, design, Wanted(1, BOAT_HOUSE.replace("length: 6 m", "length: six")))
    assert "six" in caught.value.faults[0].value
    put(made, DESIGN, design, Wanted(1, BOAT_HOUSE.replace("length: 6 m", "length: 6.5 m")))
    assert lengths(made, design)["J2"] == 6.5
    with pytest.raises(ConflictsError):
        put(made, DESIGN, design, Wanted(1, BOAT_HOUSE))


def test_what_cannot_be_made_changes_nothing_and_names_everything(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    wrong = [
        [length("J9", "7 m")],
        [{"edit": "set", "system": "main", "unit": "U1", "model": "no such model"}],
        [{"edit": "explode"}],
        [length("J2", "-7 m")],
        [length("J2", "7 m"), length("J9", "7 m")],
    ]
    for edits in wrong:
        with pytest.raises(InputFaultsError):
            edit(made, design, 1, *edits)
    with pytest.raises(InputFaultsError):
        change(made, DESIGN, design, Wanted(1, "[{"))
    for base in (0, 2, 99):
        with pytest.raises(NotThereError):
            edit(made, design, base, length("J2", "7 m"))
    with pytest.raises(NotThereError):
        edit(made, 99, 1, length("J2", "7 m"))
    assert made.document("design", design).head == 1


def test_comments_of_the_file_outlive_edits(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, length("J2", "7 m"))
    document = made.document("design", design)
    assert file_text(made, document, 1) == BOAT_HOUSE
    assert file_text(made, document, 2) == BOAT_HOUSE.replace("to: J2, length: 6 m", "to: J2, length: 7 m")
    assert '"length": "7 m"' in file_text(made, document, 2, as_json=True)


def test_comments_of_the_file_outlive_a_restore_of_an_edited_revision(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    edit(made, design, 1, length("J2", "7 m"))
    edit(made, design, 2, length("J2", "8 m"))
    restore(made, DESIGN, design, number=2, base=3)
    document = made.document("design", design)
    assert file_text(made, document, 4) == BOAT_HOUSE.replace("to: J2, length: 6 m", "to: J2, length: 7 m")


def test_a_revision_that_is_no_longer_understood_is_named(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    text = "linewright: design/1\nproject: X\n"
    odd = Revision(design, 2, 1, "t", "", text, revisions.hash_of(text), "", "", "")
    with made.store.writing() as connection:
        revisions.append(connection, odd, head=1)
    with pytest.raises(StoreError, match=f"revision 2 of design {design} is not understood any more: .*site"):
        lengths(made, design)
    assert lengths(made, design, 1)["J2"] == 6


def test_two_programs_on_one_database_lose_nothing(tmp_path: Path) -> None:
    """Each has its own memory; the database alone says which revision is the last."""
    one, design = with_boat_house(tmp_path)
    other = Workspace(open_store(tmp_path / "a.db"))
    for number in range(5):
        edit(one, design, 1 + 2 * number, length("J2", f"{7 + number} m"))
        edit(other, design, 1 + 2 * number, length("U1", f"{10 + number} m"))
    assert one.document("design", design).head == 11
    assert lengths(one, design) == lengths(other, design)
    assert (lengths(one, design)["J2"], lengths(one, design)["U1"]) == (11, 14)


def test_a_book_that_another_program_changed_counts_at_the_next_edit(tmp_path: Path) -> None:
    one, design = with_boat_house(tmp_path)
    document = one.document("design", design)
    book = add(one, BOOK, document.project_id, name="minimal", text=MINIMAL_BOOK).document.id
    edit(one, design, 1, length("J2", "7 m"))
    other = Workspace(open_store(tmp_path / "a.db"))
    change(other, BOOK, book, Wanted(1, '[{"edit": "set", "at": "outdoor.modules[0].factory_charge", "to": "9 kg"}]'))
    shelves = []
    wanted = Wanted(2, json.dumps([length("J2", "8 m")]))
    change(one, DESIGN, design, wanted, meanwhile=lambda _done, _value, shelf: shelves.append(shelf and shelf.key))
    assert shelves == [other.shelf(document.project_id).key]
    assert one.judge(document, 3).systems[0].charge.factory_kg == 9


def test_a_book_of_the_project_is_changed_and_designs_are_judged_on_it(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    document = made.document("design", design)
    before = made.judge(document, 1)
    book = add(made, BOOK, document.project_id, name="minimal", text=MINIMAL_BOOK)
    edits = '[{"edit": "set", "at": "outdoor.modules[0].factory_charge", "to": "9 kg"}]'
    done = change(made, BOOK, book.document.id, Wanted(1, edits))
    after = made.judge(document, 1)
    assert before.systems[0].charge.factory_kg != after.systems[0].charge.factory_kg == 9
    undo(made, BOOK, book.document.id, number=done.revision.number)
    assert made.judge(document, 1).systems[0].charge.factory_kg == before.systems[0].charge.factory_kg
    assert file_text(made, made.document("book", book.document.id), 2).startswith("#")


def test_a_design_whose_book_lost_a_model_is_named_and_not_judged(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    document = made.document("design", design)
    unit = made.value(document, 1).systems[0].units[0]
    text = MINIMAL_BOOK.replace(unit.model, "renamed")
    assert text != MINIMAL_BOOK
    add(made, BOOK, document.project_id, name="minimal", text=text)
    with pytest.raises(InputFaultsError, match=unit.model):
        made.judge(document, 1)
    with pytest.raises(InputFaultsError):
        edit(made, design, 1, length("J2", "7 m"))


def test_a_second_book_of_one_id_is_refused(tmp_path: Path) -> None:
    made, design = with_boat_house(tmp_path)
    project = made.document("design", design).project_id
    book = add(made, BOOK, project, name="minimal", text=MINIMAL_BOOK)
    with pytest.raises(InputFaultsError, match="already"):
        add(made, BOOK, project, name="minimal again", text=MINIMAL_BOOK)
    with pytest.raises(InputFaultsError, match="does not change"):
        change(made, BOOK, book.document.id, Wanted(1, '[{"edit": "set", "at": "id", "to": "other"}]'))
