"""Doubts about a book that first principles raise: tubes far off for their load, lengths that cost nothing or all.

Bounds are wide on purpose: tables are rounded, and a real control differs from the model; docs/reference/audit.md says
how much may be off unnoticed.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from linewright.book.audit import Doubt
from linewright.book.audit.tables import upper
from linewright.book.roles import GAS_SIDE, LIQUID_SIDE, is_recovery
from linewright.book.schema import Book, MainBy, SizeTable
from linewright.book.walls import bore_of
from linewright.engine.book_tubes import charge_doubts, upsized_doubts
from linewright.model.values import Role
from linewright.physics import Fluid, fluid
from linewright.physics.compressor import Compressors, Control, CoolingAt, Rating, rating
from linewright.physics.cooling import cool
from linewright.physics.flow import Ends, Pipe, gas_far_pressure, mass_flux
from linewright.physics.network import forest_of, one_pipe

_AT = CoolingAt()
#: Loss of saturation of suction gas [K/m] at the upper edge of a row beyond which its tube is doubted. Tables are
#: commonly made for 0.02 to 0.08 K/m (common practice, no source).
_MOST_K_M, _LEAST_K_M = 0.2, 0.0015
#: Velocity of liquid [m/s] beyond which its tube is doubted, either way.
_MOST_M_S, _LEAST_M_S = 3.0, 0.05
#: A factor of length may be so much above the model, and so much below it, before it is doubted.
_ABOVE, _BELOW = 0.06, 0.2


def physics_doubts(book: Book) -> tuple[Doubt, ...]:
    """Look through a sound book with the refrigerant's properties; nothing where they, or walls, are not known."""
    used = fluid(book.refrigerant)
    if used is None:
        return ()
    return (
        *_size_doubts(book, used),
        *_length_doubts(book, used),
        *charge_doubts(book, used),
        *upsized_doubts(book, used),
    )


def _watts_per_index(book: Book) -> float:
    return float(np.median([model.cooling_w / model.index for model in book.indoor.models]))


def _size_doubts(book: Book, used: Fluid) -> Iterator[Doubt]:
    """Rows of the branch table, and of the main by the outdoor index, at their upper edge or the largest group."""
    tables: list[tuple[str, SizeTable]] = [("sizing.branch", book.sizing.branch)]
    if book.sizing.main.by is MainBy.OUTDOOR_INDEX:
        tables.append(("sizing.main", book.sizing.main))
    per_index, most = _watts_per_index(book), max(group.index for group in book.outdoor.groups)
    for path, table in tables:
        for i, row in enumerate(table.rows):
            load_w = min(upper(row), most) * per_index
            for options, doubt in ((GAS_SIDE, _gas_doubt), (LIQUID_SIDE, _liquid_doubt)):
                role = next((role for role in options if role in row.sizes), None)
                bore = None if role is None else bore_of(book, row.sizes[role])
                if role is None or bore is None:
                    continue
                said = doubt(used, load_w, bore)
                if said:
                    yield Doubt("tube-for-load", f"{path}.rows[{i}].{role}", table.page, said, _LOOK)


_LOOK = "the size, the edge of the row, or the index"


def _flow(used: Fluid, load_w: float) -> float:
    p_coil = used.dew_pressure(_AT.evaporating_degc)
    gas = used.gas_enthalpy_at(_AT.superheat_k)(np.log(p_coil))
    return load_w / float(gas - used.liquid_enthalpy(_AT.condensing_degc - _AT.subcooling_k))


def _gas_doubt(used: Fluid, load_w: float, bore_m: float) -> str:
    p = np.array([float(used.dew_pressure(_AT.evaporating_degc))])
    enthalpy = used.gas_enthalpy_at(_AT.superheat_k)(np.log(p))
    near = Ends(p, p, np.array([_flow(used, load_w)]), enthalpy)
    metre = Pipe(np.array([bore_m]), np.ones(1), np.zeros(1))
    far = gas_far_pressure(used, near, metre, upstream=False)
    loss = _AT.evaporating_degc - float(used.dew_temperature(far)[0])
    if not np.isfinite(loss):
        return f"{load_w / 1000:.1f} kW of suction gas cannot flow through it"
    if loss > _MOST_K_M:
        return f"{load_w / 1000:.1f} kW of suction gas lose {loss:.2f} K in every metre"
    if loss < _LEAST_K_M:
        return f"{load_w / 1000:.1f} kW of suction gas lose {loss * 100:.2f} K in a hundred metres: far too wide"
    return ""


def _liquid_doubt(used: Fluid, load_w: float, bore_m: float) -> str:
    t = np.array([_AT.condensing_degc - _AT.subcooling_k])
    velocity = float((mass_flux(np.array([_flow(used, load_w)]), np.array([bore_m])) / used.liquid_density(t))[0])
    if velocity > _MOST_M_S or velocity < _LEAST_M_S:
        return f"the liquid of {load_w / 1000:.1f} kW flows at {velocity:.2f} m/s"
    return ""


def _length_doubts(book: Book, used: Fluid) -> Iterator[Doubt]:
    """Factors of length at no difference of level, against those of the model for the smallest and the largest main."""
    if is_recovery(book) and Role.SUCTION not in book.tubes.ladders:
        return
    ends = _mains(book)
    for i, table in enumerate(book.capacity.cooling.length):
        column = next((j for j, level in enumerate(table.level_m) if level == 0), 0 if not table.level_m else None)
        if column is None or not ends:
            continue
        path = "capacity.cooling.length" + (f"[{i}]" if len(book.capacity.cooling.length) > 1 else "")
        first = table.factor[0][column]
        kept = [_kept(used, table.equivalent_m, bore_m=bore, load_w=load) for bore, load in ends]
        for k, row in enumerate(table.factor[1:], start=1):
            low, high = (end([one[k] / one[0] for one in kept]) for end in (min, max))
            share = row[column] / first
            if np.isfinite(low) and not low - _BELOW <= share <= high + _ABOVE:
                said = f"{share:.3f} of the first at {table.equivalent_m[k]:.0f} m; pipe leaves {low:.3f} to {high:.3f}"
                where = f"{path}.factor[{k}][{column}]"
                yield Doubt("length-for-pipe", where, table.page, said, "a digit, a row, or the unit of length")


def _mains(book: Book) -> list[tuple[float, float]]:
    """Bore of the gas side and load of the first and the last row of the main, where both are known."""
    if book.sizing.main.by is not MainBy.OUTDOOR_INDEX:
        return []
    found = []
    for row in (book.sizing.main.rows[0], book.sizing.main.rows[-1]):
        size = next((row.sizes[role] for role in GAS_SIDE if role in row.sizes), None)
        bore = None if size is None else bore_of(book, size)
        if bore is None:
            return []
        found.append((bore, upper(row) * _watts_per_index(book)))
    return found


def _kept(used: Fluid, lengths_m: tuple[float, ...], *, bore_m: float, load_w: float) -> list[float]:
    """Share of the capacity that a plain pipe leaves at each length."""
    count = len(lengths_m)
    one = rating(used, np.array([load_w]), _AT, bore_m=np.array([bore_m]))
    same = Rating(np.repeat(one.volume_m3_s, count), np.repeat(one.suction_pa, count))
    pipes = forest_of([one_pipe(length, gas_bore_m=bore_m, liquid_bore_m=bore_m) for length in lengths_m])
    found = cool(used, pipes, np.full(count, load_w), _AT, compressors=Compressors.of(same, [Control.FLOATING] * count))
    return [float(one) / load_w for one in found.capacity_w]
