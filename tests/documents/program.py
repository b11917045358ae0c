"""The command line, run in this process on files of a test's own."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from click.testing import CliRunner

from linewright.cli.main import cli


class Done(NamedTuple):
    """How a command ended."""

    code: int
    output: str
    error: str


def linewright(*arguments: str | Path) -> Done:
    """Run a command; anything but a plain exit is raised."""
    result = CliRunner().invoke(cli, [str(argument) for argument in arguments])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return Done(result.exit_code, result.stdout, result.stderr)


def checked(folder: Path, design: str, book: str, *options: str) -> Done:
    """Check a design with its book beside it."""
    path = folder / "boat.design.yaml"
    path.write_text(design, encoding="utf-8", newline="\n")
    (folder / "minimal.book.yaml").write_text(book, encoding="utf-8", newline="\n")
    return linewright("check", path, *options)
