"""Working of what rests on statements: requirements, and the site against operating ranges."""

from __future__ import annotations

from linewright.engine.records import Check, CheckKind
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.units import Dimension


def requirement_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """What the book asks, of how many elements it is still open, and which."""
    found = next((check for check in _checks(at, CheckKind.REQUIREMENT) if check.subject.endswith(f":{name}")), None)
    if found is None:
        return None
    open_ = tuple(Input(f"open at {one}", 1.0, Dimension.NUMBER, f"design:{at.system_path}") for one in found.governs)
    note = f"{found.note} ({found.standing})"
    if found.missing:
        note += f"; unknown without {', '.join(found.missing)}"
    return (
        Step(
            f"open of {name}",
            "count",
            open_,
            Dimension.NUMBER,
            float(len(open_)),
            found.path,
            page=found.page,
            note=note,
        ),
    )


def operation_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """What is left between the site and each end of the range."""
    found = [check for check in _checks(at, CheckKind.OPERATION) if check.subject.endswith(f"/operation.{name}")]
    return tuple(_left(at, check, name) for check in found) or None


def _left(at: Places, check: Check, name: str) -> Step:
    words = f"left to the {check.sense} of {name}"
    if check.value is None or check.bound is None:
        note = f"unknown without {', '.join(check.missing)}"
        return Step(words, "difference", (), check.dimension, None, check.path, page=check.page, note=note)
    site = Input(name, check.value, check.dimension, f"design:site.{name}")
    end = Input(f"{check.sense} of the range", check.bound, check.dimension, at.in_book(f"{check.path}.{check.sense}"))
    inputs = (end, site) if check.sense == "max" else (site, end)
    return Step(words, "difference", inputs, check.dimension, check.margin, check.path, page=check.page)


def _checks(at: Places, kind: CheckKind) -> list[Check]:
    return [check for check in at.result.checks if check.kind is kind]
