"""Read a YAML file into nodes that know where they stand, and write plain data so; the only place that uses yaml.

Scalars stay text, so that a contact called NO, 010 or 12:30 keeps its name. What plain data does not need (anchors,
aliases, tags, merges, second documents, deep nesting) is refused as `syntax`, an empty value as `value`, and as `file`
what is no file, too big or not UTF-8.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import field
from pathlib import Path

import yaml

from docgen.basics.findings import Finding, Position, shown
from docgen.basics.frozen import frozen
from docgen.basics.text_file import BREAKS, MOST_BYTES, place_after, read_text
from docgen.basics.units import decimal, refused_comma

MOST_DEPTH = 20
# Tabulator, line break and the space separators of Unicode, which other programs put in place of blanks.
_BLANKS = re.compile("[ \t\n\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+")
_FIGURES = re.compile(r"[+-]?\d+")
_FIGURES_AND_UNIT = re.compile(r"\d+\s*[^\d\s]+")
_TAB = "a tab stands where YAML takes blanks alone."
_NO_COLON = "could not find expected ':'"
_FIGURES_KEPT = 15  # all that a number surely holds
_ONE_LINE, _UNFOLDED = 110, 1_000_000  # characters
_SCALAR, _SEQUENCE, _MAPPING = (f"tag:yaml.org,2002:{kind}" for kind in ("str", "seq", "map"))
_LOADER = getattr(yaml, "CLoader", yaml.Loader)


@frozen(slots=True)
class Node:
    """A value and its position; a mapping also knows where its keys stand."""

    value: str | list[Node] | dict[str, Node]
    position: Position
    keys: dict[str, Position] = field(default_factory=dict)

    def items(self) -> Iterator[tuple[str, Node]]:
        """Walk a mapping's entries; anything else has none."""
        return iter(self.value.items()) if isinstance(self.value, dict) else iter(())


def repeated_key(name: str, position: Position, first: Position) -> Finding:
    """Return what is said of a key that stands in a mapping a second time."""
    sentence = f"the key {shown(name)} stands twice; it is first in line {first.line}."
    return Finding(position, "key", sentence, "Keep one of the two.")


def plain(node: Node) -> object:
    """Return the node's value as text, lists and dicts."""
    if isinstance(node.value, str):
        return node.value
    if isinstance(node.value, list):
        return [plain(item) for item in node.value]
    return {key: plain(item) for key, item in node.value.items()}


def positions_in(node: Node) -> Iterator[Position]:
    """Walk the positions of a value and of all that stands below it."""
    yield node.position
    for below in node.value if isinstance(node.value, list) else [item for _, item in node.items()]:
        yield from positions_in(below)


def yaml_text(value: object) -> str:
    """Write text, numbers, lists and dicts as YAML that reads back the same: what is short in one line, else below.

    Nothing is folded, so that two versions differ in the lines that differ.
    """
    node, _ = _laid(value)
    return str(yaml.serialize(node, Dumper=yaml.BaseDumper, width=_UNFOLDED, allow_unicode=True))


def _laid(value: object) -> tuple[yaml.Node, int]:
    """Return the node of a value, and how long that is in one line; more than fits there where it has several."""
    if isinstance(value, dict):
        below = {_scalar(str(key)): _laid(item) for key, item in value.items()}
        length = sum(len(key.value) + length + 4 for key, (_, length) in below.items())
        pairs = [(key, node) for key, (node, _) in below.items()]
        return yaml.MappingNode(_MAPPING, pairs, flow_style=length <= _ONE_LINE), length
    if isinstance(value, list | tuple):
        items = [_laid(item) for item in value]
        length = sum(length + 2 for _, length in items)
        return yaml.SequenceNode(_SEQUENCE, [node for node, _ in items], flow_style=length <= _ONE_LINE), length
    text = _text(value)
    return _scalar(text), len(text)


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return decimal(value, _FIGURES_KEPT) if isinstance(value, int | float) else str(value)


def _scalar(text: str) -> yaml.ScalarNode:
    return yaml.ScalarNode(_SCALAR, text)


def read_yaml(path: Path, name: str, most_bytes: int = MOST_BYTES) -> tuple[Node | None, list[Finding]]:
    """Read one file; `name` is how the builder is shown it. No node if it is unreadable."""
    text = read_text(path, name, most_bytes)
    return (None, [text]) if isinstance(text, Finding) else _parse(text, name)


def _parse(text: str, name: str) -> tuple[Node | None, list[Finding]]:
    builder = _Builder(name, place_after(text, name))
    try:
        node = builder.build(text)
    except _Stop:
        node = None
    except yaml.MarkedYAMLError as error:
        begun = error.context_mark  # where a key without its colon stands; that is missed only after it
        mark = begun if error.problem == _NO_COLON else error.problem_mark or begun
        position = builder.at(mark.line, mark.column) if mark else Position(name, 1, 1)
        return None, [*builder.findings, _malformed(error, text, position)]
    return node, builder.findings


def _malformed(error: yaml.MarkedYAMLError, text: str, position: Position) -> Finding:
    """Return what is told of a text that is no YAML; of a tab that is in its way, that."""
    tab = _tab_in_the_way(text, position)
    if tab:
        do = "Replace it by blanks, two for each step; editors can do that for the whole file."
        return Finding(position._replace(column=tab), "syntax", _TAB, do)
    sentence = f"the text can't be read as YAML: {error.problem or 'it is malformed'}."
    do = "Look at this line and the one before: indentation, colons, quotes and brackets."
    if error.problem == _NO_COLON:
        do = "Put a colon and a blank after the key, like `place: rudder`."
    return Finding(position, "syntax", sentence, do)


def _tab_in_the_way(text: str, position: Position) -> int:
    """Return the column of a tab before the first letter of a line, or where reading stopped; 0 where there is none."""
    said = BREAKS.split(text)[position.line - 1]
    begin = re.match(r"[ \t]*", said)
    before = begin[0].find("\t") + 1 if begin else 0
    return before or (position.column if said[position.column - 1 : position.column] == "\t" else 0)


class _Stop(Exception):
    """Nothing after this point can be read."""


class _Builder:
    """Turns the events of one document into nodes, keeping what it refuses as findings."""

    def __init__(self, name: str, end: Position) -> None:
        self.name, self.end = name, end
        self.findings: list[Finding] = []

    def build(self, text: str) -> Node:
        events = iter(yaml.parse(text, Loader=_LOADER))
        root: Node | None = None
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if root is not None:
                    do = "Keep one document in a file: delete the `---`."
                    self.refuse(event, "a second document begins here.", do)
                    raise _Stop
                root = self.node(next(events), events, 1)
        return root if root is not None else Node({}, Position(self.name, 1, 1))

    def node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        if isinstance(event, yaml.AliasEvent):
            self.refuse(event, "aliases (`*name`) are not read here.", "Write the value out.")
            return Node("alias", self.position(event))
        if getattr(event, "anchor", None):
            self.refuse(event, "anchors (`&name`) are not read here.", "Delete the anchor and write values out.")
        if getattr(event, "tag", None):
            self.refuse(event, "tags (`!name`) are not read here.", "Delete the tag; all values are text.")
        if isinstance(event, yaml.ScalarEvent):
            return Node(self.text(event), self.position(event))
        if depth > MOST_DEPTH:
            self.refuse(event, f"values are nested over {MOST_DEPTH} deep.", "Nothing that is read here is so deep.")
            raise _Stop
        if isinstance(event, yaml.SequenceStartEvent):
            return self.sequence(event, events, depth)
        return self.mapping(event, events, depth)

    def sequence(self, start: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        items = []
        while not isinstance(event := next(events), yaml.SequenceEndEvent):
            items.append(self.node(event, events, depth + 1))
        return Node(items, self.position(start))

    def mapping(self, start: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        values: dict[str, Node] = {}
        keys: dict[str, Position] = {}
        while not isinstance(event := next(events), yaml.MappingEndEvent):
            key = self.node(event, events, depth + 1)
            below = next(events)
            if self.is_rest_of_number(start, values, key, below):
                continue
            value = self.node(below, events, depth + 1)
            if not isinstance(key.value, str):
                self.refuse(event, "a key must be plain text.", "Write `name: value`.")
            elif key.value == "<<":
                self.refuse(event, "merges (`<<`) are not read here.", "Write the values out.")
            elif key.value in values:
                self.findings.append(repeated_key(key.value, key.position, keys[key.value]))
            else:
                values[key.value], keys[key.value] = value, key.position
        return Node(values, self.position(start), keys)

    def is_rest_of_number(self, start: yaml.Event, values: dict[str, Node], key: Node, below: yaml.Event) -> bool:
        """Tell whether a key is what stands behind the comma of a number, which ended its value inside braces."""
        last = next(reversed(values.values()), None)
        if last is None or not getattr(start, "flow_style", False) or getattr(below, "value", None) != "":
            return False
        if not (_FIGURES.fullmatch(str(last.value)) and _FIGURES_AND_UNIT.fullmatch(str(key.value))):
            return False
        refused = refused_comma(f"{last.value},{key.value}")
        if refused is not None:
            self.findings.append(refused.at(last.position))
        return refused is not None

    def text(self, event: yaml.ScalarEvent) -> str:
        value = str(event.value)
        if not value.strip():
            position = self.position(event)
            self.findings.append(Finding(position, "value", "the value is empty.", "Say it, or delete the key."))
            return "empty"
        if not value.isascii():
            value = unicodedata.normalize("NFC", value)
        return _BLANKS.sub(" ", value).strip(" ")

    def position(self, event: yaml.Event) -> Position:
        mark = event.start_mark
        return self.at(mark.line, mark.column) if mark else Position(self.name, 1, 1)

    def at(self, line: int, column: int) -> Position:
        """Return what the reader counts from 0 as a position; it takes the end of a last line for one line more."""
        return min(Position(self.name, line + 1, column + 1), self.end)

    def refuse(self, event: yaml.Event, sentence: str, do: str) -> None:
        self.findings.append(Finding(self.position(event), "syntax", sentence, do))
