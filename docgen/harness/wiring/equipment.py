"""Take the circuits as built and return equipment: its ports with what is plugged in, and its figures."""

from __future__ import annotations

from docgen.definition import equipment as form
from docgen.definition.ends import port_groups
from docgen.definition.equipment import Current
from docgen.definition.model import Definition
from docgen.harness.model.circuits import Circuit, End
from docgen.harness.model.equipment import Antenna, Equipment, PortUse
from docgen.harness.routing.routes import Routes
from docgen.harness.wiring.connectors import Connectors

_Plugged = dict[tuple[str, str], tuple[Circuit, tuple[End, ...]]]
"""What is plugged in at (equipment, port), and the other ends of that circuit."""


def build_equipment(
    definition: Definition, circuits: dict[str, Circuit], routes: Routes, connectors: Connectors
) -> dict[str, Equipment]:
    """Return all equipment as built."""
    plugged: _Plugged = {}
    for circuit in circuits.values():
        for end, far in [(circuit.start, circuit.loads), *((end, (circuit.start,)) for end in circuit.loads)]:
            if end.is_port:
                plugged[end.name, end.part] = circuit, far
    return {
        name: Equipment(
            name=name,
            form=entry,
            kind=entry.kind,
            place=entry.place,
            ports=_ports(name, entry, plugged, connectors),
            nameless=not entry.ports,
            load=_load(entry),
            least_v=entry.volts.least if entry.volts else None,
            most_v=entry.volts.most if entry.volts else None,
            battery=entry.battery,
            antennas=tuple(
                Antenna(antenna, said, routes.route([entry.place, said.place]))
                for antenna, said in entry.antennas.items()
            ),
        )
        for name, entry in definition.equipment.items()
    }


def _ports(name: str, entry: form.Equipment, plugged: _Plugged, connectors: Connectors) -> tuple[PortUse, ...]:
    ports = []
    for index, group in enumerate(port_groups(entry)):
        plug, gender = connectors.plugs[group.plug], connectors.gender(group)
        for port in group.names:
            circuit, far = plugged.get((name, port), (None, ()))
            ports.append(PortUse(port, plug, gender, index, group.rating, group.output or entry.output, circuit, far))
    return tuple(ports)


def _load(entry: form.Equipment) -> Current | None:
    """Return what it draws; how long it works may be said beside it."""
    return entry.current and entry.current.model_copy(update={} if entry.runs is None else {"runs_s": entry.runs})
