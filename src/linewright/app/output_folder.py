"""Writing a folder of files whole or not at all."""

from __future__ import annotations

import json
import secrets
import shutil
from collections.abc import Mapping
from pathlib import Path

from linewright.errors import Fault, InputFaultsError, listed, quoted


def check_folder(folder: Path, contents: str) -> None:
    """Raise InputFaultsError for a place that is no folder, or a folder that holds anything but an earlier set.

    contents : name of the file in a set that lists its files
    """
    if not folder.exists() and not folder.is_symlink():
        return
    if not folder.is_dir():
        _refuse(folder, f"{quoted(folder.name)} is no folder", "a new folder, an empty one, or one of an earlier set")
    found = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if not path.is_dir()}
    others = sorted(found - _set_in(folder, contents))
    if others:
        message = f"the folder holds other files: {listed(others)}"
        _refuse(folder, message, "a new folder, an empty one, or one of an earlier set")


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files beside their place and move them there together; what stood there before gives way.

    Raises OSError, of this folder; what stood there before is then untouched.
    """
    place = folder.resolve()
    aside = place.with_name(f".{secrets.token_hex(8)}.part")
    try:
        for name, data in files.items():
            path = aside / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        _move(aside, place)
    except OSError as error:
        raise OSError(error.errno, error.strerror or str(error), str(folder)) from error
    finally:
        shutil.rmtree(aside, ignore_errors=True)


def _move(aside: Path, place: Path) -> None:
    if not place.exists():
        aside.replace(place)
        return
    old = place.with_name(f".{secrets.token_hex(8)}.old")
    place.replace(old)
    try:
        aside.replace(place)
    except OSError:
        old.replace(place)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _set_in(folder: Path, contents: str) -> set[str]:
    """Files of the set that a folder holds; none where it holds no set."""
    try:
        listing = json.loads((folder / contents).read_text(encoding="utf-8"))
        return {contents, *map(str, listing["files"])}
    except (OSError, ValueError, KeyError, TypeError):
        return set()


def _refuse(folder: Path, message: str, expected: str) -> None:
    raise InputFaultsError(
        (Fault(file=str(folder), line=0, column=0, path="", value="", message=message, expected=expected),)
    )
