"""Where a module can be changed, and how: each place and change is a mutant, numbered in order of the source."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from typing import NamedTuple

COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
COMPUTED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
}
CALLED = {"min": "max", "max": "min", "any": "all", "all": "any"}


class Mutant(NamedTuple):
    """One change of one module: its number there, the line, and the change in words."""

    number: int
    line: int
    change: str


def mutants(source: str) -> list[Mutant]:
    """List every mutant of a module."""
    found = _Changer(None)
    found.visit(ast.parse(source))
    return found.seen


def mutated(source: str, number: int) -> ast.Module:
    """Give a module with one change made."""
    tree = ast.parse(source)
    _Changer(number).visit(tree)
    return ast.fix_missing_locations(tree)


class _Changer(ast.NodeTransformer):
    """Walks a module, counts the places and changes the one that is wanted; annotations and texts stay."""

    def __init__(self, wanted: int | None) -> None:
        """Change the place of that number, or only count."""
        self.wanted = wanted
        self.seen: list[Mutant] = []

    def _is_wanted(self, node: ast.AST, change: str) -> bool:
        number = len(self.seen)
        self.seen.append(Mutant(number, getattr(node, "lineno", 0), change))
        return number == self.wanted

    def visit_Compare(self, node: ast.Compare) -> ast.AST:
        """Change a comparison."""
        self.generic_visit(node)
        for i, operator in enumerate(node.ops):
            other = COMPARED[type(operator)]
            if self._is_wanted(node, f"{type(operator).__name__} to {other.__name__}"):
                node.ops[i] = other()
        return node

    def visit_BinOp(self, node: ast.BinOp) -> ast.AST:
        """Change an operation on numbers; texts that are joined are left."""
        self.generic_visit(node)
        other = COMPUTED.get(type(node.op))
        joined = any(isinstance(side, ast.JoinedStr) or _is_text(side) for side in (node.left, node.right))
        if other is not None and not joined:
            change = f"{type(node.op).__name__} to {other.__name__}"
            if self._is_wanted(node, change):
                node.op = other()
        return node

    def visit_BoolOp(self, node: ast.BoolOp) -> ast.AST:
        """Swap `and` and `or`."""
        self.generic_visit(node)
        other: ast.boolop = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        if self._is_wanted(node, f"{type(node.op).__name__} to {type(other).__name__}"):
            node.op = other
        return node

    def visit_UnaryOp(self, node: ast.UnaryOp) -> ast.AST:
        """Leave out a `not` or a minus."""
        self.generic_visit(node)
        return node.operand if self._is_wanted(node, f"no {type(node.op).__name__}") else node

    def visit_Constant(self, node: ast.Constant) -> ast.AST:
        """Change a number or a truth value."""
        if isinstance(node.value, bool):
            return ast.Constant(not node.value) if self._is_wanted(node, f"{node.value} to not") else node
        if isinstance(node.value, int | float) and self._is_wanted(node, f"{node.value} to {node.value + 1}"):
            return ast.Constant(node.value + 1)
        return node

    def visit_Call(self, node: ast.Call) -> ast.AST:
        """Swap least and largest, any and all."""
        self.generic_visit(node)
        name = node.func.id if isinstance(node.func, ast.Name) else ""
        if name in CALLED and self._is_wanted(node, f"{name} to {CALLED[name]}"):
            node.func = ast.Name(CALLED[name], ast.Load())
        return node

    def visit_If(self, node: ast.If) -> ast.AST:
        """Turn a condition over."""
        self.generic_visit(node)
        if self._is_wanted(node, "condition turned over"):
            node.test = ast.UnaryOp(ast.Not(), node.test)
        return node

    def visit_IfExp(self, node: ast.IfExp) -> ast.AST:
        """Swap the two outcomes of a conditional value."""
        self.generic_visit(node)
        if self._is_wanted(node, "outcomes swapped"):
            node.body, node.orelse = node.orelse, node.body
        return node

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST:
        """Leave the annotation."""
        if node.value is not None:
            node.value = self.visit(node.value)
        return node

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        """Leave the annotations and decorators."""
        node.args.defaults = [self.visit(item) for item in node.args.defaults]
        node.body = [item for old in node.body for item in _listed(self.visit(old))]
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        """Leave the bases and decorators."""
        node.body = [item for old in node.body for item in _listed(self.visit(old))]
        return node


def _listed(found: ast.AST | list[ast.stmt]) -> Iterator[ast.stmt]:
    if isinstance(found, list):
        yield from found
    elif isinstance(found, ast.stmt):
        yield found


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)
