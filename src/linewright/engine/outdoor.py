"""The outdoor side: pipes to the modules of a group, and the joints between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from linewright.engine.fittings import by_table
from linewright.engine.frame import MOST_KNOWN, Frame
from linewright.engine.ground import Ground
from linewright.engine.outdoor_records import ModulePipeResult, OutdoorJoint, OutdoorResult
from linewright.engine.records import Check, CheckKind, Sense, Standing
from linewright.engine.sizing import Sized
from linewright.model.design import ROOT, Run
from linewright.model.same import Same
from linewright.model.values import Role
from linewright.units import Dimension

#: A joint splits one pipe into two.
ARMS = 2


NOTHING = OutdoorResult((), ())


def outdoor_result(ground: Ground, sized: Sized) -> OutdoorResult:
    """Size the outdoor side of a group of several modules."""
    return NOTHING if len(ground.modules) == 1 else _outdoor(Same(ground.frame), _main_gas(ground, sized))


@lru_cache(maxsize=MOST_KNOWN)
def _outdoor(of: Same[Frame], main_gas_m: float | None) -> OutdoorResult:
    frame = of.value
    pipes = [_pipe(frame, i, run) for i, run in enumerate(frame.outdoor.pipes)]
    return OutdoorResult(
        tuple(sorted(pipes, key=lambda pipe: pipe.id)),
        tuple(sorted(_joints(frame, main_gas_m), key=lambda joint: joint.id)),
    )


def outdoor_checks(ground: Ground, outdoor: OutdoorResult) -> Iterator[Check]:
    """Module pipes without a size, joints without a row or with too many arms, joints that nobody placed."""
    for pipe in outdoor.pipes:
        lacking = sorted(role.value for role, size in pipe.tubes.items() if size is None)
        if lacking:
            yield _blank(ground, f"module_pipe:{pipe.id}", CheckKind.SIZE, "table_index")._replace(
                standing=Standing.OVER,
                value=pipe.served_index,
                governs=(pipe.id,),
                path="sizing.module",
                note=f"neither a row for module pipes nor a port of the module gives {' and '.join(lacking)}",
            )
    if ground.book.outdoor_joint is None:
        return
    for joint in outdoor.joints:
        blank = _blank(ground, f"outdoor_joint:{joint.id}", CheckKind.FITTING, "fitting")
        if joint.arms > ARMS:
            yield blank._replace(
                standing=Standing.OVER,
                value=float(joint.arms),
                bound=float(ARMS),
                margin=float(ARMS - joint.arms),
                governs=(joint.id,),
                note="an outdoor joint joins two pipes: add a joint between the modules",
            )
        elif not joint.model:
            yield blank._replace(
                standing=Standing.OVER,
                value=joint.index,
                governs=(joint.id,),
                note="no outdoor joint of this book serves it",
            )
    unplaced = len(ground.modules) - 1 - sum(joint.arms - 1 for joint in outdoor.joints)
    if unplaced > 0:
        missing = f"module pipes, with {unplaced} more outdoor joint{'s' if unplaced > 1 else ''}"
        yield _blank(ground, f"outdoor_joint:{ROOT}", CheckKind.FITTING, "outdoor_joints")._replace(missing=(missing,))


def _pipe(frame: Frame, at: int, run: Run) -> ModulePipeResult:
    pipes, roles = frame.pipes, [role for role in frame.pipes.length_m if role is not None]
    lengths = [pipes.length_m[role][at] for role in roles]
    known = bool(lengths) and not any(missing for _, missing in lengths)
    return ModulePipeResult(
        run.to,
        run.from_,
        run.length_m,
        max(length for length, _ in lengths) if known else None,
        run.rise_m,
        served_index(frame, at),
        {role: sizes[at] for role, sizes in pipes.sizes.items()},
        {role: _source(frame, run, role) for role in pipes.sizes},
    )


def served_index(frame: Frame, at: int) -> float:
    """Sum of the indices of the modules that a module pipe leads to."""
    return sum(module.data.index for module in frame.pipes.modules if at in module.path)


def _source(frame: Frame, run: Run, role: Role) -> str:
    if role in run.override:
        return "override"
    return "ports" if frame.book.module_pipe is None else "table"


def _joints(frame: Frame, main_gas_m: float | None) -> Iterator[OutdoorJoint]:
    """The root, by the group's index, and every point where module pipes part, by the indices beyond it."""
    runs = frame.outdoor.pipes
    arms = _arms(runs)
    at_root = max(len(arms.get(ROOT, ())), ARMS)
    yield _joint(frame, ROOT, at_root, index=frame.group.index, gas_m=main_gas_m)
    for at, run in enumerate(runs):
        if run.to in arms:
            gas_m = frame.pipes.sizes.get(frame.book.sides[Role.GAS], (None,) * len(runs))[at]
            yield _joint(frame, run.to, len(arms[run.to]), index=served_index(frame, at), gas_m=gas_m)


def _arms(runs: Sequence[Run]) -> dict[str, list[str]]:
    arms: dict[str, list[str]] = {}
    for run in runs:
        arms.setdefault(run.from_, []).append(run.to)
    return arms


def _main_gas(ground: Ground, sized: Sized) -> float | None:
    sizes = sized.by_role.get(ground.book.sides[Role.GAS])
    return sizes[0] if sizes else None


def _joint(frame: Frame, name: str, arms: int, *, index: float, gas_m: float | None) -> OutdoorJoint:
    declared, bands = frame.book.book.fittings.outdoor_joint, frame.book.outdoor_joint
    found = None
    if declared is not None and bands is not None and arms == ARMS:
        found = by_table(declared, bands, index, gas_m=gas_m)
    model, row = ("", None) if found is None else (found[0].model, found[1])
    return OutdoorJoint(name, index, arms, model, row)


def _blank(ground: Ground, subject: str, kind: CheckKind, measure: str) -> Check:
    return Check(f"{ground.system.id}/{subject}", kind, measure, Dimension.NUMBER, Sense.MAX, Standing.UNJUDGED)
