"""Cards on sheets: four on one, halves and doubles among them, ticks at their corners."""

from __future__ import annotations

import pytest

from docgen.paperwork.page_kit.card_sheets import CARD_MM, CardInk, lay_cards
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.typesetting.ink import Box, Ink, Line, Page, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

BLOCK = TitleBlock("Tern", "TE-1", "A", "2026-01-01", None, "0123abcd")
PAPERS = [(210.0, 297.0), (215.9, 279.4)]


def card(name: str, columns: int = 1, *, half: bool = False, opens: bool = False) -> CardInk:
    def draw(box: Box) -> list[Ink]:
        return [Text(box.x_mm, box.y_mm, name, 1.8, cell=box)]

    return CardInk(draw, columns, half, opens)


def laid(*cards: CardInk, paper: tuple[float, float] = PAPERS[0]) -> list[dict[str, Box]]:
    pages = lay_cards(Sheets("Cards", paper, "Unplug first.").of(BLOCK), cards)
    return [
        {ink.text: ink.cell for ink in page.ink if isinstance(ink, Text) and ink.cell is not None} for page in pages
    ]


@pytest.mark.parametrize("paper", PAPERS)
def test_four_cards_of_the_stated_size_fill_a_sheet_of_either_paper(paper: tuple[float, float]) -> None:
    pages = laid(*(card(name) for name in "abcde"), paper=paper)
    assert [list(page) for page in pages] == [["a", "b", "c", "d"], ["e"]]
    boxes = list(pages[0].values())
    assert all((box.width_mm, box.height_mm) == CARD_MM == (93, 124) for box in boxes)
    assert len({(box.x_mm, box.y_mm) for box in boxes}) == 4
    assert all(box.x_mm >= 6 and box.right_mm <= paper[0] - 6 for box in boxes)
    assert all(box.y_mm >= 6 and box.bottom_mm <= paper[1] - 12 for box in boxes)


def test_what_belongs_together_stands_side_by_side() -> None:
    [page] = laid(card("unit"), card("fixed", opens=True), card("loose"))
    assert page["fixed"].y_mm == page["loose"].y_mm > page["unit"].y_mm
    assert page["fixed"].right_mm == page["loose"].x_mm


def test_a_double_card_takes_the_width_of_two() -> None:
    [page] = laid(card("unit"), card("wide", 2))
    assert (page["wide"].x_mm, page["wide"].width_mm) == (page["unit"].x_mm, 186)


def test_two_halves_take_the_place_of_one_and_none_covers_another() -> None:
    [page] = laid(*(card(name, half=True) for name in "abc"), card("whole"), card("d", half=True))
    assert [page[name].height_mm for name in "abcd"] == [62] * 4
    assert page["a"].bottom_mm == page["b"].y_mm
    boxes = list(page.values())
    for i, one in enumerate(boxes):
        for other in boxes[i + 1 :]:
            beside = one.right_mm <= other.x_mm or other.right_mm <= one.x_mm
            assert beside or one.bottom_mm <= other.y_mm or other.bottom_mm <= one.y_mm


def test_each_corner_has_ticks_along_both_edges() -> None:
    [page] = lay_cards(Sheets("Cards", PAPERS[0], "Unplug first.").of(BLOCK), [card("a")])
    ends = {(ink.x1_mm, ink.y1_mm) for ink in lines(page)}
    left, top = 12, 10
    corners = {(left, top), (left + 93, top), (left, top + 124), (left + 93, top + 124)}
    assert corners <= ends


def lines(page: Page) -> list[Line]:
    return [ink for ink in page.ink if isinstance(ink, Line) and ink.width_mm == 0.5]


def test_no_cards_make_no_sheet() -> None:
    assert laid() == []
