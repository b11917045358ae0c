"""The layers, line types and styles of a DXF file, all named by us, so that they meet nothing of the reader's own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from linewright.draw.paper.marks import BOLD, FINE, HEAVY, MEDIUM, Dash, Ink, Layer, Measure
from linewright.draw.primitives import Weight

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

TEXT_STYLES = {Weight.REGULAR: ("LW-TEXT", "arial.ttf"), Weight.SEMIBOLD: ("LW-TEXT-BOLD", "arialbd.ttf")}
DIMENSION_STYLE = "LW-DIMENSION"
LINE_TYPES = {Dash.DASHED: "LW-DASHED", Dash.DOTTED: "LW-DOTTED", Dash.CHAIN: "LW-CHAIN"}

#: The colour that a drawing program turns to black or white by its ground.
BLACK_OR_WHITE = 7
#: True colours that stand out from white and from black alike (contrast 3 to 1 and more).
COLOURS: dict[Layer, int] = {
    Layer.GAS: 0x_B0_5A_1E,
    Layer.LIQUID: 0x_1F_7A_B8,
    Layer.SUCTION: 0x_2E_84_52,
    Layer.HIGH_LOW: 0x_9A_5A_B0,
    Layer.HIGH: 0x_C0_44_3C,
    Layer.LOW: 0x_3C_80_80,
    Layer.LEVEL: 0x_80_80_80,
    Layer.HEIGHT: 0x_80_80_80,
    Layer.DIMENSION: 0x_80_80_80,
    Layer.MATCH: 0x_C8_40_20,
}
INKS: dict[Ink, int] = {
    Ink.QUIET: 0x_70_78_80,
    Ink.FAINT: 0x_80_80_78,
    Ink.ACCENT: 0x_10_84_8C,
    Ink.WARNING: 0x_C8_40_20,
}
_WEIGHTS: dict[Layer, float] = {
    Layer.GAS: HEAVY,
    Layer.LIQUID: MEDIUM,
    Layer.UNIT: BOLD,
    Layer.OUTDOOR: BOLD,
    Layer.BORDER: HEAVY,
}


def add_tables(document: Document, measure: Measure) -> None:
    """Add layers, line types, text styles and the dimension style.

    measure : what a height that is measured on paper is multiplied with, and how the true one is written
    """
    for dash, name in LINE_TYPES.items():
        lengths = [float(part) for part in dash.value.split()]
        pattern = [sum(lengths), *(length if k % 2 == 0 else -length for k, length in enumerate(lengths))]
        document.linetypes.add(name, pattern, description=f"{name} {dash.value}")
    for name, font in TEXT_STYLES.values():
        document.styles.add(name, font=font)
    for layer in Layer:
        entry = document.layers.add(layer.value, color=BLACK_OR_WHITE, lineweight=hundredths(_WEIGHTS.get(layer, FINE)))
        if layer in COLOURS:
            entry.dxf.true_color = COLOURS[layer]
    style = document.dimstyles.new(DIMENSION_STYLE)
    style.dxf.dimtxsty = TEXT_STYLES[Weight.REGULAR][0]
    for name, value in _DIMENSIONS.items():
        style.set_dxf_attrib(name, value)
    style.set_dxf_attrib("dimlfac", measure.factor)
    style.set_dxf_attrib("dimdec", measure.places)


def chain_style(measure: Measure) -> dict[str, int | str]:
    """Give what the dimensions of the chain of heights have beside their style.

    Their text lies level beside the line and names the unit; the levels themselves lead to them. The unit is not in
    the style because the writer leaves that field out of styles of the format of 2010.
    """
    lying = {"dimtih": 1, "dimtoh": 1, "dimtmove": 2, "dimse1": 1, "dimse2": 1}
    return {**lying, "dimpost": f"<> {measure.unit}".strip()}


#: Text and ticks in millimetres of paper; nothing scaled twice.
_DIMENSIONS: dict[str, float | int] = {
    "dimscale": 1.0,
    "dimtxt": 2.0,
    "dimasz": 1.7,
    "dimtsz": 1.2,
    "dimexo": 1.0,
    "dimexe": 1.0,
    "dimgap": 0.8,
    "dimtad": 1,
    "dimzin": 0,
    "dimdsep": 46,
}
_ALLOWED = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)


def hundredths(width: float) -> int:
    """Give the nearest weight that DXF knows for a width [mm], in hundredths."""
    return min(_ALLOWED, key=lambda one: abs(one - width * 100))
