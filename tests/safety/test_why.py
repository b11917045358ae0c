"""The working of refrigerant in rooms under each standard holds to what the contract asks of every working."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.contract import test_why as contract
from tests.safety.clinic import ROOT

TERMINAL = (ROOT / "examples" / "ferry-terminal" / "ferry-terminal.design.yaml").read_text(encoding="utf-8")
CHOSEN = "{profile: en-378, edition: 2016+A1:2020, access: general, region: eu, installed: 2027-05-01}"
STAFF = "{id: staff, name: Staff room, level: ground, area: 14 m2, height: 2.6 m,"
VARIANTS: dict[str, tuple[tuple[str, str], ...]] = {
    "natural ventilation": ((STAFF, f"{STAFF} opening: 0.02 m2, opening_edge: 0.1 m,"),),
    "openings of joined rooms": (
        ("area: 110 m2, height: 4 m,", "area: 20 m2, height: 3 m, exhaust: 90 m3/h,"),
        ("area: 12 m2, height: 3 m,", "area: 12 m2, height: 3 m, exhaust: 50 m3/h,"),
    ),
    "ashrae": ((CHOSEN, "{profile: ashrae-15, occupancy: commercial}"),),
    "ashrae with air kept moving": (
        (CHOSEN, "{profile: ashrae-15}"),
        ("restricted: no", "restricted: no, circulation: 400 m3/h, occupancy: institutional"),
    ),
    "iec": ((CHOSEN, "{profile: iec-60335-2-40}"),),
    "iec, older": (
        (CHOSEN, "{profile: iec-60335-2-40, edition: 2018}"),
        ("restricted: no", "restricted: no, circulation: 400 m3/h"),
    ),
    "joined by a duct": (
        (CHOSEN, "{profile: iec-60335-2-40}"),
        ("joined_by: openings", "joined_by: duct, least_airflow: 50 %"),
    ),
    "sizes missing": ((STAFF, STAFF.replace("area: 14 m2, ", "")),),
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
    text = TERMINAL
    for old, new in VARIANTS[variant]:
        assert old in text
        text = text.replace(old, new)
    path = tmp_path / f"{variant}.design.yaml"
    path.write_text(text, encoding="utf-8", newline="\n")
    monkeypatch.setitem(contract.EXAMPLES, f"terminal, {variant}", path)
    explained = contract.explained(f"terminal, {variant}")
    assert any("/refrigerant:" in subject for subject in explained.workings)
    for check in CHECKS:
        check(explained)
