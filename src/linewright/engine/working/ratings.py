"""Working of unit ratings, their sum, and the reach that a length factor counts."""

from __future__ import annotations

from linewright.book.capacity import ModeTables, for_group
from linewright.book.measures import MeasureName
from linewright.book.schema import MeasureUse
from linewright.engine.factors import Conditions, cooling_conditions, heating_conditions
from linewright.engine.formulas import product
from linewright.engine.ratings import unit_factors
from linewright.engine.records import ModeFigures
from linewright.engine.working.along import way_step
from linewright.engine.working.factors import factor_step
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.units import Dimension


def rating_steps(at: Places, unit: str, part: str) -> tuple[Step, ...] | None:
    """Rated capacity of a unit (`cooling`, `sensible` or `heating`) corrected for its own air."""
    mode = "heating" if part == "heating" else "cooling"
    conditions, tables = conditions_of(at, mode), tables_of(at, mode)
    if conditions is None or tables is None:
        return None
    record, ground = at.units[unit], at.result.state.ground
    model = ground.book.models[record.model]
    rated_w = {"cooling": model.cooling_w, "sensible": model.sensible_w, "heating": model.heating_w}[part]
    name, path = f"rated {part} of {record.model}", f"{at.model_path(record.model)}.{part}"
    if part == "heating" and any(ground.system.units[i].id == unit for i in ground.direct):
        boxes = ground.book.book.boxes
        direct_allowed = boxes is not None and boxes.direct is not None
        rated_w, name = 0.0, f"{name}, which without a mode box only cools"
        path = at.in_book("boxes.direct" if direct_allowed else "boxes")
    rated = Input(name, rated_w, Dimension.POWER, path)
    factors = unit_factors(tables, conditions, record.kind)
    factor = factors.sensible if part == "sensible" else factors.total
    name, figures = f"{part} rating of {unit}", figures_of(at, unit, part)
    if factor is None:
        return (Step(name, "stated", (rated,), Dimension.POWER, figures.rating_w),)
    if factor.value is None:
        return (Step(name, "product", (rated,), Dimension.POWER, None, note=factor.missing),)
    corrected = Input(factor.name, factor.value, Dimension.RATIO, at.subject(f"unit:{unit}.{part}_rating"))
    return (
        factor_step(at, factor),
        Step(name, "product", (rated, corrected), Dimension.POWER, product(rated_w, factor.value)),
    )


def ratings_steps(at: Places, mode: str) -> tuple[Step, ...] | None:
    """Sum of the corrected ratings of all units."""
    capacity = at.result.heating if mode == "heating" else at.result.cooling
    if capacity is None:
        return None
    inputs = tuple(
        Input(
            f"rating of {unit.id}",
            figures_of(at, unit.id, mode).rating_w or 0.0,
            Dimension.POWER,
            at.subject(f"unit:{unit.id}.{mode}_rating"),
        )
        for unit in at.result.system.units
    )
    return (Step(f"sum of ratings, {mode}", "total", inputs, Dimension.POWER, capacity.ratings_w),)


def reach_steps(at: Places, unit: str, mode: str) -> tuple[Step, ...] | None:
    """Equivalent reach as the length factor counts it: the main by its factor where it is upsized."""
    tables = tables_of(at, mode)
    length = None if tables is None else for_group(tables.length, at.result.group)
    if length is None:
        return None
    use = MeasureUse(measure=MeasureName.FARTHEST_EQUIVALENT, upsized_main=length.declared.upsized_main)
    series = at.measured(use)
    return (way_step(at, use, unit, series.values[unit]),)


def figures_of(at: Places, unit: str, part: str) -> ModeFigures:
    """Figures of a unit in cooling, sensible cooling or heating."""
    record = at.units[unit]
    return {"cooling": record.cooling, "sensible": record.sensible, "heating": record.heating}[part]


def conditions_of(at: Places, mode: str) -> Conditions | None:
    """Conditions of the site in a mode."""
    site = at.evaluation.design.site
    if mode == "heating":
        return None if site.heating is None else heating_conditions(site.heating)
    return None if site.cooling is None else cooling_conditions(site.cooling)


def tables_of(at: Places, mode: str) -> ModeTables | None:
    """Capacity tables of the book in a mode."""
    book = at.result.state.ground.book
    return book.heating if mode == "heating" else book.cooling
