"""A stock of pieces of tube or paper in cells, with the name of the tube to use beside each."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.paperwork.layouts.forms import LayoutForm, LengthMm
from docgen.paperwork.stocks.cells import CellStock
from docgen.paperwork.stocks.fitting import Piece
from docgen.paperwork.typesetting.ink import Ink, Text
from docgen.paperwork.typesetting.typeface import FOOT_MM, shortened

_NAME_MM = 2.3  # what the name of a tube takes beside its label, with the space to both


class PieceSize(LayoutForm):
    """A label's length along the wire, and the widest piece that a cell holds."""

    length: LengthMm
    width: LengthMm


class PieceStock(CellStock):
    """Pieces in cells; names stand above them, or below within their cells where labels are too close.

    Then labels are lower by the room for it; on a carrier of one tube without that room it is not said.
    """

    label: PieceSize

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return self.label.length, self.label.width

    @property
    def printed_mm(self) -> tuple[float, float]:
        """Return the least length and height of the part of a label that is printed on."""
        return self.label.length, self.room_mm

    @property
    def gaps_mm(self) -> tuple[float, float]:
        """Return what is free between labels across and down, without end where there is but one."""
        cells, size = self.cells, self.size_mm
        across = cells.pitch[0] - size[0] if cells.across > 1 else math.inf
        return across, cells.pitch[1] - size[1] if cells.down > 1 else math.inf

    @property
    def _names_above(self) -> bool:
        return min(self.gaps_mm[1], self.cells.first[1] - self.margin) >= _NAME_MM

    @property
    def names_mm(self) -> float:
        """Return the room for what is said above the labels."""
        return _NAME_MM if self._names_above else 0.0

    @property
    def room_mm(self) -> float:
        """Return the most height of a label with its name beside it."""
        lower = 0.0 if self._names_above else min(0.0, self.gaps_mm[1] - _NAME_MM)
        return self.label.width + lower

    def beside(self, piece: Piece, x_mm: float, y_mm: float) -> Iterator[Ink]:
        """Say which tube a label is for, if there is room."""
        height = piece.label.zone.height_mm
        if self._names_above or height <= self.room_mm:
            base = y_mm - 0.7 if self._names_above else y_mm + height + _NAME_MM - 0.5
            room = self.cells.pitch[0] - 1 if self.cells.across > 1 else self.paper[0] - self.margin - x_mm
            yield Text(x_mm, base, shortened(piece.place.beside, room, FOOT_MM), FOOT_MM)
