"""Follow every circuit's current back to the outlet that it hangs on, over commons where it comes from those."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from docgen.definition.ends import Port
from docgen.definition.model import Definition
from docgen.harness.wiring.plans import Plan, common_at


class Step(NamedTuple):
    """One piece of a way of current: the wire of a role in a circuit's stretch, or a common of a disconnect.

    A tuple, as it is the key of every table of branches, and a tuple is hashed and compared quickest.
    """

    role: str
    circuit: str = ""
    stretch: int = 0
    disconnect: str = ""
    common: str = ""


@dataclass(frozen=True)
class Feed:
    """A circuit that carries supply from an outlet of one piece of equipment to a port of another.

    `out` and `back` are the pieces that its current passes, from the load on; `back_to` is where it returns.
    """

    circuit: str
    source: str
    load: str
    load_port: str
    outlet: str = ""
    out: tuple[Step, ...] = ()
    back: tuple[Step, ...] = ()
    back_to: str = ""


@dataclass(frozen=True)
class _Way:
    """A way back to a port; `heavies` are the circuits that brought the current to commons, by disconnect."""

    port: Port
    steps: tuple[Step, ...]
    heavies: dict[str, str] = field(default_factory=dict)

    def after(self, *steps: Step) -> _Way:
        """Return it with steps before its own."""
        return _Way(self.port, (*steps, *self.steps), self.heavies)


class FeedFinder:
    """Finds the feeds of planned circuits; commons that feed themselves or that nothing feeds are kept."""

    def __init__(self, definition: Definition, plans: Mapping[str, Plan]) -> None:
        self.definition = definition
        self.plans = plans
        self.circling: dict[str, tuple[str, str]] = {}
        self.unfed: dict[str, tuple[str, str]] = {}
        self._feeders: dict[tuple[str, str], list[tuple[Plan, int]]] = {}

    def feeds(self) -> list[Feed]:
        """Return the feeds of all circuits that carry supply to equipment, several where several pairs feed it."""
        return [feed for plan in self.plans.values() for index in plan.ends for feed in self._of_load(plan, index)]

    def feeders(self, disconnect: str, common: str) -> list[tuple[Plan, int]]:
        """Return what brings the current to a common: heavy pairs that end there, else the first member that does."""
        key = disconnect, common
        if key not in self._feeders:
            heavies = [
                (plan, plan.ends[-1])
                for plan in self.plans.values()
                if (goal := plan.stretches[-1].goal).disconnect == disconnect and common in goal.commons
            ]
            self._feeders[key] = heavies or self._members(disconnect, common)[:1]
        return self._feeders[key]

    def _members(self, disconnect: str, common: str) -> list[tuple[Plan, int]]:
        """Return the members that bring the role themselves, with the stretch that does."""
        form = self.definition.disconnects[disconnect].commons[common]
        passing = [self.plans[name] for name in form.circuits if name in self.plans]
        nears = [(plan, plan.form.through.index(disconnect)) for plan in passing if disconnect in plan.form.through]
        return [(plan, near) for plan, near in nears if form.role in plan.roles[near]]

    def sources(self, disconnect: str, common: str) -> list[tuple[str, str]]:
        """Return every circuit that brings a role to a common from the supply side, with the equipment behind it."""
        form = self.definition.disconnects[disconnect].commons[common]
        bringing = self.feeders(disconnect, common)
        bringing = bringing + [member for member in self._members(disconnect, common) if member not in bringing]
        return [
            (plan.name, way.port.equipment)
            for plan, index in bringing
            for way in self._back(plan, index, form.role, {}, frozenset())
        ]

    def _of_load(self, plan: Plan, index: int) -> list[Feed]:
        goal = plan.stretches[index].goal
        if not plan.poles or goal.port is None:
            return []
        feeds = []
        for way in self._back(plan, index, plan.poles[0], {}, frozenset()):
            ways_back = self._back(plan, index, plan.poles[1], way.heavies, frozenset()) if len(plan.poles) > 1 else []
            back = ways_back[0].steps if ways_back else ()
            back_to = ways_back[0].port.equipment if ways_back else ""
            load = goal.port
            source, outlet = way.port.equipment, way.port.name
            feeds.append(Feed(plan.name, source, load.equipment, load.name, outlet, way.steps, back, back_to))
        return feeds

    def _back(
        self, plan: Plan, index: int, role: str, heavies: Mapping[str, str], seen: frozenset[tuple[str, str]]
    ) -> list[_Way]:
        """Return the ways back from a stretch; `heavies` are circuits to go on with, if a common has them."""
        if role not in plan.roles[index]:
            return []
        step = Step(role, circuit=plan.name, stretch=index)
        start, before = plan.stretches[index].start, plan.before(index)
        if start.port is not None:
            return [_Way(start.port, (step,))]
        common = None if start.splice else common_at(self.definition, start.disconnect, plan.name, role)
        if common is None:
            return [way.after(step) for way in self._back(plan, before, role, heavies, seen)] if before >= 0 else []
        shared = Step(role, disconnect=start.disconnect, common=common)
        feeders = self.feeders(start.disconnect, common)
        wanted = [(other, at) for other, at in feeders if other.name == heavies.get(start.disconnect)]
        if before >= 0 and role in plan.roles[before] and not wanted:
            return [way.after(step, shared) for way in self._back(plan, before, role, heavies, seen)]
        if (start.disconnect, common) in seen:
            self.circling[plan.name] = start.disconnect, common
            return []
        if not feeders:
            self.unfed[plan.name] = start.disconnect, common
        beyond = seen | {(start.disconnect, common)}
        return [
            _Way(way.port, (step, shared, *way.steps), {start.disconnect: other.name, **way.heavies})
            for other, at in wanted or feeders
            for way in self._back(other, at, role, heavies, beyond)
        ]
