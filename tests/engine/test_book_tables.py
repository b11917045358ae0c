"""What a book's tables may be looked up by, and the terms of its charge and its capacity, each worked by hand."""

import pytest

from linewright.engine import Evaluation, Standing
from tests.engine.builders import (
    SITE,
    Doc,
    book,
    design,
    judge,
    model,
    one_unit,
    run,
    system,
    the_check,
    the_limit,
    the_run,
    the_system,
    tube_mm,
    two_units,
    unit,
    upto,
)

ROWS = [
    {"upto": 5, "gas": "15.88 mm", "model": "small"},
    {"upto": 9, "gas": "19.05 mm", "model": "middle"},
    {"upto": 30, "gas": "22.22 mm", "model": "large"},
]


def joint(by: str, *, gas: str = "", indices: tuple[int, int] = (2, 2)) -> Evaluation:
    """J2 carries the sum of two indices through a gas tube of 15.88 (to 5) or 19.05, or as overridden."""
    runs = [run("outdoor", "J1", "9 m"), run("J1", "U1", "1 m"), run("J1", "J2", "1 m", gas=gas)]
    runs += [run("J2", "U2", "1 m"), run("J2", "U3", "1 m")]
    units = [unit("U1", 1), unit("U2", indices[0]), unit("U3", indices[1])]
    used = book({"fittings.joint": {"by": by, "rows": ROWS}, "sizing.cap": "none"})
    return judge(design([system(runs, units)]), used)


@pytest.mark.parametrize(
    ("by", "gas", "indices", "chosen"),
    [
        ("index", "", (2, 2), "small"),
        ("index", "19.05 mm", (2, 2), "small"),
        ("tube", "", (2, 2), "small"),  # 15.88
        ("tube", "19.05 mm", (2, 2), "middle"),
        ("tube", "3/4 in", (2, 2), "middle"),  # the same size
        ("tube", "22.22 mm", (2, 2), "large"),
        ("tube", "15.88 mm", (5, 5), "small"),  # whatever hangs on it
        ("tube", "25.4 mm", (2, 2), ""),  # no joint takes it
        ("larger", "22.22 mm", (2, 2), "large"),  # small by index
        ("larger", "15.88 mm", (5, 5), "large"),  # small by tube
        ("larger", "19.05 mm", (4, 4), "middle"),
        ("larger", "25.4 mm", (2, 2), ""),
    ],
)
def test_a_joint_is_looked_up_by_index_by_tube_or_by_the_later_row(
    by: str, gas: str, indices: tuple[int, int], chosen: str
) -> None:
    found = joint(by, gas=gas, indices=indices)
    assert {item.id: item.model for item in the_system(found).fittings}["J2"] == chosen
    if not chosen:
        assert the_check(found, "fitting:J2").standing is Standing.OVER


TERMS: Doc = {
    "liquid": {"6.35 mm": "0.02 kg/m", "9.52 mm": "0.05 kg/m"},
    "gas": {"12.7 mm": "0.001 kg/m", "22.22 mm": "0.003 kg/m"},
    "group": {"outdoor 10": "0.4 kg"},
    "module": {"outdoor 10": "0.25 kg"},
    "indoor": {"unit 5": "0.1 kg"},
    "indoor_each": "0.05 kg",
    "constant": "-0.02 kg",
}
#: Main of 10 m 22.22 and 9.52, two unit runs of 5 m 12.7 and 6.35, two units of 5.
PARTS = {
    "liquid 6.35 mm": 0.2,
    "liquid 9.52 mm": 0.5,
    "gas 12.7 mm": 0.01,
    "gas 22.22 mm": 0.03,
    "group": 0.4,
    "module": 0.25,
    "indoor": 0.2,
    "indoor_each": 0.1,
    "constant": -0.02,
}
SUM = 1.67


def charged(charge: Doc) -> Evaluation:
    runs, units = two_units("5 m", "5 m")
    return judge(design([system(runs, units)]), book({"charge": charge}))


def test_every_term_of_a_charge_is_added() -> None:
    charge = the_system(charged(TERMS)).charge
    assert {term.name: term.kg for term in charge.terms} == {
        name: pytest.approx(kg, abs=1e-12) for name, kg in PARTS.items()
    }
    assert charge.unrounded_kg == pytest.approx(SUM)


@pytest.mark.parametrize("term", ["liquid", "gas", "group", "module", "indoor", "indoor_each", "constant"])
def test_a_term_that_the_book_has_not_is_not_added(term: str) -> None:
    left = {name: part for name, part in TERMS.items() if name != term}
    gone = sum(kg for name, kg in PARTS.items() if name == term or name.startswith(f"{term} "))
    assert the_system(charged(left)).charge.unrounded_kg == pytest.approx(SUM - gone)


@pytest.mark.parametrize(
    ("more", "kg"),
    [
        ({"multiplier": 1.1}, 1.837),
        ({"min": "1.5 kg"}, 1.67),
        ({"min": "2 kg"}, 2),
        ({"multiplier": 1.1, "min": "1.8 kg"}, 1.837),  # the floor comes after the multiplier
        ({"round": {"step": "0.1 kg", "mode": "half-up"}}, 1.7),
        ({"round": {"step": "0.1 kg", "mode": "down"}}, 1.6),
        ({"round": {"step": "0.5 kg", "mode": "up"}}, 2),
        ({"min": "1.68 kg", "round": {"step": "0.1 kg", "mode": "down"}}, 1.6),  # rounding comes last
        # 0.2 + 0.5 + 0 + 0 + 0.4 + 0.3 (0.25 half-up) + 0.2 + 0.1 - 0
        ({"round": {"step": "0.1 kg", "mode": "half-up", "at": "term"}}, 1.7),
        # The same with 0.1 for each gas line.
        ({"constant": "0 kg", "round": {"step": "0.1 kg", "mode": "up", "at": "term"}}, 1.9),
    ],
)
def test_a_charge_is_multiplied_floored_and_rounded_in_that_order(more: Doc, kg: float) -> None:
    assert the_system(charged(TERMS | more)).charge.rounded_kg == pytest.approx(kg)


@pytest.mark.parametrize(
    ("charge", "missing"),
    [
        ({"liquid": {"9.52 mm": "0.05 kg/m"}}, "6.35"),
        ({"gas": {"22.22 mm": "0.003 kg/m"}}, "12.7"),
        ({"group": {"outdoor 20": "0.4 kg"}}, "outdoor 10"),
        ({"module": {"outdoor 20": "0.4 kg"}}, "outdoor 10"),
    ],
)
def test_what_a_table_of_the_charge_does_not_list_leaves_it_unknown(charge: Doc, missing: str) -> None:
    found = charged(charge)
    assert the_system(found).charge.total_kg is None
    assert missing in " ".join(the_system(found).charge.missing)
    assert the_check(found, "charge").standing is Standing.UNJUDGED


@pytest.mark.parametrize(("indoor", "kg"), [({"unit 4": "0.1 kg"}, 0), ({"wall": "0.1 kg"}, 0.2)])
def test_an_indoor_unit_that_is_not_listed_adds_nothing_and_a_kind_may_be_listed(indoor: Doc, kg: float) -> None:
    assert the_system(charged({"indoor": indoor})).charge.rounded_kg == pytest.approx(kg)


def capacity_kw(mode: str, tables: Doc, *, indices: tuple[int, int] = (5, 5)) -> float | None:
    """Of a system rated 10 kW at 35 and 19 C in cooling, at 6 and 20 C in heating."""
    runs, _ = two_units("5 m", "5 m")
    units = [unit(f"U{i}", index) for i, index in enumerate(indices, start=1)]
    found = judge(design([system(runs, units)], site=SITE), book({f"capacity.{mode}": tables}))
    capacity = the_system(found).cooling if mode == "cooling" else the_system(found).heating
    assert capacity is not None
    if capacity.capacity_w is None:
        assert the_check(found, f"capacity.{mode}").standing is Standing.UNJUDGED
        return None
    return capacity.capacity_w / 1000


RATIO = {"ratio": ["50 %", "100 %", "150 %"], "factor": [0.6, 1.0, 1.1]}
COLD = {"outdoor_wb": ["-4 C", "16 C"], "indoor_db": ["18 C", "22 C"], "factor": [[0.8, 0.6], [1.2, 1.0]]}
DEFROST = {"outdoor_wb": ["-4 C", "16 C"], "factor": [0.8, 1.0]}
HOT = {"outdoor_db": ["30 C", "40 C"], "indoor_wb": ["18 C", "20 C"], "factor": [[1.0, 1.2], [0.8, 1.0]]}


@pytest.mark.parametrize(
    ("mode", "tables", "indices", "kw"),
    [
        ("cooling", {}, (5, 5), 10),
        ("cooling", {"ratio": RATIO}, (5, 5), 10),
        ("cooling", {"ratio": RATIO}, (3, 4), 10 * (0.6 + 0.4 * 20 / 50)),  # 70 %
        ("cooling", {"ratio": RATIO}, (10, 3), 10 * 1.06),  # 130 %
        ("cooling", {"ratio": RATIO}, (10, 6), None),  # 160 %: beyond the table
        ("cooling", {"ratio": RATIO}, (2, 2), None),  # 40 %
        ("cooling", {"temperature": HOT}, (5, 5), 10.0),  # mean of the four
        ("cooling", {"temperature": HOT, "ratio": RATIO}, (10, 3), 10.6),
        # 6 C is half-way and 20 C is half-way: mean of the four is 0.9.
        ("heating", {"temperature": COLD}, (5, 5), 9),
        ("heating", {"defrost": DEFROST}, (5, 5), 9),
        ("heating", {"temperature": COLD, "defrost": DEFROST}, (5, 5), 8.1),
        ("heating", {"temperature": COLD | {"defrost_included": "yes"}, "defrost": DEFROST}, (5, 5), 9),
        # A table for another group alone says nothing of this one.
        ("cooling", {"temperature": HOT | {"groups": ["twin"]}}, (5, 5), None),
        ("cooling", {"ratio": RATIO | {"groups": ["twin"]}}, (5, 5), None),
        ("cooling", {"temperature": HOT | {"groups": ["outdoor 10"]}}, (5, 5), 10),
    ],
)
def test_the_factors_of_a_capacity(mode: str, tables: Doc, indices: tuple[int, int], kw: float | None) -> None:
    assert capacity_kw(mode, tables, indices=indices) == (None if kw is None else pytest.approx(kw))


def three_modules(changes: Doc | None = None, *, unknown: bool = False, liquid: str = "") -> Evaluation:
    """Root - O1 2 m with a bend, O1 - M1 1 m, O1 - M2 3 m, root - M3 4 m; index 10 each."""
    pipes = [run("outdoor", "O1", "2 m", bends=1, liquid=liquid), run("O1", "M1", "1 m")]
    pipes += [run("O1", "M2", "unknown" if unknown else "3 m"), run("outdoor", "M3", "4 m")]
    modules = [{"model": "outdoor 10", "id": f"M{i}"} for i in (1, 2, 3)]
    limits = [
        {"measure": "module_pipe", "max": "9 m"},
        {"measure": "module_pipe", "max": "9 m", "lengths": "equivalent"},
    ]
    limits += [{"measure": "module_pipe_difference", "max": "9 m"}, {"measure": "farthest_actual", "max": "99 m"}]
    group = {"id": "triple", "modules": ["outdoor 10"] * 3, "index": 30}
    allowance = {"bend": "0.3 m", "outdoor_joint": "0.4 m"}
    used = book({"limits": limits, "fittings.allowance": allowance, "outdoor.groups": [group], **(changes or {})})
    used["sizing"]["main"] = {"rows": [upto(30, "28.58 mm", "12.7 mm")]}
    runs, units = one_unit("10 m")
    return judge(design([system(runs, units, modules=modules, pipes=pipes)]), used)


def test_module_pipes_add_up_with_the_joint_between_them_and_without_the_root() -> None:
    """Actual 3, 5 and 4 m; equivalent 2 + 0.3 + 0.4 more for M1 and M2, none at M3; the farthest unit from M2."""
    found = three_modules()
    pipe, equivalent = the_limit(found, "module_pipe"), the_limit(found, "module_pipe", nth=1)
    assert (pipe.value, pipe.governs) == (5, ("M2",))
    assert equivalent.value == pytest.approx(5.7)
    assert the_limit(found, "module_pipe_difference").value == pytest.approx(2)
    assert the_limit(found, "farthest_actual").value == pytest.approx(15)


def test_an_unknown_module_pipe_leaves_what_needs_it_unjudged() -> None:
    found = three_modules(unknown=True)
    for measure in ("module_pipe", "module_pipe_difference", "farthest_actual"):
        assert the_limit(found, measure).standing is Standing.UNJUDGED


MODULE_ROWS = {"rows": [upto(10, "19.05 mm", "9.52 mm"), upto(20, "28.58 mm", "12.7 mm")]}
RATES = {"liquid": {"9.52 mm": "0.05 kg/m", "12.7 mm": "0.1 kg/m", "15.88 mm": "0.2 kg/m"}}


@pytest.mark.parametrize(
    ("table", "override", "kg"),
    [
        # Main 10 m at 12.7; root - O1 serves 20: 2 m at 12.7; the others 1 + 3 + 4 m at 9.52.
        (MODULE_ROWS, "", 1.0 + 0.2 + 0.4),
        (MODULE_ROWS, "15.88 mm", 1.0 + 0.4 + 0.4),
        (None, "12.7 mm", 1.0 + 0.2 + 0.4),  # ports of the modules, the pipe between joints as overridden
        (None, "", None),  # nothing says what size it has
    ],
)
def test_module_pipes_are_charged_by_override_table_or_ports(
    table: Doc | None, override: str, kg: float | None
) -> None:
    changes: Doc = {"charge": RATES} | ({"sizing.module": table} if table else {})
    charge = the_system(three_modules(changes, liquid=override)).charge
    assert charge.rounded_kg == (None if kg is None else pytest.approx(kg))


def test_a_main_may_be_looked_up_by_its_group_and_a_unit_run_by_its_index() -> None:
    main = {"by": "group", "rows": [{"group": "outdoor 10", "gas": "19.05 mm", "liquid": "12.7 mm"}]}
    own = {"rows": [upto(3, "9.52 mm", "6.35 mm"), upto(9, "15.88 mm", "9.52 mm")]}
    runs, _ = two_units("5 m", "5 m")
    models = [model(3), model(4)]
    used = book({"sizing.main": main, "sizing.unit": own, "indoor.models": models})
    used["outdoor"]["groups"] = used["outdoor"]["groups"][:1]
    found = judge(design([system(runs, [unit("U1", 3), unit("U2", 4)])]), used)
    sizes = {item.id: (tube_mm(found, item.id), tube_mm(found, item.id, "liquid")) for item in the_system(found).runs}
    assert sizes == {"J1": (19.05, 12.7), "U1": (9.52, 6.35), "U2": (15.88, 9.52)}
    assert the_run(found, "J1").is_main


@pytest.mark.parametrize(
    ("table", "kg"), [({"twin": "0.7 kg"}, 0.7), ({"twin": "0.7 kg", "outdoor 10": "0.4 kg"}, 0.7), ({}, None)]
)
def test_a_group_of_several_modules_is_charged_by_its_own_name_only(table: Doc, kg: float | None) -> None:
    """A term for one module alone says nothing of two."""
    runs, units = two_units("5 m", "5 m")
    laid_out = system(runs, units, modules=["outdoor 10", "outdoor 10"])
    charge = {"group": table or {"outdoor 10": "0.4 kg"}}
    found = the_system(judge(design([laid_out]), book({"charge": charge}))).charge
    assert found.rounded_kg == (None if kg is None else pytest.approx(kg))
