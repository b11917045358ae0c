"""Conditions that are no measure, wherever a book may put them."""

import pytest

from linewright.engine import Standing
from tests.engine.builders import SITE, Doc, book, design, judge, system, the_limit, the_system, tube_mm, two_units

COLD: Doc = SITE | {"heating": {"outdoor_wb": "-12 C", "indoor_db": "20 C"}}
SNOW: Doc = {"site": "heating.outdoor_wb", "at_most": "-10 C"}


def main_up(when: Doc) -> Doc:
    return book({"sizing.actions": [{"id": "up", "runs": "main", "lines": ["gas"], "when": when}]})


@pytest.mark.parametrize(
    ("when", "more"),
    [({"declared": "quiet"}, {"declared": ["quiet"]}), ({"option": "kit"}, {"options": ["kit"]}), (SNOW, {})],
    ids=["declared", "option", "site"],
)
def test_a_size_action_may_hang_on_any_condition(when: Doc, more: Doc) -> None:
    # The main of the plain book is 22.22 mm; the next size of its ladder is 25.4 mm.
    used = main_up(when) | {"options": [{"id": "kit", "text": "Kit."}]}
    made = system(*two_units("5 m", "5 m"))
    assert tube_mm(judge(design([made | more], site=COLD), used), "J1") == 25.4
    assert tube_mm(judge(design([made], site=SITE), used), "J1") == 22.22


def test_an_action_on_a_site_that_says_nothing_is_unjudged() -> None:
    silent = judge(design([system(*two_units("5 m", "5 m"))]), main_up(SNOW))
    (check,) = the_system(silent).checks
    said = "whether it is due cannot be known without heating.outdoor_wb of the site"
    assert (check.standing, check.missing) == (Standing.UNJUDGED, (said,))


def test_every_path_may_hang_on_a_condition_that_names_no_unit() -> None:
    action = {"id": "up", "runs": "unit-run", "lines": ["gas"], "paths": "all", "when": {"declared": "quiet"}}
    made = system(*two_units("5 m", "5 m"), declared=["quiet"])
    evaluation = judge(design([made]), book({"sizing.actions": [action]}))
    # Units of 5 have ports of 12.7 mm.
    assert (tube_mm(evaluation, "U1"), tube_mm(evaluation, "U2")) == (15.88, 15.88)


@pytest.mark.parametrize(("altitude", "standing"), [("1000 m", "over"), ("999 m", "not applicable")])
def test_a_limit_that_holds_at_altitude(altitude: str, standing: str) -> None:
    limit = {"measure": "main_length", "max": "30 m", "when": {"site": "altitude", "at_least": "1000 m"}}
    made = system(*two_units("5 m", "5 m", main="40 m"))
    high = judge(design([made], site=SITE | {"altitude": altitude}), book({"limits": [limit]}))
    assert the_limit(high, "main_length").standing == standing
    silent = the_limit(judge(design([made], site=SITE), book({"limits": [limit]})), "main_length")
    assert (silent.standing, silent.missing) == (Standing.UNJUDGED, ("altitude of the site",))


def test_a_book_is_shown_with_the_conditions_of_its_rules() -> None:
    from linewright.report.condition_words import condition_words  # noqa: PLC0415
    from linewright.units import UnitSystem  # noqa: PLC0415

    whens: list[Doc] = [SNOW, {"option": "kit"}, {"not_option": "kit"}, {"declared": "quiet"}]
    whens.append({"measure": "main_length", "over": "20 m"})
    limits = [{"measure": "main_length", "max": "30 m", "when": when} for when in whens]
    used = book({"limits": limits, "options": [{"id": "kit", "text": "Kit."}]})
    state = the_system(judge(design([system(*two_units("5 m", "5 m"))]), used)).state
    said = [condition_words(limit.when[0], UnitSystem.SI) for limit in state.ground.book.book.limits]
    assert said == [
        "heating.outdoor_wb of the site at most -10.0 °C",
        "option kit is on",
        "option kit is off",
        "declared: quiet",
        "main_length over 20.0 m",
    ]
