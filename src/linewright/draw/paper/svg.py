"""Paints a drawing as SVG in true millimetres: one file that needs nothing beside it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from linewright.draw.paper.dimension import painted
from linewright.draw.paper.lettering import em
from linewright.draw.paper.marks import Box, Disc, Drawing, Hatching, Height, Ink, Mark, Pen, Stroke, Symbol, Words
from linewright.draw.primitives import Weight
from linewright.draw.svg import attribute, face_rules, number, plain_text

_PLACES = 3


def paper_svg(drawing: Drawing, *, embed_fonts: bool = True, said: str = "") -> str:
    """Paint a drawing; with `embed_fonts` the committed faces stand in the file, and `said` as its metadata."""
    width, height = _n(drawing.width), _n(drawing.height)
    lines = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm"'
            f' viewBox="0 0 {width} {height}" role="img" aria-labelledby="drawing-title drawing-description">'
        ),
        f'<title id="drawing-title">{plain_text(drawing.title)}</title>',
        f'<desc id="drawing-description">{plain_text(drawing.description)}</desc>',
        *([f"<metadata>{plain_text(said)}</metadata>"] if said else []),
        f"<defs>{_hatches(drawing)}<style>{face_rules(embed=embed_fonts)}</style></defs>",
        f'<rect width="{width}" height="{height}" fill="{Ink.PAPER}"/>',
    ]
    for layer, marks in groupby(drawing.marks, key=lambda mark: mark.layer):
        lines.append(f'<g data-layer="{layer}">')
        lines.extend(line for mark in marks for line in _mark(mark))
        lines.append("</g>")
    return "\n".join([*lines, "</svg>"]) + "\n"


def _hatches(drawing: Drawing) -> str:
    inks = sorted({mark.ink for mark in drawing.marks if isinstance(mark, Hatching)})
    return "".join(
        f'<pattern id="hatch-{ink.name.lower()}" width="1.9" height="1.9" patternUnits="userSpaceOnUse"'
        f' patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="1.9" stroke="{ink}" stroke-width="0.26"'
        ' stroke-opacity="0.3"/></pattern>'
        for ink in inks
    )


def _mark(mark: Mark) -> Iterator[str]:
    match mark:
        case Symbol():
            facts = "".join(f" data-{name}={attribute(text)}" for name, text in mark.facts)
            place = f'transform="translate({_n(mark.x)} {_n(mark.y)})"'
            yield f"<g data-id={attribute(mark.id)} data-symbol={attribute(mark.name)}{facts} {place}>"
            yield from (line for part in mark.marks for line in _mark(part))
            yield "</g>"
        case Height():
            yield f"<g data-id={attribute(mark.id)}>"
            yield from (line for part in painted(mark) for line in _mark(part))
            yield "</g>"
        case Words():
            yield _words(mark)
        case Stroke():
            places = f'x1="{_n(mark.x1)}" y1="{_n(mark.y1)}" x2="{_n(mark.x2)}" y2="{_n(mark.y2)}"'
            yield f"<line{_id(mark.id)} {places}{_pen(mark.pen)}/>"
        case Box():
            yield f"<rect{_id(mark.id)} {_rect(mark)}{_fill(mark.fill)}{_pen(mark.pen)}/>"
        case Hatching():
            yield f'<rect{_id(mark.id)} {_rect(mark)} fill="url(#hatch-{mark.ink.name.lower()})"/>'
        case Disc():
            places = f'cx="{_n(mark.x)}" cy="{_n(mark.y)}" r="{_n(mark.radius)}"'
            yield f"<circle{_id(mark.id)} {places}{_fill(mark.fill)}{_pen(mark.pen)}/>"


def _words(mark: Words) -> str:
    weight = ' font-weight="600"' if mark.weight is Weight.SEMIBOLD else ""
    anchor = f' text-anchor="{mark.anchor}"' if mark.anchor.value != "start" else ""
    rim = f' stroke="{mark.rim}" stroke-width="0.8" paint-order="stroke" stroke-linejoin="round"' if mark.rim else ""
    title = f"<title>{plain_text(mark.full)}</title>" if mark.full and mark.full != mark.text else ""
    places = f'x="{_n(mark.x)}" y="{_n(mark.y)}" font-size="{_n(em(mark.height))}" fill="{mark.ink}"'
    return f"<text{_id(mark.id)} {places}{weight}{anchor}{rim}>{title}{plain_text(mark.text)}</text>"


def _rect(mark: Box | Hatching) -> str:
    return f'x="{_n(mark.x)}" y="{_n(mark.y)}" width="{_n(mark.width)}" height="{_n(mark.height)}"'


def _id(name: str) -> str:
    return f" data-id={attribute(name)}" if name else ""


def _fill(ink: Ink | None) -> str:
    return f' fill="{"none" if ink is None else ink}"'


def _pen(pen: Pen | None) -> str:
    if pen is None:
        return ""
    dash = f' stroke-dasharray="{pen.dash}"' if pen.dash else ""
    return f' stroke="{pen.ink}" stroke-width="{_n(pen.width)}"{dash}'


def _n(value: float) -> str:
    return number(value, _PLACES)
