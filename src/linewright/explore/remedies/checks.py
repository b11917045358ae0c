"""The checks of a design by what they are known by, what fails, and how one design stands against another."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from difflib import get_close_matches
from types import MappingProxyType
from typing import NamedTuple

from linewright.engine.records import Check, CheckKind, MeasureResult, RoomResult, Sense, Standing, SystemResult
from linewright.errors import UnknownSubjectError
from linewright.explore.remedies.flows import flow_checks
from linewright.explore.remedies.records import Effect, Key
from linewright.units import over

Checks = Mapping[Key, Check]
#: How grave a standing is; what holds is 0, whatever it holds by.
GRAVITY: Mapping[Standing, int] = MappingProxyType(
    {
        Standing.WITHIN: 0,
        Standing.ON_CONDITIONS: 0,
        Standing.NOT_APPLICABLE: 0,
        Standing.UNSTATED: 1,
        Standing.TO_CONFIRM: 2,
        Standing.UNJUDGED: 3,
        Standing.OVER: 4,
    }
)
#: Checks that are only made where something is wrong, or where something stands: without them nothing is.
SILENT_WHEN_KEPT = frozenset(
    {
        CheckKind.SIZE,
        CheckKind.OVERRIDE,
        CheckKind.ACTION,
        CheckKind.FITTING,
        CheckKind.OPTION,
        CheckKind.REQUIREMENT,
        CheckKind.REFRIGERANT,
        CheckKind.PIPEWORK,
    }
)
#: Share of a bound below which a margin that changed has not changed.
_SAME = 1e-9
#: What of the half point goes by how many are beyond a bound.
_OF_CROWD = 0.05
#: By what a check that fails by more comes before those that hold with less margin.
_DEEPER = 1e6


class Against(NamedTuple):
    """How a design stands against the one that was searched: targets not met, checks that stand worse."""

    unmet: tuple[Key, ...]
    worse: tuple[Key, ...]
    violation: float


def checks_of(systems: Iterable[SystemResult], rooms: Iterable[RoomResult], *, physics: bool) -> dict[Key, Check]:
    """Give all checks by key, with `physics` what flows as well; of several of one key the gravest."""
    found: dict[Key, Check] = {}
    for result in systems:
        for check in (*result.limits, *result.checks, *(flow_checks(result) if physics else ())):
            _keep(found, check)
    for room in rooms:
        for check in room.checks:
            _keep(found, check)
    return found


def _keep(found: dict[Key, Check], check: Check) -> None:
    key = Key(check.subject, check.kind.value, check.path or check.measure, check.sense)
    before = found.get(key)
    if before is None or GRAVITY[check.standing] > GRAVITY[before.standing]:
        found[key] = check


def failing(checks: Checks) -> tuple[Key, ...]:
    """Give what is over or short, in a fixed order."""
    return tuple(sorted(key for key, check in checks.items() if check.standing is Standing.OVER))


def targets_named(checks: Checks, subject: str) -> tuple[Key, ...]:
    """Give what fails of a subject as `linewright why` takes it; a room's name stands for all its checks.

    Raises UnknownSubjectError where no check has that subject.
    """
    of_subject = [key for key in checks if key.subject == subject or key.subject.startswith(f"{subject}.")]
    if not of_subject:
        known = sorted({key.subject for key in failing(checks)}) or sorted({key.subject for key in checks})
        raise UnknownSubjectError(subject, nearest=tuple(get_close_matches(subject, known, n=3, cutoff=0.3)))
    return tuple(key for key in failing(checks) if key in of_subject)


def gravity(key: Key, check: Check | None) -> int:
    """How grave a check stands; one that is gone is kept only where nothing is said of what is kept."""
    if check is None:
        return 0 if CheckKind(key.kind) in SILENT_WHEN_KEPT else GRAVITY[Standing.UNSTATED]
    return GRAVITY[check.standing]


def crowd(check: Check, measured: MeasureResult | None) -> float:
    """Give the share of those measured that would have to change for a limit to be kept; 0 where that is not known.

    Where several are as far beyond a bound, one that is brought back is a step on the way, though the worst stays.
    """
    if measured is None or check.bound is None or not measured.series.values:
        return 0.0
    bound, values = check.bound, measured.series.values.values()
    if measured.series.spread:
        low, high = min(values), max(values)
        beyond = min(sum(over(one - low, bound) for one in values), sum(over(high - one, bound) for one in values))
    elif check.sense is Sense.MAX:
        beyond = sum(over(one, bound) for one in values)
    else:
        beyond = sum(over(bound, one) for one in values)
    return beyond / len(values)


def nobody(_: Key) -> float:
    """Give no share."""
    return 0.0


def against(
    before: Checks, after: Checks, targets: Sequence[Key], crowd_of: Callable[[Key], float] = nobody
) -> Against:
    """Compare: a target is met where it holds afterwards; an unknown is never met.

    crowd_of : gives the `crowd` of a limit that is not kept afterwards
    """
    unmet = tuple(key for key in targets if gravity(key, after.get(key)))
    wanted = frozenset(targets)
    worse = tuple(
        key
        for key in sorted(before.keys() | after.keys())
        if key not in wanted and gravity(key, after.get(key)) > _before(key, before, after)
    )
    total = sum(_violation(after.get(key), crowd_of(key)) for key in (*unmet, *worse))
    return Against(unmet, worse, total)


def _before(key: Key, before: Checks, after: Checks) -> int:
    """What was not there before held, unless it says nothing either way now."""
    if key in before:
        return gravity(key, before[key])
    return GRAVITY[Standing.UNSTATED] if after[key].standing is Standing.UNSTATED else 0


def _violation(check: Check | None, share_beyond: float) -> float:
    """Half a point for each check that fails, and up to half by how far it is beyond its bound, and with how many."""
    if check is None or check.margin is None or check.bound is None or check.standing is not Standing.OVER:
        return 1.0
    share = -check.margin / max(abs(check.bound), abs(check.value or 0.0), 1e-9)
    return 0.5 + (0.5 - _OF_CROWD) * min(1.0, max(0.0, share)) + _OF_CROWD * share_beyond


def effects(before: Checks, after: Checks) -> tuple[Effect, ...]:
    """Give every check whose standing or margin differs, in a fixed order."""
    found = []
    for key in sorted(before.keys() | after.keys()):
        was, now = before.get(key), after.get(key)
        if was is None or now is None or was.standing is not now.standing or not _alike(was.margin, now.margin):
            found.append(Effect(key, was, now))
    return tuple(found)


def _alike(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= _SAME * max(1.0, abs(one), abs(other))


def cured(changed: Iterable[Effect]) -> tuple[Effect, ...]:
    """Give what failed and holds."""
    return tuple(
        effect
        for effect in changed
        if effect.before is not None
        and effect.before.standing is Standing.OVER
        and gravity(effect.key, effect.after) == 0
    )


def traded(changed: Iterable[Effect]) -> tuple[Effect, ...]:
    """Give what fails by more, then what holds with less margin or only on conditions, most of it first."""
    found = [(lost, effect) for effect in changed if (lost := _lost(effect)) > 0]
    return tuple(effect for _, effect in sorted(found, key=lambda item: (-item[0], item[1].key)))


def _lost(effect: Effect) -> float:
    """Share of its bound that a check has lost, 0 where nothing; what fails and fails by more comes first."""
    was, now = effect.before, effect.after
    if was is None or now is None:
        return 0.0
    if now.standing is Standing.ON_CONDITIONS and was.standing is Standing.WITHIN:
        return 1.0
    if was.margin is None or now.margin is None or now.margin >= was.margin:
        return 0.0
    fails = was.standing is Standing.OVER and now.standing is Standing.OVER
    holds = not gravity(effect.key, was) and not gravity(effect.key, now)
    if not fails and not holds:
        return 0.0
    share = (was.margin - now.margin) / max(abs(now.bound or 0.0), abs(was.margin), 1e-9)
    return share + _DEEPER if fails else share
