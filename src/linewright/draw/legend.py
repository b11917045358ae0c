"""The signs of the sheet, each drawn as it stands on the picture; only those that this sheet uses."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from operator import attrgetter

from linewright.book.roles import outer_roles
from linewright.draw.backdrop import limit_words
from linewright.draw.frame import EDGE
from linewright.draw.plan import SheetLayout
from linewright.draw.primitives import AnyPrimitive, Circle, Hatch, Line, Rect, Text, Weight
from linewright.draw.run_words import OVERRIDE_SIGN, ROLE_ORDER, STEP_SIGN
from linewright.draw.spots import Spot
from linewright.draw.style import SMALL
from linewright.draw.tag_wishes import ASSUMED_SIGN
from linewright.draw.typeface import text_width
from linewright.draw.wording import CONDITIONS_SIGN, CONFIRM_SIGN, OVER_SIGN, UNJUDGED_SIGN
from linewright.engine.records import TubeSize
from linewright.model.kept import Kept
from linewright.model.values import NodeKind, Role
from linewright.units import UnitSystem

Mark = Callable[[str, float, float], list[AnyPrimitive]]
Entry = tuple[str, Mark | str, str]
GROUP, SIGN_WIDTH, GAP, ROW = "legend", 24.0, 26.0, 18.0


def legend(
    sheet: SheetLayout,
    spots: Sequence[Spot],
    *,
    width: float,
    top: float,
    system: UnitSystem,
    drawn: Sequence[AnyPrimitive],
) -> tuple[list[AnyPrimitive], float]:
    """Paint the signs that the sheet uses in rows; gives the y below them too.

    drawn : the tree as it is on the page, since a tick beyond its edge needs no sign
    """
    left, right = EDGE, width - EDGE
    x, y = left, top
    found: list[AnyPrimitive] = []
    for name, sign, words in _entries(sheet, spots, system, drawn):
        width = SIGN_WIDTH + text_width(words, SMALL)
        if x > left and x + width > right:
            x, y = left, y + ROW
        found += _sign(f"legend/{name}", sign, x, y)
        found.append(
            Text(
                id=f"legend/{name}/words",
                role="legend",
                css="quiet",
                group=GROUP,
                x=x + SIGN_WIDTH,
                y=y,
                text=words,
                size=SMALL,
            )
        )
        x += width + GAP
    return found, y + ROW


def _entries(
    sheet: SheetLayout, spots: Sequence[Spot], system: UnitSystem, drawn: Sequence[AnyPrimitive]
) -> list[Entry]:
    roles = set(map(attrgetter("role"), drawn))
    ticked = (
        {item.id.rpartition("/")[0] for item in drawn if item.role == "limit-tick"} if "limit-tick" in roles else ()
    )
    ground = not roles.isdisjoint(("ground-beyond", "run-beyond"))
    stretched = not {True}.isdisjoint([spot.stretched and spot.pipe.length_m is not None for spot in spots])
    unknown = None in map(attrgetter("length_m"), sheet.pipes)
    kinds = set(map(attrgetter("far.kind"), sheet.pipes))
    raised, overridden = _SIZED(sheet.result.id, [run.tubes for run in sheet.result.runs])
    unit = "in mm" if system is UnitSystem.SI else "in inches"
    entries: list[tuple[bool, Entry]] = [
        (True, ("run", _run, f"run, weight by gas tube; {_sizes(sheet)} {unit}, {sheet.axis} length")),
        ("third-tube" in roles, ("three", _three, "three tubes, up to mode boxes")),
        (NodeKind.JOINT in kinds, ("joint", _joint, "joint")),
        (NodeKind.HEADER in kinds, ("header", _header, "header")),
        (NodeKind.BOX in kinds, ("box", _box, "mode box")),
        (NodeKind.COUPLING in kinds, ("coupling", _coupling, "coupling")),
        (True, ("unit", _unit, "indoor unit")),
        ("loop" in roles, ("loop", _loop, "offset or loop")),
        (stretched, ("break", _break, "drawn longer than it is")),
        (unknown, ("unknown", _unknown, "length unknown, and what is left for it")),
        (ground, ("beyond", _beyond, "beyond a limit")),
        (any(map(attrgetter("far.assumed_level"), sheet.pipes)), ("assumed", ASSUMED_SIGN, "level assumed")),
        (raised, ("raised", STEP_SIGN, "raised by a size action")),
        (overridden, ("set", OVERRIDE_SIGN, "set by the designer")),
    ]
    entries += [(limit.id in ticked, (f"tick/{limit.id}", _tick, limit_words(limit, system))) for limit in sheet.limits]
    signed = f"{UNJUDGED_SIGN} unjudged   {CONFIRM_SIGN} to confirm   {CONDITIONS_SIGN} on conditions"
    entries += [
        (True, ("spare", _spare, "spare: cooling, sensible, heating of the room; short to the left")),
        (True, ("standings", OVER_SIGN, f"over   {signed}")),
    ]
    return [entry for used, entry in entries if used]


def _sized(runs: Sequence[Mapping[Role, TubeSize]]) -> tuple[bool, bool]:
    """Say whether a tube of any run is raised by a size action, and whether the designer set one."""
    tubes = [tube for of_run in runs for tube in of_run.values()]
    return any(tube.steps for tube in tubes), any(tube.override_m is not None for tube in tubes)


#: What was said of the tubes of the sheet before, by system.
_SIZED: Kept[tuple[bool, bool]] = Kept(_sized)


def _sizes(sheet: SheetLayout) -> str:
    """The order in which the sizes of a run stand on it."""
    ground = sheet.result.state.ground
    behind = "gas · liquid"
    if not ground.zones:
        return behind
    outer = outer_roles(ground.book.book)
    return " · ".join(role.word for role in ROLE_ORDER if role in outer) + f", behind a box {behind}"


def _sign(name: str, sign: Mark | str, x: float, y: float) -> list[AnyPrimitive]:
    """Paint a sign in the `SIGN_WIDTH` before its words, whose baseline is `y`."""
    if not isinstance(sign, str):
        return sign(name, x, y - 4)
    css = "warning" if sign == OVER_SIGN else "text"
    return [
        Text(id=name, role="legend", css=css, group=GROUP, x=x + 8, y=y, text=sign, size=SMALL, weight=Weight.SEMIBOLD)
    ]


def _line(name: str, css: str, ends: tuple[float, float, float, float], *, stroke: float) -> Line:
    x1, y1, x2, y2 = ends
    return Line(id=name, role="legend", css=css, group=GROUP, x1=x1, y1=y1, x2=x2, y2=y2, stroke=stroke)


def _rect(name: str, css: str, box: tuple[float, float, float, float]) -> Rect:
    x, y, width, height = box
    return Rect(id=name, role="legend", css=css, group=GROUP, x=x, y=y, width=width, height=height)


def _run(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [_line(name, "pipe", (x, y, x + 17, y), stroke=3.6)]


def _unknown(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [_line(name, "pipe-unknown", (x, y, x + 18, y), stroke=2.0)]


def _three(name: str, x: float, y: float) -> list[AnyPrimitive]:
    sides = [_line(f"{name}/{i}", "break", (x, y + up, x + 17, y + up), stroke=0.8) for i, up in enumerate((-4, 4))]
    return [_line(name, "pipe", (x, y, x + 17, y), stroke=3.6), *sides]


def _joint(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [Circle(id=name, role="legend", css="node", group=GROUP, x=x + 11, y=y, radius=4.6)]


def _header(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [_rect(name, "header", (x + 8, y - 7, 7, 14))]


def _box(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [
        _rect(name, "header", (x + 4, y - 6.5, 13, 13)),
        _line(f"{name}/mode", "coupling", (x + 4, y + 6.5, x + 17, y - 6.5), stroke=1.2),
    ]


def _coupling(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [
        _line(name, "pipe", (x + 2, y, x + 18, y), stroke=2.4),
        _line(f"{name}/tick", "coupling", (x + 10, y - 5, x + 10, y + 5), stroke=1.6),
    ]


def _loop(name: str, x: float, y: float) -> list[AnyPrimitive]:
    ends = ((x, y - 3, x + 18, y - 3), (x + 5, y - 3, x + 5, y + 4), (x + 5, y + 4, x + 13, y + 4))
    lines = (*ends, (x + 13, y - 3, x + 13, y + 4))
    return [_line(f"{name}/{i}", "coupling", one, stroke=1.4) for i, one in enumerate(lines)]


def _unit(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [_line(name, "pipe", (x + 2, y, x + 14, y), stroke=2.0), _rect(f"{name}/end", "end", (x + 14, y - 5, 4, 10))]


def _break(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [
        _line(f"{name}/near", "pipe", (x + 2, y, x + 8, y), stroke=2.4),
        _line(f"{name}/far", "pipe", (x + 13, y, x + 19, y), stroke=2.4),
        _line(name, "break", (x + 7, y + 4, x + 10, y - 4), stroke=1.1),
        _line(f"{name}/second", "break", (x + 11, y + 4, x + 14, y - 4), stroke=1.1),
    ]


def _beyond(name: str, x: float, y: float) -> list[AnyPrimitive]:
    ground = Hatch(id=f"{name}/ground", role="legend", css="hatch", group=GROUP, x=x + 3, y=y - 6, width=15, height=12)
    return [ground, _line(name, "limit", (x + 3, y - 6, x + 3, y + 6), stroke=1.6)]


def _tick(name: str, x: float, y: float) -> list[AnyPrimitive]:
    return [_line(name, "limit-tick", (x + 10, y - 6, x + 10, y + 6), stroke=1.6)]


def _spare(name: str, x: float, y: float) -> list[AnyPrimitive]:
    bars = [
        _rect(f"{name}/{i}", "bar-used", (x + 4, y + up, width, 3))
        for i, (up, width) in enumerate(((-6, 12), (-1.5, 7), (3, 15)))
    ]
    return [*bars, _line(name, "zero", (x + 4, y - 7, x + 4, y + 7), stroke=1.0)]
