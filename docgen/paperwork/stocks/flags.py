"""Flags: two halves stuck back to back, with the wire between."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import ClassVar

from docgen.basics.findings import Finding
from docgen.harness.bundling.tubes import Need
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelItem
from docgen.paperwork.layouts.forms import LayoutForm, LengthMm
from docgen.paperwork.stocks.cells import CellStock
from docgen.paperwork.stocks.fitting import Place, too_thick
from docgen.paperwork.stocks.guides import flag_guides
from docgen.paperwork.typesetting.ink import FAINT, Ink


class FlagSize(LayoutForm):
    """One of the two halves of a flag, and what lies round the wire between them."""

    length: LengthMm
    width: LengthMm
    wrap: LengthMm


class Flags(CellStock):
    """A sheet of flags, with the same text on both halves and an arrow up to the plug between them."""

    what: ClassVar[str] = "flags of two {length} × {width} mm, {wrap} mm round the wire"
    warns: ClassVar[str] = "On self-adhesive paper or film for ink or laser."
    use: ClassVar[str] = (
        "Lay the middle round the wires and stick the halves together; never where it goes through an opening, nor by "
        "an arm or linkage"
    )
    outcome: ClassVar[str] = "Survives handling; neither fuel nor heat."
    slides: ClassVar[bool] = False
    label: FlagSize

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return 2 * self.label.length + self.label.wrap, self.label.width

    @property
    def printed_mm(self) -> tuple[float, float]:
        """Return the length and height of the part of a label that is printed on."""
        return self.label.length, self.label.width

    @property
    def blank(self) -> tuple[Ink, ...]:
        """Return what is drawn of an unused label: its outline, what divides it, and the arrow."""
        return flag_guides(self.label.length, self.label.wrap, self.label.width, FAINT)

    def places(self, item: LabelItem, tubes: Mapping[Need, TubePart]) -> Iterator[Place | Finding]:
        """Place a label on both halves of a flag."""
        del tubes
        size = self.label
        zone = self.zone(size.length, size.width, arrow=False)
        corners = (0.0, 0.0), (size.length + size.wrap, 0.0)
        thick = too_thick(item, size.wrap, "the part between the halves")
        guides = flag_guides(size.length, size.wrap, size.width)
        yield thick or Place(zone, corners, guides=guides, instead="flag")
