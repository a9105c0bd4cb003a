"""Take a harness, its disconnects parted or mated; return its nets: what is joined to what, and by how many ohms.

The harness alone, all equipment unplugged: own leads and packs are no part of it, tails, splices and joints are.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cached_property
from itertools import chain

from docgen.basics.frozen import frozen
from docgen.harness.model.circuits import Lead
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Disconnect

# Stands for no resistance at all, so that a contact without any divides nothing by zero.
_LEAST_OHM = 1e-9


@frozen(slots=True)
class Point:
    """Where a probe can touch: a contact at a port of equipment, or at a half of a disconnect."""

    name: str
    part: str
    contact: str

    @property
    def place(self) -> tuple[str, str]:
        """Return the plug or half that it is a contact of."""
        return self.name, self.part


@frozen(slots=True)
class SplicePoint:
    """Where wires are joined for good and no probe can touch: of a circuit's role, or behind a half of a common."""

    of: tuple[str, ...]


Node = Point | SplicePoint
Connection = tuple[Node, Node, float | None]
"""One conductor between two nodes, and its resistance [ohm] at 20 °C, if its length is known."""


@frozen
class Netlist:
    """All conductors of a harness."""

    connections: tuple[Connection, ...]

    @cached_property
    def joined(self) -> dict[Node, dict[Node, float]]:
        """Return for each node the nodes that it is joined to, and the conductances [S].

        One that is not known is no number, and makes none of all that it has a part in.
        """
        joined: dict[Node, dict[Node, float]] = {}
        for one, other, ohm in self.connections:
            siemens = math.nan if ohm is None else 1 / max(ohm, _LEAST_OHM)
            for near, far in ((one, other), (other, one)):
                ways = joined.setdefault(near, {})
                ways[far] = ways.get(far, 0.0) + siemens
        return joined

    @cached_property
    def nets(self) -> tuple[tuple[Node, ...], ...]:
        """Return the sets of nodes that are connected."""
        found: list[tuple[Node, ...]] = []
        seen: set[Node] = set()
        for node in self.joined:
            if node not in seen:
                found.append(self._reached(node))
                seen.update(found[-1])
        return tuple(found)

    @cached_property
    def net_of(self) -> dict[Node, int]:
        """Return for each node the number of its net."""
        return {node: number for number, net in enumerate(self.nets) for node in net}

    def _reached(self, start: Node) -> tuple[Node, ...]:
        found = {start: None}
        waiting = [start]
        while waiting:
            new = [far for far in self.joined[waiting.pop()] if far not in found]
            found.update(dict.fromkeys(new))
            waiting += new
        return tuple(found)

    def resistance_ohm(self, one: Node, other: Node) -> float | None:
        """Return the resistance between two nodes of one net, all ways between them counted, if it is known.

        Dead ends carry nothing. Every other node is taken out in turn and its neighbours joined as it joined them:
        star to mesh (A. Rosen, 1924, from memory), which at a node between two is their resistances in series.
        """
        ways = {node: dict(self.joined[node]) for node in self.nets[self.net_of[one]]}
        ends = [node for node in ways if len(ways[node]) == 1]
        while ends:
            node = ends.pop()
            if node not in (one, other) and len(ways[node]) == 1:
                (near,) = ways.pop(node)
                del ways[near][node]
                ends.append(near)
        between = [node for node in ways if node not in (one, other)]
        for node in sorted(between, key=lambda n: len(ways[n])):
            star = list(ways.pop(node).items())
            total = sum(siemens for _, siemens in star)
            for i, (near, siemens) in enumerate(star):
                del ways[near][node]
                for far, more in star[i + 1 :]:
                    ways[near][far] = ways[far][near] = ways[near].get(far, 0.0) + siemens * more / total
        siemens = ways[one][other]
        return None if math.isnan(siemens) else 1 / siemens


def netlist_of(harness: Harness, mated: bool) -> Netlist:
    """Return the netlist of all leads that are cut, with disconnects parted or mated."""
    joints = [_contacts(disconnect) for disconnect in harness.disconnects.values() if mated]
    return Netlist((*_wires(harness), *_tails(harness), *chain.from_iterable(joints)))


def _wires(harness: Harness) -> Iterator[Connection]:
    for lead in harness.cut_leads():
        length_mm = lead.cut_length_mm
        for wire in lead.wires:
            ohm = None if length_mm is None else wire.kind.resistance_ohm_per_m * length_mm / 1000
            yield _wire_end(harness, lead, 0, wire.role), _wire_end(harness, lead, 1, wire.role), ohm


def _tails(harness: Harness) -> Iterator[Connection]:
    for disconnect, common, behind in harness.behind_commons():
        splice = SplicePoint((disconnect.name, behind.half.name, common.name))
        for tail in behind.tails:
            ohm = tail.kind.resistance_ohm_per_m * behind.tail_mm / 1000
            yield splice, Point(disconnect.name, behind.half.name, tail.contact), ohm


def _contacts(disconnect: Disconnect) -> Iterator[Connection]:
    """Walk the mated contacts that have a wire behind both halves; the plug on an own lead is unplugged."""
    for contact, use in disconnect.uses.items():
        if len(use.wires) == 2 and not any(half.came_on for half in disconnect.halves):
            near, far = (Point(disconnect.name, half.name, contact) for half in disconnect.halves)
            yield near, far, disconnect.shell.contact.resistance_ohm


def _wire_end(harness: Harness, lead: Lead, index: int, role: str) -> Node:
    """Return where a wire ends: its contact, the splice of a lead that divides, or the one before tails."""
    end = lead.ends[index]
    if end.is_splice:
        return SplicePoint((lead.circuit, role))
    if harness.has_tails(end, role):
        return SplicePoint((end.name, end.part, end.commons[role]))
    return contact_point(lead, index, role)


def contact_point(lead: Lead, index: int, role: str) -> Point:
    """Return the contact at one end of a lead that shows a role to a probe, the first of a common's."""
    end = lead.ends[index]
    return Point(end.name, end.part, end.contacts[role][0])
