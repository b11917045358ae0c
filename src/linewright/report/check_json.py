"""`linewright/check/1`: an evaluation as JSON. Keys carry units, except where the unit stands beside."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import Any, Protocol, TypeVar

from linewright.engine.boxes import Box
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.figures import ChargeResult, ChargeTerm, Series
from linewright.engine.outdoor_records import ModulePipeResult
from linewright.engine.records import (
    ActionResult,
    Check,
    Evaluation,
    FittingResult,
    MeasureResult,
    ModeFigures,
    NeedResult,
    RoomResult,
    RunResult,
    SystemResult,
    UnitResult,
)
from linewright.report.pipework_json import pipework_json
from linewright.report.safety_json import safety_json

SCHEMA = "linewright/check/1"
Json = dict[str, Any]
T = TypeVar("T")


class Put(Protocol):
    """Puts parts in, each in the form in which it is wanted."""

    def rows(self, name: Hashable, rows: Sequence[T], make: Callable[[T], Json]) -> list[Any]:
        """Give rows, of which there are many and most stay as they were; `make` gives one as plain values.

        name : told apart by it from all others of the same `make`
        """

    def part(self, name: Hashable, make: Callable[..., Any], *of: Any) -> Any:  # noqa: ANN401 - in whatever form
        """Give a part that is made anew each time and is often what it was; `make` gives it as plain values.

        name : told apart by it from all others of the same `make`
        """


class _Plainly:
    """Puts everything in as plain values."""

    def rows(self, name: Hashable, rows: Sequence[T], make: Callable[[T], Json]) -> list[Any]:  # noqa: ARG002 - as `Put`
        return [make(row) for row in rows]

    def part(self, name: Hashable, make: Callable[..., Any], *of: Any) -> Any:  # noqa: ANN401, ARG002 - as `Put` has it
        return make(*of)


_PLAINLY = _Plainly()


def check_json(evaluation: Evaluation, *, cures: bool = True, put: Put = _PLAINLY) -> Json:
    """Give the whole evaluation as plain values, lists sorted by id (limits and terms in book order).

    cures : whether to search for what would make a room pass its refrigerant, which takes a while
    put : in which form what is much is given
    """
    return {
        "schema": SCHEMA,
        "project": evaluation.design.project,
        "standing": evaluation.standing.value,
        "books": dict(evaluation.books),
        "systems": [_system(system, cures=cures, put=put) for system in evaluation.systems],
        "rooms": put.rows(evaluation.design.project, evaluation.rooms, _room),
        "cautions": list(evaluation.cautions),
    }


def _system(system: SystemResult, *, cures: bool, put: Put) -> Json:
    found = _of_book(system, put)
    if system.safety is not None:
        found["refrigerant"] = safety_json(system.safety, cures=cures)
    if system.pipework is not None:
        found["pipework"] = pipework_json(system.pipework)
    return found


def _of_book(system: SystemResult, put: Put) -> Json:
    name = system.id
    return {
        "id": system.id,
        "name": system.name,
        "book": system.book,
        "group": system.group,
        "outdoor_index": system.outdoor_index,
        "indoor_index": system.indoor_index,
        "measures": [put.part((name, item.key), _measure, item) for item in system.measures],
        "limits": [put.part((name, i), _check, check) for i, check in enumerate(system.limits)],
        "unstated": list(system.unstated),
        "checks": put.part(name, _checks, system.checks),
        "actions": put.part(name, _actions, system.actions),
        "runs": put.rows(name, system.runs, _run),
        "fittings": put.part(name, _fittings, system.fittings, system.state.ground.boxes),
        "module_pipes": [_module_pipe(pipe) for pipe in system.outdoor.pipes],
        "outdoor_joints": [
            {"id": joint.id, "index": joint.index, "arms": joint.arms, "model": joint.model or None}
            for joint in system.outdoor.joints
        ],
        "units": put.rows(name, system.units, _unit),
        "capacity": {
            mode: _capacity(figures)
            for mode, figures in (("cooling", system.cooling), ("heating", system.heating))
            if figures is not None
        },
        "charge": _charge(system.charge),
        "notes": [{"subject": note.subject, "text": note.text} for note in system.notes],
    }


def _measure(item: MeasureResult) -> Json:
    found: Json = {"name": item.name, "unit": item.dimension.si, "value": item.series.value}
    if item.variant:
        found["variant"] = item.variant
    if item.series.values and not item.series.spread:
        found["by_subject"] = dict(sorted(item.series.values.items()))
    return found | _lacking(item.series)


def _lacking(series: Series) -> Json:
    found: Json = {}
    if not series.applicable:
        found["applicable"] = False
    if series.incomplete:
        found["lower_bounds"] = sorted(series.incomplete)
    if series.missing:
        found["missing"] = sorted(series.missing)
    return found


def _check(check: Check) -> Json:
    found: Json = {
        "measure": check.measure,
        "value": check.value,
        "bound": check.bound,
        "unit": check.dimension.si,
        "sense": check.sense.value,
        "standing": check.standing.value,
        "margin": check.margin,
        "governs": sorted(check.governs),
        "page": check.page,
    }
    if check.plain_bound is not None:
        found["plain_bound"] = check.plain_bound
    if check.relaxed:
        found["relaxed"] = [
            {
                "bound": tried.bound,
                "page": tried.page,
                "holds": tried.holds,
                "needs": [_need(n) for n in tried.needs],
            }
            for tried in check.relaxed
        ]
    if check.missing:
        found["missing"] = sorted(check.missing)
    if check.left is not None:
        found["left"] = check.left
    if check.note:
        found["note"] = check.note
    return found


def _checks(checks: Iterable[Check]) -> list[Json]:
    return [_check(check) | {"subject": check.subject, "kind": check.kind.value} for check in checks]


def _need(need: NeedResult) -> Json:
    found: Json = {"need": need.text, "holds": need.holds}
    if need.bound is not None:
        found |= {"value": need.value, "bound": need.bound, "unit": need.dimension.si}
    if need.missing:
        found["missing"] = sorted(need.missing)
    return found


def _actions(actions: Iterable[ActionResult]) -> list[Json]:
    return [
        {
            "id": action.id,
            "mandatory": action.mandatory,
            "due": action.due,
            "chosen": action.chosen,
            "forbidden": action.forbidden,
            "carried_out": action.carried_out,
            "runs": list(action.runs),
            "why_not": action.why_not,
            "page": action.page,
        }
        for action in actions
    ]


def _run(run: RunResult) -> Json:
    found: Json = {
        "id": run.id,
        "from": run.from_,
        "to": run.to,
        "length_m": run.length_m,
        "equivalent_m": run.equivalent_m,
        "rise_m": run.rise_m,
        "rise_assumed": run.assumed_rise,
        "downstream_index": run.downstream_index,
        "main": run.is_main,
    }
    if run.ports:
        found["ports"] = list(run.ports)
    for role in sorted(run.tubes):
        tube = run.tubes[role]
        found[f"{role}_od_m"] = tube.od_m
        found[f"{role}_table_od_m"] = tube.table_m
        found[f"{role}_source"] = "capped" if tube.capped_at_m is not None else tube.source
    return found


def _fittings(fittings: Iterable[FittingResult], boxes: Iterable[Box]) -> list[Json]:
    by_id = {box.id: box for box in boxes}
    return [_fitting(fitting, by_id.get(fitting.id)) for fitting in fittings]


def _fitting(fitting: FittingResult, box: Box | None) -> Json:
    found: Json = {
        "id": fitting.id,
        "kind": fitting.kind.value,
        "model": fitting.model or None,
        "index": fitting.index,
        "elevation_m": fitting.elevation_m,
        "elevation_assumed": fitting.assumed_elevation,
    }
    if fitting.ports is not None:
        found |= {
            "ports": fitting.ports,
            "ports_used": fitting.ports_used,
            "caps": fitting.ports - fitting.ports_used,
        }
    if box is not None:
        found |= {"own_index": box.own_index, "through_index": box.through_index, "boxes_on_way": box.depth}
    return found


def _module_pipe(pipe: ModulePipeResult) -> Json:
    found: Json = {
        "id": pipe.id,
        "from": pipe.from_,
        "length_m": pipe.length_m,
        "equivalent_m": pipe.equivalent_m,
        "rise_m": pipe.rise_m,
        "served_index": pipe.served_index,
    }
    for role in sorted(pipe.tubes):
        found[f"{role}_od_m"] = pipe.tubes[role]
        found[f"{role}_source"] = pipe.source[role]
    return found


def _unit(unit: UnitResult) -> Json:
    return {
        "id": unit.id,
        "model": unit.model,
        "room": unit.room or None,
        "index": unit.index,
        "reach_m": unit.reach_m,
        "equivalent_reach_m": unit.equivalent_reach_m,
        "elevation_m": unit.elevation_m,
        "cooling": figures(unit.cooling),
        "sensible": figures(unit.sensible),
        "heating": figures(unit.heating),
    }


def figures(item: ModeFigures) -> Json:
    """What is needed and delivered in one mode [W]."""
    return {
        "needed_w": item.needed_w,
        "rating_w": item.rating_w,
        "delivered_w": item.delivered_w,
        "coincident_w": item.coincident_w,
    }


def _capacity(capacity: SystemCapacity) -> Json:
    return {
        "rated_w": capacity.rated_w,
        "by_table": capacity.power is not None,
        "input_w": None if capacity.used is None else capacity.used.input_w,
        "factors": [
            {
                "name": factor.name,
                "value": factor.value,
                "page": factor.page,
                "missing": factor.missing or None,
            }
            for factor in capacity.factors
        ],
        "length_by_unit": {
            name: capacity.unit_length_factors[name].value for name in sorted(capacity.unit_length_factors)
        },
        "capacity_w": capacity.capacity_w,
        "delivered_w": capacity.delivered_w,
        "block_w": capacity.block_w,
        "coincident_w": capacity.coincident_w,
        "missing": list(capacity.missing),
    }


def _charge(charge: ChargeResult) -> Json:
    return {
        "factory_kg": charge.factory_kg,
        "terms": _terms(charge.terms),
        "sum_kg": charge.sum_kg,
        "unrounded_kg": charge.unrounded_kg,
        "rounded_kg": charge.rounded_kg,
        "total_kg": charge.total_kg,
        "missing": list(charge.missing),
    }


def _terms(terms: Sequence[ChargeTerm]) -> list[Json]:
    found = []
    for term in terms:
        item: Json = {"term": term.name, "kg": term.kg}
        if term.length_m is not None:
            item |= {"length_m": term.length_m, "kg_per_m": term.kg_per_m}
        if term.missing:
            item["missing"] = term.missing
        found.append(item)
    return found


def _room(room: RoomResult) -> Json:
    return {
        "id": room.id,
        "name": room.name,
        "level": room.level,
        "units": list(room.units),
        "cooling": figures(room.cooling),
        "sensible": figures(room.sensible),
        "heating": figures(room.heating),
        "checks": [_check(check) | {"subject": check.subject} for check in room.checks],
    }
