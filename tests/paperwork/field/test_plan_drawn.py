"""How the plan from above is drawn: marks at their places, lines broken around them, antennas as they lie."""

from __future__ import annotations

import math

import pytest
from drawn_plans import AREA, airframe, box_of, hold_lines, hold_places, middle_of
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field.plan import plan_ink
from docgen.paperwork.field.plan_content import Mark, Plan, plan_of
from docgen.paperwork.typesetting.ink import THICK_MM, Circle, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import width_mm

PLANS = [pytest.param(seed, id=f"airframe {seed}") for seed in range(4)] + ["wren", "fulmar"]


def plan(which: int | str) -> Plan:
    return airframe(which) if isinstance(which, int) else plan_of(harness_of(EXAMPLES / which))


@pytest.mark.parametrize("which", PLANS)
def test_each_place_is_where_its_coordinates_say_and_nothing_overlaps(which: int | str) -> None:
    hold_places(plan(which))


@pytest.mark.parametrize("which", PLANS)
def test_lines_and_stubs_are_whole_but_for_a_gap_around_marks(which: int | str) -> None:
    hold_lines(plan(which))


@pytest.mark.parametrize(
    ("lies", "along"), [("lengthwise", (0.0, 1.0)), ("crosswise", (1.0, 0.0)), ("sloping", (0.5**0.5, 0.5**0.5))]
)
def test_an_antenna_is_an_arrow_both_ways_as_it_lies(lies: str, along: tuple[float, float]) -> None:
    marks = Mark("antenna", lies, (500.0, 0.0)), Mark("cover", "A", (0.0, 400.0)), Mark("cover", "B", (1000.0, 400.0))
    lines = [one for one in plan_ink(Plan(marks, (), (), ()), AREA) if isinstance(one, Line)]
    lines = [one for one in lines if one.width_mm < THICK_MM]
    shaft = max(lines, key=_length)
    assert _direction(shaft) == pytest.approx(along)
    # As long as its mark is wide, 4.4 mm, less two tenths at either end; barbs lead back 1 mm and 0.6 mm aside.
    assert _length(shaft) == pytest.approx(4.0)
    assert [_length(one) for one in lines if one != shaft] == pytest.approx([math.hypot(1, 0.6)] * 4)
    ends = (shaft.x1_mm, shaft.y1_mm), (shaft.x2_mm, shaft.y2_mm)
    for end, inwards in zip(ends, (1, -1), strict=True):
        barbs = [one for one in lines if one != shaft and (one.x1_mm, one.y1_mm) == end]
        # Each leads back along the shaft, the two at as much to either side of it.
        back = [inwards * sum(a * b for a, b in zip(_direction(one), along, strict=True)) for one in barbs]
        aside = [_direction(one)[0] * along[1] - _direction(one)[1] * along[0] for one in barbs]
        assert len(barbs) == 2
        assert back[0] == pytest.approx(back[1])
        assert back[0] > 0.5
        assert aside[0] == pytest.approx(-aside[1])
        assert abs(aside[0]) > 0.3


def _length(line: Line) -> float:
    return math.dist((line.x1_mm, line.y1_mm), (line.x2_mm, line.y2_mm))


def _direction(line: Line) -> tuple[float, float]:
    return (line.x2_mm - line.x1_mm) / _length(line), (line.y2_mm - line.y1_mm) / _length(line)


def test_a_mark_on_its_spot_has_its_letter_in_the_middle_and_is_as_wide_as_that_needs() -> None:
    marks = Mark("joint", "1", (0.0, 0.0)), Mark("cover", "AB", (500.0, 0.0)), Mark("cover", "C", (1000.0, 0.0))
    ink = plan_ink(Plan(marks, (), (), ()), AREA)
    (square,) = (one for one in ink if isinstance(one, Shape))
    wide, ring = (one for one in ink if isinstance(one, Circle))
    assert box_of(square)[2] - box_of(square)[0] == pytest.approx(3.2)
    assert (ring.radius_mm, ring.fill, square.fill) == (1.6, "#FFFFFF", "#000000")
    assert wide.radius_mm == pytest.approx((width_mm("AB", 1.8, bold=True) + 1) / 2)
    texts = {one.text: one for one in ink if isinstance(one, Text)}
    assert (texts["1"].colour, texts["C"].colour, texts["C"].align) == ("#FFFFFF", "#000000", "centre")
    for says, at in (("1", middle_of(box_of(square))), ("AB", (wide.x_mm, wide.y_mm)), ("C", (ring.x_mm, ring.y_mm))):
        assert (texts[says].x_mm, texts[says].y_mm - 0.9) == pytest.approx(at)


@pytest.mark.parametrize("at", [(100.0, 0.0), (900.0, 300.0)])
def test_what_finds_no_room_on_its_spot_stands_at_the_end_of_a_stub_of_5_mm(at: tuple[float, float]) -> None:
    ends = Mark("cover", "Y", (0.0, -500.0)), Mark("cover", "Z", (1000.0, 500.0))
    ink = plan_ink(Plan((*ends, Mark("joint", "1", at), Mark("joint", "2", at)), (), (), ()), AREA)
    there, beside = (middle_of(box_of(one)) for one in ink if isinstance(one, Shape))
    assert math.dist(there, beside) == pytest.approx(5)


def test_marks_that_open_alike_close_to_each_other_are_one_and_farther_apart_each_its_own() -> None:
    # 24 mm on paper stand for 500 mm: twice 3.2 mm are 133 mm.
    ends = Mark("cover", "Y", (0.0, -500.0)), Mark("cover", "Z", (0.0, 500.0))
    for apart, count in ((130.0, 1), (137.0, 2)):
        marks = (Mark("cover", "A", (0.0, 0.0)), Mark("cover", "A", (0.0, apart)))
        ink = plan_ink(Plan((*ends, *marks), (), (), ()), AREA)
        assert [one.text for one in ink if isinstance(one, Text)].count("A") == count
        dots = [one for one in ink if isinstance(one, Circle) and one.radius_mm == 0.35]
        assert len(dots) == (1 if count == 1 else 0)


def test_an_upright_antenna_is_a_ring_with_a_dot() -> None:
    marks = (
        Mark("antenna", "upright", (500.0, 0.0)),
        Mark("cover", "A", (0.0, 400.0)),
        Mark("cover", "B", (1000.0, 0.0)),
    )
    rings = [
        one for one in plan_ink(Plan(marks, (), (), ()), AREA) if isinstance(one, Circle) and one.fill != "#FFFFFF"
    ]
    assert [(one.radius_mm, one.fill, one.colour) for one in rings] == [(1.2, None, "#000000"), (0.35, "#000000", None)]
    assert len({(one.x_mm, one.y_mm) for one in rings}) == 1
