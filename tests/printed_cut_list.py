"""The cut list as printed: rows by the boxes that are ticked, with what stands in them by the headings above."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from measured import Box, PrintedText  # noqa: TC002 - fields of a tuple
from page_facts import Sheet, sheets_of

_HEADS = {"mark", "function", "spool", "from", "to", "from – to", "over, mm", "each, mm", "each, m", "what", "wire"}
_HEADS |= {"cut, mm", "pieces", "buy", "m", "family", "retainers", "on the shelf, m"}
_HEADS |= {"pin", "socket", "contacts", "housings", "for pins", "for sockets"}
_OF_A_ROW_MM = 3.6  # from the middle of a box to that of a text beside it: rows are 5 mm high, those of three lines 8


class Row(NamedTuple):
    """One row: the heading of its group, what stands under each heading of a column, its page, its texts and box."""

    group: str
    cells: dict[str, str]
    page: int
    texts: list[PrintedText]
    tick: Box

    @property
    def middle(self) -> float:
        """Return how far down its middle is."""
        return (self.tick.top + self.tick.bottom) / 2

    def at(self, head: str) -> Box:
        """Return where what is under a heading stands."""
        begun = [text for text in self.texts if self.cells[head].startswith(text.text)]
        return max(begun, key=lambda text: len(text.text)).box


class CutList:
    """All pages, read column by column."""

    def __init__(self, pdf: bytes) -> None:
        self.pages = sheets_of(pdf)
        self.rows: list[Row] = []
        self.headings: dict[str, str] = {}
        self.told: list[str] = []
        title = ""
        for number, page in enumerate(self.pages):
            for texts, ticks in _columns(page):
                title = self._read(number, texts, ticks, title)

    @property
    def said(self) -> str:
        """Return all texts in one line."""
        return " ".join(text.text for page in self.pages for text in page.texts)

    def group(self, start: str) -> list[dict[str, str]]:
        """Return the rows below the heading that begins so."""
        return [row.cells for row in self.rows if row.group.startswith(start)]

    def _read(self, number: int, texts: list[PrintedText], ticks: list[Box], title: str) -> str:
        left = min(text.box.left for text in texts)
        heads: list[PrintedText] = []
        at = dict.fromkeys(ticks, (title, heads))
        for text in texts:
            below = [tick for tick in ticks if tick.top > text.box.top]
            if text.bold and text.box.left < left + 1 and text.capital_mm < 3:
                title = text.text.removesuffix(", continued")
                self.headings.setdefault(title, " ".join(_beside(text, texts)))
            elif text.text in _HEADS and not text.bold and not _row_of(text, ticks):
                heads = [*(head for head in heads if text.box.top - head.box.top < 4), text]
            at.update((tick, (title, heads)) for tick in below)
        for tick in ticks:
            group, over = at[tick]
            own = [text for text in texts if _row_of(text, ticks) == tick]
            self.rows.append(Row(group, _cells(own, over), number, own, tick))
        self.told += [text.text for text in texts if not _row_of(text, ticks)]
        return title


def _columns(page: Sheet) -> Iterator[tuple[list[PrintedText], list[Box]]]:
    """Walk the columns of a page with their texts and boxes, downwards; title, caution and foot are none of them."""
    title = [text.box.bottom for text in page.texts if text.capital_mm > 4]
    ends = [text.box.top for text in page.texts if text.text.startswith("Blades cut")]
    top, bottom = max(title, default=0.0), min(ends, default=page.height_mm - 10)
    for left, right in ((0.0, page.width_mm / 2), (page.width_mm / 2, page.width_mm)):
        texts = [t for t in page.texts if top < t.box.top < bottom - 1 and left <= t.box.left < right]
        ticks = [tick for tick in page.ticks if left <= tick.left < right]
        if texts:
            yield sorted(texts, key=lambda text: text.base_mm), sorted(ticks, key=lambda tick: tick.top)


def _row_of(text: PrintedText, ticks: list[Box]) -> Box | None:
    middle = (text.box.top + text.box.bottom) / 2
    off = {abs((tick.top + tick.bottom) / 2 - middle): tick for tick in ticks}
    return off[min(off)] if off and min(off) < _OF_A_ROW_MM else None


def _beside(heading: PrintedText, texts: list[PrintedText]) -> list[str]:
    return [text.text for text in texts if text is not heading and abs(text.base_mm - heading.base_mm) < 0.1]


def _cells(texts: list[PrintedText], heads: list[PrintedText]) -> dict[str, str]:
    """Return what stands under each heading, which begins or ends where it does; of two lines they make one."""
    cells: dict[str, str] = {}
    for text in texts:
        said = [head.text for head in heads if _in_line(text.box, head.box)]
        name = " ".join(said)
        cells[name] = f"{cells[name]} {text.text}" if name in cells else text.text
    return cells


def _in_line(one: Box, other: Box) -> bool:
    return min(abs(one.left - other.left), abs(one.right - other.right)) < 0.5
