"""Edits of books: undone, written down, saved into the same text; each refusal says why and changes nothing."""

import json
from pathlib import Path
from random import Random

import pytest
from click.testing import CliRunner

from linewright.app.shipped import shipped
from linewright.book.edits import AppliedToBook, BookEdit, SetValue, apply_to_book
from linewright.book.schema import Book
from linewright.cli.main import cli
from linewright.document.book_edits import book_edits_from_text, encode_book_edits
from linewright.document.encode import Style
from linewright.document.files import book_from_text
from linewright.document.render import Form
from linewright.document.saving import save_book
from linewright.errors import InputFaultsError
from linewright.model.edits import EditRefusedError, meeting
from linewright.units import Amount, Dimension, UnitSystem
from tests.edits.random_book_edits import random_book_edit

BOOKS = {path.name.partition(".")[0]: path for path in sorted(shipped("books").glob("*.book.yaml"))}
SKERRY = BOOKS["skerry-hr-r410a"].read_text(encoding="utf-8")
EDITS, SOAK_EDITS = 24, 3_000


def read(text: str) -> Book:
    return book_from_text(text, "some.book.yaml").compiled.book


def attempt(book: Book, edit: BookEdit) -> AppliedToBook | None:
    try:
        return apply_to_book(book, edit)
    except EditRefusedError:
        return None


def again(edit: BookEdit, book: Book, units: UnitSystem) -> BookEdit:
    return book_edits_from_text(Form().flow(encode_book_edits(edit, book, Style(units))), "edits", book)


def check(name: str, seed: int, count: int) -> tuple[int, set[type]]:
    rng, text = Random(seed), BOOKS[name].read_text(encoding="utf-8")  # noqa: S311 - random cases, no secrets
    first = book = read(text)
    made, kinds = 0, set()
    for _ in range(count):
        edit = random_book_edit(rng, book)
        done = attempt(book, edit)
        if done is None:
            continue
        assert apply_to_book(done.book, done.inverse).book == book
        assert apply_to_book(book, again(edit, book, UnitSystem.SI)).book == done.book
        assert apply_to_book(done.book, again(done.inverse, done.book, UnitSystem.IP)).book == book
        saved = save_book(text, done.book)
        assert read(saved) == done.book
        assert read(save_book(saved, first)) == first
        made, book, text = made + 1, done.book, saved
        kinds.add(type(edit))
    return made, kinds


@pytest.mark.parametrize("name", BOOKS)
def test_every_edit_is_undone_written_down_and_saved(name: str) -> None:
    made, kinds = check(name, 1, EDITS)
    assert made > 10
    assert len(kinds) > 2


@pytest.mark.soak
@pytest.mark.parametrize("name", BOOKS)
def test_every_edit_is_undone_written_down_and_saved_at_length(name: str) -> None:
    check(name, 2, SOAK_EDITS)


@pytest.mark.parametrize("name", BOOKS)
def test_two_edits_of_one_revision_meet_or_give_the_same_in_both_orders(name: str) -> None:
    rng, book = Random(3), read(BOOKS[name].read_text(encoding="utf-8"))  # noqa: S311 - random cases, no secrets
    met = apart = 0
    for _ in range(EDITS * 3):
        edits = [random_book_edit(rng, book) for _ in range(2)]
        first, second = (attempt(book, edit) for edit in edits)
        if first is None or second is None:
            continue
        if meeting(second.touched, [first.touched]):
            met += 1
            continue
        orders = [attempt(first.book, edits[1]), attempt(second.book, edits[0])]
        if orders[0] is None or orders[1] is None:
            assert orders == [None, None], edits
            continue
        assert orders[0].book == orders[1].book, edits
        apart += 1
    assert apart > 5
    assert met + apart > 10


def changed_lines(old: str, new: str) -> list[tuple[str, str]]:
    before, after = old.splitlines(), new.splitlines()
    assert len(before) == len(after)
    return [pair for pair in zip(before, after, strict=True) if pair[0] != pair[1]]


def edited(edits: str, text: str = SKERRY) -> str:
    book = read(text)
    return save_book(text, apply_to_book(book, book_edits_from_text(edits, "edits", book)).book)


def test_one_figure_changes_one_line() -> None:
    """The size of the third row, from 19.05 to 22.22 mm; everything else keeps its text."""
    ((old, new),) = changed_lines(SKERRY, edited('{edit: set, at: "sizing.branch.rows[2].suction", to: 22.22 mm}'))
    assert new == old.replace("suction: 19.05 mm", "suction: 22.22 mm")


def test_a_limit_put_before_the_others_leaves_them_as_they_are() -> None:
    made = edited('{edit: insert, at: "limits[0]", item: {measure: last_joint_to_unit, max: 40 m, page: 20}}')
    line = "  - {measure: last_joint_to_unit, max: 40 m, page: 20}"
    assert line in made.splitlines()
    assert [text for text in made.splitlines() if text != line] == SKERRY.splitlines()


def test_a_list_by_itself_means_behind_its_last_item() -> None:
    book = read(edited("{edit: insert, at: limits, item: {measure: last_joint_to_unit, max: 40 m}}"))
    assert book.limits[-1].measure == "last_joint_to_unit"


def test_items_go_by_their_names_and_entries_by_their_keys() -> None:
    text = edited(
        """
        - {edit: set, at: "outdoor.groups[pair 56].connection_ratio.max", to: 120 %}
        - {edit: set, at: "charge.liquid[1/2 in]", to: 0.095 kg/m}
        - {edit: set, at: "charge.box[box 4]", to: 0.6 kg}
        - {edit: remove, at: "boxes.direct"}
        """
    )
    book = read(text)
    pair = next(one for one in book.outdoor.groups if one.id == "pair 56")
    assert pair.connection_ratio is not None
    assert pair.connection_ratio.max == Amount(1.2, Dimension.RATIO)
    assert next(rate for size, rate in book.charge.liquid.items() if round(size, 4) == 0.0127) == 0.095
    assert book.charge.box["box 4"] == 0.6
    assert book.boxes is not None
    assert book.boxes.direct is None


def test_each_edit_of_a_batch_sees_what_those_before_it_left() -> None:
    edits = '[{edit: remove, at: "limits[0]"}, {edit: remove, at: "limits[0]"}]'
    assert read(edited(edits)).limits == read(SKERRY).limits[2:]


REFUSED = {
    "{edit: sett, at: id, to: x}": "there is no edit 'sett'",
    "{at: id, to: x}": "the key 'edit' is missing",
    "[3 m]": "this is no edit",
    "{edit: set, at: id}": "the key 'to' is missing",
    "{edit: set, at: id, to: x, form: y}": "the key 'form' is not known here",
    "{edit: set, at: '', to: x}": "'' is no path",
    "{edit: set, at: 'limits[', to: x}": "'limits[' is no path",
    "{edit: set, at: limmits, to: x}": "the key 'limmits' is not known here",
    "{edit: set, at: 'outdoor.groups[pair 57].index', to: 3}": "no item is called 'pair 57'",
    "{edit: set, at: 'title.length', to: 3}": "nothing stands inside, so no 'length'",
    "{edit: set, at: 'limits[99].page', to: 3}": "the list has 28 items, counted from 0",
    "{edit: set, at: 'capacity.cooling.defrost.page', to: 3}": "nothing is there",
    "{edit: set, at: 'options[0].limits[0].page', to: 3}": "the list has 0 items, counted from 0",
    "{edit: set, at: 'charge.suctionn', to: 3}": "the key 'suctionn' is not known here",
    "{edit: remove, at: id}": "a book has to say this",
    "{edit: remove, at: 'options'}": "nothing is there that could be removed",
    "{edit: remove, at: 'charge.box[box 9]'}": "nothing is there that could be removed",
    "{edit: insert, at: 'title', item: x}": "an item is put into a list",
    "{edit: insert, at: 'limits[99]', item: {measure: box_count, max: 3}}": "an item is put into a list",
    "{edit: set, at: 'sizing.branch.rows[0].upto', to: 8}": (
        "the row ends at 6.2, not above 8 where the one before it ends: they overlap"
    ),
    "{edit: set, at: 'charge.box[box 9]', to: 1 kg}": "there is no mode box 'box 9' in this book",
    "{edit: set, at: id, to: 'a/b'}": "the id 'a/b' holds '/', which separates the parts of a result's name",
    "{edit: set, at: 'requirements[0].id', to: 'a: b'}": (
        "the id 'a: b' holds ':', which separates the parts of a result's name"
    ),
}


@pytest.mark.parametrize("edits", REFUSED)
def test_a_refusal_says_why_and_writes_nothing(edits: str, tmp_path: Path) -> None:
    book, file = tmp_path / "my.book.yaml", tmp_path / "edits.yaml"
    book.write_text(SKERRY, encoding="utf-8", newline="\n")
    file.write_text(edits, encoding="utf-8")
    done = CliRunner().invoke(cli, ["book", "edit", str(book), str(file), "--json"])
    assert done.exit_code == 2, done.output
    faults = json.loads(done.output)["faults"]
    assert REFUSED[edits] in [fault["message"] for fault in faults]
    assert {fault["file"] for fault in faults} == {str(file)}
    assert book.read_text(encoding="utf-8") == SKERRY


@pytest.mark.parametrize(
    ("edit", "message"),
    [
        (SetValue(path=(), to=1), "the whole book is no part of it"),
        (SetValue(path=("title",), to=1), "the value is of another kind than what stands there"),
        (SetValue(path=("charge", "box", "box 9", "kg"), to=1), "there is no entry box 9"),
        (SetValue(path=("titel",), to="x"), "nothing is there"),
    ],
)
def test_a_program_is_refused_what_no_file_could_say(edit: BookEdit, message: str) -> None:
    with pytest.raises(EditRefusedError) as refused:
        apply_to_book(read(SKERRY), edit)
    assert [fault.message for fault in refused.value.faults] == [message]


def test_all_faults_of_a_batch_are_told_at_once() -> None:
    with pytest.raises(InputFaultsError) as refused:
        edited("[{edit: set, at: idd, to: x}, {edit: set, at: title, to: y}, {edit: remove, at: id}]")
    assert [fault.path for fault in refused.value.faults] == ["[0].at", "[2].at"]


def run(book: Path, edits: str, *more: str) -> str:
    done = CliRunner().invoke(cli, ["book", "edit", str(book), "-", *more], input=edits)
    assert done.exit_code == 0, done.output
    return done.output


def test_the_command_writes_what_it_says_and_takes_its_inverse_back(tmp_path: Path) -> None:
    book = tmp_path / "my.book.yaml"
    book.write_text(SKERRY, encoding="utf-8", newline="\n")
    edits = '[{edit: set, at: "charge.max", to: 50 kg}, {edit: remove, at: note}]'
    assert "Nothing was written." in run(book, edits, "--dry-run")
    assert book.read_text(encoding="utf-8") == SKERRY
    undo = json.dumps(json.loads(run(book, edits, "--dry-run", "--json"))["inverse"])
    assert "charge.max: 50 kg (was 48 kg)" in run(book, edits)
    assert read(book.read_text(encoding="utf-8")).charge.max_kg == 50
    run(book, undo)
    assert read(book.read_text(encoding="utf-8")) == read(SKERRY)
