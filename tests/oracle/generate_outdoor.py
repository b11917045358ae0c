"""Random outdoor sides: modules, their levels, and the pipes between them."""

from __future__ import annotations

from decimal import Decimal

from linewright.model.design import ROOT, Module, Outdoor, Run
from linewright.model.values import Role
from tests.oracle.generate_book import Ladders
from tests.oracle.generate_dice import Dice
from tests.oracle.generate_tree import Grown
from tests.oracle.naive_numbers import exact


def outdoor_side(dice: Dice, grown: Grown, models: tuple[str, ...], *, ladders: Ladders) -> Outdoor:
    root = grown.level[ROOT]
    level = float(root) if not dice.lacking(0.05) else None
    if len(models) == 1:
        return Outdoor(modules=(Module(model=models[0]),), elevation_m=level)
    order = list(models)
    dice.rng.shuffle(order)
    uneven = dice.maybe(0.3)
    modules = tuple(
        Module(
            model=model,
            id=f"M{number}",
            elevation_m=float(root + dice.between(-2, 2)) if uneven and dice.maybe(0.7) else None,
        )
        for number, model in enumerate(order, start=1)
    )
    rises = 0.0 if uneven else dice.pick((0.0, 0.3, 1.0))
    pipes = _pipes(dice, [module.id for module in modules], ladders=ladders, rises=rises) if dice.maybe(0.8) else ()
    return Outdoor(modules=modules, elevation_m=level, pipes=pipes)


def _pipes(dice: Dice, modules: list[str], *, ladders: Ladders, rises: float) -> tuple[Run, ...]:
    """Each from the root, or some over a further outdoor joint."""
    joint = dice.between(0, len(modules) - 1) if len(modules) > 2 and dice.maybe(0.4) else 0
    runs = [] if joint < 2 else [_pipe(dice, ROOT, "OJ1", ladders=ladders, rises=rises)]
    for number, module in enumerate(modules):
        near = "OJ1" if joint > 1 and number < joint else ROOT
        runs.append(_pipe(dice, near, module, ladders=ladders, rises=rises))
    return tuple(runs)


def _pipe(dice: Dice, near: str, far: str, *, ladders: Ladders, rises: float) -> Run:
    length = dice.length_m(0, 6)
    rise = dice.pick((Decimal(1), Decimal("0.5"), Decimal(0), Decimal("-0.5"))) * exact(length)
    override = {role: ladders.size_m(role, dice.between(0, 8)) for role in (Role.GAS, Role.LIQUID)}
    return Run(
        from_=near,
        to=far,
        length_m=length if not dice.lacking(0.02) else None,
        rise_m=float(rise) if dice.maybe(rises) else None,
        bends=dice.between(0, 2),
        override=override if dice.maybe(0.1) else {},
        as_built_m=dice.length_m(0, 6) if dice.maybe(0.05) else None,
    )
