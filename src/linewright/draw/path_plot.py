"""A plot along the pipe to one unit: pressure of liquid and of gas in cooling, subcooling left. Distances are true."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import floor, log10

from linewright.draw.path_panels import (
    GAP,
    LEFT,
    PANEL,
    RIGHT,
    TOP,
    WIDTH,
    Along,
    panel_of,
    printed,
    round_step,
    text_line,
)
from linewright.draw.primitives import Anchor, AnyPrimitive, AxisScale, Group, Line, Rect, Scene, Weight
from linewright.draw.style import BODY, SMALL, TINY, TITLE
from linewright.draw.typeface import fit, text_width, wrap
from linewright.engine.hydraulics_records import ADVISORY, Hydraulics, Shares
from linewright.engine.records import SystemResult
from linewright.model.tree import Tree
from linewright.units import Dimension, UnitSystem, show, unit_label

_ROUND = 1e-9
#: Room for the name of a run's end [px].
_NAME = 150.0


def path_scene(result: SystemResult, found: Hydraulics, unit: str, *, project: str, system: UnitSystem) -> Scene:
    """Draw what happens on the way to a unit.

    found : what flows in the system; ValueError where nothing was worked out, or the system has no such unit
    """
    if found.shares is None:
        raise ValueError(f"not worked out, for want of {'; '.join(found.missing)}")
    if unit not in {one.id for one in result.units}:
        raise ValueError(f"no unit '{unit}'")
    path = result.tree.path_to(result.tree.at[unit])
    reach = _reach(result, path)
    curves = _curves(found, found.shares, path)
    axis = AxisScale(
        name="equivalent",
        origin_px=LEFT,
        px_per_m=(WIDTH - LEFT - RIGHT) / max(reach[-1], 1e-3),
        from_m=0.0,
        to_m=reach[-1],
    )
    names = ("outdoor", *(result.tree.ids[i] for i in path))
    body: list[AnyPrimitive] = []
    y = TOP
    for curve in curves:
        body += panel_of(curve, reach, axis, top=y, system=system, names=names)
        y += PANEL + GAP
    body += _marks(result.tree, path, reach, axis, bottom=y - GAP)
    body += _distances(reach, axis, y=y - GAP + 40.0, system=system)
    words, y = _foot(found, y + 24.0, system)
    title = f"{project}, system {result.id}: the way to {unit}"
    head = text_line("title", "project", "text", title, x=LEFT, y=34.0, size=TITLE, weight=Weight.SEMIBOLD)
    under = text_line("subtitle", "system", "quiet", ADVISORY, x=LEFT, y=56.0, size=BODY)
    paper = Rect(id="paper", role="paper", css="paper", group="plot", x=0, y=0, width=WIDTH, height=y)
    return Scene(
        title=title,
        description=f"{ADVISORY} {'; '.join(_ends(curve, system) for curve in curves)}.",
        width=WIDTH,
        height=y,
        units=system.value,
        axis=axis,
        groups=(Group(id="plot", label=title, aria="group"),),
        primitives=(paper, head, under, *body, *words),
    )


def _reach(result: SystemResult, path: Sequence[int]) -> tuple[float, ...]:
    """Equivalent length from the root to each end on the path [m]."""
    lengths = {run.id: run.equivalent_m or 0.0 for run in result.runs}
    found = [0.0]
    for i in path:
        found.append(found[-1] + lengths[result.tree.ids[i]])
    return tuple(found)


def _curves(found: Hydraulics, shares: Shares, path: Sequence[int]) -> tuple[Along, ...]:
    runs = [found.runs[i] for i in path]
    leaving_k = found.conditions.cooling.subcooling_k
    pressure, kelvin = Dimension.PRESSURE, Dimension.TEMPERATURE_DIFFERENCE
    return (
        Along("liquid", "liquid, absolute", pressure, (shares.liquid_pa, *(run.liquid_at_pa for run in runs))),
        Along(
            "subcooling",
            "subcooling left in the liquid",
            kelvin,
            (leaving_k, *(r.subcooling_at_k for r in runs)),
            zero=True,
        ),
        Along("gas", "gas, absolute", pressure, (shares.suction_pa, *(run.gas_at_pa for run in runs))),
    )


def _ends(curve: Along, system: UnitSystem) -> str:
    first, last = (show(curve.values[i], curve.dimension, system) for i in (0, -1))
    return f"{curve.words}: {first} at the outdoor group, {last} at the unit"


def _marks(
    tree: Tree, path: Sequence[int], reach: Sequence[float], axis: AxisScale, *, bottom: float
) -> Iterator[AnyPrimitive]:
    """A line at the far end of each run, and its name where there is room; the unit's own always."""
    last_x = axis.x(reach[-1])
    taken = axis.x(0.0) + text_width("outdoor", SMALL) / 2
    yield text_line(
        "node:outdoor", "tag", "text", "outdoor", x=axis.x(0.0), y=bottom + 16.0, size=SMALL, anchor=Anchor.MIDDLE
    )
    room_of_last = text_width(fit(tree.ids[path[-1]], _NAME, SMALL), SMALL) / 2 + 6.0
    for at, i in zip(reach[1:], path, strict=True):
        x, name = axis.x(at), tree.ids[i]
        words = fit(name, _NAME, SMALL)
        yield Line(
            id=f"node:{name}/mark", role="rule", css="grid", group="plot", title=name, x1=x, y1=TOP, x2=x, y2=bottom
        )
        half = text_width(words, SMALL) / 2
        is_last = i == path[-1]
        if is_last or (x - half - 6.0 > taken and x + half < last_x - room_of_last):
            below = bottom + 16.0
            yield text_line(f"node:{name}", "tag", "text", words, x=x, y=below, size=SMALL, anchor=Anchor.MIDDLE)
            taken = x + half


def _distances(reach: Sequence[float], axis: AxisScale, *, y: float, system: UnitSystem) -> Iterator[AnyPrimitive]:
    label = unit_label(Dimension.LENGTH, system)
    far = printed(max(reach[-1], 1e-3), Dimension.LENGTH, system)
    step = round_step(far)
    places = max(0, -floor(log10(step) + _ROUND))
    for i in range(int(far / step + _ROUND) + 1):
        x = axis.origin_px + (WIDTH - LEFT - RIGHT) * i * step / far
        yield text_line(
            f"distance:{i}", "tick-number", "quiet", f"{i * step:.{places}f}", x=x, y=y, size=TINY, anchor=Anchor.MIDDLE
        )
    words = f"equivalent length from the outdoor group [{label}]"
    yield text_line("distance/name", "axis-title", "quiet", words, x=LEFT, y=y + 17.0, size=SMALL)


def _foot(found: Hydraulics, y: float, system: UnitSystem) -> tuple[list[AnyPrimitive], float]:
    cooling = found.conditions.cooling
    state = show(cooling.condensing_degc, Dimension.TEMPERATURE, system)
    cold = show(cooling.evaporating_degc, Dimension.TEMPERATURE, system)
    words = (
        f"Cooling at full load: {state} condensing, {cold} dew point at the coils. Gas flows toward the outdoor group, "
        "liquid away from it. Between the ends of a run the lines are drawn straight. Below its bubble point liquid is "
        "still reckoned as liquid: what follows is too good. No substitute for the maker's rules."
    )
    lines = wrap(words, WIDTH - LEFT - RIGHT, SMALL)
    painted = [
        text_line(f"foot:{i}", "foot", "quiet", line, x=LEFT, y=y + 34.0 + 16.0 * i, size=SMALL)
        for i, line in enumerate(lines)
    ]
    return list(painted), y + 34.0 + 16.0 * len(lines)
