"""Whether every piece comes off some spool."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.basics.findings import Finding, shown
from docgen.basics.units import decimal
from docgen.harness.assembly.cutting import lead_pieces
from docgen.harness.assembly.shelf import shelf_of, sold_mm
from docgen.harness.checks.facts import Facts, caution

KIND = caution(
    name="spool",
    stands_on="circuit",
    meaning="A piece is longer than any spool.",
    when="A piece is longer than every spool of it in `spools:` and every length that it is `sold:` in.",
    why="The longest wire, out to the tail, ends half a metre early. A splice there is a joint that no hand gets at.",
    remedy="Get a longer one: in stores.yaml `{wire: pvc-22, colour: BK, length: 10 m}`, in parts.yaml "
    "`sold: [10 m, 25 m]`. Or part the way at a disconnect, `through: [tail-joint]`.",
    source="Common practice, no source. FAA AC 43.13-1B, 11-167c, allows one splice in a wire.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each lead with a piece longer than any spool, on the shelf or sold."""
    longest_mm: dict[tuple[str, str], float | None] = {}
    for piece in lead_pieces(facts.harness):
        what, length_mm = (piece.part, piece.colour), piece.length_mm
        if what not in longest_mm:
            spools = [spool.length_mm for spool in shelf_of(facts.harness, *what)]
            longest_mm[what] = max([*spools, *sold_mm(facts.harness, piece.part)], default=None)
        longest = longest_mm[what]
        if longest is not None and length_mm is not None and length_mm > longest + 0.05:
            lead = piece.lead
            sentence = (
                f"segment {lead.segment} of {shown(lead.circuit)} is cut {decimal(length_mm)} mm from "
                f"{shown(piece.part)} {piece.colour}, whose longest spool is {decimal(longest)} mm."
            )
            least_m = math.ceil(length_mm / 100) / 10
            do = f"Get a spool of {decimal(least_m)} m at least (`spools:`, or `sold:` of the wire)."
            yield facts.found(KIND, ("circuits", lead.circuit, "lead", lead.segment), sentence, do)
