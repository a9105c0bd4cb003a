"""Expand `<side>`: an entry written once stands for left and right.

A named entry whose name holds it, or a list item that holds it anywhere, is made twice, in place, left
first. Inside such an entry `<side>` is replaced, and a mapping with just the keys left and right is a choice.
"""

from __future__ import annotations

from docgen.basics.findings import Finding, Position, shown
from docgen.basics.source import Node, repeated_key

SIDE = "<side>"
SIDES = ("left", "right")
# Mappings whose keys are names, by the key they stand under; those of a file's top level are sections.
_ONE_ENTRY = frozenset({"aircraft", "flight", "allowances", "limits", "labels", "clips", "splices"})
_NAMED_BELOW = frozenset({"commons", "antennas", "contacts", "lengths"})


def expand_sides(root: Node) -> tuple[Node, list[Finding]]:
    """Return a file's tree with all entries made, and findings for what can't be expanded."""
    findings: list[Finding] = []
    if not isinstance(root.value, dict):
        return root, findings
    sections = {key: _expand(section, key not in _ONE_ENTRY, findings) for key, section in root.value.items()}
    for key, position in root.keys.items():
        if SIDE in key:
            findings.append(_misplaced(key, position))
    return Node(sections, root.position, root.keys), findings


def _expand(node: Node, named: bool, findings: list[Finding]) -> Node:
    """Expand below a node that is itself written once."""
    if isinstance(node.value, str):
        if SIDE in node.value:
            findings.append(_misplaced(node.value, node.position))
        return node
    if isinstance(node.value, list):
        items: list[Node] = []
        for item in node.value:
            if _holds_side(item):
                items.extend(_for_side(item, side, findings) for side in SIDES)
            else:
                items.append(item)
        return Node(items, node.position)
    return _expand_mapping(node, named, findings)


def _expand_mapping(node: Node, named: bool, findings: list[Finding]) -> Node:
    made: list[tuple[str, Node, Position]] = []
    for key, value in node.items():
        position = node.keys[key]
        if SIDE not in key:
            made.append((key, _expand(value, key in _NAMED_BELOW, findings), position))
        elif named:
            made += [(key.replace(SIDE, side), _for_side(value, side, findings), position) for side in SIDES]
        else:
            findings.append(_misplaced(key, position))
    return _mapping_of(made, node.position, findings)


def _for_side(node: Node, side: str, findings: list[Finding]) -> Node:
    """Return what stands inside an entry for one side."""
    if isinstance(node.value, str):
        return Node(node.value.replace(SIDE, side), node.position) if SIDE in node.value else node
    if isinstance(node.value, list):
        return Node([_for_side(item, side, findings) for item in node.value], node.position)
    if set(node.value) == set(SIDES):
        return _for_side(node.value[side], side, findings)
    made = [(key.replace(SIDE, side), _for_side(value, side, findings), node.keys[key]) for key, value in node.items()]
    return _mapping_of(made, node.position, findings)


def _mapping_of(made: list[tuple[str, Node, Position]], position: Position, findings: list[Finding]) -> Node:
    values: dict[str, Node] = {}
    keys: dict[str, Position] = {}
    for name, value, key in made:
        if name in values:
            findings.append(repeated_key(name, key, keys[name]))
        else:
            values[name], keys[name] = value, key
    return Node(values, position, keys)


def _holds_side(node: Node) -> bool:
    if isinstance(node.value, str):
        return SIDE in node.value
    if isinstance(node.value, list):
        return any(_holds_side(item) for item in node.value)
    return any(SIDE in key or _holds_side(value) for key, value in node.value.items())


def _misplaced(text: str, position: Position) -> Finding:
    sentence = f"{shown(text)} holds `{SIDE}` where no entry is made twice."
    return Finding(position, "side", sentence, f"Name the side, or put `{SIDE}` into the entry's name too.")
