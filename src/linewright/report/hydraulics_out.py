"""What flows in a system, in words and tables, and as the key `physics` of `linewright/check/1`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from linewright.engine.hydraulics_modules import ModuleLoss
from linewright.engine.hydraulics_records import (
    ADVISORY,
    FLAG,
    RATED_LENGTH_M,
    RISER_M_S,
    WARN,
    Conditions,
    Hydraulics,
    RunFlow,
    Shares,
)
from linewright.engine.hydraulics_sizes import LIQUID_K_M, SUCTION_K_M
from linewright.engine.records import Evaluation
from linewright.report.page import Page
from linewright.report.table import Cell, Column
from linewright.units import Dimension, UnitSystem, show, show_number, unit_label

_OIL = f"oil: least flow over the least that carries oil up, ! below {WARN:g}, !! below {FLAG:g}"
_K, _VELOCITY, _PRESSURE = Dimension.TEMPERATURE_DIFFERENCE, Dimension.VELOCITY, Dimension.PRESSURE


def hydraulics_text(found: Sequence[Hydraulics], evaluation: Evaluation, *, system: UnitSystem, colour: bool) -> str:
    """Write what flows in each system."""
    page = Page(colour=colour)
    for one in found:
        page.blank()
        page.text(f"Physics of system {one.system}. {ADVISORY}")
        if one.shares is None:
            page.text(f"not worked out, for want of {'; '.join(one.missing)}", indent=2)
            _sizes(page, one, system)
            continue
        for line in _lines(one, one.shares, evaluation, system):
            page.text(line, indent=2)
        if one.modules is not None:
            page.text(_modules(one.modules, system), indent=2)
        page.table(_columns(system), [_row(run, system) for run in one.runs])
        units = f"loss of saturation in {unit_label(_K, system)}, liquid in {unit_label(_PRESSURE, system)}"
        page.text(f"{units}; {_OIL}")
        for line in _slow(one, system):
            page.text(line)
        _sizes(page, one, system)
        for line in assumed(one.conditions, system):
            page.text(f"Assumed: {line}.")
    return str(page)


def assumed(at: Conditions, system: UnitSystem) -> Iterator[str]:
    """Say in words what the figures rest on."""
    cooling, heating = at.cooling, at.heating

    def degrees(t_degc: float) -> str:
        return show(t_degc, Dimension.TEMPERATURE, system)

    def kelvin(difference_k: float) -> str:
        return show(difference_k, _K, system)

    yield (
        f"cooling: dew point of {degrees(cooling.evaporating_degc)} at the coils, {kelvin(cooling.superheat_k)} above, "
        f"air of {degrees(cooling.coil_air_degc)} wet bulb, {degrees(cooling.condensing_degc)} condensing"
    )
    stated = "as the book states" if at.subcooling_stated else "the book states no leaving subcooling"
    yield f"liquid leaves {kelvin(cooling.subcooling_k)} below its bubble point: {stated}"
    yield (
        f"heating: {degrees(heating.condensing_degc)} condensing, {degrees(heating.discharge_degc)} discharge,"
        f" {kelvin(heating.subcooling_k)} of subcooling behind the units, air of {degrees(heating.coil_air_degc)}"
    )
    rated = show(RATED_LENGTH_M, Dimension.LENGTH, system)
    yield f"a compressor of fixed displacement, rated at {rated}"
    yield "no heat through the insulation; what mode boxes resist is left out"
    if at.least_capacity is None:
        yield "oil return is not worked out: the book states no least capacity"
    else:
        yield f"least flow for oil: {at.least_capacity:.0%} of the capacity, as the book states"
        cold, hot = (show(one, Dimension.DENSITY, system) for one in at.oil)
        yield f"{_oil_words(at)}: {cold} with suction gas, {hot} with hot gas"
    if at.without_level:
        yield f"no change of level, since nobody states one, in {', '.join(at.without_level)}"


def _oil_words(at: Conditions) -> str:
    if at.oil_stated:
        return f"{at.oil_named} oil of the density that the book states".lstrip()
    return f"{at.oil_named} oil, as the book states" if at.oil_named else "ester oil, since the book names none"


def _lines(one: Hydraulics, shares: Shares, evaluation: Evaluation, system: UnitSystem) -> Iterator[str]:
    result = next(result for result in evaluation.systems if result.id == one.system)
    book = next((f.value for f in (result.cooling.factors if result.cooling else ()) if f.name == "length"), None)
    beside = "the book has no length factor" if book is None else f"the book's length factor: {book:.3f}"
    yield (
        f"cooling kept by the pipe: {shares.tree:.3f}, were all load at the farthest unit {shares.lumped:.3f}; {beside}"
    )
    fixed, held = ("unknown" if one is None else f"{one:.3f}" for one in (shares.fixed, shares.held))
    yield f"the latter with the coils held at their dew point: {fixed}; with suction pressure held: {held}"
    worst = min(one.units, key=lambda unit: (unit.cooling_share, unit.id))
    driest = min(one.runs, key=lambda run: (run.subcooling_at_k, run.id))
    suction = show(shares.suction_degc, Dimension.TEMPERATURE, system)
    above = show(shares.superheat_k, _K, system)
    yield f"weakest unit: {worst.id}, {worst.cooling_share:.3f}; saturation at the compressor: {suction}, {above} above"
    state = "the liquid stays liquid"
    if driest.subcooling_at_k <= 0:
        most = max(one.units, key=lambda unit: (unit.vapour, unit.id))
        state = f"liquid boils before the valve, {most.vapour:.1%} of it at the least at {most.id}"
        if not most.vapour:
            state = "liquid boils on the way; what it wins back going down is reckoned as if it had not"
    yield f"least subcooling left: {show(driest.subcooling_at_k, _K, system)} at {driest.id}; {state}"
    boils = "" if shares.heating_left_k > 0 else ", so that some boils on the way"
    share, faint = min((unit.heating_share, unit.id) for unit in one.units if unit.heating_share is not None)
    yield (
        f"heating kept by the pipe: {shares.heating:.3f}, weakest unit: {faint}, {share:.3f}; "
        f"{show(shares.heating_left_k, _K, system)} left in the liquid that returns{boils}"
    )


def _sizes(page: Page, one: Hydraulics, system: UnitSystem) -> None:
    """Write which runs would have another size by loss alone."""
    other = [
        size for size in one.sizes.rows if (size.gas_m, size.liquid_m) != (size.gas_by_loss_m, size.liquid_by_loss_m)
    ]
    if not one.sizes.rows:
        return
    suction, liquid = (show(most, _K, system, places=2) for most in (SUCTION_K_M, LIQUID_K_M))
    page.text(
        f"Sizes by loss alone, {suction} of suction gas and {liquid} of liquid in a metre, "
        f"at the units' rated load: {len(other)} of {len(one.sizes.rows)} runs would have another. "
        "A suggestion: the book's tables are the rule, and oil is not considered."
    )
    if other:
        heads = ("gas", "by loss", "liquid", "by loss")
        columns = (Column("run"), *(Column(head, right=True) for head in heads))
        page.table(columns, [[size.id, *(_tube(value, system) for value in size[1:])] for size in other])


def _tube(od_m: float | None, system: UnitSystem) -> str:
    return "?" if od_m is None else show_number(od_m, Dimension.TUBE, system)


def _slow(one: Hydraulics, system: UnitSystem) -> Iterator[str]:
    """Say of each mode how many runs in which gas rises miss the traditional least velocity at the least flow."""
    riser = show(RISER_M_S, _VELOCITY, system)
    modes = (
        ("cooling", [(run.cooling_least_m_s, run.cooling_oil) for run in one.runs]),
        ("heating", [(run.heating_least_m_s, run.heating_oil) for run in one.runs]),
    )
    for mode, found in modes:
        rising = [(least, margin) for least, margin in found if least is not None and margin is not None]
        slow = [margin for least, margin in rising if least < RISER_M_S]
        if rising:
            passed = sum(margin >= FLAG for margin in slow)
            yield (
                f"{mode}, at the least flow: {len(slow)} of {len(rising)} runs in which gas rises are slower than "
                f"{riser}, the traditional least in risers; {passed} of these still carry oil up by the margin"
            )


def _modules(found: ModuleLoss, system: UnitSystem) -> str:
    if found.loss_k is None:
        return "pipes between outdoor modules: not worked out, a figure of them is missing, or one is far too narrow"
    loss = show(found.loss_k, _K, system, places=2)
    return (
        f"pipes between outdoor modules lose another {loss} of suction gas on the way to {found.id}, not in the above"
    )


def _columns(system: UnitSystem) -> tuple[Column, ...]:
    velocity = unit_label(_VELOCITY, system)
    heads = (f"gas {velocity}", "loss", "liquid", "oil", f"hot {velocity}", "loss", "oil")
    return (Column("run"), *(Column(head, right=True) for head in heads))


def _row(run: RunFlow, system: UnitSystem) -> list[Cell | str]:
    return [
        run.id,
        show_number(run.cooling_gas_m_s, _VELOCITY, system),
        show_number(run.cooling_loss_k, _K, system, places=2),
        show_number(run.cooling_liquid_pa, _PRESSURE, system),
        _margin(run.cooling_oil),
        show_number(run.heating_gas_m_s, _VELOCITY, system),
        show_number(run.heating_loss_k, _K, system, places=2),
        _margin(run.heating_oil),
    ]


def _margin(margin: float | None) -> str:
    if margin is None:
        return ""
    return f"{margin:.2f}" + ("!!" if margin < FLAG else "!" if margin < WARN else "")


def hydraulics_json(one: Hydraulics) -> dict[str, Any]:
    """Give what flows in one system as plain values."""
    shares = one.shares
    return {
        "system": one.system,
        "missing": list(one.missing),
        "assumed": list(assumed(one.conditions, UnitSystem.SI)),
        "cooling_share": None if shares is None else shares.tree,
        "lumped_share": None if shares is None else shares.lumped,
        "fixed_share": None if shares is None else shares.fixed,
        "held_share": None if shares is None else shares.held,
        "heating_share": None if shares is None else shares.heating,
        "suction_pa": None if shares is None else shares.suction_pa,
        "liquid_pa": None if shares is None else shares.liquid_pa,
        "suction_degc": None if shares is None else shares.suction_degc,
        "suction_superheat_k": None if shares is None else shares.superheat_k,
        "module": one.modules.id or None if one.modules is not None else None,
        "module_loss_k": None if one.modules is None else one.modules.loss_k,
        "heating_left_k": None if shares is None else shares.heating_left_k,
        "runs": [run._asdict() for run in one.runs],
        "sizes": [size._asdict() for size in one.sizes.rows],
        "units": [unit._asdict() for unit in one.units],
    }
