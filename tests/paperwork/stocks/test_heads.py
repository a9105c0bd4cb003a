"""What stands above and below labels in cells: title, what to know first, how they go on, all where it has room."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.reading import KINDS
from docgen.paperwork.stocks.stock import LabelStock, compose
from docgen.paperwork.typesetting.ink import Line, Page, Text
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import width_mm

if TYPE_CHECKING:
    from docgen.paperwork.labels.content import LabelContent

BLOCK = TitleBlock("Wren", "WR-7", "issue B", "2026-04-18", None, "0123abcd")
SMALL_MM, PLAIN_MM, FOOT_MM = 1.8, 2.5, 1.5
PITCH_MM = 1.55 * SMALL_MM


def labels() -> LabelContent:
    return wire_labels.content(harness_of(EXAMPLES / "wren"))


def laid(stock: LabelStock, block: TitleBlock = BLOCK) -> tuple[list[Page], list[str]]:
    composed = compose(labels(), stock)(block)
    return composed.pages, composed.notes


def stock(name: str, first_mm: float | None = None) -> LabelStock:
    """Return a stock whose first label begins so far down."""
    shipped = read_shipped(name, KINDS)
    if first_mm is None:
        return shipped
    cells = shipped.cells  # type: ignore[attr-defined]
    moved = cells.model_copy(update={"first": [cells.first[0], first_mm]})
    return shipped.model_copy(update={"cells": moved})


def texts(page: Page) -> list[Text]:
    return [ink for ink in page.ink if isinstance(ink, Text)]


@pytest.mark.parametrize("name", ["strips-a4", "carrier-a4", "wraps-a4", "flags-a4", "carrier-4.8"])
def test_the_head_says_whose_labels_they_are_then_what_to_know_then_how_they_go_on(name: str) -> None:
    of = stock(name)
    (page,), notes = laid(of)
    title, *said = [text for text in texts(page) if text.y_mm < of.cells.first[1] - 1]  # type: ignore[attr-defined]
    assert (title.text, title.bold, title.height_mm) == ("Wire labels · Wren WR-7", True, PLAIN_MM)
    # The margin of these stocks is 10 mm, the head begins 10 mm down; lines are 1.55 heights of capitals apart.
    assert (title.x_mm, title.y_mm) == (10, 10 + PLAIN_MM)
    lines = [text for text in said if text.height_mm == SMALL_MM and text.x_mm == 10]
    first = title.y_mm + PITCH_MM + 0.7
    assert [text.y_mm for text in lines] == pytest.approx([first + i * PITCH_MM for i in range(len(lines))])
    told = " ".join(text.text for text in lines)
    assert told == f"{of.warns} {of.said(labels())}"
    assert all(width_mm(text.text, SMALL_MM) <= 190 for text in lines)
    assert notes == []


@pytest.mark.parametrize("name", ["strips-a4", "carrier-a4"])
def test_the_head_says_all_or_least_or_nothing_by_the_room_above_the_labels(name: str) -> None:
    of = stock(name)
    said = [text for text in texts(laid(of)[0][0]) if text.height_mm == SMALL_MM and text.x_mm == 10]
    # Above the first label 1 mm is clear, and 2.3 mm for what is said over each.
    above = [text for text in said if text.text in f"{of.warns} {of.said(labels())}"]
    needed = max(text.y_mm for text in above) + 2.3 + 1.0
    assert laid(stock(name, needed + 0.001))[1] == []
    (note,) = laid(stock(name, needed - 0.001))[1]
    assert note == f"the sheet has no room above its labels to say all: {of.said(labels())}"
    (none,) = laid(stock(name, 12.0))[1]
    assert none.startswith("the labels fill their sheet, so it says here what belongs on it: ")
    assert of.warns in none
    assert "A heat gun's air and fresh tube burn" in none


def test_below_the_labels_stand_caution_and_bar_once_and_a_foot_on_each_page() -> None:
    (page,), _ = laid(stock("flags-a4"))
    said = " ".join(text.text for text in texts(page))
    assert said.count("A heat gun's air and fresh tube burn") == 1
    assert [ink.x2_mm - ink.x1_mm for ink in page.ink if isinstance(ink, Line) and ink.x2_mm - ink.x1_mm == 50] == [50]
    assert "Wren · WR-7 · issue B · 2026-04-18 · page 1 of 1 · 0123abcd" in said


def test_two_pages_have_one_head_and_two_feet() -> None:
    items = wire_labels.content(harness_of(EXAMPLES / "fulmar"))
    pages = compose(items, stock("strips-a4"))(BLOCK).pages
    assert len(pages) == 3
    heads = [[text.text for text in texts(page) if text.text.startswith("Wire labels · ")] for page in pages]
    assert heads == [["Wire labels · Wren WR-7"], [], []]
    feet = [[text.text for text in texts(page) if " · page " in text.text] for page in pages]
    assert [foot[0].split(" · ")[4] for foot in feet] == ["page 1 of 3", "page 2 of 3", "page 3 of 3"]


def test_where_labels_reach_the_foot_there_is_none() -> None:
    # The foot's capitals of 1.5 mm stand 7.2 mm above the edge of 297 mm; labels end 1 mm over them at most.
    for last, foot in ((297 - 7.2 - 1.5 - 1 - 0.01, True), (297 - 7.2 - 1.5 - 1 + 0.01, False)):
        of = stock("wraps-a4")
        high = of.end_mm(1) - of.cells.first[1]  # type: ignore[attr-defined]
        (page,), _ = laid(stock("wraps-a4", last - high))
        assert any(" · page " in text.text for text in texts(page)) == foot


def test_labels_on_nothing_make_no_page() -> None:
    for name in ("strips-a4", "wraps-a4", "tape-9"):
        assert read_shipped(name, KINDS).pages([], labels(), BLOCK) == ([], [])
