"""A stock that is cut after printing: labels of one size in rows as high as they are, each size beginning a row."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from docgen.basics.units import decimal
from docgen.paperwork.layouts.forms import LayoutForm, LengthMm
from docgen.paperwork.stocks.cells import CellStock
from docgen.paperwork.stocks.fitting import Piece
from docgen.paperwork.typesetting.ink import Ink, Page, Text
from docgen.paperwork.typesetting.typeface import FOOT_MM, shortened

_NAME_MM = 2.3  # what is said above a label takes, with the space to it
_BETWEEN_MM = 1.2  # below a row


class RowSize(LayoutForm):
    """A label's length along the wire."""

    length: LengthMm


class RowStock(CellStock):
    """Labels in rows. Its cells, as wide as a label and lower, only tell where a sheet used before is free."""

    label: RowSize

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return a cell: labels take as many as they need down the sheet."""
        return self.label.length, self.cells.pitch[1]

    @property
    def names_mm(self) -> float:
        """Return the room for what is said above the labels."""
        return _NAME_MM

    @property
    def most_mm(self) -> float:
        """Return the height of the highest label that has room on a sheet."""
        return self.end_mm(1) - self.cells.first[1]

    @property
    def says(self) -> str:
        """Describe it in a line."""
        paper = " × ".join(decimal(side) for side in self.paper)
        return f"{self.what.format(length=decimal(self.label.length))}, on {paper} mm"

    def sheets(self, pieces: Sequence[Piece], first: int) -> Iterator[Page]:
        """Walk sheets with labels in rows, those of one size together; the last one says which cell is free."""
        cells = self.cells
        at, column = divmod(first - 1, cells.across)
        top = cells.first[1] + at * cells.pitch[1]
        page = Page(self.paper[0], self.paper[1])
        for row in _rows(
            sorted(pieces, key=lambda piece: (piece.place.size, piece.place.takes_mm)), cells.across, column
        ):
            height = max(piece.place.takes_mm for piece in row)
            if top + height > self.end_mm(1) + 1e-6 and page.ink:
                yield page
                page, top = Page(self.paper[0], self.paper[1]), cells.first[1]
            for piece in row:
                x = cells.first[0] + column * cells.pitch[0]
                page.add(*piece.ink(x, top), *self.beside(piece, x, top))
                column += piece.place.columns
            top, column = top + height + _BETWEEN_MM + _NAME_MM, 0
        free = math.ceil((top - cells.first[1]) / cells.pitch[1] - 1e-9) * cells.across + 1
        if free <= self.count:
            y = cells.first[1] + (free - 1) // cells.across * cells.pitch[1]
            page.add(Text(cells.first[0], y, f"free from here on: --first {free}", FOOT_MM))
        yield page

    def beside(self, piece: Piece, x_mm: float, y_mm: float) -> Iterator[Ink]:
        """Say which tube a label is for."""
        room = piece.place.columns * self.cells.pitch[0] - 1
        yield Text(x_mm, y_mm - 0.7, shortened(piece.place.beside, room, FOOT_MM), FOOT_MM)


def _rows(pieces: Sequence[Piece], across: int, used: int) -> Iterator[list[Piece]]:
    """Walk rows of pieces of one size, the first beside cells that are used already."""
    row: list[Piece] = []
    for piece in pieces:
        full = used + piece.place.columns > across
        if row and (full or piece.place.size != row[0].place.size):
            yield row
            row, used = [], 0
        row.append(piece)
        used += piece.place.columns
    if row:
        yield row
