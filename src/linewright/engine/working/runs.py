"""Working of a run: its equivalent length and its tubes."""

from __future__ import annotations

from linewright.book.schema import AllowanceAt
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step, from_row
from linewright.model.tree import NO_PARENT, is_branch
from linewright.model.values import NodeKind, Role
from linewright.units import Dimension


def length_steps(at: Places, run: str) -> tuple[Step, ...]:
    """The length as stated."""
    item = at.run_length(run, equivalent=False)
    known = at.runs[run].length_m
    return (
        Step(
            f"length of {run}",
            "stated",
            (item,),
            Dimension.LENGTH,
            known,
            note="" if known is not None else "unknown",
        ),
    )


def rise_steps(at: Places, run: str) -> tuple[Step, ...]:
    """The rise, stated or from levels."""
    record, tree = at.runs[run], at.result.tree
    position = tree.at[run]
    stated = tree.runs[position].rise_m
    if stated is not None:
        item = Input("rise as stated", stated, Dimension.LENGTH, f"{at.run_path(run)}.rise")
        return (Step(f"rise of {run}", "stated", (item,), Dimension.LENGTH, stated),)
    levels = at.result.state.ground.levels
    before = levels.root_m if tree.parent[position] == NO_PARENT else levels.node_m[tree.parent[position]]
    after = levels.node_m[position]
    if before is None or after is None:
        return (Step(f"rise of {run}", "difference", (), Dimension.LENGTH, None, note="a level is unknown"),)
    inputs = (
        Input("level at the far end", after, Dimension.LENGTH, at.subject(f"run:{run}.level")),
        Input("level at the near end", before, Dimension.LENGTH, _near_level(at, position)),
    )
    note = "an elevation is assumed" if record.assumed_rise else ""
    return (Step(f"rise of {run}", "difference", inputs, Dimension.LENGTH, record.rise_m, note=note),)


def level_steps(at: Places, run: str) -> tuple[Step, ...]:
    """Level of a run's far node: stated, carried by a rise from either end, or assumed."""
    levels, tree = at.result.state.ground.levels, at.result.tree
    position, name = tree.at[run], f"level of {run}"
    level, stated = levels.node_m[position], _stated_level(at, run)
    if level is None:
        return (Step(name, "stated", (), Dimension.LENGTH, None, note="unknown"),)
    if stated:
        return (Step(name, "stated", (Input(name, level, Dimension.LENGTH, stated),), Dimension.LENGTH, level),)
    if levels.assumed[position]:
        unit = levels.assumed_from[position]
        item = Input(f"level of {unit}", level, Dimension.LENGTH, at.subject(f"run:{unit}.level"))
        note = f"assumed: {unit} is the unit nearest downstream"
        return (Step(name, "stated", (item,), Dimension.LENGTH, level, note=note),)
    rise = tree.runs[position].rise_m
    before = levels.root_m if tree.parent[position] == NO_PARENT else levels.node_m[tree.parent[position]]
    if rise is not None and before is not None:
        near = Input("level at the near end", before, Dimension.LENGTH, _near_level(at, position))
        up = Input(f"rise of {run}", rise, Dimension.LENGTH, f"{at.run_path(run)}.rise")
        return (Step(name, "total", (near, up), Dimension.LENGTH, level),)
    return (_from_child(at, position, level),)


def _from_child(at: Places, position: int, level: float) -> Step:
    """A level less the rise of the run that leads on."""
    levels, tree = at.result.state.ground.levels, at.result.tree
    known = [i for i in tree.children[position] if tree.runs[i].rise_m is not None and not levels.assumed[i]]
    child = min((i for i in known if levels.node_m[i] is not None), key=lambda i: tree.ids[i])
    far = tree.ids[child]
    inputs = (
        Input(f"level of {far}", levels.node_m[child] or 0.0, Dimension.LENGTH, at.subject(f"run:{far}.level")),
        Input(f"rise of {far}", tree.runs[child].rise_m or 0.0, Dimension.LENGTH, f"{at.run_path(far)}.rise"),
    )
    return Step(f"level of {tree.ids[position]}", "difference", inputs, Dimension.LENGTH, level)


def equivalent_steps(at: Places, run: str, role: Role | None = None) -> tuple[Step, ...]:
    """Length, bends, items and fittings of a run."""
    state, tree = at.result.state, at.result.tree
    role = role if role is not None else state.lengths.roles[0]
    line = state.lengths.roles.index(role)
    parts = state.lengths.parts[line][tree.at[run]]
    allowance = at.in_book("fittings.allowance")
    inputs = (
        at.run_length(run, equivalent=False),
        Input(
            f"bends, {tree.runs[tree.at[run]].bends} counted",
            parts.bends_m or 0.0,
            Dimension.LENGTH,
            f"{allowance}.bend",
        ),
        Input("items on the run", parts.items_m or 0.0, Dimension.LENGTH, f"{at.run_path(run)}.items"),
        Input(_fitting_words(at, run), (parts.far_m or 0.0) + (parts.near_m or 0.0), Dimension.LENGTH, allowance),
    )
    lengths = state.lengths.equivalent[line]
    missing = lengths.run_missing[tree.at[run]]
    return (
        Step(
            f"equivalent length of {run}" + (f" by its {role.word} tube" if len(state.lengths.roles) > 1 else ""),
            "equivalent_length",
            inputs,
            Dimension.LENGTH,
            lengths.run_m[tree.at[run]],
            "fittings.allowance",
            page=state.ground.book.book.fittings.allowance_page or state.ground.book.book.fittings.page,
            note="a lower bound: a length or an allowance is missing" if missing else "",
        ),
    )


def tube_steps(at: Places, run: str, role: Role) -> tuple[Step, ...]:
    """Table size, override, steps of an action, cap."""
    tube = at.runs[run].tubes[role]
    name = f"{role.word} tube of {run}"
    steps = [
        from_row(
            f"{name} by the table",
            tube.row,
            tube.table_m,
            dimension=Dimension.TUBE,
            index_from=_index_of(at, run),
            book=at.book,
        )
    ]
    if tube.override_m is not None:
        item = Input("override", tube.override_m, Dimension.TUBE, f"{at.run_path(run)}.override.{role}")
        steps.append(Step(name, "stated", (item,), Dimension.TUBE, tube.od_m, note="the designer's size is kept"))
    elif tube.action and tube.table_m is not None and (stepped := _stepped(at, run, role)) is not None:
        steps.append(stepped)
    if tube.capped_at_m is not None:
        main = Input(
            "the main's tube",
            tube.capped_at_m,
            Dimension.TUBE,
            at.subject(f"run:{at.result.tree.ids[0]}.{role}_od"),
        )
        page = at.result.state.ground.book.book.sizing.main.page
        steps.append(
            Step(
                f"{name}, no larger than the main",
                "stated",
                (main,),
                Dimension.TUBE,
                tube.od_m,
                "sizing.cap",
                page=page,
            )
        )
    elif tube.source != "override" and tube.od_m is not None and tube.od_m != steps[-1].result:
        item = Input("the main is raised", tube.od_m, Dimension.TUBE, at.in_book("sizing.capped"))
        steps.append(Step(name, "stated", (item,), Dimension.TUBE, tube.od_m, "sizing.capped"))
    return tuple(steps)


def _stepped(at: Places, run: str, role: Role) -> Step | None:
    tube, ladder = at.runs[run].tubes[role], at.result.state.ground.book.ladders[role]
    short = (role, at.result.tree.at[run]) in at.result.state.sized.short
    if tube.table_m is None or (short and tube.capped_at_m is None):
        return None
    actions = at.result.state.ground.book.book.sizing.actions
    position = next(i for i, action in enumerate(actions) if action.id == tube.action)
    where = f"sizing.actions[{position}]"
    inputs = (
        Input("table size", tube.table_m, Dimension.TUBE, at.in_book(tube.row.path if tube.row else "sizing")),
        Input(
            f"steps of action {tube.action}",
            float(tube.steps),
            Dimension.NUMBER,
            at.in_book(f"{where}.steps"),
        ),
        *(Input("ladder", size, Dimension.TUBE, at.in_book(f"tubes.{role}")) for size in ladder),
    )
    at_table = next((i for i, size in enumerate(ladder) if abs(size - tube.table_m) <= 1e-4), None)
    if at_table is None or at_table + tube.steps >= len(ladder):
        return None
    result = ladder[at_table + tube.steps]
    return Step(
        f"{role.word} tube of {run} after action {tube.action}",
        "stepped",
        inputs,
        Dimension.TUBE,
        result,
        where,
        page=actions[position].page,
    )


def _index_of(at: Places, run: str) -> str:
    return at.group_path() if at.runs[run].is_main else at.subject(f"run:{run}.index")


def index_steps(at: Places, run: str) -> tuple[Step, ...]:
    """Sum of the indoor indices downstream of a run."""
    ground, tree = at.result.state.ground, at.result.tree
    inputs = []
    for unit, own in zip(ground.system.units, tree.unit_runs, strict=True):
        if tree.at[run] in tree.path_to(own):
            inputs.append(
                Input(
                    f"index of {unit.id}",
                    at.units[unit.id].index,
                    Dimension.NUMBER,
                    at.model_path(unit.model),
                )
            )
    return (Step(f"index through {run}", "total", tuple(inputs), Dimension.NUMBER, at.runs[run].downstream_index),)


def _fitting_words(at: Places, run: str) -> str:
    tree = at.result.tree
    position = tree.at[run]
    allowance_at = at.result.state.ground.book.book.fittings.allowance_at
    words = []
    if tree.kind[position] is not NodeKind.UNIT and allowance_at is not AllowanceAt.LEAVES:
        words.append(f"{tree.kind[position]} {run}")
    before = tree.parent[position]
    if allowance_at is not AllowanceAt.ENTERS and before != NO_PARENT and is_branch(tree.kind[before]):
        words.append(f"{tree.kind[before]} {tree.ids[before]}")
    return " and ".join(words) or "no fitting"


def _near_level(at: Places, position: int) -> str:
    tree = at.result.tree
    before = tree.parent[position]
    return (
        f"design:{at.system_path}.outdoor.elevation"
        if before == NO_PARENT
        else at.subject(f"run:{tree.ids[before]}.level")
    )


def _stated_level(at: Places, run: str) -> str:
    """Where the level of a run's far node is stated; empty where it is not."""
    for i, unit in enumerate(at.result.system.units):
        if unit.id == run and unit.elevation_m is not None:
            return f"design:{at.system_path}.units[{i}].elevation"
    for i, fitting in enumerate(at.result.system.fittings):
        if fitting.id == run and fitting.elevation_m is not None:
            return f"design:{at.system_path}.fittings[{i}].elevation"
    return ""
