"""Connection ratio, tons and charge as the trade reckons them. Common practice, no source."""

import pytest

from linewright.engine import Evaluation, Standing
from tests.engine.builders import (
    SITE,
    Doc,
    book,
    design,
    judge,
    model,
    module,
    room,
    room_checks,
    run,
    system,
    the_check,
    the_limit,
    the_system,
    unit,
    upto,
)

LB = 0.45359237  # kg in a pound, exact by definition, from memory


def big_book() -> Doc:
    """Indices as large as the trade's examples: outdoor 60, indoor 15, 20 and 31."""
    return book(
        {
            "outdoor.modules": [module(60)],
            "outdoor.groups": [{"modules": ["outdoor 60"], "index": 60}],
            "indoor.models": [model(15), model(20), model(31)],
            "sizing.main": {"rows": [upto(60, "22.22 mm", "9.52 mm")]},
            "sizing.branch": {"rows": [upto(100, "15.88 mm", "9.52 mm")]},
            "limits": [{"measure": "connection_ratio", "max": "110 %"}],
        }
    )


# Common practice, no source: indoor units of 15, 20 and 31 on an outdoor unit of 60 are 110 %.
def test_15_and_20_and_31_on_60_are_110_percent() -> None:
    runs = [
        run("outdoor", "J1", "10 m"),
        run("J1", "A", "5 m"),
        run("J1", "J2", "5 m"),
        run("J2", "B", "5 m"),
        run("J2", "C", "5 m"),
    ]
    units = [unit("A", 15), unit("B", 20), unit("C", 31)]
    found = judge(design([system(runs, units, modules=["outdoor 60"])]), big_book())
    limit = the_limit(found, "connection_ratio")
    assert limit.value == pytest.approx(1.10, rel=1e-12)
    assert limit.standing is Standing.WITHIN


def charged_book(*, mode: str = "half-up", rest: str = "0.4 lb") -> Doc:
    return book(
        {
            "charge": {
                "liquid": {"6.35 mm": "0.015 lb/ft", "9.52 mm": "0.040 lb/ft"},
                "group": {"outdoor 10": "0.9 lb"},
                "constant": rest,
                "round": {"step": "0.1 lb", "mode": mode},
                "max": "11.2 lb",
            }
        }
    )


def charged_system() -> Doc:
    """220 ft of 9.52 mm liquid line (main and one arm) and 70 ft of 6.35 mm (two unit runs)."""
    runs = [
        run("outdoor", "J1", "120 ft"),
        run("J1", "J2", "100 ft"),
        run("J2", "U1", "30 ft"),
        run("J2", "U2", "15 ft"),
        run("J1", "U3", "25 ft"),
    ]
    return system(runs, [unit("U1", 3), unit("U2", 3), unit("U3", 3)])


# Common practice, no source: 220 ft at 0.040 lb/ft and 70 ft at 0.015 lb/ft are 8.80 and 1.05 lb; with 0.9 and
# 0.4 lb of two other terms 11.15 lb, which is 11.2 lb to a tenth, half-up.
def test_four_terms_of_8_80_and_1_05_and_0_9_and_0_4_lb_are_11_2_lb() -> None:
    found = judge(design([charged_system()]), charged_book())
    charge = the_system(found).charge
    terms = {term.name: (term.kg or 0.0) / LB for term in charge.terms}
    assert terms == {
        "liquid 6.35 mm": pytest.approx(1.05, rel=1e-9),
        "liquid 9.52 mm": pytest.approx(8.80, rel=1e-9),
        "group": pytest.approx(0.9, rel=1e-9),
        "constant": pytest.approx(0.4, rel=1e-9),
    }
    assert charge.unrounded_kg == pytest.approx(11.15 * LB, rel=1e-9)
    assert charge.rounded_kg == pytest.approx(11.2 * LB, rel=1e-12)
    # Factory charge of the plain book: 3 kg.
    assert charge.total_kg == pytest.approx(3 + 11.2 * LB, rel=1e-12)


def test_a_rounded_charge_at_its_largest_is_within() -> None:
    found = judge(design([charged_system()]), charged_book())
    assert the_check(found, "charge").standing is Standing.WITHIN


# Common practice, no source: a book may instead round always up, or down.
@pytest.mark.parametrize(
    ("mode", "rest", "pounds"),
    [
        ("half-up", "0.4 lb", 11.2),
        ("half-up", "0.39 lb", 11.1),  # 11.14
        ("up", "0.4 lb", 11.2),
        ("up", "0.36 lb", 11.2),  # 11.11
        ("up", "0.35 lb", 11.1),  # 11.10 exactly: nothing to round
        ("down", "0.4 lb", 11.1),
        ("down", "0.45 lb", 11.2),  # 11.20 exactly
    ],
)
def test_the_book_says_how_its_charge_is_rounded(mode: str, rest: str, pounds: float) -> None:
    found = judge(design([charged_system()]), charged_book(mode=mode, rest=rest))
    assert the_system(found).charge.rounded_kg == pytest.approx(pounds * LB, rel=1e-12)


def one_room(rated: str, load: str) -> Evaluation:
    """One unit whose model and outdoor unit are both rated `rated`, in a room with that cooling load."""
    outdoor = module(10) | {"cooling": rated, "heating": rated}
    indoor = model(10) | {"cooling": rated, "heating": rated, "sensible": "1 kW"}
    used = book({"outdoor.modules": [outdoor], "indoor.models": [indoor]})
    used["outdoor"]["groups"] = [{"modules": ["outdoor 10"], "index": 10}]
    runs, units = [run("outdoor", "U1", "10 m")], [unit("U1", 10, room="hall")]
    return judge(design([system(runs, units)], rooms=[room("hall", load, heating=load)], site=SITE), used)


# Common practice, no source: 18 tons are 216 000 Btu/h.
@pytest.mark.parametrize(
    ("rated", "load", "standing"),
    [
        ("18 tons", "216 000 Btu/h", Standing.WITHIN),
        ("216 MBH", "18 tons", Standing.WITHIN),
        ("18 tons", "216 001 Btu/h", Standing.OVER),
        ("215 999 Btu/h", "18 tons", Standing.OVER),
    ],
)
def test_18_tons_are_216_000_btu_per_hour(rated: str, load: str, standing: Standing) -> None:
    checks = room_checks(one_room(rated, load), "hall")
    for mode in ("cooling", "heating"):
        assert checks[mode].standing is standing
        assert checks[mode].margin == pytest.approx(0, abs=0.3)  # W: one Btu/h is 0.293 W


def test_18_tons_are_63_3_kilowatts() -> None:
    """A ton of refrigeration is 12 000 Btu/h; one Btu (IT) is 1055.05585262 J exactly, from memory."""
    capacity = the_system(one_room("18 tons", "1 kW")).cooling
    assert capacity is not None
    assert capacity.rated_w == pytest.approx(216_000 * 1055.05585262 / 3600, rel=1e-12)
