"""Read a YAML file into nodes that know where they stand, and write plain data so; the only place that uses yaml.

Scalars stay text, so that a contact called NO, 010 or 12:30 keeps its name. What plain data does not need (anchors,
aliases, tags, merges, second documents, deep nesting) is refused as `syntax`, an empty value as `value`, and as `file`
what is no file, too big or not UTF-8.
"""

from __future__ import annotations

import codecs
import os
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import yaml

from docgen.basics.findings import Finding, Position, shown
from docgen.basics.units import decimal, refused_comma

MOST_BYTES = 1_000_000
MOST_DEPTH = 20
# What YAML 1.1 allows in a stream (section 5.1), less the byte order mark.
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
# Tabulator, line break and the space separators of Unicode, which other programs put in place of blanks.
_BLANKS = re.compile("[ \t\n\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+")
_BREAKS = re.compile("\r\n|[\r\n\x85\u2028\u2029]")  # YAML 1.1, section 5.3
_FIGURES = re.compile(r"[+-]?\d+")
_FIGURES_AND_UNIT = re.compile(r"\d+\s*[^\d\s]+")
_TAB = "a tab stands where the line begins; YAML takes blanks there."
_FIGURES_KEPT = 15  # all that a number surely holds
_ONE_LINE, _UNFOLDED = 110, 1_000_000  # characters
_SCALAR, _SEQUENCE, _MAPPING = (f"tag:yaml.org,2002:{kind}" for kind in ("str", "seq", "map"))
_LOADER = getattr(yaml, "CLoader", yaml.Loader)


@dataclass(frozen=True, slots=True)
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


def read_yaml(path: Path, name: str) -> tuple[Node | None, list[Finding]]:
    """Read one file; `name` is how the builder is shown it. No node if it is unreadable."""

    def unreadable(sentence: str, do: str, before: str = "") -> tuple[None, list[Finding]]:
        return None, [Finding(_place_after(before, name), "file", sentence, do)]

    if os.path.exists(path) and not os.path.isfile(path):  # noqa: PTH110, PTH113 - no error for an odd path
        return unreadable("can't read it: it is not a file.", "Put a text file in its place.")
    try:
        with path.open("rb") as stream:
            raw = stream.read(MOST_BYTES + 1)
    except OSError as error:
        reason = error.strerror or "it can't be read"
        return unreadable(f"can't read it: {reason}.", "See that it is there and is a file.")
    if len(raw) > MOST_BYTES:
        return unreadable("the file is over 1 MB.", "Split off what is not the definition.")
    raw = raw.removeprefix(codecs.BOM_UTF8)
    try:
        return _parse(raw.decode(), name)
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode(errors="replace")
        return unreadable("the file is not UTF-8 text.", "Save it as UTF-8.", before)


def _parse(text: str, name: str) -> tuple[Node | None, list[Finding]]:
    bad = _UNPRINTABLE.search(text)
    if bad:
        sentence = f"the character {shown(bad.group())} can't stand in a text file."
        return None, [Finding(_place_after(text[: bad.start()], name), "syntax", sentence, "Delete it.")]
    builder = _Builder(name, _place_after(text, name))
    try:
        node = builder.build(text)
    except _Stop:
        node = None
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        _, line, column = builder.at(mark.line, mark.column) if mark else Position(name, 1, 1)
        tab = _tab_in_indentation(text, line)
        if tab:
            do = "Replace it by blanks, two for each step; editors can do that for the whole file."
            return None, [*builder.findings, Finding(Position(name, line, tab), "syntax", _TAB, do)]
        sentence = f"the text can't be read as YAML: {error.problem or 'it is malformed'}."
        do = "Look at this line and the one before: indentation, colons, quotes and brackets."
        return None, [*builder.findings, Finding(Position(name, line, column), "syntax", sentence, do)]
    return node, builder.findings


def _tab_in_indentation(text: str, line: int) -> int:
    """Return the column of a tab before the first letter of a line, 0 where there is none."""
    lines = text.split("\n")
    before = re.match(r"[ \t]*", lines[line - 1]) if line <= len(lines) else None
    return before[0].find("\t") + 1 if before else 0


def _place_after(text: str, name: str) -> Position:
    lines = _BREAKS.split(text)
    return Position(name, len(lines), len(lines[-1]) + 1)


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
