"""Turn parts into connectors, wires and tubes as built."""

from __future__ import annotations

from docgen.definition.model import Parts
from docgen.definition.parts import ContactPart, PlugPart, ShellPart
from docgen.harness.kinds import Connector, ContactKind, GuardKind, TubeKind, WireKind

# Stands at the end of a lead where wires are joined for good, so that there is nothing to mate.
SPLICE = Connector("splice", (), {}, {}, (0, 0), None, ContactKind(0, None, 0, None, None, None), None, False, "")


def opposite(gender: str) -> str:
    """Return what mates with pins or sockets."""
    return "sockets" if gender == "pins" else "pins"


def contact_kind(part: ContactPart) -> ContactKind:
    """Return a contact as built."""
    takes = (part.takes[0], part.takes[1]) if part.takes else None
    return ContactKind(part.rating, part.brief, part.resistance, part.strip, takes, part.over)


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
        contact=contact_kind(part.contact),
        checked=part.checked,
        retainer=part.retainer,
        lock=part.lock,
        to_scale=part.pitch is not None,
    )


def shell_connector(name: str, part: ShellPart) -> Connector:
    """Return a shell as a connector."""
    at = part.places_mm
    outline = (part.outline[0], part.outline[1])
    kind = contact_kind(part.contact)
    return Connector(
        name, tuple(at), {}, at, outline, part.key, kind, part.checked, part.retainer, part.lock, part.shape
    )


def connector_of(parts: Parts, name: str) -> Connector:
    """Return the shell or, for a plain joint, the plug of that name."""
    if name in parts.shells:
        return shell_connector(name, parts.shells[name])
    return plug_connector(name, parts.plugs[name])


def wire_kind(parts: Parts, name: str) -> WireKind:
    """Return a wire as built."""
    part = parts.wires[name]
    sold = tuple(part.sold)
    return WireKind(name, part.gauge, part.diameter, part.resistance, part.mass, part.limit, part.current, sold)


def guard_kinds(parts: Parts) -> tuple[GuardKind, ...]:
    """Return all guards in the order of the list; one that says no shortening has none."""
    kinds = []
    for name, part in parts.guards.items():
        shortening = (part.shortening[0], part.shortening[1]) if part.shortening else (0.0, 0.0)
        fits = part.fits[0], part.fits[1]
        kinds.append(GuardKind(name, part.kind, fits, shortening, part.limit, part.mass, part.splits))
    return tuple(kinds)


def tube_kinds(parts: Parts) -> tuple[TubeKind, ...]:
    """Return all tubes, the narrowest first, then those that recover least."""
    tubes = [
        TubeKind(name, part.expanded, part.recovered, part.wall, part.clear, part.colour, part.limit)
        for name, part in parts.tubes.items()
    ]
    return tuple(sorted(tubes, key=lambda tube: (tube.expanded_mm, -tube.recovered_mm, tube.name)))
