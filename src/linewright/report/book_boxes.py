"""Mode boxes of a book in words, for the person who compares it with the maker's pages."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linewright.book.schema import Boxes, BoxModel
from linewright.model.values import Role
from linewright.units import UnitSystem, tube_name


def box_words(model: BoxModel, system: UnitSystem) -> Iterator[str]:
    """What a box says beside its ports and its index."""
    if model.port_index is not None:
        yield f"index of a port at most {model.port_index:g}"
    if model.units_per_port is not None:
        yield f"units on a port at most {model.units_per_port}"
    for joined in model.joined:
        most = (("index", joined.index), ("units", joined.units))
        words = [f"{name} at most {bound:g}" for name, bound in most if bound is not None]
        yield f"{joined.ports} ports may be joined" + (f": {', '.join(words)}" if words else "")
    if model.series_index is not None:
        yield f"index carried on at most {model.series_index:g}"
    if model.connections:
        yield f"connections {_tubes(model.connections, system)}"
    if model.outlet is not None and model.outlet.sizes:
        yield f"ports {_tubes(model.outlet.sizes, system)}"


def standing_words(boxes: Boxes) -> Iterator[str]:
    """What holds for all boxes: how many one behind another, and who may do without one."""
    series, direct = boxes.series, boxes.direct
    if series is None:
        yield "No box may stand behind another."
    else:
        yield f"Boxes one behind another{_page(series.page)}: at most {series.max}."
    if direct is None:
        yield "Every unit wants a box before it."
    else:
        whom = ", ".join([*direct.kind, *direct.model]) or "any unit"
        yield f"Without a box, and then cooling only{_page(direct.page)}: {whom}."


def _tubes(sizes: Mapping[Role, float], system: UnitSystem) -> str:
    return ", ".join(f"{role.word} {tube_name(size, system)}" for role, size in sizes.items())


def _page(number: int | None) -> str:
    return "" if number is None else f" (page {number})"
