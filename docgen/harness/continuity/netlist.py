"""The harness as netlist: which contacts are joined to which, its disconnects parted or mated, and by how many ohms.

The harness alone, all equipment unplugged: own leads and packs are no part of it, tails, splices and joints are.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from docgen.harness.model.circuits import Lead
from docgen.harness.model.harness import Disconnect, Harness

# Stands for no resistance at all, so that a contact without any divides nothing by zero.
_LEAST_OHM = 1e-9


@dataclass(frozen=True, slots=True)
class Point:
    """Where a probe can touch: a contact of a plug (`port`) or of a `half`; or a `splice`, where none can."""

    kind: str
    name: str
    part: str
    contact: str

    @property
    def place(self) -> tuple[str, str, str]:
        """Return the plug or half that it is a contact of."""
        return self.kind, self.name, self.part


@dataclass(frozen=True, slots=True)
class Connection:
    """Metal between two points, and its resistance at 20 °C."""

    one: Point
    other: Point
    ohm: float


@dataclass(frozen=True)
class Netlist:
    """All netlist of a harness."""

    connections: tuple[Connection, ...]

    @cached_property
    def joined(self) -> dict[Point, dict[Point, float]]:
        """Return for each point the points that it is joined to, and the conductances [S]."""
        joined: dict[Point, dict[Point, float]] = {}
        for connection in self.connections:
            siemens = 1 / max(connection.ohm, _LEAST_OHM)
            for near, far in ((connection.one, connection.other), (connection.other, connection.one)):
                ways = joined.setdefault(near, {})
                ways[far] = ways.get(far, 0.0) + siemens
        return joined

    @cached_property
    def every_net(self) -> tuple[tuple[Point, ...], ...]:
        """Return the sets of points that are one netlist, splices among them."""
        found: list[tuple[Point, ...]] = []
        seen: set[Point] = set()
        for point in self.joined:
            if point not in seen:
                found.append(self._reached(point))
                seen.update(found[-1])
        return tuple(found)

    @cached_property
    def net_of(self) -> dict[Point, int]:
        """Return for each point the number of its net."""
        return {point: number for number, net in enumerate(self.every_net) for point in net}

    @property
    def nets(self) -> tuple[frozenset[Point], ...]:
        """Return the sets of contacts that are one netlist."""
        return tuple(frozenset(point for point in net if point.kind != "splice") for net in self.every_net)

    def _reached(self, start: Point) -> tuple[Point, ...]:
        found = {start: None}
        waiting = [start]
        while waiting:
            new = [far for far in self.joined[waiting.pop()] if far not in found]
            found.update(dict.fromkeys(new))
            waiting += new
        return tuple(found)

    def resistance_ohm(self, one: Point, other: Point) -> float:
        """Return the resistance between two points of one net, all ways between them counted.

        Every other point is taken out in turn and its neighbours joined as it joined them: star to mesh
        (A. Rosen, 1924, from memory), which at a point between two is their resistances in series.
        """
        ways = {point: dict(self.joined[point]) for point in self.every_net[self.net_of[one]]}
        between = [point for point in ways if point not in (one, other)]
        for point in sorted(between, key=lambda p: len(ways[p])):
            star = list(ways.pop(point).items())
            total = sum(siemens for _, siemens in star)
            for i, (near, siemens) in enumerate(star):
                del ways[near][point]
                for far, more in star[i + 1 :]:
                    ways[near][far] = ways[far][near] = ways[near].get(far, 0.0) + siemens * more / total
        return 1 / ways[one][other]


def netlist_of(harness: Harness, mated: bool) -> Netlist:
    """Return the netlist of all leads that are cut, with disconnects parted or mated."""
    connections = list(_wires(harness))
    for disconnect in harness.disconnects.values():
        connections += _tails(disconnect)
        if mated:
            connections += _contacts(disconnect)
    return Netlist(tuple(connections))


def _wires(harness: Harness) -> Iterator[Connection]:
    for lead in harness.cut_leads():
        for wire in lead.wires:
            ohm = wire.kind.resistance_ohm_per_m * lead.cut_length_mm / 1000
            yield Connection(_wire_end(harness, lead, 0, wire.role), _wire_end(harness, lead, 1, wire.role), ohm)


def _tails(disconnect: Disconnect) -> Iterator[Connection]:
    for common in disconnect.commons.values():
        for behind in common.halves:
            half = behind.half.name
            splice = Point("splice", disconnect.name, half, common.name)
            for tail in behind.tails:
                ohm = tail.kind.resistance_ohm_per_m * (behind.tail_mm or 0.0) / 1000
                yield Connection(splice, Point("half", disconnect.name, half, tail.contacts[1][0]), ohm)


def _contacts(disconnect: Disconnect) -> Iterator[Connection]:
    """Walk the mated contacts that have a wire behind both halves."""
    for contact, use in disconnect.uses.items():
        if None not in use.wires:
            near, far = (Point("half", disconnect.name, half.name, contact) for half in disconnect.halves)
            yield Connection(near, far, disconnect.shell.contact.resistance_ohm)


def _wire_end(harness: Harness, lead: Lead, index: int, role: str) -> Point:
    """Return where a wire ends: its contact, the splice of a lead that divides, or the one before tails."""
    end = lead.ends[index]
    if end.is_splice:
        return Point("splice", lead.circuit, "", role)
    if role in end.commons:
        behind = harness.disconnects[end.name].behind(end, role)
        if behind is not None and behind.tails:
            return Point("splice", end.name, end.part, end.commons[role])
    return contact_point(lead, index, role)


def contact_point(lead: Lead, index: int, role: str) -> Point:
    """Return the contact at one end of a lead that shows a role to a probe, the first of a common's."""
    end = lead.ends[index]
    return Point(end.kind, end.name, end.part, end.contacts[role][0])
