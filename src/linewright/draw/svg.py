"""Paints a scene as SVG: one file that needs nothing beside it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from linewright.draw.primitives import AnyPrimitive, Circle, Group, Hatch, Line, Rect, Scene, Text, Weight
from linewright.draw.style import CLASSES, LIMIT, WARNING
from linewright.draw.typeface import FALLBACK, FAMILY, embedded_face

# What XML 1.0 cannot hold at all, not even escaped.
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_CELL_ROLES = {"cell": "cell", "column-head": "columnheader"}


def svg(scene: Scene, *, embed_fonts: bool = True) -> str:
    """Paint a scene as an SVG document.

    embed_fonts : whether the committed faces stand in the file, so that it looks alike everywhere; without them
        the widths of text are right only where the family is installed
    """
    lines = [
        _root(scene),
        f'<title id="sheet-title">{plain_text(scene.title)}</title>',
        f'<desc id="sheet-description">{plain_text(scene.description)}</desc>',
        f"<defs>{_HATCH}<style>{_style(embed=embed_fonts)}</style></defs>",
        *_body(scene),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def _root(scene: Scene) -> str:
    width, height, axis = number(scene.width), number(scene.height), scene.axis
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}"'
        f" data-axis={attribute(axis.name)} data-units={attribute(scene.units)}"
        f' data-px-per-m="{number(axis.px_per_m, 9)}" data-origin-px="{number(axis.origin_px, 9)}"'
        ' role="group" aria-labelledby="sheet-title" aria-describedby="sheet-description">'
    )


_HATCH = "".join(
    f'<pattern id="{name}" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    f'<line x1="0" y1="0" x2="0" y2="7" stroke="{colour}" stroke-width="1" stroke-opacity="0.3"/></pattern>'
    for name, colour in (("hatch", LIMIT), ("hatch-over", WARNING))
)


def _style(*, embed: bool) -> str:
    return face_rules(embed=embed) + "".join(f".lw-{name}{{{properties}}}" for name, properties in CLASSES.items())


def face_rules(*, embed: bool) -> str:
    """Give the rules of style that name the face, and hold it if `embed` says so."""
    rules = []
    for weight, figure in ((Weight.REGULAR, 400), (Weight.SEMIBOLD, 600)):
        data = embedded_face(weight) if embed else ""
        if data:
            rules.append(
                f'@font-face{{font-family:"{FAMILY}";font-weight:{figure};src:url({data}) format("truetype")}}'
            )
    families = ",".join(f'"{name}"' if " " in name else name for name in FALLBACK)
    rules.append(f"text{{font-family:{families};white-space:pre}}")
    return "".join(rules)


def _body(scene: Scene) -> Iterator[str]:
    """Give the elements in paint order, neighbours of one group in one `g`, rows of the table in one more."""
    groups = {group.id: group for group in scene.groups}
    runs = ((key, list(items)) for key, items in groupby(scene.primitives, key=lambda item: item.group))
    for parent, members in groupby(runs, key=lambda run: groups[run[0]].parent):
        if parent:
            yield _open(groups[parent])
        for key, items in members:
            yield _open(groups[key])
            yield from (_element(item) for item in items)
            yield "</g>"
        if parent:
            yield "</g>"


def _open(group: Group) -> str:
    if group.aria == "presentation":
        return '<g role="presentation">'
    return f"<g data-group={attribute(group.id)} role={attribute(group.aria)} aria-label={attribute(group.label)}>"


def _element(item: AnyPrimitive) -> str:
    match item:
        case Line():
            return _shape(
                item, "line", _places(x1=item.x1, y1=item.y1, x2=item.x2, y2=item.y2, stroke_width=item.stroke)
            )
        case Rect():
            places = _places(x=item.x, y=item.y, width=item.width, height=item.height)
            return _shape(item, "rect", places + (_places(rx=item.radius) if item.radius else ""))
        case Hatch():
            return _shape(item, "rect", _places(x=item.x, y=item.y, width=item.width, height=item.height))
        case Circle():
            return _shape(item, "circle", _places(cx=item.x, cy=item.y, r=item.radius))
        case Text():
            return _words(item)


def _words(item: Text) -> str:
    places = _places(x=item.x, y=item.y, font_size=item.size)
    if item.weight is Weight.SEMIBOLD:
        places += ' font-weight="600"'
    if item.anchor.value != "start":
        places += f' text-anchor="{item.anchor}"'
    role = f' role="{_CELL_ROLES[item.role]}"' if item.role in _CELL_ROLES else ""
    return f"<text{_common(item)}{role}{places}>{_title(item)}{plain_text(item.text)}</text>"


def _shape(item: AnyPrimitive, name: str, places: str) -> str:
    title = _title(item)
    return f"<{name}{_common(item)}{places}>{title}</{name}>" if title else f"<{name}{_common(item)}{places}/>"


def _common(item: AnyPrimitive) -> str:
    text = f' class="lw-{item.css}" data-id={attribute(item.id)} data-role={attribute(item.role)}'
    for name, metres in (("x0", item.x0_m), ("x1", item.x1_m)):
        if metres is not None:
            text += f' data-{name}-m="{number(metres, 9)}"'
    return text


def _title(item: AnyPrimitive) -> str:
    if not item.title or (isinstance(item, Text) and item.title == item.text):
        return ""
    return f"<title>{plain_text(item.title)}</title>"


def _places(**places: float) -> str:
    return "".join(f' {name.replace("_", "-")}="{number(value)}"' for name, value in places.items())


def number(value: float, places: int = 2) -> str:
    """Give a coordinate as text: no exponent, no zeros at the end, no negative zero."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def plain_text(words: str) -> str:
    """Give words as text of an element, without what XML cannot hold."""
    return escape(_FORBIDDEN.sub("\ufffd", words))


def attribute(words: str) -> str:
    """Give words as a value of an attribute, in quotes."""
    return quoteattr(_FORBIDDEN.sub("\ufffd", words), {"\n": " ", "\r": " ", "\t": " "})
