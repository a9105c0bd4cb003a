"""The rework sheet as printed: its sections, and what stands in their rows under which heading."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from page_facts import Sheet, sheets_of

if TYPE_CHECKING:
    from measured import Box, PrintedText

_TITLE_MM, _SMALL_MM = 3.5, 1.8
_RULE_MM = 80.0
_FRAME_MM = 6.5  # high at least; boxes to tick or write in are lower


@dataclass
class Line:
    """One row: texts by the heading over them, in reading order, and the headings left of each tick."""

    cells: dict[str, list[PrintedText]]
    ticked: set[str]

    def large(self, heading: str) -> str:
        """Return the text in large type under a heading."""
        return " ".join(text.text for text in self.cells.get(heading, ()) if text.capital_mm > _SMALL_MM + 0.1)

    def small(self, heading: str) -> list[str]:
        """Return the lines in small type under a heading."""
        return [text.text for text in self.cells.get(heading, ()) if text.capital_mm < _SMALL_MM + 0.1]

    def text(self, heading: str) -> str:
        """Return all that stands under a heading."""
        return " ".join(text.text for text in self.cells.get(heading, ()))


def sections(pdf: bytes) -> dict[str, list[Line]]:
    """Return the rows of each section by its heading, without its number; what goes on on the next page with it."""
    found: dict[str, list[Line]] = {}
    for page in sheets_of(pdf):
        texts = sorted(page.texts, key=lambda text: (text.base_mm, text.box.left))
        heads = [text for text in texts if text.bold and _is_head(text)]
        for head, below in zip(heads, [*(text.box.top for text in heads[1:]), _end_mm(page)], strict=True):
            title = re.sub(r"^\d+\s+|, continued$", "", head.text)
            found.setdefault(title, []).extend(_lines(page, texts, head.base_mm, below))
    return found


def _end_mm(page: Sheet) -> float:
    """Return where what is laid ends: on the first page the caution stands below, above the bar."""
    frames = [side.top for side in page.uprights if side.bottom - side.top > _FRAME_MM]
    has_bar = any(text.text.startswith("print at 100 %") for text in page.texts)
    return max(frames) if has_bar else page.height_mm - 12


def _is_head(text: PrintedText) -> bool:
    is_title = abs(text.capital_mm - _TITLE_MM) < 0.1 or text.text.endswith(", continued")
    return is_title and re.match(r"\d+\s+\D|No longer|What differs", text.text) is not None


def _lines(page: Sheet, texts: Sequence[PrintedText], top: float, bottom: float) -> Iterator[Line]:
    frames = {
        round(y, 1) for side in page.uprights if side.bottom - side.top > _FRAME_MM for y in (side.top, side.bottom)
    }
    rules = sorted({round(line.top, 1) for line in page.lines if _is_rule(line) and top < line.top < bottom} - frames)
    if not rules:
        return
    over = [text for text in texts if top + 0.5 < text.base_mm < rules[0]]
    lefts = {text.text: text.box.left for text in over}
    for start, end in zip(rules, [*rules[1:], bottom], strict=True):
        within = [text for text in texts if start < text.base_mm < end]
        cells: dict[str, list[PrintedText]] = {}
        for text in within:
            cells.setdefault(_heading(text.box.left, lefts), []).append(text)
        ticks = [box for box in page.ticks if start < box.top < end]
        yield Line(cells, {_heading(box.left, lefts) for box in ticks})


def _is_rule(line: Box) -> bool:
    return line.right - line.left > _RULE_MM and line.bottom - line.top < 0.1


def _heading(left: float, lefts: dict[str, float]) -> str:
    """Return the heading at or left of an edge; figures end under theirs, so the first one takes what is before it."""
    before = {text: edge for text, edge in lefts.items() if edge <= left + 0.8}
    return max(before, key=lambda text: before[text]) if before else next(iter(lefts), "")
