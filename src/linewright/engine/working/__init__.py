"""The working behind every number: a lazy projection of the records of an evaluation."""

from linewright.engine.working.steps import Input, Step, Working, replay
from linewright.engine.working.subjects import subjects, working

__all__ = ["Input", "Step", "Working", "replay", "subjects", "working"]
