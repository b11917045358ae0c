"""Schedules of runs, of fittings and of the charge."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import Evaluation, SystemResult
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.takeoff.tubes import all_tubes
from linewright.takeoff.wanted import wanted
from linewright.units import Dimension

_LENGTH, _MASS = Dimension.LENGTH, Dimension.MASS


def runs(evaluation: Evaluation, *, as_built: bool = False) -> Table:
    """Every tube of every run and module pipe, a row for each; wall and temper are those that are bought."""
    columns = (
        Column("system", "system"),
        Column("run", "run"),
        Column("from", "from"),
        Column("line", "line"),
        Column("od", "outside diameter", Dimension.TUBE),
        Column("wall", "least wall", Dimension.TUBE),
        Column("temper", "temper"),
        Column("length", "length", _LENGTH),
        Column("equivalent", "equivalent length", _LENGTH),
        Column("rise", "rise", _LENGTH),
        Column("bends", "bends", Dimension.NUMBER),
        Column("index", "index beyond", Dimension.NUMBER),
        Column("source", "size from"),
        Column("page", "page"),
    )
    rows = tuple(row for result in evaluation.systems for row in _tubes(result, as_built=as_built))
    return Table("runs", "Runs and module pipes", columns, rows)


def _tubes(result: SystemResult, *, as_built: bool) -> Iterator[tuple[Cell, ...]]:
    pipes = {pipe.id: pipe for pipe in result.outdoor.pipes}
    found = {run.id: run for run in result.runs}
    ofs = len([pipe for pipe in result.outdoor.pipes for _ in pipe.tubes])
    for position, tube in enumerate(all_tubes(result, as_built=as_built)):
        bought = None if tube.od_m is None else wanted(result, tube.od_m).material
        wall, temper = (None, None) if bought is None else (bought.wall_m, bought.temper or None)
        page: int | None
        if position < ofs:
            pipe = pipes[tube.run]
            before, equivalent, rise, index = pipe.from_, pipe.equivalent_m, pipe.rise_m, pipe.served_index
            source, page = pipe.source[tube.role], None
        else:
            run = found[tube.run]
            before, equivalent, rise, index = run.from_, run.equivalent_m, run.rise_m, run.downstream_index
            size = run.tubes[tube.role]
            source, page = ("capped" if size.capped_at_m is not None else size.source), size.row and size.row.page
        head = (tube.system, tube.run, before, tube.role.word, tube.od_m, wall, temper, tube.length_m)
        yield (*head, equivalent, rise, tube.bends, index, source, "" if page is None else page)


def fittings(evaluation: Evaluation) -> Table:
    """Joints, headers, boxes and couplings, and the joints between modules."""
    columns = (
        Column("system", "system"),
        Column("id", "id"),
        Column("kind", "kind"),
        Column("model", "model"),
        Column("index", "index", Dimension.NUMBER),
        Column("ports", "ports", Dimension.NUMBER),
        Column("used", "ports used", Dimension.NUMBER),
        Column("elevation", "elevation", _LENGTH),
        Column("page", "page"),
    )
    rows: list[tuple[Cell, ...]] = []
    for result in evaluation.systems:
        for joint in result.outdoor.joints:
            page = "" if joint.row is None or joint.row.page is None else joint.row.page
            rows.append((result.id, joint.id, "outdoor joint", joint.model or None, joint.index, "", "", "", page))
        for item in result.fittings:
            page = "" if item.row is None or item.row.page is None else item.row.page
            model = item.model or (None if item.kind.value != "coupling" else "")
            ports: tuple[Cell, Cell] = ("", "") if item.ports is None else (item.ports, item.ports_used)
            rows.append((result.id, item.id, item.kind.value, model, item.index, *ports, item.elevation_m, page))
    return Table("fittings", "Fittings", columns, tuple(rows))


def charge(evaluation: Evaluation) -> Table:
    """The charge worksheet: every term, their sum, what is weighed in, the total."""
    columns = (
        Column("system", "system"),
        Column("refrigerant", "refrigerant"),
        Column("term", "term"),
        Column("length", "length", _LENGTH),
        Column("rate", "per length", Dimension.LINEAR_MASS),
        Column("mass", "mass", _MASS),
        Column("missing", "without"),
    )
    rows = tuple(row for result in evaluation.systems for row in _terms(result))
    return Table("charge", "Charge worksheet", columns, rows)


def _terms(result: SystemResult) -> Iterator[tuple[Cell, ...]]:
    name, found = result.state.ground.book.book.refrigerant, result.charge
    for term in found.terms:
        length: Cell = "" if term.length_m is None else term.length_m
        rate: Cell = "" if term.kg_per_m is None else term.kg_per_m
        yield result.id, name, term.name, length, rate, term.kg, term.missing
    missing = ", ".join(found.missing)
    for text, kg in (
        ("sum of the terms", found.sum_kg),
        ("additional charge before rounding", found.unrounded_kg),
        ("additional charge, to be weighed in", found.rounded_kg),
        ("factory charge", found.factory_kg),
        ("total charge", found.total_kg),
    ):
        yield result.id, name, text, "", "", kg, "" if text == "factory charge" else missing
