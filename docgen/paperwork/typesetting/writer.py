"""Write headings, tables and paragraphs down a page, and on over the next ones."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.paperwork.typesetting.ink import FAINT, THIN_MM, Box, Line, Page, Text
from docgen.paperwork.typesetting.tables import Column, Table, set_table
from docgen.paperwork.typesetting.title_block import Foot, foot_height_mm, number_pages
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, line_pitch_mm, wrapped

_ROWS_AT_HEAD = 2  # that a table's headings are not parted from
_ROW_MM, _RULE_EVERY = 4.4, 3


class PageWriter:
    """Pages that fill from the top down to their foot, `gap_mm` above it."""

    def __init__(self, paper_mm: Sequence[float], margin_mm: float, foot: Foot, gap_mm: float = 2.0) -> None:
        self.paper_mm = paper_mm
        self.margin_mm = margin_mm
        self.foot = foot
        self.bottom_mm = margin_mm + foot_height_mm(foot, self.width_mm) + gap_mm
        self.pages: list[Page] = []
        self.y_mm = 0.0
        self._wholes: dict[str, list[str]] = {}

    @property
    def width_mm(self) -> float:
        """Return the width between margins."""
        return self.paper_mm[0] - 2 * self.margin_mm

    @property
    def x_mm(self) -> float:
        """Return the left edge of everything."""
        return self.margin_mm

    @property
    def page(self) -> Page:
        """Return the page being filled."""
        return self.pages[-1]

    @property
    def room_mm(self) -> float:
        """Return the height left on the page."""
        return self.paper_mm[1] - self.bottom_mm - self.y_mm - self._wholes_mm()

    def new_page(self) -> None:
        """Begin a page."""
        self._finish_page()
        self.pages.append(Page(self.paper_mm[0], self.paper_mm[1]))
        self.y_mm = self.margin_mm

    def finished(self) -> list[Page]:
        """Return all pages with their feet; there are as many as there are codes at least."""
        self._finish_page()
        while len(self.pages) < len(self.foot.corners):
            self.new_page()
            self.paragraph("The code below goes on from the one before.", SMALL_MM)
        number_pages(self.pages, self.foot, self.margin_mm)
        return self.pages

    def _finish_page(self) -> None:
        """Say in full what was shortened on the page."""
        y = self.paper_mm[1] - self.bottom_mm - self._wholes_mm() + line_pitch_mm(SMALL_MM)
        for line in self._whole_lines():
            self.page.add(Text(self.x_mm, y, line, SMALL_MM))
            y += line_pitch_mm(SMALL_MM)
        self._wholes = {}

    def _whole_lines(self) -> list[str]:
        """Say each text that was shortened in full, behind the rows that it stands in."""
        said = [f"{', '.join(keys)}: {whole}" for whole, keys in self._wholes.items()]
        return wrapped("In full: " + "; ".join(said), self.width_mm, SMALL_MM) if said else []

    def _wholes_mm(self) -> float:
        return len(self._whole_lines()) * line_pitch_mm(SMALL_MM) + (1.5 if self._wholes else 0)

    def say_in_full(self, key: str, texts: Sequence[str]) -> None:
        """Have texts that are shortened in what `key` names said in full at the foot of the page."""
        for text in texts:
            keys = self._wholes.setdefault(text, [])
            if key not in keys:
                keys.append(key)

    def _fits_with(self, key: str, texts: Sequence[str], row_mm: float) -> bool:
        """Tell whether a row has room on the page together with its texts in full."""
        kept = {whole: list(keys) for whole, keys in self._wholes.items()}
        self.say_in_full(key, texts)
        room = self.room_mm
        self._wholes = kept
        return room >= row_mm

    def need(self, height_mm: float) -> None:
        """Begin a page if less than that is left, and something stands on this one already."""
        if not self.pages or (self.room_mm < height_mm and self.y_mm > self.margin_mm):
            self.new_page()

    def heading(self, text: str, height_mm: float = LARGE_MM, keep_mm: float = 12) -> None:
        """Set a heading that stays with at least so much of what follows."""
        lines = wrapped(text, self.width_mm, height_mm, bold=True)
        self.need(len(lines) * line_pitch_mm(height_mm) + keep_mm)
        for line in lines:
            self.y_mm += height_mm
            self.page.add(Text(self.x_mm, self.y_mm, line, height_mm, bold=True))
            self.y_mm += height_mm * 0.55
        self.y_mm += 0.4

    def paragraph(self, text: str, height_mm: float = PLAIN_MM, bold: bool = False) -> None:
        """Set running text, broken into lines."""
        for line in wrapped(text, self.width_mm, height_mm, bold):
            self.need(line_pitch_mm(height_mm))
            self.page.add(Text(self.x_mm, self.y_mm + height_mm, line, height_mm, bold))
            self.y_mm += line_pitch_mm(height_mm)

    def space(self, height_mm: float) -> None:
        """Leave space, but not at the top of a page."""
        if self.pages and self.y_mm > self.margin_mm:
            self.y_mm += height_mm

    def table(self, columns: Sequence[Column], rows: Sequence[Sequence[str]], title: str) -> None:
        """Set a table; where it goes on, title and headings are repeated. Texts that don't fit are said in full."""
        table = set_table(columns, rows, self.width_mm)
        head_mm = 4.0 if any(column.heading for column in columns) else 0.5
        self.need(head_mm + _ROW_MM * min(len(table.rows), _ROWS_AT_HEAD))
        self._table_head(table, head_mm)
        for index, row in enumerate(table.rows):
            if not self._fits_with(row.key, row.cut, _ROW_MM):
                self.new_page()
                self.heading(f"{title}, continued", PLAIN_MM, keep_mm=_ROW_MM + head_mm)
                self._table_head(table, head_mm)
            self.say_in_full(row.key, row.cut)
            whole = Box(self.x_mm, self.y_mm, self.width_mm, _ROW_MM)
            self.page.add(*table.row_ink(index, table.cells(whole)))
            self.y_mm += _ROW_MM
            if (index + 1) % _RULE_EVERY == 0 and index + 1 < len(table.rows):
                self.page.add(Line(self.x_mm, self.y_mm, whole.right_mm, self.y_mm, THIN_MM, FAINT))

    def _table_head(self, table: Table, head_mm: float) -> None:
        self.page.add(*table.heading_ink(self.x_mm, self.y_mm + 2.6))
        self.y_mm += head_mm
