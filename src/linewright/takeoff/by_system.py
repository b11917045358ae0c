"""What each system needs of a take-off, before it is cut, rounded up to cylinders and pieces, or given spares.

Tube and couplings are told apart by the cut plan over all systems: a coupling lies in one run, and so in one system.
All else is counted system by system. Nothing is shared out by a rule of thumb.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.engine.records import Evaluation
from linewright.takeoff.parts import count_parts
from linewright.takeoff.records import Cutting, Gap, Kind, Line, Material, TakeOff
from linewright.takeoff.tubes import gather
from linewright.units import Dimension, UnitSystem, same_tube

#: Of these kinds a design needs so much, and not so many.
MEASURED = {
    Kind.TUBE: Dimension.LENGTH,
    Kind.INSULATION: Dimension.LENGTH,
    Kind.REFRIGERANT: Dimension.MASS,
    Kind.NITROGEN: Dimension.VOLUME,
}


class Need(NamedTuple):
    """How much one system needs of one thing, or all of them together where `system` is "".

    line : the thing; amount : a count, or metres, kilograms or cubic metres of free gas; `None` where it is not known
    """

    system: str
    line: Line
    amount: float | None

    @property
    def dimension(self) -> Dimension:
        """What the amount is in."""
        return MEASURED.get(self.line.kind, Dimension.NUMBER)


class Needs(NamedTuple):
    """Needs of every system in the order of the list, those of all of them, and what each system's leave out."""

    by_system: tuple[Need, ...]
    whole: tuple[Need, ...]
    left_out: tuple[tuple[str, Gap], ...]


def needs(evaluation: Evaluation, found: TakeOff, system: UnitSystem = UnitSystem.SI) -> Needs:
    """Tell a take-off of an evaluation apart by system; `found` is that of the same evaluation.

    Those of all are taken from the take-off and are no sums: that they are the same is for a test to say.
    """
    by_system: list[Need] = []
    left_out: list[tuple[str, Gap]] = []
    for result in evaluation.systems:
        alone = evaluation._replace(systems=(result,))
        parts, tubes = count_parts(alone, found.settings, system), gather(alone, found.settings)
        mine = [_of(result.id, line, found) for line in parts.lines]
        mine += _cut(result.id, found)
        if result.charge.rounded_kg is None:
            mine.append(Need(result.id, Line(Kind.REFRIGERANT, name=result.state.ground.book.book.refrigerant), None))
        by_system += sorted(mine, key=lambda need: _ORDER.index(need.line.kind))
        left_out += [(result.id, gap) for gap in (*tubes.gaps, *parts.gaps) if gap.left_out]
    return Needs(tuple(by_system), tuple(_whole(found, by_system)), tuple(left_out))


_ORDER = list(Kind)


def _of(name: str, line: Line, found: TakeOff) -> Need:
    """A line of one system, named as the whole names it: sizes within a tenth of a millimetre are one."""
    known = next((one for one in found.lines if _same(one, line)), line)
    return Need(name, known, _amount(line))


def _amount(line: Line) -> float | None:
    return line.net if line.kind in MEASURED else float(line.counted)


def _same(one: Line, other: Line) -> bool:
    words = one.kind is other.kind and one.name == other.name and one.thickness_m == other.thickness_m
    return words and _same_od(one.od_m, other.od_m) and _same_od(one.to_od_m, other.to_od_m)


def _same_od(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return same_tube(one, other)


def _cut(name: str, found: TakeOff) -> Iterator[Need]:
    """Length of each tube in the runs of a system, and the couplings that the plan has there."""
    couplings: dict[float, int] = {}
    for cutting in found.cuttings:
        mine = [cut.net_m for cut in cutting.cuts if cut.system == name]
        if mine:
            yield Need(name, _tube(cutting.material), sum(mine))
        size = cutting.material.od_m
        couplings[size] = couplings.get(size, 0) + _couplings(cutting, name)
    for od_m, count in sorted(couplings.items()):
        if count:
            yield Need(name, Line(Kind.COUPLING, od_m=od_m), float(count))


def _couplings(cutting: Cutting, name: str) -> int:
    return sum(piece.cut.system == name for piece in cutting.pieces) - sum(cut.system == name for cut in cutting.cuts)


def _tube(material: Material) -> Line:
    return Line(Kind.TUBE, material=material, od_m=material.od_m)


def _whole(found: TakeOff, by_system: list[Need]) -> Iterator[Need]:
    unknown = {need.line.name for need in by_system if need.amount is None}
    made = [Need("", _tube(one.material), sum(cut.net_m for cut in one.cuts)) for one in found.cuttings]
    for line in found.lines:
        if line.kind is not Kind.TUBE:
            amount = None if line.kind is Kind.REFRIGERANT and line.name in unknown else _amount(line)
            made.append(Need("", line, amount))
    listed = {need.line.name for need in made if need.line.kind is Kind.REFRIGERANT}
    made += [Need("", Line(Kind.REFRIGERANT, name=name), None) for name in sorted(unknown - listed)]
    return iter(sorted(made, key=lambda need: _ORDER.index(need.line.kind)))
