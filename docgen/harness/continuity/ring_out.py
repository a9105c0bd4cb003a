"""What is rung out: contacts that must show continuity, and what 1 A drops between them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.harness.continuity.netlist import Netlist, Point, contact_point, netlist_of
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead
from docgen.harness.model.harness import Disconnect, Harness

Pair = tuple[Point, Point]
Chain = tuple[CutLead, ...]

TEST_A = 1.0
# What a reading may be over the expected, and how far like wires may differ: common practice, no source.
OVER_MV, OVER_HEAVY_MV, HEAVY_A = 10.0, 5.0, 10.0
ALIKE_MV = 5.0


@dataclass(frozen=True, slots=True)
class Reading:
    """Two contacts that must show continuity, what 1 A drops between them [mV], and the reading that is too much.

    `leads` are those between the probes, or for a whole path all of its circuit; none for the tails of a common.
    A whole path has no assembly.
    """

    key: tuple[str, ...]
    assembly: str
    leads: Chain
    role: str
    start: Point
    goal: Point
    expected_mv: float
    too_much_mv: float

    @property
    def marks(self) -> tuple[str, ...]:
        """Return the marks of the wires passed in its leads."""
        return tuple(wire.mark for lead in self.leads if (wire := lead.wire(self.role)) is not None)


@dataclass(frozen=True, slots=True)
class Source:
    """A contact that a wire's netlist comes from, and the least rating of the contacts from there on [A]."""

    point: Point
    rating_a: float


def lead_readings(harness: Harness) -> tuple[Reading, ...]:
    """Return what each wire of each cut lead shows with all disconnects parted, then the tails of commons.

    A lead that divides is rung out over its splice, and a wire that ends at a common to the first of its contacts.
    """
    netlist = netlist_of(harness, mated=False)
    readings = []
    for circuit in harness.circuits.values():
        for chain in chains_of(circuit):
            first, last = chain[0], chain[-1]
            rating_a = min(_rating_a(first.ends[0]), _rating_a(last.ends[1]))
            for wire in last.wires:
                key = ("lead", circuit.name, "+".join(lead.segment for lead in chain), wire.role)
                ends = contact_point(first, 0, wire.role), contact_point(last, 1, wire.role)
                readings.append(
                    Reading(key, last.assembly, chain, wire.role, *ends, *_drops_mv(netlist, ends, rating_a))
                )
    for disconnect in harness.disconnects.values():
        readings += _tail_readings(harness, netlist, disconnect)
    return tuple(readings)


def _tail_readings(harness: Harness, netlist: Netlist, disconnect: Disconnect) -> Iterator[Reading]:
    """Walk the tails behind each half: from the first contact to each of the others, over the splice."""
    for common in disconnect.commons.values():
        for behind in common.halves:
            half = behind.half
            points = [Point("half", disconnect.name, half.name, tail.contacts[1][0]) for tail in behind.tails]
            for point in points[1:]:
                key = ("tails", disconnect.name, half.name, common.name, point.contact)
                drops = _drops_mv(netlist, (points[0], point), disconnect.shell.contact.rating_a)
                yield Reading(key, harness.places[half.place].assembly, (), common.role, points[0], point, *drops)


def path_readings(harness: Harness) -> tuple[Reading, ...]:
    """Return what each wire of each load behind a disconnect shows with all mated, from each plug it comes from."""
    netlist = netlist_of(harness, mated=True)
    readings = []
    for circuit, chain in load_chains(harness):
        last = chain[-1]
        for wire in last.wires:
            goal = contact_point(last, 1, wire.role)
            for source in sources(harness, last, wire.role):
                key = ("path", circuit.name, last.segment, wire.role, source.point.name, source.point.part)
                rating_a = min(source.rating_a, _rating_a(last.ends[1]))
                ends = source.point, goal
                drops = _drops_mv(netlist, ends, rating_a)
                readings.append(Reading(key, "", _way(circuit, last), wire.role, *ends, *drops))
    return tuple(readings)


def _drops_mv(netlist: Netlist, ends: Pair, rating_a: float) -> tuple[float, float]:
    """Return what 1 A drops between two contacts, and what is too much: less over where all contacts are heavy."""
    expected_mv = 1000 * TEST_A * netlist.resistance_ohm(*ends)
    return expected_mv, expected_mv + (OVER_HEAVY_MV if rating_a >= HEAVY_A else OVER_MV)


def chains_of(circuit: Circuit) -> list[Chain]:
    """Return the leads between two probes: each alone, those of a splice as stem and branch."""
    chains: list[Chain] = []
    for lead in circuit.cut_leads:
        before = circuit.before(lead)
        if lead.ends[1].is_splice:
            continue
        chains.append((before, lead) if lead.ends[0].is_splice and before is not None else (lead,))
    return chains


def _way(circuit: Circuit, last: CutLead) -> Chain:
    """Return the leads of a circuit up to one."""
    path: list[CutLead] = []
    lead: CutLead | None = last
    while lead is not None:
        path.insert(0, lead)
        lead = circuit.before(lead)
    return tuple(path)


def load_chains(harness: Harness) -> Iterator[tuple[Circuit, Chain]]:
    """Walk the last leads, up to the load, of all circuits that come over a disconnect."""
    for circuit in harness.circuits.values():
        for chain in chains_of(circuit):
            if chain[0].ends[0].kind == "half" and chain[-1].ends[1].is_port:
                yield circuit, chain


def _rating_a(end: End) -> float:
    return math.inf if end.is_splice else end.connector.contact.rating_a


def sources(
    harness: Harness, lead: Lead, role: str, seen: frozenset[tuple[str, str]] = frozenset()
) -> tuple[Source, ...]:
    """Return the contacts that a wire comes from: its circuit's own, and those of heavy pairs met at commons.

    Where a circuit brings no wire of its own to a common, it comes from whatever feeds that.
    """
    start = lead.ends[0]
    if start.is_port:
        return (Source(contact_point(lead, 0, role), _rating_a(start)),)
    before = harness.circuits[lead.circuit].before(lead)
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
    """Return the leads between two probes of the left that the right has again: of the same parts, cut alike."""
    by_name = {chain_name(chain): chain for circuit in harness.circuits.values() for chain in chains_of(circuit)}
    pairs = [(chain, by_name.get(name.replace("left", "right"))) for name, chain in by_name.items() if "left" in name]
    return tuple((left, right) for left, right in pairs if right is not None and _cuts(left) == _cuts(right))


def chain_name(chain: Chain) -> str:
    """Say which leads lie between two probes: circuit and segments."""
    return f"{chain[0].circuit} {'+'.join(lead.segment for lead in chain)}"


def _cuts(chain: Chain) -> list[tuple[str, float]]:
    return [(lead.part.name, lead.cut_length_mm) for lead in chain]
