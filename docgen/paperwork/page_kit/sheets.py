"""Lay groups of blocks on sheets of A4 or Letter: where pages break, what stands on the first and on every one.

The area used is the same on both papers, so that what is cut from either is equal.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace
from typing import Self

from docgen.basics.frozen import frozen
from docgen.paperwork.page_kit.blocks import GRID_MM, Block, Group, chains, joined
from docgen.paperwork.page_kit.cautions import caution
from docgen.paperwork.page_kit.tables import heading
from docgen.paperwork.typesetting.ink import Box, Ink, Line, Page, Text
from docgen.paperwork.typesetting.title_block import BAR_MM, BAR_SAYS, MODELS_ONLY, NO_TITLE, TitleBlock
from docgen.paperwork.typesetting.typeface import FOOT_MM, TITLE_MM, line_pitch_mm, width_mm, wrapped

AREA_MM = (190.0, 255.0)
TOP_MM = 10.0
FOOT_FROM_EDGE_MM = 7.2
COLUMN_GAP_MM = 6.0
_MOST_LEFT_MM = 28.0  # of a column that stays empty so that a group is not parted
_SHORT_DISCLAIMER = "models only; estimates, to be checked"


@frozen
class Sheets:
    """A document's sheets: its title, paper, the caution at the end of the first, and how many columns it has.

    What was drawn is kept for when the same is laid `of` another aircraft or state.
    """

    title: str
    paper_mm: Sequence[float]
    caution: str
    columns: int = 1
    title_block: TitleBlock = NO_TITLE
    drawn: dict[tuple[Block, Box], Sequence[Ink]] = field(default_factory=dict, compare=False)

    def of(self, title_block: TitleBlock) -> Self:
        """Return them with whose they are and where they stand."""
        return replace(self, title_block=title_block)

    @property
    def area(self) -> Box:
        """Return the part of a sheet that is used, the foot left out."""
        width = min(AREA_MM[0], self.paper_mm[0] - 2 * TOP_MM)
        height = min(AREA_MM[1], self.paper_mm[1] - TOP_MM - 2 * FOOT_FROM_EDGE_MM)
        return Box((self.paper_mm[0] - width) / 2, TOP_MM, width, height)

    @property
    def column_mm(self) -> float:
        """Return the width of a column."""
        return (AREA_MM[0] - COLUMN_GAP_MM * (self.columns - 1)) / self.columns

    def lay(self, *parts: Sequence[Group]) -> list[Page]:
        """Return the pages of all groups, in order; each part after the first begins a column."""
        pages = self.pages(*parts)
        self.finish(pages)
        return pages

    def pages(self, *parts: Sequence[Group], headed: bool = True) -> list[Page]:
        """Return pages without feet, for what goes on in other columns: the first one `headed` or not."""
        return _Laid(self, parts, headed).drawn()

    def count(self, *parts: Sequence[Group]) -> int:
        """Return on how many pages groups would be laid, without drawing them."""
        return len(_Laid(self, parts, headed=True).pages)

    def finish(self, pages: Sequence[Page]) -> None:
        """Put the foot on each page, now that their number is known."""
        for number, page in enumerate(pages, 1):
            page.add(*self.foot(page, self.area, f"page {number} of {len(pages)}"))

    def columns_of(self, page: Page, *, is_first: bool) -> list[Box]:
        """Return the boxes that a page's groups go into; on the first the head and the caution are above and below."""
        area = self.area
        top, bottom = area.y_mm, area.bottom_mm
        if is_first:
            head, below = self._head(), self.below(area)
            page.add(*head.draw(Box(area.x_mm, top, area.width_mm, head.height_mm)), *below[0])
            top, bottom = top + head.height_mm + GRID_MM / 2, bottom - below[1]
        width = self.column_mm
        lefts = (area.x_mm + i * (width + COLUMN_GAP_MM) for i in range(self.columns))
        return [Box(left, top, width, bottom - top) for left in lefts]

    def _head(self) -> Block:
        title = f"{self.title} · {self.title_block.aircraft}"
        return heading(title, TITLE_MM, self.title_block.state, above_mm=0, room_mm=AREA_MM[0])

    def below(self, area: Box) -> tuple[list[Ink], float]:
        """Return what stands once, at the end of the first page, and its height: caution, disclaimer, bar."""
        below = replace(disclaimer(area.width_mm), above_mm=2.0)
        below = joined(caution(self.caution, area.width_mm), below) if self.caution else below
        top = area.bottom_mm - below.height_mm
        return [*below.draw(area._replace(y_mm=top, height_mm=below.height_mm))], below.height_mm + GRID_MM

    def foot(self, page: Page, area: Box, count: str) -> list[Ink]:
        """Return the foot of an area: whose it is, which state, how many there are, and the hash."""
        block = self.title_block
        says = [f"{block.aircraft} · {block.marks}", block.state, count, block.content_hash]
        says += ["corrected for one printer"] if block.corrected else []
        left, right = area.x_mm, area.right_mm
        lines = wrapped(" · ".join(filter(None, says)), right - left, FOOT_MM)
        base, pitch = page.height_mm - FOOT_FROM_EDGE_MM, line_pitch_mm(FOOT_MM)
        fits = width_mm(lines[-1], FOOT_MM) + width_mm(_SHORT_DISCLAIMER, FOOT_MM) + 3 <= right - left
        ink: list[Ink] = [Text(left, base - i * pitch, line, FOOT_MM) for i, line in enumerate(reversed(lines))]
        return [*ink, Text(right, base, _SHORT_DISCLAIMER, FOOT_MM, align="right")] if fits else ink


def disclaimer(room_mm: float) -> Block:
    """Return what stands once in each document: that it is for models, and the bar of its scale."""
    said = wrapped(MODELS_ONLY, room_mm, FOOT_MM)
    words_mm = len(said) * line_pitch_mm(FOOT_MM)

    def draw(box: Box) -> list[Ink]:
        ink: list[Ink] = [
            Text(box.x_mm, box.y_mm + FOOT_MM + i * line_pitch_mm(FOOT_MM), line, FOOT_MM)
            for i, line in enumerate(said)
        ]
        return ink + bar(box.x_mm, box.bottom_mm - 1.2)

    return Block(words_mm + 4, draw, GRID_MM)


def bar(x_mm: float, y_mm: float) -> list[Ink]:
    """Return the bar by which the scale of a print is seen, with what it is."""
    ink: list[Ink] = [Line(x_mm, y_mm, x_mm + BAR_MM, y_mm)]
    for i in range(6):
        half = 1.2 if i in (0, 5) else 0.7
        ink.append(Line(x_mm + 10 * i, y_mm - half, x_mm + 10 * i, y_mm + half))
    return [*ink, Text(x_mm + BAR_MM + 2, y_mm + FOOT_MM / 2, BAR_SAYS, FOOT_MM)]


class _Laid:
    """Pages as they fill with groups, each part after the first in a new column."""

    def __init__(self, sheets: Sheets, parts: Sequence[Sequence[Group]], headed: bool) -> None:
        self.sheets, self.headed = sheets, headed
        self.pages: list[Page] = []
        self._placed: list[tuple[Page, Block, Box]] = []
        self._boxes: list[Box] = []
        self._box = Box(0, 0, 0, 0)
        self._y_mm = 0.0
        self._head: Block | None = None  # that stands over what comes next
        self._clear_to_mm = 0.0  # where nothing is left clear over a block: at the head of a column
        for number, groups in enumerate(parts):
            if number:
                self._next()
            for group in groups:
                self._add(group)

    def drawn(self) -> list[Page]:
        """Return the pages, once all has been drawn where it was placed."""
        drawn = self.sheets.drawn
        for page, block, box in self._placed:
            if (block, box) not in drawn:
                drawn[block, box] = block.draw(box)
            page.add(*drawn[block, box])
        return self.pages

    def _add(self, group: Group) -> None:
        """Lay a group: whole if it is short, or on the next page; a long one is parted where the column ends."""
        if not self.pages:
            self._next()
        whole_mm = group.height_mm + group.blocks[0].above_mm
        if not self._fits(whole_mm + self._head_mm(group)) and self._is_better_whole(group):
            self._next()
        begun = False
        for chain in chains(group.blocks):
            height = sum(block.height_mm + block.above_mm for block in chain)
            if not self._fits(height + self._head_mm(group)) and self._y_mm > self._box.y_mm:
                self._next()
                self._put_head(group)
                if begun and group.again is not None:
                    self._put(group.again)
            self._put_head(group)
            for block in chain:
                self._put(block)
            begun = True

    def _head_mm(self, group: Group) -> float:
        """Return the height of the head that a group still wants in this column."""
        head = group.head if group.head is not self._head else None
        return head.height_mm + head.above_mm if head is not None else 0.0

    def _put_head(self, group: Group) -> None:
        if group.head is not None and group.head is not self._head:
            self._put(group.head)
            self._clear_to_mm = self._y_mm
        self._head = group.head

    def _fits(self, height_mm: float) -> bool:
        return self._y_mm + height_mm <= self._box.bottom_mm + 1e-6

    def _is_better_whole(self, group: Group) -> bool:
        """Tell whether a group is kept whole: so little of the column is left that it may stay empty for it."""
        return group.height_mm <= self._box.height_mm and self._box.bottom_mm - self._y_mm <= _MOST_LEFT_MM

    def _next(self) -> None:
        if not self._boxes:
            page = Page(self.sheets.paper_mm[0], self.sheets.paper_mm[1])
            self.pages.append(page)
            self._boxes = self.sheets.columns_of(page, is_first=self.headed and len(self.pages) == 1)
        self._box = self._boxes.pop(0)
        self._head, self._clear_to_mm = None, self._box.y_mm
        self._y_mm = self._box.y_mm

    def _put(self, block: Block) -> None:
        self._y_mm += block.above_mm if self._y_mm > self._clear_to_mm else 0.0
        box = Box(self._box.x_mm, self._y_mm, self._box.width_mm, block.height_mm)
        self._placed.append((self.pages[-1], block, box))
        self._y_mm += block.height_mm
