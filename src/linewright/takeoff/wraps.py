"""Insulation by size and thickness: as pipework has chosen it where the design states how, else as the book says."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import NamedTuple

from linewright.engine.pipework_records import InsulationResult
from linewright.engine.records import Evaluation, Standing, SystemResult
from linewright.takeoff.records import Gap, Kind, Line
from linewright.takeoff.settings import Settings
from linewright.takeoff.tubes import Laid, all_tubes, at_size
from linewright.units import UnitSystem, same_tube, tube_name

_BOOK = "the book states no thickness for it: choose it before buying"


class Wrap(NamedTuple):
    """Insulation of one tube [m]: none where it is not known, nought where nothing asks for any; what is said of it."""

    thickness_m: float | None
    subject: str
    note: str


def wrap_of(result: SystemResult, tube: Laid, system: UnitSystem) -> Wrap:
    """Choose the insulation of a tube whose size is known."""
    od_m = tube.od_m or 0.0
    if result.pipework is None:
        pressures = result.state.ground.book.book.pressures
        thick = None if pressures is None else at_size(pressures.insulation_m, od_m)
        return Wrap(thick, f"insulation for {tube_name(od_m, system)}", "" if thick is not None else _BOOK)
    item = chosen(result, tube)
    if item is None:
        return Wrap(None, f"insulation for {tube_name(od_m, system)}", "not worked out for it: choose it before buying")
    return Wrap(item.order_m, item.check.subject, _said(item))


def chosen(result: SystemResult, tube: Laid) -> InsulationResult | None:
    """Give what pipework worked out for a tube of a run."""
    found = () if result.pipework is None else result.pipework.insulation
    return next(
        (
            item
            for item in found
            if item.role is tube.role and same_tube(item.od_m, tube.od_m or 0.0) and tube.run in item.runs
        ),
        None,
    )


def _said(item: InsulationResult) -> str:
    if item.order_m is None and item.check.missing:
        return f"no thickness without {', '.join(item.check.missing)}: choose it before buying"
    if item.order_m is None:
        return "none that is stocked is thick enough: choose it before buying"
    if item.order_m == 0.0:
        return "nothing asks for insulation of it: none is counted"
    return f"thickness to confirm: {item.check.note}" if item.check.standing is not Standing.WITHIN else ""


def wrap_lines(evaluation: Evaluation, settings: Settings, system: UnitSystem, gaps: dict[Gap, None]) -> Iterator[Line]:
    """Count insulation in pieces that are sold; what is not known is added to the gaps."""
    metres: dict[tuple[float, float | None], float] = {}
    for result in evaluation.systems:
        for tube in all_tubes(result, as_built=settings.as_built):
            if tube.od_m is None or tube.length_m is None:
                continue
            wrap = wrap_of(result, tube, system)
            if wrap.note:
                gaps[Gap(wrap.subject, wrap.note)] = None
            if wrap.thickness_m == 0.0:
                continue
            key = _key(metres, tube.od_m, wrap.thickness_m)
            metres[key] = metres.get(key, 0.0) + tube.length_m
    for (od_m, thick), net in sorted(metres.items(), key=lambda item: (item[0][0], item[0][1] or 0.0)):
        pieces = ceil(net * (1.0 + settings.waste) / settings.insulation_m - 1e-9)
        yield Line(
            Kind.INSULATION,
            od_m=od_m,
            thickness_m=thick,
            length_m=settings.insulation_m,
            counted=pieces,
            count=pieces,
            net=net,
        )


def _key(
    metres: dict[tuple[float, float | None], float], od_m: float, thick: float | None
) -> tuple[float, float | None]:
    return next((key for key in metres if same_tube(key[0], od_m) and key[1] == thick), (od_m, thick))
