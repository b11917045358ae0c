"""The standards by profile; what decides and is not stated leaves a room unjudged."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import lru_cache, partial
from types import MappingProxyType
from typing import Any, NamedTuple, TypeAlias

from linewright.model.safety import Profile
from linewright.standards.refrigerants.data import Basis, published
from linewright.standards.safety import ashrae15, en378, iec60335
from linewright.standards.safety.case import DOUBTFUL, Case, Verdict

Fluid: TypeAlias = en378.Fluid | ashrae15.Fluid | iec60335.Fluid


class Standard(NamedTuple):
    """How one standard is used: its title, its values, what it asks for and its judgement."""

    title: str
    basis: Basis
    rules: Mapping[str, str]
    fluid: Callable[[str], Any]
    needs: Callable[[Case], Iterator[str]]
    judge: Callable[..., Verdict]


STANDARDS: Mapping[Profile, Standard] = MappingProxyType(
    {
        profile: Standard(module.TITLE, basis, module.RULES, module.fluid, module.needs, module.judge)
        for profile, module, basis in (
            (Profile.EN_378, en378, Basis.EN_378),
            (Profile.ASHRAE_15, ashrae15, Basis.ASHRAE_34),
            (Profile.IEC_60335, iec60335, Basis.IEC_60335),
        )
    }
)


def refrigerants(profile: Profile) -> tuple[str, ...]:
    """Refrigerants of which a standard's values are here."""
    return tuple(sorted(published(STANDARDS[profile].basis)))


def judge_of(profile: Profile, edition: str, of: Fluid) -> Callable[[Case], Verdict]:
    """The judgement of one standard, edition and refrigerant."""
    standard = STANDARDS[profile]
    judge = partial(standard.judge, edition=edition) if profile is Profile.IEC_60335 else standard.judge
    return partial(_assess, standard, judge, of)


@lru_cache(maxsize=4096)
def judged(profile: Profile, edition: str, of: Fluid, case: Case) -> Verdict:
    """The verdict on a case, kept: most rooms are as they were before an edit."""
    return judge_of(profile, edition, of)(case)


def _assess(standard: Standard, judge: Callable[[Case, Any], Verdict], of: Fluid, case: Case) -> Verdict:
    """Judge a case: unjudged where something is not stated that decides, never a pass."""
    lacking = tuple(standard.needs(case))
    if lacking:
        return Verdict(None, case.charge_kg, None, "", needs=lacking)
    open_ = [name for name in DOUBTFUL if getattr(case, name) is None]
    worst = judge(replace(case, **{name: DOUBTFUL[name][0] for name in open_}), of)
    if worst.passes or not open_:
        return worst
    best = judge(replace(case, **{name: DOUBTFUL[name][1] for name in open_}), of)
    if best.passes is False or (best.passes is None and worst.passes is None):
        return best
    deciding = [name for name in open_ if judge(_but_for(case, open_, name), of).passes is not best.passes]
    return worst._replace(passes=None, needs=tuple(deciding or open_))


def _but_for(case: Case, open_: list[str], name: str) -> Case:
    """All that is open at its best, but for one at its worst."""
    return replace(case, **{other: DOUBTFUL[other][0 if other == name else 1] for other in open_})
