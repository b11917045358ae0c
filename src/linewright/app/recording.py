"""A filled record of the site: read, judged, and what the lengths as built make of charge and limits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from linewright.app.project import Project
from linewright.app.reviewing import charges_changed, verdicts_changed
from linewright.engine import Evaluation, evaluate
from linewright.engine.records import Standing
from linewright.engine.site_targets import Label, label_of
from linewright.engine.site_verdicts import Outcome
from linewright.errors import InputFaultsError
from linewright.model.design import Design
from linewright.model.edits import Edit, EditRefusedError, apply
from linewright.model.edits.values import Batch, Kind, Set, SetAsBuilt
from linewright.report.compared import Changed, Charged
from linewright.report.forms.blanks import Form, Key, blanks_of
from linewright.report.forms.judged import judged, other_sizes
from linewright.report.forms.reading import Filled, read_filled
from linewright.report.forms.verdicts import Judged
from linewright.units import UnitSystem


class Recorded(NamedTuple):
    """A record that was read: its verdicts, the edits that its lengths are, the design as built beside the design.

    charged : with lengths as built where the charge counts them, sizes as designed
    built : with limits judged by these lengths as well, which may make the book ask for other sizes
    of_this_design : `None` where the form does not say of which it was made
    """

    filled: Filled
    of_this_design: bool | None
    verdicts: tuple[Judged, ...]
    edits: Batch
    before: Evaluation
    charged: Evaluation
    built: Evaluation
    changed: tuple[Changed, ...]
    charges: tuple[Charged, ...]
    labels: dict[str, Label]

    @property
    def outcome(self) -> Outcome:
        """The gravest of all verdicts and of how the design stands as built; an unknown is never a pass."""
        found = {one.found.outcome for one in self.verdicts}
        if Outcome.FAILS in found or self.built.standing is Standing.OVER:
            return Outcome.FAILS
        open_ = self.built.standing in (Standing.UNJUDGED, Standing.TO_CONFIRM)
        return Outcome.NOT_JUDGED if open_ or Outcome.NOT_JUDGED in found else Outcome.HOLDS


def record(project: Project, name: str, units: UnitSystem) -> Recorded:
    """Read a filled form and judge it.

    Raises InputFaultsError with every fault of the form, and where the design cannot be as it is said to be built.
    """
    before = project.evaluate()
    blanks = blanks_of(before, units)
    filled = read_filled(name, blanks)
    lengths = {key: number for key, number in filled.numbers.items() if key.form == Form.BUILT.value}
    edits = Batch(edits=tuple(SetAsBuilt(system=key.system, run=key.item, length_m=at) for key, at in lengths.items()))
    design = project.loaded.design
    charged = evaluate(_applied(design, edits.edits, file=name), project.library)
    built = evaluate(_applied(design, (*edits.edits, *_measured(design, lengths)), file=name), project.library)
    same = None if not filled.sha256 else filled.sha256 == project.loaded.sha256
    return Recorded(
        filled=filled,
        of_this_design=same,
        verdicts=(*judged(charged, blanks, filled), *other_sizes(before, built, units)),
        edits=edits,
        before=before,
        charged=charged,
        built=built,
        changed=tuple(verdicts_changed(before, built)),
        charges=tuple(charges_changed(before, charged)),
        labels={
            result.id: label_of(result, filled.number(result.id, Form.CHARGE.value, "charge", "weighed in"))
            for result in charged.systems
        },
    )


def _measured(design: Design, lengths: dict[Key, float]) -> Iterator[Edit]:
    """Lengths as built as the lengths by which limits are judged."""
    pipes = {(system.id, pipe.to) for system in design.systems for pipe in system.outdoor.pipes}
    for key, length in lengths.items():
        kind = Kind.PIPE if (key.system, key.item) in pipes else Kind.RUN
        yield Set(kind=kind, id=key.item, system=key.system, values={"length_m": length})


def _applied(design: Design, edits: tuple[Edit, ...], *, file: str) -> Design:
    """The design after edits; locks keep it from being changed, not from being judged as it was built."""
    try:
        return apply(replace(design, locks=()), Batch(edits=edits)).design
    except EditRefusedError as error:
        raise InputFaultsError(replace(fault, file=file, line=0, column=0) for fault in error.faults) from None
