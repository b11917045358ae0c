"""A file is written whole or not at all."""

import os
import stat
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from linewright.app.output import write_aside


def left_in(folder: Path) -> list[str]:
    return sorted(item.name for item in folder.iterdir())


def test_a_new_file_and_one_that_is_replaced(tmp_path: Path) -> None:
    path = tmp_path / "sheet.svg"
    write_aside(path, "a\nä\n")
    assert path.read_bytes() == b"a\n\xc3\xa4\n"
    write_aside(path, "b")
    assert path.read_bytes() == b"b"
    assert left_in(tmp_path) == ["sheet.svg"]


def test_a_name_without_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_aside(Path("sheet.svg"), "a")
    assert left_in(tmp_path) == ["sheet.svg"]


def test_a_folder_that_does_not_exist(tmp_path: Path) -> None:
    path = tmp_path / "none" / "sheet.svg"
    with pytest.raises(FileNotFoundError) as caught:
        write_aside(path, "a")
    assert caught.value.filename == str(path)
    assert left_in(tmp_path) == []


def test_a_place_where_a_folder_stands(tmp_path: Path) -> None:
    (tmp_path / "sheet.svg").mkdir()
    with pytest.raises(OSError, match=r"sheet\.svg") as caught:
        write_aside(tmp_path / "sheet.svg", "a")
    assert caught.value.filename == str(tmp_path / "sheet.svg")
    assert (tmp_path / "sheet.svg").is_dir()
    assert left_in(tmp_path) == ["sheet.svg"]


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_an_interrupted_write_leaves_what_stood_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    path = tmp_path / "sheet.svg"
    path.write_text("old", encoding="utf-8")

    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(f"os.{step}" if step == "fsync" else f"pathlib.Path.{step}", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write_aside(path, "new")
    monkeypatch.undo()
    assert path.read_text(encoding="utf-8") == "old"
    assert left_in(tmp_path) == ["sheet.svg"]


def test_a_full_disk_leaves_what_stood_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "sheet.svg"
    path.write_text("old", encoding="utf-8")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_aside(path, "new" * 10_000)
    assert path.read_text(encoding="utf-8") == "old"
    assert left_in(tmp_path) == ["sheet.svg"]


def test_a_text_that_cannot_be_encoded_leaves_what_stood_there(tmp_path: Path) -> None:
    path = tmp_path / "sheet.svg"
    path.write_text("old", encoding="utf-8")
    with pytest.raises(UnicodeEncodeError):
        write_aside(path, "\ud800")
    assert left_in(tmp_path) == ["sheet.svg"]
    assert path.read_text(encoding="utf-8") == "old"


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such permissions")
def test_a_file_has_the_permissions_of_any_other(tmp_path: Path) -> None:
    plain, aside = tmp_path / "plain", tmp_path / "aside"
    plain.write_text("", encoding="utf-8")
    write_aside(aside, "")
    assert aside.stat().st_mode == plain.stat().st_mode
    aside.chmod(0o640)
    write_aside(aside, "new")
    assert stat.S_IMODE(aside.stat().st_mode) == 0o640


@pytest.mark.skipif(os.name == "nt", reason="Windows lets few users make links")
def test_a_link_stays_and_its_target_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "store").mkdir()
    target, link = tmp_path / "store" / "sheet.svg", tmp_path / "sheet.svg"
    target.write_text("old", encoding="utf-8")
    link.symlink_to(target)
    write_aside(link, "new")
    assert link.is_symlink()
    assert target.read_text(encoding="utf-8") == "new"
    assert left_in(tmp_path / "store") == ["sheet.svg"]


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such pipes")
def test_a_pipe_is_written_to_and_not_replaced(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with ThreadPoolExecutor(max_workers=1) as reader:
        got = reader.submit(pipe.read_text, encoding="utf-8")
        write_aside(pipe, "through")
        assert got.result(timeout=10) == "through"
    assert pipe.is_fifo()
    assert left_in(tmp_path) == ["pipe"]


def test_a_folder_that_may_not_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whether a folder can be closed depends on who runs the tests; what the system answers does not."""
    path = tmp_path / "sheet.svg"
    path.write_text("old", encoding="utf-8")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(tmp_path))

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(PermissionError):
        write_aside(path, "new")
    monkeypatch.undo()
    assert path.read_text(encoding="utf-8") == "old"
    assert left_in(tmp_path) == ["sheet.svg"]
