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
from docgen.harness.electrical.flows import Flows
from docgen.harness.electrical.loads import Loads
from docgen.harness.electrical.network import Group, Network
from docgen.harness.electrical.unknown import Unknown, unknown_of
from docgen.harness.wiring.feeds import Branch, Feed


class Electricity:
    """All cases of one network with its resistances, each worked out once, with each pack alone, and only if asked for.

    What has no resistance known counts as nothing in flows; what rests on it is `unknown`, and not to be shown. With
    an electricity `before`, resistances are only those that differ from it: what none of them reaches is taken of it.
    """

    def __init__(
        self,
        network: Network,
        loads: Loads,
        resistances_ohm: Mapping[Branch, float],
        before: Electricity | None = None,
    ) -> None:
        self.network = network
        self.loads = loads
        self._given_ohm = resistances_ohm
        self._before = before
        self._ohms: dict[str, Mapping[Branch, float]] = {}
        self.working: Flows = self._flows(loads.working_a, before.working if before else None)
        self.peak: Flows = self._flows(loads.peak_a, before.peak if before else None)
        self._stalled: dict[tuple[str, str], Flow] = {}

    def _flows(self, loads: Mapping[str, float], before: Flows | None) -> Flows:
        return Flows(self.network, loads, self._ohms_of, before, self._given_ohm)

    def over(self, changed_ohm: Mapping[Branch, float]) -> Electricity:
        """Return the same loads over other resistances in some branches."""
        return Electricity(self.network, self.loads, changed_ohm, self)

    @cached_property
    def resistances_ohm(self) -> Mapping[Branch, float]:
        """Return the resistances of all branches, as far as known."""
        return {**self._before.resistances_ohm, **self._given_ohm} if self._before else self._given_ohm

    def _ohms_of(self, pack: str) -> Mapping[Branch, float]:
        """Return the resistances on which a pack's currents and volts rest."""
        if pack not in self._ohms:
            if self._before is None:
                known = self._given_ohm
                self._ohms[pack] = {branch: known[branch] for branch in self.network.reach[pack] if branch in known}
            else:
                self._ohms[pack] = {**self._before._ohms_of(pack), **self._given_ohm}
        return self._ohms[pack]

    def stalled(self, pack: str, name: str) -> Flow:
        """Return the flow in which one load stalls; where it draws no more then, that in which all works."""
        if not self.loads.added_a.get(name):
            return self.working[pack]
        if self._before is not None and self._given_ohm.keys().isdisjoint(self.network.reach[pack]):
            return self._before.stalled(pack, name)
        if (pack, name) not in self._stalled:
            self._stalled[pack, name] = self._stall(pack, name)
        return self._stalled[pack, name]

    def _stall(self, pack: str, name: str) -> Flow:
        ohms, beside = self._ohms_of(pack), self.working[pack].beside
        if self._before is not None:
            return self._before.stalled(pack, name).over(ohms, beside)
        return Flow(self.network, ohms, pack, self.loads.stalled_a(name, self.working[pack].loads), beside)

    @cached_property
    def unknown(self) -> Unknown:
        """Return what rests on a length that is not known."""
        if self._before is not None and self._given_ohm.keys() <= self._before.resistances_ohm.keys():
            return self._before.unknown
        return unknown_of(self.network, self.resistances_ohm)

    @cached_property
    def carrying(self) -> frozenset[str]:
        """Return all equipment that draws a known current, or passes one on."""
        if self._before is not None and self.unknown is self._before.unknown:
            return self._before.carrying
        return self.loads.through[0] - self.unknown.currents

    @cached_property
    def measured(self) -> frozenset[str]:
        """Return all equipment whose volts can be said: it draws a current, and all lengths up to it are known."""
        if self._before is not None and self.unknown is self._before.unknown:
            return self._before.measured
        return self.carrying - self.unknown.volts

    @cached_property
    def known(self) -> frozenset[Branch]:
        """Return all branches whose current is known; of others no figures are shown."""
        return self.loads.through[1] - self.unknown.branches

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
        return math.inf if branch in self.unknown.branches else self.working.worst_a(branch)

    def brief_a(self, branch: Branch) -> float:
        """Return the most that a branch carries for a short while: in the peak, or with its worst load stalled [A].

        A gear leg that is stopped before it stalls draws what it is stopped at.
        """
        added_a = self.loads.briefly_added_a
        alone = ({name: added_a[name]} for name in self.network.loads_over.get(branch, ()) if name in added_a)
        return max(self.peak.worst_a(branch), self.working_a(branch) + self._most_a(branch, alone))

    def lasting_a(self, branch: Branch) -> float:
        """Return the most that a branch carries for long: working, or with the worst controller's legs jammed [A].

        Those that stay jammed for longer than a contact stands its brief current, all together.
        """
        over, jammed = self.network.loads_over.get(branch, ()), self.loads.jammed_with
        together = {id(jammed[name]): jammed[name] for name in over if name in jammed}
        return self.working_a(branch) + self._most_a(branch, together.values())

    def _most_a(self, branch: Branch, together: Iterable[Mapping[str, float]]) -> float:
        """Return the most that a branch carries more, of loads that take so much more together."""
        most = 0.0
        for adds in together:
            for pack in dict.fromkeys(pack for name in adds for pack in self.network.packs[name]):
                flow = self.working[pack]
                shares = (
                    (flow.weights[name].branches.get(branch, 0.0), amps)
                    for name, amps in adds.items()
                    if name in flow.loads
                )
                most = max(most, sum(share * amps for share, amps in shares))
        return most

    def group_peak_a(self, group: Group) -> float | None:
        """Return the most that a group of ports gives in the peak [A], if that is known."""
        if any(feed.load in self.unknown.currents for feed in self.network.fed_from.get(group, ())):
            return None
        return max((self.peak[pack].group_a(group) for pack in self.network.packs[group[0]]), default=0.0)

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
