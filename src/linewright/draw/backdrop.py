"""Behind the pipe: levels as bands, the axis of reach, length limits as lines with hatched ground beyond."""

from __future__ import annotations

from functools import lru_cache

from linewright.book.schema import Origin
from linewright.draw.frame import EDGE, BandBox, Frame, ticks
from linewright.draw.labels import END, START, Box, Label, Occupied, Place, Wish
from linewright.draw.plan import Axis, LengthLimit, SheetLayout
from linewright.draw.primitives import Anchor, AnyPrimitive, Hatch, Line, Rect, Text, Weight
from linewright.draw.style import BODY, SMALL, TINY
from linewright.draw.typeface import fit
from linewright.draw.wording import SIGNS
from linewright.engine.records import Standing
from linewright.units import Dimension, UnitSystem, show, unit_label

LABEL_ROW_PX = 15.0
#: Names with their places that are kept at hand.
MOST_KNOWN = 500
ORIGINS = {
    Origin.OUTDOOR: "the outdoor unit",
    Origin.FIRST_OUTDOOR_JOINT: "the first outdoor joint",
    Origin.FIRST_BRANCH: "the first branch",
}


def bands(frame: Frame, system: UnitSystem) -> list[AnyPrimitive]:
    """Paint the levels with name and elevation."""
    found: list[AnyPrimitive] = []
    for i, box in enumerate(frame.bands):
        found += _band(box, i, frame, system)
    return found


def _band(box: BandBox, i: int, frame: Frame, system: UnitSystem) -> list[AnyPrimitive]:
    band, group = box.band, f"level:{box.band.id or '-'}"
    name = band.name or ("no level" if i or len(frame.bands) > 1 else "")
    elevation = "" if band.elevation_m is None else signed(band.elevation_m, system)
    area = Rect(
        id=group, role="band", css="band", group=group, x=0, y=box.top, width=frame.width, height=box.bottom - box.top
    )
    fitted = fit(name, frame.tree_left - EDGE, BODY, weight=Weight.SEMIBOLD)
    texts = [
        _beside_band(group, "name", fitted, box.top + 20, title=name),
        _beside_band(group, "elevation", elevation, box.top + 36, title=""),
    ]
    return [area, *(text for text in texts if text.text)]


def _beside_band(group: str, part: str, words: str, y: float, *, title: str) -> Text:
    is_name = part == "name"
    return Text(
        id=f"{group}/{part}",
        role=f"level-{part}",
        css="text" if is_name else "quiet",
        group=group,
        title=title,
        x=EDGE - 4,
        y=y,
        text=words,
        size=BODY if is_name else SMALL,
        weight=Weight.SEMIBOLD if is_name else Weight.REGULAR,
    )


def signed(value_m: float, system: UnitSystem) -> str:
    """Give an elevation with its sign."""
    text = show(value_m, Dimension.LENGTH, system)
    return f"+{text}" if value_m > 0 else text.replace("-", "−")


def axis_marks(sheet: SheetLayout, frame: Frame, system: UnitSystem) -> list[AnyPrimitive]:
    """Paint the axis: what it counts from, its ticks and their lines."""
    unit = unit_label(Dimension.LENGTH, system)
    origin = ORIGINS[sheet.book.origin] if sheet.book else "the outdoor group"
    kind = "reach" if sheet.axis is Axis.ACTUAL else "equivalent reach"
    words = f"{kind} from {origin}, {unit}"
    top = frame.top
    found: list[AnyPrimitive] = [
        Text(
            id="axis", role="axis-title", css="quiet", group="axis", x=frame.x(0.0), y=top - 34, text=words, size=SMALL
        )
    ]
    for reach, number in ticks(frame.axis, system):
        found += _tick(reach, number, frame)
    return found


def _tick(reach_m: float, number: int, frame: Frame) -> list[AnyPrimitive]:
    x, name = frame.x(reach_m), f"axis/{number}"
    line = Line(
        id=name,
        role="tick",
        css="grid",
        group="axis",
        x0_m=reach_m,
        x1_m=reach_m,
        x1=x,
        y1=frame.top - 10,
        x2=x,
        y2=frame.bottom,
    )
    words = Text(
        id=f"{name}/number",
        role="tick-number",
        css="quiet",
        group="axis",
        x=x,
        y=frame.top - 15,
        text=str(number).replace("-", "−"),
        size=SMALL,
        anchor=Anchor.MIDDLE,
    )
    return [line, words]


def limit_marks(
    sheet: SheetLayout, frame: Frame, system: UnitSystem, *, floor: Occupied
) -> tuple[list[AnyPrimitive], float]:
    """Paint limit lines, the hatched ground beyond the nearest, the first branch, and their names below the lanes.

    Gives the y below the last name too.
    """
    found: list[AnyPrimitive] = []
    lines = [limit for limit in sheet.limits if limit.line_m is not None]
    drawn = [limit for limit in lines if limit.line_m is not None and frame.x(limit.line_m) <= frame.tree_right]
    nearest = min(drawn, key=lambda limit: limit.line_m or 0.0, default=None)
    if nearest is not None and nearest.line_m is not None:
        over = any(limit.check.standing is Standing.OVER for limit in drawn)
        found.append(_ground_beyond(nearest.line_m, frame, over=over))
    low = frame.bottom
    if sheet.first_branch is not None:
        found.append(_first_branch_line(sheet.first_branch.reach_m, frame))
        found.append(
            _named("first-branch/name", "first branch", frame.x(sheet.first_branch.reach_m), frame, floor=floor)
        )
    for limit in sorted(drawn, key=lambda limit: limit.line_m or 0.0):
        found += _line(limit, frame, system, floor=floor)
    found += _far_limits([limit for limit in lines if limit not in drawn], frame, system, floor=floor)
    names = [item for item in found if isinstance(item, Text)]
    return found, max([low, *(text.y + 5 for text in names)])


def _ground_beyond(from_m: float, frame: Frame, *, over: bool) -> Hatch:
    x = frame.x(from_m)
    return Hatch(
        id="beyond",
        role="ground-beyond",
        css="hatch-over" if over else "hatch",
        group="limits",
        x0_m=from_m,
        x=x,
        y=frame.top - 10,
        width=frame.tree_right - x,
        height=frame.bottom - frame.top + 10,
    )


def _first_branch_line(reach_m: float, frame: Frame) -> Line:
    x = frame.x(reach_m)
    return Line(
        id="first-branch",
        role="first-branch",
        css="branch-line",
        group="limits",
        x0_m=reach_m,
        x1_m=reach_m,
        x1=x,
        y1=frame.top - 10,
        x2=x,
        y2=frame.bottom + 4,
        stroke=1.2,
    )


def _line(limit: LengthLimit, frame: Frame, system: UnitSystem, *, floor: Occupied) -> list[AnyPrimitive]:
    if limit.line_m is None:
        return []
    found: list[AnyPrimitive] = []
    if limit.plain_line_m is not None and limit.check.plain_bound is not None:
        words = f"plain bound {show(limit.check.plain_bound, limit.check.dimension, system)}"
        found.append(
            _vertical(f"{limit.id}/plain", "limit-plain", limit.plain_line_m, frame, title=f"{limit.label}, {words}")
        )
        found.append(_named(f"{limit.id}/plain/name", words, frame.x(limit.plain_line_m), frame, floor=floor))
    name, over = limit_words(limit, system), limit.check.standing is Standing.OVER
    title = _reached(limit, name, system)
    found.append(_vertical(limit.id, "limit-over" if over else "limit", limit.line_m, frame, title=title))
    css = "warning" if over else "text"
    text = _named(f"{limit.id}/name", name, frame.x(limit.line_m), frame, floor=floor, css=css)
    return [*found, text]


def _reached(limit: LengthLimit, name: str, system: UnitSystem) -> str:
    """Say where on this axis the bound is reached: it may be measured from elsewhere, or count a main by its factor."""
    return f"{name}, reached at {show(limit.line_m or 0.0, Dimension.LENGTH, system)} on this axis"


def limit_words(limit: LengthLimit, system: UnitSystem) -> str:
    """Give a limit's sign, name and bound as they stand on the picture."""
    check = limit.check
    bound = "" if check.bound is None else f" {show(check.bound, check.dimension, system)}"
    sign = SIGNS.get(check.standing, "")
    return f"{sign} {limit.label}{bound}".strip()


def _vertical(name: str, css: str, reach_m: float, frame: Frame, *, title: str) -> Line:
    x = frame.x(reach_m)
    return Line(
        id=name,
        role="limit-plain" if css == "limit-plain" else "limit",
        css=css,
        group="limits",
        title=title,
        x0_m=reach_m,
        x1_m=reach_m,
        x1=x,
        y1=frame.top - 10,
        x2=x,
        y2=frame.bottom + 4,
        stroke=1.1 if css == "limit-plain" else 1.6,
    )


def _named(name: str, words: str, x: float, frame: Frame, *, floor: Occupied, css: str = "quiet") -> Text:
    """Put a name under its line, to the right of it where there is room, else to the left, on the first free row."""
    y = frame.bottom + LABEL_ROW_PX
    places = [
        place
        for row in range(24)
        for place in ((x + 1, y + row * LABEL_ROW_PX, START), (x - 1, y + row * LABEL_ROW_PX, END))
    ]
    label = _put(words, places, floor)
    return Text(
        id=name,
        role="limit-name",
        css=css,
        group="limits",
        title=words,
        x=label.x,
        y=label.y,
        text=words,
        size=SMALL,
        anchor=label.anchor,
    )


def _far_limits(limits: list[LengthLimit], frame: Frame, system: UnitSystem, *, floor: Occupied) -> list[AnyPrimitive]:
    """Name the limits that lie beyond the right edge of the axis."""
    found: list[AnyPrimitive] = []
    for limit in limits:
        words = f"{limit_words(limit, system)} →"
        y = frame.bottom + LABEL_ROW_PX
        places = [(frame.tree_right, y + row * LABEL_ROW_PX, END) for row in range(24)]
        label = _put(words, places, floor)
        found.append(
            Text(
                id=limit.id,
                role="limit-far",
                css="quiet",
                group="limits",
                title=f"{words} beyond the right edge",
                x0_m=limit.line_m,
                x1_m=limit.line_m,
                x=label.x,
                y=label.y,
                text=words,
                size=SMALL,
                anchor=label.anchor,
            )
        )
    return found


def _put(words: str, places: list[Place], floor: Occupied) -> Label:
    """Put a name at the first place that is free, else at the first of all."""
    found = floor.put(_wish(words, tuple(places)))
    return found[0] if found else Label(words, *places[0])


@lru_cache(maxsize=MOST_KNOWN)
def _wish(words: str, places: tuple[Place, ...]) -> Wish:
    return Wish([(words,)], places, size=SMALL)


def floor_page(frame: Frame) -> Occupied:
    """Give the empty strip below the tree on which names of limits stand."""
    return Occupied(Box(0.0, frame.bottom, frame.tree_right + TINY, frame.bottom + 500))
