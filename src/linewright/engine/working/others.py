"""Working of fittings, size actions and the indoor index."""

from __future__ import annotations

from linewright.engine.working.boxes import box_steps
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.model.tree import is_branch
from linewright.units import Dimension


def fitting_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """The row of the fitting table, by the index that judges it."""
    fitting = next((item for item in at.result.fittings if item.id == name), None)
    if fitting is None:
        return None
    boxed = box_steps(at, name)
    if boxed is not None:
        return boxed
    if not is_branch(fitting.kind):
        return (Step(f"{fitting.kind} {name}", "stated", (), Dimension.NUMBER, None, note="no fitting of the book"),)
    row, tree = fitting.row, at.result.tree
    first = tree.first_branch is not None and tree.ids[tree.first_branch] == name
    where = at.group_path() if first else at.subject(f"run:{name}.index")
    if row is None or row.number is None or row.upper is None:
        return (
            Step(
                f"fitting at {name}",
                "stated",
                (),
                Dimension.NUMBER,
                None,
                note="no row of the table serves it",
            ),
        )
    place = at.in_book(f"{row.path}[{row.position}]")
    inputs = (
        Input(
            "index of the outdoor group" if first else f"index through {name}",
            row.number,
            Dimension.NUMBER,
            where,
        ),
        Input("upper edge of the row", row.upper, Dimension.NUMBER, place),
    )
    step = Step(
        f"left in the row of {fitting.model}",
        "difference",
        inputs[::-1],
        Dimension.NUMBER,
        row.upper - row.number,
        row.path,
        row.position,
        row.page,
        note=f"{fitting.model}" + (f": {fitting.ports_used} of {fitting.ports} ports used" if fitting.ports else ""),
    )
    return (step,)


def action_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """What became of a size action and the runs that it touches."""
    action = next((item for item in at.result.actions if item.id == name), None)
    if action is None:
        return None
    position = next(i for i, item in enumerate(at.result.state.ground.book.book.sizing.actions) if item.id == name)
    where = f"sizing.actions[{position}]"
    runs = tuple(Input(f"run {run}", 1.0, Dimension.NUMBER, at.run_path(run)) for run in action.runs)
    due = "due" if action.due else "not due"
    kind = "mandatory" if action.mandatory else "elective"
    done = "carried out" if action.carried_out else action.why_not or "not chosen"
    note = f"{kind}, {due}; {done}"
    return (
        Step(
            f"runs touched by {name}",
            "count",
            runs,
            Dimension.NUMBER,
            float(len(runs)),
            where,
            page=action.page,
            note=note,
        ),
    )


def indoor_index_steps(at: Places) -> tuple[Step, ...]:
    """Sum of the indices of all units."""
    units = at.result.system.units
    inputs = tuple(
        Input(f"index of {u.id}", at.units[u.id].index, Dimension.NUMBER, at.model_path(u.model)) for u in units
    )
    return (Step("indoor index", "total", inputs, Dimension.NUMBER, at.result.indoor_index),)
