"""Sheets of cards as printed: how many, in which order, which types they are set in, and which are asked for."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from printed_cards import CardPage, PrintedCard, halves_of, read_cards, sheets_in
from resolved import EXAMPLES, harness_of

from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.labels.selection import Selection
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from pathlib import Path

SERIES_MM = (1.8, 2.5, 3.5, 5.0)  # ISO 3098; 1.5 in feet


@cache
def sheets(name: str, paper: str = "a4") -> list[CardPage]:
    choice = Choice(stems=("pinout-cards",), paper=paper)
    return sheets_in(make_paperwork(harness_of(EXAMPLES / name), choice).files["pinout-cards.pdf"])


@pytest.mark.parametrize(("name", "most"), [("wren", 2), ("fulmar", 8)])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_cards_take_no_more_sheets_than_they_need(name: str, paper: str, most: int) -> None:
    assert len(sheets(name, paper)) <= most


def assert_well_set(printed: list[CardPage]) -> None:
    for sheet in printed:
        assert not [text.text for text in sheet.texts if "…" in text.text]
        for text in sheet.texts:
            least = min(SERIES_MM, key=lambda height: abs(height - text.capital_mm))
            in_foot = abs(text.capital_mm - 1.5) < 0.02
            assert in_foot or abs(text.capital_mm - least) < 0.02, (text.text, text.capital_mm)
        inks = sorted((text.ink for text in sheet.texts), key=lambda ink: ink.top)
        for i, one in enumerate(inks):
            for other in inks[i + 1 :]:
                if other.top > one.bottom:
                    break
                assert not one.overlaps(other)
        hair = [d.box for d in sheet.drawn if d.stroked and len(d.corners) == 2 and d.box.size[0] > 60]
        assert not [
            ink
            for ink in inks
            for line in hair
            if ink.top < line.top < ink.bottom and ink.left < line.right and line.left < ink.right
        ]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_type_is_of_the_series_and_nothing_is_struck_or_shortened(name: str) -> None:
    assert_well_set(sheets(name))


def test_names_twice_as_long_are_whole_and_stay_on_their_card(tmp_path: Path) -> None:
    texts = {path.name: path.read_text("utf-8") for path in (EXAMPLES / "wren").glob("*.yaml")}
    for file, text in texts.items():
        long = text.replace("<side>-root", "<side>-root-of-the-wing").replace(
            "<side>-panel-root", "<side>-panel-root-rib"
        )
        for side in ("left", "right"):
            long = long.replace(f"{side}-root", f"{side}-root-of-the-wing")
            long = long.replace(f"{side}-panel-root", f"{side}-panel-root-rib-1")
        long = long.replace("receiver", "receiver-of-the-radio").replace(
            "kind: receiver-of-the-radio", "kind: receiver"
        )
        long = long.replace("AIL L", "AILERON LEFT").replace("AIL R", "AILERON RIGHT")
        (tmp_path / file).write_text(long, "utf-8")
    harness = harness_of(tmp_path)
    pdf = make_paperwork(harness, Choice(stems=("pinout-cards",))).files["pinout-cards.pdf"]
    assert_well_set(sheets_in(pdf))
    assert_inside(read_cards(pdf))
    for card in halves_of(harness, read_cards(pdf)):
        assert {row["function"] for row in card.rows("123").values()} <= {"AILERON LEFT", "AILERON RIGHT"}


def assert_inside(cards: list[PrintedCard]) -> None:
    for page in (page for card in cards for page in card.pages):
        left, top, right, bottom = page.region
        for text in page.texts:
            assert left < text.ink.left < text.ink.right < right, text.text
            assert top < text.ink.top < text.ink.bottom < bottom, text.text


def twice(text: str) -> str:
    return f"{text}-{text}" if text else text


@pytest.mark.long
def test_names_twice_as_long_of_the_demanding_aircraft_stay_on_their_cards() -> None:
    items = pinout_cards.content(harness_of(EXAMPLES / "fulmar"))
    halves = tuple(
        replace(
            card,
            name=twice(card.name),
            rows=tuple(replace(row, function=twice(row.function), goes=twice(row.goes)) for row in card.rows),
        )
        for card in items.halves
    )
    equipment = tuple(
        replace(
            card,
            name=twice(card.name),
            rows=tuple(
                replace(row, port=twice(row.port), function=twice(row.function), far=twice(row.far))
                for row in card.rows
            ),
        )
        for card in items.equipment
    )
    order = tuple(tuple(map(twice, names)) for names in items.order)
    block = TitleBlock("Fulmar", "FM-12", "A", "2026-01-01", None, "0123abcd")
    pages = pinout_cards.compose(pinout_cards.Cards(halves, equipment, order), read_page("list-a4"))(block).pages
    pdf = draw_pdf(pages, "Cards", "", None)
    assert_well_set(sheets_in(pdf))
    assert_inside(read_cards(pdf))
    assert {card.title for card in read_cards(pdf)} == {twice(name) for names in items.order for name in names}


def test_halves_of_a_joint_lie_beside_each_other() -> None:
    cards = halves_of(harness_of(EXAMPLES / "wren"), read_of("wren"))
    for one, other in zip(cards[::2], cards[1::2], strict=True):
        [here], [there] = one.pages, other.pages
        assert here.sheet is there.sheet
        assert (here.region.top, here.region.right) == pytest.approx((there.region.top, there.region.left))


def read_of(name: str, *only: str) -> list[PrintedCard]:
    choice = Choice(stems=("pinout-cards",), labels=Selection(circuits=only))
    return read_cards(make_paperwork(harness_of(EXAMPLES / name), choice).files["pinout-cards.pdf"])


@pytest.mark.parametrize(
    ("only", "titles"),
    [
        (["left-root"], ["left-root", "left-root"]),
        (["receiver"], ["receiver"]),
        (["receiver", "right-root"], ["receiver", "right-root", "right-root"]),
        # What names labels only takes no card away.
        (["rudder"], ["receiver", "left-root", "left-root", "right-root", "right-root"]),
    ],
)
def test_only_the_cards_asked_for_are_printed(only: list[str], titles: list[str]) -> None:
    assert [card.title for card in read_of("wren", *only)] == titles


def test_an_unknown_joint_is_told_with_the_nearest() -> None:
    [said] = Selection(circuits=("left-rot",)).unknown([harness_of(EXAMPLES / "wren")])
    assert "'left-root'" in said


@pytest.mark.parametrize(
    ("joint", "says"),
    [
        # Tails of 110 and 140 mm: the longer is plugged first.
        ("left-wing-a", "plugged after left-wing-b"),
        ("left-wing-b", "plugged first"),
        # Two cells of 4.2 V feed servos, three the light, the gear and the brakes.
        ("left-wing-b", "Full packs: 8.4 V at 1, 2; 12.6 V at 7, 9, 12"),
        ("tail", "Full packs: 8.4 V at 2, 5, 8; 12.6 V at 11"),
    ],
)
def test_a_half_says_which_joint_is_plugged_first_and_which_volts_differ(joint: str, says: str) -> None:
    fixed, loose = read_of("fulmar", joint)
    assert says in fixed.said
    assert says in loose.said


def test_where_all_positives_have_the_same_volts_a_half_says_nothing_of_full_packs() -> None:
    assert not [card.title for card in read_of("wren") if "Full packs" in card.said]


def test_a_hair_line_stands_where_the_function_changes_and_nowhere_else() -> None:
    fixed, _ = read_of("fulmar", "left-wing-a")
    rows = sorted(fixed.rows(map(str, range(1, 15))).values(), key=lambda row: float(row["base"]))
    lines = [d.box for page in fixed.pages for d in page.drawn if d.stroked and len(d.corners) == 2]
    parted = [
        any(float(above["base"]) < line.top < float(below["base"]) for line in lines if line.size[0] > 60)
        for above, below in pairwise(rows)
    ]
    # Three wires of an aileron, four of a light, two of a sensor.
    assert parted == [False, False, True, False, False, False, True, False]
