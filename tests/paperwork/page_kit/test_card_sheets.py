"""Cards on sheets: four on one, halves and doubles among them, ticks at their corners."""

from __future__ import annotations

from itertools import pairwise, product
from random import Random

import pytest

from docgen.paperwork.page_kit.card_sheets import CARD_MM, CardInk, lay_cards
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.typesetting.ink import Box, Ink, Line, Page, Text
from docgen.paperwork.typesetting.title_block import MODELS_ONLY, TitleBlock
from docgen.paperwork.typesetting.typeface import width_mm

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


def lines_on(page: Page) -> set[tuple[float, float, float, float]]:
    return {(ink.x1_mm, ink.y1_mm, ink.x2_mm, ink.y2_mm) for ink in lines(page)}


def test_ticks_go_3_mm_along_the_edges_of_each_card_from_its_corners() -> None:
    cards = [card("a", half=True), card("b", half=True), card("c"), card("d", 2)]
    [page] = lay_cards(Sheets("Cards", PAPERS[0], "Unplug first.").of(BLOCK), cards)
    expected = set()
    for left, top, right, bottom in ((12, 10, 105, 72), (12, 72, 105, 134), (105, 10, 198, 134), (12, 134, 198, 258)):
        for x, inwards in ((left, 3), (right, -3)):
            for y, down in ((top, 3), (bottom, -3)):
                expected |= {(x, y, x + inwards, y), (x, y, x, y + down)}
    assert lines_on(page) == expected


@pytest.mark.parametrize("paper", PAPERS)
def test_bar_and_disclaimer_stand_below_the_cards_of_the_first_sheet_and_a_foot_on_each(
    paper: tuple[float, float],
) -> None:
    pages = lay_cards(Sheets("Cards", paper, "Unplug first.").of(BLOCK), [card(name) for name in "abcde"])
    left, below = (paper[0] - 186) / 2, 10 + 2 * 124
    for number, page in enumerate(pages, 1):
        assert (page.width_mm, page.height_mm) == paper
        words = [ink for ink in page.ink if isinstance(ink, Text) and ink.height_mm == 1.5]
        foot = [text for text in words if f"page {number} of 2" in text.text]
        assert [text.y_mm for text in foot] == [pytest.approx(paper[1] - 7.2)]
        disclaimer = [text for text in words if text.x_mm == left]
        bars = [ink for ink in page.ink if isinstance(ink, Line) and ink.x2_mm - ink.x1_mm == pytest.approx(50)]
        if number > 1:
            assert (disclaimer, bars) == ([], [])
            continue
        assert " ".join(text.text for text in disclaimer) == MODELS_ONLY
        assert all(width_mm(text.text, 1.5) <= 2 * 93 for text in disclaimer)
        [bar] = bars
        assert (bar.x1_mm, bar.y1_mm) == pytest.approx((left, below + 3.5))
        bases = [bar.y_mm for bar in disclaimer]
        # Capitals begin 2 mm below the bar; lines are clear of each other and of the foot.
        assert bases[0] - 1.5 - bar.y1_mm == pytest.approx(2.0)
        assert all(1.5 < other - one < 3 for one, other in pairwise(bases))
        assert foot[0].y_mm - bases[-1] > 1.5 + 0.5


def test_cards_made_by_chance_stand_in_order_with_no_place_left_empty_that_they_could_take() -> None:
    dice = Random(1)
    for _ in range(200):
        cards = []
        for i in range(dice.randint(1, 12)):
            columns = dice.choice([1, 1, 1, 2])
            half = columns == 1 and dice.random() < 0.4
            cards.append(card(str(i), columns, half=half, opens=not half and dice.random() < 0.2))
        placed = [
            (number, round((box.y_mm - 10) // 124), round((box.x_mm - 12) / 93), round((box.y_mm - 10) % 124))
            for number, page in enumerate(laid(*cards))
            for box in page.values()
        ]
        assert placed == sorted(placed)
        assert placed[0] == (0, 0, 0, 0)
        assert {(row, column, down) for _, row, column, down in placed} <= set(product((0, 1), (0, 1), (0, 62)))
        for (one, here), (other, there) in pairwise(zip(cards, placed, strict=True)):
            page, row, column, down = here
            next_row = (page, row + 1, 0, 0) if row == 0 else (page + 1, 0, 0, 0)
            if one.half and other.half and down == 0:
                assert there == (page, row, column, 62)
            elif one.columns == 2 or column == 1 or other.columns == 2 or other.opens:
                assert there == next_row
            else:
                assert there == (page, row, 1, 0)
