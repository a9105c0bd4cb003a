"""What is wired: ends, wires, leads and circuits as built. Values only; lengths are in mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from docgen.basics.findings import Position
from docgen.definition import harness as forms
from docgen.harness.model.parts import Connector, Route, WirePart


def numbered(name: str, what: str, number: str) -> str:
    """Write a name and a number of it, and what is numbered where two figures would meet: `unit-2 port 1`."""
    words = [name, what, number] if name[-1:].isdigit() and number[:1].isdigit() else [name, number]
    return " ".join(words).strip()


@dataclass(frozen=True, slots=True)
class OwnLead:
    """The lead that equipment came with, and its route from the equipment to where its plug lies.

    Without a `kind` it is taken as of the circuit's wire; `assumed` is one that the builder did not say.
    `colours` are those that differ from the harness, by role.
    """

    equipment: str
    length_mm: float
    kind: WirePart | None
    assumed: bool
    colours: dict[str, str]
    route: Route


@dataclass(frozen=True, slots=True)
class End:
    """Where one end of a lead goes: a port of equipment, a half of a disconnect, or a splice.

    `gender` is what the lead's own half carries; `contacts` are its contacts by role, several where the role
    is shared there as the common in `commons`.
    """

    kind: Literal["port", "half", "splice"]
    name: str
    part: str
    place: str
    connector: Connector
    gender: str
    contacts: dict[str, tuple[str, ...]]
    commons: dict[str, str]
    own: OwnLead | None

    @property
    def colours(self) -> dict[str, str]:
        """Return the colours in the hand beyond it, by role, where equipment came with a lead of other colours."""
        return self.own.colours if self.own is not None else {}

    @property
    def is_port(self) -> bool:
        """Tell whether it plugs into equipment."""
        return self.kind == "port"

    @property
    def is_splice(self) -> bool:
        """Tell whether wires are joined there for good."""
        return self.kind == "splice"

    @property
    def text(self) -> str:
        """Say it: `receiver 1`, `receiver-1 port 1`, `rudder`, `left-root`, `splice at tail-post`."""
        if self.is_splice:
            return f"splice at {self.place}"
        return numbered(self.name, "port", self.part) if self.is_port else self.name


@dataclass(frozen=True, slots=True)
class Wire:
    """One conductor of a lead, and the contacts at its two ends (none where none is fitted)."""

    role: str
    kind: WirePart
    colour: str
    mark: str
    contacts: tuple[tuple[str, ...], tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Lead:
    """The piece of a circuit between two terminations; own leads plugged straight in have no cut length.

    `free_mm` is what lies coiled or hangs free at each end, beside its route.
    """

    circuit: str
    label: str
    segment: str
    part: str
    wires: tuple[Wire, ...]
    ends: tuple[End, End]
    route: Route
    cut_length_mm: float | None
    free_mm: tuple[float, float]
    pinned: bool
    bought: str | None
    jacket_mm: float | None
    lay_mm: float | None
    assembly: str
    position: Position

    @property
    def name(self) -> str:
        """Say which lead it is: circuit and segment."""
        return f"{self.circuit} {self.segment}"

    @property
    def straight(self) -> bool:
        """Tell whether it is the own leads of what is joined, with nothing to cut."""
        return self.cut_length_mm is None

    def wire(self, role: str) -> Wire | None:
        """Return its wire of a role, if it has one."""
        return next((wire for wire in self.wires if wire.role == role), None)


@dataclass(frozen=True, slots=True)
class Circuit:
    """One function wired from supply side to load; the last `branches` of its leads part at a splice.

    `poles` are the roles that carry its current out and back, none where it carries no supply; `form` is what the
    builder wrote, for what is shown as it stands there.
    """

    name: str
    form: forms.Circuit
    label: str
    leads: tuple[Lead, ...]
    branches: int
    poles: tuple[str, ...]
    position: Position

    @property
    def carries_supply(self) -> bool:
        """Tell whether it carries its load's current back to the pack."""
        return bool(self.poles)

    @property
    def start(self) -> End:
        """Return the end where the supply comes from."""
        return self.leads[0].ends[0]

    @property
    def loads(self) -> tuple[End, ...]:
        """Return the end at the load; several behind a splice."""
        return tuple(lead.ends[1] for lead in self.leads[-max(self.branches, 1) :])

    @property
    def load_text(self) -> str:
        """Say where it ends."""
        return ", ".join(end.text for end in self.loads)

    def before(self, lead: Lead) -> Lead | None:
        """Return the lead that one goes on from: the one before, or the stem of a branch."""
        index = self.leads.index(lead)
        stems = len(self.leads) - self.branches if self.branches else len(self.leads)
        previous = min(index, stems) - 1
        return self.leads[previous] if previous >= 0 else None
