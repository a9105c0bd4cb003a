"""A definition as it grows: entries with their comments, in the order in which they are written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from docgen.basics.frozen import frozen

SIDE = "<side>"
SIDES = ("left", "right")


@frozen
class Entry:
    """What stands below a name: keys with values, a comment above it, and comments beside keys."""

    name: str
    fields: Mapping[str, Any]
    says: str = ""
    beside: Mapping[str, str] = field(default_factory=dict)


@dataclass
class Draft:
    """Places, runs, equipment, joints and circuits so far."""

    places: list[Entry] = field(default_factory=list)
    runs: list[dict[str, Any]] = field(default_factory=list)
    equipment: list[Entry] = field(default_factory=list)
    joints: list[Entry] = field(default_factory=list)
    circuits: list[Entry] = field(default_factory=list)

    def add_place(self, name: str, assembly: str, access: str) -> None:
        """Add a place, once."""
        if all(place.name != name for place in self.places):
            self.places.append(Entry(name, {"assembly": assembly, "access": access}))

    def add_run(self, start: str, goal: str, *, sharp: bool = False) -> None:
        """Add a run, once; a sharp one crosses formers or ribs."""
        if all({start, goal} != set(run["between"]) for run in self.runs):
            self.runs.append({"between": [start, goal], **({"edges": "sharp"} if sharp else {})})

    def add_circuit(self, name: str, label: str, start: str | dict[str, str], goal: str, lead: str = "") -> None:
        """Add a circuit of a lead that is cut, without one of leads that came along; `{}` in its label is the side."""
        fields: dict[str, Any] = {"label": by_side(label), "from": start, "to": goal}
        self.circuits.append(Entry(name, fields | ({"lead": lead} if lead else {})))

    def place_of(self, equipment: str) -> str:
        """Return where equipment sits."""
        return next(str(entry.fields["place"]) for entry in self.equipment if entry.name == equipment)


def by_side(text: str) -> str | dict[str, str]:
    """Return a text in which `{}` stands for L and R as the choice of both; another as it is."""
    return {"left": text.format("L"), "right": text.format("R")} if "{}" in text else text
