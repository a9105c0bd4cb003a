"""Take an aircraft's folder and return its checked definition, with everything found wrong in all files."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from docgen.basics.findings import Finding, Position, Refused, listed, nearest, shown
from docgen.basics.locate import findings_from_errors
from docgen.basics.source import Node, plain, positions_in, read_yaml
from docgen.definition.aircraft import Aircraft, Flight, Place, Run
from docgen.definition.crosscheck import check_across
from docgen.definition.equipment import Equipment
from docgen.definition.fields import Form, Named, Names, SpoolLengthMm, check_name
from docgen.definition.harness import Allowances, Circuit, Clips, Disconnect, Labels, Limits
from docgen.definition.model import MISFITS, Definition, Parts, Where
from docgen.definition.parts import PART_SECTIONS, Spool
from docgen.definition.sides import expand_sides

BUILT_IN_PARTS = Path(__file__).with_name("parts.yaml")


class Offcut(Form):
    """The length under which an end is scrap."""

    offcut: SpoolLengthMm = 150


@dataclass(frozen=True)
class _Section:
    """A top-level key of a file: what its entries are, and whether one, a list or named ones stand there."""

    model: type[BaseModel]
    holds: str = "one"
    needed: bool = False


_FILES: dict[str, dict[str, _Section]] = {
    "aircraft.yaml": {
        "aircraft": _Section(Aircraft, needed=True),
        "places": _Section(Place, "named", needed=True),
        "runs": _Section(Run, "list"),
        "flight": _Section(Flight),
    },
    "harness.yaml": {
        "equipment": _Section(Equipment, "named", needed=True),
        "disconnects": _Section(Disconnect, "named"),
        "circuits": _Section(Circuit, "named", needed=True),
        "allowances": _Section(Allowances),
        "limits": _Section(Limits),
        "labels": _Section(Labels),
        "clips": _Section(Clips),
    },
    "stores.yaml": {"spools": _Section(Spool, "list"), "offcut": _Section(Offcut)},
    "parts.yaml": {name: _Section(model, "named") for name, model in PART_SECTIONS.items()},
}
_WANTED_FILES = ("aircraft.yaml", "harness.yaml")


class _Reading:
    """Entries read so far, what was found, and what is broken."""

    def __init__(self) -> None:
        self.entries: dict[str, dict[Any, Any]] = {}
        self.findings: list[Finding] = []
        self.unread: list[Finding] = []
        self.broken: set[tuple[str, str]] = set()
        self.sections: dict[str, Node] = {}
        self.keys: dict[str, Position] = {}
        self.files: dict[str, Position] = {}

    def read_file(self, path: Path, shown_name: str, file: str) -> dict[str, Node]:
        """Read a file's sections; unknown, missing and unreadable ones are found, the rest returned."""
        node, findings = read_yaml(path, shown_name)
        self.unread += findings
        expected = _FILES[file]
        start = Position(shown_name, 1, 1)
        self.files.update(dict.fromkeys(expected, start))
        if node is None:
            self.broken.update((section, "") for section in expected)
            return {}
        if not isinstance(node.value, dict):
            self.note(node.position, "value", "the file holds no keys.", f"Begin with: {listed(expected)}.")
            self.broken.update((section, "") for section in expected)
            return {}
        node, findings = expand_sides(node)
        self.findings += findings
        for key, position in node.keys.items():
            if key not in expected:
                offer = nearest(key, expected)
                do = f"Did you mean `{offer}`?" if offer else f"Known here: {listed(expected)}."
                self.note(position, "key", f"the key {shown(key)} is unknown.", do)
        for name, section in expected.items():
            if section.needed and name not in node.keys:
                self.note(start, "missing", f"{shown(name)} is missing.", "Add it.")
                self.broken.add((name, ""))
        self.keys.update(node.keys)
        return {key: value for key, value in node.items() if key in expected}

    def read_section(self, name: str, node: Node, section: _Section, names: Names) -> None:
        """Check each entry of a section and keep the sound ones, in which nothing was unreadable either."""
        entries = self.entries.setdefault(name, {})
        unread = {finding.position for finding in self.unread}
        for key, entry, position in self._entries_of(name, node, section):
            form: Any = {"offcut": plain(entry)} if section.model is Offcut else plain(entry)
            if unread and not unread.isdisjoint(positions_in(entry)):
                self.broken.add((name, str(key)))
            try:
                read = section.model.model_validate(form, context=names)
                if (name, str(key)) not in self.broken:
                    entries[key] = read.named(str(key)) if isinstance(read, Named) else read
            except ValidationError as error:
                errors: Any = error.errors(include_url=False, include_input=False)
                self.findings += findings_from_errors(errors, entry, position, section.model)
                self.broken.add((name, str(key)))

    def _entries_of(self, name: str, node: Node, section: _Section) -> Iterator[tuple[str | int, Node, Position]]:
        if section.holds == "one":
            yield name, node, self.keys.get(name, node.position)
        elif section.holds == "list":
            if isinstance(node.value, list):
                for index, item in enumerate(node.value):
                    yield index, item, item.position
            else:
                self.note(node.position, "value", f"{shown(name)} is not a list.", "Begin each entry with `- `.")
                self.broken.add((name, ""))
        elif isinstance(node.value, dict):
            for key, item in node.items():
                try:
                    check_name(key, "." if name in PART_SECTIONS else "")
                except Refused as refused:
                    self.note(node.keys[key], refused.name, refused.sentence, refused.do)
                yield key, item, node.keys[key]
        else:
            self.note(
                node.position,
                "value",
                f"{shown(name)} holds no named entries.",
                "Write `name: {…}` below it.",
            )
            self.broken.add((name, ""))

    def sorted_out(self) -> list[Finding]:
        """Return findings without those that only follow from a value that could not be read."""
        hidden = {finding.position for finding in self.unread}
        return self.unread + [finding for finding in self.findings if finding.position not in hidden]

    def note(self, position: Position, name: str, sentence: str, do: str) -> None:
        """Keep a finding."""
        self.findings.append(Finding(position, name, sentence, do))


def load_definition(folder: Path, acceptable: Collection[str]) -> tuple[Definition, list[Finding]]:
    """Read the files of one aircraft, in which the findings that are `acceptable` may be accepted.

    Returns:
        The definition with all entries that are sound, and findings. With an error among them the
        definition serves only to find more.

    """
    reading = _Reading()
    builtin, entries = _built_in_parts()
    reading.entries = {section: dict(some) for section, some in entries.items()}
    wanted = _WANTED_FILES + tuple(name for name in ("stores.yaml", "parts.yaml") if os.path.lexists(folder / name))
    files = {name: reading.read_file(folder / name, str(folder / name), name) for name in wanted}
    own = files.pop("parts.yaml", {})
    sections = {name: node for file in files.values() for name, node in file.items()}
    names = replace(_names(reading, sections, builtin, own), acceptable=acceptable)
    for name, node in own.items():
        reading.read_section(name, node, _FILES["parts.yaml"][name], names)
    for file in files:
        for name, section in _FILES[file].items():
            if name in sections:
                reading.read_section(name, sections[name], section, names)
    reading.sections = builtin | own | sections
    definition = _assemble(reading)
    across = check_across(definition)
    marks = {MISFITS} if across else set()
    return replace(definition, broken=definition.broken | marks), reading.sorted_out() + across


@cache
def _built_in_parts() -> tuple[dict[str, Node], dict[str, dict[str, Any]]]:
    """Return the built-in parts list, which never changes: its nodes and its entries by section."""
    reading = _Reading()
    nodes = reading.read_file(BUILT_IN_PARTS, BUILT_IN_PARTS.name, "parts.yaml")
    names = Names({section: dict.fromkeys(node.keys) for section, node in nodes.items()})
    for section, node in nodes.items():
        reading.read_section(section, node, _FILES["parts.yaml"][section], names)
    return nodes, reading.entries


def _names(reading: _Reading, sections: dict[str, Node], builtin: dict[str, Node], own: dict[str, Node]) -> Names:
    """Collect what may be referred to; a section of an unreadable file is left out, so nothing is unknown."""
    names: dict[str, list[str]] = {}
    for section in ("places", "equipment", "disconnects", "circuits"):
        if (section, "") not in reading.broken:
            names[section] = [key for key, _ in sections[section].items()] if section in sections else []
    for section in PART_SECTIONS:
        if (section, "") in reading.broken:
            continue
        names[section] = [key for source in (builtin, own) if section in source for key, _ in source[section].items()]
    return Names({section: dict.fromkeys(every) for section, every in names.items()})


# Stands in for an aircraft that was refused; nothing is ever printed of it.
_NO_AIRCRAFT = Aircraft.model_construct(name="", description="", marks="", revision="", date="", accept={})


def _assemble(reading: _Reading) -> Definition:
    entries = reading.entries

    def one(name: str, default: Any) -> Any:
        return entries.get(name, {}).get(name, default)

    return Definition(
        aircraft=one("aircraft", _NO_AIRCRAFT),
        places=entries.get("places", {}),
        runs=entries.get("runs", {}),
        flight=one("flight", None),
        equipment=entries.get("equipment", {}),
        disconnects=entries.get("disconnects", {}),
        circuits=entries.get("circuits", {}),
        allowances=one("allowances", Allowances()),
        limits=one("limits", Limits()),
        labels=one("labels", Labels()),
        clips=one("clips", Clips()),
        parts=Parts(**{name: entries.get(name, {}) for name in PART_SECTIONS}),
        spools=tuple(entries.get("spools", {}).values()),
        offcut_mm=one("offcut", Offcut()).offcut,
        where=Where(reading.sections, reading.keys, reading.files),
        broken=frozenset(reading.broken),
    )
