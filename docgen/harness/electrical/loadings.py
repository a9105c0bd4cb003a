"""Take the harness and its electricity and return what every wire and contact carries, beside what it may carry."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from docgen.basics.ampacity import derated_a, table_current_a
from docgen.basics.frozen import frozen
from docgen.harness.electrical.cases import Electricity
from docgen.harness.model.airframe import Route
from docgen.harness.model.circuits import Circuit, CutLead, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import ContactPart, WirePart
from docgen.harness.wiring.feeds import Branch, CommonBranch, WireBranch

_CLOSE = 1e-9


@frozen
class WireLoading:
    """A wire of a role, its heat, and its working current [A]."""

    role: str
    kind: WirePart
    heat_c: float | None
    working_a: float

    @property
    def may_a(self) -> float | None:
        """Return what it may carry at its heat [A], or nothing where nothing says it."""
        return may_carry_a(self.kind, self.heat_c)


@frozen
class ContactLoading:
    """A mated contact of a role, of `contacts` that share it alike, and its share of the current [A].

    That is working, briefly, and as long as gear legs can be jammed.
    """

    role: str
    kind: ContactPart
    contacts: int
    working_a: float
    brief_a: float
    lasting_a: float

    @property
    def rating_share(self) -> float:
        """Return how much it uses of what it stands for long; 1 is at the rating."""
        return max(self.working_a, self.lasting_a) / self.kind.rating_a if self.kind.rating_a else 0.0


@frozen
class Loadings:
    """What all wires and contacts that carry the current of circuits carry, as far as that current is known.

    `leads` are by circuit and segment, `own_leads` and `contacts`, which a circuit has alone, by its end there too;
    `tails` by common and half.
    """

    leads: dict[tuple[str, int], list[WireLoading]]
    own_leads: dict[tuple[str, int, int], list[WireLoading]]
    contacts: dict[tuple[str, int, int], list[ContactLoading]]
    commons: dict[CommonBranch, ContactLoading]
    tails: dict[tuple[CommonBranch, int], WireLoading]


def may_carry_a(kind: WirePart, heat_c: float | None) -> float | None:
    """Return what a wire may carry at a heat [A]: its own figure, else that of FAA AC 43.13-1B table 11-9."""
    own = kind.current_a
    if own is None:
        own = table_current_a(kind.gauge.area_mm2, kind.limit_c)
    return None if own is None else derated_a(own, kind.limit_c, heat_c)


def wires_bearing(harness: Harness, circuit: Circuit, roles: Iterable[str]) -> list[tuple[float, WirePart]]:
    """Return what the wires of roles may carry in the heat of each lead and own lead of a circuit [A]."""
    wanted, found = set(roles), list[tuple[float, WirePart]]()
    for lead in circuit.leads:
        laid: list[tuple[WirePart | None, Route]] = [(None, lead.route)] if isinstance(lead, CutLead) else []
        laid += [(end.own.kind, lead.route_of(end.own)) for end in lead.ends if end.own is not None]
        for wire in lead.wires:
            for own, route in laid if wire.role in wanted else ():
                kind = own or wire.kind
                may_a = may_carry_a(kind, harness.hottest_c(route))
                found += [(may_a, kind)] if may_a is not None else []
    return found


def carries(kind: WirePart, heat_c: float | None, working_a: float) -> bool:
    """Tell whether a wire stands a heat and may carry a current in it [A]; nothing is carried by any."""
    return kind.stands(heat_c) and (may_carry_a(kind, heat_c) or 0.0) >= working_a * (1 - _CLOSE)


def loadings_of(harness: Harness, electricity: Electricity) -> Loadings:
    """Return what all wires and contacts of a harness carry."""
    found = Loadings({}, {}, {}, {}, {})
    for circuit in harness.circuits.values():
        for segment, lead in enumerate(circuit.leads):
            _add_lead(found, harness, electricity, circuit, segment)
            for end in lead.passed:
                found.contacts[circuit.name, segment, end] = list(_contacts(electricity, circuit, segment, end))
    for disconnect in harness.disconnects.values():
        for common in disconnect.commons.values():
            branch = CommonBranch(disconnect.name, common.name)
            if branch in electricity.unknown.branches:
                continue
            shell, count = disconnect.shell.contact, len(common.contacts)
            contact = found.commons[branch] = _contact(electricity, branch, common.role, shell, count)
            for half, behind in enumerate(common.halves):
                if behind.tails:
                    kind, heat_c = behind.tails[0].kind, harness.places[behind.half.place].heat_c
                    found.tails[branch, half] = WireLoading(common.role, kind, heat_c, contact.working_a)
    return found


def _add_lead(found: Loadings, harness: Harness, electricity: Electricity, circuit: Circuit, segment: int) -> None:
    """Add the wires of a lead that carry its circuit's current, and those of own leads at its ends."""
    lead = circuit.leads[segment]
    amps = [(wire, electricity.working_a(branch)) for wire, branch in _poles(electricity, circuit, segment)]
    if isinstance(lead, CutLead):
        heat_c = harness.hottest_c(lead.route)
        found.leads[circuit.name, segment] = [WireLoading(wire.role, wire.kind, heat_c, each) for wire, each in amps]
    for number, end in enumerate(lead.ends):
        if end.own is not None:
            kind, heat_c = end.own.kind, harness.hottest_c(lead.route_of(end.own))
            found.own_leads[circuit.name, segment, number] = [
                WireLoading(wire.role, kind or wire.kind, heat_c, each) for wire, each in amps
            ]


def _contacts(electricity: Electricity, circuit: Circuit, segment: int, end: int) -> Iterator[ContactLoading]:
    """Walk the mated contacts at an end of a lead that a circuit has alone and that carry its current."""
    at = circuit.leads[segment].ends[end]
    for wire, branch in _poles(electricity, circuit, segment):
        if wire.role in at.contacts and wire.role not in at.commons:
            yield _contact(electricity, branch, wire.role, at.connector.contact, 1)


def _poles(electricity: Electricity, circuit: Circuit, segment: int) -> list[tuple[Wire, WireBranch]]:
    """Return the wires of a lead that carry its circuit's current; none where that is not known."""
    wires = [wire for role in circuit.poles if (wire := circuit.leads[segment].wire(role)) is not None]
    poles = [(wire, WireBranch(circuit.name, segment, wire.role)) for wire in wires]
    return [pole for pole in poles if pole[1] not in electricity.unknown.branches]


def _contact(electricity: Electricity, branch: Branch, role: str, kind: ContactPart, contacts: int) -> ContactLoading:
    amps = (electricity.working_a(branch), electricity.brief_a(branch), electricity.lasting_a(branch))
    return ContactLoading(role, kind, contacts, *(each / contacts for each in amps))
