"""The options of a hand-over set, and the set that is made with them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any, NamedTuple, TypeVar

from linewright.app.drawings import Request
from linewright.app.option_values import SPARES, WASTE, Amount, amount, chosen, stated_revision
from linewright.draw.paper import PAPERS
from linewright.draw.paper.facts import Revision
from linewright.errors import Fault, InputFaultsError
from linewright.report.pdf import Front, Paper
from linewright.takeoff import Settings
from linewright.units import UnitSystem

DOCUMENT_PAPERS = tuple(paper.value for paper in Paper)
_UNITS = tuple(system.value for system in UnitSystem)
_Read = TypeVar("_Read")


class SetOptions(NamedTuple):
    """How a set is wanted. Without a paper each drawing has the smallest that does, without units those of the design.

    settings : allowances of the take-off
    """

    paper: str = ""
    document_paper: str = Paper.A4.value
    revisions: tuple[Revision, ...] = ()
    invented_prices: bool = False
    settings: Settings = Settings()
    units: UnitSystem | None = None

    @property
    def front(self) -> Front:
        """Give what all documents say of themselves."""
        last = self.revisions[-1] if self.revisions else Revision("", "", "")
        return Front(last.mark, last.date, Paper(self.document_paper))

    @property
    def drawn(self) -> Request:
        """Give how the drawings are wanted."""
        return Request(self.paper, self.revisions)


class _Reading:
    """Reads options that were sent as texts, and keeps everything that is wrong with them."""

    def __init__(self, said: Mapping[str, Any]) -> None:
        self.said = said
        self.faults: list[Fault] = []

    def text(self, name: str) -> str:
        """Give an option as it was sent, nothing where it was not."""
        return str(self.said.get(name, "")).strip()

    def amount(self, name: str, kind: Amount, otherwise: float) -> float:
        """Read a quantity."""
        return self.read(name, self.text(name), lambda text: amount(text, kind), otherwise)

    def one_of(self, name: str, names: Sequence[str], otherwise: str) -> str:
        """Read one of some names."""
        return self.read(name, self.text(name), lambda text: chosen(text, names), otherwise)

    def read(self, name: str, text: str, reader: Callable[[str], _Read], otherwise: _Read) -> _Read:
        """Read a text; what is empty or wrong gives what is taken without it."""
        if not text:
            return otherwise
        try:
            return reader(text)
        except ValueError as why:
            path, value = f"options.{name}", text[:60]
            self.faults.append(
                Fault(file="body", line=0, column=0, path=path, value=value, message=str(why), expected="")
            )
            return otherwise


def read_options(said: Mapping[str, Any]) -> SetOptions:
    """Read options as they were sent; what is empty or left out is as on the command line.

    Raises InputFaultsError with everything that is wrong.
    """
    reading, usual = _Reading(said), SetOptions()
    stated = [str(text).strip() for text in said.get("revisions", ())]
    revisions = [
        reading.read(f"revisions.{k}", text, stated_revision, Revision("", "", "")) for k, text in enumerate(stated)
    ]
    units = reading.one_of("units", _UNITS, "")
    found = SetOptions(
        paper=reading.one_of("paper", tuple(PAPERS), usual.paper),
        document_paper=reading.one_of("document_paper", DOCUMENT_PAPERS, usual.document_paper),
        revisions=tuple(one for one in revisions if one.mark),
        invented_prices=bool(said.get("invented_prices", False)),
        settings=replace(
            usual.settings,
            waste=reading.amount("waste", WASTE, usual.settings.waste),
            spares=reading.amount("spares", SPARES, usual.settings.spares),
            as_built=bool(said.get("as_built", False)),
        ),
        units=UnitSystem(units) if units else None,
    )
    if reading.faults:
        raise InputFaultsError(reading.faults)
    return found
