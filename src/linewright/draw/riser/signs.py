"""The signs of a riser diagram: only those that it uses."""

from __future__ import annotations

from linewright.draw.paper.marks import FINE, TUBE_LAYERS, Ink, Layer, Mark, Pen, Plain, Stroke, Symbol, Words
from linewright.draw.paper.panels import Sign
from linewright.draw.primitives import Anchor, Weight
from linewright.draw.riser import symbols
from linewright.draw.riser.compose import Picture, tube_pen
from linewright.draw.riser.wording import ABOUT
from linewright.draw.run_words import OVERRIDE_SIGN, ROLE_ORDER, STEP_SIGN
from linewright.draw.wording import UNKNOWN

_LENGTHS = (
    "Sizes are outside diameters, gas side first; lengths are developed lengths of tube. "
    "Widths are not to scale: take no length from this drawing but heights."
)


def riser_signs(picture: Picture) -> tuple[Sign, ...]:
    """Give the signs that a riser diagram uses, with what they mean."""
    found = [
        Sign((Stroke("", TUBE_LAYERS[role], -4, 0, 4, 0, tube_pen(role)),), f"{role.word} line")
        for role in ROLE_ORDER
        if role in picture.roles
    ]
    found.append(Sign((_small(symbols.joint_marks()),), "joint, with its tag"))
    if picture.couplings:
        found.append(Sign((_small(symbols.coupling_marks()),), "coupling"))
    if picture.bars:
        found.append(Sign((_small(symbols.bar_marks(7, 2.2, box=False), -3.5),), "header or mode box"))
    if picture.breaks:
        found.append(
            Sign(
                (Stroke("", Layer.NOTE, 0, -2, 0, 2, Pen(FINE)), *symbols.break_marks()),
                "not drawn to its true height: the stated level counts",
            )
        )
    text = "".join(f"{word}" for words in picture.said for word in words)
    if ABOUT in text:
        found.append(
            Sign((_sign(ABOUT),), "level not stated: drawn at the pipe before it, or where the evaluation assumes it")
        )
    if STEP_SIGN in text:
        found.append(Sign((_sign(STEP_SIGN),), "size put up by a size action"))
    if OVERRIDE_SIGN in text:
        found.append(Sign((_sign(OVERRIDE_SIGN),), "size set by the designer"))
    if UNKNOWN in text:
        found.append(Sign((_sign(UNKNOWN),), "not known"))
    found.append(
        Sign(
            (),
            _LENGTHS,
        )
    )
    return tuple(found)


def _small(marks: tuple[Plain, ...], x: float = 0.0) -> Mark:
    return Symbol("", Layer.NOTE, x, 0.0, "", marks, ())


def _sign(text: str) -> Words:
    return Words("", Layer.NOTE, 0.0, 0.9, text, 2.5, Weight.SEMIBOLD, Anchor.MIDDLE, Ink.DARK)
