"""What the reader must know of the mode boxes of a system beside the verdicts on them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linewright.engine.boxes import Box
from linewright.engine.records import Note
from linewright.engine.state import State
from linewright.model.values import Role
from linewright.units import same_tube


def box_notes(state: State) -> Iterator[Note]:
    """Units that only cool, and tubes that are not the size of the connection that they meet."""
    ground = state.ground
    direct = sorted(ground.system.units[unit].id for unit in ground.direct)
    if direct:
        yield Note(ground.system.id, f"without a mode box, so cooling only: {', '.join(direct)}")
    unequal = [(box.id, list(_unequal(state, box))) for box in ground.boxes]
    told = "; ".join(f"{name} {', '.join(words)}" for name, words in unequal if words)
    if told:
        yield Note(ground.system.id, f"tubes of another size than the connection of their box: {told}")


def _unequal(state: State, box: Box) -> Iterator[str]:
    """Roles of the tubes that need a reducer on the side of the outdoor group, and ports that do behind it."""
    model, by_role = box.model, state.sized.by_role
    if model is None:
        return
    yield from (role.word for role in model.connections if _differs(by_role, role, box.run, model.connections[role]))
    outlet = {} if model.outlet is None else model.outlet.sizes
    ports = [
        at.ports[0]
        for at in box.outlets
        if len(at.ports) == 1 and any(_differs(by_role, role, at.run, size) for role, size in outlet.items())
    ]
    if ports:
        yield f"port{'s' if len(ports) > 1 else ''} {' '.join(str(port) for port in sorted(ports))}"


def _differs(by_role: Mapping[Role, tuple[float | None, ...]], role: Role, run: int, size_m: float) -> bool:
    own = by_role[role][run]
    return own is not None and not same_tube(own, size_m)
