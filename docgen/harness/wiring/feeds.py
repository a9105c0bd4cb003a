"""Take planned circuits and return what feeds what: each circuit's current followed back to an outlet, over commons."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property
from typing import NamedTuple

from docgen.basics.frozen import frozen
from docgen.definition.ends import Port
from docgen.definition.model import Definition
from docgen.harness.routing.segments import HalfStop, PortStop, SpliceStop
from docgen.harness.wiring.plans import Plan, common_at


# Branches are tuples, as they are the keys of every table of currents, and a tuple is hashed and compared quickest.
class WireBranch(NamedTuple):
    """The wire of a role in a circuit's segment, as a piece of a path of current."""

    circuit: str
    segment: int
    role: str


class CommonBranch(NamedTuple):
    """A common of a disconnect, as a piece of a path of current."""

    disconnect: str
    common: str


Branch = WireBranch | CommonBranch


@frozen
class Feed:
    """A circuit that carries supply from an outlet of one piece of equipment to a port of another.

    `out` and `back` are the pieces that its current passes, from the load on; `back_to` is where it returns.
    """

    circuit: str
    source: str
    load: str
    load_port: str
    outlet: str = ""
    out: tuple[Branch, ...] = ()
    back: tuple[Branch, ...] = ()
    back_to: str | None = None


@frozen
class _Path:
    """A path back to a port; `heavies` are the circuits that brought the current to commons, by disconnect."""

    port: Port
    branches: tuple[Branch, ...]
    heavies: dict[str, str] = field(default_factory=dict)

    def after(self, *branches: Branch) -> _Path:
        """Return it with branches before its own."""
        return _Path(self.port, (*branches, *self.branches), self.heavies)


class FeedFinder:
    """Finds the feeds of planned circuits; commons that feed themselves or that nothing feeds are kept."""

    def __init__(self, definition: Definition, plans: Mapping[str, Plan]) -> None:
        self.definition = definition
        self.plans = plans
        self.circling: dict[str, CommonBranch] = {}
        self.unfed: dict[str, CommonBranch] = {}
        self._feeders: dict[CommonBranch, list[tuple[Plan, int]]] = {}

    def feeds(self) -> list[Feed]:
        """Return the feeds of all circuits that carry supply to equipment, several where several pairs feed it."""
        return [feed for plan in self.plans.values() for index in plan.form.last for feed in self._of_load(plan, index)]

    def feeders(self, disconnect: str, common: str) -> list[tuple[Plan, int]]:
        """Return what brings the current to a common: heavy pairs that end there, else the first member that does.

        Its return goes the same way where the negative has a common there too, else over the circuit's own negative.
        """
        key = CommonBranch(disconnect, common)
        if key not in self._feeders:
            heavies = [
                (plan, plan.form.last[-1]) for plan, goal in self._ending.get(disconnect, ()) if common in goal.commons
            ]
            self._feeders[key] = heavies or self._members(disconnect, common)[:1]
        return self._feeders[key]

    @cached_property
    def _ending(self) -> dict[str, list[tuple[Plan, HalfStop]]]:
        """Return the circuits that end at each disconnect."""
        ending: dict[str, list[tuple[Plan, HalfStop]]] = {}
        for plan in self.plans.values():
            goal = plan.segments[-1].goal
            if isinstance(goal, HalfStop):
                ending.setdefault(goal.disconnect, []).append((plan, goal))
        return ending

    def _members(self, disconnect: str, common: str) -> list[tuple[Plan, int]]:
        """Return the members that bring the role themselves, with the segment that does."""
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
            (plan.name, path.port.equipment)
            for plan, index in bringing
            for path in self._back(plan, index, form.role, {})
        ]

    def _of_load(self, plan: Plan, index: int) -> list[Feed]:
        goal = plan.segments[index].goal
        if not plan.poles or not isinstance(goal, PortStop):
            return []
        feeds = []
        for path in self._back(plan, index, plan.poles[0], {}):
            paths_back = self._back(plan, index, plan.poles[1], path.heavies) if len(plan.poles) > 1 else []
            back = paths_back[0].branches if paths_back else ()
            back_to = paths_back[0].port.equipment if paths_back else None
            load = goal.port
            source, outlet = path.port.equipment, path.port.name
            feeds.append(Feed(plan.name, source, load.equipment, load.name, outlet, path.branches, back, back_to))
        return feeds

    def _back(
        self, plan: Plan, index: int, role: str, heavies: Mapping[str, str], seen: frozenset[CommonBranch] = frozenset()
    ) -> list[_Path]:
        """Return the paths back from a segment; `heavies` are circuits to go on with, if a common has them.

        A member that brings the role itself carries its own current over its own wires, heavy pair or not.
        """
        if role not in plan.roles[index]:
            return []
        branch = WireBranch(plan.name, index, role)
        start, before = plan.segments[index].start, plan.form.before(index)
        if isinstance(start, PortStop):
            return [_Path(start.port, (branch,))]
        common = common_at(self.definition, start.disconnect, plan.name, role) if isinstance(start, HalfStop) else None
        if isinstance(start, SpliceStop) or common is None:
            return [path.after(branch) for path in self._back(plan, before, role, heavies, seen)] if before >= 0 else []
        shared = CommonBranch(start.disconnect, common)
        feeders = self.feeders(start.disconnect, common)
        wanted = [(other, at) for other, at in feeders if other.name == heavies.get(start.disconnect)]
        if before >= 0 and role in plan.roles[before] and not wanted:
            return [path.after(branch, shared) for path in self._back(plan, before, role, heavies, seen)]
        if shared in seen:
            self.circling[plan.name] = shared
            return []
        if not feeders:
            self.unfed[plan.name] = shared
        return [
            _Path(path.port, (branch, shared, *path.branches), {start.disconnect: other.name, **path.heavies})
            for other, at in wanted or feeders
            for path in self._back(other, at, role, heavies, seen | {shared})
        ]
