"""Cards of round shells of many sizes and numbers of contacts, by the ink on the printed sheet."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache
from itertools import combinations

import numpy as np
import pytest
from card_aircraft import CONTACT, one_joint
from printed_cards import CARD_MM, TOP_MM, Box, CardPage, PrintedCard, printed_files, read_cards, sheets_in
from resolved import harness_of

Places = dict[str, tuple[float, float]]
Sheets = Callable[[str], bytes]

pytestmark = pytest.mark.long

INSIDE_MM = 4.0  # "nothing nearer than 4 mm inside a cut line"
DOTS_PER_MM = 6
# Sixteen contacts in no rows, the nearest 3.6 mm apart.
SCATTERED: Places = {
    "1": (-7.5, 3),
    "2": (-4, 7),
    "3": (0, 8),
    "4": (4, 7),
    "5": (7.5, 3),
    "6": (8, -1),
    "7": (6, -5),
    "8": (2, -8),
    "9": (-2, -8),
    "10": (-6, -5),
    "11": (-8, -1),
    "12": (-3, 2),
    "13": (0, 4),
    "14": (3, 2),
    "15": (2, -3),
    "16": (-2, -3),
}


def rings(*rings_mm: tuple[int, float]) -> Places:
    """Return contacts evenly on rings of so many and of that radius, the first of each at the top."""
    places: list[tuple[float, float]] = []
    for count, radius in rings_mm:
        turns = [2 * math.pi * i / count for i in range(count)]
        places += [(round(radius * math.sin(turn), 2), round(radius * math.cos(turn), 2)) for turn in turns]
    return {str(number): place for number, place in enumerate(places, 1)}


TOGETHER = "4 together in 50 mm"
SHELLS: dict[str, tuple[float, Places]] = {
    "3 in 8 mm": (8, rings((3, 2.5))),
    "7 in 14 mm": (14, rings((1, 0), (6, 4.5))),
    "16 in 18 mm": (18, SCATTERED),
    "16 in 24 mm": (24, SCATTERED),
    "16 in 30 mm": (30, SCATTERED),
    "37 in 20 mm": (20, rings((1, 0), (6, 2.8), (12, 5.6), (18, 8.4))),
    "37 in 40 mm": (40, rings((1, 0), (6, 6), (12, 12), (18, 17))),
    "19 in 60 mm": (60, rings((1, 0), (6, 12), (12, 24))),
    # Four at 1 mm: true to size, which is all that has room, numbers of 1.8 mm do not keep clear, in rows neither.
    TOGETHER: (50, {"1": (0, 0), "2": (1, 0), "3": (0, 1), "4": (1, 1)}),
}


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> Sheets:
    """Return what gives the sheets of cards of a joint of a shell, sockets at the fixed half."""

    @cache
    def printed(name: str) -> bytes:
        diameter, at = SHELLS[name]
        places = ", ".join(f"{contact}: [{right} mm, {up} mm]" for contact, (right, up) in at.items())
        shape = f"shape: round, outline: [{diameter} mm, {diameter} mm], key: up, at: {{{places}}}"
        folder = tmp_path_factory.mktemp("joint")
        own = f"{{{shape}, contact: {CONTACT}}}"
        for file, text in one_joint("own", list(at), keys=("up", "left"), own_shell=own).items():
            (folder / file).write_text(text, "utf-8")
        return printed_files(harness_of(folder), "pinout-cards")["pinout-cards.pdf"]

    return printed


def cards_in(pdf: bytes) -> list[PrintedCard]:
    """Return the cards of the fixed and of the loose half."""
    return [card for card in read_cards(pdf) if card.title == "joint"]


def sides_of(sheet: CardPage) -> list[Box]:
    """Return where ink may be on the four places of a sheet."""
    left = (sheet.width_mm - 2 * CARD_MM[0]) / 2
    corners = [(left + column * CARD_MM[0], TOP_MM + row * CARD_MM[1]) for row in (0, 1) for column in (0, 1)]
    wide, high = CARD_MM
    return [Box(x + INSIDE_MM, y + INSIDE_MM, x + wide - INSIDE_MM, y + high - INSIDE_MM) for x, y in corners]


@pytest.mark.parametrize("name", SHELLS)
def test_all_ink_is_inside_the_sides_of_cards_but_for_ticks_and_the_foot(name: str, sheets: Sheets) -> None:
    for sheet in sheets_in(sheets(name)):
        dark = sheet.pixels(DOTS_PER_MM * 25.4) < 200
        for side in sides_of(sheet):
            # Half a pixel and half a line are beyond the edge; letters reach below their line.
            left, top, right, bottom = (round(edge * DOTS_PER_MM) for edge in side)
            dark[top - 4 : bottom + 4, left - 4 : right + 4] = False
        edge = (sheet.width_mm - 2 * CARD_MM[0]) / 2
        for x in (edge, edge + CARD_MM[0], edge + 2 * CARD_MM[0]):
            for row in (0, 0.5, 1, 1.5, 2):
                across, down = round(x * DOTS_PER_MM), round((TOP_MM + row * CARD_MM[1]) * DOTS_PER_MM)
                reach = round(4.2 * DOTS_PER_MM)
                dark[max(0, down - reach) : down + reach, max(0, across - reach) : across + reach] = False
        below = round((TOP_MM + 2 * CARD_MM[1] + 2) * DOTS_PER_MM)
        assert not np.argwhere(dark[:below]).tolist()[:5], name


@pytest.mark.parametrize("name", SHELLS)
def test_no_text_meets_another_or_the_outline_of_a_view(name: str, sheets: Sheets) -> None:
    for page in (page for card in read_cards(sheets(name)) for page in card.pages):
        for one, other in combinations(page.texts, 2):
            assert not one.ink.overlaps(other.ink), (name, one.text, other.text)
        for outline in (drawn for drawn in page.drawn if len(drawn.corners) > 5 and drawn.box.size[0] > 7):
            (x, y), radius = outline.box.middle, outline.box.size[0] / 2
            for text in page.texts:
                corners = [(a, b) for a in (text.ink.left, text.ink.right) for b in (text.ink.top, text.ink.bottom)]
                away = [math.dist(corner, (x, y)) for corner in corners]
                nearest = max(text.ink.left - x, x - text.ink.right, text.ink.top - y, y - text.ink.bottom)
                assert max(away) < radius or nearest > radius or min(away) > radius, (name, text.text)


@pytest.mark.parametrize("name", [name for name in SHELLS if name != TOGETHER])
def test_each_number_stands_at_its_contact_in_the_stated_scale_on_both_views(name: str, sheets: Sheets) -> None:
    diameter, at = SHELLS[name]
    for card, key in zip(cards_in(sheets(name)), ("up", "left"), strict=True):
        is_turned = "upright, as it could not be read turned" not in card.said
        seen = turned_to_the_left(at) if key == "left" and is_turned else at
        for view, sign in zip(card.views(at), (-1, 1) if key == "up" else (1, -1), strict=True):
            assert view.outline.box.size == pytest.approx((diameter * card.scale,) * 2, abs=0.05)
            for contact, (right, up) in seen.items():
                expected = sign * right * card.scale, up * card.scale
                assert view.at_mm[contact] == pytest.approx(expected, abs=0.1), (contact, card.scale)


def turned_to_the_left(at: Places) -> Places:
    """Turn places by a quarter against the clock."""
    return {name: (-up, right) for name, (right, up) in at.items()}


def test_what_has_no_room_for_both_views_shows_one_on_each_side_and_the_table_on_the_next_card(sheets: Sheets) -> None:
    # 2 : 1 is 48 mm high: twice that, with headings, title and caution, is more than the 116 mm of a side.
    first, _ = cards_in(sheets("16 in 24 mm"))
    assert first.scale == 2
    left, right, table = first.pages
    titles = [[text.text for text in page.texts if text.text in ("Mating face", "Wire side")] for page in first.pages]
    assert titles == [["Mating face"], ["Wire side"], []]
    assert left.region.top == right.region.top
    assert table.texts[0].text == "joint, continued"
    assert list(first.rows(SCATTERED)) == list(SCATTERED)


def test_what_can_be_read_below_each_other_stays_on_one_side(sheets: Sheets) -> None:
    for name in ("3 in 8 mm", "7 in 14 mm"):
        for card in cards_in(sheets(name)):
            titles = [text.text for text in card.pages[0].texts if text.text in ("Mating face", "Wire side")]
            assert titles == ["Mating face", "Wire side"]


def test_where_no_number_can_be_read_the_card_says_so_and_shows_dots(sheets: Sheets) -> None:
    for card in cards_in(sheets(TOGETHER)):
        assert "true to size" in card.said
        assert "too tight for numbers and colours: see the part" in card.said
        circles = [
            (page, drawn.box)
            for page in card.pages
            for drawn in page.drawn
            if drawn.box.size == pytest.approx((50, 50), abs=0.05)
        ]
        assert [len(page.dots_in(box)) for page, box in circles] == [4, 4]
