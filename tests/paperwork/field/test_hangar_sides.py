"""Where things stand on both sides of the hangar card, what is left out with what is not aboard, and what is alike."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any

import pytest
from resolved import EXAMPLES, harness_of

from docgen.basics.findings import Finding, Level, Position
from docgen.harness.model.switching import Act, Stage
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.field import hangar_content, hangar_pages
from docgen.paperwork.field.hangar_content import Channel, Stroke
from docgen.paperwork.field.plan_content import Plan
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.ink import Code, Ink, Line, Shape, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from conftest import AircraftFolder

    from docgen.harness.model.harness import Harness
    from docgen.paperwork.field.hangar_content import HangarContent

# Sides of 127 × 193 mm on halves of A4 lying, 148.5 mm wide: the back at the left.
WIDTH_MM, HIGH_MM, LEFT_MM, TOP_MM = 127.0, 193.0, (148.5 - 127) / 2, 6.5
RIGHT_MM, MIDDLE_MM = LEFT_MM + WIDTH_MM, 148.5
BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")


@cache
def content_of(name: str) -> HangarContent:
    return hangar_content.content(harness_of(EXAMPLES / name))


def ink_of(items: HangarContent, block: TitleBlock = BLOCK) -> list[Ink]:
    (page,) = hangar_pages.compose(items, read_page("list-a4"))(block).pages
    return page.ink


def texts(ink: list[Ink]) -> list[Text]:
    return [one for one in ink if isinstance(one, Text)]


def said(items: HangarContent, **changes: Any) -> str:
    return " ".join(text.text for text in texts(ink_of(replace(items, **changes))))


def log_lines(ink: list[Ink]) -> list[float]:
    """Return how far down the lines of the log are, of the back's whole width."""
    lines = [one for one in ink if isinstance(one, Line) and one.x2_mm - one.x1_mm > 100 and one.x1_mm < MIDDLE_MM]
    assert {(line.x1_mm, line.x2_mm) for line in lines} == {(LEFT_MM, RIGHT_MM)}
    return [line.y1_mm for line in lines]


def test_the_control_check_fills_the_side_in_two_columns_with_3_mm_between() -> None:
    for name in ("wren", "fulmar"):
        ink = ink_of(content_of(name))
        ticks = [
            one.points_mm for one in ink if isinstance(one, Shape) and is_tick(one) and min(one.points_mm)[0] < 148
        ]
        ends = {round(max(points)[0], 1) for points in ticks}
        # The left one is 63.6 mm wide, the right one what is left; a tenth or two are to spare in a column.
        assert sorted(ends) == pytest.approx([LEFT_MM + 63.6, RIGHT_MM], abs=0.25)
        checks = [text.x_mm for text in texts(ink) if text.text == "Check"]
        assert checks == pytest.approx([LEFT_MM, LEFT_MM + 63.6 + 3])
        functions = [one.function for one in content_of(name).channels]
        # The first half in the left column, of an odd number one more.
        half = (len(functions) + 1) // 2
        right = [text.text for text in texts(ink) if text.x_mm == checks[1] and text.text in functions]
        assert right == functions[half:]


def test_what_only_a_unit_moves_stands_below_the_others_and_alone_below_the_same_heading() -> None:
    moved, all_else = Channel("TAB", "", ""), content_of("wren").channels
    alone = said(content_of("wren"), channels=(moved,))
    assert "Check TAB From above" in alone
    assert said(content_of("wren"), channels=(*all_else, moved)).count("Check") == 2
    # Of what the radio moves no fail-safe need be said.
    assert "Check TAB From above" in said(content_of("wren"), channels=(replace(moved, failsafe=None),))


def is_tick(shape: Shape) -> bool:
    (left, top), (right, bottom) = min(shape.points_mm), max(shape.points_mm)
    return right - left == pytest.approx(4) and bottom - top == pytest.approx(4)


def test_the_log_has_lines_6_mm_apart_below_its_heads() -> None:
    ink = ink_of(content_of("wren"))
    (log,) = (text for text in texts(ink) if text.text == "Log")
    heads = {text.text: text.x_mm - log.x_mm for text in texts(ink) if text.y_mm == log.y_mm and text is not log}
    assert heads == {"date": 8, "changed what": 24, "from": 58, "to": 80, "put in the file": 104}
    assert log_lines(ink) == pytest.approx([log.y_mm + 6 * number for number in range(1, 13)])


def test_the_log_has_twelve_lines_or_as_many_as_there_is_room_for() -> None:
    ends = {}
    for name in ("wren", "fulmar"):
        ink = ink_of(content_of(name))
        bars = [one for one in ink if isinstance(one, Line) and one.x2_mm - one.x1_mm == 50 and one.x1_mm < MIDDLE_MM]
        ends[name] = len(log_lines(ink)), bars[0].y1_mm
        # The bar of the disclaimer stands last; its ticks reach 1.2 mm below it.
        assert bars[0].y1_mm + 1.2 <= TOP_MM + HIGH_MM + 1e-6
    assert ends["wren"][0] == 12
    assert ends["fulmar"][0] < 12
    assert ends["fulmar"][1] + 1.2 + 6 > TOP_MM + HIGH_MM


def test_the_plan_gives_way_where_one_line_for_the_log_has_no_room() -> None:
    """Beyond more and more runs on one sheet; the plan is 50 mm high, or 40 mm."""
    season = content_of("fulmar").season
    lines_at: dict[float, list[int]] = {}
    for count in range(0, 60, 3):
        runs = tuple(f"former-{number}–former-{number + 1}" for number in range(count))
        items = replace(content_of("fulmar"), season=replace(season, sharp=runs), kit=False)
        first, *others = hangar_pages.compose(items, read_page("list-a4"))(BLOCK).pages
        if others:
            break
        (plan,), (cards,) = (
            [one.y_mm for one in texts(first.ink) if one.text.startswith(said)] for said in ("From above", "Cards")
        )
        lines_at.setdefault(round(cards - plan, 1), []).append(len(log_lines(first.ink)))
    high_mm, low_mm = lines_at
    assert high_mm - low_mm == pytest.approx(10)
    assert lines_at[high_mm][-1] == 1


def test_locks_and_packs_give_way_before_there_is_a_further_side() -> None:
    """More and more legs stand below packs, where there is no room below locks, then all of that on the back."""
    card = content_of("wren")
    on = tuple(Act((f"unit-{number}",), Stage.RADIO, "press its button", "") for number in range(17))
    card = replace(card, packs=tuple(replace(card.packs[0], names=(f"pack-{number}",)) for number in range(5)))
    places = []
    for count in range(1, 30):
        strokes = tuple(Stroke((f"leg-{number}-of-the-gear",), 6.0, 8.0, 2.0) for number in range(count))
        items = replace(card, strokes=strokes, switching=replace(card.switching, on=on))
        first, *others = hangar_pages.compose(items, read_page("list-a4"))(BLOCK).pages
        if others:
            break
        legs = [one for one in texts(first.ink) if one.text.startswith("leg-")]
        assert len(legs) == count
        (locks,) = (one.x_mm for one in texts(first.ink) if one.text == "Locks")
        (below,) = {one.x_mm for one in legs}
        places.append("back" if locks < MIDDLE_MM else "locks" if below == locks else "packs")
    assert list(dict.fromkeys(places)) == ["packs", "locks", "back"]


def test_where_not_all_has_room_on_one_sheet_the_log_has_one_line_and_nothing_is_lost() -> None:
    season = content_of("fulmar").season
    runs = tuple(f"former-{number}–former-{number + 1}" for number in range(400))
    items = replace(content_of("fulmar"), season=replace(season, sharp=runs))
    pages = hangar_pages.compose(items, read_page("list-a4"))(BLOCK).pages
    assert len(pages) > 1
    ink = [one for page in pages for one in page.ink]
    assert len(log_lines(ink)) == 1
    assert "former-399–former-400." in " ".join(text.text for text in texts(ink))


@pytest.mark.parametrize(
    ("changes", "gone"),
    [
        ({"packs": ()}, ["Packs", "below V"]),
        ({"channels": ()}, ["Check", "throw"]),
        ({"cards": ()}, ["Cards aboard"]),
        ({"kit": False}, ["Field kit"]),
        ({"plan": Plan((), (), (), ())}, ["From above", "Arrows: antennas"]),
        ({"plan": Plan((), (), (), ()), "kit": False}, ["From above", "Arrows: antennas", "Field kit"]),
        ({"retained": False}, ["servo plugs"]),
        ({"hatches": False}, ["hatches and covers"]),
        ({"contact": ""}, ["Ansa Brook"]),
    ],
)
def test_what_is_not_there_is_not_spoken_of_and_all_else_is(changes: dict[str, Any], gone: list[str]) -> None:
    items = replace(content_of("fulmar"), contact="Ansa Brook")
    there = [
        "Packs",
        "below V",
        "Check",
        "throw",
        "Cards aboard",
        "Field kit",
        "From above",
        "Arrows: antennas",
        "Ansa Brook",
    ]
    there += ["servo plugs", "hatches and covers", "Each season, heat"]
    told = said(items, **changes)
    for words in there:
        assert (words in told) == (words not in gone), words
    assert not [words for words in gone if words in told]


def test_without_packs_legs_are_told_all_the_same(aircraft_folder: AircraftFolder) -> None:
    told = said(content_of("fulmar"), packs=())
    assert "left- and right-leg: stroke 9.8 s, limit 11 s, stop 2.2 A" in told
    assert "home" in said(content_of("wren"), packs=())
    text = (EXAMPLES / "wren" / "harness.yaml").read_text("utf-8")
    bare = text.partition("equipment:")[0] + "equipment: {}\ncircuits: {}\n"
    harness = harness_of(aircraft_folder({"harness.yaml": bare}))
    assert "hangar-card.pdf" in make_paperwork(harness, Choice(stems=("hangar-card",))).files


def test_of_one_function_there_is_one_column_and_without_a_throw_none_for_it() -> None:
    (first, *_) = content_of("fulmar").channels
    told = said(content_of("fulmar"), channels=(replace(first, throw="", failsafe="hold"),))
    assert (told.count("Check"), told.count("throw"), told.count("fail-safe")) == (1, 0, 1)


def test_on_a_fold_of_letter_paper_both_sides_are_as_large() -> None:
    (page,) = hangar_pages.compose(content_of("wren"), read_page("list-letter"))(BLOCK).pages
    left = (279.4 / 2 - WIDTH_MM) / 2
    lines = [one for one in page.ink if isinstance(one, Line) and one.x2_mm - one.x1_mm > 100 and one.x1_mm < 130]
    assert {(round(line.x1_mm, 2), round(line.x2_mm, 2)) for line in lines} == {(round(left, 2), round(left + 127, 2))}


@pytest.mark.parametrize(("record", "words"), [("https://hangar.example/wren", "the whole record"), (None, "channels")])
def test_the_code_says_what_it_holds(record: str | None, words: str) -> None:
    ink = ink_of(content_of("wren"), replace(BLOCK, record=record))
    (code,) = (one for one in ink if isinstance(one, Code))
    assert words in [text.text for text in texts(ink)]
    if record is None:  # by hand: the first line, all three channels, and that there are more, in 122 bytes
        lines = code.says.split("\n")
        assert lines[0].startswith("WR-7 ")
        assert lines[1:-1] == ["1 AIL L receiver 1", "2 AIL R receiver 2", "4 RUD receiver 4"]
    else:
        assert code.says == "https://hangar.example/wren/record.txt"


def test_cards_of_one_issue_say_it_once_and_those_of_several_each_its_own() -> None:
    items = content_of("wren")
    keys = [key for card in items.cards for key, _ in card.hashes]
    alike = said_with(items, dict.fromkeys(keys, "B"))
    assert "Cards aboard: issue B, first four characters of each half" in alike
    cards = {card.name: " ".join(digest[:4] for _, digest in card.hashes) for card in items.cards}
    assert all(f"{name} {digests}" in alike for name, digests in cards.items())
    # Both halves of the left root are of another issue than the rest.
    apart = said_with(items, {key: "A" if "left-root" in key else "B" for key in keys})
    assert "Cards aboard: issue, first four characters of each half" in apart
    assert all(f"{name} {'A' if name == 'left-root' else 'B'} {digests}" in apart for name, digests in cards.items())


def said_with(items: HangarContent, parts: dict[str, str]) -> str:
    return " ".join(text.text for text in texts(ink_of(items, replace(BLOCK, parts=parts))))


def finding(name: str, level: Level) -> Finding:
    return Finding(Position("harness.yaml", 1, 1), name, f"{name} is `so`.", "Do.", ("", ""), level)


def test_only_cautions_that_matter_at_the_field_stand_on_the_card() -> None:
    names = ["overvolts", "failsafe", "swap", "live-pins", "drop", "bend"]
    found = tuple(finding(name, level) for name in names for level in (Level.CAUTION, Level.NOTE))
    items = hangar_content.content(replace(harness_of(EXAMPLES / "wren"), findings=found))
    assert [one.name for one in items.cautions] == names[:4]
    assert {one.level for one in items.cautions} == {Level.CAUTION}
    assert "live-pins is so." in said(items)


def changed(harness: Harness, name: str, **battery: float) -> Harness:
    entry = harness.equipment[name]
    assert entry.battery is not None
    pack = entry.battery.model_copy(update=battery)
    return replace(harness, equipment={**harness.equipment, name: replace(entry, battery=pack)})


def test_packs_of_both_sides_are_told_together_where_they_are_alike() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    together = [("left-pack", "right-pack"), ("service-pack",), ("left-fan-pack", "right-fan-pack")]
    assert [pack.names for pack in content_of("fulmar").packs] == together
    for figure in ("full_v", "empty_v"):
        packs = hangar_content.content(changed(harness, "right-fan-pack", **{figure: 21.0})).packs
        assert [pack.names for pack in packs] == [*together[:2], ("left-fan-pack",), ("right-fan-pack",)]
        assert (packs[-1].full_v if figure == "full_v" else packs[-1].land_v) == 21.0


def test_a_retainer_is_on_where_an_own_lead_s_plug_wants_one_and_the_kit_is_there_where_anything_is_crimped() -> None:
    wren = harness_of(EXAMPLES / "wren")
    assert content_of("wren").retained
    supply = {"supply": wren.circuits["supply"]}
    bare = hangar_content.content(replace(wren, circuits=supply, disconnects={}))
    # The plug of a pack has none.
    assert (bare.retained, bare.kit, bare.joins) == (False, True, ("crimp",))
    none = hangar_content.content(replace(wren, circuits={}, disconnects={}))
    assert (none.kit, none.joins) == (False, ())
