"""Check that every piece comes off some spool."""

from __future__ import annotations

import math

from docgen.basics.findings import Finding, shown
from docgen.basics.units import decimal
from docgen.definition.model import Where
from docgen.harness.assembly.cutting import Tail, cut_pieces
from docgen.harness.assembly.stores import shelf_of, sold_mm
from docgen.harness.model.harness import Harness


def find_long_pieces(harness: Harness, where: Where) -> list[Finding]:
    """Return a caution for each lead with a piece longer than any spool, on the shelf or sold."""
    findings = []
    for piece in cut_pieces(harness):
        if isinstance(piece.of, Tail):
            continue
        spools = [spool.length_mm for spool in shelf_of(harness, piece.part, piece.colour)]
        longest = max([*spools, *sold_mm(harness, piece.part)], default=None)
        if longest is not None and piece.length_mm > longest + 0.05:
            lead = piece.of
            sentence = (
                f"segment {lead.segment} of {shown(lead.circuit)} is cut {decimal(piece.length_mm)} mm from "
                f"{shown(piece.part)} {piece.colour}, whose longest spool is {decimal(longest)} mm."
            )
            least_m = math.ceil(piece.length_mm / 100) / 10
            do = f"Get a spool of {decimal(least_m)} m at least (`spools:`, or `sold:` of the wire)."
            position = where.value("circuits", lead.circuit, "lead", lead.segment)
            findings.append(Finding(position, "spool", sentence, do, ("circuits", lead.circuit)))
    return findings
