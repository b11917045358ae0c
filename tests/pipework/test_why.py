"""The working of pipework holds to what the contract asks of every working, however it is judged."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.contract import test_why as contract
from tests.pipework.clinic import ROOT

WORKS = (ROOT / "examples" / "print-works" / "print-works.design.yaml").read_text(encoding="utf-8")
START, END = WORKS.index("pipework:\n"), WORKS.index("site:\n")
BOOK = "book: inland-r410a"
HOSTEL = (ROOT / "examples" / "ridge-hostel" / "ridge-hostel.design.yaml").read_text(encoding="utf-8")
BOAT_HOUSE = (ROOT / "examples" / "boat-house" / "boat-house.design.yaml").read_text(encoding="utf-8")
STATION = (ROOT / "examples" / "pilot-station" / "pilot-station.design.yaml").read_text(encoding="utf-8")
STATED = (
    "{basis: annealed, code: en-1057, tube_temperature: 60 C, design_pressure: 3 MPa, gas_line: 6 C, liquid_line: 12 C,"
    " surface: 9 W/(m2 K), hottest_gas: 90 C, hottest_liquid: 50 C, support_spacing: 1.2 m, movement: yes}"
)


def in_place(stated: str) -> str:
    """The print works with another mapping."""
    return f"{WORKS[:START]}pipework: {stated}\n{WORKS[END:]}"


def added(text: str, stated: str) -> str:
    """Another example with a mapping."""
    return text.replace("site:", f"pipework: {stated}\nsite:", 1)


VARIANTS = {
    "silent": in_place("{}"),
    "annealed with a tolerance": in_place("{basis: annealed, wall_tolerance: 10 %, stress: 35 MPa}"),
    "listed": in_place("{basis: listed, listed: 700 psi}"),
    "jis": in_place("{basis: drawn, code: jis}"),
    "boat house by the ambient": added(BOAT_HOUSE, "{basis: annealed, ambient: 30 C}"),
    "boat house stated": added(BOAT_HOUSE, STATED),
    "boat house by form": added(BOAT_HOUSE, "{basis: drawn, tube: astm-b280-straight, supports: plumbing}"),
    "hostel": added(HOSTEL, "{basis: annealed, supports: en-378-2}"),
    "three tubes": added(STATION, "{basis: drawn}"),
}
CHECKS = (
    contract.test_every_working_has_the_keys_of_the_contract,
    contract.test_every_step_replays_from_the_inputs_that_are_printed,
    contract.test_an_input_from_another_subject_is_a_result_of_that_subject,
    contract.test_an_input_from_a_file_names_what_is_written_there,
)


@pytest.mark.parametrize("variant", VARIANTS)
def test_every_figure_is_followed_to_where_it_stands(
    variant: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / f"{variant}.design.yaml"
    path.write_text(VARIANTS[variant], encoding="utf-8", newline="\n")
    monkeypatch.setitem(contract.EXAMPLES, f"pipework, {variant}", path)
    explained = contract.explained(f"pipework, {variant}")
    kinds = ("/strength:", "/insulation:", "/movement:", "/design-pressure", "/pressure-test")
    for kind in kinds:
        assert any(kind in subject for subject in explained.workings), kind
    for check in CHECKS:
        check(explained)
