"""Documents made to cost time or memory, or to break a parser."""

import subprocess
import sys
import time
import tracemalloc

import pytest

from linewright.document.files import design_from_text
from linewright.errors import InputFaultsError
from tests.documents.texts import BOOK, DESIGN, book_faults, damaged, design_faults, told

#: Far more than any of these takes, far less than what following a bomb would take.
MOST_SECONDS = 60.0
NESTED = "lists and mappings are nested too deeply"


def bomb() -> str:
    """Nine lists of nine aliases each: ten thousand million values, were they followed."""
    lines = ["bombs:", "  - &a0 [lol, lol, lol, lol, lol, lol, lol, lol, lol]"]
    lines += [f"  - &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]" for i in range(1, 11)]
    return "\n".join(lines) + "\nrooms: *a10\n"


def test_an_alias_bomb_is_refused_and_never_followed() -> None:
    head = DESIGN[: DESIGN.index("\nrooms:") + 1]
    tracemalloc.start()
    found = design_faults(head + bomb() + DESIGN[DESIGN.index("systems:") :])
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 50_000_000
    messages = [fault.message for fault in found]
    assert messages == ["the key 'bombs' is not known here", "the alias '*a10' stands for a value elsewhere"]


def test_every_anchor_and_every_alias_is_named() -> None:
    text, places = damaged(
        DESIGN, ("room: workshop", "room: «&r workshop"), ("room: office", "room: «*r"), ("room: store", "room: «*r")
    )
    found = told(design_faults(text))
    assert [place for place, _ in found] == places
    assert [expect.message[:12] for _, expect in found] == ["the anchor '", "the alias '*", "the alias '*"]


@pytest.mark.parametrize(
    "nest",
    ["[" * 100_000, "{a: " * 100_000, "- " * 100_000, "? " * 100_000, "[" * 100_000 + "]" * 100_000, "[{" * 50_000],
    ids=["brackets", "braces", "dashes", "question marks", "closed brackets", "mixed"],
)
def test_nesting_of_100_000_levels_is_refused_without_a_crash(nest: str) -> None:
    """In a process of its own: what is feared is a crash of the parser, not an exception."""
    program = (
        "import sys\n"
        "from linewright.document.files import design_from_text\n"
        "from linewright.errors import InputFaultsError\n"
        "try:\n    design_from_text('rooms:\\n  ' + sys.stdin.read(), 'x')\n"
        "except InputFaultsError as error:\n    print(error)\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], input=nest, capture_output=True, text=True, encoding="utf-8", check=False
    )
    assert run.returncode == 0, run.stderr[-500:]
    assert NESTED in run.stdout


def test_nesting_is_counted_not_guessed_from_brackets_in_a_text() -> None:
    assert design_faults(DESIGN.replace("Boat house", '"' + "[" * 500 + '"')) == ()
    assert design_faults(DESIGN + "# " + "[{" * 500 + "\n") == ()


def test_the_level_that_is_too_deep_has_its_place() -> None:
    (fault,) = design_faults(DESIGN.replace("note", "") + "note: " + "[" * 61)
    assert fault.message == NESTED
    assert fault.expected == "at most 60 levels"
    # the root is the first level, so the 60th bracket is the 61st level
    assert (fault.line, fault.column) == (32, 66)


@pytest.mark.parametrize("length", [1_000, 1_000_000])
def test_long_words_are_cut_in_what_is_said(length: int) -> None:
    long = "x" * length
    for old, new in (
        ("Boat house", long),
        ("project:", f"{'y' * min(length, 1000)}: 1\nproject:"),
        ("level: ground, area: 60", f"level: {long}, area: 60"),
        ("length: 9 m", f"length: {long}"),
        ("bends: 4", f"bends: {long}"),
        ("units: si", f"units: {long}"),
        ("id: U3", f"id: {long}"),
        ("to: J2", f"to: {long}"),
        ("book: minimal", f"book: {long}"),
    ):
        start = time.perf_counter()
        for fault in design_faults(DESIGN.replace(old, new)):
            assert len(fault.value) <= 60
            assert len(fault.message) <= 250
            assert len(fault.path) <= 120
            assert len(fault.expected) <= 400
        assert time.perf_counter() - start < MOST_SECONDS


def test_5_000_faults_are_counted_and_the_first_are_shown() -> None:
    room = "  - {id: r, level: nowhere, area: -1 m2}\n"
    text = DESIGN.replace(
        "systems:\n", "".join(room.replace("id: r", f"id: r{i}") for i in range(2_500)) + "systems:\n"
    )
    start = time.perf_counter()
    with pytest.raises(InputFaultsError) as caught:
        design_from_text(text, "boat.design.yaml")
    assert time.perf_counter() - start < MOST_SECONDS
    assert len(caught.value.faults) == 200
    assert caught.value.more == 4_800
    # Two faults on each line: the first hundred of the new rooms, which begin on line 18.
    lines = [fault.line for fault in caught.value.faults]
    assert lines == [line for line in range(18, 118) for _ in range(2)]
    assert str(caught.value).endswith("and 4,800 more")


def test_faults_that_are_found_last_are_shown_first_where_they_stand_first() -> None:
    """A level is looked up after all values are read: place decides what is shown, not the order of finding."""
    runs = "".join(f"      - {{from: J2, to: x{i}, length: -1}}\n" for i in range(300))
    text = DESIGN.replace("id: store, level: ground", "id: store, level: grund") + runs
    found = design_faults(text)
    assert len(found) == 200
    assert found[0].message == "there is no level 'grund'"


def test_five_thousand_wrong_names_do_not_take_long() -> None:
    units = "".join(f"      - {{id: x{i}, model: cassete {i}, room: ofice {i}}}\n" for i in range(5_000))
    runs = "".join(f"      - {{from: J{i}, to: x{i}, length: 1 m}}\n" for i in range(5_000))
    text = DESIGN.replace("    runs:\n", units + "    runs:\n") + runs
    start = time.perf_counter()
    assert len(design_faults(text)) == 200
    assert time.perf_counter() - start < MOST_SECONDS


def test_escapes_do_not_reach_the_terminal() -> None:
    text, _ = damaged(DESIGN, ("room: store", r'room: "\e[31mred\a"'))
    ((_, expect),) = told(design_faults(text))
    assert expect.message == r"there is no room '\x1b[31mred\x07'"


def test_a_bomb_in_a_book_as_well() -> None:
    found = book_faults(BOOK.replace("limits:\n", bomb().replace("rooms", "x") + "limits:\n"))
    assert {fault.message for fault in found} == {"the key 'bombs' is not known here", "the key 'x' is not known here"}
