"""Parts and places as a builder would say them."""

from __future__ import annotations

from docgen.definition.aircraft import Place
from docgen.definition.fields import Names
from docgen.definition.parts import ContactPart, LeadPart, SleevePart, TubePart, WirePart


def wire(name: str, gauge: str, diameter: str, resistance: str, **more: str) -> WirePart:
    said = {"gauge": gauge, "diameter": diameter, "resistance": resistance, **more}
    return WirePart.model_validate(said).named(name)


def place(assembly: str, at_mm: tuple[float, float, float] | None = None) -> Place:
    """Return a place of an assembly, so far aft, right and up if that is said."""
    at = {} if at_mm is None else {"at": dict(zip(("aft", "right", "up"), (f"{mm} mm" for mm in at_mm), strict=True))}
    return Place.model_validate({"assembly": assembly, **at})


def lead_of(*wires: str, **more: str) -> LeadPart:
    """Return a lead of wires by role, such as `signal pvc-22 WH`, whatever wires there are."""
    said = {"wires": dict(wire.split(maxsplit=1) for wire in wires), **more}
    return LeadPart.model_validate(said, context=Names({}))


def contact(rating: str, resistance: str) -> ContactPart:
    return ContactPart.model_validate({"rating": rating, "resistance": resistance})


def sleeve(name: str, kind: str, fits: list[str], shortening: list[str], limit: str, **more: str) -> SleevePart:
    said = {"kind": kind, "fits": fits, "shortening": shortening, "limit": limit, **more}
    return SleevePart.model_validate(said).named(name)


def tube(name: str, expanded_mm: float, recovered_mm: float, wall_mm: float, **more: str) -> TubePart:
    sizes = {"expanded": f"{expanded_mm} mm", "recovered": f"{recovered_mm} mm", "wall": f"{wall_mm} mm"}
    return TubePart.model_validate({**sizes, **more}).named(name)
