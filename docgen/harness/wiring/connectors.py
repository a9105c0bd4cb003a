"""Turn plugs and shells into connectors."""

from __future__ import annotations

from docgen.definition.model import Parts
from docgen.definition.parts import ContactPart, PlugPart, ShellPart
from docgen.harness.model.parts import Connector

# Stands at the end of a lead where wires are joined for good, so that there is nothing to mate.
_NO_CONTACT = ContactPart.model_construct(rating_a=0, resistance_ohm=0)
SPLICE = Connector("splice", (), {}, {}, (0, 0), None, _NO_CONTACT, None, False, "")


def opposite(gender: str) -> str:
    """Return what mates with pins or sockets."""
    return "sockets" if gender == "pins" else "pins"


def plug_connector(name: str, part: PlugPart) -> Connector:
    """Return a plug as a connector: one row of contacts in the order written, spread evenly where no pitch is known."""
    contacts = tuple(part.contacts)
    width, height = part.size
    pitch = width / len(contacts) if part.pitch is None else part.pitch
    middle = (len(contacts) - 1) / 2
    return Connector(
        name,
        contacts,
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


def shell_connector(name: str, part: ShellPart) -> Connector:
    """Return a shell as a connector."""
    at = part.places_mm
    outline = (part.outline[0], part.outline[1])
    return Connector(
        name, tuple(at), {}, at, outline, part.key, part.contact, part.checked, part.retainer, part.lock, part.shape
    )


def connector_of(parts: Parts, name: str) -> Connector:
    """Return the shell or, for a plain joint, the plug of that name."""
    if name in parts.shells:
        return shell_connector(name, parts.shells[name])
    return plug_connector(name, parts.plugs[name])
