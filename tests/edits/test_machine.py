"""Two people edit one design: edits on old revisions, undone, rebased, saved and loaded again, in any order."""

from random import Random
from typing import NamedTuple

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from linewright.document.files import design_from_text
from linewright.document.saving import dump_design, save_design
from linewright.model.design import Design
from linewright.model.edits import Applied, Edit, EditConflictError, EditRefusedError, apply, rebase
from tests.edits.random_edits import random_edit
from tests.edits.test_edits import some_design

SEEDS = st.integers(0, 10**6)


class Revision(NamedTuple):
    """One step of the journal: what was done, and the design after it."""

    done: Applied
    undone: int | None


class Desk(RuleBasedStateMachine):
    """The stored document is the truth; the journal beside it says how it came to be."""

    def __init__(self) -> None:
        super().__init__()
        self.first: Design
        self.journal: list[Revision] = []
        self.text = ""

    @initialize(seed=st.integers(0, 400))
    def open(self, seed: int) -> None:
        self.first = some_design(seed)
        self.text = dump_design(self.first, as_json=seed % 3 == 0)

    def at(self, revision: int) -> Design:
        return self.journal[revision - 1].done.design if revision else self.first

    @property
    def head(self) -> Design:
        return self.at(len(self.journal))

    def post(self, edit: Edit, base: int, *, undoes: int | None = None) -> None:
        """Make an edit of a revision at the head; what meets later edits or cannot be made changes nothing."""
        before = self.head
        later = [one.done.touched for one in self.journal[base:]]
        try:
            done = rebase(edit, base=self.at(base), head=before, later=later)
        except (EditConflictError, EditRefusedError) as refused:
            told = refused.conflicts if isinstance(refused, EditConflictError) else refused.faults
        else:
            self.keep(done, before, undoes)
            return
        assert told

    def keep(self, done: Applied, before: Design, undoes: int | None) -> None:
        assert apply(done.design, done.inverse).design == before
        self.text = save_design(self.text, done.design)
        self.journal.append(Revision(done, undoes))

    @rule(seed=SEEDS, back=st.integers(0, 3))
    def edit(self, seed: int, back: int) -> None:
        base = max(len(self.journal) - back, 0)
        self.post(random_edit(Random(seed), self.at(base)), base)  # noqa: S311 - random cases, no secrets

    @precondition(lambda self: self.journal)
    @rule(back=st.integers(1, 4))
    def undo(self, back: int) -> None:
        """Undo one of the last edits, whatever was done since."""
        at = max(len(self.journal) - back, 0)
        if self.journal[at].undone is None and at not in [one.undone for one in self.journal]:
            self.post(self.journal[at].done.inverse, at + 1, undoes=at)

    @precondition(lambda self: self.journal and self.journal[-1].undone is None)
    @rule()
    def undo_the_last(self) -> None:
        """Nothing was done since: what is undone was never done."""
        before, count = self.at(len(self.journal) - 1), len(self.journal)
        if any(one.undone == count - 1 for one in self.journal):
            return
        self.post(self.journal[-1].done.inverse, count, undoes=count - 1)
        assert len(self.journal) == count + 1
        assert self.head == before

    @precondition(lambda self: len(self.journal) > 1)
    @rule()
    def back_to_the_first(self) -> None:
        """The inverses of the whole journal, last first, lead back to what was opened."""
        design = self.head
        for one in reversed(self.journal):
            design = apply(design, one.done.inverse).design
        assert design == self.first

    @rule(as_json=st.booleans())
    def write_anew(self, as_json: bool) -> None:  # noqa: FBT001 - drawn
        self.text = dump_design(self.head, as_json=as_json)

    @invariant()
    def what_is_saved_is_the_head(self) -> None:
        assert not self.text or design_from_text(self.text, "saved").design == self.head


TestDesk = Desk.TestCase
TestDesk.settings = settings(
    max_examples=25, stateful_step_count=12, deadline=None, suppress_health_check=list(HealthCheck)
)
