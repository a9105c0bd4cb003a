"""The three cases of a harness: everything working, the ordinary worst together, and one load stalled.

Packs are at their empty volts. In *working* everything draws its working current. In *peak* those loads of a supply
that have the most to add stall together. In *stall* one load stalls while all else works.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from docgen.harness.electrical.flow import Flow
from docgen.harness.electrical.network import Group, Network, Weights
from docgen.harness.model.harness import Equipment
from docgen.harness.wiring.feeds import Branch, Feed

_BRIEF_S = 10.0  # how long a contact stands its brief current; common practice, no source


@dataclass(frozen=True)
class Supply:
    """Packs that share what they feed, and all equipment behind which they are, in the order written."""

    packs: tuple[str, ...]
    members: tuple[str, ...]

    @property
    def name(self) -> str:
        """Say which supply it is."""
        return " + ".join(self.packs)


class Electricity:
    """All cases of one network, each worked out once, with each pack alone."""

    def __init__(self, network: Network, together: int) -> None:
        self.network = network
        self.together = together
        self.supplies = _supplies(network)
        self.supply_of = {name: supply for supply in self.supplies for name in supply.members}
        working = {name: _working_a(entry) for name, entry in network.equipment.items() if _draws(entry)}
        self.adds = {
            name: max(entry.load.stall_a - _working_a(entry), 0.0)
            for name, entry in network.equipment.items()
            if entry.load is not None and entry.load.stall_a is not None
        }
        self.stalling = {supply.name: self._stalling(supply, together) for supply in self.supplies}
        together_a = {name: self.adds[name] for names in self.stalling.values() for name in names}
        self.working = self._flows(working)
        self.peak = self._flows({name: amps + together_a.get(name, 0.0) for name, amps in working.items()})
        self._stalled: dict[tuple[str, str], Flow] = {}

    def _flows(self, loads: Mapping[str, float]) -> dict[str, Flow]:
        """Return the flow of each pack for these loads, with what the branches carry of other supplies beside."""
        alone = {pack: Flow(self.network, pack, loads) for supply in self.supplies for pack in supply.packs}
        beside = self._beside(alone)
        return alone | {pack: Flow(self.network, pack, loads, also) for pack, also in beside.items() if also}

    def _stalling(self, supply: Supply, together: int) -> list[str]:
        """Return the loads that stall together; one controller's legs count as one."""
        groups: dict[str, list[str]] = {}
        for name in supply.members:
            if self.adds.get(name, 0.0) > 0:
                groups.setdefault(self.controller_of(name) or name, []).append(name)
        most = sorted(groups.values(), key=lambda names: -sum(self.adds[name] for name in names))  # ties as written
        return [name for names in most[:together] for name in names]

    def controller_of(self, name: str) -> str | None:
        """Return the gear controller of a gear leg."""
        if self.network.equipment[name].kind != "gear leg":
            return None
        above = [feed.source for feed in self.network.into.get(name, ())]
        return next((n for n in above if self.network.equipment[n].kind == "gear controller"), None)

    def jammed_s(self, name: str) -> float:
        """Return how long a load can stay stalled before its controller gives up; 0 where that is not known."""
        gears = [self.network.equipment[n].gear for n in (name, self.controller_of(name)) if n]
        limits = [gear.limit_s for gear in gears if gear is not None and gear.limit_s is not None]
        return limits[0] if limits and self.network.equipment[name].kind == "gear leg" else 0.0

    def jammed_a(self, name: str) -> float:
        """Return what a stalled gear leg draws until its controller gives up: its stop, else its stall [A]."""
        gears = [self.network.equipment[n].gear for n in (name, self.controller_of(name)) if n]
        stops = [gear.stop_a for gear in gears if gear is not None and gear.stop_a is not None]
        load = self.network.equipment[name].load
        return stops[0] if stops else (load.stall_a or 0.0) if load else 0.0

    def over(self, network: Network) -> Electricity:
        """Return the same loads over a network of the same shape with other resistances."""
        return Electricity(network, self.together)

    def stalled(self, pack: str, name: str) -> Flow:
        """Return the flow in which one load stalls."""
        if (pack, name) not in self._stalled:
            working = self.working[pack]
            loads = {
                load: amps + (self.adds.get(load, 0.0) if load == name else 0.0) for load, amps in working.loads.items()
            }
            self._stalled[pack, name] = Flow(self.network, pack, loads, working.beside)
        return self._stalled[pack, name]

    def packs_of(self, name: str) -> tuple[str, ...]:
        """Return the packs behind equipment."""
        return self.network.packs[name]

    def path_to(self, name: str) -> list[Branch]:
        """Return all over which equipment's current comes, from all packs, the nearest first."""
        path: dict[Branch, None] = {}
        left, seen = [name], {name}
        while left:
            for feed in self.network.into.get(left.pop(0), ()):
                path |= dict.fromkeys((*feed.out, *feed.back))
                if feed.source not in seen:
                    seen.add(feed.source)
                    left.append(feed.source)
        return list(path)

    @cached_property
    def carrying(self) -> frozenset[str]:
        """Return all equipment that draws a known current, or passes one on."""
        return frozenset(
            node for flow in self.working.values() for weights in flow.weights.values() for node in weights.nodes
        )

    @cached_property
    def known(self) -> frozenset[Branch]:
        """Return all branches whose current is known."""
        return frozenset(branch for flow in self.working.values() for branch in flow.sums.branches)

    def cases(self, name: str) -> dict[str, float]:
        """Return the volts that arrive at equipment in each case in which it is judged; of several packs the best.

        What has no stall is judged in the peak, what has one stalled.
        """
        if name not in self.carrying or self.network.equipment[name].battery is not None:
            return {}
        load = self.network.equipment[name].load
        other = "stall" if load is not None and load.stall_a is not None else "peak"
        cases = {}
        for case in ("working", other):
            volts = [v for pack in self.packs_of(name) if (v := self._flow(case, pack, name).volts(name)) is not None]
            if volts:
                cases[case] = max(volts)
        return cases

    def _flow(self, case: str, pack: str, name: str) -> Flow:
        if case == "stall":
            return self.stalled(pack, name)
        return self.working[pack] if case == "working" else self.peak[pack]

    def working_a(self, branch: Branch) -> float:
        """Return the working current of a branch, each pack alone [A]."""
        return self._working_a.get(branch, 0.0)

    def brief_a(self, branch: Branch) -> float:
        """Return the most that a branch carries for a short while: in the peak, or with its worst load stalled [A]."""
        return max(self._brief_a.get(branch, 0.0), self.working_a(branch) + self._most_added.get(branch, 0.0))

    def lasting_a(self, branch: Branch) -> float:
        """Return the most that a branch carries for long: working, or with the worst controller's legs jammed [A].

        Those that stay jammed for longer than a contact stands its brief current, all together.
        """
        return self.working_a(branch) + self._most_jammed.get(branch, 0.0)

    @cached_property
    def _working_a(self) -> dict[Branch, float]:
        return self._worst(self.working)

    @cached_property
    def _brief_a(self) -> dict[Branch, float]:
        return self._worst(self.peak)

    def _worst(self, flows: Mapping[str, Flow]) -> dict[Branch, float]:
        """Return the most that each branch carries: of one supply with its worst pack, of several together."""
        worst: dict[Branch, float] = {}
        for of_supply in self._of_supplies(flows).values():
            for branch, amps in of_supply.items():
                worst[branch] = worst.get(branch, 0.0) + amps
        return worst

    def _of_supplies(self, flows: Mapping[str, Flow]) -> dict[str, dict[Branch, float]]:
        """Return what each branch carries of each supply, with the worst of its packs."""
        found: dict[str, dict[Branch, float]] = {}
        for pack, flow in flows.items():
            most = found.setdefault(self.supply_of[pack].name, {})
            for branch in flow.sums.branches:
                most[branch] = max(most.get(branch, 0.0), flow.branch_a(branch))
        return found

    def _beside(self, flows: Mapping[str, Flow]) -> dict[str, dict[Branch, float]]:
        """Return for each pack what branches that its supply shares with others carry of those."""
        of_supplies = self._of_supplies(flows)
        beside: dict[str, dict[Branch, float]] = {}
        for pack in flows:
            own = self.supply_of[pack].name
            beside[pack] = {}
            for name, others in of_supplies.items():
                for branch in of_supplies[own].keys() & others.keys() if name != own else ():
                    beside[pack][branch] = beside[pack].get(branch, 0.0) + others[branch]
        return beside

    @cached_property
    def _most_added(self) -> dict[Branch, float]:
        return self._most({name: amps} for name, amps in self.adds.items())

    @cached_property
    def _most_jammed(self) -> dict[Branch, float]:
        legs: dict[str, dict[str, float]] = {}
        for name in self.adds:
            if self.jammed_s(name) > _BRIEF_S:
                more_a = max(self.jammed_a(name) - _working_a(self.network.equipment[name]), 0.0)
                legs.setdefault(self.controller_of(name) or name, {})[name] = more_a
        return self._most(legs.values())

    def _most(self, together: Iterable[Mapping[str, float]]) -> dict[Branch, float]:
        """Return the most that each branch carries more, of loads that take so much more together."""
        most: dict[Branch, float] = {}
        for adds in together:
            for flow in self.working.values():
                added = Weights()
                for name, amps in adds.items():
                    if name in flow.weights:
                        added.add(flow.weights[name], amps)
                for branch, more_a in added.branches.items():
                    most[branch] = max(most.get(branch, 0.0), more_a)
        return most

    def group_peak_a(self, group: Group) -> float:
        """Return the most that a group of ports gives in the peak [A]."""
        return max((flow.group_a(group) for flow in self.peak.values()), default=0.0)

    def drops(self, feed: Feed) -> tuple[float, float]:
        """Return the own drop of a feed, working and with its load stalled [V], the worst of its packs."""
        packs = self.packs_of(feed.source)
        working = max(self.working[pack].drop_v(feed) for pack in packs)
        return working, max([working, *(self.stalled(pack, feed.load).drop_v(feed) for pack in packs)])

    def nominal_v(self, feed: Feed) -> float:
        """Return what a drop is a share of [V]: the nearest regulated outlet above, else the pack's empty volts."""
        found, left, seen = [], [feed], {feed}
        while left:
            above = left.pop()
            output = self.network.outputs.get(self.network.outlet(above))
            battery = self.network.equipment[above.source].battery
            if output is not None:
                found.append(output.volts_v)
            elif battery is not None:
                found.append(battery.empty_v)
            else:
                new = [other for other in self.network.into[above.source] if other not in seen]
                seen.update(new)
                left += new
        return min(found)


def _draws(entry: Equipment) -> bool:
    load = entry.load
    return load is not None and (load.working_a is not None or load.stall_a is not None) and entry.battery is None


def _working_a(entry: Equipment) -> float:
    return (entry.load.working_a or 0.0) if entry.load else 0.0


def _supplies(network: Network) -> tuple[Supply, ...]:
    """Return the packs in groups that share what they feed, with what is behind each group."""
    groups: list[set[str]] = []
    for packs in network.packs.values():
        joined = set(packs).union(*(group for group in groups if group & set(packs)))
        groups = [group for group in groups if not group & joined] + ([joined] if joined else [])
    order = {name: i for i, name in enumerate(network.equipment)}
    return tuple(
        Supply(
            tuple(sorted(group, key=order.__getitem__)),
            tuple(name for name in network.equipment if group & set(network.packs[name])),
        )
        for group in sorted(groups, key=lambda group: min(order[name] for name in group))
    )
