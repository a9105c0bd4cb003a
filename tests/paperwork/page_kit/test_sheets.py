"""Sheets of the kit: where pages break, what stands on the first and on each, and the same area on both papers."""

from __future__ import annotations

from dataclasses import replace

import pytest

from docgen.paperwork.page_kit.blocks import Block, Group, abreast, joined
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.page_kit.tables import Column, Row, heading, table
from docgen.paperwork.typesetting.ink import Box, Ink, Line, Page, Shape, Text
from docgen.paperwork.typesetting.title_block import MODELS_ONLY, TitleBlock
from docgen.paperwork.typesetting.typeface import width_mm

BLOCK = TitleBlock("Tern", "TE-1", "A", "2026-01-01", None, "0123abcd")
A4, LETTER = (210.0, 297.0), (215.9, 279.4)


def sheets(paper: tuple[float, float] = A4, columns: int = 1) -> Sheets:
    return Sheets("Cut list", paper, "Cut away from the hand.", columns).of(BLOCK)


def block(name: str, height_mm: float, *, stays: bool = False) -> Block:
    def draw(box: Box) -> list[Ink]:
        return [Text(box.x_mm, box.bottom_mm, name, 1.8)]

    return Block(height_mm, draw, stays=stays)


def group(name: str, count: int, height_mm: float) -> Group:
    again = block(f"{name} again", 5)
    return Group((block(name, 5, stays=True), *(block(f"{name}{i}", height_mm) for i in range(count))), again)


def said(page: Page) -> list[str]:
    return [ink.text for ink in page.ink if isinstance(ink, Text)]


def test_a_short_group_goes_to_the_next_page_whole() -> None:
    # Group a ends where less than 28 mm are left of the first page, group b needs 55.
    pages = sheets().lay([group("a", 20, 10), group("b", 5, 10)])
    assert "b" not in said(pages[0])
    assert [name for name in said(pages[1]) if name.startswith("b")] == ["b", "b0", "b1", "b2", "b3", "b4"]


def test_a_long_group_is_parted_and_headed_again() -> None:
    pages = sheets().lay([group("a", 10, 10), group("b", 20, 10)])
    assert "b0" in said(pages[0])
    assert said(pages[1])[0] == "b again"
    every = [name for page in pages for name in said(page) if name.startswith("b") and name[1:].isdigit()]
    assert every == [f"b{i}" for i in range(20)]


def test_a_heading_is_never_parted_from_its_first_two_rows_nor_the_last_two_rows_from_each_other() -> None:
    of = table([Column("what")], [Row(("x",))], 190)
    for used in range(150, 260):
        rows = of.blocks([Row((f"row {i}",)) for i in range(60)])
        pages = sheets().lay([Group((block("filler", used),)), Group((heading("Sleeves"), of.head(), *rows))])
        [page] = [page for page in pages if "Sleeves" in said(page)]
        assert {"row 0", "row 1"} <= {*said(page)}
        [page] = [page for page in pages if "row 59" in said(page)]
        assert "row 58" in said(page)


@pytest.mark.parametrize("columns", [1, 2])
def test_a_page_of_letter_holds_what_one_of_a4_holds_at_the_same_places_of_the_area(columns: int) -> None:
    groups = [group(name, 7, 9.0) for name in "abcdefgh"]
    on_a4, on_letter = (sheets(paper, columns).lay(groups) for paper in (A4, LETTER))
    assert len(on_a4) == len(on_letter)
    for one, other in zip(on_a4, on_letter, strict=True):
        here = {
            (t.text, round(t.x_mm - 10, 6), t.y_mm) for t in one.ink if isinstance(t, Text) and t.text[:1] in "abcdefgh"
        }
        there = {(t.text, round(t.x_mm - 12.95, 6), t.y_mm) for t in other.ink if isinstance(t, Text)}
        assert here <= there


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_nothing_stands_within_6_mm_of_an_edge_or_outside_the_area_but_the_foot(paper: tuple[float, float]) -> None:
    pages = sheets(paper, 2).lay([group(name, 9, 9.0) for name in "abcdefgh"])
    for page in pages:
        for text in (ink for ink in page.ink if isinstance(ink, Text)):
            assert 6 <= text.x_mm <= paper[0] - 6
            assert text.y_mm - text.height_mm >= 6
            assert text.y_mm <= (265 if text.height_mm > 1.5 else paper[1] - 6)


def test_each_page_says_whose_it_is_and_the_first_alone_the_caution_and_the_bar() -> None:
    pages = sheets().lay([group(name, 9, 9.0) for name in "abcdefgh"])
    assert len(pages) > 1
    for number, page in enumerate(pages, 1):
        words = " ".join(said(page))
        assert f"Tern · TE-1 · A · 2026-01-01 · page {number} of {len(pages)} · 0123abcd" in words
        assert "models only; estimates, to be checked" in words
        assert ("this bar is 50 mm" in words) == (number == 1)
        assert ("Cut away from the hand." in words) == (number == 1)
        assert ("makers' instructions" in words) == (number == 1)


def test_two_columns_fill_from_the_left() -> None:
    pages = sheets(columns=2).lay([group(name, 11, 9.0) for name in "abcd"])
    left = {t.text[0]: t.x_mm for page in pages[:1] for t in page.ink if isinstance(t, Text) and t.text in "abcd"}
    assert left["a"] == left["b"] == 10
    assert left["c"] == pytest.approx(10 + 92 + 6)


def test_what_stands_side_by_side_takes_half_the_room_each_and_the_height_of_the_higher() -> None:
    pages = sheets().lay([Group(tuple(abreast([block("a", 7), block("b", 9)], [block("c", 5)], 6.0)))])
    at = {t.text: (t.x_mm, t.y_mm) for t in pages[0].ink if isinstance(t, Text) and t.text in "abc"}
    # The area begins at 10 mm and is 190 mm wide; the second column begins after 92 mm and 6 mm.
    assert {name: x for name, (x, _) in at.items()} == {"a": 10, "b": 10, "c": pytest.approx(108)}
    assert at["b"][1] - at["a"][1] == pytest.approx(9)
    assert at["a"][1] - at["c"][1] == pytest.approx(2)


def test_blocks_that_stand_together_keep_their_order_and_what_is_clear_between_them() -> None:
    both = joined(replace(block("a", 7), above_mm=3), replace(block("b", 9), above_mm=2))
    assert (both.above_mm, both.height_mm) == (3, 7 + 2 + 9)
    # Each name stands at the lower edge of its block.
    at = {t.text: t.y_mm for t in both.draw(Box(10, 50, 90, both.height_mm)) if isinstance(t, Text)}
    assert at == {"a": 57, "b": 68}


def test_headings_that_groups_share_stand_once_at_the_head_of_each_column() -> None:
    lengths, counts = block("lengths", 4), block("counts", 4)
    groups = [replace(group(name, 9, 9.0), head=lengths) for name in "abcdf"]
    pages = sheets(columns=2).lay([*groups, replace(group("e", 2, 9.0), head=counts)])
    inks = [(number, ink) for number, page in enumerate(pages) for ink in page.ink if isinstance(ink, Text)]
    used = {(number, ink.x_mm) for number, ink in inks if ink.text[0] in "abcdf" and len(ink.text) < 3}
    heads = [(number, ink.x_mm) for number, ink in inks if ink.text == "lengths"]
    assert sorted(heads) == sorted(used)
    assert len(used) > 2
    said_in_order = [ink.text for _, ink in inks]
    assert said_in_order.index("counts") == said_in_order.index("e") - 1
    rows = [ink.text for _, ink in inks if len(ink.text) == 2]
    assert rows == [f"{name}{i}" for name in "abcdf" for i in range(9)] + ["e0", "e1"]


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_the_longest_names_stay_inside_the_sheet(paper: tuple[float, float]) -> None:
    # 60 and 20 characters are the most that are taken; W is the widest letter.
    named = TitleBlock("W" * 60, "W" * 20, "W" * 20, "2026-01-01", None, "0123abcd")
    of = Sheets("Cut list", paper, "Cut away from the hand.").of(named)
    for page in of.lay([group("a", 9, 9.0)]):
        assert [
            ink for ink in page.ink if isinstance(ink, Text) and ink.text == "models only; estimates, to be checked"
        ]
        bases = []
        for text in (ink for ink in page.ink if isinstance(ink, Text)):
            wide = width_mm(text.text, text.height_mm, text.bold)
            left = text.x_mm - (wide if text.align == "right" else 0)
            assert left >= 6
            assert left + wide <= paper[0] - 6
            bases.append((text.y_mm, text.height_mm, text.text))
        assert not [one for one in bases for other in bases if 0.01 < other[0] - one[0] < other[1]]


LONG = TitleBlock("W" * 60, "W" * 20, "W" * 20, "2026-01-02", None, "0123abcd", corrected=True)


def texts(page: Page) -> list[Text]:
    return [ink for ink in page.ink if isinstance(ink, Text)]


@pytest.mark.parametrize("named", [BLOCK, LONG, replace(BLOCK, corrected=True), replace(BLOCK, date="", marks="T" * 9)])
@pytest.mark.parametrize("paper", [A4, LETTER])
def test_the_foot_is_read_downwards_ends_7_mm_from_the_edge_and_says_all(
    named: TitleBlock, paper: tuple[float, float]
) -> None:
    of = Sheets("Cut list", paper, "Cut away from the hand.").of(named)
    [page] = of.lay([group("a", 2, 9.0)])
    low = [text for text in texts(page) if text.y_mm > 265 and text.align == "left" and text.height_mm == 1.5]
    lines = [text for text in low if text.y_mm > paper[1] - 14]
    state = " · ".join(part for part in (named.issue, named.date) if part)
    says = f"{named.aircraft} · {named.marks} · {state} · page 1 of 1 · 0123abcd"
    says += " · corrected for one printer" if named.corrected else ""
    in_order = sorted(lines, key=lambda text: text.y_mm)
    assert " ".join(text.text for text in in_order) == says
    assert in_order[-1].y_mm == pytest.approx(paper[1] - 7.2)
    assert {text.x_mm for text in lines} == {(paper[0] - 190) / 2}
    short = [text for text in texts(page) if text.text == "models only; estimates, to be checked"]
    assert [(text.x_mm, text.align) for text in short] == [((paper[0] + 190) / 2, "right")]
    assert short[0].y_mm == in_order[-1].y_mm


def test_a_foot_that_leaves_no_room_does_without_the_words_at_its_right() -> None:
    # They are on the first page in full.
    room = width_mm("models only; estimates, to be checked", 1.5) + 3
    for count in range(20, 61):
        of = sheets().of(replace(BLOCK, marks="W" * 20, issue="W" * 20, aircraft="W" * count))
        [page] = of.lay([group("a", 2, 9.0)])
        last = max((text for text in texts(page) if text.align == "left"), key=lambda text: text.y_mm)
        shown = any(text.text.startswith("models only") for text in texts(page))
        assert shown == (width_mm(last.text, 1.5) + room <= 190)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_the_first_page_ends_with_caution_disclaimer_and_bar_at_the_end_of_the_area(paper: tuple[float, float]) -> None:
    [page] = sheets(paper).lay([group("a", 2, 9.0)])
    left, bottom = (paper[0] - 190) / 2, min(265.0, paper[1] - 14.4)
    lines = [ink for ink in page.ink if isinstance(ink, Line)]
    [level] = [line for line in lines if line.y1_mm == line.y2_mm and line.x2_mm - line.x1_mm == pytest.approx(50)]
    strokes = sorted(
        (line.x1_mm, line.y2_mm - line.y1_mm) for line in lines if line.x1_mm == line.x2_mm and line.width_mm == 0.25
    )
    assert (level.x1_mm, level.y1_mm) == pytest.approx((left, bottom - 1.2))
    # One each 10 mm, the first and the last of them higher.
    assert [x for x, _ in strokes] == pytest.approx([left + 10 * i for i in range(6)])
    assert [high for _, high in strokes] == pytest.approx([2.4, 1.4, 1.4, 1.4, 1.4, 2.4])
    [says] = [text for text in texts(page) if text.text == "print at 100 %; this bar is 50 mm"]
    assert (says.x_mm, says.y_mm - says.height_mm / 2) == pytest.approx((left + 52, level.y1_mm))
    words = [text for text in texts(page) if text.text.startswith(("For model aircraft", "estimates"))]
    words += [text for text in texts(page) if words[0].y_mm < text.y_mm < level.y1_mm - 1 and text not in words]
    assert " ".join(text.text for text in words) == MODELS_ONLY
    assert all(text.x_mm == left and width_mm(text.text, 1.5) <= 190 for text in words)
    frame = next(ink for ink in page.ink if isinstance(ink, Shape))
    corners = {(round(x, 6), round(y, 6)) for x, y in frame.points_mm}
    assert {x for x, _ in corners} == {round(left, 6), round(left + 190, 6)}
    low = max(y for _, y in corners)
    assert words[0].y_mm - 1.5 - low == pytest.approx(2.0)
    assert bottom - low == pytest.approx(2.0 + len(words) * 1.55 * 1.5 + 4.0)
    assert words[-1].y_mm < level.y1_mm - 1.2


def test_without_a_caution_the_disclaimer_stands_alone_at_the_end_of_the_area() -> None:
    [page] = Sheets("Cut list", A4, "").of(BLOCK).lay([group("a", 2, 9.0)])
    assert not [ink for ink in page.ink if isinstance(ink, Shape)]
    assert any(text.text.startswith("For model aircraft") for text in texts(page))
    [level] = [ink for ink in page.ink if isinstance(ink, Line) and ink.y1_mm == ink.y2_mm]
    assert level.y1_mm == pytest.approx(265 - 1.2)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_the_first_page_begins_with_its_title_at_the_left_and_its_state_at_the_right(
    paper: tuple[float, float],
) -> None:
    first, *others = sheets(paper, 2).lay([group(name, 9, 9.0) for name in "abcdefgh"])
    title, state, *_ = texts(first)
    left = (paper[0] - 190) / 2
    assert (title.text, title.height_mm, title.bold, title.x_mm) == ("Cut list · Tern", 5.0, True, left)
    assert (state.text, state.align, state.x_mm) == ("A · 2026-01-01", "right", left + 190)
    assert state.y_mm == title.y_mm
    assert title.y_mm - 5.0 >= 10
    assert "Cut list · Tern" not in " ".join(text.text for page in others for text in texts(page))
    # What follows is clear of the title, and on other pages it begins at the top.
    assert min(text.y_mm - 9 for text in texts(first) if text.text in ("a0", "b0")) > title.y_mm
    assert min(text.y_mm for text in texts(others[0])) == pytest.approx(10 + 5)


def test_pages_that_go_on_elsewhere_have_neither_head_nor_foot() -> None:
    of = sheets()
    [page] = of.pages([group("a", 2, 9.0)], headed=False)
    assert [text.text for text in texts(page)] == ["a", "a0", "a1"]
    assert texts(page)[0].y_mm == pytest.approx(10 + 5)
    [headed] = of.pages([group("a", 2, 9.0)])
    assert [text.text for text in texts(headed)][:2] == ["Cut list · Tern", "A · 2026-01-01"]


def test_what_stands_side_by_side_takes_the_width_that_is_said_and_stays_if_either_does() -> None:
    boxes: dict[str, Box] = {}

    def kept(name: str, high: float, *, stays: bool = False) -> Block:
        def draw(box: Box) -> list[Ink]:
            boxes[name] = box
            return []

        return Block(high, draw, 3.0, stays)

    first, second = abreast([kept("a", 7), kept("b", 5)], [kept("c", 9, stays=True)], 4.0, 30.0)
    for block in (first, second):
        assert list(block.draw(Box(10, 20, 100, block.height_mm))) == []
    assert (boxes["a"], boxes["b"], boxes["c"]) == (Box(10, 20, 30, 7), Box(10, 20, 30, 5), Box(44, 20, 66, 9))
    assert [(block.height_mm, block.above_mm, block.stays) for block in (first, second)] == [
        (9, 0, True),
        (5, 0, False),
    ]


def test_blocks_that_are_joined_have_their_own_height_each_and_stay_as_the_last_one_does() -> None:
    boxes: dict[str, Box] = {}

    def kept(name: str, high: float, *, stays: bool) -> Block:
        def draw(box: Box) -> list[Ink]:
            boxes[name] = box
            return []

        return Block(high, draw, 2.0, stays)

    both = joined(kept("a", 7, stays=False), kept("b", 9, stays=True), kept("c", 4, stays=True))
    assert list(both.draw(Box(10, 50, 90, both.height_mm))) == []
    assert boxes == {"a": Box(10, 50, 90, 7), "b": Box(10, 59, 90, 9), "c": Box(10, 70, 90, 4)}
    assert (both.height_mm, both.above_mm, both.stays) == (24, 2, True)
    assert not joined(kept("a", 7, stays=True), kept("b", 9, stays=False)).stays


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_groups_begin_below_the_title_and_end_above_the_caution_with_some_of_the_grid_between(
    paper: tuple[float, float],
) -> None:
    of, page = sheets(paper), Page(*paper)
    [column] = of.columns_of(page, is_first=True)
    frame = next(ink for ink in page.ink if isinstance(ink, Shape))
    # The title is 5 mm high in 7 mm from the top of the area; half of 3.5 mm follow, and all of it above the caution.
    assert column.y_mm == pytest.approx(10 + 7 + 1.75)
    assert min(y for _, y in frame.points_mm) - column.bottom_mm == pytest.approx(3.5)
    [other] = of.columns_of(Page(*paper), is_first=False)
    assert (other.y_mm, other.height_mm, other.width_mm) == pytest.approx((10, min(255, paper[1] - 24.4), 190))


@pytest.mark.parametrize(("left", "whole"), [(27.9, True), (28.1, False)])
def test_28_mm_of_a_column_may_stay_empty_so_that_a_group_is_not_parted(left: float, whole: bool) -> None:
    [column] = sheets().columns_of(Page(*A4), is_first=True)
    first, *_ = sheets().lay([Group((block("filler", column.height_mm - left),)), group("b", 5, 10)])
    assert ("b0" not in said(first)) == whole


def test_what_is_higher_than_a_column_stands_at_its_head_and_leaves_none_empty() -> None:
    pages = sheets().lay([Group((block("long", 300),)), Group((block("a", 9), block("longer", 320)))])
    assert [[name for name in said(page) if name in ("long", "a", "longer")] for page in pages] == [
        ["long"],
        ["a"],
        ["longer"],
    ]


def test_on_smaller_paper_10_mm_are_left_beside_and_above_the_area_and_room_for_the_foot_below() -> None:
    # A5: 210 less 10 above and twice 7.2, from the edge to the foot and from there on.
    assert sheets((148.0, 210.0)).area == pytest.approx(Box(10, 10, 128, 185.6))
    assert sheets(A4).area == pytest.approx(Box(10, 10, 190, 255))
