"""The look of the sheet: colours, classes, sizes of type. Light paper, dark ink, one accent, one warning."""

from __future__ import annotations

PAPER = "#fcfbf8"
BAND = "#f2f0e9"
INK = "#17212b"
QUIET = "#5c6670"
FAINT = "#d9d6cc"
ACCENT = "#0b6b74"
WARNING = "#b3340d"
LIMIT = "#4a535c"

TITLE, BODY, SMALL, TINY = 21.0, 12.0, 11.0, 10.0

# Class -> SVG properties. A class that colours a fault stands beside a sign or a word, never alone.
CLASSES: dict[str, str] = {
    "paper": f"fill:{PAPER}",
    "band": f"fill:{BAND}",
    "rule": f"stroke:{FAINT}",
    "grid": f"stroke:{FAINT}",
    "text": f"fill:{INK}",
    "quiet": f"fill:{QUIET}",
    "on-pipe": f"fill:{INK};stroke:{BAND};stroke-width:3px;paint-order:stroke;stroke-linejoin:round",
    "on-pipe-over": f"fill:{WARNING};stroke:{BAND};stroke-width:3px;paint-order:stroke;stroke-linejoin:round",
    "on-pipe-quiet": f"fill:{QUIET};stroke:{BAND};stroke-width:3px;paint-order:stroke;stroke-linejoin:round",
    "warning": f"fill:{WARNING}",
    "gap": f"fill:none;stroke:{BAND}",
    "pipe": f"stroke:{INK};fill:none",
    "pipe-beyond": f"stroke:{WARNING};fill:none",
    "pipe-unknown": f"stroke:{INK};fill:none;stroke-dasharray:5 4",
    "leg": f"stroke:{INK};fill:none",
    "leg-beyond": f"stroke:{WARNING};fill:none",
    "break": f"stroke:{INK};fill:none",
    "node": f"fill:{PAPER};stroke:{INK};stroke-width:1.6",
    "header": f"fill:{PAPER};stroke:{INK};stroke-width:1.6",
    "coupling": f"stroke:{INK};fill:none",
    "end": f"fill:{INK}",
    "outdoor": f"fill:{PAPER};stroke:{INK};stroke-width:1.8",
    "outdoor-mark": f"stroke:{INK};fill:none",
    "branch-line": f"stroke:{QUIET};fill:none;stroke-dasharray:1.5 3.5",
    "limit": f"stroke:{LIMIT};fill:none",
    "limit-over": f"stroke:{WARNING};fill:none",
    "limit-plain": f"stroke:{LIMIT};fill:none;stroke-dasharray:7 4",
    "limit-tick": f"stroke:{LIMIT};fill:none",
    "limit-tick-over": f"stroke:{WARNING};fill:none",
    "hatch": "fill:url(#hatch)",
    "hatch-over": "fill:url(#hatch-over)",
    "bar": f"fill:{FAINT}",
    "bar-used": f"fill:{ACCENT}",
    "bar-over": f"fill:{WARNING}",
    "bar-lower": f"fill:{QUIET};fill-opacity:0.45",
    "bar-unjudged": f"fill:none;stroke:{QUIET};stroke-dasharray:3 2.5",
    "zero": f"stroke:{INK};fill:none",
    # What differs: told apart by the kind of line and by the letter of its tag; colour only helps.
    "mark-new": "fill:none;stroke:#1b6b3a",
    "mark-changed": "fill:none;stroke:#6b3fa0;stroke-dasharray:8 4",
    "mark-gone": f"fill:none;stroke:{WARNING};stroke-dasharray:1.5 3.5",
    "mark-follows": f"fill:none;stroke:{LIMIT};stroke-dasharray:9 3 2 3",
    "mark-tag": f"fill:{PAPER};stroke:{INK};stroke-width:1",
    "mark-leader": f"stroke:{INK};fill:none",
    "stamp": f"fill:none;stroke:{WARNING};stroke-width:1.4",
}


def pipe_stroke(gas_od_m: float | None) -> float:
    """Give the weight of a drawn run [px], which follows the gas tube; the least one where its size is unknown."""
    if gas_od_m is None:
        return 1.3
    return min(max(gas_od_m * 1000 * 0.2 - 0.4, 1.4), 9.0)
