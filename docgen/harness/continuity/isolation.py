"""Take a harness; return what must not be connected: pairs of contacts along each half and each plug."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import combinations

from docgen.basics.frozen import frozen
from docgen.harness.continuity.netlist import Netlist, Point, contact_point, netlist_of
from docgen.harness.continuity.readings import Pair, chains_of, load_chains, sources
from docgen.harness.model.circuits import Circuit, End, Lead, OwnLeads
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Disconnect
from docgen.harness.model.parts import Connector

_Supply = tuple[str, int | None]


@frozen(slots=True)
class Isolation:
    """Pairs of contacts of one plug or half that must not be connected."""

    assembly: str
    pairs: tuple[Pair, ...]

    @property
    def place(self) -> tuple[str, str]:
        """Return the plug or half that they are contacts of."""
        return self.pairs[0][0].place


@frozen(slots=True)
class Isolations:
    """All that must not be connected: with disconnects parted, then mated; and mated one pack to another."""

    parted: tuple[Isolation, ...]
    mated: tuple[Isolation, ...]
    packs: tuple[Pair, ...]


def neighbours(connector: Connector) -> tuple[tuple[str, str], ...]:
    """Return the contacts that lie side by side, in number order.

    No third contact lies in or on the circle that has them at its ends (Gabriel and Sokal, 1969, from memory):
    in a row and across rows those at one pitch, in staggered rows the slanting ones too, never over a corner.
    """
    return _side_by_side(tuple((contact, connector.at_mm[contact]) for contact in connector.contacts))


@cache
def _side_by_side(contacts: tuple[tuple[str, tuple[float, float]], ...]) -> tuple[tuple[str, str], ...]:
    found = []
    for (one, at), (other, goal) in combinations(contacts, 2):
        across = math.dist(at, goal) ** 2
        thirds = (third for name, third in contacts if name not in (one, other))
        if all(math.dist(at, third) ** 2 + math.dist(goal, third) ** 2 > across + 1e-6 for third in thirds):
            found.append((one, other))
    return tuple(found)


def isolations(harness: Harness) -> Isolations:
    """Return what must not be connected: parted, along each half and plug; then mated, at the loads and packs.

    A pair of nets is listed once, at the first place where it can be probed, halves first.
    """
    netlist = netlist_of(harness, mated=True)
    seen: set[frozenset[int]] = set()
    loads = [
        Isolation(chain[-1].assembly, _once(netlist, _plug_pairs(harness, chain[-1], 1), seen))
        for _, chain in load_chains(harness)
    ]
    packs = _once(netlist, combinations(_pack_points(harness), 2), seen)
    return Isolations(tuple(_parted(harness)), tuple(group for group in loads if group.pairs), packs)


def _parted(harness: Harness) -> Iterator[Isolation]:
    """Walk the halves, then the plugs, that have a pair not listed before."""
    netlist = netlist_of(harness, mated=False)
    seen: set[frozenset[int]] = set()
    leads_at: dict[tuple[str, str], list[tuple[Lead, int]]] = defaultdict(list)
    for lead in harness.cut_leads():
        for index, end in enumerate(lead.ends):
            leads_at[end.name, end.part].append((lead, index))
    for disconnect in harness.disconnects.values():
        for index, half in enumerate(disconnect.halves):
            if half.came_on:
                continue
            pairs = _once(netlist, _half_pairs(harness, disconnect, index, leads_at[disconnect.name, half.name]), seen)
            if pairs:
                yield Isolation(harness.places[half.place].assembly, pairs)
    for chain in (chain for circuit in harness.circuits.values() for chain in chains_of(circuit)):
        for lead, index in ((chain[0], 0), (chain[-1], 1)):
            pairs = _once(netlist, _plug_pairs(harness, lead, index), seen) if lead.ends[index].is_port else ()
            if pairs:
                yield Isolation(lead.assembly, pairs)


def _once(netlist: Netlist, pairs: Iterable[Pair], seen: set[frozenset[int]]) -> tuple[Pair, ...]:
    """Return the pairs of different nets that were not seen before."""
    kept = []
    for one, other in pairs:
        nets = frozenset((netlist.net_of[one], netlist.net_of[other]))
        if len(nets) > 1 and nets not in seen:
            seen.add(nets)
            kept.append((one, other))
    return tuple(kept)


def _half_pairs(harness: Harness, disconnect: Disconnect, index: int, leads: Sequence[tuple[Lead, int]]) -> list[Pair]:
    """Return the pairs at one half, in number order.

    Supplies are held against each other, contact by contact, and the poles of a lead against its other wires; across
    leads of one supply neighbours alone.
    """
    half = disconnect.halves[index]
    wired = [contact for contact, use in disconnect.uses.items() if half.name in use.wires]
    pairs = [pair for pair in neighbours(disconnect.shell) if pair[0] in wired and pair[1] in wired]
    supplied: dict[str, frozenset[_Supply]] = {}
    for lead, at in leads:
        pairs += _pole_pairs(harness, lead, at)
        for role in harness.circuits[lead.circuit].poles[:1]:
            if lead.wire(role) is not None:
                come_from = {_supply(harness, source.point) for source in sources(harness, lead, role)}
                contact = lead.ends[at].contacts[role][0]
                supplied[contact] = supplied.get(contact, frozenset()) | come_from
    pairs += [pair for pair in combinations(supplied, 2) if supplied[pair[0]] != supplied[pair[1]]]
    return _pairs_at((disconnect.name, half.name), disconnect.shell, pairs)


def _supply(harness: Harness, point: Point) -> _Supply:
    """Tell supplies apart: regulated outlets of one unit from each other, and from what it passes on.

    One that comes over the plug on an own lead is known by that joint.
    """
    if point.name not in harness.equipment:
        return point.name, None
    port = next(port for port in harness.equipment[point.name].ports if port.name == point.part)
    return point.name, port.group if port.output is not None else None


def _plug_pairs(harness: Harness, lead: Lead, index: int) -> list[Pair]:
    """Return the pairs at one plug of a lead: neighbours in the row and poles; in number order."""
    end = lead.ends[index]
    wired = {contact for at in end.contacts.values() for contact in at}
    pairs = [pair for pair in neighbours(end.connector) if wired.issuperset(pair)]
    return _pairs_at((end.name, end.part), end.connector, pairs + _pole_pairs(harness, lead, index))


def _pole_pairs(harness: Harness, lead: Lead, index: int) -> list[tuple[str, str]]:
    """Return the contacts of each pole of a lead against those of its other wires, the first of a common's."""
    poles = {"positive", "negative", *harness.circuits[lead.circuit].poles}
    contacts = lead.ends[index].contacts
    pairs = combinations((wire.role for wire in lead.wires), 2)
    return [(contacts[one][0], contacts[other][0]) for one, other in pairs if poles & {one, other}]


def _pairs_at(place: tuple[str, str], connector: Connector, pairs: Iterable[tuple[str, str]]) -> list[Pair]:
    number = {contact: i for i, contact in enumerate(connector.contacts)}
    ordered = {tuple(sorted((number[one], number[other]))) for one, other in pairs}
    names = connector.contacts
    return [(Point(*place, names[one]), Point(*place, names[other])) for one, other in sorted(ordered)]


def _pack_points(harness: Harness) -> list[Point]:
    """Return the contact that takes the supply of each pack, at the plug that the harness has for it."""
    packs = [(entry, port) for entry in harness.equipment.values() if entry.battery for port in entry.ports]
    return [
        contact_point(lead, index, role)
        for entry, port in packs
        if port.circuit is not None
        for role in port.circuit.poles[:1]
        for lead in port.circuit.cut_leads
        for index, end in enumerate(lead.ends)
        if _is_behind(port.circuit, lead, end, (entry.name, port.name))
    ]


def _is_behind(circuit: Circuit, lead: Lead, end: End, port: tuple[str, str]) -> bool:
    """Tell whether an end of a lead takes what a port gives: it plugs in there, or goes on from the lead that came on.

    Packs feed, so what came on them begins its circuit.
    """
    if end.is_port:
        return (end.name, end.part) == port
    before = circuit.before(lead)
    return end is lead.ends[0] and isinstance(before, OwnLeads) and (circuit.start.name, circuit.start.part) == port
