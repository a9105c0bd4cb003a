"""The harness as an electrical network: what feeds what over which resistances.

A branch is one pole of a lead with its contacts and own leads, or a common with its contacts and tails; its key is
the branch of the path of current (`feeds.Branch`) that it stands for. Resistances are in ohms at the heat of the route.
"""

from __future__ import annotations

import copy
import heapq
from collections import ChainMap
from collections.abc import Mapping, MutableMapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from docgen.definition.equipment import Output
from docgen.harness.model.circuits import Circuit, Lead
from docgen.harness.model.harness import Behind, Disconnect, Equipment
from docgen.harness.model.parts import Place, Route, Run
from docgen.harness.routing.heat import hottest_c
from docgen.harness.wiring.feeds import Branch, Feed

Group = tuple[str, int]
"""Equipment and the number of a group of its ports."""

COPPER_PER_K = 0.00393  # annealed copper at 20 °C; Industrial Power Engineering and Applications Handbook p. 970
REFERENCE_C = 20.0


def resistance_at(resistance_ohm: float, heat_c: float | None) -> float:
    """Return a copper resistance known at 20 °C at another temperature; 20 °C where none is given."""
    return resistance_ohm * (1 + COPPER_PER_K * ((REFERENCE_C if heat_c is None else heat_c) - REFERENCE_C))


@dataclass
class Weights:
    """How much of one load's current passes each branch, node and group of ports above it."""

    branches: dict[Branch, float] = field(default_factory=dict)
    nodes: dict[str, float] = field(default_factory=dict)
    groups: dict[Group, float] = field(default_factory=dict)

    def add(self, shares: Weights, amps: float) -> None:
        """Add a load's current by its weights."""
        for branch, share in shares.branches.items():
            self.branches[branch] = self.branches.get(branch, 0.0) + share * amps
        for name, share in shares.nodes.items():
            self.nodes[name] = self.nodes.get(name, 0.0) + share * amps
        for group, share in shares.groups.items():
            self.groups[group] = self.groups.get(group, 0.0) + share * amps


@dataclass(frozen=True)
class Network:
    """What feeds what: `feeds` count, `left_out` those that `fed_by` leaves out; `resistances_ohm` of all branches."""

    equipment: Mapping[str, Equipment]
    circuits: Mapping[str, Circuit]
    feeds: tuple[Feed, ...]
    left_out: tuple[Feed, ...]
    resistances_ohm: MutableMapping[Branch, float]

    @cached_property
    def into(self) -> dict[str, list[Feed]]:
        """Return the feeds of each piece of equipment."""
        into: dict[str, list[Feed]] = {}
        for feed in self.feeds:
            into.setdefault(feed.load, []).append(feed)
        return into

    @cached_property
    def feeds_of(self) -> dict[str, list[Feed]]:
        """Return the feeds that each circuit makes."""
        of: dict[str, list[Feed]] = {}
        for feed in self.feeds:
            of.setdefault(feed.circuit, []).append(feed)
        return of

    @cached_property
    def groups(self) -> dict[tuple[str, str], tuple[str, int]]:
        """Return for each port its equipment and the group that it shares its rating with."""
        return {
            (entry.name, port.name): (entry.name, port.group)
            for entry in self.equipment.values()
            for port in entry.ports
        }

    @cached_property
    def outputs(self) -> dict[tuple[str, int], Output]:
        """Return the regulated groups of ports."""
        return {
            (entry.name, port.group): port.output
            for entry in self.equipment.values()
            for port in entry.ports
            if port.output is not None
        }

    @cached_property
    def rank(self) -> dict[str, int]:
        """Return the order of equipment in which all that feeds it comes before it."""
        rank: dict[str, int] = {}
        for name in self.equipment:
            stack = [name]
            while stack:
                above = [feed.source for feed in self.into.get(stack[-1], ()) if feed.source not in rank]
                if above:
                    stack += above
                else:
                    rank.setdefault(stack.pop(), len(rank))
        return rank

    @cached_property
    def packs(self) -> dict[str, tuple[str, ...]]:
        """Return the batteries behind each piece of equipment, itself if it is one, in the order written."""
        behind: dict[str, set[str]] = {}
        for name in sorted(self.equipment, key=self.rank.__getitem__):
            own = {name} if self.equipment[name].battery is not None else set[str]()
            behind[name] = own.union(*(behind[feed.source] for feed in self.into.get(name, ())))
        order = {name: i for i, name in enumerate(self.equipment)}
        return {name: tuple(sorted(packs, key=order.__getitem__)) for name, packs in behind.items()}

    @cached_property
    def weights(self) -> dict[str, Weights]:
        """Return the weights of each load where no outlet switches."""
        return {name: weights_of(self, name, {}) for name in self.equipment}

    def outlet(self, feed: Feed) -> tuple[str, int]:
        """Return the group of ports from which a feed comes."""
        return self.groups[feed.source, feed.outlet]

    def with_resistances(self, changed: Mapping[Branch, float]) -> Network:
        """Return it with other resistances for some branches; what was worked out of its shape stays."""
        other = copy.copy(self)
        object.__setattr__(other, "resistances_ohm", ChainMap(dict(changed), self.resistances_ohm))
        return other


def weights_of(network: Network, load: str, ratios: Mapping[Group, float]) -> Weights:
    """Return the weights of a load; where its current may come several routes, each carries all of it.

    `ratios` are current in over current out of switching outlets.
    """
    found = Weights(nodes={load: 1.0})
    queue = [(-network.rank[load], load)]
    seen = {load}
    while queue:
        _, node = heapq.heappop(queue)
        weight = found.nodes[node]
        for feed in network.into.get(node, ()):
            for branch in (*feed.out, *feed.back):
                found.branches[branch] = max(found.branches.get(branch, 0.0), weight)
            group = network.outlet(feed)
            found.groups[group] = max(found.groups.get(group, 0.0), weight)
            above = weight * ratios.get(group, 1.0)
            found.nodes[feed.source] = max(found.nodes.get(feed.source, 0.0), above)
            if feed.source not in seen:
                seen.add(feed.source)
                heapq.heappush(queue, (-network.rank[feed.source], feed.source))
    return found


def build_network(
    places: Mapping[str, Place],
    runs: Sequence[Run],
    circuits: Mapping[str, Circuit],
    disconnects: Mapping[str, Disconnect],
    equipment: Mapping[str, Equipment],
    feeds: Sequence[Feed],
    left_out: Sequence[Feed],
) -> Network:
    """Return the network of a harness; `feeds` are those that count, `left_out` the others."""
    branches = {branch for feed in feeds for branch in (*feed.out, *feed.back)}
    for circuit in circuits.values():
        branches.update(branches_of(circuit))
    ohms = {}
    for branch in branches:
        if branch.common:
            ohms[branch] = common_resistance_ohm(disconnects[branch.disconnect], branch.common)
        else:
            lead = circuits[branch.circuit].leads[branch.segment]
            ohms[branch] = lead_resistance_ohm(places, runs, lead, branch.role)
    return Network(equipment, circuits, tuple(feeds), tuple(left_out), ohms)


def branches_of(circuit: Circuit) -> list[Branch]:
    """Return the branches of a circuit's own leads, for the poles that carry its current."""
    return [
        Branch(role, circuit=circuit.name, segment=index)
        for index, lead in enumerate(circuit.leads)
        for role in circuit.poles
        if lead.wire(role) is not None
    ]


def lead_resistance_ohm(places: Mapping[str, Place], runs: Sequence[Run], lead: Lead, role: str) -> float:
    """Return the resistance of one wire of a lead: cut length, own leads at its ends, and contacts passed.

    A contact between two leads of a circuit counts with the one that begins there, a common's with the common.
    """
    wire = lead.wire(role)
    if wire is None:
        return 0.0
    ohms = 0.0
    if lead.cut_length_mm is not None:
        ohms += _wire_ohm(wire.kind.resistance_ohm_per_m, lead.cut_length_mm, hottest_c(places, runs, lead.route))
    for end in lead.ends:
        if end.own is not None:
            kind = end.own.kind or wire.kind
            route: Route = lead.route if lead.straight else end.own.route
            ohms += _wire_ohm(kind.resistance_ohm_per_m, end.own.length_mm, hottest_c(places, runs, route))
    passed = [lead.ends[0]] if lead.straight else [end for i, end in enumerate(lead.ends) if end.is_port or i == 0]
    return ohms + sum(
        end.connector.contact.resistance_ohm for end in passed if not end.is_splice and role not in end.commons
    )


def _wire_ohm(ohm_per_m: float, length_mm: float, heat_c: float | None) -> float:
    return resistance_at(ohm_per_m * length_mm / 1000, heat_c)


def common_resistance_ohm(disconnect: Disconnect, name: str) -> float:
    """Return the resistance of a common: its contacts side by side, and the tails of both halves."""
    common = disconnect.commons[name]
    contacts_ohm = disconnect.shell.contact.resistance_ohm / len(common.contacts)
    return contacts_ohm + sum(_tails_ohm(half) for half in common.halves)


def _tails_ohm(half: Behind) -> float:
    if not half.tails or half.tail_mm is None:
        return 0.0
    return half.tails[0].kind.resistance_ohm_per_m * half.tail_mm / 1000 / len(half.tails)
