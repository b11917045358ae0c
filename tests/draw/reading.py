"""Reads a scene as a person with a ruler would: what stands where, and which sums of lengths should stand there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, TypeVar

from linewright.draw.primitives import Anchor, AnyPrimitive, Line, Scene, Text
from linewright.draw.typeface import text_width
from linewright.model.design import ROOT, System

Kind = TypeVar("Kind", bound=AnyPrimitive)


class Box(NamedTuple):
    """A rectangle on the page [px]."""

    left: float
    top: float
    right: float
    bottom: float


def of_role(scene: Scene, role: str, kind: type[Kind]) -> Iterator[Kind]:
    return (item for item in scene.primitives if item.role == role and isinstance(item, kind))


def by_id(scene: Scene, name: str, kind: type[Kind]) -> Kind:
    found = next(item for item in scene.primitives if item.id == name)
    assert isinstance(found, kind)
    return found


def lines(scene: Scene, role: str) -> dict[str, Line]:
    return {item.id: item for item in of_role(scene, role, Line)}


def texts(scene: Scene) -> list[Text]:
    return [item for item in scene.primitives if isinstance(item, Text)]


def box(text: Text) -> Box:
    """From the height of a capital above the baseline to the depth of a comma below it."""
    width = text_width(text.text, text.size, text.weight)
    left = text.x - {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[text.anchor]
    return Box(left, text.y - 0.73 * text.size, left + width, text.y + 0.2 * text.size)


def meet(one: Box, other: Box, *, slack: float = 0.01) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left) > slack
    return across and min(one.bottom, other.bottom) - max(one.top, other.top) > slack


def known_reaches(system: System) -> dict[str, float]:
    """Sum the runs from the farthest outdoor module [m]; a node behind an unknown run is left out."""
    away = {ROOT: 0.0}
    pipes = list(system.outdoor.pipes)
    while pipes:
        pipe = next(pipe for pipe in pipes if pipe.from_ in away)
        assert pipe.length_m is not None
        away[pipe.to] = away[pipe.from_] + pipe.length_m
        pipes.remove(pipe)
    found = {ROOT: max(away.values())}
    for _ in system.runs:
        for run in system.runs:
            if run.from_ in found and run.length_m is not None:
                found[run.to] = found[run.from_] + run.length_m
    return found
