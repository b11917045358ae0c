"""Files that are no documents, and documents in other dresses."""

from pathlib import Path

import pytest

from linewright.document.files import load_book, load_design
from linewright.errors import Fault, InputFaultsError
from tests.documents.texts import BOOK_FILE, DESIGN, DESIGN_FILE

TEXT = "a YAML or JSON document saved as UTF-8 text"


def only_fault(path: Path) -> Fault:
    with pytest.raises(InputFaultsError) as caught:
        load_design(path)
    (fault,) = caught.value.faults
    assert fault.file == str(path)
    assert fault.path == ""
    return fault


def saved(tmp_path: Path, data: bytes) -> Path:
    path = tmp_path / "boat.design.yaml"
    path.write_bytes(data)
    return path


def test_a_missing_file_names_the_one_that_is_meant(tmp_path: Path) -> None:
    saved(tmp_path, b"")
    path = tmp_path / "boot.design.yaml"
    fault = only_fault(path)
    assert (fault.line, fault.column) == (0, 0)
    assert fault.message == "there is no such file"
    assert fault.expected == f"a file that exists, such as {tmp_path / 'boat.design.yaml'}"


def test_a_missing_file_in_a_missing_folder(tmp_path: Path) -> None:
    assert only_fault(tmp_path / "none" / "boat.yaml").expected == "a file that exists"


def test_a_folder_instead_of_a_file(tmp_path: Path) -> None:
    saved(tmp_path, b"")
    fault = only_fault(tmp_path)
    assert fault.message == "this is a folder, not a file"
    assert fault.expected == f"a file, such as {tmp_path / 'boat.design.yaml'}"


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whether a file can be made unreadable depends on who runs the tests; what the system answers does not."""
    path = saved(tmp_path, DESIGN.encode())

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    fault = only_fault(path)
    assert fault.message == "the file cannot be read: Permission denied"
    assert fault.expected == "a file that you may read"


def test_a_file_of_200_mb_is_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "boat.design.yaml"
    with path.open("wb") as file:
        file.truncate(200_000_000)
    monkeypatch.setattr(Path, "read_bytes", lambda _: pytest.fail("it was read"))
    monkeypatch.setattr(Path, "open", lambda *_: pytest.fail("it was opened"))
    fault = only_fault(path)
    assert fault.message == "the file holds 200.0 MB"
    assert fault.value == "200000000 bytes"
    assert fault.expected == "a document of at most 5 MB"


def test_a_text_just_beyond_the_size_is_refused_and_one_within_is_not(tmp_path: Path) -> None:
    rest = 5_000_000 - len(DESIGN.encode()) - 2
    assert load_design(saved(tmp_path, DESIGN.encode() + b"\n#" + b"x" * rest)).design.project == "Boat house"
    fault = only_fault(saved(tmp_path, DESIGN.encode() + b"\n#" + b"x" * (rest + 1)))
    assert fault.expected == "a document of at most 5 MB"


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_utf_16_is_told_from_binary(tmp_path: Path, encoding: str) -> None:
    fault = only_fault(saved(tmp_path, DESIGN.encode(encoding)))
    assert fault.message == "the file is saved as UTF-16"
    assert fault.expected == TEXT


def test_utf_32(tmp_path: Path) -> None:
    assert only_fault(saved(tmp_path, DESIGN.encode("utf-32"))).message == "the file is saved as UTF-32"


def test_binary(tmp_path: Path) -> None:
    fault = only_fault(saved(tmp_path, b"PK\x03\x04\nab\x00\x00\xff\xfe"))
    assert fault.message == "the file is binary (it holds NUL bytes)"
    assert (fault.line, fault.column, fault.value) == (2, 3, "00")
    assert fault.expected == TEXT


def test_text_in_an_old_code_page(tmp_path: Path) -> None:
    data = DESIGN.replace("Boat house", "Bootshäuschen").encode("cp1252")
    fault = only_fault(saved(tmp_path, data))
    assert fault.message == "byte E4 is not UTF-8 text"
    # project: Bootsh?uschen — the seventh letter after the nine of "project: ", on the third line
    assert (fault.line, fault.column, fault.value) == (3, 16, "E4")
    assert fault.expected == TEXT


@pytest.mark.parametrize("data", [b"", b"\n\n", b"# nothing but a comment\n", b"---\n", b"\xef\xbb\xbf"])
def test_an_empty_document(tmp_path: Path, data: bytes) -> None:
    fault = only_fault(saved(tmp_path, data))
    assert fault.message == "the document is empty"
    assert fault.expected == "a YAML or JSON document"


@pytest.mark.parametrize(
    "data",
    [
        DESIGN.encode("utf-8-sig"),
        DESIGN.replace("\n", "\r\n").encode(),
        DESIGN.replace("\n", "\r").encode(),
        DESIGN.rstrip("\n").encode(),
        ("---\n" + DESIGN + "...\n").encode(),
        DESIGN.replace("Boat house", "Boat house   ").encode(),
    ],
    ids=["byte order mark", "CRLF", "CR", "no last line end", "document marks", "trailing spaces"],
)
def test_other_dresses_of_a_document(tmp_path: Path, data: bytes) -> None:
    assert load_design(saved(tmp_path, data)).design == load_design(DESIGN_FILE).design


def test_line_ends_say_nothing_about_what_a_document_is(tmp_path: Path) -> None:
    windows = load_design(saved(tmp_path, DESIGN.replace("\n", "\r\n").encode()))
    assert windows.sha256 == load_design(DESIGN_FILE).sha256


def test_lines_and_columns_behind_a_byte_order_mark_and_crlf(tmp_path: Path) -> None:
    text = DESIGN.replace("project:", "projekt:").replace("\n", "\r\n")
    for data in (text.encode("utf-8-sig"), text.encode()):
        fault = only_fault_of_text(saved(tmp_path, data))
        assert (fault.line, fault.column) == (3, 1)


def only_fault_of_text(path: Path) -> Fault:
    with pytest.raises(InputFaultsError) as caught:
        load_design(path)
    (fault,) = caught.value.faults
    return fault


def test_columns_count_letters_not_bytes(tmp_path: Path) -> None:
    text = DESIGN.replace("{id: store, level: ground", "{id: Küche-漢字-🙂, level: grund")
    text = text.replace("room: store", "room: Küche-漢字-🙂")
    fault = only_fault_of_text(saved(tmp_path, text.encode()))
    # "  - {id: Küche-漢字-🙂, level: " has 28 letters
    assert (fault.line, fault.column, fault.value) == (16, 29, "grund")


def test_ids_in_any_script_in_composed_and_decomposed_letters(tmp_path: Path) -> None:
    composed, decomposed = "caf\u00e9", "cafe\u0301"
    text = DESIGN.replace("{id: store", f"{{id: {composed}").replace("room: store", f"room: {decomposed}")
    assert load_design(saved(tmp_path, text.encode())).design.rooms[2].id == composed


def test_a_book_given_as_a_design_and_the_other_way_round() -> None:
    with pytest.raises(InputFaultsError) as caught:
        load_design(BOOK_FILE)
    (fault,) = caught.value.faults
    assert (fault.path, fault.value) == ("linewright", "book/1")
    assert fault.message == "this is a book, not a design"
    assert fault.expected == "a document that begins with linewright: design/1"
    with pytest.raises(InputFaultsError) as caught:
        load_book(DESIGN_FILE)
    (fault,) = caught.value.faults
    assert fault.message == "this is a design, not a book"
