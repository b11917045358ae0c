"""Cases at, just under and just over a bound for the measures of mode boxes."""

from collections.abc import Sequence

from linewright.book.measures import MeasureName as M
from tests.engine.bounds_cases import MAX, THREE, Build, Case, Nudge, Sketch, Way, length_bound, other
from tests.engine.builders import Doc, chain, system, unit
from tests.engine.builders import run as length_of
from tests.recovery.builders import RECOVERY, box, run

WIDE = {"models": [{"model": "box", "ports": 8, "index": 99}], "series": {"max": 9}}
#: What makes the plain book of the tests one of heat recovery.
BOOK: Doc = {key: RECOVERY[key] for key in ("kind", "outdoor", "tubes", "sizing", "fittings")} | {"boxes": WIDE}


def sketch(runs: Sequence[Doc], units: Sequence[Doc], bound: str, *names: str) -> Sketch:
    """A system with boxes of these names."""
    return Sketch(system(runs, units, fittings=[box(name) for name in names]), bound, BOOK)


def to_box(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    return sketch(
        [*chain("outdoor", "B1", way.texts(nudge)), run("B1", "U1")], [unit("U1", 5)], length_bound(way), "B1"
    )


def from_box(way: Way, nudge: Nudge, sense: str) -> Sketch:
    runs = [run("outdoor", "B1"), length_of("B1", "U1", other(sense)), *chain("B1", "U2", way.texts(nudge))]
    return sketch(runs, [unit("U1", 5), unit("U2", 5)], length_bound(way), "B1")


def boxes_apart(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    up = way.texts(nudge)
    runs = [run("outdoor", "J1", rise="0 m"), run("J1", "B1", rise="0 m"), run("B1", "U1", rise="0 m")]
    runs += [*chain("J1", "B2", up, rises=up), run("B2", "U2", rise="0 m")]
    return sketch(runs, _without_level("U1", "U2"), length_bound(way), "B1", "B2")


def units_apart(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    up = way.texts(nudge)
    runs = [run("outdoor", "B1", rise="0 m"), run("B1", "U1", rise="0 m"), *chain("B1", "U2", up, rises=up)]
    return sketch(runs, _without_level("U1", "U2"), length_bound(way), "B1")


def _without_level(*names: str) -> list[Doc]:
    return [unit(name, 5, elevation="") for name in names]


def units_on_box(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """Two, three or four units of 1 on one box, on a bound of 3."""
    names = [f"U{i}" for i in range(2 + nudge.value)]
    runs = [run("outdoor", "B1"), *(run("B1", name) for name in names)]
    return sketch(runs, [unit(name, 1) for name in names], "3", "B1")


def units_carried_on(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """Two, three or four units of 1 behind the through pipe of a box, on a bound of 3."""
    names = [f"U{i}" for i in range(2 + nudge.value)]
    runs = [run("outdoor", "B1"), run("B1", "X"), run("B1", "B2"), *(run("B2", name) for name in names)]
    return sketch(runs, [unit("X", 5), *(unit(name, 1) for name in names)], "3", "B1", "B2")


def units_on_port(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """Two, three or four units of 1 on one port, on a bound of 3."""
    count = 1 + nudge.value
    nodes = ["B1", *(f"J{i}" for i in range(1, count + 1)), "U0"]
    runs = [run("outdoor", "B1"), *(run(nodes[i], nodes[i + 1]) for i in range(count + 1))]
    runs += [run(f"J{i}", f"U{i}") for i in range(1, count + 1)]
    return sketch(runs, [unit(f"U{i}", 1) for i in range(count + 1)], "3", "B1")


def boxes_in_a_row(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """Two, three or four boxes one behind another, on a bound of 3."""
    names = [f"B{i}" for i in range(2 + nudge.value)]
    runs = [run(near, far) for near, far in zip(["outdoor", *names], [*names, "U0"], strict=True)]
    return sketch(runs, [unit("U0", 1)], "3", *names)


LENGTHS_OF_BOXES: tuple[tuple[M, Build], ...] = (
    (M.JOINT_TO_BOX, to_box),
    (M.BOX_TO_UNIT, from_box),
    (M.LEVEL_BETWEEN_BOXES, boxes_apart),
    (M.LEVEL_WITHIN_BOX, units_apart),
)
BOX_LENGTH_CASES = tuple(Case(measure, build, senses=(MAX,)) for measure, build in LENGTHS_OF_BOXES)
BOX_COUNT_CASES = (
    Case(M.BOX_INDEX, units_on_box, (THREE,)),
    Case(M.THROUGH_INDEX, units_carried_on, (THREE,)),
    Case(M.PORT_INDEX, units_on_port, (THREE,)),
    Case(M.UNITS_PER_PORT, units_on_port, (THREE,)),
    Case(M.BOXES_IN_SERIES, boxes_in_a_row, (THREE,), (MAX,)),
    Case(M.BOX_COUNT, boxes_in_a_row, (THREE,)),
)
