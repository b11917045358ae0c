"""What people and programs are told of refrigerant in rooms."""

from __future__ import annotations

from linewright.report.check_json import check_json
from linewright.report.check_text import check_text
from linewright.units import UnitSystem
from tests.safety.clinic import EN, IEC, US, clinic


def told(chosen: str, system: UnitSystem = UnitSystem.SI) -> str:
    """The whole text, every line break and indent as one space."""
    return " ".join(check_text(clinic(chosen), system=system, colour=False, books={}).split())


def test_the_standard_with_its_edition_and_the_charge_stand_above_the_rooms() -> None:
    assert "Refrigerant in rooms by EN 378-1:2016+A1:2020: 16.10 kg of R-32" in told(EN)
    assert "Refrigerant in rooms by ANSI/ASHRAE 15:2022: 35.5 lb of R-32" in told(US, UnitSystem.IP)
    older = "{profile: iec-60335-2-40, edition: 2018}"
    assert "Refrigerant in rooms by IEC 60335-2-40:2018: 16.10 kg of R-32" in told(older)


def test_the_cautions_are_told_with_every_standard() -> None:
    for chosen in (EN, US, IEC):
        text = told(chosen)
        for words in ("suffocate", "class A2L, A2 and A3 burn", "are not judged", "a licensed engineer decide"):
            assert words in text
        assert "Refrigerant in rooms, tube strength" not in text
    assert "Caution: Refrigerant in rooms, tube strength" in told("")


def test_what_is_advisory_is_never_said_to_pass() -> None:
    assert "passes with" not in told(US)
    assert "advisory: not over with" in told(US)
    assert "passes with" in told(EN)


def test_what_is_not_stated_is_told_once_with_all_its_rooms() -> None:
    text = told(EN)
    assert text.count("taken at its worst: underground of") == 3, "once for each system"
    assert "where a fitting stands is not stated" in text


def test_an_answer_that_has_to_be_quick_leaves_out_what_takes_long() -> None:
    quick, whole = (check_json(clinic(EN), cures=cures) for cures in (False, True))
    for one, other in zip(quick["systems"], whole["systems"], strict=True):
        for space, full in zip(one["refrigerant"]["spaces"], other["refrigerant"]["spaces"], strict=True):
            assert set(full) - set(space) == {"cures", "valve"}
            assert space == {key: value for key, value in full.items() if key in space}


def test_the_values_that_are_used_stand_with_their_sources() -> None:
    for chosen in (EN, US, IEC):
        values = check_json(clinic(chosen), cures=False)["systems"][0]["refrigerant"]["values"]
        assert values
        for value in values:
            assert value["source"].startswith("[")
            assert value["edition"]
            assert value["confidence"]


def test_the_verdicts_stand_among_the_checks() -> None:
    system = check_json(clinic(EN), cures=False)["systems"][0]
    checks = {check["subject"] for check in system["checks"] if check["kind"] == "refrigerant"}
    assert {space["subject"] for space in system["refrigerant"]["spaces"]} == checks - {"ground/refrigerant.places"}
