"""All faults of a document, and of a design and its books, in one go; and none that only follow from another."""

from pathlib import Path

import pytest

from linewright.app.books import book_files
from linewright.app.project import open_project
from linewright.errors import InputFaultsError
from tests.documents.texts import BOOK, DESIGN, MARK, Place, book_faults, damaged, design_faults, told, unmarked

MANY = """\
linewright: design/1
«projekt: Boat house
units: «metric
site:
  cooling: {outdoor_db: «35, indoor_wb: 19 C}
  heating: «{outdoor_wb: -4 C}
  levels:
    - {id: ground, elevation: «0 kg}
    - {id: «ground, elevation: 8 m}
rooms:
  - {id: workshop, level: «grund, area: «-60 m2, height: 3 m, cooling: 6.4 kW}
  - {id: «a/b, level: ground, «hight: 3 m}
  - {id: office, level: ground, height: «.inf m, heating: «[4 kW]}
systems:
  - id: main
    book: minimal
    outdoor: {modules: [«outdoor 61], elevation: 8 m}
    units:
      - {id: U1, model: «cassette 7.2, room: «workshp, elevation: 2.7 m}
      - {id: «U1, model: cassette 5.6, room: office}
      - {id: «U3, model: cassette 3.6, room: a/b, «room: office}
    runs:
      - {from: outdoor, to: J1, length: 24 m, bends: «four}
      - {from: J1, to: U1, length: «1e308 m, location: «roof}
      - {from: J1, to: J2, length: 6 m, rise: «7 m}
      - {from: J2, to: «U1, length: 5 m}
      - {from: J2, to: «J1, length: 5 m}
      - {from: «J7, to: U4, length: 5 m}
"""


def test_many_different_faults_of_one_design_are_all_found_in_the_order_of_the_text() -> None:
    text, places = unmarked(MANY)
    found = told(design_faults(text))
    assert [place for place, _ in found] == places
    assert len(found) == 25
    assert len({expect.message for _, expect in found}) == 25


def test_many_different_faults_of_one_book() -> None:
    text, places = damaged(
        BOOK,
        ("refrigerant: R-32", "«refrigernat: R-32"),
        ("kind: heat-pump ", "kind: «heat-pipe "),
        ("page: 2\n  modules", "page: «two\n  modules"),
        ("index: 16, cooling: 16 kW", "index: «0, cooling: 16 kW"),
        ("[outdoor 16], index", "[«outdoor 61], index"),
        ("{below: 16, gas", "{below: «5, gas"),
        ("{upto: 20.8, gas: 22.22 mm", "{upto: 20.8, gas: «23 mm"),
        ("first: {rows: [{upto", "first: {rows: [{upto: 1, model: x}, «{upt"),
        ("measure: total_length, max: 120 m", "measure: «total_lenght, max: 120 m"),
        ("{measure: level_outdoor_above, max: 30 m,", "{measure: level_outdoor_above, max: «30 kg,"),
        ("outdoor_db: [25 C, 35 C, 43 C]", "outdoor_db: [25 C, 35 C, «35 C]"),
        ("factor: [0.96, 0.88, 1.00]}", "factor: «[0.96, 0.88]}"),
        ("6.35 mm: 0.020 kg/m", "6.35 mm: «0.020 kg"),
        ("indoor: {cassette 7.1: 0.1 kg}", "indoor: {cassette 7.3: «0.1 kg}"),
    )
    found = told(book_faults(text))
    # The misspelt upto stands inside the row whose place is marked.
    at = next(i for i, (_, expect) in enumerate(found) if "upt'" in expect.message)
    assert found[at][1].expected == "'upto'"
    places[at] = found[at][0]
    assert [place for place, _ in found] == places


SILENT = {
    "a room whose id is faulty is not missed": ("id: store, level", "id: «[1], level"),
    "rooms that are no list are not missed": ("rooms:\n", "rooms: «x\nignored:\n"),
    "units that are no list are not missed by the runs": ("    units:\n", "    units: «x\n    ignored:\n"),
    "runs that are no list are not missed by the units": ("    runs:\n", "    runs: «x\n    ignored:\n"),
    "a run whose end is faulty leaves no orphan": ("to: J2, length", "to: «[], length"),
    "a run that is no mapping leaves no orphan": ("{from: J1, to: J2, length: 6 m, bends: 1}", "«J2"),
    "a run whose key is misspelt leaves no orphan": ("to: J2, length", "«tu: J2, length"),
    "levels that are faulty are not missed": ("{id: ground, elevation: 0 m}", "«ground"),
    "a book that is faulty is not missed": ("book: minimal", "book: «[minimal]"),
    "a negative length is not shorter than its rise": ("length: 9 m", "length: «-9 m, rise: 2 m"),
    "a length that is not understood is not shorter than its rise": ("length: 9 m", "length: «9 miles, rise: 12 m"),
    "an elevation that is not understood is at no level": (
        "elevation: 2.7 m}\n      - {id: U2",
        "elevation: «2.7}\n      - {id: U2",
    ),
    "a module that is not understood forms no group": ("[outdoor 16]", "[«[outdoor 16]]"),
}  # fmt: skip


@pytest.mark.parametrize(("old", "new"), SILENT.values(), ids=SILENT.keys())
def test_what_follows_from_a_fault_is_not_a_fault(old: str, new: str) -> None:
    text, places = damaged(DESIGN, (old, new))
    found = [place for place, expect in told(design_faults(text)) if "'ignored'" not in expect.message]
    assert found == places


SILENT_BOOK = {
    "an edge that is not understood is not missed": ("{below: 6, gas", "{below: «6 m m, gas"),
    "an edge whose key is misspelt is not missed": ("{below: 6, gas", "{«belo: 6, gas"),
    "nor is the row after it out of order": ("{below: 16, gas", "{below: «x, gas"),
    "a bound that is not understood is not missed": ("total_length, max: 120 m", "total_length, max: «120 mm m"),
    "a bound of an unknown measure is of no dimension": (
        "measure: total_length, max: 120 m",
        "measure: «x, max: 120 kg",
    ),
    "a ladder that is not understood lacks no size": ("liquid: [6.35 mm, 9.52 mm, 12.7 mm]", "liquid: «6.35 mm"),
    "an axis entry that is not understood is in order": ("[25 C, 35 C, 43 C]", "[25 C, «35 K, 43 C]"),
    "a model that is not understood is not unknown": ("model: cassette 7.1, kind", "model: «[], kind"),
    "a table whose way of look-up is unknown is not read": ("first: {rows", "first: {by: «tubes, rows"),
    "a step that is not understood is one fault": ("step: 0.1 kg", "step: «[]"),
}


@pytest.mark.parametrize(("old", "new"), SILENT_BOOK.values(), ids=SILENT_BOOK.keys())
def test_what_follows_from_a_fault_of_a_book_is_not_a_fault(old: str, new: str) -> None:
    text, places = damaged(BOOK, (old, new))
    assert [place for place, _ in told(book_faults(text))] == places


def opened(tmp_path: Path, design: str, **books: str) -> InputFaultsError:
    path = tmp_path / "boat.design.yaml"
    path.write_text(design, encoding="utf-8")
    for name, text in books.items():
        (tmp_path / f"{name}.book.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(InputFaultsError) as caught:
        open_project(path)
    return caught.value


def test_faults_of_a_design_and_of_its_book_come_together(tmp_path: Path) -> None:
    design, places = damaged(DESIGN, ("length: 9 m", "length: «-9 m"), ("room: store", "room: «shop"))
    book, book_places = damaged(BOOK, ("max: 120 m", "max: «120 kg"))
    found = opened(tmp_path, design, minimal=book).faults
    assert [(Path(fault.file).name, Place(fault.line, fault.column)) for fault in found] == [
        ("boat.design.yaml", places[1]),
        ("boat.design.yaml", places[0]),
        ("minimal.book.yaml", book_places[0]),
    ] or [(Path(fault.file).name, Place(fault.line, fault.column)) for fault in found] == [
        *(("boat.design.yaml", place) for place in sorted(places)),
        ("minimal.book.yaml", book_places[0]),
    ]


def test_models_are_looked_up_in_a_sound_book_though_the_design_has_faults(tmp_path: Path) -> None:
    design, places = damaged(DESIGN, ("cassette 3.6", "«cassette 3.7"), ("length: 9 m", "length: «9"))
    found = opened(tmp_path, design, minimal=BOOK).faults
    assert [Place(fault.line, fault.column) for fault in found] == places


def test_nothing_is_looked_up_in_a_faulty_book(tmp_path: Path) -> None:
    book = BOOK.replace("model: cassette 7.1, kind", "model: [], kind")
    (fault,) = opened(tmp_path, DESIGN, minimal=book).faults
    assert Path(fault.file).name == "minimal.book.yaml"


def test_a_book_that_is_no_yaml_does_not_hide_the_faults_of_the_design(tmp_path: Path) -> None:
    design, _ = damaged(DESIGN, ("length: 9 m", "length: -9 m"))
    found = opened(tmp_path, design, minimal="id: minimal\n" + BOOK.replace("id: minimal", "x: {")).faults
    assert [Path(fault.file).name for fault in found] == ["boat.design.yaml", "minimal.book.yaml"]
    assert found[1].message.startswith("this is not YAML: ")


def test_two_books_of_one_id_in_one_folder_are_not_chosen_between(tmp_path: Path) -> None:
    (fault,) = opened(tmp_path, DESIGN, minimal=BOOK, old=BOOK).faults
    assert fault.file == str(tmp_path / "old.book.yaml")
    assert (fault.path, fault.value) == ("id", "minimal")
    assert fault.message == "the book 'minimal' stands in minimal.book.yaml as well"


@pytest.mark.parametrize(
    ("old", "new", "name"),
    [
        ("id: minimal\n", 'id: "our own"  # ours\n', "our own"),
        ("id: minimal\n", "id: our own # ours\n", "our own"),
        ("linewright: book/1\nid: minimal\n", "linewright: book/1\nnote: {id: x}\nid: minimal\n", "minimal"),
    ],
)
def test_a_book_is_found_by_its_id_however_that_is_written(tmp_path: Path, old: str, new: str, name: str) -> None:
    (tmp_path / "a.book.yaml").write_text(BOOK.replace(old, new), encoding="utf-8-sig")
    assert book_files([tmp_path]) == {name: tmp_path / "a.book.yaml"}


def test_a_book_is_found_in_json(tmp_path: Path) -> None:
    (tmp_path / "a.book.json").write_text('{"linewright": "book/1", "id": "ours", "title": "x"}', encoding="utf-8")
    assert book_files([tmp_path]) == {"ours": tmp_path / "a.book.json"}


def test_a_folder_of_books_that_does_not_exist_is_not_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "boat.design.yaml"
    path.write_text(DESIGN, encoding="utf-8")
    with pytest.raises(InputFaultsError) as caught:
        open_project(path, [tmp_path / "boks"])
    (fault,) = caught.value.faults
    assert (fault.file, fault.message) == (str(tmp_path / "boks"), "there is no such folder")


def test_the_marks_are_in_none_of_the_files() -> None:
    assert MARK not in DESIGN + BOOK
