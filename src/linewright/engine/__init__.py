"""The engine: what a design measures, whether it is allowed, what it delivers and holds."""

from linewright.engine.evaluate import evaluate
from linewright.engine.library import Library
from linewright.engine.records import Evaluation, Standing

__all__ = ["Evaluation", "Library", "Standing", "evaluate"]
