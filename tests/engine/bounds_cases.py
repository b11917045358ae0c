"""For every measure a small system on which it comes to a value that is put together from pieces.

The pieces are ten of 0.1 m, three of 0.1 m, nine or twelve of 1/3 ft (and the same for masses and indices): in
binary their sums miss the round figure, some from above and some from below.
"""

from collections.abc import Callable, Sequence
from enum import Enum
from typing import Any, NamedTuple

from linewright.book.measures import MeasureName as M
from tests.engine.builders import Doc, chain, model, module, one_unit, run, system, unit

MAX, MIN = "max", "min"


class Nudge(Enum):
    """Where the value lies against its bound."""

    UNDER = 0
    AT = 1
    OVER = 2


class Way(NamedTuple):
    """How a bound is reached: so many pieces of one text; the last piece decides about under and over."""

    name: str
    pieces: int
    last: tuple[str, str, str]
    bound: float
    unit: str

    def texts(self, nudge: Nudge, unit: str = "") -> list[str]:
        """The pieces as texts with a unit (of the way, unless another is named)."""
        said = [self.last[1]] * (self.pieces - 1) + [self.last[nudge.value]]
        return [f"{piece} {unit or self.unit}" for piece in said]

    def numbers(self, nudge: Nudge) -> list[float]:
        """The pieces as bare numbers."""
        return [float(self.last[1])] * (self.pieces - 1) + [float(self.last[nudge.value])]


TENTHS = ("0.099999", "0.1", "0.100001")
THIRDS = ("0.333332", "1/3", "0.333335")
TEN = Way("ten of 0.1 m", 10, TENTHS, 1, "m")
THREE = Way("three of 0.1 m", 3, TENTHS, 0.3, "m")
NINE = Way("nine of 1/3 ft", 9, THIRDS, 3, "ft")
TWELVE = Way("twelve of 1/3 ft", 12, THIRDS, 4, "ft")
LENGTHS = (TEN, THREE, NINE, TWELVE)


class Sketch(NamedTuple):
    """A system, what its book has beside the limit, and the bound that its value is put against."""

    system: Doc
    bound: str
    book: dict[str, Any] = {}  # noqa: RUF012 - never changed
    variant: dict[str, Any] = {}  # noqa: RUF012 - never changed


Build = Callable[[Way, Nudge, str], Sketch]


class Case(NamedTuple):
    """A measure, how its value is made, the ways to reach it and the senses in which it is judged."""

    measure: M
    build: Build
    ways: Sequence[Way] = LENGTHS
    senses: Sequence[str] = (MAX, MIN)
    name: str = ""


def length_bound(way: Way) -> str:
    return f"{way.bound:g} {way.unit}"


def other(sense: str) -> str:
    """A length that never governs: none under a largest bound, much under a least one."""
    return "0 m" if sense == MAX else "100 m"


def single(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    return Sketch(system(chain("outdoor", "U1", way.texts(nudge)), [unit("U1", 5)]), length_bound(way))


def after_joint(way: Way, nudge: Nudge, sense: str) -> Sketch:
    runs = [run("outdoor", "J1", "7 m"), run("J1", "U1", other(sense)), *chain("J1", "U2", way.texts(nudge))]
    return Sketch(system(runs, [unit("U1", 5), unit("U2", 5)]), length_bound(way))


def apart(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    return after_joint(way, nudge, MAX)


def between_joints(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    runs = [run("outdoor", "J1", "7 m"), run("J1", "U1", "0 m"), *chain("J1", "J2", way.texts(nudge))]
    runs += [run("J2", "U2", "0 m"), run("J2", "U3", "0 m")]
    return Sketch(system(runs, [unit(name, 2) for name in ("U1", "U2", "U3")]), length_bound(way))


def main_before_joint(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    runs = [*chain("outdoor", "J1", way.texts(nudge)), run("J1", "U1", "9 m"), run("J1", "U2", "9 m")]
    return Sketch(system(runs, [unit("U1", 5), unit("U2", 5)]), length_bound(way))


def twin(pipes: Sequence[Doc], way: Way, *, levels: tuple[str, str] = ("0 m", "0 m")) -> Sketch:
    modules = [{"model": "outdoor 10", "id": f"M{i}", "elevation": level} for i, level in enumerate(levels, 1)]
    runs, units = one_unit()
    return Sketch(system(runs, units, modules=modules, pipes=pipes), length_bound(way))


def module_pipes(way: Way, nudge: Nudge, sense: str) -> Sketch:
    pipes = [*chain("outdoor", "M1", way.texts(nudge)), run("outdoor", "M2", other(sense))]
    return twin(pipes, way)


def module_pipes_apart(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    return module_pipes(way, nudge, MAX)


def module_rise(way: Way, nudge: Nudge, sense: str) -> Sketch:
    up = way.texts(nudge)
    pipes = [*chain("outdoor", "M1", up, rises=up), run("outdoor", "M2", other(sense), rise=other(sense))]
    return twin(pipes, way)


def module_levels(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """The bound as the difference of two levels: 0.8 and 1.1 m are 0.30000000000000004 m apart in binary."""
    low = "0.8" if way.unit == "m" else "1/3"
    high = {"m": ("1.099999", "1.1", "1.100001"), "ft": ("3.333332", "3 1/3", "3.333335")}[way.unit][nudge.value]
    return twin([], way, levels=(f"{low} {way.unit}", f"{high} {way.unit}"))


def rising(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    up = way.texts(nudge)
    return Sketch(system(chain("outdoor", "U1", up, rises=up), [unit("U1", 5, elevation="")]), length_bound(way))


def falling(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    lengths = way.texts(nudge)
    runs = chain("outdoor", "U1", lengths, rises=[f"-{length}" for length in lengths])
    return Sketch(system(runs, [unit("U1", 5, elevation="")]), length_bound(way))


def rising_after_joint(way: Way, nudge: Nudge, sense: str) -> Sketch:
    up, near = way.texts(nudge), other(sense)
    runs = [run("outdoor", "J1", "7 m", rise="0 m"), run("J1", "U1", near, rise=near)]
    runs += chain("J1", "U2", up, rises=up)
    units = [unit("U1", 5, elevation=""), unit("U2", 5, elevation="")]
    return Sketch(system(runs, units), length_bound(way))


def units_apart(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    return rising_after_joint(way, nudge, MAX)


def straight(key: str) -> Build:
    def build(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
        """A stated length: nothing is summed."""
        runs = [run("outdoor", "J1", "7 m"), run("J1", "U1", "1 m"), run("J1", "U2", "1 m")]
        fittings = [{"id": "J1", key: f"{way.last[nudge.value]} {way.unit}"}]
        sketched = system(runs, [unit("U1", 5), unit("U2", 5)], fittings=fittings)
        return Sketch(sketched, f"{way.last[1]} {way.unit}")

    return build


def charged(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    sketched = single(way, nudge, MAX).system
    mass = "kg" if way.unit == "m" else "lb"
    return Sketch(sketched, f"{way.bound:g} {mass}", {"charge": {"liquid": {"9.52 mm": f"1 {mass}/{way.unit}"}}})


def charged_in_all(way: Way, nudge: Nudge, sense: str) -> Sketch:
    """The factory charge is as much again."""
    added = charged(way, nudge, sense)
    book = {**added.book, "outdoor.modules": [module(10, factory=added.bound), module(20)]}
    number, mass = added.bound.split()
    return Sketch(added.system, f"{2 * float(number):g} {mass}", book)


def charged_by_length(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    rate = "kg/m" if way.unit == "m" else "lb/ft"
    book = {"charge": {"liquid": {"9.52 mm": f"{way.last[nudge.value]} {rate}"}}}
    if way.unit == "ft":  # a rate has no fractions
        book = {"charge": {"liquid": {"9.52 mm": f"{('0.299999', '0.3', '0.300001')[nudge.value]} {rate}"}}}
    bound = "0.1" if way.unit == "m" else "0.3"
    return Sketch(single(way, Nudge.AT, MAX).system, f"{bound} {rate}", book)


LENGTH_CASES = (
    Case(M.FARTHEST_ACTUAL, single),
    Case(M.FARTHEST_EQUIVALENT, single),
    Case(M.AFTER_FIRST_BRANCH, after_joint),
    Case(M.LAST_JOINT_TO_UNIT, after_joint),
    Case(M.NEAREST_FARTHEST_DIFFERENCE, apart),
    Case(M.MAIN_LENGTH, main_before_joint),
    Case(M.JOINT_SPACING, between_joints),
    Case(M.STRAIGHT_BEFORE, straight("straight_before"), (TEN, NINE), (MIN,)),
    Case(M.STRAIGHT_AFTER, straight("straight_after"), (TEN, NINE), (MIN,)),
    Case(M.TOTAL_LENGTH, single),
    Case(M.MODULE_PIPE, module_pipes),
    Case(M.MODULE_PIPE_DIFFERENCE, module_pipes_apart),
    Case(M.MODULE_PIPE_RISE, module_rise),
    Case(M.RISE_WITHOUT_TRAP, rising, LENGTHS, (MAX,)),
    Case(M.LEVEL_OUTDOOR_ABOVE, falling),
    Case(M.LEVEL_OUTDOOR_BELOW, rising),
    Case(M.LEVEL_BETWEEN_INDOOR, units_apart),
    Case(M.LEVEL_BETWEEN_MODULES, module_levels, (THREE, NINE)),
    Case(M.LEVEL_UNIT_TO_JOINT, rising_after_joint),
    Case(M.ADDITIONAL_CHARGE, charged),
    Case(M.TOTAL_CHARGE, charged_in_all),
    Case(M.CHARGE_PER_LENGTH, charged_by_length),
)


def indexed(indices: Sequence[float], runs: Sequence[Doc], bound: str, *, more: Sequence[Doc] = ()) -> Sketch:
    """Units A, B, … of these indices on an outdoor unit of index 1, with other units beside them."""
    models = {index: model(index) for index in indices}
    book = {
        "indoor.models": [*models.values(), model(0.05), model(0.25), model(0.9), model(5)],
        "outdoor.modules": [module(1)],
        "outdoor.groups": [{"modules": ["outdoor 1"], "index": 1}],
    }
    units = [unit(f"A{i}", index) for i, index in enumerate(indices)]
    return Sketch(system(runs, [*units, *more], modules=["outdoor 1"]), bound, book)


def headed(way: Way, nudge: Nudge, bound: str) -> Sketch:
    indices = way.numbers(nudge)
    runs = [run("outdoor", "H1", "7 m"), *(run("H1", f"A{i}", "1 m") for i in range(len(indices)))]
    sketched = indexed(indices, runs, bound)
    return sketched._replace(system=sketched.system | {"fittings": [{"id": "H1", "kind": "header"}]})


def through_fitting(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    return headed(way, nudge, f"{way.bound:g}")


def connected(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    return headed(way, nudge, f"{100 * way.bound:g} %")


def through_port(way: Way, nudge: Nudge, sense: str) -> Sketch:
    """A header with one port to a joint of many arms, another to a unit that never governs."""
    indices = way.numbers(nudge)
    runs = [run("outdoor", "H1", "7 m"), run("H1", "X", "1 m"), run("H1", "J2", "1 m")]
    runs += [run("J2", f"A{i}", "1 m") for i in range(len(indices))]
    sketched = indexed(indices, runs, f"{way.bound:g}", more=[unit("X", 0.05 if sense == MAX else 5)])
    return sketched._replace(system=sketched.system | {"fittings": [{"id": "H1", "kind": "header"}]})


def through_arm(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """The arm to a header carries ten of 0.1 beside a unit of 0.25 (80 %), or three beside 0.1 (75 %)."""
    indices = way.numbers(nudge)
    beside, bound = (0.25, "80 %") if way is TEN else (0.1, "0.75")
    runs = [run("outdoor", "J1", "7 m"), run("J1", "X", "1 m"), run("J1", "H1", "1 m")]
    runs += [run("H1", f"A{i}", "1 m") for i in range(len(indices))]
    sketched = indexed(indices, runs, bound, more=[unit("X", beside)])
    return sketched._replace(system=sketched.system | {"fittings": [{"id": "H1", "kind": "header"}]})


def smallest(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """A stated index beside larger ones: nothing is summed."""
    index = way.numbers(nudge)[-1]
    runs = [run("outdoor", "J1", "7 m"), run("J1", "A0", "1 m"), run("J1", "X", "1 m")]
    return indexed([index], runs, "0.1", more=[unit("X", 5)])


def largest_share(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """0.9 over 1.2, beside a smaller one: nothing is summed."""
    index = (0.899999, 0.9, 0.900001)[nudge.value]
    runs = [run("outdoor", "J1", "7 m"), run("J1", "A0", "1 m"), run("J1", "X", "1 m")]
    sketched = indexed([index], runs, "75 %", more=[unit("X", 0.05)])
    book = sketched.book | {"outdoor.groups": [{"modules": ["outdoor 1"], "index": 1.2}]}
    if index == 0.9:  # it stands among the other models already
        book["indoor.models"] = book["indoor.models"][1:]
    return sketched._replace(book=book)


def share_of_some(way: Way, nudge: Nudge, sense: str) -> Sketch:  # noqa: ARG001 - one signature
    """0.75 of 1 in all."""
    index = (0.749999, 0.75, 0.750001)[nudge.value]
    runs = [run("outdoor", "J1", "7 m"), run("J1", "A0", "1 m"), run("J1", "X", "1 m")]
    sketched = indexed([index], runs, "75 %", more=[unit("X", 0.25)])
    return sketched._replace(variant={"where": {"model": [f"unit {index}"]}})


INDEX_CASES = (
    Case(M.FITTING_INDEX, through_fitting, (TEN, THREE)),
    Case(M.HEADER_PORT_INDEX, through_port, (TEN, THREE)),
    Case(M.ARM_INDEX_SHARE, through_arm, (TEN, THREE), (MAX,)),
    Case(M.CONNECTION_RATIO, connected, (TEN, THREE)),
    Case(M.SMALLEST_INDEX, smallest, (THREE,), (MIN,)),
    Case(M.LARGEST_INDEX_SHARE, largest_share, (THREE,), (MAX,)),
    Case(M.INDEX_SHARE, share_of_some, (THREE,)),
)
