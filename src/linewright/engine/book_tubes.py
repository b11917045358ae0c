"""Doubts about what a tube holds and what a wider one saves, by the book's own refrigerant."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

import numpy as np

from linewright.book.audit import Doubt
from linewright.book.audit.figures import LIQUID_DENSITY
from linewright.book.roles import GAS_SIDE
from linewright.book.schema import Book, UpsizedMain
from linewright.book.walls import bore_of
from linewright.model.values import Role
from linewright.physics import Fluid
from linewright.physics.compressor import CoolingAt
from linewright.physics.flow import Ends, Pipe, square_loss
from linewright.units import same_tube

_AT = CoolingAt()
#: Printed rates stand 0.9 to 1.6 times what the tube holds of liquid at this temperature, or they are doubted; 17 to
#: 27 % above it is usual (common practice, no source).
LIQUID_DEGC, LEAST, MOST = 40.0, 0.9, 1.6
#: A factor of an upsized main may be so much beyond those of the book's own ladder before it is doubted.
_BEYOND = 0.2
#: Suction gas at which tubes are compared [kg/(m2 s)]: their ratio hardly depends on it.
_FLUX = 200.0


def charge_doubts(book: Book, used: Fluid) -> Iterator[Doubt]:
    """Charge of liquid per metre against volume times density; what falls or fits no refrigerant is told elsewhere."""
    density = float(used.liquid_density(LIQUID_DEGC))
    rates = sorted(book.charge.liquid.items())
    for (_, before), (size, rate) in zip([(0.0, 0.0), *rates], rates, strict=False):
        bore = bore_of(book, size)
        if bore is None or rate < before:
            continue
        held = pi / 4 * bore**2
        if LIQUID_DENSITY[0] <= rate / held <= LIQUID_DENSITY[1] and not LEAST <= rate / held / density <= MOST:
            said = (
                f"{rate:g} kg/m for {size * 1000:g} mm, {rate / held / density:.2f} of what it holds of {used.name} "
                f"at {LIQUID_DEGC:g} degC"
            )
            yield Doubt("charge-for-liquid", f"charge.{Role.LIQUID}", book.charge.page, said, "lb/ft typed as kg/m")


def upsized_doubts(book: Book, used: Fluid) -> Iterator[Doubt]:
    """Factors of an upsized main against what wider tubes of the ladder save in the rows of the main."""
    stated: list[tuple[str, UpsizedMain | None, int | None]] = [
        (f"limits[{i}]", limit.upsized_main, limit.page) for i, limit in enumerate(book.limits)
    ]
    for name, mode in (("cooling", book.capacity.cooling), ("heating", book.capacity.heating)):
        tables = mode.length if mode is not None else ()
        for i, table in enumerate(tables):
            path = f"capacity.{name}.length" + (f"[{i}]" if len(tables) > 1 else "")
            stated.append((path, table.upsized_main, table.page))
    for path, upsized, page in stated:
        for steps, factor in upsized.factors.items() if upsized is not None else ():
            found = _saved(book, used, steps)
            if found and not min(found) - _BEYOND <= factor <= max(found) + _BEYOND:
                said = f"{factor:g} for {steps} up; tubes of this ladder give {min(found):.2f} to {max(found):.2f}"
                yield Doubt("upsized-for-ladder", f"{path}.upsized_main", page, said, "a digit, or the number of steps")


def _saved(book: Book, used: Fluid, steps: int) -> list[float]:
    """What a metre of the tube so many steps up loses over that of each gas tube of the main."""
    found = []
    for role in GAS_SIDE:
        ladder = book.tubes.ladders.get(role, ())
        for row in book.sizing.main.rows:
            own = row.sizes.get(role, 0.0)
            at = next((i for i, size in enumerate(ladder) if same_tube(size, own)), len(ladder))
            if at + steps >= len(ladder):
                continue
            bores = bore_of(book, ladder[at]), bore_of(book, ladder[at + steps])
            if bores[0] is not None and bores[1] is not None:
                found.append(_ratio(used, bores[0], bores[1]))
    return found


def _ratio(used: Fluid, narrow_m: float, wide_m: float) -> float:
    p = np.full(2, float(used.dew_pressure(_AT.evaporating_degc)))
    flow = np.full(2, _FLUX * pi / 4 * narrow_m**2)
    ends = Ends(p, p, flow, used.gas_enthalpy_at(_AT.superheat_k)(np.log(p)))
    loss = square_loss(used, ends, Pipe(np.array([narrow_m, wide_m]), np.ones(2), np.zeros(2)))
    return float(loss[1] / loss[0])
