"""Follow a circuit through its disconnects: one segment for each lead, with its ends and its route."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from docgen.basics.findings import Finding, Refused, listed, shown
from docgen.definition.ends import Port, find_port
from docgen.definition.harness import Circuit
from docgen.definition.model import Definition
from docgen.harness.model.airframe import Route
from docgen.harness.model.joints import Half
from docgen.harness.routing.airframe import Routes


@dataclass(frozen=True)
class Stop:
    """Where a segment ends: a port, a half of a disconnect (0 or 1), commons there, or a splice."""

    place: str
    port: Port | None = None
    disconnect: str = ""
    half: int = 0
    commons: tuple[str, ...] = ()
    splice: bool = False


@dataclass(frozen=True)
class Segment:
    """One lead's route."""

    start: Stop
    goal: Stop
    route: Route


@dataclass
class CircuitRoute:
    """What was found of a circuit's route; with findings it has no segments."""

    segments: list[Segment] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


def build_halves(definition: Definition, name: str) -> tuple[Half, Half]:
    """Return both halves of a disconnect; one that does not say pins or sockets mates with the other."""
    disconnect = definition.disconnects[name]
    first, second = disconnect.both
    genders = {"pins": "sockets", "sockets": "pins"}
    first_gender = first.contacts or genders[second.contacts or "pins"]
    names = ("fixed", "loose")
    if disconnect.halves is not None:
        assemblies = [definition.places[half.place].assembly for half in disconnect.both]
        names = (assemblies[0], assemblies[1])
        if assemblies[0] == assemblies[1]:
            names = ("supply side", "load side")
    return (
        Half(names[0], first.place, first_gender, first.reach is None, first.reach or 0, first.key),
        Half(names[1], second.place, genders[first_gender], False, second.reach or 0, second.key),
    )


class RouteFinder:
    """Finds circuits' routes in one definition."""

    def __init__(self, definition: Definition, routes: Routes) -> None:
        self.definition = definition
        self.runs_are_known = not any(section == "runs" for section, _ in definition.broken)
        self.routes = routes
        self.halves = {
            name: build_halves(definition, name)
            for name, disconnect in definition.disconnects.items()
            if all(half.place in definition.places for half in disconnect.both)
        }

    def find(self, name: str, circuit: Circuit) -> CircuitRoute:
        """Return the segments of one circuit, or what is wrong with its route."""
        found = CircuitRoute()
        try:
            goals = [self._goal(words) for words in circuit.to.ends]
            start = self._start(circuit, goals)
        except Refused:
            return found  # said where ends are checked
        if start is None or any(goal is None for goal in goals) or start.disconnect in circuit.through:
            return found
        known_goals = [goal for goal in goals if goal is not None]
        if circuit.lead is None:
            found.findings += self._across(name, circuit, start.place, known_goals[0].place)
            if not found.findings:
                self._lay(name, circuit, [(start, known_goals[0])], found)
            return found
        if len(set(circuit.through)) == len(circuit.through):  # else said where circuits are checked
            self._through(name, circuit, start, known_goals, found)
        return found

    def _goal(self, words: tuple[str, ...]) -> Stop | None:
        """Return where a circuit ends; which half of a disconnect with commons is known when it gets there."""
        if words[0] in self.halves and words[0] not in self.definition.equipment:
            return Stop(self.halves[words[0]][0].place, None, words[0], 0, words[1:])
        if words[0] not in self.definition.equipment:
            return None
        port = find_port(self.definition, words)
        return Stop(self._place_of(port), port)

    def _start(self, circuit: Circuit, goals: list[Stop | None]) -> Stop | None:
        """Return where a circuit begins; at commons, the half from which it gets on."""
        words = circuit.start.ends[0]
        stop = self._goal(words)
        if stop is None or not stop.commons:
            return stop
        onward = [half.place for half in self.halves.get(circuit.through[0], ())] if circuit.through else []
        if not circuit.through and circuit.split is not None:
            onward = [circuit.split.place]
        elif not circuit.through:
            onward = [goal.place for goal in goals if goal is not None]
        assemblies = {self._assembly(place) for place in onward}
        halves = self.halves[stop.disconnect]
        fitting = [i for i in (0, 1) if self._assembly(halves[i].place) in assemblies] or [1]
        return replace(stop, place=halves[fitting[-1]].place, half=fitting[-1])

    def _through(self, name: str, circuit: Circuit, start: Stop, goals: list[Stop], found: CircuitRoute) -> None:
        here = start
        pairs: list[tuple[Stop, Stop]] = []
        for index, disconnect in enumerate(circuit.through):
            near = self._near_half(disconnect, here.place)
            if near is None:
                found.findings.append(self._out_of_place(name, ("through", index), disconnect, here.place))
                return
            halves = self.halves[disconnect]
            pairs.append((here, Stop(halves[near].place, None, disconnect, near)))
            here = Stop(halves[1 - near].place, None, disconnect, 1 - near)
        if circuit.split is not None:
            splice = Stop(circuit.split.place, splice=True)
            found.findings += self._across(name, circuit, here.place, splice.place)
            pairs.append((here, splice))
            here = splice
        for index, goal in enumerate(goals):
            at = goal
            if goal.commons:
                near = self._near_half(goal.disconnect, here.place)
                if near is None:
                    found.findings.append(self._out_of_place(name, ("to", index), goal.disconnect, here.place))
                    return
                at = replace(goal, place=self.halves[goal.disconnect][near].place, half=near)
            elif not found.findings:
                found.findings += self._across(name, circuit, here.place, at.place, index)
            pairs.append((here, at))
        if not found.findings:
            self._lay(name, circuit, pairs, found)

    def _lay(self, name: str, circuit: Circuit, pairs: list[tuple[Stop, Stop]], found: CircuitRoute) -> None:
        """Find the route of each segment, by the places that the builder forces."""
        forced = list(circuit.by)
        for near_stop, far_stop in pairs:
            stops_by = self._take(forced, self._assembly(near_stop.place))
            route = self.routes.shortest([near_stop.place, *stops_by, far_stop.place])
            if route is None and not self.runs_are_known:
                route = Route((near_stop.place, far_stop.place), (), 0.0)
            if route is None:
                found.findings.append(self._no_route(name, near_stop.place, far_stop.place))
            else:
                found.segments.append(Segment(near_stop, far_stop, route))
        if forced:
            position = self.definition.where.value("circuits", name, "by", len(circuit.by) - len(forced))
            sentence = f"the route does not come by {shown(forced[0])} in this order."
            do = "Name places in the assemblies that it passes, in the order of the route."
            found.findings.append(Finding(position, "route", sentence, do, ("circuits", name)))
        if found.findings:
            found.segments = []

    def _assembly(self, place: str) -> str:
        return self.definition.places[place].assembly

    def _place_of(self, port: Port) -> str:
        equipment = self.definition.equipment[port.equipment]
        if port.group.lead is not None and equipment.plug_at is not None:
            return equipment.plug_at
        return equipment.place

    def _take(self, forced: list[str], assembly: str) -> list[str]:
        taken = []
        while forced and self._assembly(forced[0]) == assembly:
            taken.append(forced.pop(0))
        return taken

    def _near_half(self, disconnect: str, place: str) -> int | None:
        """Return the half that is met first; of two in one assembly the supply side's, or the nearer."""
        halves = self.halves[disconnect]
        here = [i for i in (0, 1) if self._assembly(halves[i].place) == self._assembly(place)]
        if len(here) == 2 and halves[0].fixed:
            routes = [self.routes.shortest([place, half.place]) for half in halves]
            return min((0, 1), key=lambda i: (math.inf if (route := routes[i]) is None else route.length_mm, i))
        return here[0] if here else None

    def _across(self, name: str, circuit: Circuit, here: str, goal: str, index: int = 0) -> Iterator[Finding]:
        """Find out whether the last segment reaches the goal's assembly."""
        at, end = self._assembly(here), self._assembly(goal)
        if at == end:
            return
        chain = self._chain(at, end)
        do = f"Add `{chain}` to `through:`." if chain else "Name a disconnect that joins them."
        if circuit.lead is None:
            do = "Give it a `lead:`, and name in `through:` the disconnect that it passes."
        where = self.definition.where
        position = where.value("circuits", name, "through") if circuit.through else where.key("circuits", name)
        if circuit.split is not None and goal != circuit.split.place:
            do = "Put the splice into the assembly of its branches: what is through comes before it."
            position = where.value("circuits", name, "to", index)
        sentence = f"it comes to {shown(at)} but ends in {shown(end)}, with no disconnect between."
        yield Finding(position, "through", sentence, do, ("circuits", name))

    def _chain(self, start: str, end: str) -> str:
        """Return the fewest disconnects that lead from one assembly to another."""
        queue = deque([(start, tuple[str, ...]())])
        seen = {start}
        while queue:
            assembly, chain = queue.popleft()
            if assembly == end:
                return ", ".join(chain)
            for name, halves in self.halves.items():
                sides = [self._assembly(half.place) for half in halves]
                for near, far in (sides, sides[::-1]):
                    if near == assembly and far not in seen:
                        seen.add(far)
                        queue.append((far, (*chain, name)))
        return ""

    def _out_of_place(self, name: str, path: tuple[str, int], disconnect: str, here: str) -> Finding:
        joins = sorted({self._assembly(half.place) for half in self.halves[disconnect]})
        at = shown(self._assembly(here))
        sentence = f"{shown(disconnect)} joins {listed(joins)}, but the circuit is in {at} there."
        position = self.definition.where.value("circuits", name, *path)
        do = "Name disconnects in the order in which the circuit passes them, from its `from` on."
        return Finding(position, "through", sentence, do, ("circuits", name))

    def _no_route(self, name: str, start: str, goal: str) -> Finding:
        sentence = f"no runs lead from {shown(start)} to {shown(goal)}."
        do = "Add the run that is missing to `runs:`."
        return Finding(self.definition.where.key("circuits", name), "route", sentence, do, ("circuits", name))
