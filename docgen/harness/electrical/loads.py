"""Take the loads of a network and return what they draw [A]: working, stalled, stalled together at peak, and jammed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.definition.equipment import Gear
from docgen.harness.electrical.network import Network, Supply
from docgen.harness.model.equipment import Equipment
from docgen.harness.wiring.feeds import Branch

_BRIEF_S = 10.0  # how long a contact stands its brief current; common practice, no source


@frozen
class Loads:
    """What all loads of a network draw; of each supply so many stall `together` at peak."""

    network: Network
    together: int

    @cached_property
    def working_a(self) -> dict[str, float]:
        """Return what each load draws working, 0 A if that is said; one of which no current is said is not among them.

        A pack, which may be charged over a lead, draws nothing.
        """
        return {name: _working_a(entry) for name, entry in self.network.equipment.items() if _draws(entry)}

    @cached_property
    def added_a(self) -> dict[str, float]:
        """Return what each load that can stall draws more then than working, by what it stalls at."""
        return {
            name: max(entry.load.stall_a - _working_a(entry), 0.0)
            for name, entry in self.network.equipment.items()
            if entry.load is not None and entry.load.stall_a is not None
        }

    @cached_property
    def briefly_added_a(self) -> dict[str, float]:
        """Return what each load draws more than working for a short while: stalled, or up to the stop of a gear leg."""
        stops = {name: stop_a for name in self.working_a if (stop_a := self._set(name, lambda gear: gear.stop_a))}
        added_a = {name: max(stop_a - self.working_a[name], 0.0) for name, stop_a in stops.items()}
        return self.added_a | {name: min(more_a, self.added_a.get(name, more_a)) for name, more_a in added_a.items()}

    @cached_property
    def peak_a(self) -> dict[str, float]:
        """Return what each load draws where those of each supply that have the most to add stall together."""
        stalling = {name for supply in self.network.supplies for name in self._stalling(supply)}
        added_a = self.briefly_added_a
        return {name: amps + added_a[name] if name in stalling else amps for name, amps in self.working_a.items()}

    def stalled_a(self, name: str, working_a: Mapping[str, float]) -> Mapping[str, float]:
        """Return what each of some loads draws where one that can stall does, and all else works."""
        return {**working_a, name: working_a[name] + self.added_a[name]} if name in working_a else working_a

    @cached_property
    def through(self) -> tuple[frozenset[str], frozenset[Branch]]:
        """Return all equipment and branches through which current of loads comes from packs."""
        weights = [self.network.weights[name] for name in self.working_a if self.network.packs[name]]
        nodes = (node for each in weights for node in each.nodes)
        return frozenset(nodes), frozenset(branch for each in weights for branch in each.branches)

    def _stalling(self, supply: Supply) -> list[str]:
        """Return the loads that stall together; one controller's legs count as one."""
        groups: dict[str, list[str]] = {}
        for name in supply.members:
            if self.briefly_added_a.get(name, 0.0) > 0:
                groups.setdefault(self._controller_of(name) or name, []).append(name)
        added_a = self.briefly_added_a
        most = sorted(groups.values(), key=lambda names: -sum(added_a[name] for name in names))  # ties as written
        return [name for names in most[: self.together] for name in names]

    def _controller_of(self, name: str) -> str | None:
        """Return the gear controller of a gear leg."""
        if self.network.equipment[name].kind != "gear leg":
            return None
        above = [feed.source for feed in self.network.into.get(name, ())]
        return next((n for n in above if self.network.equipment[n].kind == "gear controller"), None)

    @cached_property
    def jammed_a(self) -> list[dict[str, float]]:
        """Return for each gear controller what its legs draw more than working, all jammed together.

        Only those that it feeds for longer than a contact stands its brief current: with their stop, else their stall.
        """
        legs: dict[str, dict[str, float]] = {}
        for name, more_a in self.briefly_added_a.items():
            limit_s = self._set(name, lambda gear: gear.limit_s)
            if limit_s is not None and limit_s > _BRIEF_S:
                legs.setdefault(self._controller_of(name) or name, {})[name] = more_a
        return list(legs.values())

    @cached_property
    def jammed_with(self) -> dict[str, dict[str, float]]:
        """Return for each leg that may jam the legs that jam together with it."""
        return {name: legs for legs in self.jammed_a for name in legs}

    def _set(self, name: str, of: Callable[[Gear], float | None]) -> float | None:
        """Return what is set for a gear leg, as it says it, else as its controller does; nothing for other loads."""
        entry, controller = self.network.equipment[name], self._controller_of(name)
        gears = [self.network.equipment[each].form.gear for each in (name, controller) if each is not None]
        said = (of(gear) for gear in gears if gear is not None and entry.kind == "gear leg")
        return next((value for value in said if value is not None), None)


def _draws(entry: Equipment) -> bool:
    load = entry.load
    return load is not None and (load.working_a is not None or load.stall_a is not None) and entry.battery is None


def _working_a(entry: Equipment) -> float:
    return (entry.load.working_a or 0.0) if entry.load else 0.0
