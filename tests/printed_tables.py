"""Read the tables of a printed document from outside: cells by the headings that they stand under."""

from __future__ import annotations

from functools import cached_property

import pypdfium2
from measured import PrintedPage, PrintedText, rows_of

from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork

_IN_LINE_MM = 0.45  # the ink of one letter begins a little further in than that of another

Row = dict[str, str]


class PrintedDocument:
    """All pages of a document."""

    def __init__(self, pdf: bytes) -> None:
        self._pages = [PrintedPage(page) for page in pypdfium2.PdfDocument(pdf)]

    @cached_property
    def rows(self) -> list[list[PrintedText]]:
        """Return the texts of all pages, row by row."""
        return [row for page in self._pages for row in rows_of(page)]

    @cached_property
    def said(self) -> str:
        """Return all texts in one line."""
        return " ".join(text.text for row in self.rows for text in row)

    @cached_property
    def said_on_pages(self) -> list[str]:
        """Return the texts of each page in one line."""
        return [" ".join(text.text for row in rows_of(page) for text in row) for page in self._pages]

    def lines(self, title: str) -> list[list[str]]:
        """Return the rows below a title, as far as the next text that is as large or larger."""
        return [[text.text for text in row] for row in self._below(title, title)]

    def table(self, title: str, goes_on: str = "") -> list[Row]:
        """Return the rows of the table below a title, without empty cells; the first row of several texts heads it.

        On other pages it may go on under another title.
        """
        heads: list[PrintedText] = []
        inside, found = False, []
        for row in self._below(title, goes_on or title):
            if (not heads and len(row) > 1) or [text.text for text in row] == [head.text for head in heads]:
                inside, heads = True, row
            elif inside:
                cells = {_head_of(text, heads): text.text for text in row}
                inside = None not in cells
                found += [{head: text for head, text in cells.items() if head is not None}] if inside else []
        return found

    def _below(self, title: str, goes_on: str) -> list[list[PrintedText]]:
        """Return what stands below a title, over pages where it is said to be continued; it may take two lines."""
        found: list[list[PrintedText]] = []
        inside, heading, height_mm = False, False, 0.0
        for row in self.rows:
            first = row[0]
            if len(row) == 1 and first.bold and first.text in (title, f"{goes_on}, continued"):
                inside, heading, height_mm = True, True, first.capital_mm
            elif inside and len(row) == 1 and first.bold and first.capital_mm > height_mm - 0.01:
                inside = heading
            elif inside:
                heading, inside = False, not first.text.startswith("print at 100 %")
                found += [row] if inside else []
        assert height_mm, f"nothing is headed {title}"
        return found


def _head_of(text: PrintedText, heads: list[PrintedText]) -> str | None:
    """Return the heading that a cell is in line with; "" left of them all, "more" right of them all."""
    for head, following in zip(heads, [*heads[1:], None], strict=True):
        if abs(text.box.left - head.box.left) < _IN_LINE_MM:
            return head.text if following is None or text.box.right < following.box.left else None
        middles_mm = (text.box.left + text.box.right) / 2, (head.box.left + head.box.right) / 2
        if abs(text.box.right - head.box.right) < _IN_LINE_MM or abs(middles_mm[0] - middles_mm[1]) < _IN_LINE_MM:
            return head.text
    if text.box.right < heads[0].box.left:
        return ""
    return "more" if text.box.left > heads[-1].box.right else None


def document_of(harness: Harness, stem: str) -> PrintedDocument:
    """Print one document and read it."""
    return PrintedDocument(make_paperwork(harness, Choice(stems=(stem,))).files[f"{stem}.pdf"])
