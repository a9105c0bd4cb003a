"""Take a circuit and return its segments, one for each lead: what is at their two ends, and their routes.

What is missing (`route`, `through`) is found at the circuit's key, a disconnect out of place at its item.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from docgen.basics.findings import Finding, Refused, listed, shown
from docgen.basics.frozen import frozen
from docgen.definition.ends import Port, find_port
from docgen.definition.harness import Circuit
from docgen.definition.model import Definition
from docgen.definition.own_leads import own_halves
from docgen.harness.model.airframe import Route
from docgen.harness.model.joints import Half
from docgen.harness.routing.crossings import Crossings
from docgen.harness.routing.halves import build_halves
from docgen.harness.routing.routes import Routes


@frozen
class PortStop:
    """A port of equipment, at the place where its plug lies."""

    place: str
    port: Port

    @property
    def text(self) -> str:
        """Say it as it is written in a circuit."""
        return self.port.text


@frozen
class HalfStop:
    """A half of a disconnect; a circuit that begins or ends there names `commons`."""

    disconnect: str
    half: Half
    commons: tuple[str, ...] = ()

    @property
    def place(self) -> str:
        """Return where the half is."""
        return self.half.place

    @property
    def text(self) -> str:
        """Say it as it is written in a circuit."""
        return self.disconnect


@frozen
class SpliceStop:
    """Where a circuit divides, in the assembly of its branches: what is `through` comes before it."""

    place: str


Stop = PortStop | HalfStop | SpliceStop


@frozen
class Segment:
    """The route of one lead, under the letter that it has in its circuit."""

    letter: str
    start: Stop
    goal: Stop
    route: Route


class SegmentFinder:
    """Follows circuits through the disconnects of one definition."""

    def __init__(self, definition: Definition, routes: Routes) -> None:
        self.definition = definition
        self.runs_are_known = not any(section == "runs" for section, _ in definition.broken)
        self.routes = routes
        own = own_halves(definition)
        self.halves = build_halves(definition, routes, own)
        self._crossings = Crossings(
            {name: (self._assembly(one.place), self._assembly(two.place)) for name, (one, two) in self.halves.items()}
        )
        self.own_ports = {(half.port.equipment, half.port.name) for half in own.values()}
        # The half that is met first where one is the plug on an own lead.
        self._met_first = {half.disconnect: half.index if half.first else 1 - half.index for half in own.values()}

    def find(self, name: str, circuit: Circuit) -> tuple[list[Segment], list[Finding]]:
        """Return the segments of one circuit, or what is wrong with its route; neither where that is said elsewhere."""
        try:
            start, *goals = [self._named(words) for words in circuit.ends]
        except Refused:
            return [], []  # said where ends are checked
        known_goals = [goal for goal in goals if goal is not None]
        start = self._on_the_way(circuit, start, known_goals) if isinstance(start, HalfStop) else start
        if start is None or len(known_goals) < len(goals) or len(set(circuit.through)) < len(circuit.through):
            return [], []  # said where circuits are checked
        if isinstance(start, HalfStop) and start.disconnect in circuit.through:
            return [], []  # likewise
        if circuit.lead is None:
            pairs: list[tuple[Stop, Stop]] = [(start, known_goals[0])]
            findings = list(self._across(name, circuit, start.place, known_goals[0].place))
        else:
            pairs, findings = self._through(name, circuit, start, known_goals)
        return ([], findings) if findings else self._lay(name, circuit, pairs)

    def _named(self, words: tuple[str, ...]) -> PortStop | HalfStop | None:
        """Return what an end names; which half of a disconnect with commons is known when the circuit gets there."""
        if words[0] in self.definition.equipment:
            port = find_port(self.definition, words)
            equipment = self.definition.equipment[port.equipment]
            plug_at = equipment.plug_at if port.has_own_lead else None
            return PortStop(plug_at or equipment.place, port)
        return HalfStop(words[0], self.halves[words[0]][0], words[1:]) if words[0] in self.halves else None

    def _on_the_way(self, circuit: Circuit, start: HalfStop, goals: list[PortStop | HalfStop]) -> HalfStop:
        """Return commons where a circuit begins at the half from which it gets on."""
        if circuit.through:
            onward = [half.place for half in self.halves.get(circuit.through[0], ())]
        elif circuit.split is not None:
            onward = [circuit.split.place]
        else:
            onward = [goal.place for goal in goals]
        assemblies = {self._assembly(place) for place in onward}
        halves = self.halves[start.disconnect]
        fitting = [half for half in halves if self._assembly(half.place) in assemblies]
        return replace(start, half=(fitting or halves)[-1])

    def _through(
        self, name: str, circuit: Circuit, start: Stop, goals: list[PortStop | HalfStop]
    ) -> tuple[list[tuple[Stop, Stop]], list[Finding]]:
        """Return the ends of each segment of a circuit with leads, or what is out of place."""
        here = start
        pairs: list[tuple[Stop, Stop]] = []
        findings: list[Finding] = []
        for index, disconnect in enumerate(circuit.through):
            near = self._near_half(disconnect, here.place)
            if near is None:
                return [], [self._out_of_place(name, ("through", index), here.place, self._next(circuit, index, goals))]
            pairs.append((here, HalfStop(disconnect, near)))
            here = HalfStop(disconnect, next(half for half in self.halves[disconnect] if half is not near))
        if circuit.split is not None:
            splice = SpliceStop(circuit.split.place)
            findings += self._across(name, circuit, here.place, splice.place)
            pairs.append((here, splice))
            here = splice
        for index, goal in enumerate(goals):
            if isinstance(goal, HalfStop):
                near = self._near_half(goal.disconnect, here.place)
                if near is None:
                    return [], [*findings, self._out_of_place(name, ("to", index), here.place, ())]
                pairs.append((here, replace(goal, half=near)))
            else:
                findings += self._across(name, circuit, here.place, goal.place, index) if not findings else ()
                pairs.append((here, goal))
        return pairs, findings

    def _lay(self, name: str, circuit: Circuit, pairs: list[tuple[Stop, Stop]]) -> tuple[list[Segment], list[Finding]]:
        """Find the route of each segment, by the places that the builder forces."""
        forced = list(circuit.by)
        segments: list[Segment] = []
        findings: list[Finding] = []
        for letter, (start, goal) in zip(circuit.letters, pairs, strict=True):
            stops = [start.place]
            while forced and self._assembly(forced[0]) == self._assembly(start.place):
                stops.append(forced.pop(0))
            route = self.routes.route([*stops, goal.place])
            if route is None and not self.runs_are_known:
                route = Route((start.place, goal.place), (), None)
            if route is not None and set(route.places) == {start.place}:
                route = replace(route, length_mm=self.definition.places[start.place].across_mm or 0.0)
            if route is None:
                sentence = f"no runs lead from {shown(start.place)} to {shown(goal.place)}."
                do = "Add the run that is missing to `runs:`."
                position = self.definition.where.key("circuits", name)
                findings.append(Finding(position, "route", sentence, do, ("circuits", name)))
            else:
                segments.append(Segment(letter, start, goal, route))
        if forced:
            path = "circuits", name, "by", len(circuit.by) - len(forced)
            sentence = f"the route does not come by {shown(forced[0])} in this order."
            do = "Name places in the assemblies that it passes, in the order of the route."
            findings.append(self.definition.wrong("route", path, sentence, do))
        return ([], findings) if findings else (segments, [])

    def _assembly(self, place: str) -> str:
        return self.definition.places[place].assembly

    def _near_half(self, disconnect: str, place: str) -> Half | None:
        """Return the half that is met first; of two in one assembly the first of `halves`, of `fixed` the nearer."""
        here = [half for half in self.halves[disconnect] if self._assembly(half.place) == self._assembly(place)]
        if len(here) == 2 and disconnect in self._met_first:
            return here[self._met_first[disconnect]]
        if len(here) == 2 and here[0].fixed:
            apart = self.routes.apart(place, [half.place for half in here])
            return min(here, key=lambda half: apart[half.place])
        return here[0] if here else None

    def _across(self, name: str, circuit: Circuit, here: str, goal: str, index: int = 0) -> Iterator[Finding]:
        """Find out whether the last segment reaches the goal's assembly."""
        at, end = self._assembly(here), self._assembly(goal)
        if at == end:
            return
        before = None
        if circuit.through:
            last = circuit.through[-1]
            near = next((half for half in self.halves[last] if half.place != here), self.halves[last][0])
            before = last, self._assembly(near.place)
        do = self._crossings.onward(at, end, before)
        if circuit.lead is None:
            do = "Give it a `lead:`, and name in `through:` the disconnect that it passes."
        where = self.definition.where
        position = where.value("circuits", name, "through") if circuit.through else where.key("circuits", name)
        if circuit.split is not None and goal != circuit.split.place:
            do = "Put the splice into the assembly of its branches: what is through comes before it."
            position = where.value("circuits", name, "to", index)
        sentence = f"it comes to {shown(at)} but ends in {shown(end)}, with no disconnect between."
        yield Finding(position, "through", sentence, do, ("circuits", name))

    def _next(self, circuit: Circuit, index: int, goals: Sequence[PortStop | HalfStop]) -> tuple[str, ...]:
        """Return the assemblies to one of which the disconnect at an index has to lead."""
        if index + 1 < len(circuit.through):
            return self._crossings.sides.get(circuit.through[index + 1], ())
        return (self._assembly(circuit.split.place if circuit.split is not None else goals[0].place),)

    def _out_of_place(self, name: str, path: tuple[str, int], here: str, ends: Collection[str]) -> Finding:
        circuit = self.definition.circuits[name]
        disconnect = circuit.through[path[1]] if path[0] == "through" else circuit.to[path[1]][0]
        at, joins = self._assembly(here), list(dict.fromkeys(self._crossings.sides[disconnect]))
        sentence = f"{shown(disconnect)} joins {listed(joins)}, but the circuit is in {shown(at)} there."
        do = self._crossings.instead(disconnect, at, ends, circuit.through[: path[1]])
        return self.definition.wrong("through", ("circuits", name, *path), sentence, do)
