"""Sheets that are folded: front at the right, back at the left, each with its own foot, ticks where they are folded."""

from __future__ import annotations

import pytest

from docgen.paperwork.page_kit.blocks import Block, Group
from docgen.paperwork.page_kit.folded import Folded
from docgen.paperwork.typesetting.ink import Box, Ink, Line, Page, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

BLOCK = TitleBlock("Tern", "TE-1", "A", "2026-01-01", None, "0123abcd")
PAPERS = [(297.0, 210.0), (279.4, 215.9)]


def laid(paper: tuple[float, float], count: int) -> list[Page]:
    """Lay blocks that fill a side each."""

    def block(name: str) -> Block:
        def draw(box: Box) -> list[Ink]:
            return [Text(box.x_mm, box.y_mm, name, 1.8, cell=box)]

        return Block(190.0, draw)

    names = (f"b{i}" for i in range(count))
    return Folded("Hangar card", paper, "").of(BLOCK).lay([Group((block(name),)) for name in names])


def boxes(page: Page) -> dict[str, Box]:
    return {ink.text: ink.cell for ink in page.ink if isinstance(ink, Text) and ink.cell is not None}


@pytest.mark.parametrize("paper", PAPERS)
def test_sides_are_as_large_on_either_paper_in_the_middle_of_their_half_the_front_at_the_right(
    paper: tuple[float, float],
) -> None:
    first, second = laid(paper, 3)
    assert [list(boxes(page)) for page in (first, second)] == [["b0", "b1"], ["b2"]]
    front, back = boxes(first).values()
    for side, middle in ((front, 0.75), (back, 0.25)):
        assert side.width_mm == 127
        assert side.x_mm + side.width_mm / 2 == pytest.approx(middle * paper[0])
        assert 6 <= side.y_mm < side.y_mm + 193 < paper[1] - 8
    assert front.y_mm == back.y_mm
    assert boxes(second)["b2"] == front


@pytest.mark.parametrize("paper", PAPERS)
def test_each_side_has_its_number_in_its_own_foot(paper: tuple[float, float]) -> None:
    pages = laid(paper, 3)
    for number, page in enumerate(pages):
        feet = [ink for ink in page.ink if isinstance(ink, Text) and "side" in ink.text]
        lefts = {text.text: text.x_mm for text in feet}
        says = "Tern · TE-1 · A · 2026-01-01 · side {} of 4 · 0123abcd"
        front, back = says.format(2 * number + 1), says.format(2 * number + 2)
        assert set(lefts) == {front, back}
        assert lefts[front] - lefts[back] == pytest.approx(paper[0] / 2)
        assert lefts[back] == pytest.approx(paper[0] / 4 - 127 / 2)
        assert {text.y_mm for text in feet} == {paper[1] - 7.2}


@pytest.mark.parametrize("paper", PAPERS)
def test_ticks_show_the_fold_at_both_edges_where_a_printer_does_not_clip_them(paper: tuple[float, float]) -> None:
    for page in laid(paper, 3):
        ticks = sorted((ink.y1_mm, ink.y2_mm, ink.x1_mm, ink.x2_mm) for ink in page.ink if isinstance(ink, Line))
        middle, low = paper[0] / 2, paper[1] - 6
        assert ticks == [(6, 10, middle, middle), (low - 4, low, middle, middle)]
