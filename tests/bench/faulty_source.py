"""All small faults of a file, each an edit of one expression."""

from __future__ import annotations

import ast
import functools
import itertools
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from bench.fault_kinds import KINDS

if TYPE_CHECKING:
    from bench.names import Names

_WIDEST = 110
_SETTINGS = {"strict", "frozen", "slots", "kw_only", "arbitrary_types_allowed"}
_TYPES = {"dict", "list", "tuple", "set", "frozenset", "type", "Literal", "Callable", "Sequence", "Mapping", "Iterator"}
# What binds its parts as tightly as a name does, so that it needs no brackets wherever it is put.
_TIGHT = (ast.Name, ast.Attribute, ast.Call, ast.Subscript, ast.Constant, ast.List, ast.Dict, ast.Set, ast.Tuple)
# A figure of data: not part of a name, a comment or a text in quotes.
_DIGIT = re.compile(r'"[^"]*"|#.*|(?<![\w.-])-?\d+(?:\.\d+)?(?=[\s,\]}:/%]|$)')


class Change(NamedTuple):
    """A fault in one file: what stands between two offsets of its bytes gives way to `text`."""

    start: int
    end: int
    text: str
    before: str
    after: str

    def made(self, source: bytes) -> bytes:
        """Return the source with the fault in it."""
        return source[: self.start] + self.text.encode() + source[self.end :]


class Candidate(NamedTuple):
    """A place for a fault; whether it is one shows when it is made."""

    kind: str
    lines: range
    make: Callable[[], Change | None]


def room_of(file: str) -> str:
    """Return the folder below docgen, or the top-level one of data; "." is docgen's own."""
    return Path(file).parent.as_posix().removeprefix("docgen").strip("/") or "."


class Fault(NamedTuple):
    """A change of one file, which is named from the project's folder."""

    file: str
    line: int
    kind: str
    change: Change

    @property
    def room(self) -> str:
        """Return the room of its file."""
        return room_of(self.file)

    def __str__(self) -> str:
        before, after = (" ".join(text.split()) for text in (self.change.before, self.change.after))
        same = next((i for i, (one, other) in enumerate(zip(before, after, strict=False)) if one != other), 0)
        cut = max(0, min(same - 30, len(before) - _WIDEST))
        before, after = (("…" if cut else "") + text[cut : cut + _WIDEST] for text in (before, after))
        return f"{self.file}:{self.line}: {self.kind}: {before} → {after}"


def candidates_of_code(source: bytes, names: Names) -> Iterator[Candidate]:
    """Walk all places of a Python file; `names` knows what the package defines."""
    tree = ast.parse(source)
    names.parents = {below: node for node in ast.walk(tree) for below in ast.iter_child_nodes(node)}
    starts = [0, *itertools.accumulate(map(len, source.splitlines(keepends=True)))]
    for node in _running(tree):
        for kind, make in KINDS.items():
            for about, new in make(node, names):
                assert isinstance(about, ast.expr | ast.stmt)
                lines = range(about.lineno, (about.end_lineno or about.lineno) + 1)
                yield Candidate(kind, lines, functools.partial(_change, source, starts, node, about, new))


def candidates_of_data(source: bytes) -> Iterator[Candidate]:
    """Walk the faults of a YAML file: the first digit of each figure is another."""
    position = 0
    for number, line in enumerate(source.decode().splitlines(keepends=True), 1):
        for match in _DIGIT.finditer(line):
            digit = re.search(r"[1-9]", match.group())
            if digit and match.group()[0] not in '"#':
                start = position + len(line[: match.start() + digit.start()].encode())
                other = str(int(digit.group()) % 9 + 1)
                after = match.group()[: digit.start()] + other + match.group()[digit.end() :]
                change = Change(start, start + 1, other, match.group(), after)
                yield Candidate("digit", range(number, number + 1), functools.partial(_itself, change))
        position += len(line.encode())


def _running(node: ast.AST) -> Iterator[ast.AST]:
    """Walk the expressions and statements that do something when the program runs, but raise an error."""
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list") or (name == "slice" and _is_type(node)):
            continue
        for below in value if isinstance(value, list) else [value]:
            if isinstance(below, ast.AST) and not _is_idle(below):
                yield below
                yield from _running(below)


def _is_type(node: ast.AST) -> bool:
    return isinstance(node, ast.Subscript) and ast.unparse(node.value) in _TYPES


def _is_idle(node: ast.AST) -> bool:
    if isinstance(node, ast.Import | ast.ImportFrom | ast.Raise | ast.Assert):
        return True
    if isinstance(node, ast.If):
        return ast.unparse(node.test) in ("TYPE_CHECKING", "__name__ == '__main__'")
    if isinstance(node, ast.Assign):
        return ast.unparse(node.targets[0]) in ("__all__", "__slots__")
    return isinstance(node, ast.keyword) and node.arg in _SETTINGS


def _itself(change: Change) -> Change:
    return change


def _change(source: bytes, starts: list[int], node: ast.AST, about: ast.AST, new: ast.AST) -> Change | None:
    """Put `new` where `node` is; nothing where that is the same, or where Python does not know where it stands."""
    assert isinstance(node, ast.expr | ast.stmt)
    start = starts[node.lineno - 1] + node.col_offset
    end = starts[(node.end_lineno or node.lineno) - 1] + (node.end_col_offset or 0)
    after = ast.unparse(new)
    binds_alike = type(new) is type(node) and not isinstance(node, ast.BoolOp) and new not in ast.iter_child_nodes(node)
    text = after if binds_alike or isinstance(new, (*_TIGHT, ast.stmt)) else f"({after})"
    change = Change(start, end, text, ast.unparse(about), after if about is node else "(left out)")
    try:
        if isinstance(node, ast.expr):
            there = ast.parse(f"({source[start:end].decode()})", mode="eval").body
            if ast.unparse(there) != ast.unparse(node):
                return None
        return change if ast.dump(ast.parse(change.made(source))) != ast.dump(ast.parse(source)) else None
    except (SyntaxError, UnicodeDecodeError):
        return None
