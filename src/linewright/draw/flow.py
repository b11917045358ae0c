"""What flows, on the lanes: figures of each unit from first principles, and what is said below them."""

from __future__ import annotations

from linewright.draw.plan import LaneFlow, SheetLayout
from linewright.draw.wording import NONE, UNKNOWN
from linewright.engine.hydraulics_records import ADVISORY, FLAG, WARN, Hydraulics
from linewright.engine.records import SystemResult
from linewright.units import Dimension, UnitSystem, show_number, unit_label

_K = Dimension.TEMPERATURE_DIFFERENCE


def lane_flows(result: SystemResult) -> dict[str, LaneFlow]:
    """Give the figures of each unit; none where flow is not worked out."""
    found = result.hydraulics
    if found.shares is None:
        return {}
    left = {unit.id: unit.subcooling_left_k for unit in found.units}
    return {unit.id: _of_unit(result, found, unit.id, left_k=left[unit.id]) for unit in result.system.units}


def _of_unit(result: SystemResult, found: Hydraulics, unit: str, *, left_k: float) -> LaneFlow:
    tree = result.tree
    way = [found.runs[i] for i in tree.path_to(tree.at[unit])]
    margins = [one for run in way for one in (run.cooling_oil, run.heating_oil) if one is not None]
    loss = sum(run.cooling_loss_k for run in way)
    return LaneFlow(loss_k=loss, left_k=left_k, oil=min(margins, default=None))


def flow_heads(system: UnitSystem) -> dict[str, str]:
    """Give the heads of the columns."""
    kelvin = unit_label(_K, system)
    return {"loss": f"loss, {kelvin}", "left": f"left, {kelvin}", "oil": "oil"}


def flow_cells(sheet: SheetLayout, unit: str, system: UnitSystem) -> dict[str, str]:
    """Give the figures of one unit in words."""
    flow = sheet.flow.get(unit)
    if flow is None:
        return dict.fromkeys(("loss", "left", "oil"), UNKNOWN)
    left = show_number(flow.left_k, _K, system)
    return {
        "loss": show_number(flow.loss_k, _K, system),
        "left": left if flow.left_k > 0 else f"! {left}",
        "oil": _oil(sheet, flow.oil),
    }


def _oil(sheet: SheetLayout, margin: float | None) -> str:
    """Give the margin; unknown where the book states no least capacity, nothing where gas rises nowhere."""
    if margin is None:
        return UNKNOWN if sheet.result.hydraulics.conditions.least_capacity is None else NONE
    sign = "!! " if margin < FLAG else "! " if margin < WARN else ""
    return f"{sign}{margin:.2f}"


def flow_words(sheet: SheetLayout) -> str:
    """Say what the three figures are, what the pipe leaves of the capacity, and that nothing is judged by them."""
    if not sheet.with_flow:
        return ""
    found = sheet.result.hydraulics
    if found.shares is None:
        return f"not worked out, for want of {'; '.join(found.missing)}"
    kept = f"the pipe leaves {found.shares.tree:.3f} of the cooling, {found.shares.heating:.3f} of the heating"
    what = (
        "loss: of saturation of the gas from unit to outdoor group, cooling; left: subcooling at the valve; oil: least "
        f"margin on the way in either mode, ! below {WARN:g}, !! below {FLAG:g}"
    )
    return f"{kept}  ·  {what}  ·  {ADVISORY}"
