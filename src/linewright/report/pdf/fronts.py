"""What every document of a set says of itself in head and foot, and what it cannot print."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.report.pdf.blocks import Block, Document, Say, Tone
from linewright.report.pdf.missing import lacking, lacking_words
from linewright.report.pdf.papers import Paper
from linewright.report.schedules.about import About

FOOT = "Not for construction before a licensed engineer has signed it."


class Front(NamedTuple):
    """What is said of all documents of a set: revision and date as they were given, and on which paper."""

    revision: str = ""
    date: str = ""
    paper: Paper = Paper.A4


def document_of(title: str, about: About, front: Front, blocks: tuple[Block, ...]) -> Document:
    """A document of the set; a warning behind its first block names the characters that it cannot print."""
    said = ", ".join(text for text in (front.revision, front.date) if text)
    words = lacking_words(lacking(_texts((blocks, about.project, about.design, said))))
    warned = (Say(words, Tone.WARNING),) if words else ()
    source = f"{about.design} sha256 {about.sha256[:12]}"
    title = f"{title}, {about.only}" if about.only else title
    return Document(title, about.project, said, source, FOOT, front.paper, (*blocks[:1], *warned, *blocks[1:]))


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _texts(item)
