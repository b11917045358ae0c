"""Writing a file whole or not at all."""

from __future__ import annotations

import os
import secrets
from pathlib import Path
from typing import BinaryIO


def write_aside(path: Path, text: str) -> None:
    """Write a text beside its place and rename it into place, so that nobody ever finds half of it.

    A file that is replaced hands on its permissions, a link stays and its target is replaced, and what is neither
    file nor link (a device, a pipe) is written to as it stands.

    Raises OSError, of this path, when the place cannot be written, UnicodeEncodeError for a text that is not one; what
    stood there before is then untouched.
    """
    write_bytes_aside(path, text.encode())


def write_bytes_aside(path: Path, data: bytes) -> None:
    """Write bytes in the same way; raises OSError."""
    try:
        _write(Path(os.path.realpath(path)), data)
    except OSError as error:
        raise OSError(error.errno, error.strerror or str(error), str(path)) from error


def _write(place: Path, data: bytes) -> None:
    if place.exists() and not place.is_file() and not place.is_dir():
        with place.open("wb") as file:
            file.write(data)
        return
    aside = place.with_name(f".{secrets.token_hex(8)}.part")
    try:
        with aside.open("xb") as file:
            _fill(file, data)
        if place.is_file():
            aside.chmod(place.stat().st_mode)
        aside.replace(place)
    except BaseException:
        aside.unlink(missing_ok=True)
        raise


def _fill(file: BinaryIO, data: bytes) -> None:
    file.write(data)
    file.flush()
    os.fsync(file.fileno())
