"""Take a harness; return what each of its states needs: all of one way, of several ways that do alike.

States: equipment is fed, hears a receiver, runs; a port gives supply or signal; a role comes over a lead.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from docgen.harness.model.circuits import Circuit, End
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.harness import Harness
from docgen.harness.model.losses import Thing

# What passes supply on whether it hears a receiver or not; all else drives its outlets as its inputs say.
PASSING = ("battery", "power switch", "power unit", "regulator", "receiver", "fuse", "key")
# What does something itself, whatever it hands on to others.
_DOING = ("servo", "motor", "pump", "valve", "gear leg", "brake", "light", "smoke")


class State(NamedTuple):
    """Whether something of equipment, or of a circuit's lead, works."""

    what: str
    name: str
    at: str | int = ""
    role: str = ""


Node = Thing | State
Way = tuple[Node, ...]


class Ways:
    """The ways of all states; those of a signal that no receiver ever sent are asked of nothing."""

    def __init__(self, harness: Harness) -> None:
        self.harness = harness
        self._into: dict[str, list[tuple[Circuit, int]]] = defaultdict(list)
        self._from: dict[str, list[Circuit]] = defaultdict(list)
        for circuit in harness.circuits.values():
            for index in circuit.form.last:
                self._into[circuit.leads[index].ends[1].name].append((circuit, index))
            self._from[circuit.start.name].append(circuit)
        self.of: dict[State, tuple[Way, ...]] = {}
        for entry in harness.equipment.values():
            self._fill(self.fed(entry.name))
            self._fill(self.runs(entry.name))

    def circuits_into(self, load: str) -> tuple[str, ...]:
        """Return the circuits that end at equipment."""
        return tuple(dict.fromkeys(circuit.name for circuit, _ in self._into[load]))

    def is_function(self, entry: Equipment) -> bool:
        """Tell whether equipment is what all else is there for: it does something, or is the last on its way."""
        is_last = entry.kind not in PASSING and not self._from[entry.name]
        return bool(self._into[entry.name]) and (is_last or entry.kind in _DOING)

    @staticmethod
    def fed(name: str) -> State:
        """Return the state that equipment has supply."""
        return State("fed", name)

    @staticmethod
    def runs(name: str) -> State:
        """Return the state that equipment is fed and has the signals that it wants."""
        return State("runs", name)

    def _fill(self, *states: State) -> None:
        """Find the ways of states and of all that these need."""
        left = list(states)
        while left:
            state = left.pop()
            if state not in self.of:
                self.of[state] = tuple(self._ways(state))
                left += [node for way in self.of[state] for node in way if isinstance(node, State)]

    def _ways(self, state: State) -> Iterator[Way]:
        match state:
            case State("fed", name):
                yield from self._fed(self.harness.equipment[name])
            case State("hears", name):
                yield from self._hears(name)
            case State("runs", name, port):
                yield self.fed(name), *self._inputs(self.harness.equipment[name], str(port))
            case State("speaks", name):
                receives = self.harness.equipment[name].kind == "receiver"
                yield (self.fed(name),) if receives else (self.fed(name), State("hears", name))
            case State("comes", name, int(index), role):
                yield from self._comes(self.harness.circuits[name], index, role)

    def _fed(self, entry: Equipment) -> Iterator[Way]:
        """Walk the feeds of equipment; a key that must be in for it to work is part of each."""
        itself = (Thing(entry.kind, entry.name), *self._keys(entry.name))
        fed_by = entry.form.fed_by
        feeds = [
            (circuit, index)
            for circuit, index in self._into[entry.name]
            if circuit.poles and (not fed_by or circuit.leads[index].ends[1].part in fed_by)
        ]
        if not feeds or entry.battery is not None:
            yield itself
            return
        for circuit, index in feeds:
            yield *itself, *(State("comes", circuit.name, index, role) for role in circuit.poles)

    def _keys(self, name: str) -> Iterator[Node]:
        circuits = [*self._from[name], *(circuit for circuit, _ in self._into[name])]
        for circuit in circuits:
            for end in (circuit.start, *circuit.loads):
                entry = self.harness.equipment.get(end.name)
                if entry is not None and entry.kind == "key" and entry.name != name and entry.form.out == "off":
                    yield Thing("key", entry.name)
                    yield from self._over(circuit)

    def _over(self, circuit: Circuit) -> Iterator[Thing]:
        """Walk all that a signal passes along a circuit, whichever way it goes."""
        for index, lead in enumerate(circuit.leads):
            yield self._lead(circuit, index)
            yield from (Thing("joint", end.name) for end in lead.ends if end.kind == "half")

    def _lead(self, circuit: Circuit, index: int) -> Thing:
        branches = circuit.form.last if circuit.form.split else ()
        return Thing("lead", circuit.leads[index].name if index in branches else circuit.name)

    def _hears(self, name: str) -> Iterator[Way]:
        """Walk the leads over which a receiver is heard: those that come from one, or go there."""
        for circuit, index in self._into[name]:
            if self._signals(circuit, index):
                yield tuple(self._arriving(circuit, index))
        for circuit in self._from[name]:
            for index, end in zip(circuit.form.last, circuit.loads, strict=True):
                receives = end.is_port and self.harness.equipment[end.name].kind == "receiver"
                if receives and self._signals(circuit, index):
                    yield self.fed(end.name), *self._over(circuit)

    @staticmethod
    def _signals(circuit: Circuit, index: int) -> bool:
        """Tell whether a lead has a wire that is no pole and no negative."""
        return any(wire.role not in (*circuit.poles, "positive", "negative") for wire in circuit.leads[index].wires)

    def _arriving(self, circuit: Circuit, index: int) -> Iterator[State]:
        """Walk what must arrive over a lead that brings a signal: of one without poles, its negative too."""
        for wire in circuit.leads[index].wires:
            if wire.role not in circuit.poles:
                yield State("comes", circuit.name, index, wire.role)

    def _inputs(self, entry: Equipment, outlet: str) -> Iterator[State]:
        """Walk the signals that an outlet, or equipment as such, obeys."""
        drives = entry.form.drives
        for circuit, index in self._into[entry.name] if entry.kind not in PASSING else ():
            port = circuit.leads[index].ends[1].part
            if self._signals(circuit, index) and (not outlet or not drives or outlet in drives.get(port, ())):
                yield from self._arriving(circuit, index)

    def _comes(self, circuit: Circuit, index: int, role: str) -> Iterator[Way]:
        """Walk the ways on which a role comes to the far end of a lead."""
        lead, start = self._lead(circuit, index), circuit.leads[index].ends[0]
        if start.is_port:
            yield lead, self._given(circuit, start, role)
            return
        before = circuit.form.before(index)
        own = before >= 0 and circuit.leads[before].wire(role) is not None
        if start.is_splice:
            yield lead, Thing("splice", circuit.name), State("comes", circuit.name, before, role)
            return
        common = start.commons.get(role)  # its own wire joins the splice behind a common, and has no other contact
        shared = () if common is None else (Thing("common", f"{start.name} {common}"),)
        across = (lead, Thing("joint", start.name), *shared)
        if own:
            yield *across, State("comes", circuit.name, before, role)
        for name in () if common is None else self.harness.disconnects[start.name].commons[common].feeders:
            if name != circuit.name:
                feeder = self.harness.circuits[name]
                through = feeder.form.through
                at = through.index(start.name) if start.name in through else feeder.form.last[-1]
                yield *across, State("comes", name, at, role)

    def _given(self, circuit: Circuit, start: End, role: str) -> State:
        """Return the state that a port gives a role: what drives its outlets obeys signals, all else need not."""
        if self.harness.equipment[start.name].kind not in PASSING:
            return State("runs", start.name, start.part)
        return self.fed(start.name) if role in circuit.poles else State("speaks", start.name)
