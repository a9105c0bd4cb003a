"""Take what feeds what and return its shape: what is above each load, and how much of its current passes where.

Nothing here depends on resistances; only what outlets switch does, for which `weights_of` takes ratios.
"""

from __future__ import annotations

import graphlib
import heapq
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.definition.equipment import Output
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.equipment import Equipment
from docgen.harness.wiring.feeds import Branch, Feed, WireBranch
from docgen.harness.wiring.supply import sources_behind

Group = tuple[str, int]
"""Equipment and the number of a group of its ports."""


@frozen
class Supply:
    """Packs that share what they feed, and all equipment behind which they are, in the order written."""

    packs: tuple[str, ...]
    members: tuple[str, ...]


@dataclass
class Weights:
    """How much of one load's current passes each branch, node and group of ports above it."""

    branches: dict[Branch, float] = field(default_factory=dict)
    nodes: dict[str, float] = field(default_factory=dict)
    groups: dict[Group, float] = field(default_factory=dict)


@frozen
class Network:
    """What feeds what: `feeds` count, `left_out` are those that `fed_by` leaves out."""

    equipment: Mapping[str, Equipment]
    feeds: tuple[Feed, ...]
    left_out: tuple[Feed, ...]

    @cached_property
    def into(self) -> dict[str, list[Feed]]:
        """Return the feeds of each piece of equipment."""
        into: dict[str, list[Feed]] = {}
        for feed in self.feeds:
            into.setdefault(feed.load, []).append(feed)
        return into

    @cached_property
    def into_behind(self) -> dict[str, dict[str, list[Feed]]]:
        """Return for each pack the feeds of each piece of equipment that come from what is behind it."""
        into: dict[str, dict[str, list[Feed]]] = {}
        for feed in self.feeds:
            for pack in self.packs[feed.source]:
                into.setdefault(pack, {}).setdefault(feed.load, []).append(feed)
        return into

    @cached_property
    def out_of(self) -> dict[str, list[Feed]]:
        """Return the feeds that come from each piece of equipment."""
        out_of: dict[str, list[Feed]] = {}
        for feed in self.feeds:
            out_of.setdefault(feed.source, []).append(feed)
        return out_of

    @cached_property
    def feeds_of(self) -> dict[str, list[Feed]]:
        """Return the feeds that each circuit makes."""
        of: dict[str, list[Feed]] = {}
        for feed in self.feeds:
            of.setdefault(feed.circuit, []).append(feed)
        return of

    @cached_property
    def groups(self) -> dict[tuple[str, str], Group]:
        """Return for each port its equipment and the group that it shares its rating with."""
        return {
            (entry.name, port.name): (entry.name, port.group)
            for entry in self.equipment.values()
            for port in entry.ports
        }

    @cached_property
    def outputs(self) -> dict[Group, Output]:
        """Return the regulated groups of ports."""
        return {
            (entry.name, port.group): port.output
            for entry in self.equipment.values()
            for port in entry.ports
            if port.output is not None
        }

    @cached_property
    def rank(self) -> dict[str, int]:
        """Return the order of equipment: as written, but for what feeds it, which comes before it."""
        written = {name: number for number, name in enumerate(self.equipment)}
        sorter = graphlib.TopologicalSorter(
            {name: [feed.source for feed in self.into.get(name, ())] for name in written}
        )
        sorter.prepare()
        ready, rank = list[tuple[int, str]](), dict[str, int]()
        while sorter.is_active():
            for name in sorter.get_ready():
                heapq.heappush(ready, (written[name], name))
            _, name = heapq.heappop(ready)
            rank[name] = len(rank)
            sorter.done(name)
        return rank

    @cached_property
    def packs(self) -> dict[str, tuple[str, ...]]:
        """Return the packs behind each piece of equipment, itself if it is one, in the order written."""
        packs = [name for name, entry in self.equipment.items() if entry.battery is not None]
        return dict.fromkeys(self.equipment, ()) | sources_behind(packs, self.feeds)

    @cached_property
    def supplies(self) -> tuple[Supply, ...]:
        """Return the packs in groups that share what they feed, with what is behind each group."""
        group_of: dict[str, set[str]] = {}
        for packs in dict.fromkeys(self.packs.values()):
            joined = set(packs).union(*(group_of.get(pack, ()) for pack in packs))
            group_of |= dict.fromkeys(joined, joined)
        members: dict[int, list[str]] = {}
        for name, packs in self.packs.items():
            if packs:
                members.setdefault(id(group_of[packs[0]]), []).append(name)
        written = {name: number for number, name in enumerate(self.equipment)}
        some_packs = ([name for name in some if self.equipment[name].battery is not None] for some in members.values())
        found = (Supply(tuple(packs), tuple(some)) for packs, some in zip(some_packs, members.values(), strict=True))
        return tuple(sorted(found, key=lambda supply: written[supply.packs[0]]))

    @cached_property
    def supply_of(self) -> dict[str, Supply]:
        """Return the supply that each piece of equipment hangs on."""
        return {name: supply for supply in self.supplies for name in supply.members}

    @cached_property
    def behind(self) -> dict[str, list[str]]:
        """Return all equipment behind each pack, in the order written."""
        behind: dict[str, list[str]] = {}
        for name in self.equipment:
            for pack in self.packs[name]:
                behind.setdefault(pack, []).append(name)
        return behind

    @cached_property
    def switching(self) -> dict[str, list[Group]]:
        """Return the outlets behind each pack that switch."""
        switching: dict[str, list[Group]] = {}
        for group in (group for group, output in self.outputs.items() if output.efficiency):
            for pack in self.packs[group[0]]:
                switching.setdefault(pack, []).append(group)
        return switching

    @cached_property
    def fed_from(self) -> dict[Group, list[Feed]]:
        """Return the feeds that come from each group of ports."""
        fed_from: dict[Group, list[Feed]] = {}
        for feed in self.feeds:
            fed_from.setdefault(self.outlet(feed), []).append(feed)
        return fed_from

    @cached_property
    def loads_over(self) -> dict[Branch, list[str]]:
        """Return the equipment whose current comes over each branch, in the order written."""
        loads_over: dict[Branch, list[str]] = {}
        for name, weights in self.weights.items():
            for branch in weights.branches:
                loads_over.setdefault(branch, []).append(name)
        return loads_over

    @cached_property
    def loads_from(self) -> dict[Group, list[str]]:
        """Return the equipment whose current comes from each group of ports, in the order written."""
        loads_from: dict[Group, list[str]] = {}
        for name, weights in self.weights.items():
            for group in weights.groups:
                loads_from.setdefault(group, []).append(name)
        return loads_from

    @cached_property
    def above_switching(self) -> frozenset[Branch]:
        """Return the branches whose current rests on what outlets that switch are brought."""
        switching = (group for group, output in self.outputs.items() if output.efficiency)
        return frozenset(branch for name, _ in switching for branch in self.weights[name].branches)

    @cached_property
    def supplies_over(self) -> dict[Branch, list[Supply]]:
        """Return the supplies whose current passes each branch."""
        over: dict[Branch, list[Supply]] = {}
        for supply in self.supplies:
            for branch in dict.fromkeys(branch for name in supply.members for branch in self.weights[name].branches):
                over.setdefault(branch, []).append(supply)
        return over

    @cached_property
    def beside(self) -> dict[str, dict[Branch, list[Supply]]]:
        """Return the branches that each pack's supply shares, with the others whose current passes them."""
        beside: dict[str, dict[Branch, list[Supply]]] = {}
        for branch, supplies in self.supplies_over.items():
            for supply in supplies if len(supplies) > 1 else ():
                for pack in supply.packs:
                    beside.setdefault(pack, {})[branch] = [other for other in supplies if other is not supply]
        return beside

    @cached_property
    def reach(self) -> dict[str, frozenset[Branch]]:
        """Return the branches on which each pack's flows rest: of its supply, and of all that share some with it."""
        own = {
            supply.packs: {branch for name in supply.members for branch in self.weights[name].branches}
            for supply in self.supplies
        }
        reach: dict[str, frozenset[Branch]] = {}
        for supply in self.supplies:
            left, found = [supply], {supply.packs}
            while left and supply.packs[0] not in reach:
                shared = self.beside.get(left.pop().packs[0], {})
                new = {other.packs: other for others in shared.values() for other in others}
                left += [other for packs, other in new.items() if packs not in found]
                found |= new.keys()
            whole = frozenset().union(*(own[packs] for packs in found))
            reach |= {pack: whole for packs in found for pack in packs if pack not in reach}
        return reach

    @cached_property
    def weights(self) -> dict[str, Weights]:
        """Return the weights of each load where no outlet switches."""
        return {name: weights_of(self, name, {}) for name in self.equipment}

    def outlet(self, feed: Feed) -> Group:
        """Return the group of ports from which a feed comes."""
        return self.groups[feed.source, feed.outlet]

    def path_to(self, name: str) -> list[Branch]:
        """Return all over which equipment's current comes, from all packs, the nearest first."""
        path: dict[Branch, None] = {}
        left, seen = [name], {name}
        while left:
            for feed in self.into.get(left.pop(0), ()):
                path |= dict.fromkeys((*feed.out, *feed.back))
                if feed.source not in seen:
                    seen.add(feed.source)
                    left.append(feed.source)
        return list(path)


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


def branches_of(circuit: Circuit) -> list[WireBranch]:
    """Return the branches of a circuit's own leads, for the poles that carry its current."""
    return [
        WireBranch(circuit.name, index, role)
        for index, lead in enumerate(circuit.leads)
        for role in circuit.poles
        if lead.wire(role) is not None
    ]
