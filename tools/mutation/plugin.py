"""A pytest plugin that puts one mutant in place of its module before anything is imported."""

from __future__ import annotations

import importlib.abc
import importlib.machinery
import importlib.util
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from types import ModuleType

from tools.mutation.operators import mutated

#: `MODULE:NUMBER`, such as `linewright.engine.limits:17`.
VARIABLE = "LINEWRIGHT_MUTANT"


class _Loader(importlib.abc.Loader):
    def __init__(self, path: str, number: int) -> None:
        self._path, self._number = path, number

    def create_module(self, spec: importlib.machinery.ModuleSpec) -> ModuleType | None:  # noqa: ARG002
        return None

    def exec_module(self, module: ModuleType) -> None:
        tree = mutated(Path(self._path).read_text(encoding="utf-8"), self._number)
        exec(compile(tree, self._path, "exec"), module.__dict__)  # noqa: S102 - the project's own source, changed


class _Finder(importlib.abc.MetaPathFinder):
    def __init__(self, name: str, number: int) -> None:
        self._name, self._number = name, number

    def find_spec(
        self,
        fullname: str,
        path: Sequence[str] | None,
        target: ModuleType | None = None,  # noqa: ARG002 - importlib's signature
    ) -> importlib.machinery.ModuleSpec | None:
        if fullname != self._name:
            return None
        spec = importlib.machinery.PathFinder.find_spec(fullname, path)
        if spec is None or spec.origin is None:
            return None
        spec.loader = _Loader(spec.origin, self._number)
        return spec


def _install() -> None:
    wanted = os.environ.get(VARIABLE, "")
    if wanted:
        name, _, number = wanted.rpartition(":")
        sys.meta_path.insert(0, _Finder(name, int(number)))


_install()
