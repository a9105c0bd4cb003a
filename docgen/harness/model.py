"""The harness as built: what is made of which parts, how long, and what goes where. Values only.

Lengths are in mm, and every object keeps the position of what the builder wrote for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.basics.findings import Finding, Position, Said
from docgen.harness.kinds import Connector, Place, Route, Run, TubeKind, WireKind


@dataclass(frozen=True, slots=True)
class End:
    """Where one end of a lead plugs in: a port of equipment, or a half of a disconnect.

    `gender` is what the lead's own half carries; `contacts` are its contacts by role; `colours` are those of
    the wires in the hand beyond it, where equipment came with a lead of other colours.
    """

    name: str
    part: str
    is_port: bool
    place: str
    connector: Connector
    gender: str
    contacts: dict[str, str]
    colours: dict[str, str]
    own_lead_mm: float | None
    said: Said

    @property
    def text(self) -> str:
        """Say it: `receiver 1`, `rudder`, `left-root`."""
        return f"{self.name} {self.part}".strip() if self.is_port else self.name


@dataclass(frozen=True, slots=True)
class Wire:
    """One conductor of a lead, and the contacts at its two ends (nothing where none is fitted)."""

    role: str
    kind: WireKind
    colour: str
    mark: str
    contacts: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Lead:
    """The piece of a circuit between two terminations; own leads plugged straight in have no cut length."""

    circuit: str
    label: Said
    segment: str
    part: str
    wires: tuple[Wire, ...]
    ends: tuple[End, End]
    route: Route
    cut_length_mm: float | None
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


@dataclass(frozen=True, slots=True)
class Circuit:
    """One function wired from supply side to load."""

    name: str
    label: Said
    leads: tuple[Lead, ...]
    channel: int | None
    throw: Said
    failsafe: str | None
    carries_supply: bool
    note: Said
    position: Position

    @property
    def start(self) -> End:
        """Return the end where the supply comes from."""
        return self.leads[0].ends[0]

    @property
    def load(self) -> End:
        """Return the end at the load."""
        return self.leads[-1].ends[1]


@dataclass(frozen=True, slots=True)
class Half:
    """One half of a disconnect."""

    name: str
    place: str
    gender: str
    fixed: bool
    reach_mm: float
    key: str | None


@dataclass(frozen=True, slots=True)
class ContactUse:
    """What one contact of a disconnect carries, and the lead and wire behind each half."""

    contact: str
    circuit: str
    label: Said
    leads: tuple[Lead, Lead]
    wires: tuple[Wire, Wire]


@dataclass(frozen=True, slots=True)
class Disconnect:
    """Where the harness comes apart."""

    name: str
    shell: Connector
    halves: tuple[Half, Half]
    uses: dict[str, ContactUse]
    keyed: str
    note: Said
    said: Said

    @property
    def spares(self) -> tuple[str, ...]:
        """Return the contacts that nothing uses, in number order."""
        return tuple(contact for contact in self.shell.contacts if contact not in self.uses)


@dataclass(frozen=True, slots=True)
class PortUse:
    """One port of equipment and the circuit plugged in there, if any."""

    name: str
    connector: Connector
    gender: str
    rating_a: float | None
    circuit: Circuit | None
    far: str


@dataclass(frozen=True, slots=True)
class Battery:
    """A pack's figures."""

    cells: int
    capacity_mah: float
    full_v: float
    empty_v: float
    resistance_ohm: float | None
    rating_a: float | None


@dataclass(frozen=True, slots=True)
class Gear:
    """Strokes of a gear leg and what its controller is set to."""

    up_s: float | None
    down_s: float | None
    limit_s: float | None
    stop_a: float | None


@dataclass(frozen=True, slots=True)
class Antenna:
    """One antenna of a receiver."""

    name: Said
    place: str
    lies: str
    lead_mm: float
    diameter_mm: float
    note: str


@dataclass(frozen=True, slots=True)
class Load:
    """What equipment draws [A] and how long of a flight it works [s]; what is unsaid is nothing."""

    idle_a: float | None
    working_a: float | None
    stall_a: float | None
    runs_s: float | None


@dataclass(frozen=True, slots=True)
class Equipment:
    """Whatever has wires on it."""

    name: str
    kind: str
    place: str
    ports: tuple[PortUse, ...]
    nameless: bool
    load: Load | None
    least_v: float | None
    most_v: float | None
    battery: Battery | None
    gear: Gear | None
    antennas: tuple[Antenna, ...]
    isolates: bool
    fed_by: tuple[str, ...]
    mass_g: float | None
    on: Said
    off: Said
    note: Said
    said: Said


@dataclass(frozen=True, slots=True)
class Aircraft:
    """What the aircraft is and the state that the paper shows."""

    name: Said
    description: Said
    marks: Said
    revision: Said
    date: str
    record: str | None
    contact: Said
    note: Said


@dataclass(frozen=True, slots=True)
class Flight:
    """How long a flight is and what is to be left of the charge."""

    time_s: float
    reserve: float
    flights: int
    ground_s: float
    note: str


@dataclass(frozen=True, slots=True)
class LabelRules:
    """How labels are fitted and read."""

    fit: str
    each: str
    least_type_mm: float
    behind_plug_mm: float


@dataclass(frozen=True)
class Harness:
    """Everything that documents show."""

    aircraft: Aircraft
    flight: Flight | None
    places: dict[str, Place]
    runs: tuple[Run, ...]
    equipment: dict[str, Equipment]
    disconnects: dict[str, Disconnect]
    circuits: dict[str, Circuit]
    tubes: tuple[TubeKind, ...]
    labels: LabelRules
    round_up_to_mm: float
    findings: tuple[Finding, ...]
    acceptances: dict[tuple[str, str], dict[str, str]]

    def leads(self) -> Iterator[Lead]:
        """Walk all leads in the order written."""
        for circuit in self.circuits.values():
            yield from circuit.leads

    @property
    def assemblies(self) -> tuple[str, ...]:
        """Return the assemblies in the order in which places name them."""
        return tuple(dict.fromkeys(place.assembly for place in self.places.values()))
