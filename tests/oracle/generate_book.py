"""Random books of invented equipment: models, size tables, fittings, charge."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from linewright.book.schema import (
    ActionRuns,
    AllowanceAt,
    AllowanceLine,
    Band,
    Cap,
    Capped,
    Charge,
    ChargeBand,
    FittingBy,
    FittingRow,
    Fittings,
    FittingTable,
    Group,
    HeaderRow,
    HeaderTable,
    IndoorModel,
    MainBy,
    OutdoorModule,
    Paths,
    Range,
    RoundAt,
    Rounding,
    RoundMode,
    SizeAction,
    SizeRow,
    SizeTable,
    Sizing,
    Tubes,
    UnitSizing,
)
from linewright.model.values import Role
from linewright.units import Dimension
from tests.oracle.generate_dice import MM, Dice, amount, edges_of

OTHER = "another group"
KINDS = ("cassette", "ducted", "wall", "floor")
KW = (1.5, 2.2, 2.8, 3.6, 4.5, 5.6, 7.1, 8.0, 9.0, 11.2, 14.0)
WHOLE = (5.0, 6.0, 7.0, 9.0, 12.0, 15.0, 18.0, 24.0, 30.0)
STEPS = {True: ("0.1 kg", "0.05 kg", "10 g", "0.5 kg"), False: ("0.1 lb", "0.5 lb", "1 oz", "0.1 lb")}


@dataclass
class Ladders:
    """Sizes of each line in ascending order, and by position a size as some table prints it [m]."""

    dice: Dice
    steps: Mapping[Role, list[int]]

    def size_m(self, role: Role, position: int) -> float:
        steps = self.steps[role]
        return self.dice.tube_m(steps[max(0, min(position, len(steps) - 1))])

    def both(self, gas: int, liquid: int) -> dict[Role, float]:
        return {Role.GAS: self.size_m(Role.GAS, gas), Role.LIQUID: self.size_m(Role.LIQUID, liquid)}


def ladders_of(dice: Dice) -> Ladders:
    gas = sorted(dice.rng.sample(range(1, len(MM)), dice.between(5, 9)))
    liquid = sorted(dice.rng.sample(range(8), dice.between(4, 7)))
    return Ladders(dice, {Role.GAS: gas, Role.LIQUID: liquid})


def tubes_of(ladders: Ladders) -> Tubes:
    return Tubes(ladders={role: tuple(ladders.dice.tube_m(s) for s in steps) for role, steps in ladders.steps.items()})


def models_of(dice: Dice, ladders: Ladders) -> tuple[IndoorModel, ...]:
    indices = dice.pick((KW, WHOLE))
    models = []
    for index in sorted(dice.rng.sample(indices, dice.between(2, 6))):
        for kind in dice.some(KINDS)[:2]:
            watts = index * (1000 if indices is KW else 300)
            models.append(
                IndoorModel(
                    model=f"{kind} {index:g}",
                    kind=kind,
                    index=index,
                    cooling_w=watts,
                    sensible_w=round(watts * dice.factor(62, 82)),
                    heating_w=round(watts * dice.factor(100, 115)),
                    ports=ladders.both(dice.between(0, 2), dice.between(0, 1)),
                )
            )
    return tuple(models)


def outdoor_of(
    dice: Dice, ladders: Ladders, *, count: int, indoor_index: float, watts_per_index: float
) -> tuple[tuple[OutdoorModule, ...], Group]:
    """One group of so many modules, near enough to the indoor index."""
    share = indoor_index / dice.factor(50, 140) / count
    kinds = dice.between(1, count)
    modules = []
    for number in range(kinds):
        index = float(max(1, round(share) + number * dice.pick((0, 1, 2))))
        modules.append(
            OutdoorModule(
                model=f"outdoor {'abcd'[number]}",
                index=index,
                cooling_w=index * watts_per_index,
                heating_w=round(index * watts_per_index * 1.12),
                factory_charge_kg=dice.mass_kg(2, 12),
                ports=ladders.both(dice.between(2, 8), dice.between(1, 4)) if dice.maybe(0.9) else {},
            )
        )
    chosen = [modules[i % kinds] for i in range(count)]
    whole = sum(module.index for module in chosen)
    stated = dice.maybe(0.3)
    return tuple(modules), Group(
        modules=tuple(module.model for module in chosen),
        index=whole if dice.maybe(0.8) else whole + 1.0,
        id="" if count == 1 and dice.maybe(0.5) else "the group",
        cooling_w=round(whole * watts_per_index * 0.97) if stated else None,
        heating_w=round(whole * watts_per_index * 1.1) if stated else None,
        factory_charge_kg=dice.mass_kg(3, 20) if dice.maybe(0.2) else None,
    )


def other_group(dice: Dice) -> tuple[OutdoorModule, Group]:
    """A group that the design does not have, so that tables may be for it alone."""
    module = OutdoorModule(
        model="outdoor z", index=10.0, cooling_w=10000.0, heating_w=11000.0, factory_charge_kg=dice.mass_kg(2, 12)
    )
    return module, Group(modules=(module.model,), index=module.index, id=OTHER)


def ranges_of(dice: Dice, *, count: int, ratio: float) -> tuple[Range, Range]:
    """Indoor count and connection ratio of a group, on either side of what the design has and exactly at it."""
    most = amount(count + dice.pick((-1, 0, 0, 1, 5)), Dimension.NUMBER)
    least = amount(ratio * dice.pick((0.5, 0.9, 1.0, 1.1)), Dimension.RATIO)
    top = amount(ratio * dice.pick((1.0, 1.0, 0.95, 1.2, 2.0)) if dice.maybe(0.9) else 9.0, Dimension.RATIO)
    counts = Range(min=None, max=most if dice.maybe(0.9) else None)
    return counts, Range(min=least if dice.maybe(0.8) and least.value <= top.value else None, max=top)


def size_rows(dice: Dice, ladders: Ladders, values: Sequence[float], *, start: int) -> tuple[SizeRow, ...]:
    """Rows that mostly rise, with now and then one that does not."""
    rows = []
    gas, liquid = start, max(0, start - 1)
    for edge in edges_of(dice, values, Dimension.NUMBER):
        gas += dice.pick((0, 1, 1, 2))
        liquid += dice.pick((0, 0, 1, 1))
        odd = dice.pick((-1, 1)) if dice.maybe(0.05) else 0
        rows.append(SizeRow(**edge, sizes=ladders.both(gas + odd, liquid)))
    return tuple(rows)


def index_edges(dice: Dice, *, least: float, most: float, sums: Sequence[float], short: float = 0.04) -> list[float]:
    """Edges of a table by index; some at a sum that the tree has, the last rarely too small."""
    count = dice.between(1, 5)
    values = {round(dice.rng.uniform(least, most), 1) for _ in range(count)}
    values |= {dice.pick(sums) for _ in range(count) if dice.maybe(0.5)}
    end = most * dice.pick((0.6, 0.9)) if dice.maybe(short) else most * dice.pick((1.0, 1.3, 2.0))
    return [*sorted(value for value in values if value < end), end]


def sizing_of(
    dice: Dice, ladders: Ladders, *, models: Sequence[IndoorModel], group: Group, sums: Sequence[float]
) -> Sizing:
    indices = [model.index for model in models]
    most = max(sums)
    by = dice.pick((MainBy.OUTDOOR_INDEX, MainBy.OUTDOOR_INDEX, *MainBy))
    edges = index_edges(dice, least=min(indices), most=max(most, group.index), sums=[*sums, group.index])
    main = size_rows(dice, ladders, edges, start=dice.between(1, 4))
    if by is MainBy.GROUP:
        main = tuple(
            SizeRow(group=name, sizes=ladders.both(dice.between(2, 7), dice.between(1, 4)))
            for name in (OTHER, group.id or group.modules[0])
        )
    branch = size_rows(
        dice, ladders, index_edges(dice, least=min(indices), most=most, sums=sums), start=dice.between(0, 2)
    )
    own: UnitSizing | SizeTable = UnitSizing.PORTS
    if dice.maybe(0.3):
        edges = index_edges(dice, least=min(indices), most=max(indices), sums=indices)
        own = SizeTable(rows=size_rows(dice, ladders, edges, start=0))
    edges = index_edges(dice, least=1.0, most=group.index, sums=[group.index])
    module = SizeTable(rows=size_rows(dice, ladders, edges, start=dice.between(0, 4))) if dice.maybe(0.3) else None
    return Sizing(
        module=module,
        main=SizeTable(rows=main, by=by),
        branch=SizeTable(rows=branch),
        unit=own,
        cap=dice.pick((Cap.MAIN, Cap.MAIN, Cap.NONE)),
        capped=dice.pick(tuple(Capped)),
        actions=tuple(_elective(dice, number) for number in range(dice.pick((0, 1, 1, 2, 2, 3)))),
    )


def _elective(dice: Dice, number: int) -> SizeAction:
    """An action; what makes it mandatory is added where measures are known."""
    return SizeAction(
        id=f"action-{'abcdef'[number]}",
        runs=dice.pick((ActionRuns.FIRST_TO_LAST_BRANCH, *ActionRuns)),
        lines=dice.pick(((Role.GAS,), (Role.LIQUID,), (Role.GAS, Role.LIQUID), (Role.GAS, Role.LIQUID))),
        steps=dice.pick((1, 1, 1, 2)),
        paths=dice.pick((Paths.EACH_FAR, *Paths)),
        unit_run=dice.maybe(0.3),
    )


def fittings_of(dice: Dice, ladders: Ladders, *, group: Group, sums: Sequence[float]) -> Fittings:
    least, most = min(sums), max(sums)
    edges = index_edges(dice, least=least, most=most, sums=sums)
    headers = [
        HeaderRow(**edge, model=f"header {number}", ports=dice.pick((3, 4, 6, 8)))
        for number, edge in enumerate(edges_of(dice, sorted(edges * 2), Dimension.NUMBER))
        if not {"over", "from_"} & set(edge)
    ]
    return Fittings(
        first=_fitting_table(dice, ladders, "first", index_edges(dice, least=least, most=group.index, sums=sums)),
        joint=_fitting_table(dice, ladders, "joint", index_edges(dice, least=least, most=most, sums=sums)),
        header=HeaderTable(rows=tuple(headers)) if headers and dice.maybe(0.9) else None,
        allowance=_allowances(dice, ladders),
        allowance_line=dice.pick(tuple(AllowanceLine)),
        allowance_at=dice.pick((AllowanceAt.ENTERS, *AllowanceAt)),
    )


def _fitting_table(dice: Dice, ladders: Ladders, name: str, values: Sequence[float]) -> FittingTable:
    by = dice.pick((FittingBy.INDEX, *FittingBy))
    gas = dice.between(0, 4)
    rows = []
    for number, edge in enumerate(edges_of(dice, values, Dimension.NUMBER)):
        gas += dice.pick((0, 1, 2, 2))
        size = None if by is FittingBy.INDEX else ladders.size_m(Role.GAS, gas)
        rows.append(FittingRow(**edge, model=f"{name} {number}", gas=size))
    return FittingTable(rows=tuple(rows), by=by)


def _allowances(dice: Dice, ladders: Ladders) -> dict[str, float | Mapping[float, float]]:
    if dice.maybe(0.05):
        return {}
    given: dict[str, float | Mapping[float, float]] = {}
    for kind in ("bend", "joint", "header", "coupling", "outdoor_joint", "valve", "trap", "loop", "sleeve"):
        if dice.maybe(0.4 if kind == "coupling" else 0.01):
            continue
        by_tube = dice.maybe(0.5)
        given[kind] = _by_tube(dice, ladders) if by_tube else dice.length_m(0, 2)
    return given


def _by_tube(dice: Dice, ladders: Ladders) -> dict[float, float]:
    steps = sorted({step for line in ladders.steps.values() for step in line})
    return {dice.tube_m(step): dice.length_m(0, 2) for step in steps if not dice.lacking(0.01)}


def charge_of(
    dice: Dice,
    ladders: Ladders,
    *,
    modules: Sequence[OutdoorModule],
    group: Group,
    models: Sequence[IndoorModel],
    ratio: float,
) -> Charge:
    def by_tube(role: Role) -> dict[float, float]:
        listed = [step for step in ladders.steps[role] if not dice.lacking(0.01)]
        return {dice.tube_m(step): dice.per_length() for step in listed}

    key = group.id or group.modules[0]
    each = {module.model: dice.mass_kg(0, 1) for module in modules if not dice.lacking(0.03)}
    named = {
        name: dice.mass_kg(0, 1) for name in dice.some([*(m.model for m in models), *sorted({m.kind for m in models})])
    }
    return Charge(
        liquid=by_tube(Role.LIQUID) if dice.maybe(0.95) else {},
        gas=by_tube(Role.GAS) if dice.maybe(0.3) else {},
        group={key: dice.mass_kg(0, 2)} if dice.maybe(0.5) else {},
        module=each if dice.maybe(0.3) else {},
        connection_ratio=_ratio_bands(dice, ratio) if dice.maybe(0.5) else (),
        indoor=named if dice.maybe(0.5) else {},
        indoor_each_kg=dice.mass_kg(0, 0.3) if dice.maybe(0.3) else None,
        constant_kg=dice.mass_kg(-2, 2) if dice.maybe(0.3) else None,
        multiplier=dice.pick((0.9, 1.1, 1.25)) if dice.maybe(0.3) else None,
        min_kg=dice.mass_kg(0, 5) if dice.maybe(0.3) else None,
        round=_rounding(dice) if dice.maybe(0.8) else None,
    )


def _rounding(dice: Dice) -> Rounding:
    at = RoundAt.TERM if dice.maybe(0.2) else RoundAt.TOTAL
    return Rounding(step=dice.pick(STEPS[dice.metric]), mode=dice.pick((RoundMode.HALF_UP, *RoundMode)), at=at)


def _ratio_bands(dice: Dice, ratio: float) -> tuple[ChargeBand, ...]:
    values = sorted({ratio, 0.5, 1.0, 1.15, *(1.3, 2.9)[: dice.between(0, 2)]})
    low = {"over": amount(0.2, Dimension.RATIO)} if dice.maybe(0.05) else {}
    edges: list[dict[str, Band]] = edges_of(dice, values, Dimension.RATIO)
    edges[0] = {**edges[0], **low}  # type: ignore[dict-item]
    return tuple(ChargeBand(**edge, add_kg=dice.mass_kg(0, 1)) for edge in edges)  # type: ignore[arg-type]
