"""For every measure that counts a small system on which it comes to one less than its bound, to it, to one more."""

from linewright.book.measures import MeasureName as M
from tests.engine.bounds_cases import MAX, THREE, Case, Nudge, Sketch, Way
from tests.engine.builders import module, one_unit, run, system, unit


def joints_in_a_row(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """Two, three or four joints, one after the other, on a bound of 3."""
    count = 2 + nudge.value
    nodes = ["outdoor", *(f"J{i}" for i in range(1, count + 1)), "U0"]
    runs = [run(nodes[i], nodes[i + 1], "1 m") for i in range(count + 1)]
    runs += [run(f"J{i}", f"U{i}", "1 m") for i in range(1, count + 1)]
    return Sketch(system(runs, [unit(f"U{i}", 1) for i in range(count + 1)]), "3")


def joints_in_all(way: Way, nudge: Nudge, sense: str) -> Sketch:
    """Two, three or four joints in the system, on a bound of 3."""
    return joints_in_a_row(way, nudge, sense)._replace(variant={"in_all": "yes"})


def joints_after_header(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """None, one or two joints beyond a header, on a bound of 1."""
    count = nudge.value
    nodes = ["H1", *(f"J{i}" for i in range(1, count + 1)), "U0"]
    runs = [run("outdoor", "H1", "1 m"), run("H1", "X", "1 m")]
    runs += [run(nodes[i], nodes[i + 1], "1 m") for i in range(count + 1)]
    runs += [run(f"J{i}", f"U{i}", "1 m") for i in range(1, count + 1)]
    units = [unit("X", 1), *(unit(f"U{i}", 1) for i in range(count + 1))]
    return Sketch(system(runs, units, fittings=[{"id": "H1", "kind": "header"}]), "1")


def units_on_header(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """Two, three or four units, on a bound of 3."""
    names = [f"U{i}" for i in range(2 + nudge.value)]
    runs = [run("outdoor", "H1", "1 m"), *(run("H1", name, "1 m") for name in names)]
    fittings = [{"id": "H1", "kind": "header"}]
    return Sketch(system(runs, [unit(name, 1) for name in names], fittings=fittings), "3")


def modules_in_order(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """Outward by length 3-2-1, 3-1-2 or 1-2-3: none, one or two modules larger than the one before; bound 1."""
    outward = ((3, 2, 1), (3, 1, 2), (1, 2, 3))[nudge.value]
    modules = [{"model": f"outdoor {index}", "id": f"M{index}"} for index in (1, 2, 3)]
    pipes = [run("outdoor", f"M{index}", f"{at} m") for at, index in enumerate(outward, start=1)]
    book = {
        "outdoor.modules": [module(index) for index in (1, 2, 3)],
        "outdoor.groups": [{"modules": ["outdoor 1", "outdoor 2", "outdoor 3"], "index": 6}],
    }
    runs, units = one_unit()
    return Sketch(system(runs, units, modules=modules, pipes=pipes), "1", book)


COUNT_CASES = (
    Case(M.FITTING_COUNT, joints_in_a_row, (THREE,), (MAX,)),
    Case(M.FITTING_COUNT, joints_in_all, (THREE,), name="fitting_count in all"),
    Case(M.HEADER_DEPTH, joints_after_header, (THREE,)),
    Case(M.INDOOR_COUNT, units_on_header, (THREE,)),
    Case(M.MODULE_ORDER, modules_in_order, (THREE,)),
)
