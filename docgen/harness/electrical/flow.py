"""Take loads and one pack and return currents and volts.

A load is a current that equipment draws [A]. Each of several feeds of equipment is computed as carrying all that
goes there; the volts that arrive are the least over them. Kirchhoff's laws on a tree: currents add up towards the
pack, drops add up away from it. A regulated outlet gives what it is set to, or what arrives less its headroom;
a switching one draws its power over its efficiency from what arrives.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from docgen.harness.electrical.network import Group, Network, Weights, weights_of
from docgen.harness.wiring.feeds import Branch, Feed

_FREE_ROUNDS = 30
_NEARLY = 1e-3  # off after all rounds, as where it only just settles
_ROUNDS = 400  # of a switching outlet's current; each brings it closer by the share that the drop has of the volts
_CLOSE = 1e-12
_MOST_RATIO = 1000.0  # a switching outlet with next to no volts before it


def best(values: Iterable[float | None]) -> float | None:
    """Return the most of what is known, or nothing where nothing is."""
    return max((value for value in values if value is not None), default=None)


class Flow:
    """Currents and volts for loads, with one pack behind them, at its empty volts.

    `beside` is what branches carry of other supplies, which share a negative [A].
    """

    def __init__(
        self,
        network: Network,
        resistances_ohm: Mapping[Branch, float],
        pack: str,
        loads: Mapping[str, float],
        beside: Mapping[Branch, float] | None = None,
    ) -> None:
        self.network = network
        self.resistances_ohm = resistances_ohm
        self.pack = pack
        self.beside = beside or {}
        self.loads = {load: loads[load] for load in network.behind[pack] if load in loads}
        self.ratios: dict[Group, float] = {}
        self._settle()

    def _settle(self) -> None:
        """Add the currents up, again with better ratios where outlets switch.

        Where they do not settle, what arrives can't carry the load: such outlets give nothing.
        """
        self.collapsed: frozenset[Group] = frozenset()
        switching = self.network.switching.get(self.pack, ())
        off = 0.0
        for number in range(_ROUNDS):
            self._add_up()
            wanted = {group: self._ratio(group) for group in switching}
            now = {group: self.ratios.get(group, 1.0) for group in wanted}
            off = max((abs(wanted[group] / now[group] - 1) for group in wanted), default=0.0)
            if off < _CLOSE:
                if max(wanted.values(), default=0.0) < _MOST_RATIO:
                    return
                break
            half = number >= _FREE_ROUNDS  # of the way, so that it does not swing for ever
            self.ratios = {group: (now[group] + wanted[group]) / 2 if half else wanted[group] for group in wanted}
        if off < _NEARLY and max(self.ratios.values(), default=0.0) < _MOST_RATIO:
            return
        self.collapsed = frozenset(switching)
        self.ratios = dict.fromkeys(self.collapsed, 1.0)
        self._add_up()

    def _is_behind(self, name: str) -> bool:
        return self.pack in self.network.packs[name]

    def _add_up(self) -> None:
        plain = self.network.weights
        self.weights = {
            load: plain[load]
            if self.ratios.keys().isdisjoint(plain[load].groups)
            else weights_of(self.network, load, self.ratios)
            for load in self.loads
        }
        self.sums = Weights()
        for load, amps in self.loads.items():
            self.sums.add(self.weights[load], amps)
        self._volts: dict[str, float | None] = {}

    def branch_a(self, branch: Branch) -> float:
        """Return the current in a branch [A]."""
        return self.sums.branches.get(branch, 0.0)

    def node_a(self, name: str) -> float:
        """Return what goes into equipment, or what a pack gives [A]."""
        return self.sums.nodes.get(name, 0.0)

    def _ratio(self, group: Group) -> float:
        output = self.network.outputs[group]
        arriving = self.volts(group[0])
        given = self.outlet_volts(group)
        if not arriving or given is None or arriving * _MOST_RATIO <= given or not output.efficiency:
            return _MOST_RATIO
        return given / (output.efficiency * arriving)

    def volts(self, name: str) -> float | None:
        """Return the volts that arrive at equipment (of a pack: what it gives), nothing where none do."""
        if name not in self._volts:
            above: list[str] = [name]
            while above:  # without recursion, as ways may be long
                missing = [feed.source for feed in self._feeds(above[-1]) if feed.source not in self._volts]
                if missing:
                    above += missing
                    continue
                node = above.pop()
                self._volts[node] = self._arriving(node)
        return self._volts[name]

    def _feeds(self, name: str) -> Iterable[Feed]:
        return [feed for feed in self.network.into.get(name, ()) if self._is_behind(feed.source)]

    def _arriving(self, name: str) -> float | None:
        battery = self.network.equipment[name].battery
        if battery is not None:
            if name != self.pack:
                return None
            return max(battery.empty_v - self.node_a(name) * (battery.resistance_ohm or 0.0), 0.0)
        given = [(feed, self.outlet_volts(self.network.outlet(feed))) for feed in self._feeds(name)]
        arriving = [volts - self.drop_v(feed) for feed, volts in given if volts is not None]
        return max(min(arriving), 0.0) if arriving else None

    def outlet_volts(self, group: Group) -> float | None:
        """Return what a group of ports gives: what arrives, or what it is regulated to."""
        arriving = self.volts(group[0])
        output = self.network.outputs.get(group)
        if arriving is None or output is None:
            return arriving
        if group in self.collapsed:
            return 0.0
        return max(min(output.volts_v, arriving - output.headroom_v), 0.0)

    def drop_v(self, feed: Feed) -> float:
        """Return the drop of a feed, out and back, from its outlet to its load."""
        ohms, beside = self.resistances_ohm, self.beside
        return sum(
            ohms.get(branch, 0.0) * (self.branch_a(branch) + beside.get(branch, 0.0))
            for branch in (*feed.out, *feed.back)
        )
