"""`linewright serve` as it is called: what it opens, what it refuses and how it says so."""

import socket
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from linewright.cli.main import cli
from linewright.store import documents, open_store
from tests.keeping.kept import BOAT_HOUSE
from tests.web.program import Program
from tests.web.server import Client


def serve(*arguments: object) -> Result:
    return CliRunner().invoke(cli, ["serve", *(str(one) for one in arguments)])


def test_what_cannot_be_opened_is_told_and_nothing_is_made(tmp_path: Path) -> None:
    (tmp_path / "a.db").write_text("no database", encoding="utf-8")
    for target, words in (
        (tmp_path / "a.db", "this is no database"),
        (tmp_path / "nothing", "there is no such file or folder"),
        (tmp_path / "no folder" / "a.db", "there is no such folder for the database"),
    ):
        done = serve(target)
        assert done.exit_code == 2
        assert words in done.stderr
        assert "expected" in done.stderr
        assert "Traceback" not in done.output
    assert [path.name for path in tmp_path.iterdir()] == ["a.db"]


def test_a_port_that_is_taken_is_told(tmp_path: Path) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        done = serve(tmp_path / "a.db", "--port", other.getsockname()[1])
    assert done.exit_code == 2
    assert "cannot be had" in done.stderr


@pytest.mark.parametrize("port", ["-1", "65536", "x"])
def test_a_port_that_is_none_is_refused(tmp_path: Path, port: str) -> None:
    assert serve(tmp_path / "a.db", "--port", port).exit_code == 2


def test_one_file_of_a_folder_is_served_and_a_broken_neighbour_does_no_harm(tmp_path: Path) -> None:
    (tmp_path / "boat-house.design.yaml").write_text(BOAT_HOUSE, encoding="utf-8")
    (tmp_path / "other.design.yaml").write_text("linewright: design/1\nproject: [\n", encoding="utf-8")
    program = Program(tmp_path / "boat-house.design.yaml")
    with Client(program.port) as client:
        assert [one["name"] for one in client.get("/api/projects/1")["designs"]] == ["boat-house"]
    assert program.end() == ""
    whole = Program(tmp_path)
    with Client(whole.port) as client:
        assert [one["name"] for one in client.get("/api/projects/1")["designs"]] == ["boat-house"]
    errors = whole.end()
    assert "other.design.yaml" in errors
    assert "The file stays out until it is mended." in errors


def test_a_folder_without_a_design_is_an_empty_project(tmp_path: Path) -> None:
    program = Program(tmp_path)
    with Client(program.port) as client:
        assert client.get("/api/projects/1")["designs"] == []
        client.post("/api/projects/1/designs", {"name": "First one"})
    assert program.end() == ""
    assert (tmp_path / "First-one.design.yaml").read_text(encoding="utf-8").startswith("linewright: design/1")
    store = open_store(tmp_path / ".linewright.db")
    with store.reading() as connection:
        assert documents.find_document(connection, "design", 1).file == "First-one.design.yaml"
    store.close()
