"""Every small fault that can be put into a source file: one token or statement changed, no more."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass

_COMPARED: dict[type[ast.cmpop], tuple[str, str]] = {
    ast.Lt: ("<", "<="), ast.LtE: ("<=", "<"), ast.Gt: (">", ">="), ast.GtE: (">=", ">"),
    ast.Eq: ("==", "!="), ast.NotEq: ("!=", "=="), ast.Is: ("is", "is not"), ast.IsNot: (r"is\s+not", "is"),
    ast.In: ("in", "not in"), ast.NotIn: (r"not\s+in", "in"),
}  # fmt: skip
_JOINED: dict[type[ast.boolop], tuple[str, str]] = {ast.And: ("and", "or"), ast.Or: ("or", "and")}
_SUMMED: dict[type[ast.operator], tuple[str, str]] = {ast.Add: ("+", "-"), ast.Sub: ("-", "+")}
_TEXTS = (ast.JoinedStr, ast.List, ast.Tuple, ast.ListComp)
_FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef, ast.Lambda)


@dataclass(frozen=True)
class Fault:
    """``new`` instead of the bytes from ``start`` to ``end`` of the file at ``path``.

    ``line``: where, from 1. ``first``: where its statement begins. ``inside``: in a function, so that it does
    nothing until that is called.
    """

    path: str
    line: int
    first: int
    inside: bool
    start: int
    end: int
    new: str

    def applied(self, source: bytes) -> bytes:
        """Return the file with the fault in it."""
        return source[: self.start] + self.new.encode() + source[self.end :]

    def shown(self, source: bytes) -> tuple[str, str]:
        """Return the lines it is in, without and with it."""
        begin = source.rfind(b"\n", 0, self.start) + 1
        finish = source.find(b"\n", self.end)
        finish = len(source) if finish < 0 else finish
        old = source[begin:finish].decode()
        new = (source[begin : self.start] + self.new.encode() + source[self.end : finish]).decode()
        return old, new

    def key(self, source: bytes) -> str:
        """Name it, wherever in its file it stands."""
        old, new = (" ".join(text.split()) for text in self.shown(source))
        return f"{self.path}: {old} => {new}"


def faults(path: str, source: bytes) -> list[Fault]:
    """Return all there are in a file, in its order."""
    return sorted(set(_File(path, source).all()), key=lambda fault: (fault.start, fault.end, fault.new))


def compiles(source: bytes) -> bool:
    """Whether it is Python still."""
    try:
        compile(source, "changed", "exec")
    except SyntaxError:
        return False
    return True


class _File:
    def __init__(self, path: str, source: bytes) -> None:
        self._path, self._source = path, source
        self._starts = [0, *(found.end() for found in re.finditer(rb"\n", source))]

    def all(self) -> Iterator[Fault]:
        for statement in ast.parse(self._source).body:
            yield from self._visit(statement, statement.lineno, None, inside=False)

    def _visit(self, node: ast.AST, first: int, made_by: ast.AST | None, *, inside: bool) -> Iterator[Fault]:
        if _left_alone(node):
            return
        if isinstance(node, ast.stmt):
            first = node.lineno
        if isinstance(node, _FUNCTIONS):
            made_by = node
        for start, end, new in self._changes(node, made_by):
            line = self._source.count(b"\n", 0, start) + 1
            yield Fault(self._path, line, first, inside, start, end, new)
        for name, value in ast.iter_fields(node):
            if name in ("annotation", "returns", "decorator_list", "bases"):
                continue
            deeper = inside or (isinstance(node, _FUNCTIONS) and name == "body")
            for child in value if isinstance(value, list) else [value]:
                if isinstance(child, ast.AST):
                    yield from self._visit(child, first, made_by, inside=deeper)

    def _changes(self, node: ast.AST, made_by: ast.AST | None) -> Iterator[tuple[int, int, str]]:
        if isinstance(node, ast.Compare):
            sides = [node.left, *node.comparators]
            for left, op, right in zip(sides, node.ops, sides[1:], strict=False):
                yield from self._between(left, right, _COMPARED[type(op)])
        elif isinstance(node, ast.BoolOp):
            for left, right in zip(node.values, node.values[1:], strict=False):
                yield from self._between(left, right, _JOINED[type(node.op)])
        elif isinstance(node, ast.BinOp) and type(node.op) in _SUMMED:
            if not (_is_text(node.left) or _is_text(node.right)):
                yield from self._between(node.left, node.right, _SUMMED[type(node.op)])
        elif isinstance(node, ast.AugAssign) and type(node.op) in _SUMMED and not _is_text(node.value):
            yield from self._between(node.target, node.value, _SUMMED[type(node.op)])
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            start = self._start(node)
            found = re.compile(rb"not\b\s*").match(self._source, start)
            assert found is not None
            yield start, found.end(), ""
        elif isinstance(node, ast.Constant):
            if isinstance(node.value, bool):
                yield *self._span(node), str(not node.value)
            elif isinstance(node.value, int | float):
                yield *self._span(node), repr(0 if node.value == 1 else node.value + 1)
        if isinstance(node, ast.If | ast.While | ast.IfExp) and _is_plain(node.test):
            yield self._turned(node.test)
        if isinstance(node, ast.comprehension):
            yield from (self._turned(test) for test in node.ifs if _is_plain(test))
        if isinstance(node, ast.Return) and node.value is not None:
            yield from self._returned(node.value, made_by)
        if isinstance(node, ast.stmt) and _can_go(node):
            yield *self._span(node), "pass"

    def _returned(self, value: ast.expr, made_by: ast.AST | None) -> Iterator[tuple[int, int, str]]:
        answer = getattr(made_by, "returns", None)
        if isinstance(answer, ast.Name) and answer.id == "bool":
            if not isinstance(value, ast.Constant):
                yield self._turned(value)
        elif not (isinstance(value, ast.Constant) and value.value is None):
            yield *self._span(value), "None"

    def _turned(self, node: ast.expr) -> tuple[int, int, str]:
        start, end = self._span(node)
        return start, end, f"(not ({self._source[start:end].decode()}))"

    def _between(
        self, left: ast.expr, right: ast.expr, change: tuple[str, str]
    ) -> Iterator[tuple[int, int, str]]:
        old, new = change
        pattern = rf"\b{old}\b" if old[0].isalpha() else re.escape(old)
        found = re.compile(pattern.encode()).search(self._source, self._span(left)[1], self._start(right))
        if found is not None:
            yield found.start(), found.end(), new

    def _start(self, node: ast.expr | ast.stmt) -> int:
        return self._starts[node.lineno - 1] + node.col_offset

    def _span(self, node: ast.expr | ast.stmt) -> tuple[int, int]:
        assert node.end_lineno is not None
        assert node.end_col_offset is not None
        return self._start(node), self._starts[node.end_lineno - 1] + node.end_col_offset


def _left_alone(node: ast.AST) -> bool:
    """Whether no fault in it could be noticed by whoever relies on the code, or it is not ours to break."""
    if isinstance(node, ast.If):
        test = ast.unparse(node.test)
        return any(word in test for word in ("TYPE_CHECKING", "__name__", "sys.platform", "os.name"))
    if isinstance(node, ast.keyword):
        return node.arg == "maxsize"
    if isinstance(node, ast.Call):
        called = ast.unparse(node.func)
        return "lru_cache" in called or called.split(".")[0] in ("_LOG", "_log", "logging", "warnings")
    if isinstance(node, ast.Assign | ast.AnnAssign):
        targets = node.targets if isinstance(node, ast.Assign) else [node.target]
        names = [target.id for target in targets if isinstance(target, ast.Name)]
        return any(
            name in ("__all__", "__slots__") or name.endswith("_KEPT") or "CACHE" in name for name in names
        )
    # What an assertion says is there for those who read, and for mypy.
    return isinstance(node, ast.Assert | ast.Import | ast.ImportFrom)


def _can_go(node: ast.stmt) -> bool:
    if isinstance(node, ast.Expr):
        called = node.value
        return isinstance(called, ast.Call | ast.Yield | ast.YieldFrom) and not _left_alone(called)
    if isinstance(node, ast.Assign):
        return not any(isinstance(target, ast.Name | ast.Tuple) for target in node.targets)
    if isinstance(node, ast.Return):
        return node.value is None
    return isinstance(node, ast.AugAssign | ast.Raise | ast.Continue | ast.Break | ast.Delete)


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, _TEXTS) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str | bytes)
    )


def _is_plain(node: ast.expr) -> bool:
    return isinstance(node, ast.Name | ast.Attribute | ast.Call | ast.Subscript)
