"""What each unit gets of a system's capacity in one mode: at full demand, and where none takes more than it needs."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import compress
from typing import NamedTuple

from linewright.engine.formulas import sensible_share, share
from linewright.engine.frame import MOST_KNOWN
from linewright.engine.needs import Watts
from linewright.engine.rated import Rated
from linewright.engine.ratings import UnitRatings
from linewright.engine.records import UnitFigures
from linewright.model.same import Same


class Supply(NamedTuple):
    """What there is to share [W]: the capacity without the units' own factors, and those factors where there are any.

    complete : whether everything that the capacity depends on is known
    block_w : the coincident load where the designer states it
    """

    plant_w: float | None
    own: tuple[float | None, ...]
    complete: bool
    block_w: float | None


class Shares(NamedTuple):
    """Figures of the units, total and sensible; their sums [W] and the coincident load."""

    total: UnitFigures
    sensible: UnitFigures
    delivered_w: float | None
    block_w: float | None
    coincident_w: float | None


def shares(rated: Rated, needs: Watts, sensible_needs: Watts | None, supply: Supply) -> Shares:
    """Share a capacity among the units; the very same as long as what there is to share is the same.

    Without sensible needs, in heating, what is sensible is all.
    """
    return _shares(Same(rated), Same(needs), Same(sensible_needs), supply)


@lru_cache(maxsize=MOST_KNOWN)
def _shares(of: Same[Rated], of_needs: Same[Watts], of_sensible: Same[Watts | None], supply: Supply) -> Shares:
    rated, needs, ratings = of.value, of_needs.value, of.value.ratings
    delivered = _deliver(supply, ratings.total_w, rated.total_w)
    wanted = list(compress(needs, rated.housed))
    known = sum([need for need in wanted if need is not None])
    block = supply.block_w if supply.block_w is not None else known if wanted and None not in wanted else None
    scale = None if block is None else block / known if known else 1.0
    got = _coincident(
        supply.plant_w if supply.complete else None,
        ratings.total_w,
        [_scaled(need, scale) if has_room else 0.0 for need, has_room in zip(needs, rated.housed, strict=True)],
        own_factors=[factor or 0.0 for factor in supply.own] or [1.0] * len(needs),
    )
    total = part = UnitFigures(needs, ratings.total_w, delivered, got)
    if of_sensible.value is not None:
        sensible = _sensible(delivered, ratings), _sensible(got, ratings)
        part = UnitFigures(of_sensible.value, ratings.sensible_w, *sensible)
    return Shares(total, part, _sum(delivered), block, _sum(got))


def _sum(watts: Watts) -> float | None:
    return None if None in watts else sum([item for item in watts if item is not None])


def _scaled(need: float | None, scale: float | None) -> float | None:
    return None if need is None or scale is None else need * scale


def _deliver(supply: Supply, ratings: Sequence[float | None], total_w: float) -> Watts:
    capacity_w = supply.plant_w
    if capacity_w is None or not total_w:
        return tuple(None for _ in ratings)
    if not supply.own:
        return tuple([None if rating is None else share(capacity_w, rating, total_w) for rating in ratings])
    return tuple(
        [
            None if rating is None or own is None else share(capacity_w * own, rating, total_w)
            for own, rating in zip(supply.own, ratings, strict=True)
        ]
    )


def _sensible(delivered: Sequence[float | None], ratings: UnitRatings) -> tuple[float | None, ...]:
    """Sensible part of what each unit gets [W]."""
    return tuple(
        [
            None if got is None or part is None or not whole else sensible_share(got, part, whole)
            for got, part, whole in zip(delivered, ratings.sensible_w, ratings.total_w, strict=True)
        ]
    )


def _coincident(
    capacity_w: float | None,
    ratings: Sequence[float | None],
    needs: Sequence[float | None],
    *,
    own_factors: Sequence[float],
) -> tuple[float | None, ...]:
    """What each unit gets when each takes no more than it needs; what is freed is shared again [W].

    `own_factors` are the units' own length factors where the book judges each unit, else ones.
    """
    if capacity_w is None or None in ratings or None in needs:
        return tuple(None for _ in ratings)
    rated = [rating or 0.0 for rating in ratings]
    caps = [
        min(rating, need or 0.0) / own if own else 0.0
        for rating, need, own in zip(rated, needs, own_factors, strict=True)
    ]
    got = [0.0] * len(caps)
    open_units, left = list(range(len(caps))), capacity_w
    while open_units:
        weight = sum([rated[i] for i in open_units])
        full = {i for i in open_units if not weight or left * rated[i] / weight >= caps[i]}
        if not full:
            for i in open_units:
                got[i] = left * rated[i] / weight
            break
        for i in sorted(full):
            got[i] = caps[i]
            left -= caps[i]
        open_units = [i for i in open_units if i not in full]
    return tuple([part * own for part, own in zip(got, own_factors, strict=True)])
