"""What a harness is made of and where it lies: contacts, connectors, wires, tubes, guards, places, runs, routes."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.basics.findings import Position
from docgen.basics.gauges import Gauge

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class ContactKind:
    """One mated contact: what it carries, adds, and how its wire is stripped and crimped."""

    rating_a: float
    brief_a: float | None
    resistance_ohm: float
    strip_mm: float | None
    takes: tuple[Gauge, Gauge] | None
    over_mm: float | None


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
    contact: ContactKind
    checked: str | None
    retainer: bool
    lock: str
    shape: str = "rectangle"
    to_scale: bool = True

    def contact_of(self, role: str) -> str | None:
        """Return the contact of a plug that carries a role."""
        return next((contact for contact, carried in self.roles.items() if carried == role), None)


@dataclass(frozen=True, slots=True)
class WireKind:
    """A wire of the parts list."""

    name: str
    gauge: Gauge
    diameter_mm: float
    resistance_ohm_per_m: float
    mass_g_per_m: float | None
    limit_c: float | None
    current_a: float | None
    sold_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class TubeKind:
    """Heat-shrink tubing: inside diameters as supplied and recovered."""

    name: str
    expanded_mm: float
    recovered_mm: float
    wall_mm: float
    clear: bool
    colour: str | None
    limit_c: float | None


@dataclass(frozen=True, slots=True)
class GuardKind:
    """Protection over wires: bundles that it fits, by how much it shortens at those two, heat that it stands."""

    name: str
    kind: str
    fits_mm: tuple[float, float]
    shortening: tuple[float, float]
    limit_c: float
    mass_g_per_m: float | None
    splits: bool


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
    """A way that a wire can be laid between two places."""

    between: tuple[str, str]
    length_mm: float
    measured: bool
    sharp: bool
    dressed: str | None
    heat_c: float | None
    hinge_mm: float | None
    note: str
    position: Position


@dataclass(frozen=True, slots=True)
class Route:
    """A way over runs: the places passed, the runs' numbers, and the length."""

    places: tuple[str, ...]
    runs: tuple[int, ...]
    length_mm: float
