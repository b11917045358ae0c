"""What can be wrong with the mode boxes of a book, and with what only a heat-recovery book has."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from linewright.book.naming import check_known, check_once
from linewright.book.quantities import Report, check_not_negative, check_positive
from linewright.book.roles import GAS_SIDE, LIQUID_SIDE, UNIT_ROLES, direct_roles, is_recovery, outer_roles
from linewright.book.schema import Book, BoxModel, Direct, Joined
from linewright.errors import listed
from linewright.model.values import Role
from linewright.units import same_tube


def check_boxes(book: Book, report: Report) -> None:
    """Note what is wrong with mode boxes, or with a book that should have some or none."""
    if not is_recovery(book):
        _check_none(book, report)
        return
    _check_outer(book, report)
    boxes = book.boxes
    if boxes is None or not boxes.models:
        where = "boxes" if boxes is None else "boxes.models"
        report(where, "a heat-recovery book has mode boxes, and this one names none", "boxes: with at least one model")
        return
    check_once([model.model for model in boxes.models], "boxes.models", "model", report=report)
    for i, model in enumerate(boxes.models):
        _check_model(model, f"boxes.models[{i}]", book, report=report)
    if boxes.series is not None and boxes.series.max < 1:
        report("boxes.series.max", "no box could stand anywhere", "1 or more")
    if boxes.direct is not None:
        _check_direct(boxes.direct, book, report)
    _check_charge(book, report)


def _check_none(book: Book, report: Report) -> None:
    """What a heat pump does not have."""
    parts = {
        "boxes": book.boxes,
        "sizing.below_box": book.sizing.below_box,
        "fittings.below_box": book.fittings.below_box,
        "fittings.below_box_header": book.fittings.below_box_header,
        "charge.box": book.charge.box or None,
        "charge.box_each": book.charge.box_each_kg,
    }
    for path, part in parts.items():
        if part is not None:
            report(path, "a heat pump has no mode boxes", "kind: heat-recovery, or no such key")


def _check_outer(book: Book, report: Report) -> None:
    outer = outer_roles(book)
    if not outer:
        return
    if Role.GAS in outer:
        message = "up to the mode boxes no tube is a gas line: it is one only between a box and its units"
        report("sizing.main.rows[0].gas", message, "suction, or low where two tubes lead to the boxes")
        return
    for options, what in ((GAS_SIDE[1:], "the gas side"), (LIQUID_SIDE, "the liquid side")):
        if not set(options) & set(outer):
            right = " or ".join(f"{role}:" for role in options)
            report("sizing.main.rows", f"no tube up to the mode boxes is {what}", right)


def _check_model(model: BoxModel, path: str, book: Book, *, report: Report) -> None:
    if model.ports < 1:
        report(f"{path}.ports", "the box has no port", "1 or more")
    positive = {"index": model.index, "port_index": model.port_index, "series_index": model.series_index}
    check_positive(positive, path, report)
    if model.units_per_port is not None and model.units_per_port < 1:
        report(f"{path}.units_per_port", "no unit could hang on a port", "1 or more")
    counts = [joined.ports for joined in model.joined]
    for i, joined in enumerate(model.joined):
        where = f"{path}.joined[{i}]" if len(model.joined) > 1 else f"{path}.joined"
        _check_joined(joined, where, model, report=report)
        if joined.ports in counts[:i]:
            report(f"{where}.ports", f"{joined.ports} joined ports stand twice", "each number of ports once")
    _check_tubes(model.connections, path, outer_roles(book), "up to the mode boxes", book=book, report=report)
    if model.outlet is not None:
        _check_tubes(model.outlet.sizes, f"{path}.outlet", UNIT_ROLES, "behind a mode box", book=book, report=report)


def _check_joined(joined: Joined, path: str, model: BoxModel, *, report: Report) -> None:
    if not 2 <= joined.ports <= max(model.ports, 2):
        report(f"{path}.ports", f"{joined.ports} ports of a box of {model.ports} cannot be joined", "2 or more of them")
    check_positive({"index": joined.index}, path, report)
    if joined.units is not None and joined.units < 1:
        report(f"{path}.units", "no unit could hang on the joined ports", "1 or more")


def _check_tubes(
    sizes: Mapping[Role, float], path: str, roles: Sequence[Role], where: str, *, book: Book, report: Report
) -> None:
    for role, size in sizes.items():
        ladder = book.tubes.ladders.get(role, ())
        if role not in roles:
            report(f"{path}.{role}", f"there is no {role} tube {where}", listed(roles))
        elif ladder and not any(same_tube(size, step) for step in ladder):
            message = f"{size * 1000:g} mm is not on the ladder of {role} tubes"
            report(f"{path}.{role}", message, "a size that stands under tubes")


def _check_direct(direct: Direct, book: Book, report: Report) -> None:
    if not direct_roles(book):
        message = "a unit without a box wants a liquid and a suction tube, and the main of this book has not both"
        report("boxes.direct", message, "no key 'direct'")
    _check_names(direct.kind, {model.kind for model in book.indoor.models}, "kind", "kind of indoor unit", report)
    _check_names(direct.model, {model.model for model in book.indoor.models}, "model", "indoor model", report)


def _check_names(names: Sequence[str], known: Iterable[str], key: str, what: str, report: Report) -> None:  # noqa: PLR0917
    for i, name in enumerate(names):
        check_known(name, set(known), f"boxes.direct.{key}[{i}]", what=what, report=report)


def _check_charge(book: Book, report: Report) -> None:
    models = {model.model for model in book.boxes.models} if book.boxes is not None else set()
    for name, mass_kg in book.charge.box.items():
        check_known(name, models, f"charge.box.{name}", what="mode box", report=report)
        check_not_negative({name: mass_kg}, "charge.box", report)
    check_not_negative({"box_each": book.charge.box_each_kg}, "charge", report)
