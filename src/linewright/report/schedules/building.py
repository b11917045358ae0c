"""All schedules of a design, in the order in which they are read."""

from __future__ import annotations

from linewright.engine.records import Evaluation
from linewright.report.schedules import buying, equipment, hanging, pipes, services
from linewright.report.schedules.by_system import by_system
from linewright.report.schedules.tables import Table
from linewright.takeoff import TakeOff
from linewright.units import UnitSystem


def schedules(evaluation: Evaluation, found: TakeOff, system: UnitSystem) -> tuple[Table, ...]:
    """Build every schedule; `system` is that of names such as `tube 5/8 in`."""
    return (
        equipment.outdoor(evaluation),
        equipment.indoor(evaluation),
        services.electrical(evaluation),
        services.condensate(evaluation),
        pipes.runs(evaluation, as_built=found.settings.as_built),
        pipes.fittings(evaluation),
        hanging.reducers(evaluation),
        hanging.items(evaluation),
        hanging.supports(evaluation),
        hanging.insulation(evaluation, as_built=found.settings.as_built, system=system),
        hanging.strength(evaluation),
        equipment.rooms(evaluation),
        equipment.limits(evaluation),
        pipes.charge(evaluation),
        *equipment.refrigerant(evaluation),
        buying.bought(found, system),
        buying.cuts(found, system),
        by_system(evaluation, found, system),
        buying.gaps(found),
    )
