"""Refrigerant of a system in the rooms where it stands, judged by the standard that the design chose."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from functools import partial
from typing import NamedTuple

from linewright.engine.figures import ChargeResult
from linewright.engine.ground import Ground
from linewright.engine.records import Check, CheckKind, Deferred, Sense, Standing
from linewright.engine.safety_records import SafetyResult, SpaceResult
from linewright.engine.sizing import Sized
from linewright.engine.spaces import Joined, Parts, case_of, joined_to, level_of, parts_of
from linewright.engine.valves import Valve, valve_for
from linewright.model.design import Design, Room
from linewright.model.safety import Profile, Refrigerant
from linewright.standards.environment import Ban, Footprint, footprint
from linewright.standards.refrigerants.data import Datum
from linewright.standards.safety import en378
from linewright.standards.safety.case import DOUBTFUL, Case, Verdict
from linewright.standards.safety.cures import Cure, cures
from linewright.standards.safety.formulas import charge_by_exhaust, volume
from linewright.standards.safety.profiles import STANDARDS, judge_of, judged
from linewright.units import Dimension, over

MEASURE = "refrigerant"


class Job(NamedTuple):
    """One system that is judged: what the design chose, how a case is judged, and how without keeping the verdict."""

    design: Design
    ground: Ground
    chosen: Refrigerant
    charge: ChargeResult
    sized: Sized
    judge: Callable[[Case], Verdict]
    search: Callable[[Case], Verdict]


def safety_of(design: Design, ground: Ground, charge: ChargeResult, sized: Sized) -> SafetyResult | None:
    """Judge every room in which a unit or fitting of a system stands; none where no standard is chosen."""
    chosen = design.refrigerant
    if chosen is None:
        return None
    standard = STANDARDS[chosen.profile]
    fluid = standard.fluid(ground.book.book.refrigerant)
    if fluid is None:
        raise KeyError(ground.book.book.refrigerant)
    judge = partial(judged, chosen.profile, chosen.used_edition, fluid)
    search = judge_of(chosen.profile, chosen.used_edition, fluid)
    job, parts = Job(design, ground, chosen, charge, sized, judge, search), parts_of(ground)
    rooms = [room for room in design.rooms if room.id in parts.by_room]
    installed = date.fromisoformat(chosen.installed) if chosen.installed else None
    weight = footprint(
        fluid.name, charge.total_kg, rated_w=ground.rated_cooling_w, region=chosen.region, installed=installed
    )
    return SafetyResult(
        chosen.profile,
        standard.title,
        chosen.used_edition,
        fluid.name,
        charge.total_kg,
        tuple(item for item in fluid if isinstance(item, Datum)),
        tuple(_space(job, room, parts) for room in sorted(rooms, key=lambda room: room.id)),
        tuple(_others(job, fluid, parts, weight)),
        weight,
    )


def _space(job: Job, room: Room, parts: Parts) -> SpaceResult:
    """A room alone, or with the rooms joined to it where that is better."""
    charge_kg = job.charge.total_kg
    case = case_of(job.design, job.ground, room, charge_kg if charge_kg is not None else 0.0, parts=parts)
    verdict = job.judge(case)
    joined = joined_to(job.design, room, job.chosen.profile)
    rooms: tuple[Room, ...] = (room,)
    counts: Joined | None = None
    if charge_kg is None:
        verdict = Verdict(None, None, verdict.bound_kg, verdict.clause, needs=job.charge.missing, terms=verdict.terms)
    elif joined is not None and not verdict.passes:
        if joined.missing:
            verdict = verdict._replace(passes=None, needs=(*verdict.needs, *joined.missing))
        else:
            larger = case_of(job.design, job.ground, room, charge_kg, parts=parts, joined=joined)
            together = job.judge(larger)
            if _better(together, verdict):
                case, verdict, rooms, counts = larger, together, joined.rooms, joined
    check = _check(job, room, verdict, rooms=rooms)
    there = tuple(name for one in rooms for name in parts.by_room.get(one.id, ()))
    later: Deferred[Cure] = Deferred(partial(cures, case, job.search) if charge_kg is not None else tuple)
    assumed = tuple(_word(job, room, name) for name in DOUBTFUL if getattr(case, name) is None)
    valve = Deferred(partial(_valve, job, there, later))
    space = counts.space if counts else None
    return SpaceResult(check, room, rooms, space, there, case, verdict, assumed, later, valve)


def _valve(job: Job, parts: tuple[str, ...], found: Deferred[Cure]) -> tuple[Valve, ...]:
    """Where valves may stand for the cure that needs least beside them; none without such a cure."""
    left = [part.value for cure in found.rows for part in cure.parts if part.what == "releasable"]
    most_kg = next((value for value in left if value is not None), None)
    valve = None if most_kg is None else valve_for(job.ground, job.sized, parts, most_kg)
    return () if valve is None else (valve,)


def _better(one: Verdict, other: Verdict) -> bool:
    order = {True: 2, None: 1, False: 0}
    mine, theirs = order[one.passes], order[other.passes]
    return mine > theirs or (mine == theirs and (one.bound_kg or 0.0) > (other.bound_kg or 0.0))


def _check(job: Job, room: Room, verdict: Verdict, *, rooms: tuple[Room, ...]) -> Check:
    open_ = tuple(name for name in verdict.rests_on if name not in job.chosen.read)
    standing = Standing.UNJUDGED
    if verdict.passes is False:
        standing = Standing.OVER
    elif verdict.passes:
        standing = Standing.TO_CONFIRM if open_ else Standing.ON_CONDITIONS if verdict.rests_on else Standing.WITHIN
    margin = None
    if verdict.passes is not None and verdict.bound_kg is not None and verdict.charge_kg is not None:
        margin = verdict.bound_kg - verdict.charge_kg
    return _blank(job.ground, f"refrigerant:{room.id}")._replace(
        standing=standing,
        value=verdict.charge_kg,
        bound=verdict.bound_kg,
        margin=margin,
        governs=tuple(one.id for one in rooms),
        missing=tuple(_word(job, room, name) for name in verdict.needs),
        note=_note(job, verdict, open_),
    )


def _note(job: Job, verdict: Verdict, open_: tuple[str, ...]) -> str:
    """Clause and edition, and what of it is advisory."""
    name = f"{STANDARDS[job.chosen.profile].title}:{job.chosen.used_edition}"
    words = [f"{name}, {verdict.clause}" if verdict.clause else name]
    if verdict.note:
        words.append(verdict.note)
    if open_ and verdict.passes is not None:
        words.append(f"advisory until read in the standard: {', '.join(open_)}")
    elif verdict.rests_on and verdict.passes is not None:
        words.append(f"as read by the designer: {', '.join(verdict.rests_on)}")
    return "; ".join(words)


_WORDS = {
    "area": "area of {room}",
    "height": "height of {room}",
    "access": "access of {room}",
    "occupancy": "occupancy of {room}",
    "mounting": "mounting of the units in {room}",
    "underground": "whether level {level} is underground",
    "restricted": "whether people in {room} are restricted",
}


def _word(job: Job, room: Room, need: str) -> str:
    level = level_of(job.design, room)
    return _WORDS.get(need, need).format(room=room.id, level=room.level if level is None else level.id)


def _others(job: Job, fluid: object, parts: Parts, weight: Footprint) -> Iterator[Check]:
    """What is not about one room: parts without a room, the lowest floor below the ground, what may be installed."""
    if parts.unplaced:
        names = tuple(f"room of {name}" for name in sorted(parts.unplaced))
        yield _blank(job.ground, "refrigerant.places")._replace(
            missing=names, governs=tuple(sorted(parts.unplaced)), note="where a fitting stands is not stated"
        )
    if isinstance(fluid, en378.Fluid) and job.chosen.profile is Profile.EN_378 and job.ground.system.tight:
        yield from _fallen(job, fluid)
    yield from (check for ban in weight.bans if (check := _ban_check(job, ban)) is not None)


def _fallen(job: Job, fluid: en378.Fluid) -> Iterator[Check]:
    """EN 378-1 C.3: a leak that falls to the lowest floor below the ground, though nothing stands there."""
    levels = [level for level in job.design.site.levels if level.underground]
    if not levels:
        return
    lowest = min(levels, key=lambda level: level.elevation_m)
    rooms = [room for room in job.design.rooms if room.level == lowest.id]
    blank = _blank(job.ground, "refrigerant.lowest")._replace(
        governs=tuple(room.id for room in rooms), note=f"{en378.TITLE}, C.3: what falls to level {lowest.id}"
    )
    sides = [side for room in rooms for side in (room.area_m2, room.height_m)]
    known = [side for side in sides if side is not None]
    charge_kg = job.charge.total_kg
    if not rooms or len(known) < len(sides) or charge_kg is None:
        needs = job.charge.missing or (f"area and height of the rooms on level {lowest.id}",)
        yield blank._replace(missing=needs)
        return
    space = volume(*known)
    fan = sum(room.exhaust_m3_s or 0.0 for room in rooms)
    bound = max(fluid.qlmv.value * space, charge_by_exhaust(fan, fluid.rcl.value, space) if fan else 0.0)
    standing = Standing.OVER if over(charge_kg, bound) else Standing.WITHIN
    if bound == float("inf"):
        yield blank._replace(standing=standing, value=charge_kg)
        return
    yield blank._replace(standing=standing, value=charge_kg, bound=bound, margin=bound - charge_kg)


def _ban_check(job: Job, ban: Ban) -> Check | None:
    """A rule on what may be installed, on the day that the design states."""
    rule, day = ban.rule, job.chosen.installed
    if ban.falls_under is False:
        return None
    blank = _blank(job.ground, f"refrigerant.{rule.id}")._replace(
        measure="gwp",
        dimension=Dimension.NUMBER,
        value=ban.gwp,
        bound=rule.gwp_at_least,
        note=f"not installed from {rule.from_.isoformat()} on, unless {rule.unless}",
    )
    if ban.falls_under is None:
        return blank._replace(missing=(f"warming potential by {rule.basis}",))
    if not day:
        return blank._replace(missing=("the day of installation",))
    if not ban.in_force:
        return None
    return (
        blank._replace(missing=(f"whether {rule.unless}",))
        if rule.until is not None
        else blank._replace(standing=Standing.OVER, margin=rule.gwp_at_least - (ban.gwp or 0.0))
    )


def _blank(ground: Ground, subject: str) -> Check:
    return Check(
        f"{ground.system.id}/{subject}", CheckKind.REFRIGERANT, MEASURE, Dimension.MASS, Sense.MAX, Standing.UNJUDGED
    )
