"""A checked definition: everything the builder wrote, by name, and where it stands."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, Position
from docgen.basics.frozen import frozen
from docgen.basics.locate import key_position_of, node_at, position_of
from docgen.basics.source import Node
from docgen.definition.aircraft import Aircraft, Flight, Place, Run
from docgen.definition.defaults import Allowances, Clips, Labels, Limits, Splices
from docgen.definition.equipment import Equipment
from docgen.definition.harness import Circuit, Disconnect
from docgen.definition.parts import LeadPart, PlugPart, ShellPart, SleevePart, TubePart, WirePart
from docgen.definition.stores import Spool


@frozen
class Where:
    """Positions of all that was typed, by section."""

    sections: dict[str, Node]
    keys: dict[str, Position]
    files: dict[str, Position]

    def value(self, section: str, *path: str | int) -> Position:
        """Return the position of a value, or of the nearest thing around it that was typed."""
        node = self.sections.get(section)
        return position_of(node, path) if node else self.files.get(section, Position("", 1, 1))

    def key(self, section: str, *path: str | int) -> Position:
        """Return the position of the last key on a path."""
        node = self.sections.get(section)
        found = key_position_of(node, path) if node else None
        return found or self.keys.get(section) or self.value(section, *path)

    def item(self, text: str, section: str, *path: str | int) -> Position:
        """Return the position of the item of a list that says `text`, or of the list."""
        node = node_at(self.sections[section], path) if section in self.sections else None
        for item in node.value if node is not None and isinstance(node.value, list) else ():
            if item.value == text:
                return item.position
        return self.value(section, *path)

    def texts(self) -> Iterator[tuple[str, Position]]:
        """Walk every text that the builder typed, keys too, with its position."""
        rest = [node for name, node in self.sections.items() if name in self.keys]
        while rest:
            node = rest.pop()
            if isinstance(node.value, str):
                yield node.value, node.position
            elif isinstance(node.value, list):
                rest += node.value
            else:
                yield from node.keys.items()
                rest += node.value.values()


@frozen
class Parts:
    """The parts list: built-in parts with the builder's own added or in their stead."""

    wires: dict[str, WirePart]
    leads: dict[str, LeadPart]
    plugs: dict[str, PlugPart]
    shells: dict[str, ShellPart]
    sleeves: dict[str, SleevePart]
    tubes: dict[str, TubePart]


def contact_names(parts: Parts, name: str) -> list[str]:
    """Return the contacts of a shell or plug in number order; none of one that is not known."""
    if name in parts.shells:
        return list(parts.shells[name].places_mm)
    return list(parts.plugs[name].contacts) if name in parts.plugs else []


# What `broken` holds where every entry is sound, but they do not fit each other.
MISFITS = ("", "misfits")


@frozen
class Definition:
    """What the builder wrote; entries that were refused are not in it but named in `broken`."""

    aircraft: Aircraft
    places: dict[str, Place]
    runs: dict[int, Run]
    flight: Flight | None
    equipment: dict[str, Equipment]
    disconnects: dict[str, Disconnect]
    circuits: dict[str, Circuit]
    allowances: Allowances
    limits: Limits
    labels: Labels
    clips: Clips
    splices: Splices
    parts: Parts
    spools: tuple[Spool, ...]
    shelf_tubes: tuple[str, ...]
    offcut_mm: float
    where: Where
    broken: frozenset[tuple[str, str]] = frozenset()

    def wrong(self, name: str, path: tuple[str | int, ...], sentence: str, do: str) -> Finding:
        """Return what is wrong with the value that a path leads to, on the entry of the section that it is of."""
        section, entry = str(path[0]), str(path[1])
        return Finding(self.where.value(section, *path[1:]), name, sentence, do, (section, entry))
