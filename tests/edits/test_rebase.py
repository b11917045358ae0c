"""An edit of an older revision: made at the head where nothing meets it, else refused with both versions."""

import pytest

from linewright.model.design import Room
from linewright.model.edits import (
    AddRoom,
    Conflict,
    Edit,
    EditConflictError,
    EditRefusedError,
    Kind,
    Put,
    RemoveSubtree,
    Set,
    Table,
    apply,
    rebase,
)
from tests.edits.boat_house import BOAT_HOUSE as BASE


def length(run: str, metres: float) -> Set:
    return Set(kind=Kind.RUN, id=run, system="main", values={"length_m": metres})


def conflicts(mine: Edit, theirs: Edit) -> tuple[Conflict, ...]:
    later = apply(BASE, theirs)
    with pytest.raises(EditConflictError) as met:
        rebase(mine, base=BASE, head=later.design, later=[later.touched])
    return met.value.conflicts


def test_an_edit_that_nothing_meets_is_made_at_the_head() -> None:
    later = apply(BASE, length("U1", 4.0))
    done = rebase(length("U2", 5.0), base=BASE, head=later.design, later=[later.touched])
    lengths = {run.to: run.length_m for run in done.design.systems[0].runs}
    assert (lengths["U1"], lengths["U2"]) == (4.0, 5.0)
    assert apply(done.design, done.inverse).design == later.design


def test_two_lengths_of_one_run_are_shown_with_what_it_was() -> None:
    was = next(run.length_m for run in BASE.systems[0].runs if run.to == "U1")
    (met,) = conflicts(length("U1", 5.0), length("U1", 4.0))
    assert met == Conflict("main/run:U1", "length_m", was, 5.0, 4.0)


def test_a_length_of_a_run_that_is_gone() -> None:
    met = {
        (one.element, one.field): one for one in conflicts(length("U1", 5.0), RemoveSubtree(system="main", node="U1"))
    }
    gone = met["main/run:U1", "exists"]
    assert (gone.base is not None, gone.mine is not None, gone.theirs) == (True, True, None)


def test_conflicts_come_in_the_order_of_their_names_and_say_so_in_words() -> None:
    later = apply(BASE, RemoveSubtree(system="main", node="U1"))
    with pytest.raises(EditConflictError, match="main/run:U1: 'exists' was changed meanwhile") as met:
        rebase(length("U1", 5.0), base=BASE, head=later.design, later=[later.touched])
    assert list(met.value.conflicts) == sorted(met.value.conflicts, key=lambda one: one[:2])


def test_undo_is_the_inverse_at_the_head() -> None:
    mine = apply(BASE, length("U1", 5.0))
    theirs = apply(mine.design, length("U2", 7.0))
    undone = rebase(mine.inverse, base=mine.design, head=theirs.design, later=[theirs.touched])
    assert undone.design == apply(BASE, length("U2", 7.0)).design


def test_an_edit_that_cannot_be_made_on_its_own_revision_is_refused() -> None:
    with pytest.raises(EditRefusedError):
        rebase(length("nowhere", 5.0), base=BASE, head=BASE, later=[])


def test_two_rooms_behind_the_same_one_meet() -> None:
    level, last = BASE.site.levels[0].id, BASE.rooms[-1].id
    rooms = [Put(table=Table.ROOMS, item=Room(id=name, level=level), after=last) for name in ("left", "right")]
    assert [one.field for one in conflicts(rooms[1], rooms[0])] == [f"after {last}"]


def test_two_rooms_that_are_added_by_name_do_not() -> None:
    left, right = (AddRoom(room=Room(id=name, level=BASE.site.levels[0].id)) for name in ("left", "right"))
    later, other = apply(BASE, left), apply(BASE, right)
    done = rebase(right, base=BASE, head=later.design, later=[later.touched])
    assert done.design == rebase(left, base=BASE, head=other.design, later=[other.touched]).design
