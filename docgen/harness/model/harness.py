"""The harness as built: what is made of which parts, how long, and what goes where. Values only.

Lengths are in mm, and every object keeps the position of what the builder wrote for it. What is only shown as the
builder wrote it is read from its `form`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.basics.findings import Finding
from docgen.definition import equipment as equipment_forms
from docgen.definition import harness as forms
from docgen.definition.aircraft import Aircraft, Flight
from docgen.definition.equipment import Battery, Current, Gear, Output
from docgen.definition.parts import Spool
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead, Wire
from docgen.harness.model.parts import Connector, Place, Route, Run, SleevePart, TubePart, WirePart
from docgen.harness.model.results import Results
from docgen.harness.model.rules import Limits

__all__ = ["Flight", "Output"]  # documents show them too


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
    """What one contact of a disconnect carries, and the wire behind each half (none where nothing is).

    It belongs to a circuit, or to a common; behind a common's half there may be a tail, which has no mark.
    """

    contact: str
    circuit: str
    common: str
    label: str
    wires: tuple[Wire | None, Wire | None]


@dataclass(frozen=True, slots=True)
class Behind:
    """What is behind one half of a common: the wires that arrive, and a tail to each contact.

    Without tails the one wire goes straight into the one contact. Tails are cut to `tail_mm`.
    """

    half: Half
    wires: tuple[tuple[Lead, Wire], ...]
    tails: tuple[Wire, ...]
    tail_mm: float | None


@dataclass(frozen=True, slots=True)
class Common:
    """Contacts of a disconnect that several circuits share for one role; `feeders` bring the supply there.

    `sources` are all equipment that the role comes from, on the supply side.
    """

    name: str
    form: forms.Common
    role: str
    contacts: tuple[str, ...]
    circuits: tuple[str, ...]
    feeders: tuple[str, ...]
    sources: tuple[str, ...]
    halves: tuple[Behind, Behind]


@dataclass(frozen=True, slots=True)
class Disconnect:
    """Where the harness comes apart."""

    name: str
    form: forms.Disconnect
    shell: Connector
    halves: tuple[Half, Half]
    uses: dict[str, ContactUse]
    commons: dict[str, Common]

    def half_at(self, end: End) -> Half:
        """Return the half to which an end of a lead goes."""
        return next(half for half in self.halves if half.name == end.part)

    def behind(self, end: End, role: str) -> Behind | None:
        """Return what is behind the half to which an end goes, where it meets a common there for a role."""
        common = self.commons.get(end.commons.get(role, ""))
        return next((behind for behind in common.halves if behind.half.name == end.part), None) if common else None

    @property
    def spares(self) -> tuple[str, ...]:
        """Return the contacts that nothing uses, in number order."""
        return tuple(contact for contact in self.shell.contacts if contact not in self.uses)


@dataclass(frozen=True, slots=True)
class PortUse:
    """One port of equipment and the circuit plugged in there, if any.

    Ports of one `group` share its rating; `output` is set where they are regulated.
    """

    name: str
    connector: Connector
    gender: str
    group: int
    rating_a: float | None
    output: Output | None
    circuit: Circuit | None
    far: str


@dataclass(frozen=True, slots=True)
class Antenna:
    """One antenna of a receiver; without a `way` no runs lead to its place."""

    name: str
    place: str
    lies: str
    lead_mm: float
    diameter_mm: float
    route: Route | None
    note: str


_SWITCH_OTHERS = (
    "receiver",
    "power switch",
    "power unit",
    "regulator",
    "speed controller",
    "engine unit",
    "gear controller",
    "light controller",
)


@dataclass(frozen=True, slots=True)
class Equipment:
    """Whatever has wires on it."""

    name: str
    form: equipment_forms.Equipment
    kind: str
    place: str
    ports: tuple[PortUse, ...]
    nameless: bool
    output: Output | None
    load: Current | None
    least_v: float | None
    most_v: float | None
    battery: Battery | None
    gear: Gear | None
    antennas: tuple[Antenna, ...]
    isolates: bool
    fed_by: tuple[str, ...]
    mass_g: float | None

    @property
    def has_card(self) -> bool:
        """Tell whether what is plugged in where is worth a card: of named ports, and of all that switches others."""
        return bool(self.ports) and (not self.nameless or self.kind in _SWITCH_OTHERS)


@dataclass(frozen=True, slots=True)
class Sleeve:
    """One piece of protection, over unbroken runs with the same leads, and the places at its two ends."""

    kind: SleevePart
    runs: tuple[int, ...]
    ends: tuple[str, str]
    diameter_mm: float
    covered_mm: float
    shortening: float
    cut_length_mm: float


@dataclass(frozen=True, slots=True)
class Bundle:
    """What lies in one run: leads (by name), own leads (by equipment) and coaxes (by receiver and antenna).

    `flexed_mm` is the least radius where it bends in use, `supported_mm` where it lies held.
    """

    run: int
    leads: tuple[str, ...]
    diameter_mm: float
    flexed_mm: float
    supported_mm: float
    sleeve: Sleeve | None


@dataclass(frozen=True, slots=True)
class AssemblyMass:
    """What leads, sleeves and equipment of an assembly weigh, and their moment about the nose datum.

    `unweighed` names what has no mass said, `unplaced` what has mass but no coordinates, so no moment.
    """

    assembly: str
    leads_g: float
    sleeves_g: float
    equipment_g: float
    moment_g_mm: float
    unweighed: tuple[str, ...]
    unplaced: tuple[str, ...]

    @property
    def mass_g(self) -> float:
        """Return all that weighs in it."""
        return self.leads_g + self.sleeves_g + self.equipment_g


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
    tubes: tuple[TubePart, ...]
    sleeves: tuple[SleevePart, ...]
    wires: tuple[WirePart, ...]
    labels: forms.Labels
    limits: Limits
    spools: tuple[Spool, ...]
    offcut_mm: float
    clip_every_mm: float
    round_up_to_mm: float
    strip_mm: float
    bundles: tuple[Bundle, ...]
    balance: tuple[AssemblyMass, ...]
    results: Results
    findings: tuple[Finding, ...]
    acceptances: dict[tuple[str, str], dict[str, str]]

    def leads(self) -> Iterator[Lead]:
        """Walk all leads in the order written."""
        for circuit in self.circuits.values():
            yield from circuit.leads

    def cut_leads(self) -> Iterator[CutLead]:
        """Walk the leads that are cut, in the order written."""
        for circuit in self.circuits.values():
            yield from circuit.cut_leads

    def behind_commons(self) -> Iterator[tuple[Disconnect, Common, Behind]]:
        """Walk what is behind each half of each common."""
        for disconnect in self.disconnects.values():
            for common in disconnect.commons.values():
                for behind in common.halves:
                    yield disconnect, common, behind

    @property
    def assemblies(self) -> tuple[str, ...]:
        """Return the assemblies in the order in which places name them."""
        return tuple(dict.fromkeys(place.assembly for place in self.places.values()))
