"""What a harness is made of: contacts, connectors, wires, tubes, sleeves. Values only."""

from __future__ import annotations

from docgen.basics.frozen import frozen
from docgen.definition.parts import ContactPart, SleevePart, TubePart, WirePart

__all__ = ["Connector", "ContactPart", "SleevePart", "TubePart", "WirePart"]


@frozen(slots=True)
class Connector:
    """A shell, or a plug, which is a shell whose contacts have roles.

    `at_mm` are contacts from the centre, right and up, at the mating face of the pins, `to_scale` if that is known.
    """

    name: str
    contacts: tuple[str, ...]
    roles: dict[str, str]
    at_mm: dict[str, tuple[float, float]]
    outline_mm: tuple[float, float]
    key: str | None
    contact: ContactPart
    checked: str | None
    retainer: bool
    lock: str
    shape: str = "rectangle"
    to_scale: bool = True

    def contact_of(self, role: str) -> str | None:
        """Return the contact of a plug that carries a role."""
        return next((contact for contact, carried in self.roles.items() if carried == role), None)


def opposite(gender: str) -> str:
    """Return what mates with pins or sockets."""
    return "sockets" if gender == "pins" else "pins"
