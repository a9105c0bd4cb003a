"""Build equipment: its ports with what is plugged in, and its figures."""

from __future__ import annotations

from docgen.definition import equipment as form
from docgen.definition.ends import port_groups
from docgen.definition.equipment import Current
from docgen.definition.model import Definition
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.equipment import Antenna, Equipment, PortUse
from docgen.harness.model.parts import Connector
from docgen.harness.routing.airframe import Routes
from docgen.harness.wiring.connectors import plug_connector

_Plugged = dict[tuple[str, str], tuple[Circuit, str]]


def build_equipment(definition: Definition, circuits: dict[str, Circuit], routes: Routes) -> dict[str, Equipment]:
    """Return all equipment as built."""
    plugged: _Plugged = {}
    for circuit in circuits.values():
        for end, far in [(circuit.start, circuit.load_text), *((end, circuit.start.text) for end in circuit.loads)]:
            if end.is_port:
                plugged[end.name, end.part] = circuit, far
    connectors: dict[str, Connector] = {}
    return {name: _build(definition, name, plugged, connectors, routes) for name in definition.equipment}


def _build(
    definition: Definition, name: str, plugged: _Plugged, connectors: dict[str, Connector], routes: Routes
) -> Equipment:
    entry = definition.equipment[name]
    return Equipment(
        name=name,
        form=entry,
        kind=entry.kind,
        place=entry.place,
        ports=_ports(definition, name, plugged, connectors),
        nameless=not entry.ports,
        output=entry.output,
        load=_load(entry),
        least_v=entry.volts.least if entry.volts else None,
        most_v=entry.volts.most if entry.volts else None,
        battery=entry.battery,
        gear=entry.gear,
        antennas=tuple(
            Antenna(antenna, said, routes.shortest([entry.place, said.place]))
            for antenna, said in entry.antennas.items()
        ),
        isolates=entry.isolates,
        fed_by=tuple(entry.fed_by),
        mass_g=entry.mass,
    )


def _ports(
    definition: Definition, name: str, plugged: _Plugged, connectors: dict[str, Connector]
) -> tuple[PortUse, ...]:
    ports = []
    whole = definition.equipment[name].output
    for index, group in enumerate(port_groups(definition.equipment[name])):
        plug = definition.parts.plugs[group.plug]
        if group.plug not in connectors:
            connectors[group.plug] = plug_connector(group.plug, plug)
        for port in group.names:
            circuit, far = plugged.get((name, port), (None, ""))
            gender = group.contacts or plug.equipment
            output = group.output or whole
            ports.append(PortUse(port, connectors[group.plug], gender, index, group.rating, output, circuit, far))
    return tuple(ports)


def _load(entry: form.Equipment) -> Current | None:
    """Return what it draws; how long it works may be said beside it."""
    return entry.current and entry.current.model_copy(update={} if entry.runs is None else {"runs_s": entry.runs})
