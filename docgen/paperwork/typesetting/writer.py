"""Write headings, tables and paragraphs down a page, and on over the next ones."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from docgen.paperwork.typesetting.ink import FAINT, THIN_MM, Box, Ink, Line, Page, Text
from docgen.paperwork.typesetting.tables import Column, Table, set_table
from docgen.paperwork.typesetting.title_block import Foot, foot_height_mm, number_pages
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, line_pitch_mm, wrapped


def _nothing(writer: PageWriter) -> None:
    """Do nothing on a new page."""
    del writer


_ROWS_AT_HEAD = 2  # that a table's headings are not parted from
RowInk = Callable[[int, Box, Sequence[Box]], list[Ink]]


@dataclass(frozen=True)
class TableStyle:
    """How a table's rows are set.

    `below_mm` is the height of what is not parted from the last row; `key_column` tells rows apart where a text is
    said in full.
    """

    row_mm: float
    rule_every: int = 3
    below_mm: float = 0.0
    indent_mm: float = 0.0
    key_column: int = 0


class PageWriter:
    """Pages that fill from the top down to their foot, `gap_mm` above it."""

    def __init__(self, paper_mm: Sequence[float], margin_mm: float, foot: Foot, gap_mm: float = 2.0) -> None:
        self.paper_mm = paper_mm
        self.margin_mm = margin_mm
        self.foot = foot
        self.bottom_mm = margin_mm + foot_height_mm(foot, self.width_mm) + gap_mm
        self.pages: list[Page] = []
        self.y_mm = 0.0
        self._first_mm = 0.0
        self.on_new_page: Callable[[PageWriter], None] = _nothing
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
        self._first_mm = self.paper_mm[1]
        self.on_new_page(self)
        self._first_mm = self.y_mm

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
        return self.room_mm + self._wholes_mm() - self.in_full_mm([(key, texts)]) >= row_mm

    def in_full_mm(self, said: Iterable[tuple[str, Sequence[str]]]) -> float:
        """Return the height that texts said in full take at the foot of the page, were these said there too."""
        kept = {whole: list(keys) for whole, keys in self._wholes.items()}
        for key, texts in said:
            self.say_in_full(key, texts)
        height = self._wholes_mm()
        self._wholes = kept
        return height

    def need(self, height_mm: float) -> None:
        """Begin a page if less than that is left, and something stands on this one already."""
        if not self.pages or (self.room_mm < height_mm and self.y_mm > self._first_mm):
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

    def notes(self, texts: Iterable[str]) -> None:
        """Set small texts, each on one page where it has room on one."""
        for text in texts:
            self.need(len(wrapped(text, self.width_mm, SMALL_MM)) * line_pitch_mm(SMALL_MM))
            self.paragraph(text, SMALL_MM)

    def space(self, height_mm: float) -> None:
        """Leave space, but not at the top of a page."""
        if self.pages and self.y_mm > self.margin_mm:
            self.y_mm += height_mm

    def table(
        self,
        columns: Sequence[Column],
        rows: Sequence[Sequence[str]],
        style: TableStyle,
        title: str,
        row_ink: RowInk | None = None,
        like: Sequence[Sequence[str]] = (),
    ) -> None:
        """Set a table and place it; columns are as wide as the rows `like` need, where several are set alike."""
        table = set_table(columns, rows, self.width_mm - style.indent_mm, like, style.key_column)
        self.place(table, style, title, row_ink)

    def place(self, table: Table, style: TableStyle, title: str, row_ink: RowInk | None = None) -> None:
        """Place a table; where it goes on, title and headings are repeated. Texts that don't fit are said in full."""
        head_mm = 4.0 if any(column.heading for column in table.columns) else 0.5
        self.need(head_mm + style.row_mm * min(len(table.rows), _ROWS_AT_HEAD))
        left = self.x_mm + style.indent_mm
        self._table_head(table, left, head_mm)
        for index, row in enumerate(table.rows):
            row_mm = max(style.row_mm, row.least_mm)
            below_mm = style.below_mm if index == len(table.rows) - 1 else 0.0
            if not self._fits_with(row.key, row.cut, row_mm + below_mm):
                self.new_page()
                if title:
                    self.heading(f"{title}, continued", PLAIN_MM, keep_mm=row_mm + head_mm)
                self._table_head(table, left, head_mm)
            self.say_in_full(row.key, row.cut)
            whole = Box(self.x_mm, self.y_mm, self.width_mm, row_mm)
            cells = table.cells(whole._replace(x_mm=left))
            self.page.add(*table.row_ink(index, cells))
            if row_ink is not None:
                self.page.add(*row_ink(index, whole, cells))
            self.y_mm += row_mm
            if style.rule_every and (index + 1) % style.rule_every == 0 and index + 1 < len(table.rows):
                self.page.add(Line(left, self.y_mm, whole.right_mm, self.y_mm, THIN_MM, FAINT))

    def _table_head(self, table: Table, left: float, head_mm: float) -> None:
        self.page.add(*table.heading_ink(left, self.y_mm + 2.6))
        self.y_mm += head_mm
