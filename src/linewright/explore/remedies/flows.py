"""What flows, as checks beside those of the book: liquid that stays liquid to the valve, oil that comes home.

From first principles and advisory; the bounds are a judgement, no source (`engine.hydraulics_records`).
"""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.hydraulics_records import WARN
from linewright.engine.records import Check, CheckKind, Sense, Standing, SystemResult
from linewright.units import Dimension

LIQUID, OIL = "subcooling_left", "oil_margin"


def flow_checks(result: SystemResult) -> Iterator[Check]:
    """Give what flows in a system as checks; one that is unjudged where something that is needed is not known."""
    found = result.hydraulics
    if found.missing or not found.units:
        subject = f"{result.id}/physics"
        yield _check(subject, LIQUID, Dimension.TEMPERATURE_DIFFERENCE, missing=found.missing)
        return
    for unit in found.units:
        left_k, subject = unit.subcooling_left_k, f"{result.id}/run:{unit.id}.subcooling"
        yield _check(subject, LIQUID, Dimension.TEMPERATURE_DIFFERENCE, left_k, 0.0, governs=(unit.id,))
    for run in found.runs:
        for mode, margin in (("cooling", run.cooling_oil), ("heating", run.heating_oil)):
            if margin is not None:
                subject = f"{result.id}/run:{run.id}.{mode}_oil"
                yield _check(subject, OIL, Dimension.NUMBER, margin, WARN, governs=(run.id,))


def _check(  # noqa: PLR0917 - figures of one check
    subject: str,
    measure: str,
    dimension: Dimension,
    value: float | None = None,
    bound: float | None = None,
    *,
    governs: tuple[str, ...] = (),
    missing: tuple[str, ...] = (),
) -> Check:
    margin = None if value is None or bound is None else value - bound
    standing = Standing.UNJUDGED if margin is None else Standing.WITHIN if margin >= 0 else Standing.OVER
    return Check(
        subject=subject,
        kind=CheckKind.FLOW,
        measure=measure,
        dimension=dimension,
        sense=Sense.MIN,
        standing=standing,
        value=value,
        bound=bound,
        margin=margin,
        governs=governs,
        missing=missing,
    )
