"""Take a harness; return every piece of wire that is cut: of leads, and tails."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.frozen import frozen
from docgen.basics.gauges import Gauge
from docgen.harness.model.circuits import CutLead, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, Disconnect, Half


@frozen
class CutPiece:
    """One piece: of which part and colour, and how long, if that is known."""

    part: str
    colour: str
    gauge: Gauge
    length_mm: float | None


@frozen
class LeadPiece(CutPiece):
    """A wire of a lead; of one that is bought ready-made all wires in one piece, whose `part` is the lead's."""

    lead: CutLead
    wires: tuple[Wire, ...]


@frozen
class TailPiece(CutPiece):
    """A tail, to a common's contact at one half of a disconnect."""

    disconnect: Disconnect
    common: Common
    half: Half
    contact: str


def lead_pieces(harness: Harness) -> Iterator[LeadPiece]:
    """Walk the pieces of leads, in the order written; what is bought ready-made counts by its thickest wire."""
    for lead in harness.cut_leads():
        if lead.part.bought:
            gauge = max((wire.kind.gauge for wire in lead.wires), key=lambda g: g.area_mm2)
            colours = "+".join(wire.colour for wire in lead.wires)
            yield LeadPiece(lead.part.name, colours, gauge, lead.cut_length_mm, lead, lead.wires)
            continue
        for wire in lead.wires:
            yield LeadPiece(wire.kind.name, wire.colour, wire.kind.gauge, lead.cut_length_mm, lead, (wire,))


def tail_pieces(harness: Harness) -> Iterator[TailPiece]:
    """Walk the tails behind both halves of all commons."""
    for disconnect, common, behind in harness.behind_commons():
        for tail in behind.tails:
            of = disconnect, common, behind.half, tail.contact
            yield TailPiece(tail.kind.name, tail.colour, tail.kind.gauge, behind.tail_mm, *of)
