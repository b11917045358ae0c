"""What is counted by the piece: units, fittings, bends, reducers, items on runs, insulation, refrigerant."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import ceil
from typing import NamedTuple

from linewright.engine.records import Evaluation, FittingResult, SystemResult
from linewright.model.values import NodeKind
from linewright.takeoff.hanging import support_lines
from linewright.takeoff.nitrogen import nitrogen_lines
from linewright.takeoff.records import Gap, Kind, Line
from linewright.takeoff.reducing import reducers
from linewright.takeoff.settings import Settings
from linewright.takeoff.tubes import all_tubes
from linewright.takeoff.wraps import wrap_lines
from linewright.units import UnitSystem, same_tube

_FITTINGS = {NodeKind.JOINT: Kind.JOINT, NodeKind.HEADER: Kind.HEADER, NodeKind.BOX: Kind.BOX}


class Parts(NamedTuple):
    """Lines, and what they leave out."""

    lines: tuple[Line, ...]
    gaps: tuple[Gap, ...]


class _Found:
    """What has been counted so far."""

    def __init__(self) -> None:
        self.models: Counter[tuple[Kind, str]] = Counter()
        self.bends: Counter[float] = Counter()
        self.reducers: Counter[tuple[float, float]] = Counter()
        self.items: Counter[str] = Counter()
        self.refrigerant: dict[str, float] = {}
        self.gaps: dict[Gap, None] = {}

    def gap(self, subject: str, text: str, *, left_out: bool = False) -> None:
        self.gaps[Gap(subject, text, left_out)] = None


def count_parts(evaluation: Evaluation, settings: Settings, system: UnitSystem = UnitSystem.SI) -> Parts:
    """Count everything but tube."""
    found = _Found()
    for result in evaluation.systems:
        _models(result, found)
        _tubes(result, found)
        _reducers(result, found)
        _charge(result, found)
    lines = [
        *_lines(found, settings),
        *support_lines(evaluation, settings, found.gaps),
        *wrap_lines(evaluation, settings, system, found.gaps),
        *nitrogen_lines(evaluation, settings, found.gaps),
    ]
    return Parts(tuple(lines), tuple(found.gaps))


def with_spares(count: int, spares: float) -> int:
    """A count with its spares, rounded up."""
    return ceil(count * (1.0 + spares) - 1e-9)


def _models(result: SystemResult, found: _Found) -> None:
    for module in result.state.ground.modules:
        found.models[Kind.OUTDOOR, module.data.model] += 1
    for unit in result.units:
        found.models[Kind.INDOOR, unit.model] += 1
    for fitting in result.fittings:
        _fitting(result, fitting, found)
    for joint in result.outdoor.joints:
        if joint.model:
            found.models[Kind.OUTDOOR_JOINT, joint.model] += 1
        else:
            found.gap(f"{result.id}/outdoor_joint:{joint.id}", "no model is known: not counted", left_out=True)


def _fitting(result: SystemResult, fitting: FittingResult, found: _Found) -> None:
    kind = _FITTINGS.get(fitting.kind)
    if kind is None:
        return
    if fitting.model:
        found.models[kind, fitting.model] += 1
    else:
        found.gap(f"{result.id}/fitting:{fitting.id}", "no model is known: not counted", left_out=True)
    spare = 0 if fitting.ports is None else fitting.ports - fitting.ports_used
    if spare > 0:
        found.gap(
            f"{result.id}/fitting:{fitting.id}",
            f"{spare} ports stay free; the book does not say whether caps come with it",
        )


def _tubes(result: SystemResult, found: _Found) -> None:
    for tube in all_tubes(result):
        if tube.od_m is not None:
            found.bends[_known(found.bends, tube.od_m)] += tube.bends
    for run in (*result.system.outdoor.pipes, *result.system.runs):
        for item in run.items:
            found.items[item.kind] += item.count


def _known(sizes: Counter[float], od_m: float) -> float:
    return next((size for size in sizes if same_tube(size, od_m)), od_m)


def _reducers(result: SystemResult, found: _Found) -> None:
    places, gaps = reducers(result)
    for one in places:
        found.reducers[one.od_m, one.to_od_m] += 1
    found.gaps |= dict.fromkeys(gaps)


def _charge(result: SystemResult, found: _Found) -> None:
    name, charge = result.state.ground.book.book.refrigerant, result.charge
    if charge.rounded_kg is None:
        lacking = ", ".join(charge.missing)
        found.gap(f"{result.id}/charge", f"the additional charge is not known without {lacking}", left_out=True)
        return
    found.refrigerant[name] = found.refrigerant.get(name, 0.0) + charge.rounded_kg


def _lines(found: _Found, settings: Settings) -> Iterator[Line]:
    order = list(Kind)
    for kind, name in sorted(found.models, key=lambda key: (order.index(key[0]), key[1])):
        count = found.models[kind, name]
        yield Line(kind, name=name, counted=count, count=count)
    for od_m, count in sorted(found.bends.items()):
        if count:
            yield Line(Kind.BEND, od_m=od_m, counted=count, count=with_spares(count, settings.spares))
    for (od_m, to_od_m), count in sorted(found.reducers.items()):
        spare = with_spares(count, settings.spares)
        yield Line(Kind.REDUCER, od_m=od_m, to_od_m=to_od_m, counted=count, count=spare)
    for name, count in sorted(found.items.items()):
        yield Line(Kind.ITEM, name=name, counted=count, count=count)
    for name, kg in sorted(found.refrigerant.items()):
        cylinders = ceil(kg / settings.cylinder_kg - 1e-9)
        yield Line(
            Kind.REFRIGERANT, name=name, mass_kg=settings.cylinder_kg, counted=cylinders, count=cylinders, net=kg
        )
