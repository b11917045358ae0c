"""The pages of the documentation, and the parts of a page that a test can hold to the program."""

import re
from typing import NamedTuple

from tests.house.files import ROOT

DOCS = ROOT / "docs"
_HEADING = re.compile(r"^(#+) +(.+?) *$", re.MULTILINE)
_FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_CELL = re.compile(r"(?<!\\)\|")
_TICKED = re.compile(r"`([^`\n]+)`")


class Block(NamedTuple):
    """A fenced block: what it is said to hold, and its text."""

    kind: str
    text: str


class Row(NamedTuple):
    """A row of a table, cell by cell; `names` are the words in backticks in its first cell."""

    names: tuple[str, ...]
    cells: tuple[str, ...]


def page(name: str) -> str:
    return (DOCS / name).read_text(encoding="utf-8")


def blocks(text: str) -> list[Block]:
    return [Block(*match) for match in _FENCE.findall(text)]


def sections(text: str) -> dict[str, str]:
    """Text under each heading up to the next heading of any depth; ticks are left out of titles."""
    bare = _FENCE.sub(lambda match: "\n" * match[0].count("\n"), text)
    found = list(_HEADING.finditer(bare))
    ends = [*(match.start() for match in found[1:]), len(bare)]
    titles = [match[2].replace("`", "") for match in found]
    assert len(titles) == len(set(titles)), "a title stands twice on one page"
    return {title: bare[match.end() : end] for title, match, end in zip(titles, found, ends, strict=True)}


def rows(text: str) -> list[Row]:
    """Rows of every table of a text, without the headings of columns."""
    lines = [line for line in text.splitlines() if line.startswith("|")]
    rules = {i for i, line in enumerate(lines) if set(line) <= set("|-: ")}
    kept = [line for i, line in enumerate(lines) if i not in rules and i + 1 not in rules]
    found = [tuple(cell.strip() for cell in _CELL.split(line)[1:-1]) for line in kept]
    return [Row(tuple(_TICKED.findall(cells[0])), cells) for cells in found]


def ticked(text: str) -> set[str]:
    return set(_TICKED.findall(text))
