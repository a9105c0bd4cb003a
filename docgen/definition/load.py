"""Take an aircraft's folder and return its checked definition, with everything found wrong in all files."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from docgen.basics.findings import Finding, Position, Refused, listed, meant, shown
from docgen.basics.frozen import frozen
from docgen.basics.locate import findings_from_errors
from docgen.basics.source import Node, plain, positions_in, read_yaml
from docgen.definition.aircraft import Aircraft, Flight, Place, Run
from docgen.definition.crosscheck import check_across
from docgen.definition.defaults import Allowances, Clips, Labels, Limits, Splices
from docgen.definition.equipment import Equipment
from docgen.definition.fields import Named, Names, SpoolLengthMm, TubeName, check_name
from docgen.definition.harness import Circuit, Disconnect
from docgen.definition.model import MISFITS, Definition, Parts, Where
from docgen.definition.parts import PART_SECTIONS
from docgen.definition.sides import expand_sides
from docgen.definition.stores import Spool

BUILT_IN_PARTS = Path(__file__).with_name("parts.yaml")
OFFCUT_MM = 150.0  # an end that is shorter is scrap, where the builder says no `offcut`


@frozen
class Section:
    """A top-level key of a file: the form of its entries, and whether one, a list or named ones stand there."""

    form: Any
    description: str
    holds: str = "one"
    needed: bool = False
    default: float | None = None


SECTIONS_OF_FILES: dict[str, dict[str, Section]] = {
    "aircraft.yaml": {
        "aircraft": Section(Aircraft, "What the aircraft is, and the state that the paper shows.", needed=True),
        "places": Section(Place, "Named points in the airframe.", "named", needed=True),
        "runs": Section(Run, "What wires can be laid along, each between two places.", "list"),
        "flight": Section(Flight, "How long a flight is, and what must be left of the charge."),
    },
    "harness.yaml": {
        "equipment": Section(Equipment, "Whatever has wires on it, by name.", "named", needed=True),
        "disconnects": Section(Disconnect, "Where the harness comes apart, by name.", "named"),
        "circuits": Section(Circuit, "What is wired, one function each, by name.", "named", needed=True),
        "allowances": Section(Allowances, "What is added to a way before a wire is cut."),
        "limits": Section(Limits, "Where cautions and notes begin."),
        "labels": Section(Labels, "How wire labels are fitted and read."),
        "clips": Section(Clips, "How the harness is held."),
        "splices": Section(Splices, "How joints that stay are made."),
    },
    "stores.yaml": {
        "spools": Section(Spool, "Spools on the shelf, numbered as written.", "list"),
        "shelf_tubes": Section(TubeName, "Tubes on the shelf, entries of `tubes`; they are taken first.", "list"),
        "offcut": Section(SpoolLengthMm, "An end that is shorter is scrap.", default=OFFCUT_MM),
    },
    "parts.yaml": {
        name: Section(
            form, f"{name.capitalize()} beyond the built-in ones, by name; one of the same name replaces that.", "named"
        )
        for name, form in PART_SECTIONS.items()
    },
}
FILES = tuple(SECTIONS_OF_FILES)
_OPTIONAL = ("stores.yaml", "parts.yaml")


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
        expected = SECTIONS_OF_FILES[file]
        start = Position(shown_name, 1, 1)
        self.files.update(dict.fromkeys(expected, start))
        if node is None or not isinstance(node.value, dict):
            if node is not None:
                self.note(node.position, "value", "the file holds no keys.", f"Begin with: {listed(expected)}.")
            self.broken.update((section, "") for section in expected)
            return {}
        node, findings = expand_sides(node)
        self.findings += findings
        for key, position in node.keys.items():
            if key not in expected:
                do = meant(key, expected, f"Known here: {listed(expected)}.")
                self.note(position, "key", f"the key {shown(key)} is unknown.", do)
        for name, section in expected.items():
            if section.needed and name not in node.keys:
                self.note(start, "missing", f"{shown(name)} is missing.", "Add it.")
                self.broken.add((name, ""))
        self.keys.update(node.keys)
        return {key: value for key, value in node.items() if key in expected}

    def read_section(self, name: str, node: Node, section: Section, names: Names) -> None:
        """Check each entry of a section and keep the sound ones, in which nothing was unreadable either."""
        entries = self.entries.setdefault(name, {})
        unread = {finding.position for finding in self.unread}
        form = _reader(section.form)
        for key, entry, position in self._entries_of(name, node, section):
            if unread and not unread.isdisjoint(positions_in(entry)):
                self.broken.add((name, str(key)))
            try:
                read = form.validate_python(plain(entry), context=names)
                if (name, str(key)) not in self.broken:
                    entries[key] = read.named(str(key)) if isinstance(read, Named) else read
            except ValidationError as error:
                errors: Any = error.errors(include_url=False, include_input=False)
                self.findings += findings_from_errors(errors, entry, position, section.form)
                self.broken.add((name, str(key)))

    def _entries_of(self, name: str, node: Node, section: Section) -> Iterator[tuple[str | int, Node, Position]]:
        if section.holds == "one":
            yield name, node, self.keys.get(name, node.position)
        elif section.holds == "list" and isinstance(node.value, list):
            for index, item in enumerate(node.value):
                yield index, item, item.position
        elif section.holds == "named" and isinstance(node.value, dict):
            for key, item in node.items():
                try:
                    check_name(key, "." if name in PART_SECTIONS else "")
                except Refused as refused:
                    self.findings.append(refused.at(node.keys[key]))
                yield key, item, node.keys[key]
        else:
            says, do = {
                "list": ("is not a list", "Begin each entry with `- `."),
                "named": ("holds no named entries", "Write `name: {…}` below it."),
            }[section.holds]
            self.note(node.position, "value", f"{shown(name)} {says}.", do)
            self.broken.add((name, ""))

    def sorted_out(self) -> list[Finding]:
        """Return findings without those that only follow from a value that could not be read."""
        hidden = {finding.position for finding in self.unread}
        return self.unread + [finding for finding in self.findings if finding.position not in hidden]

    def note(self, position: Position, name: str, sentence: str, do: str) -> None:
        """Keep a finding."""
        self.findings.append(Finding(position, name, sentence, do))


@cache
def _reader(form: Any) -> TypeAdapter[Any]:
    """Return what reads entries of a form; to make it takes longer than to read a section with it."""
    return TypeAdapter(form)


def load_definition(folder: Path, acceptable: Collection[str]) -> tuple[Definition, list[Finding]]:
    """Read the files of one aircraft, in which the findings that are `acceptable` may be accepted.

    With an error among what is found, the definition of the entries that are sound serves only to find more.
    """
    reading = _Reading()
    builtin, entries = _built_in_parts()
    reading.entries = {section: dict(some) for section, some in entries.items()}
    wanted = [name for name in SECTIONS_OF_FILES if name not in _OPTIONAL or os.path.lexists(folder / name)]
    files = {name: reading.read_file(folder / name, str(folder / name), name) for name in wanted}
    sections = {name: node for file in files.values() for name, node in file.items()}
    names = _names(reading.broken, [builtin, sections], acceptable)
    for file in files:
        for name, section in SECTIONS_OF_FILES[file].items():
            if name in sections:
                reading.read_section(name, sections[name], section, names)
    reading.sections = builtin | sections
    definition = _assemble(reading)
    across = check_across(definition)
    marks = {MISFITS} if across else set()
    return replace(definition, broken=definition.broken | marks), reading.sorted_out() + across


def built_in_parts() -> dict[str, dict[str, Any]]:
    """Return the entries of the built-in parts list by section."""
    return _built_in_parts()[1]


@cache
def _built_in_parts() -> tuple[dict[str, Node], dict[str, dict[str, Any]]]:
    """Return the built-in parts list, which never changes: its nodes and its entries by section."""
    reading = _Reading()
    nodes = reading.read_file(BUILT_IN_PARTS, BUILT_IN_PARTS.name, "parts.yaml")
    names = Names({section: dict.fromkeys(node.keys) for section, node in nodes.items()})
    for section, node in nodes.items():
        reading.read_section(section, node, SECTIONS_OF_FILES["parts.yaml"][section], names)
    return nodes, reading.entries


def _names(broken: set[tuple[str, str]], sources: list[dict[str, Node]], acceptable: Collection[str]) -> Names:
    """Collect what may be referred to; a section of an unreadable file is left out, so nothing is unknown."""
    names = {
        section: {key: None for source in sources if section in source for key, _ in source[section].items()}
        for section in ("places", "equipment", "disconnects", "circuits", *PART_SECTIONS)
        if (section, "") not in broken
    }
    return Names(names, acceptable)


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
        splices=one("splices", Splices()),
        parts=Parts(**{name: entries.get(name, {}) for name in PART_SECTIONS}),
        spools=tuple(entries.get("spools", {}).values()),
        shelf_tubes=tuple(entries.get("shelf_tubes", {}).values()),
        offcut_mm=one("offcut", OFFCUT_MM),
        where=Where(reading.sections, reading.keys, reading.files),
        broken=frozenset(reading.broken),
    )
