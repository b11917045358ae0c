"""What a document on paper is made of. Texts are as they are printed; how they look is the template's business."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple, TypeAlias

from linewright.report.pdf.papers import Paper


class Layout(StrEnum):
    """How the pages that follow lie and are set."""

    UPRIGHT = "upright"
    ACROSS = "across"
    COLUMNS = "columns"


class Tone(StrEnum):
    """How a text speaks."""

    PLAIN = "plain"
    STRONG = "strong"
    WARNING = "warning"
    NOTE = "note"


class Heading(NamedTuple):
    """A heading; `listed` ones stand in the contents."""

    text: str
    level: int = 1
    listed: bool = True


class Say(NamedTuple):
    """A paragraph."""

    text: str
    tone: Tone = Tone.PLAIN


class Facts(NamedTuple):
    """Names and what is said to each."""

    rows: tuple[tuple[str, str], ...]


class GridColumn(NamedTuple):
    """A column of a table: its heading, whether figures stand to the right, the least width [mm] that it needs."""

    heading: str
    right: bool = False
    least_mm: float = 0.0


class Grid(NamedTuple):
    """A table; its heading repeats on every page, `warned` rows are set strong. An empty text leaves room to write."""

    columns: tuple[GridColumn, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()
    warned: frozenset[int] = frozenset()
    row_mm: float = 0.0


class Picture(NamedTuple):
    """A drawing on a page of its own [mm]: its title in the contents, what is said below it."""

    title: str
    svg: str
    width_mm: float
    height_mm: float
    page: tuple[float, float]
    caption: str


class Drawn(NamedTuple):
    """A drawing with a border and title of its own, in true size: its page is the drawing [mm]."""

    svg: str
    page: tuple[float, float]


class Turn(NamedTuple):
    """A new page, and how it lies."""

    layout: Layout


class Blanks(NamedTuple):
    """Lines to write on, each with what is to be written."""

    labels: tuple[str, ...]
    columns: int = 2


class StepText(NamedTuple):
    """One step of a working: its result, how it is found, what it is found from."""

    result: str
    rule: str
    inputs: tuple[tuple[str, str, str], ...]
    note: str


class Steps(NamedTuple):
    """The working of one subject."""

    title: str
    steps: tuple[StepText, ...]


class Contents(NamedTuple):
    """The list of headings with their pages."""


Block: TypeAlias = Heading | Say | Facts | Grid | Picture | Drawn | Turn | Blanks | Steps | Contents


class Document(NamedTuple):
    """A whole document: what stands in head and foot of every page, the paper, the blocks."""

    title: str
    project: str
    revision: str
    source: str
    foot: str
    paper: Paper
    blocks: tuple[Block, ...]
