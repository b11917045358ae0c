"""Of items that are equal the first by name governs, also where their sums differ in the last binary place only.

Ten pieces of 0.1 m fall short of 1 m in binary, three of 0.1 m exceed 0.3 m.
"""

import pytest

from tests.engine.builders import SITE, Doc, book, chain, design, judge, run, system, the_limit, the_system, unit

PIECES = [(10, "1 m"), (3, "0.3 m")]


def tied(pieces: int, whole: str, *, whole_first: bool) -> Doc:
    """Two units equally far from J1, one in pieces of 0.1 m, the other in one length."""
    in_pieces, in_one = ("U2", "U1") if whole_first else ("U1", "U2")
    runs = [run("outdoor", "J1", "5 m"), *chain("J1", in_pieces, ["0.1 m"] * pieces), run("J1", in_one, whole)]
    return system(runs, [unit("U1", 5, elevation="0 m"), unit("U2", 5, elevation="-8 m")], elevation="-8 m")


def test_the_sums_really_differ_in_the_last_place() -> None:
    assert sum([0.1] * 10) < 1
    assert sum([0.1] * 3) > 0.3


@pytest.mark.parametrize("whole_first", [True, False])
@pytest.mark.parametrize(("pieces", "whole"), PIECES)
@pytest.mark.parametrize(
    "measure", ["farthest_actual", "farthest_equivalent", "after_first_branch", "last_joint_to_unit"]
)
def test_the_first_by_name_governs(measure: str, pieces: int, whole: str, whole_first: bool) -> None:  # noqa: FBT001
    limits = [{"measure": measure, "max": "99 m"}]
    found = judge(design([tied(pieces, whole, whole_first=whole_first)]), book({"limits": limits}))
    assert the_limit(found, measure).governs == ("U1",)


@pytest.mark.parametrize("whole_first", [True, False])
@pytest.mark.parametrize(("pieces", "whole"), PIECES)
def test_no_unit_is_nearer_or_farther_by_rounding_alone(pieces: int, whole: str, whole_first: bool) -> None:  # noqa: FBT001
    """A difference of zero is governed by none."""
    limits = [{"measure": "nearest_farthest_difference", "max": "99 m"}]
    found = judge(design([tied(pieces, whole, whole_first=whole_first)]), book({"limits": limits}))
    limit = the_limit(found, "nearest_farthest_difference")
    assert limit.value == pytest.approx(0, abs=1e-9)
    assert limit.governs == ()


@pytest.mark.parametrize("whole_first", [True, False])
@pytest.mark.parametrize(("pieces", "whole"), PIECES)
def test_the_level_of_the_first_by_name_decides_about_the_capacity(pieces: int, whole: str, whole_first: bool) -> None:  # noqa: FBT001
    """U1 stands 8 m above the outdoor unit: factor 0.8; U2 at its level: factor 1."""
    table = {"equivalent": ["1 m", "9 m"], "level": ["-8 m", "0 m"], "factor": [[0.8, 1.0], [0.8, 1.0]]}
    laid_out = tied(pieces, whole, whole_first=whole_first)
    found = judge(design([laid_out], site=SITE), book({"capacity.cooling": {"length": table}}))
    cooling = the_system(found).cooling
    assert cooling is not None
    assert cooling.capacity_w == pytest.approx(8000)
