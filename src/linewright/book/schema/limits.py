"""Limits: plain bounds, bounds from tables, relaxed bounds and what they need."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from linewright.book.measures import MeasureName
from linewright.book.schema.marks import Band, OneOrMany
from linewright.book.schema.uses import Condition, MeasureUse
from linewright.model.values import value
from linewright.units import Amount


class FromGroup(StrEnum):
    """A bound that the outdoor group states."""

    GROUP = "group"


class FromBox(StrEnum):
    """A bound that each mode box states for itself."""

    BOX = "box"


@value
class Need(MeasureUse):
    """One condition of a relaxed bound: a measure within bounds, an action, a declaration or an option."""

    measure: MeasureName | None = None  # type: ignore[assignment]
    max: Amount | None = None
    min: Amount | None = None
    action: str = ""
    declared: str = ""
    option: str = ""


@value
class Relaxed:
    """A wider bound and all that it needs."""

    max: Amount | None = None
    min: Amount | None = None
    needs: tuple[Need, ...]
    page: int | None = None
    note: str = ""


@value
class BoundRow(Band):
    """A band of another measure and the bound that holds in it."""

    bound: Amount


@value
class BoundTable:
    """A bound that depends on another measure."""

    by: MeasureName
    rows: tuple[BoundRow, ...]


@value
class Limit(MeasureUse):
    """A bound on a measure."""

    max: Amount | FromGroup | FromBox | BoundTable | None = None
    min: Amount | FromGroup | BoundTable | None = None
    page: int | None = None
    when: Annotated[tuple[Condition, ...], OneOrMany()] = ()
    relaxed: tuple[Relaxed, ...] = ()
    note: str = ""
