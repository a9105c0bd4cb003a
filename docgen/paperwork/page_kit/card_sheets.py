"""Lay cards on sheets, to be cut out: four of 93 × 124 mm, double and half ones among them, with ticks to cut along."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from docgen.basics.frozen import frozen
from docgen.paperwork.page_kit.sheets import TOP_MM, Sheets, bar
from docgen.paperwork.typesetting.ink import THICK_MM, Box, Ink, Line, Page, Text
from docgen.paperwork.typesetting.title_block import MODELS_ONLY
from docgen.paperwork.typesetting.typeface import FOOT_MM, line_pitch_mm, wrapped

CARD_MM = (93.0, 124.0)
INSIDE_MM = 4.0  # from the cut line to what stands on a card
_TICK_MM = 3.0
_ROWS = 2


@frozen
class CardInk:
    """A card: how many columns (1 or 2) and rows (1, or a half) of a sheet it takes, and its ink in the box given.

    One that `opens` a row stands at the left, with what belongs beside it at its right.
    """

    draw: Callable[[Box], Sequence[Ink]]
    columns: int = 1
    half: bool = False
    opens: bool = False


@frozen
class _Place:
    card: CardInk
    column: int
    y_mm: float

    def box(self, left_mm: float) -> Box:
        height = CARD_MM[1] / 2 if self.card.half else CARD_MM[1]
        return Box(left_mm + self.column * CARD_MM[0], TOP_MM + self.y_mm, self.card.columns * CARD_MM[0], height)


def lay_cards(sheets: Sheets, cards: Sequence[CardInk]) -> list[Page]:
    """Return the pages of cards, in order; a half card stands below another half."""
    pages = []
    left_mm = (sheets.paper_mm[0] - 2 * CARD_MM[0]) / 2
    for places in _sheets(cards):
        page = Page(sheets.paper_mm[0], sheets.paper_mm[1])
        for place in places:
            box = place.box(left_mm)
            page.add(*place.card.draw(box), *_ticks(box))
        pages.append(page)
    if pages:
        below_mm = TOP_MM + _ROWS * CARD_MM[1] + 3.5
        pages[0].add(*bar(left_mm, below_mm))
        for i, line in enumerate(wrapped(MODELS_ONLY, 2 * CARD_MM[0], FOOT_MM)):
            base = below_mm + 2 + FOOT_MM + i * line_pitch_mm(FOOT_MM)
            pages[0].add(Text(left_mm, base, line, FOOT_MM))
    sheets.finish(pages)
    return pages


def _sheets(cards: Sequence[CardInk]) -> Iterator[list[_Place]]:
    """Walk the places of the cards on each sheet."""
    places: list[_Place] = []
    row, column, half = 0, 0, False
    for card in cards:
        if half and not card.half:
            column, half = column + 1, False
        if column >= 2 or (column and (card.opens or card.columns == 2)):
            row, column, half = row + 1, 0, False
        if row >= _ROWS:
            yield places
            places, row = [], 0
        places.append(_Place(card, column, row * CARD_MM[1] + (CARD_MM[1] / 2 if half else 0.0)))
        if card.half and not half:
            half = True
        else:
            column, half = column + card.columns, False
    if places:
        yield places


def _ticks(box: Box) -> list[Ink]:
    """Return ticks along the edges of a card, from each of its corners."""
    ink: list[Ink] = []
    for x, along_x in ((box.x_mm, _TICK_MM), (box.right_mm, -_TICK_MM)):
        for y, along_y in ((box.y_mm, _TICK_MM), (box.bottom_mm, -_TICK_MM)):
            ink += [Line(x, y, x + along_x, y, THICK_MM), Line(x, y, x, y + along_y, THICK_MM)]
    return ink
