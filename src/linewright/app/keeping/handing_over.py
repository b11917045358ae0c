"""The hand-over set of a design that is kept."""

from __future__ import annotations

from linewright.app.handover import Buying, hand_over
from linewright.app.keeping.kinds import DESIGN
from linewright.app.keeping.texts import file_text
from linewright.app.keeping.work import Step, Tell, packed
from linewright.app.keeping.workspace import Workspace
from linewright.app.project import Project
from linewright.app.set_options import SetOptions
from linewright.document.files import design_from_text
from linewright.store import Document
from linewright.takeoff import invented_prices

_ENDING = ".design.yaml"


def kept_project(workspace: Workspace, document: Document, number: int) -> Project:
    """Open a design as it was at a revision, with the books that it names as they are now."""
    name = document.name if document.name.endswith(_ENDING) else document.name + _ENDING
    loaded = design_from_text(file_text(workspace, document, number), name)
    shelf = workspace.shelf(document.project_id)
    wanted = {system.book for system in loaded.design.systems}
    books = {name: book for name, book in shelf.books.items() if name in wanted}
    return Project(loaded, books, shelf.library)


def hand_over_set(workspace: Workspace, design: int, tell: Tell, options: SetOptions) -> str:
    """Make the hand-over set of the last revision and pack it.

    Raises InputFaultsError where the design names what the books do not hold, or the wanted paper has no room for
    a drawing; NotThereError.
    """
    document = workspace.document(DESIGN.name, design)
    workspace.judge(document, document.head)
    steps = 0

    def told(message: str) -> None:
        nonlocal steps
        steps += 1
        tell(Step(steps, 0, message))

    project = kept_project(workspace, document, document.head)
    prices = invented_prices() if options.invented_prices else None
    buying = Buying(options.settings, prices=prices)
    units = options.units or project.loaded.design.units
    made = hand_over(project, buying, units, told, front=options.front, drawn=options.drawn)
    return packed(made.files)
