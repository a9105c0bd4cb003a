"""Take a state of an aircraft; return what is behind its receivers and units: which circuits a signal goes on to."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.definition.issued import IssuedCircuit, IssuedLead, IssuedSettings, State

# No signal of a receiver goes back into what feeds it, whatever its plug could carry.
_SUPPLIES = ("battery", "power switch", "regulator", "fuse", "key")
_POLES = ("negative", "positive")


def has_signal(circuit: IssuedCircuit) -> bool:
    """Tell whether a circuit has a wire, where it begins, that is no pole."""
    return any(role not in _POLES for role in first_lead(circuit).wires)


def is_fed(lead: IssuedLead) -> bool:
    """Tell whether a lead brings a supply; where none of its wires is negative, both poles have other names."""
    return "positive" in lead.wires or "negative" not in lead.wires


def first_lead(circuit: IssuedCircuit) -> IssuedLead:
    """Return the lead with which a circuit begins."""
    return next(iter(circuit.leads.values()))


@frozen
class Behind:
    """What is behind equipment of a state; what is planned or left in is there for none."""

    state: State

    @cached_property
    def hearing(self) -> frozenset[str]:
        """Return the receivers, and the equipment that hears one."""
        receivers = [name for name, entry in self.state.equipment.items() if entry.kind == "receiver"]
        reached = {name for each in receivers for one in self.of(each) for name in self._ends[one]}
        return frozenset({*receivers, *reached})

    @cached_property
    def of_gyros(self) -> frozenset[str]:
        """Return the circuits behind gyros."""
        gyros = [name for name, entry in self.state.equipment.items() if entry.kind == "gyro"]
        return frozenset(one for name in gyros for one in self.of(name))

    def of(self, name: str, port: str = "") -> tuple[str, ...]:
        """Return the circuits behind equipment; of one input, those at the outlets that it works, if that is known."""
        found: dict[str, None] = {}
        left, seen = [(name, port)], {(name, port)}
        while left:
            for one, end in self._next(*left.pop()):
                found[one] = None
                new = [end] if end not in seen else []
                seen.update(new)
                left += new
        return tuple(found)

    def begins_at(self, name: str) -> tuple[str, ...]:
        """Return the circuits that begin at equipment."""
        return tuple(one for one in self._at[name] if self.state.circuits[one].ends[0][0] == name)

    def ends_at(self, name: str) -> tuple[str, ...]:
        """Return the circuits that end at equipment."""
        return tuple(one for one in self._at[name] if name in (end[0] for end in self.state.circuits[one].ends[1:]))

    def _next(self, name: str, port: str) -> Iterator[tuple[str, tuple[str, str]]]:
        """Walk circuits that what comes into a port goes out on, each with each of its far ends."""
        drives = (self.state.settings or {}).get(name, IssuedSettings()).drives
        for one in self.begins_at(name):
            start, *loads = map(_port, self.state.circuits[one].ends)
            if not port or not drives or start[1] in drives.get(port, ()):
                yield from ((one, load) for load in loads)
        entry = self.state.equipment.get(name)
        if entry is not None and entry.kind == "receiver":
            for one in self.ends_at(name):
                start, *_ = map(_port, self.state.circuits[one].ends)
                unit = self.state.equipment.get(start[0])
                if unit is not None and unit.kind not in _SUPPLIES and has_signal(self.state.circuits[one]):
                    yield one, start

    @cached_property
    def _ends(self) -> dict[str, tuple[str, ...]]:
        """Return the equipment at the ends of each circuit that works."""
        return {
            name: tuple(end[0] for end in circuit.ends if end[0] in self.state.equipment)
            for name, circuit in self.state.circuits.items()
            if not circuit.planned and not circuit.left_in
        }

    @cached_property
    def _at(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = defaultdict(list)
        for one, names in self._ends.items():
            for name in dict.fromkeys(names):
                found[name].append(one)
        return found


def _port(end: tuple[str, ...]) -> tuple[str, str]:
    return end[0], end[1] if len(end) > 1 else ""
