"""Every relative link in the documentation leads somewhere, and every page can be reached."""

import re
from pathlib import Path

import pytest

from tests.docs.pages import DOCS
from tests.house.files import ROOT

PAGES = sorted([ROOT / "README.md", *DOCS.rglob("*.md")])
LINK = re.compile(r"\]\(([^)\s]+)\)")
FENCE = re.compile(r"^```.*?^```$", re.MULTILINE | re.DOTALL)
HEADING = re.compile(r"^#+ +(.+?) *$", re.MULTILINE)


def bare(path: Path) -> str:
    return FENCE.sub("", path.read_text(encoding="utf-8"))


def anchor(title: str) -> str:
    """The name that the usual renderers give a heading."""
    return re.sub(r"[^\w\- ]", "", title.lower()).replace(" ", "-")


def anchors(path: Path) -> set[str]:
    return {anchor(title) for title in HEADING.findall(bare(path))}


def links(path: Path) -> list[str]:
    return [link for link in LINK.findall(bare(path)) if "://" not in link]


def target(path: Path, link: str) -> tuple[Path, str]:
    name, _, part = link.partition("#")
    return (path.parent / name).resolve() if name else path, part


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_every_link_leads_somewhere(path: Path) -> None:
    dead = []
    for link in links(path):
        file, part = target(path, link)
        if not file.exists() or (part and part not in anchors(file)):
            dead.append(link)
    assert dead == []


def test_every_page_is_named_in_the_index() -> None:
    named = {target(DOCS / "README.md", link)[0] for link in links(DOCS / "README.md")}
    assert {path.resolve() for path in DOCS.rglob("*.md")} - named == {(DOCS / "README.md").resolve()}


def test_the_anchors_are_those_of_the_usual_renderers() -> None:
    # common practice, no source
    assert anchor("linewright/check/1") == "linewrightcheck1"
    assert anchor("Exit codes") == "exit-codes"
