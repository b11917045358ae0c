"""What a search is asked for."""

from __future__ import annotations

from linewright.model.values import value
from linewright.units import LengthM

#: Evaluations that a search may make where nobody says how many.
BUDGET = 160
#: As long as nothing was found, so many times as many.
LONGER = 3
#: Moves that one remedy may be made of, for a single target; each further target adds one, up to the most.
FEW_MOVES, MOST_MOVES = 4, 12


@value
class OutdoorPlace:
    """Where the outdoor group could stand instead: length of the main from there, elevation of its connection [m]."""

    main_m: LengthM | None = None
    elevation_m: LengthM | None = None


@value
class Wanted:
    """What is to be cured, and how much may be tried.

    subject : what fails, by the subject that its working goes by; empty for all that fails
    system : only what fails in this system and in the rooms that it serves; empty for all
    budget : evaluations that may be made; the same budget gives the same result. None: `BUDGET`, and `LONGER` times
        that as long as nothing was found
    outdoor_place : a place that the designer offers; without one the outdoor group stays
    physics : whether what flows is to be cured, and kept, as well: advisory, from first principles
    most_listed : remedies after which the search ends
    """

    subject: str = ""
    system: str = ""
    budget: int | None = None
    outdoor_place: OutdoorPlace | None = None
    physics: bool = False
    most_listed: int = 8
