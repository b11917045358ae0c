"""What comes out, declared: answers are described by it."""

from __future__ import annotations

from typing import Any, Literal

import orjson
from pydantic import BaseModel

from linewright.document.lists import ListTable
from linewright.store import Document, Job, Project, Revision, RevisionLine

Json = dict[str, Any]


class ProjectOut(BaseModel):
    """A project."""

    id: int
    name: str
    made_at: str

    @classmethod
    def of(cls, project: Project) -> ProjectOut:
        """Make it of a row."""
        return cls(**project._asdict())


class DocumentOut(BaseModel):
    """A design or a book; `head` is its last revision, `file` the file that it is kept in step with, or ""."""

    id: int
    project: int
    kind: str
    name: str
    head: int
    made_at: str
    file: str

    @classmethod
    def of(cls, one: Document) -> DocumentOut:
        """Make it of a row."""
        return cls(
            id=one.id,
            project=one.project_id,
            kind=one.kind,
            name=one.name,
            head=one.head,
            made_at=one.made_at,
            file=one.file,
        )


class ProjectWhole(ProjectOut):
    """A project with what is in it."""

    designs: list[DocumentOut]
    books: list[DocumentOut]


class BookLine(BaseModel):
    """A book that the project can use; `document` is none for a shipped one."""

    id: str
    title: str
    refrigerant: str
    status: str
    sha256: str
    document: int | None


class GroupLine(BaseModel):
    """An outdoor group of a book: its modules, in the order of the book, its rated capacities and index as text."""

    id: str
    modules: list[str]
    cooling: str
    heating: str
    index: str


class ModelLine(BaseModel):
    """An indoor model of a book, with its rated capacities and index as text."""

    model: str
    kind: str
    cooling: str
    heating: str
    index: str


class BookModels(BaseModel):
    """What a book offers to build with."""

    id: str
    groups: list[GroupLine]
    units: list[ModelLine]


class RevisionOut(BaseModel):
    """One revision: `base` is the one that its edits were made on; `edits` is empty where the whole was put in."""

    number: int
    base: int
    made_at: str
    note: str
    name: str
    sha256: str
    edits: list[Json]

    @classmethod
    def of(cls, one: RevisionLine | Revision) -> RevisionOut:
        """Make it of a row."""
        edits = orjson.loads(one.edits) if one.edits else []
        name = one.name if isinstance(one, RevisionLine) else ""
        return cls(
            number=one.number,
            base=one.base,
            made_at=one.made_at,
            note=one.note,
            name=name,
            sha256=one.sha256,
            edits=edits,
        )


class HistoryOut(BaseModel):
    """Revisions, last first; `more` says whether there are older ones."""

    revisions: list[RevisionOut]
    more: bool


class ChangedOut(BaseModel):
    """A change that was made.

    rebased : whether others had changed the document meanwhile; again : whether the same request had made it before
    inverse : edits that undo it
    evaluation, tree, scene : of a design, as `linewright/check/1` or, where the view wants it, `linewright/tree/1`, and
        `linewright/scene/1`; no scene without a system
    scene_changes : in place of the scene, `linewright/scene-changes/1`, where the view tells which one is held
    """

    revision: RevisionOut
    rebased: bool
    again: bool
    inverse: list[Json]
    evaluation: Json | None
    tree: Json | None
    scene: Json | None
    scene_changes: Json | None


class PreviewOut(BaseModel):
    """What edits of the revision `base` would come to; nothing is kept of it.

    elements : what the edits change, by name, such as `main/run:J2`
    systems : how each system would stand
    evaluation, tree, scene, scene_changes : as in a change that was made
    """

    base: int
    elements: list[str]
    systems: list[SystemLine]
    evaluation: Json | None
    tree: Json | None
    scene: Json | None
    scene_changes: Json | None


class EffectOut(BaseModel):
    """What a remedy does to one check: how it is known, and before and after as texts, with the standing of each."""

    subject: str
    label: str
    before: str
    after: str
    standing_before: str
    standing_after: str


class RemedyOut(BaseModel):
    """A remedy: what is done in words and as edits, what has to be done outside the file, and what comes of it.

    cured : what it was looked for, and whatever else fails no longer
    traded : margins that are smaller and still kept; worse : checks that stand worse than before
    """

    words: list[str]
    duties: list[str]
    cost: str
    cured: list[EffectOut]
    traded: list[EffectOut]
    worse: list[EffectOut]
    edits: list[Json]


class RemediesOut(BaseModel):
    """What a search came to: remedies in their order, then those that make something worse and say what.

    targets : what was to be cured; tried : moves by kind; locks : what forbade something
    least : the nearest that was reached, with what is still wrong in it; stopped : whether somebody stopped the search
    """

    targets: list[str]
    remedies: list[RemedyOut]
    trades: list[RemedyOut]
    tried: dict[str, int]
    locks: list[str]
    least: RemedyOut | None
    stopped: bool


class RemedyLine(BaseModel):
    """A line of a search: evaluations made of those it may make, the newest remedy, at the end all of them."""

    evaluations: int
    budget: int
    newest: RemedyOut | None
    found: RemediesOut | None


class RoomToGrow(BaseModel):
    """How far one thing may grow before something gives.

    claimed : whether anything can be said: the system holds, and all of it is judged
    says : lines for people
    """

    subject: str
    standing: str
    claimed: bool
    says: list[str]


class DifferenceOut(BaseModel):
    """One field that differs, as it would stand in a file."""

    element: str
    field: str
    before: str
    after: str


class ComparedOut(BaseModel):
    """What differs between two revisions."""

    before: int
    after: int
    differences: list[DifferenceOut]


class ColumnOut(BaseModel):
    """A column of a table: `heading` says key and unit, and is read back as they; `choices` is empty where all goes."""

    key: str
    heading: str
    unit: str
    holds: Literal["name", "number", "text", "choice"]
    choices: list[str]


class RowOut(BaseModel):
    """A row of a table: the name of the item, and a cell for each column."""

    id: str
    cells: list[str]


class TableOut(BaseModel):
    """A list of a design as a table; `key` is the column that names the items."""

    kind: str
    system: str
    key: Literal["id", "to"]
    columns: list[ColumnOut]
    rows: list[RowOut]

    @classmethod
    def of(cls, table: ListTable) -> TableOut:
        """Make it of a list."""
        columns = [
            ColumnOut(key=one.key, heading=one.heading, unit=one.unit, holds=one.holds.value, choices=list(one.choices))
            for one in table.columns
        ]
        rows = [RowOut(id=row.id, cells=list(row.cells)) for row in table.rows]
        return cls(
            kind=table.kind.value,
            system=table.system,
            key="to" if table.key == "to" else "id",
            columns=columns,
            rows=rows,
        )


class MarginOut(BaseModel):
    """What a check leaves: `label` and `text` as the sheet has them; numbers in `unit`, the SI unit."""

    measure: str
    label: str
    text: str
    standing: str
    value: float | None
    bound: float | None
    margin: float | None
    unit: str


class SystemLine(BaseModel):
    """One system as an overview shows it: how it stands, how many checks stand how, its charge, its least margins."""

    id: str
    name: str
    book: str
    standing: str
    units: int
    refrigerant: str
    counts: dict[str, int]
    charge_kg: float | None
    charge: str
    least_margins: list[MarginOut]


class TextOut(BaseModel):
    """A document as a file."""

    name: str
    revision: int
    text: str


class WorkingText(BaseModel):
    """The working of a number for people, line by line."""

    subject: str
    text: str


class SubjectsOut(BaseModel):
    """What can be asked for."""

    subjects: list[str]


class JobOut(BaseModel):
    """A long piece of work: how far it is, and how it ended."""

    id: int
    project: int
    kind: str
    state: str
    done: int
    of: int
    message: str
    made_at: str

    @classmethod
    def of_row(cls, one: Job) -> JobOut:
        """Make it of a row."""
        return cls(
            id=one.id,
            project=one.project_id,
            kind=one.kind,
            state=one.state,
            done=one.done,
            of=one.of,
            message=one.message,
            made_at=one.made_at,
        )


class About(BaseModel):
    """The program."""

    version: str
    tables: str


class ProblemOut(BaseModel):
    """What went wrong; with `faults` as `linewright/faults/1`, or `head` and `conflicts` with both versions."""

    type: str
    title: str
    status: int
    detail: str
    expected: str | None = None
    faults: list[Json] | None = None
    head: int | None = None
    conflicts: list[Json] | None = None
    nearest: list[str] | None = None
