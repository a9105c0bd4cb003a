"""Take a parts list and return its plugs and shells as connectors."""

from __future__ import annotations

from docgen.definition.equipment import PortGroup
from docgen.definition.model import Parts
from docgen.definition.parts import ContactPart, PlugPart, ShellPart
from docgen.harness.model.parts import Connector

# Stands at the end of a lead where wires are joined for good, so that there is nothing to mate.
_NO_CONTACT = ContactPart.model_construct(rating_a=0, resistance_ohm=0)
SPLICE = Connector("splice", (), {}, {}, (0, 0), None, _NO_CONTACT, None, False, "")


def plug_connector(part: PlugPart) -> Connector:
    """Return a plug as a connector: one row of contacts in the order written, spread evenly where no pitch is known."""
    contacts = tuple(part.contacts)
    width, height = part.size
    pitch = width / len(contacts) if part.pitch is None else part.pitch
    middle = (len(contacts) - 1) / 2
    return Connector(
        name=part.name,
        contacts=contacts,
        roles=dict(part.contacts),
        at_mm={contact: ((i - middle) * pitch, 0.0) for i, contact in enumerate(contacts)},
        outline_mm=(max(width, len(contacts) * pitch), height),
        key=part.key,
        contact=part.contact,
        checked=part.checked,
        retainer=part.retainer,
        lock=part.lock,
        to_scale=part.pitch is not None,
    )


def shell_connector(part: ShellPart) -> Connector:
    """Return a shell as a connector."""
    return Connector(
        name=part.name,
        contacts=tuple(part.places_mm),
        roles={},
        at_mm=part.places_mm,
        outline_mm=(part.outline[0], part.outline[1]),
        key=part.key,
        contact=part.contact,
        checked=part.checked,
        retainer=part.retainer,
        lock=part.lock,
        shape=part.shape,
    )


class Connectors:
    """The plugs of a parts list and, with its shells, what joins at disconnects; each as one connector by its name."""

    def __init__(self, parts: Parts) -> None:
        self.parts = parts
        self.plugs = {name: plug_connector(part) for name, part in parts.plugs.items()}
        self.joints = self.plugs | {name: shell_connector(part) for name, part in parts.shells.items()}

    def gender(self, group: PortGroup) -> str:
        """Return what the equipment's half of a port carries."""
        return group.contacts or self.parts.plugs[group.plug].equipment
