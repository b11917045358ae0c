"""Verdicts on mode boxes: model, ports, what they carry, boxes in series, units that have none before them."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.measures import MeasureName
from linewright.book.schema import Direct, FromBox
from linewright.engine.box_bounds import box_bounds
from linewright.engine.boxes import Box, joined_of
from linewright.engine.ground import Ground
from linewright.engine.records import Check, CheckKind, Sense, Standing
from linewright.model.values import NodeKind
from linewright.units import Dimension, over

#: What a box states for itself, by measure, in words.
STATED = {
    MeasureName.BOX_INDEX: "its ports carry more than this box may",
    MeasureName.THROUGH_INDEX: "it carries on more than this box may",
    MeasureName.PORT_INDEX: "a port carries more than one port of this box may",
    MeasureName.UNITS_PER_PORT: "more units hang on a port than one port of this box may carry",
}


def box_checks(ground: Ground) -> Iterator[Check]:
    """Whatever is wrong with the boxes of a system; what a limit of the book judges box by box is left to it."""
    for box in ground.boxes:
        yield from _model(ground, box)
        yield from _ports(ground, box)
        yield from _joined(ground, box)
        yield from _series(ground, box)
    yield from _stated(ground)
    yield from _direct(ground)


def _model(ground: Ground, box: Box) -> Iterator[Check]:
    if box.model is None:
        yield _over(ground, box.id, "fitting")._replace(
            value=box.own_index,
            note=f"no box of this book has {_counted(len(box.used), 'port')} and carries an index of {box.own_index:g}",
        )


def _ports(ground: Ground, box: Box) -> Iterator[Check]:
    if box.model is not None and max((len(box.used), *box.used)) > box.model.ports:
        most = float(max((len(box.used), *box.used)))
        yield _over(ground, box.id, "box_ports")._replace(
            value=most,
            bound=float(box.model.ports),
            margin=box.model.ports - most,
            note=f"{box.model.model} has no port {most:.0f}",
        )
    if box.reused:
        runs = [ground.tree.ids[o.run] for o in box.outlets if set(o.ports) & set(box.reused)]
        ports = ", ".join(str(port) for port in box.reused)
        yield _over(ground, box.id, "box_ports_twice")._replace(
            governs=tuple(sorted(runs)), note=f"port {ports} is used by more than one run"
        )
    stated = sorted(ground.tree.ids[i] for i in box.through if ground.tree.runs[i].ports)
    if stated:
        yield _over(ground, box.id, "box_through")._replace(
            governs=tuple(stated),
            note="pipe to another box leaves by the through pipe of a box, not by a port",
        )


def _joined(ground: Ground, box: Box) -> Iterator[Check]:
    if box.model is None:
        return
    wrong = [o for o in box.outlets if len(o.ports) > 1 and joined_of(box.model, len(o.ports)) is None]
    if wrong:
        yield _over(ground, box.id, "joined_ports")._replace(
            value=float(len(wrong[0].ports)),
            governs=tuple(sorted(ground.tree.ids[outlet.run] for outlet in wrong)),
            note=f"{box.model.model} lets no {len(wrong[0].ports)} ports be joined",
        )


def _series(ground: Ground, box: Box) -> Iterator[Check]:
    declared = ground.book.book.boxes
    series = None if declared is None else declared.series
    most = 1 if series is None else series.max
    if box.depth <= most:
        return
    yield _over(ground, box.id, "boxes_in_series")._replace(
        value=float(box.depth),
        bound=float(most),
        margin=float(most - box.depth),
        page=None if series is None else series.page,
        note="this book lets no box stand behind another" if series is None else "too many boxes one behind another",
    )


def _stated(ground: Ground) -> Iterator[Check]:
    """What the boxes state for themselves, where no limit of the book asks for it."""
    limited = {limit.measure for limit in ground.book.book.limits if isinstance(limit.max, FromBox)}
    for measure, words in STATED.items():
        if measure in limited:
            continue
        values = _values(ground, measure)
        for name, bound in box_bounds(ground, measure).by_item.items():
            if over(values[name], bound):
                yield _over(ground, _box_of(ground, name), measure.value)._replace(
                    value=values[name], bound=bound, margin=bound - values[name], governs=(name,), note=words
                )


def _values(ground: Ground, measure: MeasureName) -> dict[str, float]:
    ids, outlets = ground.tree.ids, [outlet for box in ground.boxes for outlet in box.outlets]
    if measure is MeasureName.BOX_INDEX:
        return {box.id: box.own_index for box in ground.boxes}
    if measure is MeasureName.THROUGH_INDEX:
        return {box.id: box.through_index for box in ground.boxes}
    if measure is MeasureName.PORT_INDEX:
        return {ids[outlet.run]: outlet.index for outlet in outlets}
    return {ids[outlet.run]: float(outlet.units) for outlet in outlets}


def _box_of(ground: Ground, name: str) -> str:
    """Box that an item belongs to: itself, or the one that a run leaves."""
    at = ground.tree.at[name]
    return name if ground.tree.kind[at] is NodeKind.BOX else ground.tree.ids[ground.tree.parent[at]]


def _direct(ground: Ground) -> Iterator[Check]:
    declared = ground.book.book.boxes
    allowed = None if declared is None else declared.direct
    for unit in sorted(ground.direct):
        name = ground.system.units[unit].id
        if allowed is None or not _is_allowed(ground, allowed, unit):
            check = _over(ground, name, "mode_box")
            yield check._replace(
                subject=f"{ground.system.id}/unit:{name}",
                page=None if allowed is None else allowed.page,
                note="this book wants a mode box before it",
            )


def _is_allowed(ground: Ground, direct: Direct, unit: int) -> bool:
    model = ground.models[unit]
    if not direct.kind and not direct.model:
        return True
    return model.kind in direct.kind or model.model in direct.model


def _over(ground: Ground, name: str, measure: str) -> Check:
    subject, kind = f"{ground.system.id}/fitting:{name}", CheckKind.FITTING
    return Check(
        subject, kind, measure, Dimension.NUMBER, Sense.MAX, Standing.OVER, governs=(name,), page=_page(ground, name)
    )


def _page(ground: Ground, name: str) -> int | None:
    box = next((box for box in ground.boxes if box.id == name), None)
    declared = ground.book.book.boxes
    if box is not None and box.model is not None and box.model.page is not None:
        return box.model.page
    return None if declared is None else declared.page


def _counted(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"
