"""Take the pieces of one wire and colour; return which spool each comes off: of those on the shelf, or bought."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.harness.assembly.spools import ShelfSpool, SpoolPlan, plan_spools
from docgen.harness.model.harness import Harness


def plan_group(harness: Harness, part: str, colour: str, lengths_mm: Sequence[float]) -> SpoolPlan | None:
    """Return how a group's pieces come off spools, or nothing where nothing is said of the shelf."""
    if not harness.spools:
        return None
    shelf = shelf_of(harness, part, colour)
    return plan_spools(lengths_mm, shelf, sold_mm(harness, part), harness.offcut_mm)


def shelf_of(harness: Harness, part: str, colour: str) -> list[ShelfSpool]:
    """Return the spools of one wire and colour, or of one lead, numbered as written."""
    return [
        ShelfSpool(number, spool.length_mm, spool.sealed)
        for number, spool in enumerate(harness.spools, 1)
        if spool.part == part and spool.colour in (None, colour)
    ]


def sold_mm(harness: Harness, part: str) -> tuple[float, ...]:
    """Return the lengths of the spools that a wire is sold on; of a lead nothing is known."""
    return next((kind.sold_mm for kind in harness.wires if kind.name == part), ())
