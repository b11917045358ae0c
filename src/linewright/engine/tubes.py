"""Lengths of tube by size, for what is charged by length."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linewright.engine.ground import Ground
from linewright.engine.sizing import Sized
from linewright.model.design import Run
from linewright.model.values import Role
from linewright.units import same_tube


def lengths_by_size(ground: Ground, sized: Sized, role: Role) -> dict[float, float]:
    """Length of each size of one line [m], as built where stated; sizes that are one nominal size together."""
    lengths: dict[float, float] = {}
    for run, size in _tubes(ground, sized, role):
        length = run.length_m if run.as_built_m is None else run.as_built_m
        if length and size is not None:
            lengths[size] = lengths.get(size, 0.0) + length
    return _merged(lengths)


def main_lengths(ground: Ground, sized: Sized, role: Role) -> dict[float, float]:
    """Length of each size of one line of the main [m], likewise."""
    lengths: dict[float, float] = {}
    for i in ground.tree.main:
        run, size = ground.tree.runs[i], sized.by_role[role][i]
        length = run.length_m if run.as_built_m is None else run.as_built_m
        if length and size is not None:
            lengths[size] = lengths.get(size, 0.0) + length
    return _merged(lengths)


def missing_lengths(ground: Ground, sized: Sized, role: Role) -> list[str]:
    """Name the runs of one line whose length or size is unknown; one of no length holds nothing."""
    missing = []
    for run, size in _tubes(ground, sized, role):
        length = run.length_m if run.as_built_m is None else run.as_built_m
        if length is None:
            missing.append(f"length of run {run.to}")
        elif length and size is None:
            missing.append(f"{role} size of run {run.to}")
    return missing


def _merged(lengths: Mapping[float, float]) -> dict[float, float]:
    """Join lengths of sizes that are one nominal size."""
    merged: dict[float, float] = {}
    for size, length in lengths.items():
        listed = next((other for other in merged if same_tube(other, size)), size)
        merged[listed] = merged.get(listed, 0.0) + length
    return merged


def _tubes(ground: Ground, sized: Sized, role: Role) -> Iterator[tuple[Run, float | None]]:
    pairs = list(zip(ground.tree.runs, sized.by_role[role], strict=True))
    if ground.carried:
        pairs = [pair for i, pair in enumerate(pairs) if ground.carries(i, role)]
    if role in ground.pipes.sizes:
        pairs += zip(ground.system.outdoor.pipes, ground.pipes.sizes[role], strict=True)
    return iter(pairs)
