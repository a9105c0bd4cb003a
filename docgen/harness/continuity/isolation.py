"""What is rung out: contacts that must not be connected, along each half and each plug."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations

from docgen.harness.continuity.netlist import Netlist, Point, contact_point, netlist_of
from docgen.harness.continuity.ring_out import Pair, chains_of, load_chains, sources
from docgen.harness.model.circuits import Lead
from docgen.harness.model.harness import Disconnect, Harness
from docgen.harness.model.parts import Connector

_Supply = tuple[str, int | None]

PACKS = ("mated", "packs")  # the key of one pack to another, which is at no plug


@dataclass(frozen=True, slots=True)
class Isolation:
    """Pairs of contacts of one plug or half that must not be connected, with all disconnects parted or mated."""

    key: tuple[str, ...]
    assembly: str
    mated: bool
    pairs: tuple[Pair, ...]


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


def isolations(harness: Harness) -> tuple[Isolation, ...]:
    """Return what must not be connected: parted, along each half and plug; then mated, at the loads and packs.

    A pair of nets is listed once, at the first place where it can be probed, halves first.
    """
    parted, mated = netlist_of(harness, mated=False), netlist_of(harness, mated=True)
    chains = [chain for circuit in harness.circuits.values() for chain in chains_of(circuit)]
    leads_at: dict[tuple[str, str], list[tuple[Lead, int]]] = {}
    for lead in harness.cut_leads():
        for index, end in enumerate(lead.ends):
            leads_at.setdefault((end.name, end.part), []).append((lead, index))
    found = []
    seen: set[frozenset[int]] = set()
    for disconnect in harness.disconnects.values():
        for index, half in enumerate(disconnect.halves):
            key = ("parted", disconnect.name, half.name)
            pairs = _half_pairs(harness, disconnect, index, leads_at.get((disconnect.name, half.name), ()))
            found.append(Isolation(key, harness.places[half.place].assembly, False, _once(parted, pairs, seen)))
    for chain in chains:
        for lead, index in ((chain[0], 0), (chain[-1], 1)):
            end = lead.ends[index]
            if end.is_port:
                pairs = _plug_pairs(harness, lead, index)
                key = ("parted", end.name, end.part)
                found.append(Isolation(key, lead.assembly, False, _once(parted, pairs, seen)))
    seen = set()
    for _, chain in load_chains(harness):
        end, pairs = chain[-1].ends[1], _plug_pairs(harness, chain[-1], 1)
        found.append(Isolation(("mated", end.name, end.part), chain[-1].assembly, True, _once(mated, pairs, seen)))
    packs = list(combinations(_pack_points(harness), 2))
    found.append(Isolation(PACKS, "", True, _once(mated, packs, seen)))
    return tuple(group for group in found if group.pairs)


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
    """Return the pairs at one half: neighbours, poles of each lead, one supply to another; in number order."""
    half = disconnect.halves[index]
    place = "half", disconnect.name, half.name
    wired = [contact for contact, use in disconnect.uses.items() if use.wires[index] is not None]
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
    return _pairs_at(place, disconnect.shell, pairs)


def _supply(harness: Harness, point: Point) -> _Supply:
    """Tell supplies apart: regulated outlets of one unit from each other, and from what it passes on."""
    port = next(port for port in harness.equipment[point.name].ports if port.name == point.part)
    return point.name, port.group if port.output is not None else None


def _plug_pairs(harness: Harness, lead: Lead, index: int) -> list[Pair]:
    """Return the pairs at one plug of a lead: neighbours in the row and poles; in number order."""
    end = lead.ends[index]
    wired = {contact for at in end.contacts.values() for contact in at}
    pairs = [pair for pair in neighbours(end.connector) if wired.issuperset(pair)]
    return _pairs_at((end.kind, end.name, end.part), end.connector, pairs + _pole_pairs(harness, lead, index))


def _pole_pairs(harness: Harness, lead: Lead, index: int) -> list[tuple[str, str]]:
    """Return the contacts of each pole of a lead against those of its other wires, the first of a common's."""
    poles = {"positive", "negative", *harness.circuits[lead.circuit].poles}
    contacts = lead.ends[index].contacts
    pairs = combinations((wire.role for wire in lead.wires), 2)
    return [(contacts[one][0], contacts[other][0]) for one, other in pairs if poles & {one, other}]


def _pairs_at(place: tuple[str, str, str], connector: Connector, pairs: Iterable[tuple[str, str]]) -> list[Pair]:
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
        if end.is_port and (end.name, end.part) == (entry.name, port.name)
    ]
