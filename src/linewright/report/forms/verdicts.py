"""A judged record as a value."""

from __future__ import annotations

from typing import NamedTuple

from linewright.engine.site_verdicts import Found
from linewright.report.forms.blanks import Form
from linewright.units import Dimension


class Figure(NamedTuple):
    """A figure of a record, in SI; `None` where it is not known."""

    name: str
    value: float | None
    dimension: Dimension


class Judged(NamedTuple):
    """One record of one system: the verdict, and the figures that it rests on."""

    system: str
    form: Form
    item: str
    found: Found
    figures: tuple[Figure, ...] = ()
