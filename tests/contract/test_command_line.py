"""The command line's contract: exit codes, streams, faults as JSON, units of what is printed."""

from pathlib import Path

import pytest

from tests.contract.containing import read_json
from tests.contract.program import DATA, MINIMAL, linewright

COMFORTABLE = DATA / "comfortable.design.yaml"
UNMEASURED = DATA / "unmeasured.design.yaml"
BROKEN = DATA / "broken.design.yaml"

#: Line of each fault in the broken design, and how its path begins.
FAULTS = {
    3: "projekt",
    24: "systems[0].units[1].room",
    27: "systems[0].runs[0].length",
    28: "systems[0].runs[1].length",
    31: "systems[0].runs[4]",
}


@pytest.mark.parametrize("form", [(), ("--json",)], ids=["text", "json"])
@pytest.mark.parametrize(
    ("design", "code"),
    [(COMFORTABLE, 0), (MINIMAL, 1), (BROKEN, 2), (UNMEASURED, 3)],
    ids=["nothing over", "a room short", "not understood", "a length unknown"],
)
def test_the_exit_code_says_how_the_design_stands(design: Path, code: int, form: tuple[str, ...]) -> None:
    assert linewright("check", design, *form).code == code


def test_a_limit_on_conditions_counts_as_fine() -> None:
    done = linewright("check", COMFORTABLE, "--json")
    standings = [limit["standing"] for limit in read_json(done.stdout)["systems"][0]["limits"]]
    assert standings.count("on conditions") == 1
    assert set(standings) == {"on conditions", "within"}


def test_an_unmeasured_length_leaves_limits_unjudged_and_none_over() -> None:
    got = read_json(linewright("check", UNMEASURED, "--json").stdout)
    limits = {limit["measure"]: limit for limit in got["systems"][0]["limits"]}
    assert {limit["standing"] for limit in limits.values()} == {"within", "unjudged"}
    # 24 + 6 m are known of the way to U3, of 70 m allowed; U2 stands at 35 m, the largest that is known.
    assert limits["farthest_actual"]["standing"] == "unjudged"
    assert limits["farthest_actual"]["value"] == pytest.approx(35)
    assert limits["farthest_actual"]["missing"] == ["length of run U3"]
    # 44 m of the total are known, of 120 m allowed.
    assert limits["total_length"]["value"] == pytest.approx(44)
    assert limits["total_length"]["left"] == pytest.approx(76)


def test_faults_as_text_stand_on_the_error_stream_and_nothing_on_the_other() -> None:
    done = linewright("check", BROKEN)
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    lines = done.stderr.splitlines()
    for line, path in FAULTS.items():
        assert [text for text in lines if f"broken.design.yaml:{line}:" in text and path in text], path


def test_faults_as_json_name_place_value_and_what_would_be_right() -> None:
    done = linewright("check", BROKEN, "--json")
    got = read_json(done.stdout)
    assert set(got) == {"schema", "faults"}
    assert got["schema"] == "linewright/faults/1"
    found = [(fault["line"], fault["path"]) for fault in got["faults"]]
    assert [line for line, _ in found] == sorted(FAULTS)
    assert [path for line, path in found if not path.startswith(FAULTS[line])] == []
    for fault in got["faults"]:
        assert set(fault) == {"file", "line", "column", "path", "value", "message", "expected"}
        assert fault["file"].endswith("broken.design.yaml")
        assert fault["column"] >= 1
        assert fault["message"]
        assert fault["expected"]
    negative = next(fault for fault in got["faults"] if fault["path"] == "systems[0].runs[1].length")
    assert negative["value"] == "-9 m"
    text = BROKEN.read_text(encoding="utf-8").splitlines()[negative["line"] - 1]
    assert text[negative["column"] - 1 :].startswith("-9 m")


def test_a_design_that_is_not_there_is_a_fault_as_well() -> None:
    done = linewright("check", DATA / "nowhere.design.yaml", "--json")
    assert done.code == 2
    assert [fault["line"] for fault in read_json(done.stdout)["faults"]] == [0]


@pytest.mark.parametrize("design", [COMFORTABLE, MINIMAL, BROKEN, UNMEASURED], ids=lambda path: path.name)
def test_with_json_the_output_is_one_json_document(design: Path) -> None:
    done = linewright("check", design, "--json")
    assert read_json(done.stdout)["schema"].startswith("linewright/")


@pytest.mark.parametrize("units", ["si", "ip"])
def test_the_printed_check_fits_80_columns_and_has_no_colour_off_a_terminal(units: str) -> None:
    done = linewright("check", MINIMAL, "--units", units)
    assert done.stderr == ""
    assert max(len(line) for line in done.stdout.splitlines()) <= 80
    assert "\x1b" not in done.stdout


@pytest.mark.parametrize(
    ("units", "shown", "not_shown"),
    [
        # farthest 41 m / 0.3048; tubes; rounded charge 3.0 kg and 7.2 kg in all / 0.45359237; 16 kW / 0.29307107
        ("ip", ["134.5", " ft", "7/8 in", "3/8 in", "6.6 lb", "15.9 lb", "54.6 MBH"], [" kW", " mm", " kg"]),
        ("si", ["41.0", " m", "22.22 mm", "9.52 mm", "3.00 kg", "7.20 kg", "16.00 kW"], [" MBH", " in\n", " lb"]),
    ],
)
def test_the_units_of_the_output_are_those_that_are_asked_for(
    units: str, shown: list[str], not_shown: list[str]
) -> None:
    text = linewright("check", MINIMAL, "--units", units).stdout
    assert [word for word in shown if word not in text] == []
    assert [word for word in not_shown if word in text] == []


def test_json_is_in_si_whatever_units_are_printed() -> None:
    plain, inch = (linewright("check", MINIMAL, "--json", *units).stdout for units in ((), ("--units", "ip")))
    assert plain == inch


def test_an_unknown_option_is_refused_with_the_code_for_input_not_understood() -> None:
    done = linewright("check", MINIMAL, "--units", "furlongs")
    assert done.code == 2
    assert done.stdout == ""
    assert "furlongs" in done.stderr
