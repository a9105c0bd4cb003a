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
        seen: set[tuple[str, str]] = set()
        left = [(name, port)]
        while left:
            at = left.pop()
            new = self._next(*at) if at not in seen else ()
            seen.add(at)
            found |= dict.fromkeys(new)
            left += [end for one in new for end in self.goes_to(one)]
        return tuple(found)

    def begins_at(self, name: str) -> tuple[str, ...]:
        """Return the circuits that begin at equipment."""
        return tuple(one for one in self._at[name] if self._circuit(one).ends[0][0] == name)

    def ends_at(self, name: str) -> tuple[str, ...]:
        """Return the circuits that end at equipment."""
        return tuple(one for one in self._at[name] if name in (end[0] for end in self._circuit(one).ends[1:]))

    def goes_to(self, one: str) -> Iterator[tuple[str, str]]:
        """Walk the ports to which a circuit takes a signal: of its loads, but from a receiver back to what feeds it."""
        circuit = self._circuit(one)
        for end in circuit.ends[1:]:
            if not self._is(end[0], ("receiver",)):
                yield _port(end)
            elif self._goes_back(circuit):
                yield _port(circuit.ends[0])

    def _next(self, name: str, port: str) -> tuple[str, ...]:
        """Return the circuits on which what comes into a port goes out."""
        drives = (self.state.settings or {}).get(name, IssuedSettings()).drives
        driven = drives.get(port, ()) if port and drives else None
        out = [one for one in self.begins_at(name) if driven is None or _port(self._circuit(one).ends[0])[1] in driven]
        back = self.ends_at(name) if self._is(name, ("receiver",)) else ()
        return (*out, *(one for one in back if self._goes_back(self._circuit(one))))

    def _circuit(self, one: str) -> IssuedCircuit:
        return self.state.circuits[one]

    def _is(self, name: str, kinds: tuple[str, ...]) -> bool:
        entry = self.state.equipment.get(name)
        return entry is not None and entry.kind in kinds

    def _goes_back(self, circuit: IssuedCircuit) -> bool:
        """Tell whether a receiver is heard over the circuit that feeds it."""
        start = circuit.ends[0][0]
        return start in self.state.equipment and not self._is(start, _SUPPLIES) and has_signal(circuit)

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
