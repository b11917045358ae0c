"""Working of the outdoor side: module pipes, and the joints between modules."""

from __future__ import annotations

from linewright.engine.outdoor_records import ModulePipeResult
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.model.design import ROOT
from linewright.model.values import Role
from linewright.units import Dimension


def module_pipe_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """The index that a module pipe serves, its equivalent length along each judged tube, and its sizes."""
    pipe = next((item for item in at.result.outdoor.pipes if item.id == name), None)
    if pipe is None:
        return None
    return (
        _served(at, pipe),
        *(_tube(at, pipe, role) for role in sorted(pipe.tubes)),
        *(_length(at, pipe, role) for role in at.result.state.lengths.roles),
    )


def outdoor_joint_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """The row of the table of outdoor joints, by the index that judges it."""
    joint = next((item for item in at.result.outdoor.joints if item.id == name), None)
    if joint is None:
        return None
    if joint.row is None or joint.row.number is None or joint.row.upper is None:
        note = "the book gives no outdoor joints" if at.result.state.ground.book.outdoor_joint is None else "no row"
        return (Step(f"outdoor joint at {name}", "stated", (), Dimension.NUMBER, None, note=note),)
    index_from = at.group_path() if name == ROOT else at.subject(f"module_pipe:{name}")
    inputs = (
        Input(
            "upper edge of the row",
            joint.row.upper,
            Dimension.NUMBER,
            at.in_book(f"{joint.row.path}[{joint.row.position}]"),
        ),
        Input(f"index through {name}", joint.index, Dimension.NUMBER, index_from),
    )
    return (
        Step(
            f"left in the row of {joint.model}",
            "difference",
            inputs,
            Dimension.NUMBER,
            joint.row.upper - joint.index,
            joint.row.path,
            joint.row.position,
            joint.row.page,
            note=joint.model,
        ),
    )


def _position(at: Places, pipe: ModulePipeResult) -> int:
    return next(i for i, run in enumerate(at.result.system.outdoor.pipes) if run.to == pipe.id)


def _path(at: Places, pipe: ModulePipeResult) -> str:
    return f"design:{at.system_path}.outdoor.pipes[{_position(at, pipe)}]"


def _served(at: Places, pipe: ModulePipeResult) -> Step:
    ground, position = at.result.state.ground, _position(at, pipe)
    models = [module.model for module in ground.book.book.outdoor.modules]
    inputs = tuple(
        Input(
            f"index of {module.id}",
            module.data.index,
            Dimension.NUMBER,
            at.in_book(f"outdoor.modules[{models.index(module.data.model)}]"),
        )
        for module in ground.modules
        if position in module.path
    )
    return Step(f"index served by {pipe.id}", "total", inputs, Dimension.NUMBER, pipe.served_index)


def _tube(at: Places, pipe: ModulePipeResult, role: Role) -> Step:
    name, size, source = f"{role.word} tube of {pipe.id}", pipe.tubes[role], pipe.source[role]
    if size is None:
        return Step(name, "stated", (), Dimension.TUBE, None, note="no row and no port gives it")
    if source == "override":
        where = f"{_path(at, pipe)}.override.{role}"
    elif source == "ports":
        where = at.in_book("outdoor.modules")
    else:
        where = at.in_book("sizing.module.rows")
    item = Input("size as given", size, Dimension.TUBE, where)
    table = at.result.state.ground.book.module_pipe
    page = table.page if table is not None and source == "table" else None
    return Step(name, "stated", (item,), Dimension.TUBE, size, page=page, note=source)


def _length(at: Places, pipe: ModulePipeResult, role: Role) -> Step:
    position = _position(at, pipe)
    equivalent, missing = at.result.state.ground.pipes.length_m[role][position]
    actual = pipe.length_m or 0.0
    inputs = (
        Input("length", actual, Dimension.LENGTH, f"{_path(at, pipe)}.length"),
        Input("bends, items and joints", equivalent - actual, Dimension.LENGTH, at.in_book("fittings.allowance")),
    )
    note = "a lower bound: a length or an allowance is missing" if missing else ""
    name = f"equivalent length of {pipe.id} by its {role.word} tube"
    return Step(name, "total", inputs, Dimension.LENGTH, equivalent, "fittings.allowance", note=note)
