"""Options of a book: what they replace, what they leave, and what they may not be together."""

import pytest

from linewright.engine import Standing
from linewright.errors import InputFaultsError
from tests.engine.builders import Doc, book, design, judge, system, the_limit, the_system, tube_mm, two_units, upto

RATIO: Doc = {"measure": "connection_ratio", "min": "80 %", "max": "100 %", "page": 1}


def option(name: str, **what: object) -> Doc:
    return {"id": name, "text": "Some kit."} | what


def with_options(*names: str, **more: object) -> Doc:
    return design([system(*two_units("5 m", "5 m"), **more) | {"options": list(names)}])  # type: ignore[arg-type]


def faults(used: Doc, *names: str) -> list[str]:
    with pytest.raises(InputFaultsError) as error:
        judge(with_options(*names), used)
    return [fault.message for fault in error.value.faults]


def test_an_option_that_widens_the_largest_bound_leaves_the_least_one() -> None:
    # Two units of 5 on 20 are 50 %, under the least ratio of 80 %, whatever the option says of the largest.
    wide = option("wide", limits=[{"measure": "connection_ratio", "max": "150 %"}])
    used = book({"limits": [RATIO], "options": [wide]})
    evaluation = judge(with_options("wide", modules=["outdoor 20"]), used)
    assert [(check.sense, check.bound, check.standing) for check in the_system(evaluation).limits] == [
        ("min", 0.8, Standing.OVER),
        ("max", 1.5, Standing.WITHIN),
    ]


def test_a_wider_bound_goes_with_the_bound_that_it_widens() -> None:
    relaxed = {"max": "60 m", "needs": [{"declared": "checked"}]}
    plain = {"measure": "main_length", "max": "20 m", "min": "1 m", "relaxed": [relaxed]}
    long = option("long", limits=[{"measure": "main_length", "max": "30 m"}])
    used = book({"limits": [plain], "options": [long]})
    made = design([system(*two_units("5 m", "5 m", main="40 m"), declared=["checked"]) | {"options": ["long"]}])
    least, most = the_system(judge(made, used)).limits
    assert (least.sense, least.standing) == ("min", Standing.WITHIN)
    assert (most.bound, most.standing, most.relaxed) == (30, Standing.OVER, ())


def test_of_two_options_that_bound_the_same_measure_both_bounds_hold() -> None:
    options = [option(name, limits=[{"measure": "main_length", "max": most}]) for name, most in SHORT_AND_LONG]
    used = book({"limits": [{"measure": "main_length", "max": "5 m"}], "options": options})
    found = the_system(judge(with_options("a", "b"), used)).limits
    assert [(check.bound, check.standing) for check in found] == [(8, Standing.OVER), (30, Standing.WITHIN)]


SHORT_AND_LONG = (("a", "8 m"), ("b", "30 m"))


def sizing(gas: str) -> Doc:
    rows = [upto(30, gas, "9.52 mm")]
    return {"main": {"rows": rows}, "branch": {"rows": rows}}


def test_an_option_replaces_a_section_whole() -> None:
    used = book({"options": [option("large", sizing=sizing("25.4 mm"))]})
    assert tube_mm(judge(with_options(), used), "J1") == 22.22
    assert tube_mm(judge(with_options("large"), used), "J1") == 25.4


def test_two_options_that_replace_the_same_section_cannot_be_on_together() -> None:
    used = book({"options": [option("a", sizing=sizing("25.4 mm")), option("b", sizing=sizing("28.58 mm"))]})
    assert faults(used, "a", "b") == ["the options 'a' and 'b' are on together, and both replace sizing"]
    assert tube_mm(judge(with_options("b"), used), "J1") == 28.58


def test_an_option_that_is_none_names_the_nearest() -> None:
    used = book({"options": [option("large")]})
    with pytest.raises(InputFaultsError) as error:
        judge(with_options("lage"), used)
    (fault,) = error.value.faults
    assert (fault.path, fault.message, fault.expected) == (
        "systems[0].options[0]",
        "there is no option 'lage' in the book 'plain'",
        "'large'",
    )


def test_what_an_option_replaces_has_to_fit_the_rest_of_the_book() -> None:
    by_group = sizing("25.4 mm")
    row = {"group": "twin", "gas": "25.4 mm", "liquid": "9.52 mm"}
    by_group["main"] = {"by": "group", "rows": [row]}
    said = [
        "with this option on, at outdoor.groups[0]: no row of sizing.main is for the group 'outdoor 10'",
        "with this option on, at outdoor.groups[1]: no row of sizing.main is for the group 'outdoor 20'",
    ]
    assert faults(book({"options": [option("grouped", sizing=by_group)]})) == said
    missing = {"measure": "main_length", "max": "5 m", "relaxed": [{"max": "9 m", "needs": [{"action": "up"}]}]}
    action = {"id": "up", "runs": "main", "lines": ["gas"]}
    used = book(
        {"sizing.actions": [action], "limits": [missing], "options": [option("bare", sizing=sizing("25.4 mm"))]}
    )
    at = "with this option on, at limits[0].relaxed[0].needs[0].action"
    assert faults(used) == [f"{at}: there is no elective size action 'up' in this book"]


def test_conditions_on_options_are_understood_within_options() -> None:
    limit = {"measure": "main_length", "max": "5 m", "when": {"not_option": "b"}}
    used = book({"options": [option("a", limits=[limit]), option("b")]})
    assert the_limit(judge(with_options("a"), used), "main_length").standing is Standing.OVER
    both = the_limit(judge(with_options("a", "b"), used), "main_length")
    assert both.standing is Standing.NOT_APPLICABLE


def test_a_size_action_of_an_option_can_be_forbidden_and_asks_for_its_declaration() -> None:
    large = sizing("22.22 mm")
    large["actions"] = [{"id": "up", "runs": "main", "lines": ["gas"], "when": {"declared": "quiet"}}]
    used = book({"options": [option("large", sizing=large)]})
    up = judge(with_options("large", declared=["quiet"]), used)
    assert tube_mm(up, "J1") == 25.4
    kept = judge(with_options("large", declared=["quiet"], forbidden=["up"]), used)
    assert tube_mm(kept, "J1") == 22.22


@pytest.mark.parametrize("key", ["options", "requirements"])
def test_an_id_can_be_told_from_the_rest_of_a_subject(key: str) -> None:
    said = "the id 'a/b' holds '/', which separates the parts of a result's name"
    assert faults(book({key: [{"id": "a/b", "text": "So."}]})) == [said]
