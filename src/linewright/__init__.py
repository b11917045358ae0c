"""Checks, sizes and charges the refrigerant piping of VRF systems against the maker's own rules.

For a notebook: `load`, `load_library`, `evaluate`, `working`, `apply` with `edits`, `show_sheet`, `show_checks`.
They load when they are first named, so that the command line starts quickly.
"""

from importlib import import_module

__version__ = "0.1.0"

_HOME = {
    "Design": "linewright.model.design",
    "Evaluation": "linewright.engine.records",
    "EditRefusedError": "linewright.model.edits",
    "InputFaultsError": "linewright.errors",
    "Library": "linewright.engine.library",
    "apply": "linewright.model.edits",
    "evaluate": "linewright.engine.evaluate",
    "load": "linewright.app.notebook",
    "load_library": "linewright.app.notebook",
    "save_design": "linewright.document.saving",
    "show_checks": "linewright.app.notebook",
    "show_sheet": "linewright.app.notebook",
    "working": "linewright.engine.working.subjects",
}

__all__ = ["__version__", "edits", *sorted(_HOME)]  # noqa: PLE0604 - all are names


def __getattr__(name: str) -> object:
    """Import a public name when it is first used."""
    if name == "edits":
        return import_module("linewright.model.edits")
    if name not in _HOME:
        raise AttributeError(f"module 'linewright' has no attribute '{name}'")
    return getattr(import_module(_HOME[name]), name)
