from linewright.app.notebook import load as load
from linewright.app.notebook import load_library as load_library
from linewright.engine.evaluate import evaluate as evaluate
from linewright.engine.library import Library as Library
from linewright.engine.records import Evaluation as Evaluation
from linewright.engine.working.subjects import working as working
from linewright.errors import InputFaultsError as InputFaultsError
from linewright.model.design import Design as Design

__version__: str
