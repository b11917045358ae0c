"""Lengths of tube by size, for what is charged by length."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeVar

from linewright.engine.ground import Ground
from linewright.engine.sizing import Sized
from linewright.model.design import Run
from linewright.model.values import Role
from linewright.units import same_tube

T = TypeVar("T")


def lengths_by_size(ground: Ground, sized: Sized, role: Role) -> dict[float, float]:
    """Length of each size of one line [m], as built where stated; sizes that are one nominal size together."""
    lengths: dict[float, float] = {}
    for length, size in zip(*_tubes(ground, sized, role), strict=True):
        if length and size is not None:
            lengths[size] = lengths.get(size, 0.0) + length
    return _merged(lengths)


def main_lengths(ground: Ground, sized: Sized, role: Role) -> dict[float, float]:
    """Length of each size of one line of the main [m], likewise."""
    lengths: dict[float, float] = {}
    for i in ground.tree.main:
        length, size = ground.built_m[i], sized.by_role[role][i]
        if length and size is not None:
            lengths[size] = lengths.get(size, 0.0) + length
    return _merged(lengths)


def missing_lengths(ground: Ground, sized: Sized, role: Role) -> list[str]:
    """Name the runs of one line whose length or size is unknown; one of no length holds nothing."""
    missing: list[str] = []
    lengths, sizes = _tubes(ground, sized, role)
    if None not in lengths and None not in sizes:
        return missing
    for name, length, size in zip(_names(ground, role), lengths, sizes, strict=True):
        if length is None:
            missing.append(f"length of run {name}")
        elif length and size is None:
            missing.append(f"{role} size of run {name}")
    return missing


def _merged(lengths: Mapping[float, float]) -> dict[float, float]:
    """Join lengths of sizes that are one nominal size."""
    merged: dict[float, float] = {}
    for size, length in lengths.items():
        listed = next((other for other in merged if same_tube(other, size)), size)
        merged[listed] = merged.get(listed, 0.0) + length
    return merged


def _tubes(ground: Ground, sized: Sized, role: Role) -> tuple[Sequence[float | None], Sequence[float | None]]:
    """Lengths and sizes of the runs that carry a line, those of the module pipes last [m]."""
    lengths, sizes = _carrying(ground, role, ground.built_m), _carrying(ground, role, sized.by_role[role])
    if role not in ground.pipes.sizes:
        return lengths, sizes
    return (*lengths, *map(_built_m, ground.system.outdoor.pipes)), (*sizes, *ground.pipes.sizes[role])


def _names(ground: Ground, role: Role) -> list[str]:
    pipes = ground.system.outdoor.pipes if role in ground.pipes.sizes else ()
    return [*_carrying(ground, role, ground.tree.ids), *(pipe.to for pipe in pipes)]


def _carrying(ground: Ground, role: Role, of_runs: Sequence[T]) -> Sequence[T]:
    if not ground.carried:
        return of_runs
    return [item for i, item in enumerate(of_runs) if ground.carries(i, role)]


def _built_m(run: Run) -> float | None:
    return run.length_m if run.as_built_m is None else run.as_built_m
