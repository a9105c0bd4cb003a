"""The table of a half made by chance: brackets hold the contacts of each common together, none touches another."""

from __future__ import annotations

from itertools import pairwise
from random import Random
from typing import NamedTuple

import pytest

from docgen.paperwork.cards.contact_table import CardRow, contact_table
from docgen.paperwork.typesetting.ink import Box, Ink, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import width_mm

WIDTH_MM = 85.0
LEFT_MM, TOP_MM = 12.0, 20.0


class Drawn(NamedTuple):
    """Rows, where each stands, and the ink of each."""

    rows: list[CardRow]
    boxes: list[Box]
    ink: list[list[Ink]]
    heads: list[Text]


def drawn(rows: list[CardRow], *, small: bool = False) -> Drawn:
    head, blocks = contact_table(rows, WIDTH_MM, small=small)
    heads = [ink for ink in head.draw(Box(LEFT_MM, TOP_MM - 10, WIDTH_MM, head.height_mm)) if isinstance(ink, Text)]
    boxes, ink, top = [], [], TOP_MM
    for block in blocks:
        boxes.append(Box(LEFT_MM, top, WIDTH_MM, block.height_mm))
        ink.append(list(block.draw(boxes[-1])))
        top += block.height_mm
    return Drawn(rows, boxes, ink, heads)


def rows_by_chance(seed: int) -> list[CardRow]:
    dice = Random(seed)
    commons = ["", "", "power", "ground", "light"][: dice.randint(2, 5)]
    goes = ["receiver 1", "splice behind it", "a long name of what is at the other end, and another"]
    return [
        CardRow(
            str(i), "BK", "22 AWG", dice.choice(["AIL L", "FLAP L"]), dice.choice(goes), "tail", dice.choice(commons)
        )
        for i in range(1, dice.randint(3, 14))
    ]


@pytest.fixture(scope="module", params=range(20))
def of(request: pytest.FixtureRequest) -> Drawn:
    return drawn(rows_by_chance(request.param), small=request.param % 2 == 1)


def thick(ink: list[Ink]) -> list[Line]:
    return [one for one in ink if isinstance(one, Line) and one.width_mm == 0.5]


def middles(of: Drawn, common: str) -> list[float]:
    """Return the middles of a common's rows, from the top."""
    return [box.y_mm + box.height_mm / 2 for row, box in zip(of.rows, of.boxes, strict=True) if row.common == common]


def bracket_of(of: Drawn, common: str) -> tuple[list[Line], list[Line]]:
    """Return the upright lines and the ticks of the bracket at the first of a common's contacts."""
    lines = [line for ink in of.ink for line in thick(ink)]
    first = middles(of, common)[0]
    [x] = {line.x1_mm for line in lines if line.y1_mm == line.y2_mm == pytest.approx(first)}
    own = [line for line in lines if line.x1_mm == pytest.approx(x)]
    return [line for line in own if line.x1_mm == line.x2_mm], [line for line in own if line.x1_mm != line.x2_mm]


def commons_of(of: Drawn) -> list[str]:
    return [common for common in dict.fromkeys(row.common for row in of.rows) if common]


def test_a_bracket_has_a_tick_at_each_contact_of_its_common_and_goes_from_the_first_to_the_last(of: Drawn) -> None:
    for common in commons_of(of):
        uprights, ticks = bracket_of(of, common)
        held = middles(of, common)
        here = [tick.y1_mm for tick in ticks if held[0] - 1e-6 <= tick.y1_mm <= held[-1] + 1e-6]
        assert here == pytest.approx(held)
        assert all(tick.x2_mm - tick.x1_mm == pytest.approx(1.0) for tick in ticks)
        spans = sorted((line.y1_mm, line.y2_mm) for line in uprights)
        # That of a single contact is as high as its row above it.
        begins = held[0] if len(held) > 1 else min(span[0] for span in spans if span[1] == pytest.approx(held[0]))
        inside = [span for span in spans if begins - 1e-6 <= span[0] and span[1] <= held[-1] + 1e-6]
        assert (inside[0][0], inside[-1][1]) == pytest.approx((begins, held[-1]))
        for above, below in pairwise(inside):
            assert above[1] == pytest.approx(below[0])


def test_brackets_that_pass_each_other_stand_side_by_side_and_left_of_all_numbers(of: Drawn) -> None:
    lanes = {}
    for common in commons_of(of):
        [x] = {line.x1_mm for line in bracket_of(of, common)[0]}
        held = middles(of, common)
        lanes[common] = (x, held[0], held[-1])
    for one, (x, first, last) in lanes.items():
        for other, (other_x, other_first, other_last) in lanes.items():
            if one != other and first <= other_last and other_first <= last:
                assert abs(x - other_x) == pytest.approx(1.5) or abs(x - other_x) > 1.5
        assert (x - LEFT_MM - 0.4) / 1.5 == pytest.approx(round((x - LEFT_MM - 0.4) / 1.5))
    numbers = [next(one for one in ink if isinstance(one, Text)) for ink in of.ink]
    assert [number.text for number in numbers] == [row.contact for row in of.rows]
    ends = max((line.x2_mm for ink in of.ink for line in thick(ink)), default=LEFT_MM)
    assert {number.x_mm for number in numbers} == {numbers[0].x_mm}
    assert all(ends < number.x_mm - width_mm(number.text, number.height_mm, True) for number in numbers)


@pytest.mark.parametrize(
    ("commons", "lanes"), [("", 0), ("a", 1), ("aabb", 1), ("abab", 2), ("abba", 2), ("abcabc", 3)]
)
def test_brackets_take_as_little_room_as_they_can(commons: str, lanes: int) -> None:
    of = drawn(
        [
            CardRow(str(i), "BK", "22 AWG", "AIL L", "", "", common)
            for i, common in enumerate([*commons, *[""] * 7][:7], 1)
        ]
    )
    usual = drawn([CardRow(str(i), "BK", "22 AWG", "AIL L", "", "") for i in range(1, 8)])
    first, other = (next(one for one in each.ink[0] if isinstance(one, Text)) for each in (of, usual))
    assert first.x_mm - other.x_mm == pytest.approx(1.5 * lanes)


def test_without_commons_there_is_no_bracket() -> None:
    of = drawn([CardRow(str(i), "BK", "22 AWG", "AIL L", "receiver 1", "C1A22") for i in range(1, 4)])
    assert not [line for ink in of.ink for line in thick(ink)]


def test_what_does_not_wrap_is_as_narrow_as_it_can_be_and_all_else_is_for_function_and_other_end() -> None:
    of = drawn([CardRow("10", "WHRD", "22 AWG", "AIL L", "receiver 1", "C1A22")])
    number, colour, function, goes, gauge, mark = (one for one in of.ink[0] if isinstance(one, Text))
    spare, gap, right = 0.2, 2.0, LEFT_MM + WIDTH_MM
    assert mark.x_mm == pytest.approx(right - spare - max(width_mm("C1A22", 1.8), width_mm("mark", 1.8)))
    assert (gauge.align, number.align) == ("right", "right")
    assert gauge.x_mm == pytest.approx(mark.x_mm - gap)
    assert number.x_mm == pytest.approx(LEFT_MM + width_mm("10", 2.5, True) + spare)
    # The swatch begins where its column does, its letters 0.8 mm in; a stripe takes 2 mm and is 0.8 mm from the end.
    assert colour.x_mm == pytest.approx(number.x_mm + gap + 0.8)
    swatch_mm = width_mm("WHRD", 1.8, True) + 1.6 + 2.0
    assert function.x_mm == pytest.approx(number.x_mm + gap + swatch_mm + spare + gap)
    left_of_gauge = gauge.x_mm - spare - max(width_mm("22", 1.8), width_mm("AWG", 1.8)) - gap
    widths = max(width_mm("AIL L", 2.5, True), width_mm("function", 1.8)), width_mm("receiver 1", 2.5)
    # What is left over is shared alike.
    over = left_of_gauge - function.x_mm - gap - sum(widths) - 2 * spare
    assert goes.x_mm == pytest.approx(function.x_mm + widths[0] + spare + over / 2 + gap)


@pytest.mark.parametrize(
    ("gauges", "heading", "cells"),
    [
        (("22 AWG", "20 AWG"), "AWG", ("22", "20")),
        (("0.34 mm²", "0.34 mm²"), "mm²", ("0.34", "0.34")),
        (("22 AWG", "0.34 mm²"), "gauge", ("22 AWG", "0.34 mm²")),
        (("22 AWG", ""), "AWG", ("22",)),
        (("", ""), "gauge", ()),
    ],
)
def test_a_unit_that_all_gauges_share_stands_in_the_heading_alone(
    gauges: tuple[str, str], heading: str, cells: tuple[str, ...]
) -> None:
    of = drawn([CardRow(str(i), "BK", gauge, "AIL L", "receiver 1", "C1A22") for i, gauge in enumerate(gauges, 1)])
    assert [text.text for text in of.heads] == ["colour", "function", "goes to", heading, "mark"]
    [edge] = [text.x_mm for text in of.heads if text.text == heading]
    texts = [one for ink in of.ink for one in ink if isinstance(one, Text) and one.x_mm == edge]
    assert tuple(text.text for text in texts) == cells


def test_a_row_says_contact_colour_function_other_end_gauge_and_mark_in_this_order() -> None:
    for small, high in ((False, 2.5), (True, 1.8)):
        of = drawn([CardRow("1", "WHRD", "22 AWG", "AIL L", "receiver 1", "C1A22")], small=small)
        texts = [one for one in of.ink[0] if isinstance(one, Text)]
        assert [(text.text, text.height_mm, text.bold) for text in texts] == [
            ("1", high, True),
            ("WHRD", 1.8, True),
            ("AIL L", high, True),
            ("receiver 1", high, False),
            ("22", 1.8, False),
            ("C1A22", 1.8, False),
        ]
        assert len([one for one in of.ink[0] if isinstance(one, Shape)]) == 2
        # The least row is 4.8 mm high, in small type 4 mm.
        assert of.boxes[0].height_mm == pytest.approx(4.0 if small else 4.8, abs=0.01)
