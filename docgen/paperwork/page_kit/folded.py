"""Sheets that are folded to two sides of half their size, printed sides out: the front at the right, the back left."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.basics.frozen import frozen
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.typesetting.ink import THIN_MM, Box, Line, Page

SIDE_MM = (127.0, 193.0)  # the same on A5 and half Letter
_TOP_MM = 6.5
_FOLD_FROM_EDGE_MM, _FOLD_MM = 6.0, 4.0  # ticks of the fold: where a printer does not clip them


@frozen
class Folded(Sheets):
    """Sheets whose pages have two columns, which are sides; their paper is given turned."""

    def columns_of(self, page: Page, *, is_first: bool) -> list[Box]:
        """Return front and back."""
        del page, is_first
        return [self._side(1), self._side(0)]

    def _side(self, half: int) -> Box:
        half_mm = self.paper_mm[0] / 2
        return Box(half * half_mm + (half_mm - SIDE_MM[0]) / 2, _TOP_MM, *SIDE_MM)

    def finish(self, pages: Sequence[Page]) -> None:
        """Put a foot on each side, and ticks where the sheet is folded."""
        for number, page in enumerate(pages):
            for side, half in ((1, 1), (2, 0)):
                page.add(*self.foot(page, self._side(half), f"side {2 * number + side} of {2 * len(pages)}"))
            middle, low = page.width_mm / 2, page.height_mm - _FOLD_FROM_EDGE_MM
            for top in (_FOLD_FROM_EDGE_MM, low - _FOLD_MM):
                page.add(Line(middle, top, middle, top + _FOLD_MM, THIN_MM))
