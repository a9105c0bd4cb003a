"""Take a network, its loads and resistances, and return currents, drops and volts in the three cases.

Packs are at their empty volts. In *working* everything draws its working current. In *peak* those loads of a supply
that have the most to add stall together, gear legs up to their stop. In *stall* one load stalls while all else works.

Where supplies share a negative, it carries the sum over them, of each with its worst pack; at peak all are at theirs.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from functools import cached_property

from docgen.harness.electrical.flow import Flow, best
from docgen.harness.electrical.loads import Loads
from docgen.harness.electrical.network import Group, Network, Supply, Weights
from docgen.harness.electrical.unknown import Unknown, unknown_of
from docgen.harness.wiring.feeds import Branch, Feed


class Electricity:
    """All cases of one network with its resistances, each worked out once, with each pack alone.

    What has no resistance known counts as nothing in flows; what rests on it is `unknown`, and not to be shown.
    """

    def __init__(self, network: Network, loads: Loads, resistances_ohm: Mapping[Branch, float]) -> None:
        self.network = network
        self.loads = loads
        self.resistances_ohm = resistances_ohm
        self.working = self._flows(loads.working_a)
        self.peak = self._flows(loads.peak_a)
        self._stalled: dict[tuple[str, str], Flow] = {}
        self._working_a, self._peak_a = self._worst(self.working), self._worst(self.peak)
        self._most_added = self._most({name: amps} for name, amps in loads.briefly_added_a.items())
        self._most_jammed = self._most(loads.jammed_a)

    def _flows(self, loads: Mapping[str, float]) -> dict[str, Flow]:
        """Return the flow of each pack for these loads, with what the branches carry of other supplies beside."""
        packs = [pack for supply in self.network.supplies for pack in supply.packs]
        alone = {pack: Flow(self.network, self.resistances_ohm, pack, loads) for pack in packs}
        beside = {pack: also for pack, also in self._beside(alone).items() if also}
        return alone | {pack: Flow(self.network, self.resistances_ohm, pack, loads, beside[pack]) for pack in beside}

    def over(self, changed_ohm: Mapping[Branch, float]) -> Electricity:
        """Return the same loads over other resistances in some branches."""
        return Electricity(self.network, self.loads, {**self.resistances_ohm, **changed_ohm})

    def stalled(self, pack: str, name: str) -> Flow:
        """Return the flow in which one load stalls."""
        if (pack, name) not in self._stalled:
            loads, beside = self.loads.stalled_a(name), self.working[pack].beside
            self._stalled[pack, name] = Flow(self.network, self.resistances_ohm, pack, loads, beside)
        return self._stalled[pack, name]

    @cached_property
    def unknown(self) -> Unknown:
        """Return what rests on a length that is not known."""
        return unknown_of(self.network, self.resistances_ohm)

    @cached_property
    def carrying(self) -> frozenset[str]:
        """Return all equipment that draws a known current, or passes one on."""
        nodes = {node for flow in self.working.values() for weights in flow.weights.values() for node in weights.nodes}
        return frozenset(nodes - self.unknown.currents)

    @cached_property
    def measured(self) -> frozenset[str]:
        """Return all equipment whose volts can be said: it draws a current, and all lengths up to it are known."""
        return self.carrying - self.unknown.volts

    @cached_property
    def known(self) -> frozenset[Branch]:
        """Return all branches whose current is known; of others no figures are shown."""
        branches = {branch for flow in self.working.values() for branch in flow.sums.branches}
        return frozenset(branches - self.unknown.branches)

    def cases(self, name: str) -> dict[str, float]:
        """Return the volts that arrive at equipment in each case in which it is judged; of several packs the best.

        What has no stall is judged in the peak, what has one stalled.
        """
        if name not in self.measured or self.network.equipment[name].battery is not None:
            return {}
        load = self.network.equipment[name].load
        other = "stall" if load is not None and load.stall_a is not None else "peak"
        packs = self.network.packs[name]
        volts = {case: best(self._flow(case, pack, name).volts(name) for pack in packs) for case in ("working", other)}
        return {case: volts_v for case, volts_v in volts.items() if volts_v is not None}

    def _flow(self, case: str, pack: str, name: str) -> Flow:
        if case == "stall":
            return self.stalled(pack, name)
        return self.working[pack] if case == "working" else self.peak[pack]

    def working_a(self, branch: Branch) -> float:
        """Return the working current of a branch, each pack alone [A]; one that is not known is more than any bears."""
        return math.inf if branch in self.unknown.branches else self._working_a.get(branch, 0.0)

    def brief_a(self, branch: Branch) -> float:
        """Return the most that a branch carries for a short while: in the peak, or with its worst load stalled [A].

        A gear leg that is stopped before it stalls draws what it is stopped at.
        """
        return max(self._peak_a.get(branch, 0.0), self.working_a(branch) + self._most_added.get(branch, 0.0))

    def lasting_a(self, branch: Branch) -> float:
        """Return the most that a branch carries for long: working, or with the worst controller's legs jammed [A].

        Those that stay jammed for longer than a contact stands its brief current, all together.
        """
        return self.working_a(branch) + self._most_jammed.get(branch, 0.0)

    def _worst(self, flows: Mapping[str, Flow]) -> dict[Branch, float]:
        """Return the most that each branch carries: of one supply with its worst pack, of several together."""
        worst: dict[Branch, float] = {}
        for of_supply in self._of_supplies(flows).values():
            for branch, amps in of_supply.items():
                worst[branch] = worst.get(branch, 0.0) + amps
        return worst

    def _of_supplies(self, flows: Mapping[str, Flow]) -> dict[Supply, dict[Branch, float]]:
        """Return what each branch carries of each supply, with the worst of its packs."""
        found: dict[Supply, dict[Branch, float]] = {}
        for pack, flow in flows.items():
            most = found.setdefault(self.network.supply_of[pack], {})
            for branch in flow.sums.branches:
                most[branch] = max(most.get(branch, 0.0), flow.branch_a(branch))
        return found

    def _beside(self, flows: Mapping[str, Flow]) -> dict[str, dict[Branch, float]]:
        """Return for each pack what branches that its supply shares with others carry of those."""
        of_supplies = self._of_supplies(flows)
        beside: dict[str, dict[Branch, float]] = {}
        for pack in flows:
            own = self.network.supply_of[pack]
            beside[pack] = {}
            for supply, others in of_supplies.items():
                for branch in of_supplies[own].keys() & others.keys() if supply != own else ():
                    beside[pack][branch] = beside[pack].get(branch, 0.0) + others[branch]
        return beside

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

    def group_peak_a(self, group: Group) -> float | None:
        """Return the most that a group of ports gives in the peak [A], if that is known."""
        giving = (feed for feed in self.network.feeds if feed.load in self.unknown.currents)
        if any(self.network.outlet(feed) == group for feed in giving):
            return None
        return max((flow.sums.groups.get(group, 0.0) for flow in self.peak.values()), default=0.0)

    def drops(self, feed: Feed) -> tuple[float, float] | None:
        """Return the own drop of a feed, working and with its load stalled [V], the worst of its packs.

        Nothing where a length is not known, of it or on the way to it.
        """
        if feed.load in self.unknown.volts:
            return None
        packs = self.network.packs[feed.source]
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
