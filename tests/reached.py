"""What is left when one thing is taken out of a harness: a graph of everything, and what packs and receivers reach.

It shares no code with what it is held against: current and signal go along directed edges, and what drives its outlets
opens them once it is reached itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import networkx

from docgen.harness.model.circuits import Circuit, Lead
from docgen.harness.model.harness import Harness

PASSES = {"battery", "power switch", "power unit", "regulator", "receiver", "fuse", "key"}
Node = tuple[Any, ...]
SOURCE: Node = ("source",)


class Reached:
    """The graph of a harness with everything in it; `lost` is taken out."""

    def __init__(self, harness: Harness, lost: tuple[str, str] | None = None) -> None:
        self.harness, self.lost = harness, lost
        self.graph = networkx.DiGraph()
        self.graph.add_node(SOURCE)
        self.parts: dict[Node, tuple[tuple[str, str], ...]] = {}
        self.asks: dict[str, list[list[Node]]] = {name: [] for name in harness.equipment}  # inputs, by equipment
        for circuit in harness.circuits.values():
            self._lay(circuit)
        for name, entry in harness.equipment.items():
            self._put(("fed", name), (entry.kind, name), *self._keys(name))
            self.graph.add_edge(("+", name), ("fed", name))
            self.graph.add_edge(("-", name), ("fed", name))
            if entry.kind == "battery":
                self.graph.add_edges_from([(SOURCE, ("+", name)), (SOURCE, ("-", name))])
        self.graph.remove_nodes_from([node for node, things in self.parts.items() if lost in things])
        self._open()

    def _put(self, node: Node, *things: tuple[str, str]) -> Node:
        self.graph.add_node(node)
        self.parts[node] = things
        return node

    def _keys(self, name: str) -> Iterator[tuple[str, str]]:
        for circuit in self.harness.circuits.values():
            ends = {circuit.start.name, *(end.name for end in circuit.loads)}
            for key in ends - {name} if name in ends else ():
                entry = self.harness.equipment.get(key)
                if entry is not None and entry.kind == "key" and entry.form.out == "off":
                    yield from [("key", key), ("lead", circuit.name)]

    def _lay(self, circuit: Circuit) -> None:
        for number, lead in enumerate(circuit.leads):
            for wire in lead.wires:
                node = self._put(("wire", circuit.name, number, wire.role), ("lead", self._lead(circuit, lead)))
                for before, things in self._before(circuit, number, wire.role):
                    between = self._put(("between", before, node), *things)
                    self.graph.add_edges_from([(before, between), (between, node)])
        for number, end in zip(circuit.form.last, circuit.loads, strict=True):
            if end.is_port:
                self._end(circuit, number, end.name, end.part)

    def _lead(self, circuit: Circuit, lead: Lead) -> str:
        return lead.name if circuit.form.split and lead.ends[0].is_splice else circuit.name

    def _before(self, circuit: Circuit, number: int, role: str) -> Iterator[tuple[Node, list[tuple[str, str]]]]:
        lead, joints = circuit.leads[number], self.harness.disconnects
        start = lead.ends[0]
        stem = circuit.form.before(number)
        if start.is_port:
            yield ("outlet", start.name, start.part, self._pole(circuit, role)), []
        elif start.is_splice:
            yield ("wire", circuit.name, stem, role), [("splice", circuit.name)]
        else:
            shared = [("common", f"{start.name} {start.commons[role]}")] if role in start.commons else []
            if stem >= 0 and role in {wire.role for wire in circuit.leads[stem].wires}:
                yield ("wire", circuit.name, stem, role), [("joint", start.name), *shared]
            if role in start.commons:
                common = joints[start.name].commons[start.commons[role]]
                for other in self.harness.circuits.values():
                    if (
                        other.leads[-1].ends[1].name == start.name
                        and common.name in other.leads[-1].ends[1].commons.values()
                    ):
                        heavy = ("wire", other.name, len(other.leads) - 1, role)
                        yield heavy, [("joint", start.name), *shared]

    @staticmethod
    def _pole(circuit: Circuit, role: str) -> str:
        return "+-"[circuit.poles.index(role)] if role in circuit.poles else "signal"

    def _end(self, circuit: Circuit, number: int, load: str, port: str) -> None:
        fed_by = self.harness.equipment[load].form.fed_by
        signals: list[Node] = []
        for wire in circuit.leads[number].wires:
            node, pole = ("wire", circuit.name, number, wire.role), self._pole(circuit, wire.role)
            if pole != "signal":
                if not fed_by or port in fed_by:
                    self.graph.add_edge(node, (pole, load))
            else:
                signals.append(node)
        if any(node[3] not in ("positive", "negative") for node in signals):
            self.asks[load].append([("port", port), *signals])
            self.graph.add_edges_from((node, ("heard", load)) for node in signals)
        start, is_receiver = circuit.start, self.harness.equipment[load].kind == "receiver"
        if is_receiver and start.is_port and signals:  # its lead carries what it hears to where it begins
            things = [("lead", circuit.name), *(("joint", name) for name in circuit.form.through)]
            back = self._put(("back", circuit.name), *things)
            self.graph.add_edges_from([(("fed", load), back), (back, ("heard", start.name))])

    def _open(self) -> None:
        """Open outlets of what is reached, until nothing more is."""
        count = -1
        while count != self.graph.number_of_edges():
            count = self.graph.number_of_edges()
            reached = self.reached
            for node in list(self.graph):
                if node[0] == "outlet" and self.gives(reached, node[1], node[2], node[3]):
                    self.graph.add_edge(("fed", node[1]), node)
                    for asked in self.asks[node[1]] if self.harness.equipment[node[1]].kind not in PASSES else ():
                        if self._obeys(node[1], node[2], asked):
                            self.graph.add_edges_from((signal, node) for signal in asked[1:])
                    if node[3] == "signal" and self.harness.equipment[node[1]].kind != "receiver":
                        self.graph.add_edge(("heard", node[1]), node)

    @property
    def reached(self) -> set[Node]:
        """Return all that is reached from packs; equipment is only if both poles are."""
        graph = self.graph
        halves = {node for node in graph if node[0] == "fed"}
        while True:
            reached = {SOURCE, *networkx.descendants(graph, SOURCE)}
            starved = {node for node in halves & reached if not {("+", node[1]), ("-", node[1])} <= reached}
            if not starved:
                return reached
            graph = networkx.restricted_view(graph, starved, [])

    def _obeys(self, name: str, outlet: str, asked: list[Node]) -> bool:
        drives = self.harness.equipment[name].form.drives
        return not outlet or not drives or outlet in drives.get(asked[0][1], ())

    def gives(self, reached: set[Node], name: str, outlet: str = "", pole: str = "+") -> bool:
        """Tell whether an outlet, or equipment as such, works."""
        kind = self.harness.equipment[name].kind
        if ("fed", name) not in reached:
            return False
        if kind == "receiver":
            return True
        if kind in PASSES:
            return pole != "signal" or ("heard", name) in reached
        return all(reached.issuperset(asked[1:]) for asked in self.asks[name] if self._obeys(name, outlet, asked))

    def working(self) -> set[str]:
        """Return the loads that work."""
        reached = self.reached
        return {name for name in self.harness.equipment if self.gives(reached, name)}

    def hangs_on(self, load: str) -> set[tuple[str, str]]:
        """Return all things on some way to a load, or to what it obeys."""
        wanted = [("fed", load), *(node for asked in self.asks[load] for node in asked[1:])]
        found = set(wanted).union(*(networkx.ancestors(self.graph, node) for node in wanted))
        return {thing for node in found for thing in self.parts.get(node, ())}


Stopped = dict[tuple[str, str], tuple[set[str], set[str]]]
"""By thing: the loads that stop, and those that go on another way."""


def by_removal(harness: Harness) -> Stopped:
    whole = Reached(harness)
    loads = [function.load for function in harness.losses.functions]
    assert set(loads) <= whole.working()
    hangs = {load: whole.hangs_on(load) for load in loads}
    found: Stopped = {}
    for thing in set().union(*hangs.values()):
        left = Reached(harness, thing).working()
        touched = {load for load in loads if thing in hangs[load]}
        found[thing] = touched - left, touched & left
    return found
