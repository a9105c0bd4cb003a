"""Labels that are wrapped round a wire, their clear zone over their print."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import ClassVar

from docgen.basics.findings import Finding
from docgen.harness.bundling.tubes import Need
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelItem
from docgen.paperwork.layouts.forms import LayoutForm, LengthMm
from docgen.paperwork.stocks.cells import CellStock
from docgen.paperwork.stocks.fitting import Place, too_thick
from docgen.paperwork.typesetting.ink import FAINT, THIN_MM, Ink, Line


class WrapSize(LayoutForm):
    """A label's length along the wire; around it first the printed zone, then the clear one that covers it."""

    length: LengthMm
    printed: LengthMm
    cover: LengthMm


class Wraps(CellStock):
    """A sheet of labels to wrap."""

    what: ClassVar[str] = "wrap-round labels {length} mm along the wire, {printed} printed and {cover} clear"
    warns: ClassVar[str] = "On film with a clear part, for ink or laser as its maker says."
    outcome: ClassVar[str] = "Survives oil and handling; neither fuel nor heat, which loosen its adhesive."
    use: ClassVar[str] = "Print towards you, wrap the printed part on first, the clear film over it"
    slides: ClassVar[bool] = False
    label: WrapSize

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return self.label.length, self.label.printed + self.label.cover

    @property
    def printed_mm(self) -> tuple[float, float]:
        """Return the length and height of the part of a label that is printed on."""
        return self.label.length, self.label.printed

    @property
    def blank(self) -> tuple[Ink, ...]:
        """Return what is drawn of an unused label, and round a used one: its outline and where print ends."""
        return *super().blank, Line(0, self.label.printed, self.label.length, self.label.printed, THIN_MM, FAINT)

    def places(self, item: LabelItem, tubes: Mapping[Need, TubePart]) -> Iterator[Place | Finding]:
        """Place a label where only film comes to lie over it, read from one side: the first half of the last turn.

        More print would come to lie over any before.
        """
        del tubes
        around, printed = math.pi * item.grips_mm, self.label.printed
        zone = self.zone(self.label.length, min(printed, around / 2))
        corner = (0.0, max(printed - around, 0.0))
        yield too_thick(item, self.label.cover, "the clear film") or Place(zone, (corner,), guides=self.blank)
