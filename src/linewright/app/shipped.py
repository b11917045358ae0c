"""Where the demonstration books and examples are: in the package when installed, else at the root of the checkout."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent


def shipped(folder: str) -> Path:
    """Give the folder of shipped `books` or `examples`."""
    inside = PACKAGE / "shipped" / folder
    return inside if inside.is_dir() else PACKAGE.parent.parent / folder
