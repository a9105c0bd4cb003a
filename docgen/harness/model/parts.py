"""What a harness is made of and where it lies: contacts, connectors, wires, tubes, sleeves, places, runs, routes."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.basics.findings import Position, shown
from docgen.definition.parts import ContactPart, SleevePart, TubePart, WirePart

__all__ = ["Connector", "ContactPart", "Place", "Point", "Route", "Run", "SleevePart", "TubePart", "WirePart"]

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Place:
    """A named point in the airframe."""

    name: str
    assembly: str
    point_mm: Point | None
    access: str
    slack_mm: float
    heat_c: float | None
    note: str
    position: Position


@dataclass(frozen=True, slots=True)
class Run:
    """A route that a wire can be laid between two places."""

    between: tuple[str, str]
    length_mm: float
    measured: bool
    sharp: bool
    dressed: str | None
    heat_c: float | None
    hinge_mm: float | None
    note: str
    position: Position

    @property
    def ends_text(self) -> str:
        """Name its two places."""
        return f"{shown(self.between[0])} and {shown(self.between[1])}"


@dataclass(frozen=True, slots=True)
class Route:
    """A route over runs: the places passed, the runs' numbers, and the length."""

    places: tuple[str, ...]
    runs: tuple[int, ...]
    length_mm: float
