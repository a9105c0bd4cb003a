"""Flags: two halves stuck back to back, with the wire between."""

from __future__ import annotations

from typing import ClassVar

from docgen.basics.findings import Finding
from docgen.paperwork.labels.content import LabelContent, LabelItem
from docgen.paperwork.layouts.forms import LayoutForm, LengthMm
from docgen.paperwork.stocks.cells import CellStock
from docgen.paperwork.stocks.fitting import Place, too_thick
from docgen.paperwork.typesetting.ink import BLACK, FAINT, THIN_MM, Ink, Line, Shape

_ARROW_MM = 4.0


class FlagSize(LayoutForm):
    """One of the two halves of a flag, and what lies round the wire between them."""

    length: LengthMm
    width: LengthMm
    wrap: LengthMm


class Flags(CellStock):
    """A sheet of flags, with the same text on both halves and an arrow up to the plug between them."""

    what: ClassVar[str] = "flags of two {length} × {width} mm, {wrap} mm round the wire"
    use: ClassVar[str] = "Lay the middle round the wires and stick the halves together"
    slides: ClassVar[bool] = False
    facing: ClassVar[str] = "Arrow"
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
        return self._divided(FAINT)

    def _divided(self, arrow: str) -> tuple[Ink, ...]:
        first, width = self.label.length, self.label.width
        second = first + self.label.wrap
        folds = (Line(x, 0, x, width, THIN_MM, FAINT) for x in (first, second))
        return *super().blank, *folds, _arrow((first + second) / 2, width / 2, arrow)

    def place(self, item: LabelItem, _: LabelContent) -> Place | Finding:
        """Place a label on both halves of a flag."""
        size = self.label
        zone = self.zone(size.length, size.width, bar=False)
        corners = (0.0, 0.0), (size.length + size.wrap, 0.0)
        thick = too_thick(item, size.wrap, "the part between the halves")
        return thick or Place(zone, corners, guides=self._divided(BLACK))


def _arrow(x: float, y: float, colour: str) -> Shape:
    """Return an arrow up, along the wire, to the plug."""
    top = y - _ARROW_MM / 2
    points = ((x, top), (x + 1.6, top + 2), (x + 0.5, top + 2), (x + 0.5, top + _ARROW_MM), (x - 0.5, top + _ARROW_MM))
    return Shape((*points, (x - 0.5, top + 2), (x - 1.6, top + 2)), THIN_MM, colour, None)
