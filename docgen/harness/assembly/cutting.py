"""Every piece of wire that is cut: one for each wire of each lead, one for a lead bought ready-made, and tails."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.basics.gauges import Gauge
from docgen.harness.model.circuits import CutLead, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, Disconnect, Half


@dataclass(frozen=True)
class CutPiece:
    """One piece: of which part and colour, how long, and what it is for.

    `part` is an entry of `wires`, or of `leads` where it is bought ready-made, with all its colours together.
    """

    part: str
    colour: str
    gauge: Gauge
    length_mm: float
    of: CutLead | Tail
    wire: Wire | None


@dataclass(frozen=True)
class Tail:
    """What a tail is for: a common's contact at one half of a disconnect."""

    disconnect: Disconnect
    common: Common
    half: Half
    contact: str


def cut_pieces(harness: Harness) -> Iterator[CutPiece]:
    """Walk all pieces, leads in the order written, then tails."""
    for lead in harness.cut_leads():
        yield from _of_lead(lead)
    for disconnect, common, behind in harness.behind_commons():
        for wire in behind.tails:
            tail = Tail(disconnect, common, behind.half, wire.contacts[1][0])
            yield CutPiece(wire.kind.name, wire.colour, wire.kind.gauge, behind.tail_mm or 0.0, tail, wire)


def _of_lead(lead: CutLead) -> Iterator[CutPiece]:
    length = lead.cut_length_mm
    if lead.part.bought:
        gauge = max((wire.kind.gauge for wire in lead.wires), key=lambda g: g.area_mm2)
        yield CutPiece(lead.part.name, "+".join(wire.colour for wire in lead.wires), gauge, length, lead, None)
        return
    for wire in lead.wires:
        yield CutPiece(wire.kind.name, wire.colour, wire.kind.gauge, length, lead, wire)
