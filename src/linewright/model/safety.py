"""What a design states of refrigerant in its rooms: by which standard it is judged, and what that standard asks for."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from linewright.model.values import value
from linewright.units import AreaM2, Ratio


class Profile(StrEnum):
    """A standard by which refrigerant in rooms is judged; a design has one, and nothing of another is read."""

    EN_378 = "en-378"
    ASHRAE_15 = "ashrae-15"
    IEC_60335 = "iec-60335-2-40"


#: Editions of each standard, the one that is used where none is stated first.
EDITIONS: Mapping[Profile, tuple[str, ...]] = MappingProxyType(
    {
        Profile.EN_378: ("2016+A1:2020",),
        Profile.ASHRAE_15: ("2022", "2019", "2024"),
        Profile.IEC_60335: ("2022", "2018"),
    }
)


class Access(StrEnum):
    """Who is in a room, by EN 378-1: anybody (a), some who are instructed (b), only who is authorised (c)."""

    GENERAL = "general"
    SUPERVISED = "supervised"
    AUTHORISED = "authorised"


class Occupancy(StrEnum):
    """What a room is by ASHRAE 15."""

    INSTITUTIONAL = "institutional"
    PUBLIC_ASSEMBLY = "public-assembly"
    RESIDENTIAL = "residential"
    COMMERCIAL = "commercial"
    LARGE_MERCANTILE = "large-mercantile"
    INDUSTRIAL = "industrial"


class Mounting(StrEnum):
    """How an indoor unit hangs or stands."""

    FLOOR = "floor"
    WINDOW = "window"
    WALL = "wall"
    CEILING = "ceiling"


class Region(StrEnum):
    """Whose rules on greenhouse gases hold."""

    EU = "eu"
    US = "us"


class JoinedBy(StrEnum):
    """What makes one space of several rooms."""

    OPENINGS = "openings"
    DUCT = "duct"


@value
class Refrigerant:
    """By which standard refrigerant in rooms is judged, and what holds for every room that does not say otherwise.

    `read` names what rests on memory here and was looked up in the standard by whoever signs the design.
    """

    profile: Profile
    edition: str = ""
    access: Access | None = None
    occupancy: Occupancy | None = None
    read: tuple[str, ...] = ()
    region: Region | None = None
    installed: str = ""

    @property
    def used_edition(self) -> str:
        """The edition by which is judged."""
        return self.edition or EDITIONS[self.profile][0]


@value
class Space:
    """Rooms that a leak fills together.

    opening_m2 : free area between them; least_airflow : share of its flow that each supply of a duct keeps
    """

    id: str
    rooms: tuple[str, ...]
    joined_by: JoinedBy
    opening_m2: AreaM2 | None = None
    least_airflow: Ratio | None = None
