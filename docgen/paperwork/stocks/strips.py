"""Strips of paper that are cut out and go under clear tube."""

from __future__ import annotations

import math
from typing import ClassVar

from docgen.basics.findings import Finding
from docgen.basics.units import decimal
from docgen.paperwork.labels.content import LabelContent, LabelItem
from docgen.paperwork.stocks.findings import TUBE
from docgen.paperwork.stocks.fitting import Place, chosen_tube, too_hot
from docgen.paperwork.stocks.pieces import PieceStock
from docgen.paperwork.typesetting.ink import FAINT, THIN_MM, Box, Ink, Line, rectangle

_PAPER_MM = 0.2  # by how much a strip of paper between wires and tube makes them thicker; common practice
_TICK_MM = 1.2


class Strips(PieceStock):
    """A sheet of strips."""

    what: ClassVar[str] = "strips of paper for under clear tube, {length} × {width} mm at most"
    use: ClassVar[str] = (
        "Slide the clear tube named on {slid_on}. Cut strips out along their marks and lay them under it"
    )

    def place(self, item: LabelItem, items: LabelContent) -> Place | Finding:
        """Place a label on a strip over half of what is gripped, under the narrowest clear tube that fits."""
        passes, grips = item.passes_mm + _PAPER_MM, item.grips_mm + _PAPER_MM
        tube = chosen_tube(passes, grips, items.tubes, item.heat_c, clear=True)
        if tube is None:
            sentence = f"{item.named}: no clear tube passes {passes:.1f} mm and grips {grips:.1f} mm."
            do = "Add a clear tube to `parts.yaml`, or print it on another stock."
            return item.finding(TUBE, sentence, do)
        length, height = self.label.length, min(self.room_mm, math.pi * item.grips_mm / 2)
        zone, says = self.zone(length, height), f"under {tube.name} · {decimal(length)} mm"
        guides = _cut_ink(length, height, beside=self.gaps_mm[0] >= 2 * _TICK_MM)
        return Place(zone, beside=says, guides=guides, findings=too_hot(item, tube, "clear tube"))


def _cut_ink(length_mm: float, height_mm: float, *, beside: bool) -> tuple[Ink, ...]:
    """Return the outline to cut along, with ticks beyond its corners if there is room for them."""
    outline = rectangle(Box(0, 0, length_mm, height_mm), THIN_MM, colour=FAINT)
    sides = ((-0.3, -_TICK_MM), (length_mm + 0.3, _TICK_MM)) if beside else ()
    return (outline, *(Line(x, y, x + out, y, THIN_MM) for x, out in sides for y in (0, height_mm)))
