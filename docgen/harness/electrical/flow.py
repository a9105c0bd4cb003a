"""Take loads and one pack and return currents and volts.

A load is a current that equipment draws [A]. Each of several feeds of equipment is computed as carrying all that
goes there; the volts that arrive are the least over them. Kirchhoff's laws on a tree: currents add up towards the
pack, drops add up away from it. A regulated outlet gives what it is set to, or what arrives less its headroom;
a switching one draws its power over its efficiency from what arrives.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property

from docgen.definition.equipment import Battery
from docgen.harness.electrical.currents import Currents
from docgen.harness.electrical.network import Group, Network, Weights
from docgen.harness.wiring.feeds import Branch, Feed

_FREE_ROUNDS = 30
_NEARLY = 1e-3  # off after all rounds, as where it only just settles
_ROUNDS = 400  # of a switching outlet's current; each brings it closer by the share that the drop has of the volts
_CLOSE = 1e-12
_MOST_RATIO = 1000.0  # a switching outlet with next to no volts before it


def best(values: Iterable[float | None]) -> float | None:
    """Return the most of what is known, or nothing where nothing is."""
    return max((value for value in values if value is not None), default=None)


def empty_v(pack: Battery) -> float:
    """Return what a pack gives where nothing else is said: when it counts as empty [V]."""
    return pack.empty_v


class Flow:
    """Currents and volts for loads behind one pack, at its empty volts; worked out when they are asked for.

    `beside` is what branches carry of other supplies, which share a negative [A]; `pack_v` says other volts of a pack.
    """

    def __init__(
        self,
        network: Network,
        resistances_ohm: Mapping[Branch, float],
        pack: str,
        loads: Mapping[str, float],
        beside: Mapping[Branch, float],
        plain: Currents | None = None,
        pack_v: Callable[[Battery], float] = empty_v,
    ) -> None:
        self.network = network
        self.resistances_ohm = resistances_ohm
        self.pack = pack
        self.loads = loads
        self.beside = beside
        self.pack_v = pack_v
        self._plain = plain or Currents(network, loads, {})
        self._first = _Round(self, self._plain)

    def over(self, resistances_ohm: Mapping[Branch, float], beside: Mapping[Branch, float]) -> Flow:
        """Return the flow of the same loads over other resistances."""
        return Flow(self.network, resistances_ohm, self.pack, self.loads, beside, self._plain)

    def at(self, pack_v: Callable[[Battery], float]) -> Flow:
        """Return the flow of the same loads with the pack at other volts."""
        return Flow(self.network, self.resistances_ohm, self.pack, self.loads, self.beside, self._plain, pack_v)

    @cached_property
    def _settled(self) -> _Round:
        """Return the round in which ratios of outlets that switch have settled.

        Where they do not settle, what arrives can't carry the load: such outlets give nothing.
        """
        switching = self.network.switching.get(self.pack, ())
        ratios: dict[Group, float] = {}
        found, off = self._first, 0.0
        for number in range(_ROUNDS):
            found = _Round(self, Currents(self.network, self.loads, ratios)) if ratios else self._first
            wanted = {group: found.ratio(group) for group in switching}
            now = {group: ratios.get(group, 1.0) for group in wanted}
            off = max((abs(wanted[group] / now[group] - 1) for group in wanted), default=0.0)
            if off < _CLOSE:
                if max(wanted.values(), default=0.0) < _MOST_RATIO:
                    return found
                break
            half = number >= _FREE_ROUNDS  # of the way, so that it does not swing for ever
            ratios = {group: (now[group] + wanted[group]) / 2 if half else wanted[group] for group in wanted}
        if off < _NEARLY and max(ratios.values(), default=0.0) < _MOST_RATIO:
            return found
        return _Round(self, self._plain, frozenset(switching))

    def _round(self, *branches: Branch) -> _Round:
        """Return the round that says the currents of branches: any does, where no outlet that switches is below."""
        return self._first if self.network.above_switching.isdisjoint(branches) else self._settled

    @property
    def weights(self) -> Mapping[str, Weights]:
        """Return how much of each load's current passes where."""
        return self._settled.currents.weights

    def known_a(self, branch: Branch) -> float | None:
        """Return the current in a branch [A], nothing where that of no load passes it."""
        return self._round(branch).currents.branch_a(branch)

    def branch_a(self, branch: Branch) -> float:
        """Return the current in a branch [A]."""
        return self.known_a(branch) or 0.0

    def node_a(self, name: str) -> float:
        """Return what goes into equipment, or what a pack gives [A]."""
        return self._settled.currents.node_a(name)

    def group_a(self, group: Group) -> float:
        """Return what a group of ports gives [A]."""
        return self._settled.currents.group_a(group)

    def volts(self, name: str) -> float | None:
        """Return the volts that arrive at equipment (of a pack: what it gives), nothing where none do."""
        return self._settled.volts(name)

    def outlet_volts(self, group: Group) -> float | None:
        """Return what a group of ports gives: what arrives, or what it is regulated to."""
        return self._settled.outlet_volts(group)

    def drop_v(self, feed: Feed) -> float:
        """Return the drop of a feed, out and back, from its outlet to its load."""
        return self._round(*feed.out, *feed.back).drop_v(feed)


class _Round:
    """Volts of a flow with some currents; outlets that have `collapsed` give nothing."""

    def __init__(self, flow: Flow, currents: Currents, collapsed: frozenset[Group] = frozenset()) -> None:
        self.flow = flow
        self.network = flow.network
        self.currents = currents
        self.collapsed = collapsed
        self._into = flow.network.into_behind.get(flow.pack, {})
        self._volts: dict[str, float | None] = {}

    def ratio(self, group: Group) -> float:
        """Return the ratio of an outlet that switches, at the volts that arrive."""
        output = self.network.outputs[group]
        arriving = self.volts(group[0])
        given = self.outlet_volts(group)
        if not arriving or given is None or arriving * _MOST_RATIO <= given or not output.efficiency:
            return _MOST_RATIO
        return given / (output.efficiency * arriving)

    def volts(self, name: str) -> float | None:
        """Return the volts that arrive at equipment."""
        if name not in self._volts:
            above: list[str] = [name]
            while above:  # without recursion, as ways may be long
                missing = [feed.source for feed in self._into.get(above[-1], ()) if feed.source not in self._volts]
                if missing:
                    above += missing
                    continue
                node = above.pop()
                self._volts[node] = self._arriving(node)
        return self._volts[name]

    def _arriving(self, name: str) -> float | None:
        battery = self.network.equipment[name].battery
        if battery is not None:
            if name != self.flow.pack:
                return None
            return max(self.flow.pack_v(battery) - self.currents.node_a(name) * (battery.resistance_ohm or 0.0), 0.0)
        given = [(feed, self.outlet_volts(self.network.outlet(feed))) for feed in self._into.get(name, ())]
        arriving = [volts - self.drop_v(feed) for feed, volts in given if volts is not None]
        return max(min(arriving), 0.0) if arriving else None

    def outlet_volts(self, group: Group) -> float | None:
        """Return what a group of ports gives."""
        arriving = self.volts(group[0])
        output = self.network.outputs.get(group)
        if arriving is None or output is None:
            return arriving
        if group in self.collapsed:
            return 0.0
        return max(min(output.volts_v, arriving - output.headroom_v), 0.0)

    def drop_v(self, feed: Feed) -> float:
        """Return the drop of a feed, out and back."""
        ohms, beside = self.flow.resistances_ohm, self.flow.beside
        return sum(
            [
                ohms.get(branch, 0.0) * ((self.currents.branch_a(branch) or 0.0) + beside.get(branch, 0.0))
                for branch in (*feed.out, *feed.back)
            ]
        )
