"""What is judged, what is not and why; what people and programs are told of pipework."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from linewright.engine.records import CheckKind, Standing
from linewright.report.check_json import check_json
from linewright.report.check_text import check_text
from linewright.units import UnitSystem
from tests.pipework.clinic import ROOT, clinic, move, pipework, tube, wrap


def told(stated: str, system: UnitSystem = UnitSystem.SI) -> str:
    """The whole text, every line break and indent as one space."""
    return " ".join(check_text(clinic(stated), system=system, colour=False, books={}).split())


def test_without_the_mapping_nothing_is_judged_and_the_result_says_so() -> None:
    found = clinic("")
    assert all(result.pipework is None for result in found.systems)
    assert not [c for result in found.systems for c in result.checks if c.kind is CheckKind.PIPEWORK]
    assert "tube strength, insulation and movement of pipe" in found.cautions[0]
    assert "pipework" not in check_json(found)["systems"][0]


def test_nothing_of_it_is_loaded_for_a_design_without_it() -> None:
    program = (
        "import sys; from pathlib import Path; from linewright.app.project import open_project;"
        f"open_project(Path({str(ROOT / 'examples' / 'boat-house' / 'boat-house.design.yaml')!r})).evaluate();"
        "print(*(name for name in sys.modules if 'engine.pipework' in name or 'standards.pipework' in name))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == ""


def test_a_basis_that_is_not_stated_is_never_assumed() -> None:
    found = tube(clinic("{}"), 12.7)
    assert found.check.standing is Standing.UNJUDGED
    assert found.check.missing == ("the basis on which tube is rated (pipework.basis)",)
    assert set(found.allowed_pa) == {"annealed", "drawn"}, "what each would allow is shown"
    assert found.order is None


def test_the_nameplate_comes_before_what_the_design_states() -> None:
    both = clinic("{basis: annealed, design_pressure: 3 MPa}")
    assert pipework(both).design.pressure_pa == pytest.approx(4.15e6)
    alone = clinic("{basis: annealed, design_pressure: 3 MPa}", pressures="")
    assert pipework(alone).design.pressure_pa == pytest.approx(3e6)


def test_without_either_the_ambient_counts_and_the_verdict_is_to_confirm() -> None:
    found = clinic("{basis: drawn, code: en-1057}", pressures="")
    assert pipework(found).design.doubts == ("EN 378-2",)
    assert tube(found, 25.4).check.standing is Standing.TO_CONFIRM
    assert "rests on memory: EN 378-2" in tube(found, 25.4).check.note


def test_beyond_the_ambients_of_the_table_nothing_is_judged() -> None:
    found = tube(clinic("{basis: drawn, code: en-1057, ambient: 60 C}", pressures=""), 25.4)
    assert found.check.standing is Standing.UNJUDGED
    assert found.check.missing == ("design temperature of EN 378-2 for 60 degC of ambient air",)


def test_tube_hotter_than_the_table_is_not_judged() -> None:
    found = tube(clinic("{basis: drawn, code: en-1057, tube_temperature: 90 C}"), 25.4)
    assert found.check.standing is Standing.UNJUDGED
    assert "allowable stress of half-hard copper by en-1057 above 65 degC" in found.check.missing[0]


def test_half_hard_tube_has_no_stress_by_b31_5_unless_it_is_stated() -> None:
    found = tube(clinic("{basis: drawn}"), 25.4)
    assert found.check.standing is Standing.UNJUDGED
    assert "allowable stress of half-hard copper by asme-b31.5" in found.check.missing[0]
    stated = tube(clinic("{basis: drawn, stress: 60 MPa, wall_tolerance: 10 %}"), 25.4)
    assert stated.check.standing is Standing.WITHIN


def test_soft_tube_is_rated_soft_on_any_basis() -> None:
    found = [tube(clinic(f"{{basis: {word}, code: en-1057}}"), 12.7) for word in ("drawn", "annealed")]
    assert found[0].check.bound == found[1].check.bound == pytest.approx(2 * 46e6 * 0.8 / 11.9)


def test_what_is_remembered_never_passes() -> None:
    assert tube(clinic("{basis: drawn, code: jis}"), 25.4).check.standing is Standing.TO_CONFIRM
    remembered = tube(clinic("{basis: annealed}"), 6.35)
    assert remembered.check.standing is Standing.TO_CONFIRM
    assert "the tolerance on the wall" in remembered.check.note
    assert tube(clinic("{basis: annealed, wall_tolerance: 10 %}"), 6.35).check.standing is Standing.WITHIN


def test_a_size_without_wall_is_named() -> None:
    wall = "    25.4 mm: 1.0 mm\n"
    found = tube(clinic("{basis: annealed}", (wall, "")), 25.4)
    assert found.check.standing is Standing.UNJUDGED
    assert found.check.missing == ("wall of 25.4 mm tube",)


def test_a_wall_is_proposed_for_a_size_without_one() -> None:
    """15.88 mm brazed, EN 1057: 4.15 x 15.88 / (2 x 46 + 4.15) = 0.685 mm; 5/8 in coil is sold with 0.889 mm."""
    found = tube(clinic("{basis: annealed, code: en-1057}", ("    15.88 mm: 1.0 mm\n", "")), 15.88)
    assert found.check.standing is Standing.UNJUDGED
    assert found.order is not None
    assert found.order.wall_m == pytest.approx(0.035 * 0.0254)


def test_a_size_without_temper_is_named() -> None:
    temper = "    25.4 mm: half-hard\n"
    assert tube(clinic("{basis: drawn}", (temper, "")), 25.4).check.missing == ("temper of 25.4 mm tube",)
    odd = tube(clinic("{basis: drawn}", (temper, "    25.4 mm: springy\n")), 25.4)
    assert odd.check.missing == ("temper of 25.4 mm tube: 'springy' is not known",)


def test_where_the_book_states_no_wall_the_form_that_the_design_names_counts() -> None:
    wall, temper = "    22.22 mm: 1.0 mm\n", "    22.22 mm: half-hard\n"
    stated = "{basis: drawn, tube: astm-b280-straight}"
    found = tube(clinic(stated, (wall, ""), (temper, "")), 22.22)
    assert found.wall_m == pytest.approx(0.045 * 0.0254)
    assert (found.temper, found.check.standing) == ("drawn", Standing.WITHIN)


def test_listed_tube_needs_its_pressure_or_a_listing_of_the_book() -> None:
    assert "listed or tested" in tube(clinic("{basis: listed}"), 25.4).check.missing[0]
    tested = tube(clinic("{basis: listed, listed: 700 psi}"), 25.4)
    assert tested.check.standing is Standing.ON_CONDITIONS
    weak = tube(clinic("{basis: listed, listed: 3 MPa}"), 25.4)
    assert weak.check.standing is Standing.OVER
    listing = "\npressures: {high: 4.15 MPa, tube_listing: copper as listed under tubes}\n"
    booked = tube(clinic("{basis: listed}", pressures=listing), 25.4)
    assert booked.check.standing is Standing.ON_CONDITIONS
    assert "the book lists: copper as listed under tubes" in booked.check.note


def test_no_gauge_is_corrected_to_a_temperature_that_no_site_has() -> None:
    found = pipework(clinic("{filled: 27 C, read: 200 C}")).test[0]
    assert (found.reading_pa, found.missing) == (None, "a test at 200 degC")


def test_a_test_above_the_design_pressure_is_over() -> None:
    high = "\npressures: {high: 4.15 MPa, test: [{pressure: 4.5 MPa, hold: 1 h}]}\n"
    found = next(one for one in pipework(clinic("{}", pressures=high)).others if one.measure == "pressure_test")
    assert found.standing is Standing.OVER
    assert "above the design pressure" in found.note


def test_without_stages_the_test_is_not_judged() -> None:
    found = next(one for one in pipework(clinic("{}", pressures="")).others if one.measure == "pressure_test")
    assert found.missing == ("stages of the test: the book states none (pressures.test)",)


def test_air_wetter_than_saturated_has_a_dew_point_above_it_and_is_named() -> None:
    found = wrap(clinic("{indoor_air: {temperature: 27 C, humidity: 104 %}}"), "gas_25.4_indoors")
    assert found.check.standing is Standing.UNJUDGED
    assert found.check.missing == ("a humidity of 104 %, whose dew point is above the air",)


def test_in_saturated_air_nothing_keeps_a_cold_line_dry() -> None:
    found = wrap(clinic("{indoor_air: {temperature: 27 C, humidity: 100 %}}"), "gas_25.4_indoors")
    assert found.check.missing == ("saturated air, in which no thickness keeps a cold line dry",)


def test_more_than_the_thickest_that_is_stocked_is_over() -> None:
    found = wrap(clinic("{stock: [9 mm, 13 mm]}"), "gas_25.4_outdoors")
    assert found.check.standing is Standing.OVER
    assert found.order_m is None


def test_air_indoors_that_is_not_stated_is_that_outdoors() -> None:
    found = wrap(clinic("{outdoor_air: {temperature: 27 C, humidity: 80 %}}"), "gas_25.4_indoors")
    assert found.dew_degc == pytest.approx(23.25, abs=0.006)
    assert "rests on defaults:" in found.check.note
    assert "indoor air as outdoors" in found.check.note


def test_insulation_that_rests_on_defaults_never_passes() -> None:
    stated = {
        "conductivity": "0.038 W/(m K)",
        "gas_line": "4 C",
        "stock": "[25 mm, 50 mm]",
        "outdoor_air": "{temperature: 27 C, humidity: 80 %}",
        "indoor_air": "{temperature: 26 C, humidity: 75 %}",
    }
    whole = clinic(f"{{{', '.join(f'{key}: {text}' for key, text in stated.items())}}}")
    assert wrap(whole, "gas_25.4_indoors").check.standing is Standing.WITHIN
    for left_out in stated:
        some = clinic(f"{{{', '.join(f'{key}: {text}' for key, text in stated.items() if key != left_out)}}}")
        name = "gas_25.4_outdoors" if left_out == "outdoor_air" else "gas_25.4_indoors"
        assert wrap(some, name).check.standing is Standing.TO_CONFIRM, left_out


def test_a_shaft_takes_the_worse_air() -> None:
    stated = "{outdoor_air: {temperature: 30 C, humidity: 85 %}, indoor_air: {temperature: 24 C, humidity: 50 %}}"
    found = {one.place: one for one in pipework(clinic(stated)).insulation if one.check.subject.count("gas_25.4")}
    assert found["either"].dry_m == found["outdoors"].dry_m
    assert (found["indoors"].dry_m or 0.0) < (found["either"].dry_m or 0.0)


def test_a_warm_line_needs_none_where_nothing_else_asks() -> None:
    found = wrap(clinic("{}"), "liquid_12.7_indoors")
    assert (found.dry_m, found.order_m) == (0.0, 0.0)
    assert found.check.note.startswith("nothing asks for insulation")
    least = PLAIN + "  insulation: {12.7 mm: 13 mm}\n"
    booked = wrap(clinic("{}", pressures=least), "liquid_12.7_indoors")
    assert booked.book_m == pytest.approx(0.013)
    assert booked.order_m == pytest.approx(0.013)


PLAIN = "\npressures:\n  high: 4.15 MPa\n"


def test_hotter_than_the_energy_code_leaves_only_what_counts_unjudged() -> None:
    told, asked = (
        wrap(clinic(f"{{hottest_gas: 95 C, code_minimum: {word}}}"), "gas_25.4_indoors") for word in ("no", "yes")
    )
    assert (told.code_m, told.check.standing) == (None, Standing.TO_CONFIRM)
    assert told.order_m is not None
    assert asked.check.missing == ("the energy code's table for a line of 95 degC",)


def test_movement_waits_for_a_statement() -> None:
    checks = {
        word: next(one for one in pipework(clinic(f"{{movement: {word}}}")).others if one.measure == "movement")
        for word in ("no", "yes")
    }
    assert checks["no"].standing is Standing.TO_CONFIRM
    assert checks["yes"].standing is Standing.ON_CONDITIONS


def test_a_run_of_unknown_length_leaves_movement_unjudged() -> None:
    run = "{from: K1, to: J1, length: 12 m,"
    found = clinic("{movement: yes}", (run, run.replace("12 m", "unknown")))
    check = next(one for one in pipework(found).others if one.measure == "movement")
    assert check.standing is Standing.UNJUDGED
    assert check.missing == ("length of run J1",)


def test_what_was_built_and_loops_count() -> None:
    run = "{from: K1, to: J1, length: 12 m,"
    plain = move(clinic("{}"), "J1.gas")
    built = move(clinic("{}", (run, f"{run} as_built: 24 m, items: [loop],")), "J1.gas")
    assert built.expansion_m == pytest.approx(plain.expansion_m), "24 m with a loop between two parts of 12 m"
    assert (built.supports or 0) > (plain.supports or 0)


def test_a_size_that_is_beyond_a_table_of_supports_is_named() -> None:
    found = move(clinic("{supports: en-378-2}"), "U1.liquid")
    assert found.missing == ("spacing of 9.52 mm tube by en-378-2",)
    stated = move(clinic("{supports: en-378-2, support_spacing: 1.5 m}"), "U1.liquid")
    assert stated.spacing_m == 1.5


def test_the_cautions_of_testing_and_brazing_are_told() -> None:
    text = told("{}")
    for words in (
        "Never test with oxygen",
        "dry nitrogen only, through a regulator",
        "relief valve",
        "distance",
        "fire watch",
    ):
        assert words in text
    assert "Caution: Refrigerant in rooms, physics of flow" in text


def test_people_read_the_tube_to_order_and_the_gauge_in_both_systems() -> None:
    text = told("{basis: drawn, code: en-1057, filled: 27 C, read: 12 C}")
    assert "Pipework: design pressure 4150.0 kPa by the nameplate in the book" in text
    assert "25.4 mm 1 mm half-hard 4918 kPa within 1 mm half-hard, as it is" in text
    assert "3 4150.0 kPa 1440 min 3937.5 kPa 14.2 kPa" in text
    inches = told("{basis: drawn, code: en-1057, filled: 27 C, read: 12 C}", UnitSystem.IP)
    assert "3 601.9 psi 1440 min 571.1 psi 1.1 psi" in inches


def test_programs_get_the_same_figures() -> None:
    found = check_json(clinic("{basis: annealed}"))
    json.dumps(found, allow_nan=False)
    system = next(one for one in found["systems"] if one["id"] == "ground")
    tubes = {round(one["od_m"] * 1000, 2): one for one in system["pipework"]["tubes"]}
    assert tubes[25.4]["standing"] == "over"
    assert tubes[25.4]["order"] is None
    checks = {check["subject"] for check in system["checks"] if check["kind"] == "pipework"}
    assert {one["subject"] for one in system["pipework"]["tubes"]} <= checks
