"""Supports by size of tube, as pipework counts them; without pipework in the design none are counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import ceil

from linewright.engine.records import Evaluation
from linewright.takeoff.records import Gap, Kind, Line
from linewright.takeoff.settings import Settings
from linewright.units import same_tube


def support_lines(evaluation: Evaluation, settings: Settings, gaps: dict[Gap, None]) -> Iterator[Line]:
    """Count supports; a tube whose supports are not known is added to the gaps."""
    counts = Counter[float]()
    for result in evaluation.systems:
        if result.pipework is None:
            gaps[Gap("supports", "the design does not state how pipework is judged: none are counted")] = None
            continue
        for move in result.pipework.moves:
            if move.od_m is None or move.supports is None:
                lacking = ", ".join(move.missing)
                gaps[Gap(move.subject, f"no supports are counted without {lacking}", left_out=True)] = None
                continue
            size = next((od_m for od_m in counts if same_tube(od_m, move.od_m)), move.od_m)
            counts[size] += move.supports
            if move.doubts:
                said = f"spacing of supports by {', '.join(move.doubts)} is from memory: to confirm"
                gaps[Gap(f"{result.id}/supports", said)] = None
    for od_m, count in sorted(counts.items()):
        if count:
            yield Line(Kind.SUPPORT, od_m=od_m, counted=count, count=ceil(count * (1.0 + settings.spares) - 1e-9))
