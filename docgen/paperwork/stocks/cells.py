"""A stock whose labels stand in cells on sheets: its form, and labels with head and foot laid out on its pages."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator, Sequence

from docgen.basics.findings import Refused
from docgen.basics.units import decimal
from docgen.paperwork.labels.content import CAUTION, LabelContent
from docgen.paperwork.layouts.forms import Count, LayoutForm, LengthMm, Pair
from docgen.paperwork.page_kit.sheets import FOOT_FROM_EDGE_MM, TOP_MM, Sheets
from docgen.paperwork.stocks.fitting import Piece
from docgen.paperwork.stocks.stock import LabelStock, misfit
from docgen.paperwork.typesetting.ink import FAINT, THIN_MM, Box, Ink, Page, Text, moved, rectangle
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import FOOT_MM, PLAIN_MM, SMALL_MM, line_pitch_mm, shortened, wrapped

_PITCH_MM = line_pitch_mm(SMALL_MM)
_ABOVE_CELLS_MM = 1.0
_LEAST_WIDE_MM = 85.0  # the bar, and what it is


class Cells(LayoutForm):
    """Where labels stand on a sheet: the first one's top left corner and the pitch."""

    across: Count
    down: Count
    first: Pair
    pitch: Pair


class CellStock(LabelStock):
    """A sheet with labels in cells."""

    label: LayoutForm
    paper: Pair
    margin: LengthMm
    cells: Cells

    @property
    @abstractmethod
    def what(self) -> str:
        """Say what its labels are, with the names of their sizes in braces."""

    @property
    @abstractmethod
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""

    @property
    def blank(self) -> tuple[Ink, ...]:
        """Return what is drawn of an unused label, from its corner: faint, with what divides it."""
        return (rectangle(Box(0, 0, *self.size_mm), THIN_MM, colour=FAINT),)

    @property
    def names_mm(self) -> float:
        """Return the room for what is said above the labels."""
        return 0.0

    def beside(self, piece: Piece, x_mm: float, y_mm: float) -> Iterator[Ink]:
        """Say beside a label, whose corner is given, what is to be known of it alone."""
        del piece, x_mm, y_mm
        return iter(())

    @property
    def says(self) -> str:
        """Describe it in a line."""
        what = self.what.format(**{name: decimal(size) for name, size in self.label})
        paper = " × ".join(decimal(side) for side in self.paper)
        return f"{what}; {self.cells.across} × {self.cells.down} on {paper} mm"

    @property
    def count(self) -> int:
        """Return how many cells a sheet has."""
        return self.cells.across * self.cells.down

    def misfits(self) -> Iterator[Refused]:
        """Find labels that have no room for print, that run into each other, or over the paper's edge."""
        yield from super().misfits()
        cells, counts = self.cells, (self.cells.across, self.cells.down)
        for axis, way in enumerate(("across", "down")):
            size, pitch, paper = self.size_mm[axis], cells.pitch[axis], self.paper[axis]
            if counts[axis] > 1 and pitch < size - 1e-9:
                sentence = f"labels of {decimal(size)} mm run into each other at a pitch of {decimal(pitch)} mm {way}."
                do = "Make the pitch wider, or the labels smaller."
                yield misfit(sentence, do, ("cells", "pitch", axis))
            over = self.end_mm(axis) - paper
            if over > 1e-9:
                sentence = f"labels run {over:.1f} mm over the paper's edge {way}."
                do = "Make fewer or smaller cells, or begin nearer to the edge."
                yield misfit(sentence, do, ("cells", way))

    def end_mm(self, axis: int) -> float:
        """Return where the last label ends, across or down."""
        count = (self.cells.across, self.cells.down)[axis]
        return self.cells.first[axis] + (count - 1) * self.cells.pitch[axis] + self.size_mm[axis]

    def pages(
        self, pieces: Sequence[Piece], items: LabelContent, title_block: TitleBlock
    ) -> tuple[list[Page], list[str]]:
        """Fill sheets from the first wanted cell on, with what belongs above and below the labels where it has room."""
        if not pieces:
            return [], []
        pages = list(self.sheets(pieces, items.first))
        sheets = Sheets("Wire labels", self.paper, CAUTION).of(title_block)
        if self.end_mm(1) + 1 <= self.paper[1] - FOOT_FROM_EDGE_MM - FOOT_MM:
            sheets.finish(pages)
        says = self.said(items)
        below, height = sheets.below(sheets.area)
        head = self._head(says, title_block) or self._head(self.least_said(items), title_block)
        narrow = sheets.area.width_mm < _LEAST_WIDE_MM
        if narrow or not head or self.end_mm(1) + 1 > sheets.area.bottom_mm - height:
            return pages, [
                f"the labels fill their sheet, so it says here what belongs on it: {self.warns} {says} {CAUTION}"
            ]
        pages[0].ink[:0] = [*head, *below]
        told = " ".join(ink.text for ink in head[1:] if isinstance(ink, Text))
        return pages, [] if told.endswith(says) else [f"the sheet has no room above its labels to say all: {says}"]

    def sheets(self, pieces: Sequence[Piece], first: int) -> Iterator[Page]:
        """Walk sheets with labels in their cells; those that stay empty are drawn faint."""
        before = (first - 1) % self.count
        placed = [*[None] * before, *pieces, *[None] * (-(before + len(pieces)) % self.count)]
        for start in range(0, len(placed), self.count):
            page, cells = Page(self.paper[0], self.paper[1]), self.cells
            for i, piece in enumerate(placed[start : start + self.count]):
                x = cells.first[0] + i % cells.across * cells.pitch[0]
                y = cells.first[1] + i // cells.across * cells.pitch[1]
                if piece is None:
                    page.add(*(moved(ink, x, y) for ink in self.blank))
                else:
                    page.add(*piece.ink(x, y), *self.beside(piece, x, y))
            yield page

    def _head(self, says: str, title_block: TitleBlock) -> list[Ink]:
        """Say once how labels are used, above the cells, first what to know before they are printed; or nothing."""
        left, base, width = self.margin, TOP_MM + PLAIN_MM, self.paper[0] - 2 * self.margin
        lines = [*wrapped(self.warns, width, SMALL_MM), *wrapped(says, width, SMALL_MM)]
        first = base + _PITCH_MM + 0.7
        if first + (len(lines) - 1) * _PITCH_MM + self.names_mm + _ABOVE_CELLS_MM > self.cells.first[1]:
            return []
        title = shortened(f"Wire labels · {title_block.aircraft} {title_block.marks}", width, PLAIN_MM, bold=True)
        told = (Text(left, first + i * _PITCH_MM, line, SMALL_MM) for i, line in enumerate(lines))
        return [Text(left, base, title, PLAIN_MM, bold=True), *told]
