"""A stock whose labels stand in cells on sheets: its form, and labels with head and foot laid out on its pages."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator, Sequence

from docgen.basics.findings import Refused
from docgen.basics.units import decimal
from docgen.paperwork.labels.content import CAUTION, LabelContent
from docgen.paperwork.layouts.forms import Count, LayoutForm, LengthMm, Pair
from docgen.paperwork.stocks.fitting import Piece
from docgen.paperwork.stocks.stock import LabelStock, misfit
from docgen.paperwork.typesetting.ink import FAINT, THIN_MM, Box, Ink, Page, Text, moved, rectangle
from docgen.paperwork.typesetting.title_block import Foot, TitleBlock, foot_height_mm, number_pages, record_foot
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM, shortened, wrapped

_HEAD_MM = 3.6  # from the title's base line to below the first line that says how labels are used
_PITCH_MM = 2.6
_CLIPPED_MM = 6.0  # printers print nothing nearer to the paper's edge


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
        """Return how many labels a sheet has."""
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
            over = self._end_mm(axis) - paper
            if over > 1e-9:
                sentence = f"labels run {over:.1f} mm over the paper's edge {way}."
                do = "Make fewer or smaller cells, or begin nearer to the edge."
                yield misfit(sentence, do, ("cells", way))

    def _end_mm(self, axis: int) -> float:
        """Return where the last label ends, across or down."""
        count = (self.cells.across, self.cells.down)[axis]
        return self.cells.first[axis] + (count - 1) * self.cells.pitch[axis] + self.size_mm[axis]

    def pages(
        self, pieces: Sequence[Piece], items: LabelContent, title_block: TitleBlock
    ) -> tuple[list[Page], list[str]]:
        """Fill the cells from the first wanted one on; cells that stay empty are drawn faint."""
        if not pieces:
            return [], []
        foot = record_foot(title_block, CAUTION)
        head, says = self._head_lines(items, foot), self.said(items)
        before = (items.first - 1) % self.count
        placed = [*[None] * before, *pieces, *[None] * (-(before + len(pieces)) % self.count)]
        pages = [self._sheet(placed[i : i + self.count]) for i in range(0, len(placed), self.count)]
        if not head:
            return pages, [f"the labels fill their sheet, so it says here what belongs on it: {says} {CAUTION}"]
        for page in pages:
            page.ink[:0] = self._head(head, title_block)
        number_pages(pages, foot, self.margin)
        all_said = " ".join(head) == says
        return pages, [] if all_said else [f"the sheet has no room above its labels to say all: {says}"]

    def _sheet(self, pieces: Sequence[Piece | None]) -> Page:
        page, cells = Page(self.paper[0], self.paper[1]), self.cells
        for i, piece in enumerate(pieces):
            x = cells.first[0] + i % cells.across * cells.pitch[0]
            y = cells.first[1] + i // cells.across * cells.pitch[1]
            if piece is None:
                page.add(*(moved(ink, x, y) for ink in self.blank))
            else:
                page.add(*piece.ink(x, y), *self.beside(piece, x, y))
        return page

    def _head_lines(self, items: LabelContent, foot: Foot) -> list[str]:
        """Return what is said above the labels, less where there is little room; none if head or foot lack it.

        What is not said there is told on the terminal.
        """
        width = self.paper[0] - 2 * self.margin
        if self._end_mm(1) + 1 > self.paper[1] - self.margin - foot_height_mm(foot, width):
            return []
        for says in (self.said(items), self.least_said(items)):
            lines = wrapped(says, width, SMALL_MM)
            below_mm = _HEAD_MM + (len(lines) - 1) * _PITCH_MM + self.names_mm
            if self._head_base_mm + below_mm <= self.cells.first[1]:
                return lines
        return []

    @property
    def _head_base_mm(self) -> float:
        """Return the base line of a sheet's title."""
        return max(self.margin - 1, _CLIPPED_MM + PLAIN_MM)

    def _head(self, lines: Sequence[str], title_block: TitleBlock) -> list[Ink]:
        """Say once how labels are used, above the cells."""
        left, base, width = self.margin, self._head_base_mm, self.paper[0] - 2 * self.margin
        title = shortened(f"Wire labels · {title_block.aircraft} {title_block.marks}", width, PLAIN_MM, bold=True)
        says = (Text(left, base + 3 + i * _PITCH_MM, line, SMALL_MM) for i, line in enumerate(lines))
        return [Text(left, base, title, PLAIN_MM, bold=True), *says]
