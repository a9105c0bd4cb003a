"""Put cards together: what stands on one in, cards of the least size that holds it whole out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain

from docgen.basics.frozen import frozen
from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.page_kit.card_sheets import CARD_MM, INSIDE_MM, CardInk
from docgen.paperwork.page_kit.cautions import caution
from docgen.paperwork.page_kit.tables import lines
from docgen.paperwork.typesetting.ink import THIN_MM, Box, Ink, Line, Text
from docgen.paperwork.typesetting.title_block import Corner, corner_ink, corner_size
from docgen.paperwork.typesetting.typeface import (
    FOOT_MM,
    LARGE_MM,
    PLAIN_MM,
    SMALL_MM,
    TITLE_MM,
    line_pitch_mm,
    width_mm,
    wrapped,
)

CAUTION = "Packs unplugged and switched off before a half is parted or mated. Hold the shells, never pull by the wires."
WIDTH_MM = CARD_MM[0] - 2 * INSIDE_MM
_HEIGHT_MM = CARD_MM[1] - 2 * INSIDE_MM
_HALF_MM = CARD_MM[1] / 2 - 2 * INSIDE_MM
_BESIDE_MM = 3.0  # from the name to what stands beside it
_FOLD_MM = 4.0
_FEW_ROWS = 5  # of what is small, so that half a card may do
_ABOVE_MM = 0.8
_DEEP = 1.33  # how deep type reaches with its descenders, over the height of its capitals
_TITLES = ((TITLE_MM, LARGE_MM), (TITLE_MM, PLAIN_MM), (LARGE_MM, PLAIN_MM), (PLAIN_MM, SMALL_MM))
_HALF_TITLES = _TITLES[2:]

Rows = tuple[Block, list[Block]]
"""The headings of a table and its rows."""
Views = Callable[[float, bool], Sequence[Block]]
"""Return the views in at most that height, if they can be read; or anyhow, each in a block of its own if need be."""


@frozen
class Face:
    """What stands on a card besides its table: name, what is beside it, place; what is said below; the last line.

    `tables` are the same table in the usual type and in the least.
    """

    name: str
    beside: str
    where: tuple[str, ...]
    said: tuple[str, ...]
    corner: Corner | None
    last: str
    tables: tuple[Rows, Rows]
    views: Views | None = None
    opens: bool = False

    def cards(self) -> list[CardInk]:
        """Return one card of the least size: a half one for what is small, a whole or a double one."""
        is_small = self.views is None and len(self.tables[0][1]) <= _FEW_ROWS
        heights = (_HALF_MM, _HEIGHT_MM) if is_small else (_HEIGHT_MM,)
        for height in heights:
            for table in self.tables:
                if (one := self._single(table, height)) is not None:
                    return [one]
        return min((self._doubles(table) for table in self.tables), key=len)

    def _single(self, table: Rows, height: float) -> CardInk | None:
        """Return a card of one side with all on it, if it has room."""
        below = [*_table(*table), _beside_code(self.said, self.corner)]
        panel = _Panel(height, self._head(height), self._foot())
        room = panel.room_mm - _high(below)
        views = self.views(room, False) if self.views is not None else ()
        if room < 0 or (self.views is not None and not views):
            return None
        panel.top += [*views, *below]
        return _card([panel], half=height == _HALF_MM, opens=self.opens)

    def _doubles(self, table: Rows) -> list[CardInk]:
        """Return double cards: views at the left, the table at the right, what is said where there is room."""
        head, rows = table
        left = _Panel(_HEIGHT_MM, self._head(), [_beside_code((), self.corner), *self._foot()])
        panels = [left, _Panel(_HEIGHT_MM, [])]
        fresh = self._fresh(panels)
        sides = chain(tuple(panels), fresh)
        self._show(sides)
        side = next(sides)
        side.top += _table(head, ()) if rows else []
        for row in rows:
            if not side.takes(row):
                side = next(sides)
                side.top += [*_table(head, ()), row]
        at = panels.index(side)
        for text in self.said:
            block = lines(text, WIDTH_MM, SMALL_MM, _ABOVE_MM if text == self.said[0] else 0.4)
            home = next((panel for panel in (*panels[at:], *panels[:at][::-1]) if panel.takes(block)), None)
            if home is None:
                _say(text, self._fresh(panels))
            at = max(at, panels.index(home)) if home is not None else len(panels) - 1
        cards = [[panel for panel in panels[i : i + 2] if panel.top] for i in range(0, len(panels), 2)]
        return [_card(sides, opens=self.opens and i == 0) for i, sides in enumerate(cards)]

    def _show(self, sides: Iterator[_Panel]) -> None:
        """Set the views on the first side, or one on each side of a card; a further one if the first has no room."""
        side = next(sides)
        views = self.views(side.room_mm, True) if self.views is not None else ()
        if any(view.height_mm > side.room_mm for view in views):
            next(sides)
            side = next(sides)
            views = self.views(side.room_mm, True) if self.views is not None else ()
        for index, view in enumerate(views):
            (next(sides) if index else side).top.append(view)

    def _fresh(self, panels: list[_Panel]) -> Iterator[_Panel]:
        """Add further double cards to the panels as they are needed, and walk their sides."""
        while True:
            again = _title(f"{self.name}, continued", self.beside)
            both = _Panel(_HEIGHT_MM, [again], self._foot()), _Panel(_HEIGHT_MM, [])
            panels += both
            yield from both

    def _head(self, height: float = _HEIGHT_MM) -> list[Block]:
        titles = _TITLES if height == _HEIGHT_MM else _HALF_TITLES
        return [
            _title(self.name, self.beside, titles),
            *(lines(text, WIDTH_MM, PLAIN_MM) for text in self.where if text),
        ]

    def _foot(self) -> list[Block]:
        return [caution(CAUTION, WIDTH_MM, _ABOVE_MM), _last_line(self.last)]


@dataclass(eq=False)
class _Panel:
    """One side of a card: blocks from the top down, and those that stand at its bottom."""

    height_mm: float
    top: list[Block]
    bottom: list[Block] = field(default_factory=list)

    @property
    def room_mm(self) -> float:
        """Return the height that is left."""
        return self.height_mm - _high(self.top) - _high(self.bottom)

    def takes(self, block: Block) -> bool:
        """Take a block if there is room for it."""
        fits = block.height_mm + block.above_mm <= self.room_mm + 1e-6
        if fits:
            self.top.append(block)
        return fits

    def draw(self, box: Box) -> Iterator[Ink]:
        """Walk the ink in a box."""
        y = box.y_mm
        for blocks in (self.top, self.bottom):
            y = y if blocks is self.top else box.bottom_mm - _high(self.bottom)
            for block in blocks:
                y += block.above_mm
                yield from block.draw(Box(box.x_mm, y, box.width_mm, block.height_mm))
                y += block.height_mm


def _say(text: str, sides: Iterator[_Panel]) -> None:
    """Set a text that is too long for one side on fresh ones."""
    side = next(sides)
    for line in wrapped(text, WIDTH_MM, SMALL_MM):
        block = lines(line, WIDTH_MM, SMALL_MM)
        while not side.takes(block):
            side = next(sides)


def _table(head: Block, rows: Sequence[Block]) -> list[Block]:
    return [replace(head, above_mm=_ABOVE_MM), *rows]


def _high(blocks: Sequence[Block]) -> float:
    return sum(block.height_mm + block.above_mm for block in blocks)


def _card(panels: Sequence[_Panel], *, half: bool = False, opens: bool = False) -> CardInk:
    def draw(box: Box) -> list[Ink]:
        ink: list[Ink] = []
        for i, panel in enumerate(panels):
            left = box.x_mm + i * CARD_MM[0] + INSIDE_MM
            ink += panel.draw(Box(left, box.y_mm + INSIDE_MM, WIDTH_MM, panel.height_mm))
        return [*ink, *(_fold(box) if len(panels) > 1 else ())]

    return CardInk(draw, len(panels), half, opens)


def _fold(box: Box) -> list[Ink]:
    """Return ticks at both ends of the line along which a double card is folded."""
    x = box.x_mm + CARD_MM[0]
    ends = ((box.y_mm, box.y_mm + _FOLD_MM), (box.bottom_mm - _FOLD_MM, box.bottom_mm))
    return [Line(x, top, x, bottom, THIN_MM) for top, bottom in ends]


def _title(name: str, beside: str, titles: Sequence[tuple[float, float]] = _TITLES) -> Block:
    """Return the name and what is beside it in one line, in the largest type that has room, else below each other."""
    for high, low in titles:
        wide = width_mm(name, high, True) + (_BESIDE_MM + width_mm(beside, low, True) if beside else 0.0)
        if wide <= WIDTH_MM:
            return Block(high * _DEEP + 0.4, lambda box: _title_ink(name, beside, high, low, box))  # noqa: B023 - it returns
    said = [(line, PLAIN_MM) for line in wrapped(name, WIDTH_MM, PLAIN_MM, True)]
    said += [(line, SMALL_MM) for line in wrapped(beside, WIDTH_MM, SMALL_MM, True)]
    return Block(
        len(said) * 4.0 + 0.5,
        lambda box: [Text(box.x_mm, box.y_mm + PLAIN_MM + 4 * i, *line, True) for i, line in enumerate(said)],
    )


def _title_ink(name: str, beside: str, high: float, low: float, box: Box) -> list[Ink]:
    base = box.y_mm + high
    ink: list[Ink] = [Text(box.x_mm, base, name, high, bold=True)]
    return [*ink, Text(box.right_mm, base, beside, low, bold=True, align="right")] if beside else ink


def _beside_code(said: Sequence[str], corner: Corner | None) -> Block:
    """Return what is said in one block, at the left of the code if there is one."""
    code_mm, code_high = corner_size(corner)
    room = WIDTH_MM - (code_mm + 2 if corner is not None else 0.0)
    blocks = [lines(text, room, SMALL_MM, 0.2) for text in said]
    height = max(_high(blocks), code_high)

    def draw(box: Box) -> list[Ink]:
        ink = list(_Panel(height, blocks).draw(Box(box.x_mm, box.y_mm, room, height)))
        code = corner_ink(corner, box.right_mm - code_mm, box.bottom_mm - code_high) if corner is not None else []
        return [*ink, *code]

    return Block(height, draw, _ABOVE_MM if height else 0.0)


def _last_line(text: str) -> Block:
    said, pitch = wrapped(text, WIDTH_MM, FOOT_MM), line_pitch_mm(FOOT_MM)
    first = 0.9 + FOOT_MM
    height = first + (len(said) - 1) * pitch + 0.2
    return Block(
        height,
        lambda box: [Text(box.x_mm, box.y_mm + first + i * pitch, line, FOOT_MM) for i, line in enumerate(said)],
    )
