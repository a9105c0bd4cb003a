"""What is wired: ends, wires, leads and circuits as built. Values only; lengths are in mm."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from docgen.basics.findings import Position
from docgen.basics.frozen import frozen
from docgen.basics.units import added
from docgen.definition import harness as forms
from docgen.definition.parts import LeadPart
from docgen.harness.model.airframe import Route
from docgen.harness.model.parts import Connector, WirePart


def numbered(name: str, what: str, number: str) -> str:
    """Write a name and a number of it, and what is numbered where two figures would meet: `unit-2 port 1`."""
    words = [name, what, number] if name[-1:].isdigit() and number[:1].isdigit() else [name, number]
    return " ".join(words).strip()


@frozen(slots=True)
class OwnLead:
    """The lead that equipment came with, and its route from the equipment to where its plug lies.

    Its length may not be known. Without a `kind` it is taken as of the circuit's wire; `assumed` is one that the
    builder did not say. `colours` are those that differ from the harness, by role.
    """

    length_mm: float | None
    kind: WirePart | None
    assumed: bool
    colours: dict[str, str]
    route: Route


@frozen(slots=True)
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


def ends_text(ends: Iterable[End]) -> str:
    """Say several ends."""
    return ", ".join(end.text for end in ends)


@frozen(slots=True)
class Wire:
    """One conductor of a lead; the contacts that it goes to are known by its role at the lead's ends."""

    role: str
    kind: WirePart
    colour: str
    mark: str


@frozen(slots=True)
class _Lead:
    """The piece of a circuit between two terminations.

    `free_mm` is what lies coiled or hangs free at each end, beside its route, if that is known. Ends are told by 0
    and 1.
    """

    circuit: str
    label: str
    segment: str
    wires: tuple[Wire, ...]
    ends: tuple[End, End]
    route: Route
    free_mm: tuple[float | None, float | None]
    assembly: str
    position: Position

    @property
    def name(self) -> str:
        """Say which lead it is: circuit and segment."""
        return f"{self.circuit} {self.segment}"

    def wire(self, role: str) -> Wire | None:
        """Return its wire of a role, if it has one."""
        return next((wire for wire in self.wires if wire.role == role), None)

    def mates_at(self, end: End) -> bool:
        """Tell whether its wires meet contacts at an end."""
        return not end.is_splice

    def route_of(self, own: OwnLead) -> Route:
        """Return the route on which an own lead at an end lies: to its plug, or straight into the other end's."""
        return own.route if isinstance(self, CutLead) else self.route


@frozen(slots=True)
class CutLead(_Lead):
    """A lead that is made, as long as is needed or a little longer; a `pinned` one is as long as the builder says.

    What is needed is not known where its route is not; then only a pinned one can be cut.
    """

    part: LeadPart
    needed_length_mm: float | None
    cut_length_mm: float | None
    pinned: bool

    @property
    def length_mm(self) -> float | None:
        """Return what it is cut to, if that is known."""
        return self.cut_length_mm

    @property
    def made_of(self) -> str:
        """Return what is written for it at `lead`."""
        return self.part.name

    @property
    def plugs_at(self) -> tuple[int, ...]:
        """Return the ends at which a plug of its wires lies, with a label behind it: a splice has none."""
        return tuple(index for index in (0, 1) if not self.ends[index].is_splice)

    @property
    def passed(self) -> tuple[int, ...]:
        """Return the ends whose contacts count with it: those of ports, and of the joint where it begins."""
        return tuple(index for index in self.plugs_at if index == 0 or self.ends[index].is_port)


@frozen(slots=True)
class OwnLeads(_Lead):
    """What came on the equipment: where one port plugs straight into another, or up to a joint of plugs."""

    @property
    def length_mm(self) -> float | None:
        """Return how long they are together, if that is known."""
        return added(end.own.length_mm for end in self.ends if end.own is not None)

    @property
    def plugs_at(self) -> tuple[int, ...]:
        """Return the ends that are plugged into: an own lead hangs on its equipment, its plug lies at the other end."""
        return tuple(1 - index for index in (0, 1) if self.ends[index].own is not None)

    @property
    def passed(self) -> tuple[int, ...]:
        """Return the one pair of contacts that mates: at a joint where it ends, it counts with what goes on there."""
        return (0,) if self.ends[1].is_port else ()

    def mates_at(self, end: End) -> bool:
        """Tell whether its wires meet contacts at an end: what goes to a joint comes out of its equipment."""
        return self.joint in (None, end)

    @property
    def joint(self) -> End | None:
        """Return its end at a joint, if its plug is a half of one."""
        return next((end for end in self.ends if end.kind == "half"), None)

    @property
    def made_of(self) -> str:
        """Return what is written for it at `lead`."""
        return forms.OWN


Lead = CutLead | OwnLeads


@frozen(slots=True)
class Circuit:
    """One function wired from supply side to load.

    `poles` are the roles that carry its current out and back, none where it carries no supply; `numbers` are letter
    and number of its marks by role; `form` is what the builder wrote, for what is shown as it stands there.
    """

    name: str
    form: forms.Circuit
    label: str
    leads: tuple[Lead, ...]
    poles: tuple[str, ...]
    numbers: dict[str, str]
    position: Position

    @property
    def start(self) -> End:
        """Return the end where the supply comes from."""
        return self.leads[0].ends[0]

    @property
    def loads(self) -> tuple[End, ...]:
        """Return the end at the load; several behind a splice."""
        return tuple(self.leads[number].ends[1] for number in self.form.last)

    @property
    def load_text(self) -> str:
        """Say where it ends."""
        return ends_text(self.loads)

    @property
    def cut_leads(self) -> tuple[CutLead, ...]:
        """Return the leads that are cut: all but those that came along."""
        return tuple(lead for lead in self.leads if isinstance(lead, CutLead))

    def before(self, lead: Lead) -> Lead | None:
        """Return the lead that one goes on from: the one before, or the stem of a branch."""
        before = self.form.before(self.leads.index(lead))
        return self.leads[before] if before >= 0 else None

    def cut_before(self, lead: Lead) -> CutLead | None:
        """Return the lead that one goes on from, if it is cut."""
        before = self.before(lead)
        return before if isinstance(before, CutLead) else None
