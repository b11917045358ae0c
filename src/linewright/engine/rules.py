"""Verdicts that rest on statements: requirements to confirm, operating ranges against the site."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.schema import AppliesTo, Range, Requirement, SiteValue
from linewright.engine.conditions import condition_holds, lacking_of, site_value
from linewright.engine.ground import Ground
from linewright.engine.records import Check, CheckKind, Sense, Standing, SystemResult
from linewright.engine.state import State
from linewright.model.values import NodeKind
from linewright.units import Dimension, over

#: What may be asked of some units only.
OF_UNITS = (AppliesTo.UNITS, AppliesTo.UNIT_RUNS)


def requirement_checks(state: State) -> Iterator[Check]:
    """One verdict for each requirement that applies: met as stated, or to confirm, with what is still open."""
    for i, item in enumerate(state.ground.book.book.requirements):
        held = [condition_holds(state, condition) for condition in item.when]
        names = _asked_of(state.ground, item)
        if False in held or not names:
            continue
        blank = _blank(state.ground, f"requirement:{item.id}", CheckKind.REQUIREMENT, "requirement")._replace(
            page=item.page, path=f"requirements[{i}]", note=item.text
        )
        open_ = [name for name in names if not _is_confirmed(state.ground, item, name)]
        doubtful_units = state.ground.doubtful_units(item.where)
        if doubtful_units and open_:
            yield blank._replace(missing=doubtful_units)
            continue
        if None in held and open_:
            doubtful = [condition for condition, known in zip(item.when, held, strict=True) if known is None]
            lacking = dict.fromkeys(name for condition in doubtful for name in lacking_of(state, condition))
            yield blank._replace(missing=tuple(lacking))
            continue
        standing = Standing.TO_CONFIRM if open_ else Standing.WITHIN
        yield blank._replace(standing=standing, governs=tuple(open_))


def is_setting(result: SystemResult, check: Check) -> bool:
    """Say whether a verdict is on a setting to be made at start-up."""
    if check.kind is not CheckKind.REQUIREMENT:
        return False
    items = result.state.ground.book.book.requirements
    return any(f"requirements[{i}]" == check.path and item.setting for i, item in enumerate(items))


def _asked_of(ground: Ground, item: Requirement) -> list[str]:
    """Names of the elements that a requirement is asked of."""
    tree, units = ground.tree, ground.system.units
    if item.applies_to in OF_UNITS:
        kept = [i for i in ground.units_where(item.where) if not item.kind or ground.models[i].kind in item.kind]
        return [units[i].id for i in kept]
    if item.applies_to in _KINDS:
        kind = _KINDS[item.applies_to]
        return [name for name, what in zip(tree.ids, tree.kind, strict=True) if what is kind]
    if item.applies_to is AppliesTo.FIRST_JOINT:
        return [] if tree.first_branch is None else [tree.ids[tree.first_branch]]
    if item.applies_to is AppliesTo.MODULE_PIPES:
        stated = [pipe.to for pipe in ground.system.outdoor.pipes]
        return (stated or [module.id for module in ground.modules]) if len(ground.modules) > 1 else []
    return ["outdoor" if item.applies_to is AppliesTo.OUTDOOR else ground.system.id]


_KINDS = {
    AppliesTo.JOINTS: NodeKind.JOINT,
    AppliesTo.HEADERS: NodeKind.HEADER,
    AppliesTo.BOXES: NodeKind.BOX,
}


def _is_confirmed(ground: Ground, item: Requirement, name: str) -> bool:
    return any(one.id == item.id and (not one.at or name in one.at) for one in ground.system.confirmed)


def option_checks(state: State) -> Iterator[Check]:
    """Options that are on, where the book allows them only under conditions."""
    for i, option in enumerate(state.ground.book.book.options):
        if option.id not in state.ground.system.options or not option.when:
            continue
        held = [condition_holds(state, condition) for condition in option.when]
        doubtful = [condition for condition, known in zip(option.when, held, strict=True) if known is None]
        lacking = dict.fromkeys(name for condition in doubtful for name in lacking_of(state, condition))
        blank = _blank(state.ground, f"option:{option.id}", CheckKind.OPTION, "option")._replace(
            page=option.page, path=f"options[{i}]", note=option.text
        )
        if False in held:
            yield blank._replace(standing=Standing.OVER, note=f"not allowed here: {option.text}")
        elif None in held:
            yield blank._replace(missing=tuple(lacking))
        else:
            yield blank._replace(standing=Standing.WITHIN)


def operation_checks(ground: Ground) -> Iterator[Check]:
    """Temperatures and altitude of the site against the ranges within which the family works."""
    operation = ground.book.book.operation
    if operation is None:
        return
    for name in SiteValue:
        mode, _, axis = name.partition(".")
        found: Range = getattr(getattr(operation, mode), axis) if axis else operation.altitude
        dimension = Dimension.TEMPERATURE if axis else Dimension.LENGTH
        yield from _within(ground, name, found, path=f"operation.{name}", dimension=dimension)


def _within(ground: Ground, name: SiteValue, found: Range, *, path: str, dimension: Dimension) -> Iterator[Check]:
    value = site_value(ground.surroundings.site, name)
    operation = ground.book.book.operation
    page = operation.page if operation is not None else None
    for sense, amount in ((Sense.MIN, found.min), (Sense.MAX, found.max)):
        if amount is None:
            continue
        blank = _blank(ground, f"operation.{name}", CheckKind.OPERATION, f"operation_{name}")._replace(
            dimension=dimension, sense=sense, bound=amount.value, page=page, path=path
        )
        if value is None:
            yield blank._replace(missing=(f"{name} of the site",))
            continue
        broken = over(value, amount.value) if sense is Sense.MAX else over(amount.value, value)
        margin = amount.value - value if sense is Sense.MAX else value - amount.value
        standing = Standing.OVER if broken else Standing.WITHIN
        yield blank._replace(standing=standing, value=value, margin=margin, governs=("site",))


def _blank(ground: Ground, subject: str, kind: CheckKind, measure: str) -> Check:
    return Check(f"{ground.system.id}/{subject}", kind, measure, Dimension.NUMBER, Sense.MAX, Standing.UNJUDGED)
