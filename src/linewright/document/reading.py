"""A file to its text: what cannot be a document is refused before anything is parsed."""

from __future__ import annotations

import codecs
from itertools import islice
from pathlib import Path
from typing import NoReturn

from linewright.document.source import MOST_BYTES
from linewright.errors import Fault, InputFaultsError, nearest

PATTERNS = ("*.yaml", "*.yml", "*.json")
_MOST_SIBLINGS = 500
_WIDE = {
    codecs.BOM_UTF32_LE: "UTF-32",
    codecs.BOM_UTF32_BE: "UTF-32",
    codecs.BOM_UTF16_LE: "UTF-16",
    codecs.BOM_UTF16_BE: "UTF-16",
}
_TEXT = "a YAML or JSON document saved as UTF-8 text"


def read_text(path: Path) -> str:
    """Read a document as UTF-8 text.

    Raises InputFaultsError when it is missing, a folder, unreadable, too large, binary or not UTF-8.
    """
    data = read_bytes(path)
    wide = next((name for mark, name in _WIDE.items() if data.startswith(mark)), "")
    if wide or _looks_wide(data):
        refuse(str(path), f"the file is saved as {wide or 'UTF-16'}", _TEXT)
    if b"\0" in data:
        line, column = _place(data, data.index(b"\0"))
        refuse(str(path), "the file is binary (it holds NUL bytes)", _TEXT, line=line, column=column, value="00")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line, column = _place(data, error.start)
        byte = f"{data[error.start]:02X}"
        refuse(str(path), f"byte {byte} is not UTF-8 text", _TEXT, line=line, column=column, value=byte)


def refuse(file: str, message: str, expected: str, *, line: int = 0, column: int = 0, value: str = "") -> NoReturn:
    """Raise one fault of a file that no more can be said of."""
    fault = Fault(file=file, line=line, column=column, path="", value=value, message=message, expected=expected)
    raise InputFaultsError((fault,))


def refuse_size(file: str, size: int) -> NoReturn:
    """Raise the fault of a document that is too large."""
    most = f"a document of at most {MOST_BYTES // 1_000_000} MB"
    refuse(file, f"the file holds {size / 1e6:,.1f} MB", most, value=f"{size} bytes")


def read_bytes(path: Path) -> bytes:
    """The bytes of a file, never more than a document may have (a device may be endless)."""
    file = str(path)
    try:
        if path.is_dir():
            refuse(file, "this is a folder, not a file", _inside(path))
        size = path.stat().st_size
        if size > MOST_BYTES:
            refuse_size(file, size)
        with path.open("rb") as opened:
            data = opened.read(MOST_BYTES + 1)
    except FileNotFoundError:
        refuse(file, "there is no such file", _beside(path))
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        refuse(file, f"the file cannot be read: {reason}", "a file that you may read")
    if len(data) > MOST_BYTES:
        refuse_size(file, len(data))
    return data


def _beside(path: Path) -> str:
    near = nearest(path.name, (item.name for item in _documents(path.parent)))
    return f"a file that exists, such as {path.parent / near}" if near else "a file that exists"


def _inside(path: Path) -> str:
    found = _documents(path)
    return f"a file, such as {found[0]}" if found else "a file"


def _documents(folder: Path) -> list[Path]:
    try:
        return sorted(item for pattern in PATTERNS for item in islice(folder.glob(pattern), _MOST_SIBLINGS))
    except OSError:
        return []


def _looks_wide(data: bytes) -> bool:
    """Whether every other byte of the beginning is NUL, as in UTF-16 text of plain letters."""
    start = data[:64]
    return len(start) >= 4 and (not any(start[1::2]) or not any(start[::2])) and any(start)


def _place(data: bytes, at: int) -> tuple[int, int]:
    """Line and column of a byte, counted from 1."""
    before = data[:at].removeprefix(codecs.BOM_UTF8)
    last = before.rpartition(b"\n")[2]
    return before.count(b"\n") + 1, len(last.decode("utf-8", errors="replace")) + 1
