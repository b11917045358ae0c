"""A length with a nought too many: the first remedy is what the run may be at most."""

from linewright.app.project import open_edited
from linewright.app.shipped import shipped
from linewright.explore.remedies import Wanted, find
from linewright.model.edits import Set

BOAT = next(shipped("examples").glob("boat-house/*.design.yaml"))
BRANCH = "main/limit:after_first_branch"


def test_a_length_ten_times_too_long_is_told_what_it_may_be() -> None:
    """By hand from the minimal book: 15 m after the first branch, 30 m where the farthest unit is at most 20 m farther
    than the nearest one. U1 is 9 m beyond the first branch, U3 J2 + 11 m: J2 is at most 20 + 9 - 11 = 18 m.
    """
    text = BOAT.read_text(encoding="utf-8").replace("{from: J1, to: J2, length: 6 m", "{from: J1, to: J2, length: 60 m")
    project = open_edited(text, BOAT, [shipped("books")])
    found = find(project.loaded.design, project.library, Wanted(subject=BRANCH))
    (edit,) = found.remedies[0].edits.edits
    assert isinstance(edit, Set)
    assert (edit.id, dict(edit.values)) == ("J2", {"length_m": 18.0})
    assert [effect.key.subject for effect in found.remedies[0].cured if effect.key.subject == BRANCH] == [BRANCH]
