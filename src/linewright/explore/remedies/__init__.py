"""Ways out of what is over, short or unsafe: each a list of edits, proven by judging the whole design anew."""

from linewright.explore.remedies.phrases import Phrase
from linewright.explore.remedies.records import (
    Duty,
    Effect,
    Key,
    Move,
    MoveKind,
    Outcome,
    Progress,
    Reached,
    Remedy,
)
from linewright.explore.remedies.search import find, search
from linewright.explore.remedies.wanted import BUDGET, OutdoorPlace, Wanted

__all__ = [
    "BUDGET",
    "Duty",
    "Effect",
    "Key",
    "Move",
    "MoveKind",
    "Outcome",
    "OutdoorPlace",
    "Phrase",
    "Progress",
    "Reached",
    "Remedy",
    "Wanted",
    "find",
    "search",
]
