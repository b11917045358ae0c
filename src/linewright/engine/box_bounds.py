"""Bounds that every mode box states for itself: each item of a series judged by the box that it belongs to."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from linewright.book.measures import MeasureName
from linewright.engine.boxes import Box, index_bound, units_bound
from linewright.engine.ground import Ground


class BoxBounds(NamedTuple):
    """Bounds by item; the items whose box is not known, so that nobody can say."""

    by_item: Mapping[str, float]
    unknown: tuple[str, ...]


def box_bounds(ground: Ground, measure: MeasureName) -> BoxBounds:
    """Bounds of the items of a measure of boxes or ports; an item for which its box states none is left out."""
    found: dict[str, float] = {}
    lacking: list[str] = []
    for box in ground.boxes:
        if box.model is None:
            lacking.append(f"model of {box.id}")
        else:
            found |= _of_box(ground, box, measure)
    return BoxBounds(found, tuple(sorted(lacking)))


def _of_box(ground: Ground, box: Box, measure: MeasureName) -> dict[str, float]:
    model, ids = box.model, ground.tree.ids
    if model is None:
        return {}
    stated: dict[str, float | None]
    if measure is MeasureName.BOX_INDEX:
        stated = {box.id: model.index}
    elif measure is MeasureName.THROUGH_INDEX:
        stated = {box.id: model.series_index}
    elif measure is MeasureName.PORT_INDEX:
        stated = {ids[outlet.run]: index_bound(model, outlet) for outlet in box.outlets}
    else:
        stated = {ids[outlet.run]: units_bound(model, outlet) for outlet in box.outlets}
    return {name: float(bound) for name, bound in stated.items() if bound is not None}
