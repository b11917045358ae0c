"""What was filled in, judged: stage by stage, vacuum, charge, joints; start-up readings worked out and noted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.engine.pipework_reading import Allowed, Reading
from linewright.engine.records import Evaluation, SystemResult
from linewright.engine.site_targets import stages_of, vacuum_of
from linewright.engine.site_verdicts import Evacuated, Found, Outcome, judge_stage, judge_vacuum, judge_weighed
from linewright.report.forms.blanks import Blank, Form, Key
from linewright.report.forms.reading import Filled
from linewright.report.forms.started import started
from linewright.report.forms.verdicts import Figure, Judged
from linewright.units import Dimension, UnitSystem, tube_name

D = Dimension
#: Words by which a joint was found wanting, in a cell that is to say how it went.
_BAD = ("no", "leak", "leaks", "fail", "failed", "fails")
_NOTHING = Found(Outcome.NOT_JUDGED, ("nothing is filled in",))


def judged(evaluation: Evaluation, blanks: Sequence[Blank], filled: Filled) -> tuple[Judged, ...]:
    """Every record of every system; `evaluation` is that with lengths as built."""
    altitude = evaluation.design.site.altitude_m
    return tuple(
        one for result in evaluation.systems for one in _System(result, blanks, filled, altitude_m=altitude).all()
    )


def other_sizes(before: Evaluation, built: Evaluation, units: UnitSystem) -> Iterator[Judged]:
    """Systems in which the book asks for other sizes at the lengths as built than those of the design."""
    for old, new in zip(before.systems, built.systems, strict=True):
        sizes = {(run.id, role): size.od_m for run in old.runs for role, size in run.tubes.items()}
        found = [
            f"{run.id} {role.word} {tube_name(size.od_m, units)}"
            for run in new.runs
            for role, size in sorted(run.tubes.items())
            if size.od_m is not None and size.od_m != sizes.get((run.id, role))
        ]
        if found:
            why = f"at these lengths the book asks for other sizes than those of the design: {', '.join(found)}"
            yield Judged(new.id, Form.BUILT, "sizes", Found(Outcome.FAILS, (why, "limits are judged with them")))


class _System:
    """The records of one system."""

    def __init__(
        self, result: SystemResult, blanks: Sequence[Blank], filled: Filled, *, altitude_m: float | None
    ) -> None:
        """Keep what was filled in."""
        self._result, self._filled, self._altitude = result, filled, altitude_m
        self._keys = [blank.key for blank in blanks if blank.key.system == result.id]

    def all(self) -> Iterator[Judged]:
        """Record by record, in the order of the work."""
        yield from self._test()
        yield self._vacuum()
        yield self._charge()
        yield self._built()
        yield from started(self._result, self._filled, self._altitude)
        yield self._joints()

    def _number(self, form: Form, item: str, field: str) -> float | None:
        return self._filled.number(self._result.id, form.value, item, field)

    def _is_empty(self, form: Form, item: str = "") -> bool:
        keys = [key for key in self._keys if key.form == form.value and item in ("", key.item)]
        return not any(key in self._filled.numbers or key in self._filled.texts for key in keys)

    def _test(self) -> Iterator[Judged]:
        stages = stages_of(self._result)
        for number in range(1, max(len(stages), 1) + 1):
            stage, item = (stages[number - 1] if stages else None), f"stage {number}"
            if self._is_empty(Form.TEST, item):
                yield Judged(self._result.id, Form.TEST, item, _NOTHING)
                continue
            start, now = (
                Reading(
                    self._number(Form.TEST, item, f"gauge at {when}"), self._number(Form.TEST, item, f"pipe at {when}")
                )
                for when in ("start", "end")
            )
            allowed = Allowed(
                self._number(Form.TEST, "gauge", "readings may be off by"),
                self._number(Form.TEST, "gauge", "temperature may be off by") or 0.0,
                self._altitude,
                None if stage is None else stage.hold_s,
                self._number(Form.TEST, item, "held"),
            )
            found, reading = judge_stage(stage, start, now, allowed)
            figures = (
                Figure("gauge at start", start.pressure_pa, D.PRESSURE),
                Figure("a tight pipe now shows", reading.nitrogen_pa, D.PRESSURE),
                Figure("gauge at end", now.pressure_pa, D.PRESSURE),
                Figure("differs by", reading.difference_pa, D.PRESSURE),
                Figure("a fall not seen up to", reading.unseen_pa, D.PRESSURE),
            )
            yield Judged(self._result.id, Form.TEST, item, found, figures)

    def _vacuum(self) -> Judged:
        target = vacuum_of(self._result)
        fields = ("reached", "after the hold", "closed for", "coldest pipe")
        read = Evacuated(*(self._number(Form.VACUUM, "vacuum", field) for field in fields))
        found = _NOTHING if self._is_empty(Form.VACUUM) else judge_vacuum(target, read)
        figures = (
            Figure("reached", read.reached_pa, D.PRESSURE),
            Figure(f"asked for ({target.source})", target.reach_pa, D.PRESSURE),
            Figure("after the hold", read.after_pa, D.PRESSURE),
            Figure(f"at most ({target.after_source})", target.after_pa, D.PRESSURE),
        )
        return Judged(self._result.id, Form.VACUUM, "vacuum", found, figures)

    def _charge(self) -> Judged:
        wanted = self._result.charge.rounded_kg
        weighed = self._number(Form.CHARGE, "charge", "weighed in")
        scale = self._number(Form.CHARGE, "charge", "scale may be off by")
        found = _NOTHING if self._is_empty(Form.CHARGE) else judge_weighed(wanted, weighed, scale)
        figures = (
            Figure("worksheet, lengths as built where known", wanted, D.MASS),
            Figure("weighed in", weighed, D.MASS),
            Figure("differs by", None if weighed is None or wanted is None else weighed - wanted, D.MASS),
        )
        return Judged(self._result.id, Form.CHARGE, "charge", found, figures)

    def _built(self) -> Judged:
        keys = [key for key in self._keys if key.form == Form.BUILT.value]
        open_ = [key.item for key in keys if key not in self._filled.numbers and not self._stated(key)]
        if not open_:
            found = Found(Outcome.NOTED, ("every length as built is known; charge and limits are judged by them",))
        elif len(open_) == len(keys):
            found = Found(Outcome.NOT_JUDGED, ("no length as built is known: charge and limits are those of design",))
        else:
            found = Found(Outcome.NOT_JUDGED, (f"length as built not known: {', '.join(open_)}",))
        return Judged(self._result.id, Form.BUILT, "lengths", found)

    def _stated(self, key: Key) -> bool:
        """Whether the design itself states the length as built."""
        runs = (*self._result.system.runs, *self._result.system.outdoor.pipes)
        return any(run.to == key.item and run.as_built_m is not None for run in runs)

    def _joints(self) -> Judged:
        keys = [key for key in self._keys if key.form == Form.JOINTS.value]
        if self._is_empty(Form.JOINTS) and keys:
            return Judged(self._result.id, Form.JOINTS, "joints", _NOTHING)
        texts = {key: self._filled.texts.get(key, "") for key in keys}
        bad = [key for key, text in texts.items() if text.casefold() in _BAD and key.field != "brazed by"]
        open_ = [key for key, text in texts.items() if not text]
        if bad:
            found = Found(Outcome.FAILS, tuple(f"{key.item}: {key.field}: {texts[key]}" for key in bad))
        elif open_:
            names = dict.fromkeys(key.item for key in open_)
            found = Found(Outcome.NOT_JUDGED, (f"not filled in for {', '.join(names)}",))
        else:
            found = Found(Outcome.NOTED, ("every joint has its entries",))
        return Judged(self._result.id, Form.JOINTS, "joints", found)
