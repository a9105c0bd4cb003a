"""The kinds of small faults: what an expression could be by mistake."""

from __future__ import annotations

import ast
import copy
import itertools
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, TypeVar

from bench.names import is_noise

if TYPE_CHECKING:
    from bench.names import Names

_GROWS = 100  # a constant from here on changes by a tenth: one more would be within what it stands for

_COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt, ast.GtE),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt, ast.LtE),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
_SIGNS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
}
_OPPOSITES = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}
_ORDERED_CALLS = {"atan2", "range", "divmod", "pow"}  # of two like arguments, of the standard library
_COSMETIC_CALLS = {"listed"}  # their constants say how long a message may be
_MESSAGES = {"Finding", "Refused", "refuse", "note"}  # made of sentences, also where these have names
_PATHS = ("folder", "path", "target", "root", "name", "text")
_LISTS = {"list", "tuple", "sorted", "Path", "join"}
_STATEMENT_CALLS = {"append", "extend", "add", "update", "insert"}

_Node = TypeVar("_Node", bound=ast.AST)
_Made = Iterator[tuple[ast.AST, ast.AST]]
"""What is changed or left out, and what stands for the whole expression then."""


def _but(node: _Node, **fields: object) -> _Node:
    """Return the node with other fields."""
    changed = copy.copy(node)
    for name, value in fields.items():
        setattr(changed, name, value)
    return changed


def _without(items: list[_Node], index: int) -> list[_Node]:
    return [*items[:index], *items[index + 1 :]]


def _called(node: ast.AST | None) -> str:
    """Return the last name of what is called."""
    if not isinstance(node, ast.Call):
        return ""
    return ast.unparse(node.func).rpartition(".")[2]


def _has_noise(node: ast.AST, names: Names) -> bool:
    parts = list(ast.walk(node))
    return any(is_noise(part) or (isinstance(part, ast.Name) and part.id in names.noise) for part in parts)


def _is_no_number(node: ast.AST) -> bool:
    """Tell of texts, lists and paths, as far as that can be seen: no sign of theirs would pass the check of types."""
    if isinstance(node, ast.Constant):
        return isinstance(node.value, str)
    if isinstance(node, ast.Name | ast.Attribute):
        return ast.unparse(node).endswith(_PATHS)
    return isinstance(node, ast.JoinedStr | ast.List | ast.Tuple | ast.ListComp) or _called(node) in _LISTS


def _is_sentence(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str) and " " in node.value
    )


def _comparison(node: ast.AST, names: Names) -> _Made:
    if isinstance(node, ast.Compare) and not _has_noise(node, names):
        for i, operator in enumerate(node.ops):
            for other in _COMPARISONS[type(operator)]:
                yield node, _but(node, ops=[*node.ops[:i], other(), *node.ops[i + 1 :]])


def _sign(node: ast.AST, names: Names) -> _Made:
    if isinstance(node, ast.BinOp) and type(node.op) in _SIGNS:
        if not any(_is_no_number(part) or _has_noise(part, names) for part in (node.left, node.right)):
            yield node, _but(node, op=_SIGNS[type(node.op)]())
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield node, node.operand


def _opposite(node: ast.AST, _: Names) -> _Made:
    if isinstance(node, ast.Name | ast.Attribute):
        name = node.id if isinstance(node, ast.Name) else node.attr
        if name in _OPPOSITES:
            yield node, _but(node, **{"id" if isinstance(node, ast.Name) else "attr": _OPPOSITES[name]})


def _constant(node: ast.AST, names: Names) -> _Made:
    above = names.parents.get(node)
    if isinstance(above, ast.UnaryOp):
        above = names.parents.get(above)
    if not isinstance(node, ast.Constant) or not isinstance(node.value, bool | int | float) or _has_noise(node, names):
        return
    value = node.value
    is_beside_noise = isinstance(above, ast.BinOp) and _has_noise(above, names)
    if is_beside_noise or isinstance(above, ast.Subscript) or _called(above) in _COSMETIC_CALLS:
        return
    if isinstance(value, bool):
        yield node, _but(node, value=not value)
    elif isinstance(value, int) and value < _GROWS:
        yield from ((node, _but(node, value=other)) for other in (value + 1, value - 1) if other >= 0)
    else:
        yield node, _but(node, value=type(value)(f"{value * 1.1 or 1:.{0 if isinstance(value, int) else 6}f}"))


def _index(node: ast.AST, _: Names) -> _Made:
    if isinstance(node, ast.Subscript) and ast.unparse(node.slice) in ("0", "1", "-1"):
        other = 1 if ast.unparse(node.slice) == "0" else 0
        yield node, _but(node, slice=ast.Constant(other))


def _term(node: ast.AST, names: Names) -> _Made:
    if isinstance(node, ast.BinOp) and type(node.op) in _SIGNS and not _has_noise(node, names):
        yield node.right, node.left
        if isinstance(node.op, ast.Add | ast.Mult):
            yield node.left, node.right
    if isinstance(node, ast.BoolOp):
        for i, value in enumerate(node.values):
            rest = _without(node.values, i)
            yield value, _but(node, values=rest) if len(rest) > 1 else rest[0]
    if isinstance(node, ast.ListComp | ast.SetComp | ast.GeneratorExp | ast.DictComp):
        for i, part in enumerate(node.generators):
            for j, condition in enumerate(part.ifs):
                less = _but(part, ifs=_without(part.ifs, j))
                yield condition, _but(node, generators=[*node.generators[:i], less, *node.generators[i + 1 :]])


def _row(node: ast.AST, names: Names) -> _Made:
    """Leave out an element, but of a tuple that is unpacked: that would break at once."""
    if isinstance(node, ast.Dict):
        for i, value in enumerate(node.values):
            yield value, _but(node, keys=_without(node.keys, i), values=_without(node.values, i))  # type: ignore[type-var]
    inner = isinstance(names.parents.get(node), ast.Tuple | ast.List | ast.Dict)
    rows = isinstance(node, ast.Tuple) and len(node.elts) > 2 and len({type(each) for each in node.elts}) == 1
    if isinstance(node, ast.List | ast.Set) or (isinstance(node, ast.Tuple) and rows and not inner):
        loaded = not isinstance(getattr(node, "ctx", None), ast.Store)
        if loaded and len(node.elts) > (1 if isinstance(node, ast.Set) else 0):
            yield from ((each, _but(node, elts=_without(node.elts, i))) for i, each in enumerate(node.elts))


def _statement(node: ast.AST, _: Names) -> _Made:
    done = node.value if isinstance(node, ast.Expr) else None
    yields = isinstance(done, ast.Yield | ast.YieldFrom)
    if yields or isinstance(node, ast.AugAssign) or (done and _called(done) in _STATEMENT_CALLS):
        yield node, ast.Pass()


def _arguments(node: ast.AST, names: Names) -> _Made:
    """Exchange two arguments, where both would pass the check of types."""
    if not isinstance(node, ast.Call) or any(isinstance(each, ast.Starred) for each in node.args):
        return
    if _called(node) in _ORDERED_CALLS and len(node.args) == 2:
        yield node, _but(node, args=node.args[::-1])
        return
    known = names.parameters.get(_called(node), [])
    if len(known) != 1 or _called(node) in _MESSAGES:
        return
    kinds = list(known[0].values())
    for i, kind in enumerate(kinds[: len(node.args)]):
        j = next((j for j in range(i + 1, min(len(kinds), len(node.args))) if kinds[j] == kind), None)
        if j is not None and not (_is_sentence(node.args[i]) or _is_sentence(node.args[j])):
            exchanged = list(node.args)
            exchanged[i], exchanged[j] = node.args[j], node.args[i]
            yield node, _but(node, args=exchanged)
    named = [each for each in node.keywords if each.arg in known[0]]
    for first, second in itertools.pairwise(named):
        is_sentence = _is_sentence(first.value) or _is_sentence(second.value)
        if known[0][str(first.arg)] == known[0][str(second.arg)] and not is_sentence:
            other = {first: second.value, second: first.value}
            keywords = [_but(each, value=other.get(each, each.value)) for each in node.keywords]
            yield node, _but(node, keywords=keywords)


def _attribute(node: ast.AST, names: Names) -> _Made:
    above = names.parents.get(node)
    is_called = isinstance(above, ast.Call) and above.func is node
    if isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Load) and not is_called:
        yield from ((node, _but(node, attr=other)) for other in sorted(names.neighbours(node)))


def _and_or(node: ast.AST, _: Names) -> _Made:
    if isinstance(node, ast.BoolOp):
        yield node, _but(node, op=ast.Or() if isinstance(node.op, ast.And) else ast.And())


def _not(node: ast.AST, _: Names) -> _Made:
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node, node.operand


def _order(node: ast.AST, _: Names) -> _Made:
    if isinstance(node, ast.Call) and _called(node) in ("sorted", "reversed") and len(node.args) == 1:
        yield node, _but(node, func=ast.Name("list"), keywords=[])


KINDS: dict[str, Callable[[ast.AST, Names], _Made]] = {
    "comparison": _comparison,
    "sign": _sign,
    "opposite": _opposite,
    "constant": _constant,
    "index": _index,
    "term": _term,
    "row": _row,
    "statement": _statement,
    "arguments": _arguments,
    "attribute": _attribute,
    "and-or": _and_or,
    "not": _not,
    "order": _order,
}
