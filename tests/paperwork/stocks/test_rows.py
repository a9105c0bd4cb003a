"""Labels that are cut out stand in rows of their size, on from the first free cell and over pages, by hand."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import NamedTuple

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.text import SetLabel, Zone
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.fitting import Piece, Place
from docgen.paperwork.stocks.reading import KINDS
from docgen.paperwork.stocks.rows import RowStock
from docgen.paperwork.stocks.stock import compose
from docgen.paperwork.typesetting.ink import Box as InkBox
from docgen.paperwork.typesetting.ink import Page, Shape, Text, rectangle
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import width_mm

# strips-a4: five cells of 39 mm across from 11 mm, 39 rows of 5.3 mm down from 36 mm, on A4.
ACROSS, DOWN, LEFT_MM, TOP_MM, WIDE_MM, HIGH_MM = 5, 39, 11.0, 36.0, 39.0, 5.3
END_MM = TOP_MM + DOWN * HIGH_MM
# Below a row 1.2 mm are clear, and 2.3 mm are for what is said above the next.
BETWEEN_MM = 1.2 + 2.3
BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-04-18", None, "00000000")


def strips() -> RowStock:
    stock = read_shipped("strips-a4", KINDS)
    assert isinstance(stock, RowStock)
    return stock


@cache
def some_label() -> wire_labels.LabelItem:
    return wire_labels.content(harness_of(EXAMPLES / "wren")).labels[0]


def piece(name: str, high_mm: float, columns: int = 1, size: float = 4.0) -> Piece:
    """Return a piece that is but an outline of its height, with its name above it."""
    outline = rectangle(InkBox(0, 0, 32, high_mm))
    zone = Zone((32, 32), high_mm, 1, 1)
    place = Place(zone, (), name, (outline,), (), (size, "tube"), high_mm, columns)
    return Piece(some_label(), SetLabel(zone, 32, ()), place)


class At(NamedTuple):
    """Where a piece came to stand: its page, and its corner."""

    page: int
    x: float
    y: float


def laid(pieces: list[Piece], first: int = 1) -> tuple[list[Page], dict[str, At]]:
    pages = list(strips().sheets(pieces, first))
    found = {}
    for number, page in enumerate(pages):
        corners = [min(ink.points_mm) for ink in page.ink if isinstance(ink, Shape)]
        names = [ink for ink in page.ink if isinstance(ink, Text) and not ink.text.startswith("free")]
        for (x, y), name in zip(corners, names, strict=True):
            # What is said stands 0.7 mm above it.
            assert (name.x_mm, name.y_mm, name.height_mm) == pytest.approx((x, y - 0.7, 1.5))
            found[name.text] = At(number, round(x, 3), round(y, 3))
    return pages, found


def free(pages: list[Page]) -> list[Text]:
    return [ink for page in pages for ink in page.ink if isinstance(ink, Text) and ink.text.startswith("free")]


def test_a_row_is_as_high_as_its_highest_and_the_next_begins_below_it() -> None:
    names = "abcdefg"
    pages, at = laid([piece(name, 10 + index) for index, name in enumerate(names)])
    assert len(pages) == 1
    # The lowest first; the fifth, 14 mm high, ends the first row.
    assert at == {
        **{name: At(0, LEFT_MM + i * WIDE_MM, TOP_MM) for i, name in enumerate("abcde")},
        **{name: At(0, LEFT_MM + i * WIDE_MM, round(TOP_MM + 14 + BETWEEN_MM, 3)) for i, name in enumerate("fg")},
    }
    # 14 + 3.5 + 16 + 3.5 mm are 6.98 rows, so that the eighth is free, cell 36.
    (said,) = free(pages)
    assert (said.text, said.x_mm) == ("free from here on: --first 36", LEFT_MM)
    assert said.y_mm == pytest.approx(TOP_MM + 7 * HIGH_MM)


def test_sizes_do_not_share_a_row_and_come_by_their_diameter_then_their_height() -> None:
    pieces = [piece("b", 12, size=6.0), piece("c", 11, size=4.0), piece("a", 10, size=4.0), piece("d", 9, size=8.0)]
    _, at = laid(pieces)
    tops = [TOP_MM, TOP_MM + 11 + BETWEEN_MM, TOP_MM + 11 + 12 + 2 * BETWEEN_MM]
    assert at == {
        "a": At(0, LEFT_MM, tops[0]),
        "c": At(0, LEFT_MM + WIDE_MM, tops[0]),
        "b": At(0, LEFT_MM, tops[1]),
        "d": At(0, LEFT_MM, tops[2]),
    }


def test_what_is_two_cells_wide_takes_two_and_goes_below_where_one_is_left() -> None:
    _, at = laid([piece(name, 10, columns=2) for name in "abc"])
    assert at == {
        "a": At(0, LEFT_MM, TOP_MM),
        "b": At(0, LEFT_MM + 2 * WIDE_MM, TOP_MM),
        "c": At(0, LEFT_MM, TOP_MM + 10 + BETWEEN_MM),
    }


def test_the_first_row_begins_beside_cells_that_are_used() -> None:
    # Cell 13 is the third of the third row; three of five cells are left there.
    _, at = laid([piece(name, 10) for name in "abcd"], first=13)
    top = TOP_MM + 2 * HIGH_MM
    assert at == {
        **{name: At(0, LEFT_MM + (2 + i) * WIDE_MM, round(top, 3)) for i, name in enumerate("abc")},
        "d": At(0, LEFT_MM, round(top + 10 + BETWEEN_MM, 3)),
    }


@pytest.mark.parametrize(("high", "fits"), [(END_MM - TOP_MM - 20 - BETWEEN_MM, True), (190, False)])
def test_a_row_that_ends_below_the_last_cell_begins_the_next_page(high: float, fits: bool) -> None:
    pages, at = laid([piece("a", 20), piece("b", high, size=6.0)])
    assert [(page.width_mm, page.height_mm) for page in pages] == [(210, 297)] * (1 if fits else 2)
    wanted = At(0, LEFT_MM, round(TOP_MM + 20 + BETWEEN_MM, 3)) if fits else At(1, LEFT_MM, TOP_MM)
    assert at["b"] == wanted
    # Where all cells are used, none is said to be free; 190 mm and what is below them take 36.5 rows.
    assert [said.text for said in free(pages)] == ([] if fits else ["free from here on: --first 186"])
    assert free(pages[:-1]) == []


def test_where_the_last_cell_of_one_column_is_free_it_is_said() -> None:
    stock = strips()
    column = stock.model_copy(update={"cells": stock.cells.model_copy(update={"across": 1})})
    # With what is below them they take 38 rows of 39.
    (page,) = column.sheets([piece("a", 38 * HIGH_MM - BETWEEN_MM)], 1)
    assert [said.text for said in free([page])] == ["free from here on: --first 39"]


def test_one_that_is_higher_than_what_is_left_of_a_used_sheet_goes_on_the_next() -> None:
    pages, at = laid([piece("a", 206.7)], first=6)
    assert at["a"].page == 0  # nothing is on the first page, so that none is wasted
    assert len(pages) == 1


@pytest.mark.parametrize("columns", [1, 2])
def test_what_is_said_above_a_label_ends_before_the_next(columns: int) -> None:
    long = "clear-4.8 " * 12
    (page,) = strips().sheets([piece(long, 10, columns)], 1)
    (said,) = (ink for ink in page.ink if isinstance(ink, Text) and not ink.text.startswith("free"))
    room_mm = columns * WIDE_MM - 1
    assert room_mm - 2 < width_mm(said.text, 1.5) <= room_mm


def test_a_sheet_of_labels_says_that_some_lie_halfway_where_any_does() -> None:
    items = wire_labels.content(harness_of(EXAMPLES / "wren"))
    middle = replace(items.labels[0], text=replace(items.labels[0].text, middle=True))
    for labels, halfway in ((items.labels, False), ((middle, *items.labels[1:]), True)):
        page = compose(replace(items, labels=labels), strips())(BLOCK).pages[0]
        said = " ".join(ink.text for ink in page.ink if isinstance(ink, Text))
        assert ("behind it, those in the middle halfway." in said) == halfway


def test_pages_of_an_example_are_all_on_the_paper_of_its_stock() -> None:
    items = wire_labels.content(harness_of(EXAMPLES / "fulmar"))
    for name, paper in (("strips-a4", (210, 297)), ("strips-letter", (215.9, 279.4)), ("wraps-a4", (210, 297))):
        pages = compose(items, read_shipped(name, KINDS))(BLOCK).pages
        assert len(pages) > 1
        assert {(round(page.width_mm, 2), round(page.height_mm, 2)) for page in pages} == {paper}
