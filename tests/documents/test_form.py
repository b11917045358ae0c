"""Texts that are not YAML, and YAML of a form that is not used here."""

import pytest

from tests.documents.texts import DESIGN, Expect, Place, damaged, design_faults, told, unmarked

INDENT = "entries that belong together begin in the same column, indented with spaces"
QUOTES = "the text in quotes"
DOCUMENT = "a YAML or JSON document"
HEADER = "a document that begins with linewright: design/1"

#: Name, text with a mark where the parser stumbles, value, message, expected.
NOT_YAML = (
    ("a tab for indentation", "a:\n«\tb: 1", "b: 1", "a tab stands where the indentation is", "spaces"),
    (
        "a brace left open",
        "a: {b: 1\n«c: 2",
        "c: 2",
        "the brace opened on line 1 is not closed, or a comma is missing before this",
        "entries apart by ',' and a '}' at the end",
    ),
    (
        "a bracket left open",
        "a: [b\nc«: 2",
        "c: 2",
        "the bracket opened on line 1 is not closed, or a comma is missing before this",
        "entries apart by ',' and a ']' at the end",
    ),
    (
        "quotes left open",
        'a: "b\nc: 2«',
        "c: 2",
        "the quotes opened on line 1 are not closed",
        "a closing quote",
    ),
    (
        "a colon in a text",
        "a: b«: c",
        "a: b: c",
        "a colon stands where none fits",
        "one 'key: value' on a line; a text that holds ': ' in quotes",
    ),
    ("a key without a colon", "a: 1\n«b\nc: 2", "b", "a key without its colon", "key: value"),
    (
        "a line that stands too far left",
        "a:\n    b: 1\n  «c: 2",
        "c: 2",
        "this line does not fit under the lines above it",
        INDENT,
    ),
    (
        "a list that ends in a key",
        "- a\n«b: 1",
        "b: 1",
        "this line is no entry of the list on line 1",
        INDENT,
    ),
    ("a list behind a key", "a: «- b", "a: - b", "a '-' stands where no list can be", INDENT),
    (
        "a text that begins with an at sign",
        "a: «@b",
        "a: @b",
        "a text that begins with '@' has a meaning of its own",
        QUOTES,
    ),
    (
        "a text that begins with a star",
        "a: «* b",
        "a: * b",
        "a text that begins with '*' or '&' has a meaning of its own",
        QUOTES,
    ),
    (
        "a text that begins with an exclamation mark",
        "a: «!<b c",
        "a: !<b c",
        "a text that begins with '!' has a meaning of its own",
        QUOTES,
    ),
    (
        "a line that begins with a per cent sign",
        "«%a: b",
        "%a: b",
        "a line that begins with '%' has a meaning of its own",
        QUOTES,
    ),
    (
        "words behind the end",
        "a: 1\n...\n«b",
        "b",
        "something stands after the end of the document",
        "one document in a file",
    ),
    (
        "nothing between commas",
        "a: {b: 1, «, c: 2}",
        "a: {b: 1, , c: 2}",
        "nothing stands where a value is due",
        "a value",
    ),
    ("a question mark behind a key", "a: «? b", "a: ? b", "a '?' stands where no key can be", QUOTES),
    (
        "a backslash in double quotes",
        'a: "C:\\«Users"',
        'a: "C:\\Users"',
        "in double quotes a backslash begins a code",
        "single quotes, or the backslash twice",
    ),
)


@pytest.mark.parametrize(
    ("text", "value", "message", "expected"), [row[1:] for row in NOT_YAML], ids=[r[0] for r in NOT_YAML]
)
def test_what_is_not_yaml_is_said_in_words(text: str, value: str, message: str, expected: str) -> None:
    plain, places = unmarked(text)
    ((place, told_),) = told(design_faults(plain))
    assert told_.message == f"this is not YAML: {message}"
    assert told_.expected == expected
    assert told_.value == value
    assert place.line == places[0].line


def test_two_documents_in_one_file_beside_a_fault_of_the_first() -> None:
    text, places = damaged(DESIGN + "«---\na: 1\n", ("project: Boat house", "«projekt: Boat house"))
    assert told(design_faults(text)) == [
        (places[0], Expect("projekt", "projekt", "the key 'projekt' is not known here", "'project'")),
        (
            places[1],
            Expect("", "", "a second document begins here", "one document in a file, without a line '---' in it"),
        ),
    ]


@pytest.mark.parametrize(
    ("text", "what"), [("- a\n- b\n", "a list"), ("[1, 2]", "a list"), ("just words\n", "one text"), ("42", "one text")]
)
def test_a_root_that_is_no_mapping(text: str, what: str) -> None:
    ((place, expect),) = told(design_faults(text))
    assert place == Place(1, 1)
    assert expect.message == f"the document is {what}, not a mapping of keys to values"
    assert expect.expected == HEADER


@pytest.mark.parametrize(
    ("stated", "message", "expected"),
    [
        ("design/9", "the format design/9 is newer than this program", "linewright: design/1, or a newer Linewright"),
        ("design/0", "the format design/0 is not known", "linewright: design/1"),
        ("book/1", "this is a book, not a design", HEADER),
        ("book/7", "this is a book, not a design", HEADER),
        ("desing/1", "'desing/1' is no kind of document", "linewright: design/1"),
        ("design", "'design' is no kind of document", "linewright: design/1"),
        (f"design/{'9' * 5000}", f"'design/{'9' * 53}…' is no kind of document", "linewright: design/1"),
        ("design/²", "'design/²' is no kind of document", "linewright: design/1"),
        ("''", "nothing is written here", "linewright: design/1"),
        ("[design/1]", "nothing is written here", "linewright: design/1"),
    ],
)
def test_a_header_that_is_not_this_programs(stated: str, message: str, expected: str) -> None:
    text, places = damaged(DESIGN, ("linewright: design/1", f"linewright: «{stated}"))
    ((place, expect),) = told(design_faults(text))
    assert place == places[0]
    assert expect.path == "linewright"
    assert (expect.message, expect.expected) == (message, expected)


def test_no_header_is_one_fault_among_others() -> None:
    text, places = damaged(DESIGN, ("linewright: design/1\n", ""), ("project:", "«projekt:"))
    (header, key) = told(design_faults(text))
    assert header[1] == Expect(
        "linewright", "", "this does not say what it is: the key 'linewright' is missing", "linewright: design/1"
    )
    assert key == (places[0], Expect("projekt", "projekt", "the key 'projekt' is not known here", "'project'"))


def test_a_misspelt_header_key_is_one_fault() -> None:
    text, places = damaged(DESIGN, ("linewright:", "«linwright:"))
    assert told(design_faults(text)) == [
        (places[0], Expect("linwright", "linwright", "the key 'linwright' is not known here", "'linewright'"))
    ]


def test_a_document_of_another_program_is_refused_by_its_missing_header_alone() -> None:
    (fault,) = design_faults("version: 3\nservices: {web: {image: x}}\n")
    assert fault.message == "this does not say what it is: the key 'linewright' is missing"


@pytest.mark.parametrize("character", ["\x07", "\x1b", "\x00", "\ufffe", "\ufeff", "\ud800"])
def test_characters_that_no_text_holds(character: str) -> None:
    text, places = damaged(DESIGN, ("Boat house", f"Boat «{character}house"))
    ((place, expect),) = told(design_faults(text))
    code = f"U+{ord(character):04X}"
    assert place == places[0]
    assert expect == Expect(
        "", code, f"the character {code} stands here, which no text document holds", "printable text"
    )


def test_json_with_tabs_is_a_document() -> None:
    text = (
        '{\n\t"linewright": "design/1",\n\t"project": "Boat house",\n\t"site": {},\n\t"systems": [{"id": "main"}]\n}\n'
    )
    found = told(design_faults(text))
    assert {expect.message for _, expect in found} == {
        f"the key '{key}' is missing" for key in ("book", "outdoor", "units", "runs")
    }
    assert {place for place, _ in found} == {Place(5, 14)}


def test_words_that_yaml_reads_as_something_else_are_names_here() -> None:
    text = DESIGN
    for name, odd in (("workshop", "NO"), ("office", "yes"), ("store", "1e3")):
        text = text.replace(f"id: {name}", f"id: {odd}").replace(f"room: {name}", f"room: {odd}")
    assert design_faults(text.replace("Boat house", "null")) == ()
    assert (
        design_faults(
            text.replace("id: roof", "id: 0x10").replace("id: ground", "id: ~").replace("level: ground", "level: ~")
        )
        == ()
    )


def test_room_numbers_with_dots_are_ids() -> None:
    assert design_faults(DESIGN.replace("id: store", "id: 1.02").replace("room: store", "room: 1.02")) == ()
