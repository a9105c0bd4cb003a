"""Documents of the builder with one thing edited, and how editors read them."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from docgen.basics.shipped import shipped_folder
from docgen.basics.source import plain, read_yaml, yaml_text

Step = str | int


class Edited(NamedTuple):
    """A folder's files as text, which of them was edited, what was done, and what it holds then."""

    files: dict[str, str]
    file: str
    what: str
    tree: Any

    def written(self) -> dict[str, str]:
        return self.files | {self.file: yaml_text(self.tree)}


def example(name: str) -> dict[str, str]:
    return {path.name: path.read_text("utf-8") for path in (shipped_folder("examples") / name).glob("*.yaml")}


def tree_of(text: str, scratch: Path) -> Any:
    """Return what a text says as text, lists and dicts."""
    (scratch / "text.yaml").write_text(text, "utf-8")
    node, findings = read_yaml(scratch / "text.yaml", "text.yaml")
    assert node is not None, findings
    return plain(node)


def edits(files: dict[str, str], scratch: Path) -> Iterator[Edited]:
    """Walk a folder's files, each time with one thing edited."""
    for file, text in files.items():
        tree = tree_of(text, scratch)
        for path in _paths(tree):
            value = _at(tree, path)
            for what, new in _instead(value, path):
                yield Edited(files, file, f"{'/'.join(map(str, path))}: {what}", _with(tree, path, new))
            if isinstance(value, dict):
                for key in value:
                    less = _with(tree, path, {other: item for other, item in value.items() if other != key})
                    yield Edited(files, file, f"{'/'.join(map(str, path))}: without {key}", less)


def _instead(value: Any, path: tuple[Step, ...]) -> Iterator[tuple[str, Any]]:
    """Walk what may be written by mistake in place of a value."""
    if isinstance(value, dict):
        yield "an unknown key", {**value, "colourr": "x"}
        yield "one value", "perhaps"
        yield "a list", []
    elif isinstance(value, list):
        yield "one value", "perhaps"
        yield "one fewer", value[:-1]
        if "rows" not in path:  # more contacts want a larger outline, which is not told by form
            yield "one more", [*value, copy.deepcopy(value[-1]) if value and isinstance(value[-1], dict) else "x"]
    else:
        for word in ("47", "3 mAh", "perhaps", *(["servo"] if path[-1] == "kind" else [])):
            yield word, word
        yield "a list", [value]
        yield "keys", {"a": value}


def _paths(tree: Any, path: tuple[Step, ...] = ()) -> Iterator[tuple[Step, ...]]:
    yield path
    for step, below in tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ():
        yield from _paths(below, (*path, step))


def _at(tree: Any, path: tuple[Step, ...]) -> Any:
    for step in path:
        tree = tree[step]
    return tree


def _with(tree: Any, path: tuple[Step, ...], new: Any) -> Any:
    if not path:
        return new
    changed = copy.copy(tree)
    changed[path[0]] = _with(tree[path[0]], path[1:], new)
    return changed


class Yaml11(yaml.SafeLoader):
    """Takes plain scalars for what they are in YAML 1.1, where yes and off are truth values; days stay text."""


class Yaml12(Yaml11):
    """Takes true and false alone for truth values, as the core schema of YAML 1.2 (10.3.2)."""


class AsText(Yaml11):
    """Takes all for text, as the program does."""


def _as_typed(_: yaml.SafeLoader, node: yaml.ScalarNode) -> str:
    return str(node.value)


Yaml11.add_constructor("tag:yaml.org,2002:timestamp", _as_typed)
Yaml12.yaml_implicit_resolvers = {
    first: [one for one in some if not (one[0].endswith(":bool") and first in "yYnNoO")]
    for first, some in Yaml11.yaml_implicit_resolvers.items()
}
AsText.yaml_implicit_resolvers = {}


def readings(tree: Any) -> dict[str, Any]:
    """Return a document, of which all scalars are text, as parsers read it; keys are text to editors, as in JSON."""
    return {loader.__name__: _read(tree, loader("")) for loader in (Yaml11, Yaml12, AsText)}


def _read(tree: Any, loader: yaml.SafeLoader) -> Any:
    if isinstance(tree, dict):
        return {key: _read(value, loader) for key, value in tree.items()}
    if isinstance(tree, list):
        return [_read(item, loader) for item in tree]
    tag = loader.resolve(yaml.ScalarNode, tree, (True, False))  # type: ignore[no-untyped-call]
    return loader.construct_object(yaml.ScalarNode(tag, tree))
