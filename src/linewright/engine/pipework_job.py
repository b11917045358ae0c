"""What everything about the pipework of one system is worked out from."""

from __future__ import annotations

from typing import NamedTuple

from linewright.engine.formulas_pipework import DEFAULTS
from linewright.engine.ground import Ground
from linewright.engine.records import Check, CheckKind, Sense, Standing
from linewright.model.design import Design
from linewright.model.pipework import Pipework
from linewright.model.values import key_of
from linewright.standards.pipework.data import defaults
from linewright.standards.pipework.terms import Given, Terms
from linewright.units import Dimension


class Job(NamedTuple):
    """One system and what the design states of its pipework."""

    design: Design
    ground: Ground
    stated: Pipework

    def check(self, subject: str, measure: str, dimension: Dimension) -> Check:
        """Give a check that is not judged yet."""
        name = f"{self.ground.system.id}/{subject}"
        return Check(name, CheckKind.PIPEWORK, measure, dimension, Sense.MAX, Standing.UNJUDGED)

    def given(self, terms: Terms, field: str, dimension: Dimension, *, default: str = "") -> Given:
        """Give what the design states under a field of its pipework, else the default of that name."""
        key = key_of(field)
        name, found = key.replace("_", " "), getattr(self.stated, field)
        if found is not None:
            return Given(name, found, dimension, f"design:pipework.{key}")
        return by_default(terms, name, default or key, dimension)


def by_default(terms: Terms, name: str, key: str, dimension: Dimension) -> Given:
    """Give what stands in for a value that the design leaves out."""
    return terms.add(name, DEFAULTS[key], dimension=dimension)


def is_sure(key: str) -> bool:
    """Whether a default rests on more than memory."""
    return defaults()[key].confidence.is_sure


def size_text(od_m: float) -> str:
    """Name of a size of tube in a subject: millimetres."""
    return f"{od_m * 1000:.6g}"
