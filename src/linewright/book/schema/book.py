"""A whole book."""

from __future__ import annotations

from linewright.book.schema.boxes import Boxes
from linewright.book.schema.capacity import Capacity
from linewright.book.schema.charge import Charge
from linewright.book.schema.family import Document, IndexUnit, IndoorTables, Kind, Origin, OutdoorTables, Status, Tubes
from linewright.book.schema.fittings import Fittings
from linewright.book.schema.limits import Limit
from linewright.book.schema.rules import LevelReference, Operation, Option, Pressures, PrintedNote, Requirement
from linewright.book.schema.sizing import Sizing
from linewright.model.values import value


@value
class Book:
    """One equipment family's published piping rules and tables."""

    id: str
    title: str
    status: Status
    document: Document
    refrigerant: str
    kind: Kind
    index: IndexUnit
    origin: Origin
    outdoor: OutdoorTables
    indoor: IndoorTables
    tubes: Tubes
    sizing: Sizing
    fittings: Fittings
    limits: tuple[Limit, ...]
    capacity: Capacity
    charge: Charge
    boxes: Boxes | None = None
    options: tuple[Option, ...] = ()
    requirements: tuple[Requirement, ...] = ()
    operation: Operation | None = None
    pressures: Pressures | None = None
    notes: tuple[PrintedNote, ...] = ()
    level_reference: LevelReference | None = None
    note: str = ""
