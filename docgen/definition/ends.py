"""Find what `from` and `to` mean: ports of equipment, or commons of a disconnect."""

from __future__ import annotations

from docgen.basics.findings import Refused, listed, meant, shown
from docgen.basics.frozen import frozen
from docgen.definition.equipment import Equipment, PortGroup
from docgen.definition.model import Definition


@frozen
class Port:
    """One port of equipment with what its group says; a nameless one has the name ``."""

    equipment: str
    name: str
    group: PortGroup

    @property
    def text(self) -> str:
        """Say it as it is written in a circuit."""
        return f"{self.equipment} {self.name}".strip()

    @property
    def has_own_lead(self) -> bool:
        """Tell whether it is the plug on a lead that came with it: a nameless one always is, however long."""
        return not self.name or self.group.lead is not None


def port_groups(equipment: Equipment) -> list[PortGroup]:
    """Return its groups of ports; its own lead or plug makes one group with one nameless port."""
    if equipment.ports or equipment.plug is None:
        return equipment.ports
    group = PortGroup.model_construct(
        plug=equipment.plug,
        names=[""],
        contacts=None,
        lead=equipment.lead,
        lead_wire=equipment.lead_wire,
        rating=None,
        output=equipment.output,
    )
    return [group]


def find_port(definition: Definition, words: tuple[str, ...]) -> Port:
    """Return the port that an end names, which may be unsaid where there is one; raises Refused `name` or `missing`."""
    name, ports = words[0], words[1:]
    groups = port_groups(definition.equipment[name])
    if len(ports) == 1:
        for group in groups:
            if ports[0] in group.names:
                return Port(name, ports[0], group)
    known = [port for group in groups for port in group.names]
    if not known:
        do = "Give it `ports:`, or `lead:` and `plug:`."
        raise Refused("name", f"{shown(name)} has neither ports nor a lead.", do)
    if len(ports) > 1:
        raise Refused("name", f"{shown(' '.join(words))} names more than one port.", "Write `EQUIPMENT PORT`.")
    if not ports and len(known) > 1:
        raise Refused("missing", f"which port of {shown(name)} is not said.", f"Name one of: {listed(known, 30)}.")
    if not ports:
        return Port(name, known[0], groups[0])
    do = meant(ports[0], known, f"Its ports: {listed(known, 30)}.")
    if known == [""]:
        do = f"It has one lead without a name: write `{name}`."
    raise Refused("name", f"{shown(name)} has no port {shown(ports[0])}.", do)
