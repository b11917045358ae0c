"""What a search for remedies hands over: remedies, what was tried, the nearest that was reached. All frozen."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import NamedTuple

from linewright.engine.records import Check, Sense
from linewright.explore.remedies.phrases import Phrase
from linewright.model.edits import Batch, Edit
from linewright.model.values import value


class Key(NamedTuple):
    """By what a check is known before and after a change: subject, kind, place in the book or measure, sense."""

    subject: str
    kind: str
    at: str
    sense: Sense


class MoveKind(StrEnum):
    """What a move does."""

    ACTION = "size action"
    DECLARATION = "declaration"
    OPTION = "option"
    OVERRIDE_OFF = "override taken off"
    SIZE = "tube size"
    FITTING = "fitting"
    MODULE_ORDER = "order of modules"
    UNIT_SIZE = "unit size"
    UNIT_KIND = "unit kind"
    SHIFT = "fitting along its pipe"
    REHANG = "branch elsewhere"
    GROUP = "outdoor group"
    OUTDOOR_PLACE = "outdoor place"
    LENGTH = "length to be built"
    MOVE_UNIT = "unit to another system"
    SPLIT = "system in two"
    SAFETY = "measure in a room"
    PIPEWORK = "pipework"


class Duty(StrEnum):
    """What somebody has to do outside the file for a remedy to be true."""

    BUILD = "to be built so"
    MEASURE = "to be measured again"
    CARRY_OUT = "to be carried out on site"
    INSTALL = "to be installed and kept working"
    SELECT = "other equipment to be ordered"


@value
class Length:
    """A length that a run is to be built to [m], what it was, and whether it is the most."""

    metres: float
    was_m: float
    shorter: bool


@value
class Move:
    """One thing that is done: its edits, what they are in words, and its weight as a change.

    edits : in the order in which they are applied, one gesture
    subject : what it is done to, by which moves that are alike are told
    duties : what has to be done outside the file
    stands_for : the length, of a move that is nothing else
    weight : how much of a change it is, by the table in docs/remedies.md
    """

    kind: MoveKind
    edits: tuple[Edit, ...]
    words: Phrase
    subject: str = ""
    duties: tuple[Duty, ...] = ()
    stands_for: Length | None = None
    weight: float


class Effect(NamedTuple):
    """What a remedy does to one check; `None` where there is none before, or none after."""

    key: Key
    before: Check | None
    after: Check | None


class Remedy(NamedTuple):
    """Edits that cure the targets, proven by judging the whole design anew.

    edits : one gesture, to be applied to the design that was searched
    cost : its weight as a change; price : what it adds to the take-off where prices are given and known
    unpriced : items of the take-off that differ and have no price, for want of which there is none
    cured : targets, and whatever else no longer fails
    traded : margins that are smaller and still kept, the greatest share of a bound first
    worse : checks that stand worse than before; empty in a remedy proper
    """

    edits: Batch
    moves: tuple[Move, ...]
    cost: float
    price: float | None
    effects: tuple[Effect, ...]
    cured: tuple[Effect, ...]
    traded: tuple[Effect, ...]
    worse: tuple[Effect, ...]
    unpriced: tuple[str, ...] = ()

    @property
    def duties(self) -> tuple[Duty, ...]:
        """What has to be done outside the file, each once."""
        return tuple(dict.fromkeys(duty for move in self.moves for duty in move.duties))


class Reached(NamedTuple):
    """The least violation that was reached: the moves, what is still over or worse than before."""

    edits: Batch
    moves: tuple[Move, ...]
    left: tuple[Effect, ...]
    violation: float


class Outcome(NamedTuple):
    """Everything that a search found.

    targets : what was to be cured, as it stands
    remedies : those that make nothing else stand worse; trades : those that do, and say what
    tried : how many trials there were of each kind of move; refused : how many edits could not be made
    locks : locks that forbade something that was tried
    stopped : whether it was stopped before its budget was used
    """

    targets: tuple[Check, ...]
    remedies: tuple[Remedy, ...]
    trades: tuple[Remedy, ...]
    reached: Reached | None
    evaluations: int
    budget: int
    tried: Mapping[MoveKind, int]
    refused: int
    locks: tuple[str, ...]
    stopped: bool


class Progress(NamedTuple):
    """How far a search is: evaluations made of those that it may make, remedies found, the newest one if any."""

    evaluations: int
    budget: int
    found: int
    newest: Remedy | None = None
