"""Cards put together by chance, looked at as ink: all that is said stands on them once, in order, and nothing meets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise
from random import Random
from typing import NamedTuple

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.cards.card_faces import CAUTION
from docgen.paperwork.cards.contact_table import CardRow
from docgen.paperwork.cards.equipment import EquipmentCard, PortRow, equipment_card, equipment_face
from docgen.paperwork.cards.halves import HalfCard, half_card, half_face
from docgen.paperwork.page_kit.card_sheets import CardInk
from docgen.paperwork.typesetting.ink import Box, Code, Ink, Line, Shape, Text
from docgen.paperwork.typesetting.title_block import Corner
from docgen.paperwork.typesetting.typeface import extent, line_pitch_mm, width_mm, wrapped

CORNER = Corner("https://hangar.example/wren/record/disconnect-left-root.txt", "this joint in the record")
LAST = "Wren · WR-7 · draft · 0123abcd"
LEFT_MM, TOP_MM, CARD_MM, INSIDE_MM = 12.0, 10.0, (93.0, 124.0), 4.0
SLACK_MM = 1e-6


class Case(NamedTuple):
    """What is said on a card, the cards that hold it, and whether it is a half with views."""

    name: str
    card: HalfCard | EquipmentCard
    corner: Corner | None
    made: list[CardInk]


@cache
def one_half() -> HalfCard:
    harness = harness_of(EXAMPLES / "wren")
    return half_card(harness, harness.disconnects["left-root"], 0)


@cache
def one_receiver() -> EquipmentCard:
    harness = harness_of(EXAMPLES / "wren")
    return equipment_card(harness, harness.equipment["receiver"])


def words(dice: Random, most: int) -> str:
    return " ".join(
        dice.choice(["undo", "both", "screws", "by-turns", "wing-root"]) for _ in range(dice.randint(1, most))
    )


def note(dice: Random, name: str) -> str:
    """Return words that are told from all others."""
    count = dice.choice([0, 0, 5, 40, 250])
    return " ".join(f"{name}{i}" for i in range(count))


def half_by_chance(seed: int) -> Case:
    dice = Random(seed)
    rows = tuple(
        CardRow(
            str(i),
            dice.choice(["BK", "RD", "WHBU"]),
            dice.choice(["22 AWG", "22 AWG", "20 AWG"]),
            dice.choice(["AIL L", "FLAP LEFT OUTER", "LIGHTS"]),
            dice.choice(["receiver 1", "splice behind it", words(dice, 4)]),
            f"C{i}A22",
            dice.choice(["", "", "power", "ground"]),
        )
        for i in range(1, dice.choice([2, 6, 14, 40]))
    )
    card = replace(
        one_half(),
        name=dice.choice(["left-root", "left-wing-root-of-the-detachable-panel", "x" * 30, "x" * 60]),
        where=f"at {words(dice, 12)}",
        rows=rows,
        commons=tuple(note(dice, "common") for _ in range(2)),
        note=note(dice, "note"),
        is_first=dice.random() < 0.5,
    )
    corner = dice.choice([None, CORNER])
    return Case(f"half {seed}", card, corner, half_face(card, corner, LAST).cards())


def equipment_by_chance(seed: int) -> Case:
    dice = Random(seed)
    shows = dice.random() < 0.6
    rows = tuple(
        PortRow(f"P{i}", words(dice, 3), words(dice, 5), str(i) if shows else "", "hold" if shows and i % 2 else "")
        for i in range(1, dice.choice([2, 6, 7, 14, 60]))
    )
    card = replace(
        one_receiver(),
        name=dice.choice(["receiver", "power-unit-of-the-radio", "y" * 45]),
        rows=rows,
        free=tuple(f"F{i}" for i in range(dice.choice([0, 3, 30]))),
        on=note(dice, "on"),
        off=note(dice, "off"),
        note=note(dice, "note"),
    )
    corner = dice.choice([None, CORNER])
    return Case(f"equipment {seed}", card, corner, equipment_face(card, corner, LAST).cards())


@pytest.fixture(scope="module")
def cases() -> list[Case]:
    return [half_by_chance(seed) for seed in range(16)] + [equipment_by_chance(seed) for seed in range(40)]


def box_of(card: CardInk) -> Box:
    return Box(LEFT_MM, TOP_MM, card.columns * CARD_MM[0], CARD_MM[1] / (2 if card.half else 1))


@cache
def drawn(card: CardInk) -> list[Ink]:
    return list(card.draw(box_of(card)))


def texts_on(cards: Sequence[CardInk]) -> list[Text]:
    return [ink for card in cards for ink in drawn(card) if isinstance(ink, Text)]


def ink_of(text: Text) -> Box:
    reach = extent(text.text, text.height_mm, text.bold)
    wide = width_mm(text.text, text.height_mm, text.bold)
    left = text.x_mm - {"left": 0, "centre": wide / 2, "right": wide}[text.align]
    # The caption of a code touches its quiet zone with capitals; ascenders are a tenth higher.
    above_mm = min(reach.above_mm, text.height_mm) if text.align == "centre" else reach.above_mm
    return Box(left, text.y_mm - above_mm, wide, above_mm + reach.below_mm)


def around(ink: Ink) -> Box:
    """Return the box of ink; of a code with its quiet zone of four modules (ISO/IEC 18004)."""
    if isinstance(ink, Text):
        return ink_of(ink)
    if isinstance(ink, Code):
        side = (len(ink.rows) + 8) * ink.module_mm
        return Box(ink.x_mm - 4 * ink.module_mm, ink.y_mm - 4 * ink.module_mm, side, side)
    assert isinstance(ink, Shape)
    xs, ys = zip(*ink.points_mm, strict=True)
    return Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def meet(one: Box, other: Box) -> bool:
    across = min(one.right_mm, other.right_mm) - max(one.x_mm, other.x_mm)
    return across > 0.01 and min(one.bottom_mm, other.bottom_mm) - max(one.y_mm, other.y_mm) > 0.01


def said_on(cards: Sequence[CardInk]) -> str:
    return " ".join(text.text for text in texts_on(cards))


def test_the_cases_are_of_all_sorts(cases: list[Case]) -> None:
    made = [card for case in cases for card in case.made]
    assert {(card.columns, card.half) for card in made} == {(1, False), (1, True), (2, False)}
    assert any(len(case.made) > 1 for case in cases)
    assert {case.corner is None for case in cases} == {False, True}


def test_nothing_on_a_card_meets_or_leaves_its_side(cases: list[Case]) -> None:
    for case in cases:
        for card in case.made:
            ink = drawn(card)
            boxes = [around(one) for one in ink if isinstance(one, Text | Code)]
            for one, other in combinations(boxes, 2):
                assert not meet(one, other), (case.name, one, other)
            for box in boxes:
                side = LEFT_MM + CARD_MM[0] * (box.x_mm > LEFT_MM + CARD_MM[0])
                assert side + INSIDE_MM - SLACK_MM <= box.x_mm, case.name
                assert box.right_mm <= side + CARD_MM[0] - INSIDE_MM + 0.01, case.name
                assert box.y_mm > TOP_MM + INSIDE_MM - 0.8
                assert box.bottom_mm < box_of(card).bottom_mm - INSIDE_MM + 0.5, case.name


def test_the_name_stands_first_and_what_is_beside_it_at_the_right_in_no_larger_type(cases: list[Case]) -> None:
    for case in cases:
        texts = texts_on(case.made[:1])
        assert texts[0].bold
        if isinstance(case.card, HalfCard):
            beside = f"{case.card.half} · {case.card.gender}"
        else:
            beside = case.card.kind if case.card.kind != case.card.name else ""
        if texts[0].text == case.card.name and beside and texts[1].text == beside and texts[1].align == "right":
            assert (texts[1].y_mm, texts[1].bold) == (texts[0].y_mm, True)
            assert texts[1].x_mm == LEFT_MM + CARD_MM[0] - INSIDE_MM
            assert texts[1].height_mm < texts[0].height_mm
            assert ink_of(texts[1]).x_mm - ink_of(texts[0]).right_mm >= 3 - SLACK_MM
        else:
            bold = "".join(text.text for text in texts[:6] if text.bold).replace(" ", "")
            assert bold.startswith(f"{case.card.name}{beside}".replace(" ", "")), case.name


def test_a_title_is_as_large_as_there_is_room_for(cases: list[Case]) -> None:
    """Capitals of the series, name and what is beside it; less than half a card's width is no reason for less."""
    for case in cases:
        name, beside, *_ = texts_on(case.made[:1])
        if name.text != case.card.name or beside.align != "right":
            continue
        steps = [(5.0, 3.5), (5.0, 2.5), (3.5, 2.5), (2.5, 1.8)]
        if case.made[0].half:
            steps = steps[2:]
        fitting = [
            step
            for step in steps
            if width_mm(name.text, step[0], True) + 3 + width_mm(beside.text, step[1], True)
            <= CARD_MM[0] - 2 * INSIDE_MM
        ]
        assert (name.height_mm, beside.height_mm) == fitting[0]


def test_every_row_stands_on_a_card_once_in_order_and_nothing_that_is_said_is_lost(cases: list[Case]) -> None:
    for case in cases:
        texts = texts_on(case.made)
        keys = [row.contact if isinstance(row, CardRow) else row.port for row in case.card.rows]
        if isinstance(case.card, HalfCard):
            marks = [row.mark for row in case.card.rows if isinstance(row, CardRow)]
            assert [text.text for text in texts if text.text in set(marks)] == marks
        else:
            assert [text.text for text in texts if text.bold and text.text in set(keys)] == keys
        written = Counter(said_on(case.made).split())
        for words_said in case.card.said:
            assert not Counter(words_said.split()) - written, case.name
        for marked in ("note", "common", "on", "off"):
            in_order = [word for text in case.card.said for word in text.split() if is_of(word, marked)]
            assert [word for word in said_on(case.made).split() if is_of(word, marked)] == in_order, case.name


def is_of(word: str, marked: str) -> bool:
    return word.startswith(marked) and word.removeprefix(marked).isdigit()


def test_each_card_has_the_caution_and_ends_with_its_last_line(cases: list[Case]) -> None:
    for case in cases:
        for card in case.made:
            texts = texts_on([card])
            said = " ".join(text.text for text in texts)
            assert said.count(CAUTION) == said.count(LAST) == 1
            [last] = [text for text in texts if text.text == LAST]
            lowest = max(text.y_mm for text in texts if text.x_mm < LEFT_MM + CARD_MM[0])
            assert last.y_mm == lowest
            assert box_of(card).bottom_mm - INSIDE_MM - last.y_mm == pytest.approx(0.2)
            assert (last.x_mm, last.height_mm) == (LEFT_MM + INSIDE_MM, 1.5)


def test_a_code_stands_at_the_right_of_the_first_card_alone(cases: list[Case]) -> None:
    for case in cases:
        codes = [(number, ink) for number, card in enumerate(case.made) for ink in drawn(card) if isinstance(ink, Code)]
        assert len(codes) == (case.corner is not None)
        for number, code in codes:
            assert (number, code.says) == (0, CORNER.text)
            assert around(code).right_mm == pytest.approx(LEFT_MM + CARD_MM[0] - INSIDE_MM)


def test_what_goes_on_says_so_and_only_the_first_card_opens(cases: list[Case]) -> None:
    for case in cases:
        first, *more = case.made
        opens = isinstance(case.card, HalfCard) and case.card.is_first
        assert (first.opens, any(card.opens for card in more)) == (opens, False)
        for card in more:
            assert card.columns in (1, 2)
            title = "".join(text.text for text in texts_on([card])[:4] if text.bold).replace(" ", "")
            assert title.startswith(f"{case.card.name}, continued".replace(" ", ""))
            assert len(texts_on([card])) > 4
        assert "continued" not in said_on([first])


def test_a_double_card_is_folded_along_its_middle_and_no_other_is(cases: list[Case]) -> None:
    middle = LEFT_MM + CARD_MM[0]
    for card in (card for case in cases for card in case.made):
        lines = [ink for ink in drawn(card) if isinstance(ink, Line)]
        folds = sorted((line.y1_mm, line.y2_mm) for line in lines if line.x1_mm == line.x2_mm == middle)
        ends = [(TOP_MM, TOP_MM + 4), (TOP_MM + CARD_MM[1] - 4, TOP_MM + CARD_MM[1])]
        assert folds == (ends if card.columns == 2 else [])


def test_only_what_has_few_rows_and_no_views_is_half_a_card() -> None:
    rows = one_receiver().rows[:1]
    for count in range(1, 8):
        card = replace(one_receiver(), rows=rows * count, free=())
        [made] = equipment_face(card, None, LAST).cards()
        assert (made.columns, made.half) == (1, count <= 5)
    [made] = half_face(replace(one_half(), rows=one_half().rows[:1]), None, LAST).cards()
    assert (made.columns, made.half) == (1, False)


def test_type_is_small_only_where_the_usual_does_not_fit() -> None:
    """Rows of 4.8 mm and 4 mm: as one more row makes the table small, and it stays on one side of one card."""
    seen = []
    for count in range(3, 16):
        card = replace(one_half(), rows=tuple(replace(one_half().rows[0], contact=str(i)) for i in range(count)))
        made = half_face(card, None, LAST).cards()
        heights = {text.height_mm for text in texts_on(made) if text.text == card.rows[0].function}
        [height] = heights
        seen.append((made[0].columns, height))
    assert seen == sorted(seen, key=lambda each: (each[0], -each[1]))
    assert seen[0] == (1, 2.5)
    assert (1, 1.8) in seen


def test_on_a_double_card_what_is_said_follows_the_table_a_paragraph_each() -> None:
    rows = tuple(replace(one_half().rows[0], contact=str(i), mark=f"C{i}") for i in range(1, 16))
    card = replace(one_half(), rows=rows, note="Undo both screws.", lock="A latch.")
    [made] = half_face(card, None, LAST).cards()
    assert made.columns == 2
    texts = texts_on([made])
    of_rows = [text for text in texts if text.text in {row.mark for row in rows}]
    bases = [next(text.y_mm for text in texts if text.text.startswith(said[:12])) for said in card.said]
    [left] = {text.x_mm for text in texts if any(text.text.startswith(said[:12]) for said in card.said)}
    assert left == LEFT_MM + CARD_MM[0] + INSIDE_MM
    # From the middle of the last row half a row, 0.8 mm, and capitals of 1.8 mm; paragraphs are 0.4 mm more apart
    # than blocks of text, which end 0.7 mm below the pitch of their last line.
    step = of_rows[-1].y_mm - of_rows[-2].y_mm
    assert bases[0] == pytest.approx(of_rows[-1].y_mm - 1.8 / 2 + step / 2 + 0.8 + 1.8)
    lines = [len(wrapped(said, CARD_MM[0] - 2 * INSIDE_MM, 1.8)) for said in card.said]
    pitches = [count * line_pitch_mm(1.8) + 0.7 + 0.4 for count in lines]
    assert [other - one for one, other in pairwise(bases)] == pytest.approx(pitches[:-1])


def test_on_one_side_what_is_said_follows_the_table_a_paragraph_each() -> None:
    card = replace(one_half(), rows=one_half().rows[:2], note="Undo both screws.", lock="A latch.")
    [made] = half_face(card, None, LAST).cards()
    assert made.columns == 1
    texts = texts_on([made])
    bases = [next(text.y_mm for text in texts if text.text.startswith(said[:12])) for said in card.said]
    of_rows = [text for text in texts if text.text in {row.mark for row in card.rows}]
    step = of_rows[-1].y_mm - of_rows[-2].y_mm
    assert bases[0] == pytest.approx(of_rows[-1].y_mm - 1.8 / 2 + step / 2 + 0.8 + 0.2 + 1.8)
    assert [other - one for one, other in pairwise(bases)] == pytest.approx([line_pitch_mm(1.8) + 0.7 + 0.2] * 4)


def test_a_place_follows_the_name_below_its_descenders_and_lines_of_a_long_name_are_4_mm_apart() -> None:
    for name, high in (("left-root", 5.0), ("left-wing-root-rib", 3.5), ("left-wing-root-of-the-panel-2", 2.5)):
        card = replace(one_half(), name=name)
        title, _, place, *_ = texts_on(half_face(card, None, LAST).cards())
        assert (title.text, title.height_mm) == (name, high)
        assert title.y_mm == pytest.approx(TOP_MM + INSIDE_MM + high)
        # A third of the height of capitals, 0.4 mm, and the capitals of the place.
        assert place.y_mm - title.y_mm == pytest.approx(0.33 * high + 0.4 + 2.5)
    card = replace(one_half(), name=" ".join(["left-wing-root"] * 6))
    texts = texts_on(half_face(card, None, LAST).cards())
    count = next(i for i, text in enumerate(texts) if not text.bold)
    assert [text.y_mm - TOP_MM - INSIDE_MM for text in texts[:count]] == pytest.approx(
        [2.5 + 4 * i for i in range(count)]
    )
    assert [text.height_mm for text in texts[:count]] == [2.5] * (count - 1) + [1.8]
    assert texts[count].y_mm - TOP_MM - INSIDE_MM == pytest.approx(4 * count + 0.5 + 2.5)


def test_the_last_line_is_0_9_mm_below_the_caution_which_ends_the_side(cases: list[Case]) -> None:
    for card in (card for case in cases for card in case.made):
        frames = [
            around(ink)
            for ink in drawn(card)
            if isinstance(ink, Shape) and ink.width_mm == 0.5 and len(ink.points_mm) == 4
        ]
        [frame] = [box for box in frames if box.width_mm == pytest.approx(CARD_MM[0] - 2 * INSIDE_MM)]
        [last] = [text for text in texts_on([card]) if text.text == LAST]
        assert last.y_mm - 1.5 - frame.bottom_mm == pytest.approx(0.9)
        words = [text for text in texts_on([card]) if text.cell == frame or frame.y_mm < text.y_mm < frame.bottom_mm]
        assert " ".join(text.text for text in words if text.x_mm < LEFT_MM + CARD_MM[0]) == CAUTION


def test_what_is_said_ends_2_mm_before_the_quiet_zone_of_the_code_beside_it(cases: list[Case]) -> None:
    seen = 0
    for case in cases:
        first = case.made[0]
        for code in (ink for ink in drawn(first) if isinstance(ink, Code)):
            zone = around(code)
            beside = [text for text in texts_on([first]) if zone.y_mm < text.y_mm < zone.bottom_mm + 2]
            words = [ink_of(text) for text in beside if text.align == "left" and text.x_mm < zone.x_mm]
            assert all(box.right_mm <= zone.x_mm - 2 + SLACK_MM for box in words), case.name
            seen += any(box.right_mm > zone.x_mm - 6 for box in words)
    assert seen


def test_rows_of_equipment_are_5_mm_high_in_small_type_4_and_what_does_not_wrap_is_as_narrow_as_it_can_be() -> None:
    row = PortRow("1", "AIL L", "left-aileron", "1", "hold")
    for count, high, size in ((4, 5.0, 2.5), (21, 4.0, 1.8)):
        card = replace(one_receiver(), rows=(row,) * count, free=())
        [made] = equipment_face(card, None, LAST).cards()
        texts = texts_on([made])
        functions = [text for text in texts if text.text == row.function]
        assert {text.height_mm for text in functions} == {size}
        steps = [below.y_mm - above.y_mm for above, below in pairwise(functions)]
        assert steps == pytest.approx([high] * (count - 1))
        failsafe, channel = (next(text for text in texts if text.text == said) for said in ("hold", "channel"))
        right = LEFT_MM + CARD_MM[0] - INSIDE_MM
        assert failsafe.x_mm == pytest.approx(right - 0.2 - max(width_mm("hold", size), width_mm("fail-safe", 1.8)))
        assert channel.align == "right"
        assert channel.x_mm == pytest.approx(failsafe.x_mm - 2)
        assert [(text.text, text.bold) for text in texts if text.y_mm == functions[0].y_mm] == [
            ("1", True),
            ("AIL L", True),
            ("left-aileron", False),
            ("1", False),
            ("hold", False),
        ]
