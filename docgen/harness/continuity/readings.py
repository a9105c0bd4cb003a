"""Take a harness; return what is rung out: contacts that must show continuity, and what 1 A drops between them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.basics.frozen import frozen
from docgen.harness.continuity.netlist import Netlist, Point, contact_point, netlist_of
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead, OwnLeads
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Behind, Common, Disconnect

Pair = tuple[Point, Point]
Chain = tuple[CutLead, ...]

TEST_A = 1.0
# What a reading may be over the expected, and how far like wires may differ: common practice, no source.
OVER_MV, OVER_HEAVY_MV, HEAVY_A = 10.0, 5.0, 10.0
ALIKE_MV = 5.0


@frozen(slots=True)
class Reading:
    """Two contacts that must show continuity, what 1 A drops between them [mV], and the reading that is too much.

    Where a length is not known, neither is.
    """

    role: str
    start: Point
    goal: Point
    expected_mv: float | None
    too_much_mv: float | None


@frozen(slots=True)
class SharedReading(Reading):
    """One that other contacts of the plugs or halves at its ends ring to as well: they are `too` on the same common."""

    too: tuple[Point, ...]


@frozen(slots=True)
class LeadReadings:
    """What the wires of the leads between two probes show; for a whole path of all leads up to the load."""

    leads: Chain
    readings: tuple[Reading, ...]

    def marks(self, role: str) -> tuple[str, ...]:
        """Return the marks of the wires of a role that are passed."""
        return tuple(wire.mark for lead in self.leads if (wire := lead.wire(role)) is not None)


@frozen(slots=True)
class TailReadings:
    """What the tails of a common show behind one half, from the first contact to each of the others."""

    assembly: str
    common: Common
    readings: tuple[Reading, ...]


@frozen(slots=True)
class Source:
    """A contact that a net comes from, and the least rating of the contacts from there on [A]."""

    point: Point
    rating_a: float


def lead_readings(harness: Harness) -> tuple[LeadReadings, ...]:
    """Return what each wire of each cut lead shows with all disconnects parted.

    A lead that divides is rung out over its splice, and a wire that ends at a common to the first of its contacts.
    """
    netlist = netlist_of(harness, mated=False)
    return tuple(
        LeadReadings(chain, tuple(_of_chain(netlist, chain, wire.role) for wire in chain[-1].wires))
        for circuit in harness.circuits.values()
        for chain in chains_of(circuit)
        if harness.only in ("", chain[-1].assembly)
    )


def _of_chain(netlist: Netlist, chain: Chain, role: str) -> Reading:
    ends = contact_point(chain[0], 0, role), contact_point(chain[-1], 1, role)
    return _reading(netlist, role, ends, min(_rating_a(chain[0].ends[0]), _rating_a(chain[-1].ends[1])))


def tail_readings(harness: Harness) -> tuple[TailReadings, ...]:
    """Return what the tails of commons show with all disconnects parted: each over the splice behind its half."""
    netlist = netlist_of(harness, mated=False)
    return tuple(
        TailReadings(harness.places[behind.half.place].assembly, common, _of_tails(netlist, disconnect, common, behind))
        for disconnect, common, behind in harness.behind_commons()
    )


def _of_tails(netlist: Netlist, disconnect: Disconnect, common: Common, behind: Behind) -> tuple[Reading, ...]:
    points = [Point(disconnect.name, behind.half.name, tail.contact) for tail in behind.tails]
    rating_a = disconnect.shell.contact.rating_a
    return tuple(_reading(netlist, common.role, (points[0], point), rating_a) for point in points[1:])


def path_readings(harness: Harness) -> tuple[LeadReadings, ...]:
    """Return what each wire of each load behind a disconnect shows with all mated, from each plug it comes from."""
    netlist = netlist_of(harness, mated=True)
    found = []
    for circuit, chain in load_chains(harness):
        last = chain[-1]
        readings = [
            _reading(
                netlist,
                wire.role,
                (source.point, contact_point(last, 1, wire.role)),
                min(source.rating_a, _rating_a(last.ends[1])),
            )
            for wire in last.wires
            for source in sources(harness, last, wire.role)
        ]
        found.append(LeadReadings(_up_to(circuit, last), tuple(readings)))
    return tuple(found)


def _reading(netlist: Netlist, role: str, ends: Pair, rating_a: float) -> Reading:
    """Return what 1 A drops between two contacts, and what is too much.

    That is less over where every contact passed, the probed ones included, bears `HEAVY_A` or more.
    """
    ohm = netlist.resistance_ohm(*ends)
    expected_mv = None if ohm is None else 1000 * TEST_A * ohm
    over_mv = OVER_HEAVY_MV if rating_a >= HEAVY_A else OVER_MV
    too_much_mv = None if expected_mv is None else expected_mv + over_mv
    net = netlist.nets[netlist.net_of[ends[0]]]
    places = {end.place for end in ends}
    too = tuple(node for node in net if isinstance(node, Point) and node.place in places and node not in ends)
    if too:
        return SharedReading(role, *ends, expected_mv, too_much_mv, too)
    return Reading(role, *ends, expected_mv, too_much_mv)


def chains_of(circuit: Circuit) -> list[Chain]:
    """Return the leads between two probes: each alone, those of a splice as stem and branch."""
    chains: list[Chain] = []
    for lead in circuit.cut_leads:
        before = circuit.cut_before(lead)
        if lead.ends[1].is_splice:
            continue
        chains.append((before, lead) if lead.ends[0].is_splice and before is not None else (lead,))
    return chains


def _up_to(circuit: Circuit, last: CutLead) -> Chain:
    """Return the leads of a circuit up to one."""
    path: list[CutLead] = []
    lead: CutLead | None = last
    while lead is not None:
        path.insert(0, lead)
        lead = circuit.cut_before(lead)
    return tuple(path)


def load_chains(harness: Harness) -> Iterator[tuple[Circuit, Chain]]:
    """Walk the last leads, up to the load, of all circuits that come over a disconnect from another lead that is cut.

    Where the plug on the load's own lead is a half, they end at the other half, and that plug is out.
    """
    for circuit in harness.circuits.values():
        for chain in chains_of(circuit):
            if chain[0].ends[0].kind == "half" and _is_last(circuit, chain[-1]) and not _begins(circuit, chain[0]):
                yield circuit, chain


def _is_last(circuit: Circuit, lead: CutLead) -> bool:
    """Tell whether nothing that is cut of a circuit goes on from a lead: it ends at the load, or before its plug."""
    return lead.ends[1].is_port or any(
        isinstance(each, OwnLeads) and circuit.before(each) is lead for each in circuit.leads
    )


def _begins(circuit: Circuit, lead: Lead) -> bool:
    """Tell whether what is cut of a circuit begins with a lead: at equipment, or at a plug that came along."""
    return lead.ends[0].is_port or isinstance(circuit.before(lead), OwnLeads)


def _rating_a(end: End) -> float:
    return math.inf if end.is_splice else end.connector.contact.rating_a


def sources(
    harness: Harness, lead: Lead, role: str, seen: frozenset[tuple[str, str]] = frozenset()
) -> tuple[Source, ...]:
    """Return the contacts that a wire comes from: its circuit's own, and those of heavy pairs met at commons.

    Where a circuit brings no wire of its own to a common, it comes from whatever feeds that.
    """
    start = lead.ends[0]
    circuit = harness.circuits[lead.circuit]
    if _begins(circuit, lead):
        return (Source(contact_point(lead, 0, role), _rating_a(start)),)
    before = circuit.cut_before(lead)
    paths = [before] if before is not None and before.wire(role) is not None else []
    common = start.name, start.commons.get(role, "")
    if common[1] and common not in seen:
        paths += _feeding(harness, common, role, heavy_only=bool(paths))
    found = {
        source.point: Source(source.point, min(source.rating_a, _rating_a(start)))
        for path in paths
        for source in sources(harness, path, role, seen | {common})
    }
    return tuple(found.values())


def _feeding(harness: Harness, common: tuple[str, str], role: str, heavy_only: bool) -> list[CutLead]:
    """Return the leads that feed a common; heavy ones end there."""
    feeders = harness.disconnects[common[0]].commons[common[1]].feeders
    leads = [(lead, harness.circuits[name].leads[-1]) for name in feeders for lead in harness.circuits[name].cut_leads]
    return [
        lead
        for lead, last in leads
        if lead.ends[1].commons.get(role) == common[1]
        and lead.ends[1].name == common[0]
        and (lead is last or not heavy_only)
    ]


def mirror_chains(harness: Harness) -> tuple[tuple[Chain, Chain], ...]:
    """Return the leads between two probes of the left that the right has again: of the same parts, known cut alike."""
    found = []
    for circuit in harness.circuits.values():
        mirror = harness.circuits.get(circuit.name.replace("left", "right"))
        if mirror is not None and mirror is not circuit:
            measured = (chain for chain in chains_of(mirror) if all(lead.cut_length_mm is not None for lead in chain))
            rights = {_made(chain): chain for chain in measured}
            found += [(chain, rights[_made(chain)]) for chain in chains_of(circuit) if _made(chain) in rights]
    return tuple(both for both in found if all(harness.only in ("", chain[-1].assembly) for chain in both))


def _made(chain: Chain) -> tuple[tuple[str, str, float | None], ...]:
    """Return how the leads between two probes are made: each its segment, part and cut length."""
    return tuple((lead.segment, lead.part.name, lead.cut_length_mm) for lead in chain)
