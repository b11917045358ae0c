from linewright.app.notebook import load as load
from linewright.app.notebook import load_library as load_library
from linewright.app.notebook import show_checks as show_checks
from linewright.app.notebook import show_sheet as show_sheet
from linewright.document.saving import save_design as save_design
from linewright.engine.evaluate import evaluate as evaluate
from linewright.engine.library import Library as Library
from linewright.engine.records import Evaluation as Evaluation
from linewright.engine.working.subjects import working as working
from linewright.errors import InputFaultsError as InputFaultsError
from linewright.model import edits as edits
from linewright.model.design import Design as Design
from linewright.model.edits import EditRefusedError as EditRefusedError
from linewright.model.edits import apply as apply

__version__: str
