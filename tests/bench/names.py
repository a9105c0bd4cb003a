"""What a package defines: fields of classes and parameters of functions, with their annotations."""

from __future__ import annotations

import ast
from collections import defaultdict
from dataclasses import dataclass, field


@dataclass
class Names:
    """Fields of classes and parameters of functions with their annotations; `parents` are those of one file's nodes."""

    fields: dict[str, dict[str, str]] = field(default_factory=dict)
    parameters: dict[str, list[dict[str, str]]] = field(default_factory=lambda: defaultdict(list))
    parents: dict[ast.AST, ast.AST] = field(default_factory=dict)

    def learn(self, tree: ast.AST) -> None:
        """Take in what a file defines."""
        for node in ast.walk(tree):
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
