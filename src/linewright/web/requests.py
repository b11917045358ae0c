"""What goes in, declared: requests are read strictly."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

from linewright.document.source import MOST_BYTES

#: So many characters of a table are looked at.
MOST_OF_TABLE = 1_000_000
_Name = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)]
_Note = Annotated[str, StringConstraints(max_length=2000)]
_Key = Annotated[str, StringConstraints(max_length=64)]
_Text = Annotated[str, StringConstraints(max_length=MOST_BYTES)]
_Number = Annotated[int, Field(ge=1, le=2**31 - 1)]
Json = dict[str, Any]


class _Body(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class NewProject(_Body):
    """A project to be made."""

    name: _Name


class NewDocument(_Body):
    """A design or a book to be put in; a design without a text starts empty."""

    name: _Name
    text: _Text = ""
    note: _Note = ""


class View(_Body):
    """Which sheet is wanted with an answer: of which system, the first one that is touched where none is named.

    tree : `linewright/tree/1` in place of the evaluation, for who only walks over what is drawn
    since : the mark `drawn` of the scene that the asker holds: then what differs from it may be answered in its place
    """

    system: str = ""
    axis: Literal["actual", "equivalent"] = "actual"
    units: Literal["si", "ip", ""] = ""
    physics: bool = False
    width_px: Annotated[float, Field(ge=600, le=8000)] = 1600.0
    margin_rows: Annotated[int, Field(ge=0, le=100)] = 0
    tree: bool = False
    since: _Key = ""


class Edits(_Body):
    """Edits made on a revision, as in docs/reference/edits.md; `key` makes sending them twice harmless."""

    base: _Number
    edits: list[Json]
    note: _Note = ""
    key: _Key = ""
    view: View | None = None


class WouldBe(_Body):
    """Edits of a revision that are only looked at."""

    base: _Number
    edits: list[Json]
    view: View | None = None


class TableIn(_Body):
    """A table of a list, made on a revision: cells parted by tabs, commas or semicolons under a row of headings.

    system : whose list it is; nothing for levels and rooms. remove : whether what the table leaves out is taken away
    """

    base: _Number
    text: Annotated[str, StringConstraints(max_length=MOST_OF_TABLE)]
    system: Annotated[str, StringConstraints(max_length=200)] = ""
    remove: bool = False
    note: _Note = ""
    key: _Key = ""
    view: View | None = None


class Undo(_Body):
    """A revision whose edits are to be taken back."""

    revision: _Number
    note: _Note = ""
    key: _Key = ""
    view: View | None = None


class Restore(_Body):
    """A revision that the document is to be again; `base` is the last one that is known."""

    revision: _Number
    base: _Number
    note: _Note = ""
    key: _Key = ""
    view: View | None = None


class WholeText(_Body):
    """A text in place of the whole document; `base` is the last revision that is known."""

    base: _Number
    text: _Text
    note: _Note = ""
    key: _Key = ""
    view: View | None = None


class Fork(_Body):
    """A design of its own, as this one is at a revision."""

    revision: _Number
    name: _Name


class RevisionName(_Body):
    """A name for a revision; an empty one takes it away."""

    name: Annotated[str, StringConstraints(max_length=200)]


class SetOptionsIn(_Body):
    """Options of a hand-over set, as texts of `linewright report`; what is empty is as it is there without the option.

    paper, document_paper : of drawings and of documents; revisions : mark, day and text of each, the last one last
    invented_prices, as_built : whether those are taken; waste, spares : allowances with their unit; units : `si`, `ip`
    """

    paper: _Key = ""
    document_paper: _Key = ""
    revisions: Annotated[list[_Note], Field(max_length=100)] = []
    invented_prices: bool = False
    waste: _Key = ""
    spares: _Key = ""
    as_built: bool = False
    units: _Key = ""


class NewJob(_Body):
    """A long piece of work.

    export : packs the whole project
    history : judges every revision of a design
    hand-over : makes the hand-over set of a design; only this has options
    """

    kind: Literal["export", "history", "hand-over"]
    design: _Number | None = None
    options: SetOptionsIn | None = None
