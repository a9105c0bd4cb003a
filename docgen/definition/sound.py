"""Take a definition of which some is broken; return the circuits that touch nothing broken."""

from __future__ import annotations

from collections.abc import Container, Iterator

from docgen.definition.harness import OWN, Circuit
from docgen.definition.model import Definition


def sound_circuits(definition: Definition) -> dict[str, Circuit]:
    """Return the circuits that can be followed: all of which everything that they name could be read."""
    return {
        name: circuit
        for name, circuit in definition.circuits.items()
        if all(needed in known for needed, known in _named(definition, circuit))
    }


def _named(definition: Definition, circuit: Circuit) -> Iterator[tuple[str, Container[str]]]:
    """Walk the names that a circuit depends on, and where each must be known; what that names itself comes after it."""
    places, parts = definition.places, definition.parts
    ends = [name for name, *_ in circuit.ends]
    for name in (*circuit.by, *([circuit.split.place] if circuit.split is not None else [])):
        yield name, places
    for name in (end for end in ends if end not in definition.disconnects):
        yield name, definition.equipment
        entry = definition.equipment[name]
        yield from ((place, places) for place in (entry.place, entry.plug_at) if place is not None)
        plugs = (entry.plug, *(group.plug for group in entry.ports))
        yield from ((plug, parts.plugs) for plug in plugs if plug is not None)
    for name in (*circuit.through, *(end for end in ends if end in definition.disconnects)):
        yield name, definition.disconnects
        disconnect = definition.disconnects[name]
        yield disconnect.shell, {*parts.shells, *parts.plugs}
        yield from ((half.place, places) for half in disconnect.both)
    for name in (lead for lead in circuit.leads.values() if lead != OWN):
        yield name, parts.leads
        yield from ((wire.wire, parts.wires) for wire in parts.leads[name].wires.values())
