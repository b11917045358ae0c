"""Paints a drawing as DXF of the 2010 format in millimetres of paper; the same drawing gives the same bytes."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib import import_module
from typing import TYPE_CHECKING, Any

from linewright.draw.dxf.tables import (
    BLACK_OR_WHITE,
    COLOURS,
    DIMENSION_STYLE,
    INKS,
    LINE_TYPES,
    TEXT_STYLES,
    add_tables,
    chain_style,
    hundredths,
)
from linewright.draw.paper.dimension import painted
from linewright.draw.paper.extent import area_of
from linewright.draw.paper.lettering import LEAST_MM
from linewright.draw.paper.marks import (
    Box,
    Disc,
    Drawing,
    Hatching,
    Height,
    Ink,
    Layer,
    Mark,
    Measure,
    Pen,
    Stroke,
    Symbol,
    Words,
)
from linewright.draw.primitives import Anchor

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

FORMAT, _MILLIMETRES, _METRIC = "R2010", 4, 1
BLOCK = "LW-"
_INVISIBLE = 1
#: A dimension with this text shows what it measures; this bit says that its text stands where it was put.
MEASURED, _TEXT_PLACED = "<>", 128


def dxf(drawing: Drawing, said: Sequence[tuple[str, str]] = ()) -> bytes:
    """Paint a drawing; `said` are properties of the file, by name and text."""
    import ezdxf  # noqa: PLC0415 - it takes half a second to load

    with _same_every_time():
        document = ezdxf.new(FORMAT, setup=False)  # type: ignore[attr-defined]
        document.units = _MILLIMETRES
        document.header["$MEASUREMENT"] = _METRIC
        document.header["$LTSCALE"] = 1.0
        document.header["$LWDISPLAY"] = 1
        for name, text in said:
            document.header.custom_vars.append(name, _escaped(text))
        add_tables(document, drawing.measure)
        _Painter(document, drawing.height).paint(drawing)
        out = io.StringIO()
        document.write(out)
    return document.encode(out.getvalue())


@contextmanager
def _same_every_time() -> Iterator[None]:
    """Keep the clock and random marks out of the file."""
    options = import_module("ezdxf").options
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


class _Painter:
    """Paints marks into a document; DXF counts y upward."""

    def __init__(self, document: Document, height: float) -> None:
        self.document, self.height = document, height
        self.blocks: set[str] = set()

    def paint(self, drawing: Drawing) -> None:
        space = self.document.modelspace()
        for mark in drawing.marks:
            if isinstance(mark, Symbol) and mark.facts:
                self._insert(space, mark)
            elif isinstance(mark, Height):
                self._height(space, mark, drawing.measure)
            elif isinstance(mark, Symbol):
                for part in mark.marks:
                    self._plain(space, part, mark.x, self.height - mark.y)
            else:
                self._plain(space, mark, 0.0, self.height)
        space.reset_extents((0, 0, 0), (drawing.width, drawing.height, 0))

    def _plain(self, space: Any, mark: Mark, x: float, y: float) -> None:  # noqa: ANN401 - a layout or a block
        """Paint one mark whose origin stands at `x`, `y` of the file."""
        match mark:
            case Stroke() if _is_solid(mark.pen.ink):
                start, end = (x + mark.x1, y - mark.y1), (x + mark.x2, y - mark.y2)
                space.add_line(start, end, dxfattribs=_lined(mark.layer, mark.pen))
            case Box():
                self._box(space, mark, x, y)
            case Disc():
                if mark.pen is not None:
                    attributes = _lined(mark.layer, mark.pen)
                    space.add_circle((x + mark.x, y - mark.y), mark.radius, dxfattribs=attributes)
                if _is_solid(mark.fill):
                    _hatch(space, mark.layer, mark.fill).paths.add_edge_path().add_arc(
                        (x + mark.x, y - mark.y), mark.radius
                    )
            case Hatching():
                hatch = _hatch(space, mark.layer, mark.ink)
                hatch.set_pattern_fill("ANSI31", scale=0.6)
                hatch.paths.add_polyline_path(_corners(mark, x, y), is_closed=True)
            case Words():
                self._words(space, mark, x, y)
            case _:
                pass  # white lines that hide what is below them; a symbol within a symbol

    def _box(self, space: Any, mark: Box, x: float, y: float) -> None:  # noqa: ANN401
        corners = _corners(mark, x, y)
        if _is_solid(mark.fill):
            _hatch(space, mark.layer, mark.fill).paths.add_polyline_path(corners, is_closed=True)
        if mark.pen is not None:
            space.add_lwpolyline(corners, close=True, dxfattribs=_lined(mark.layer, mark.pen))

    def _words(self, space: Any, mark: Words, x: float, y: float) -> None:  # noqa: ANN401
        from ezdxf.enums import TextEntityAlignment  # noqa: PLC0415 - see above

        if not mark.text.strip():
            return
        align = {
            Anchor.START: TextEntityAlignment.LEFT,
            Anchor.MIDDLE: TextEntityAlignment.CENTER,
            Anchor.END: TextEntityAlignment.RIGHT,
        }[mark.anchor]
        attributes = {"layer": mark.layer.value, "style": TEXT_STYLES[mark.weight][0], **_colour(mark.layer, mark.ink)}
        text = space.add_text(_escaped(mark.text), height=mark.height, dxfattribs=attributes)
        text.set_placement((x + mark.x, y - mark.y), align=align)

    def _height(self, space: Any, mark: Height, measure: Measure) -> None:  # noqa: ANN401
        """Add a dimension whose picture is the one on paper, so that no program has to make one up.

        Its text is what it measures; words of its own it has where it is cut, or rounds another way.
        """
        parts = painted(mark)
        if not mark.text:
            for part in parts:
                self._plain(space, part, 0.0, self.height)
            return
        block = self.document.blocks.new_anonymous_block(type_char="D")
        for part in parts:
            self._plain(block, part, 0.0, self.height)
        upper, lower = self.height - mark.upper, self.height - mark.lower
        text = MEASURED if mark.text == _measured(upper - lower, measure) else _escaped(mark.text)
        found = space.add_linear_dim(
            (mark.x, upper),
            (mark.x, upper),
            (mark.x, lower),
            angle=90.0,
            text=text,
            dimstyle=DIMENSION_STYLE,
            override=chain_style(measure),
            dxfattribs={"layer": mark.layer.value},
        )
        found.commit()
        ground = area_of(next(part for part in parts if isinstance(part, Words)))
        dimension = found.dimension
        dimension.dxf.geometry = block.name
        dimension.dxf.text_midpoint = ((ground.left + ground.right) / 2, self.height - mark.base + LEAST_MM / 2)
        dimension.dxf.dimtype |= _TEXT_PLACED

    def _insert(self, space: Any, mark: Symbol) -> None:  # noqa: ANN401
        name = f"{BLOCK}{mark.name.upper()}"
        if name not in self.blocks:
            self._define(name, mark)
        point = (mark.x, self.height - mark.y)
        insert = space.add_blockref(name, point, dxfattribs={"layer": mark.layer.value})
        insert.add_auto_attribs({fact.upper(): _escaped(text) for fact, text in mark.facts})

    def _define(self, name: str, mark: Symbol) -> None:
        """Make a block of a symbol, with a field for each of its facts."""
        block = self.document.blocks.new(name)
        for part in mark.marks:
            self._plain(block, part, 0.0, 0.0)
        for k, (fact, _) in enumerate(mark.facts):
            attributes = {
                "layer": mark.layer.value,
                "style": TEXT_STYLES[next(iter(TEXT_STYLES))][0],
                "flags": _INVISIBLE,
            }
            place = (0.0, -3.0 * k)
            block.add_attdef(fact.upper(), place, height=2.0, dxfattribs={**attributes, "prompt": fact})
        self.blocks.add(name)


def _measured(length: float, measure: Measure) -> str:
    """Write a length on paper [mm] as a drawing program writes what a dimension measures."""
    return f"{length * measure.factor:.{measure.places}f} {measure.unit}".strip()


def _corners(mark: Box | Hatching, x: float, y: float) -> list[tuple[float, float]]:
    left, top = x + mark.x, y - mark.y
    right, bottom = left + mark.width, top - mark.height
    return [(left, bottom), (right, bottom), (right, top), (left, top)]


def _is_solid(fill: Ink | None) -> bool:
    """Say whether a fill is more than paper, which has any colour in a drawing program."""
    return fill is not None and fill not in (Ink.PAPER, Ink.WASH)


def _hatch(space: Any, layer: Layer, ink: Ink | None) -> Any:  # noqa: ANN401
    return space.add_hatch(color=BLACK_OR_WHITE, dxfattribs={"layer": layer.value, **_colour(layer, ink or Ink.DARK)})


def _lined(layer: Layer, pen: Pen) -> dict[str, Any]:
    found = {"layer": layer.value, "lineweight": hundredths(pen.width), **_colour(layer, pen.ink)}
    return found | ({"linetype": LINE_TYPES[pen.dash]} if pen.dash else {})


def _colour(layer: Layer, ink: Ink) -> dict[str, int]:
    """Leave the colour to the layer where that has one of its own, or the ink is the plain one."""
    return {} if layer in COLOURS or ink is Ink.DARK else {"true_color": INKS.get(ink, 0x808080)}


def _escaped(text: str) -> str:
    """Keep a drawing program from reading a code in a text."""
    return text.replace("%%", "% %").replace("\\", "/").replace("\n", " ").replace("\r", " ")
