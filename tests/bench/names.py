"""What a package defines: fields of classes and parameters of functions, with their annotations."""

from __future__ import annotations

import ast
from collections import defaultdict
from dataclasses import dataclass, field

_NOISE = 1e-4  # a constant under it is there for rounding


def is_noise(node: ast.AST) -> bool:
    """Tell of a constant so small that it is there for rounding."""
    return isinstance(node, ast.Constant) and isinstance(node.value, float) and 0 < abs(node.value) < _NOISE


@dataclass
class Names:
    """Fields of classes and parameters of functions with their annotations; `parents` are those of one file's nodes.

    `noise` are constants that are there for rounding.
    """

    fields: dict[str, dict[str, str]] = field(default_factory=dict)
    parameters: dict[str, list[dict[str, str]]] = field(default_factory=lambda: defaultdict(list))
    parents: dict[ast.AST, ast.AST] = field(default_factory=dict)
    noise: set[str] = field(default_factory=set)

    def learn(self, tree: ast.AST) -> None:
        """Take in what a file defines."""
        for node in ast.walk(tree):
            if isinstance(node, ast.Assign) and is_noise(node.value):
                self.noise |= {ast.unparse(target) for target in node.targets}
            if isinstance(node, ast.FunctionDef):
                arguments = [each for each in (*node.args.posonlyargs, *node.args.args) if each.arg != "self"]
                self.parameters[node.name].append({each.arg: _annotation(each) for each in arguments})
            if isinstance(node, ast.ClassDef):
                typed = [each for each in node.body if isinstance(each, ast.AnnAssign)]
                fields = {ast.unparse(each.target): _annotation(each) for each in typed}
                self.parameters[node.name].append(fields)
                properties = [each for each in node.body if isinstance(each, ast.FunctionDef) and each.decorator_list]
                returned = {each.name: ast.unparse(each.returns) for each in properties if each.returns}
                self.fields[node.name] = fields | returned

    def neighbours(self, node: ast.Attribute) -> set[str]:
        """Return the fields of the same annotation in every class that the attribute may belong to."""
        if isinstance(node.value, ast.Name) and node.value.id in self._modules():
            return set()
        known = self._class_of(node.value)
        classes = [self.fields[known]] if known in self.fields else list(self.fields.values())
        like = [
            {name for name, annotation in fields.items() if annotation == fields[node.attr] and name != node.attr}
            for fields in classes
            if node.attr in fields
        ]
        return set.intersection(*like) if like else set()

    def _modules(self) -> set[str]:
        imports = [node for node in self.parents if isinstance(node, ast.Import)]
        return {alias.asname or alias.name for node in imports for alias in node.names}

    def _class_of(self, value: ast.expr) -> str:
        above: ast.AST | None = value
        while isinstance(value, ast.Name) and above is not None:
            above = self.parents.get(above)
            if isinstance(above, ast.ClassDef) and value.id == "self":
                return above.name
            if isinstance(above, ast.FunctionDef):
                found = [_annotation(each) for each in above.args.args if each.arg == value.id and each.annotation]
                if found:
                    return found[0]
        return ""


def _annotation(node: ast.arg | ast.AnnAssign) -> str:
    return ast.unparse(node.annotation).strip("'\"") if node.annotation else ""
