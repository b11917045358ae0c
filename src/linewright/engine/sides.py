"""The gas side and the liquid side of every run: the one place that knows which tube that is."""

from __future__ import annotations

from collections.abc import Mapping

from linewright.engine.frame import Frame
from linewright.engine.zones import Zone
from linewright.model.values import Role

Sizes = tuple[float | None, ...]


def side_sizes(frame: Frame, by_role: Mapping[Role, Sizes], side: Role) -> Sizes:
    """Sizes [m] of one side, gas or liquid, of every run: before a mode box that of the tube that stands for it."""
    outer = frame.book.sides[side]
    if not frame.zones or outer is side:
        return by_role[side]
    return tuple(by_role[side if zone is Zone.INNER else outer][i] for i, zone in enumerate(frame.zones))


def main_role(frame: Frame, role: Role) -> Role:
    """Tube of the main with which a tube is compared: one of its own kind, else the one of its side."""
    return frame.book.sides.get(role, role) if frame.zones else role
