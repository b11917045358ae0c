"""The tutorial as a reader follows it: the file grows block by block, commands are run, what is shown is compared."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from tests.docs.pages import Block, blocks, page

DESIGN = "sail-loft.design.yaml"
_COMMAND = re.compile(r"^linewright (?P<arguments>.+?) +# ends with (?P<code>\d)$")
_NAMED = re.compile(r"^ +- \{(?:id: (?P<id>[^,]+)|from: [^,]+, to: (?P<to>[^,]+)),")

Run = Callable[[list[str]], tuple[int, str]]


class Step(NamedTuple):
    """One command of the tutorial: the file as it stands then, and what is shown of the output."""

    arguments: list[str]
    code: int
    design: str
    shown: str


def steps() -> list[Step]:
    found: list[Step] = []
    design, checked = "", False
    for block in blocks(page("tutorial.md")):
        if block.kind == "yaml":
            design = changed(design, block) if checked else "\n".join(part for part in (design, block.text) if part)
        elif block.kind == "sh":
            match = _COMMAND.match(block.text.strip())
            assert match, f"a command that nobody can follow: {block.text}"
            arguments = match["arguments"].split()
            checked = checked or arguments[0] == "check"
            found.append(Step(arguments, int(match["code"]), design, ""))
        elif block.kind == "text":
            found[-1] = found[-1]._replace(shown=block.text)
    return found


def changed(design: str, block: Block) -> str:
    """The file with each line of the block in place of the line of the same unit or run."""
    lines = design.splitlines()
    for line in block.text.splitlines():
        place = [i for i, old in enumerate(lines) if name(old) == name(line) is not None]
        assert len(place) == 1, f"which line does this replace: {line}"
        lines[place[0]] = line
    return "\n".join(lines) + "\n"


def name(line: str) -> str | None:
    """What a line of the file is about; a room and a unit never have the same name here."""
    match = _NAMED.match(line)
    if match is None:
        return None
    return match["id"] or f"run {match['to'].strip()}"


def first_not_shown(shown: str, output: str) -> str | None:
    """The first part that the output does not hold in this order; `…` stands for anything."""
    at = 0
    for part in re.split(r"^…\n", shown, flags=re.MULTILINE):
        pattern = ".*?".join(re.escape(piece) for piece in part.rstrip("\n").split("…"))
        match = re.compile(rf"^{pattern}$" if not part.startswith("…") else rf"{pattern}$", re.MULTILINE).search(
            output, at
        )
        if match is None:
            return part
        at = match.end()
    return None


def write(folder: Path, design: str) -> None:
    (folder / DESIGN).write_text(design, encoding="utf-8", newline="\n")
