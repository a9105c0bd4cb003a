"""The plan from above: places where their coordinates say, and no mark over another, on airframes made at random."""

from __future__ import annotations

import math
import random

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field.plan import plan_ink
from docgen.paperwork.field.plan_content import Mark, Plan, plan_of
from docgen.paperwork.typesetting.ink import THICK_MM, Box, Circle, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import width_mm

AREA = Box(10, 10, 62, 50)
NEAR_MM = 0.3


def airframe(seed: int) -> Plan:
    chance = random.Random(seed)
    span, length = chance.uniform(1500, 4000), chance.uniform(900, 3000)
    marks = []
    for number in range(chance.randint(2, 7)):
        at = chance.uniform(0.2, 0.9) * length, chance.uniform(0, 0.1) * span
        marks += [Mark("joint", str(number + 1), (at[0], sign * at[1])) for sign in (-1, 1)]
    for number in range(chance.randint(1, 4)):
        marks.append(
            Mark("antenna", chance.choice(["lengthwise", "crosswise", "upright", "sloping"]), (number * 31.0, 0.0))
        )
    for letter in "ABCDEFGHJKLM"[: chance.randint(3, 12)]:
        for _ in range(chance.randint(1, 3)):
            marks.append(Mark("cover", letter, (chance.uniform(0, length), chance.uniform(-0.5, 0.5) * span)))
    marks += [Mark("cover", "Y", (0.0, 0.0)), Mark("cover", "Z", (length, 0.0))]
    wing = (0.4 * length, -span / 2), (0.4 * length, span / 2)
    return Plan(tuple(marks), (), (), (((0.0, 0.0), (length, 0.0)), wing))


def expected(plan: Plan) -> dict[Mark, tuple[float, float]]:
    """Return where each place is: to one scale, its middle line down the middle, the foremost at the same margin."""
    spots = [mark.at for mark in plan.marks] + [spot for line in plan.lines for spot in line]
    aft, wide = [aft for aft, _ in spots], max(abs(right) for _, right in spots)
    margin = 7.0
    scale = min((AREA.width_mm - 2 * margin) / 2 / wide, (AREA.height_mm - 2 * margin) / (max(aft) - min(aft)))
    middle = AREA.x_mm + AREA.width_mm / 2
    return {
        mark: (middle + mark.at[1] * scale, AREA.y_mm + margin + (mark.at[0] - min(aft)) * scale) for mark in plan.marks
    }


@pytest.mark.parametrize(
    ("lies", "along"), [("lengthwise", (0.0, 1.0)), ("crosswise", (1.0, 0.0)), ("sloping", (0.5**0.5, 0.5**0.5))]
)
def test_an_antenna_is_an_arrow_both_ways_as_it_lies(lies: str, along: tuple[float, float]) -> None:
    marks = Mark("antenna", lies, (500.0, 0.0)), Mark("cover", "A", (0.0, 400.0)), Mark("cover", "B", (1000.0, 400.0))
    lines = [one for one in plan_ink(Plan(marks, (), (), ()), AREA) if isinstance(one, Line)]
    lines = [one for one in lines if one.width_mm < THICK_MM]
    shaft = max(lines, key=_length)
    assert _direction(shaft) == pytest.approx(along)
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


PLANS = [pytest.param(seed, id=f"airframe {seed}") for seed in range(50)] + ["wren", "fulmar"]


@pytest.mark.parametrize("which", PLANS)
def test_each_place_is_where_its_coordinates_say_and_nothing_overlaps(which: int | str) -> None:
    plan = airframe(which) if isinstance(which, int) else plan_of(harness_of(EXAMPLES / which))
    ink = plan_ink(plan, AREA)
    squares = [one for one in ink if isinstance(one, Shape)]
    middles = [(sum(x for x, _ in one.points_mm) / 4, sum(y for _, y in one.points_mm) / 4) for one in squares]
    rings = [one for one in ink if isinstance(one, Circle) and one.fill != "#000000"]
    dots = [(one.x_mm, one.y_mm) for one in ink if isinstance(one, Circle) and one.fill == "#000000"]
    drawn = [*middles, *((ring.x_mm, ring.y_mm) for ring in rings), *dots]
    lines = [one for one in ink if isinstance(one, Line)]
    for mark, spot in expected(plan).items():
        if mark.kind != "antenna":
            assert min(math.dist(spot, at) for at in drawn) < NEAR_MM, mark
    letters = [one for one in ink if isinstance(one, Text)]
    boxes = [*(_around(at, 1.6) for at in middles), *(_around((one.x_mm, one.y_mm), one.radius_mm) for one in rings)]
    assert not [pair for pair in _pairs(boxes) if _meet(*pair)]
    assert all(AREA.x_mm <= box[0] and box[2] <= AREA.right_mm and box[3] <= AREA.bottom_mm for box in boxes)
    assert all(any(_within(_ink(letter), box) for box in boxes) for letter in letters)
    assert not [(line, letter.text) for line in lines for letter in letters if _crosses(line, _ink(letter))]
    # Every joint is there, every kind of cover at least once.
    said = [letter.text for letter in letters]
    assert sorted(t for t in said if t.isdigit()) == sorted(m.says for m in expected(plan) if m.kind == "joint")
    assert {t for t in said if not t.isdigit()} == {mark.says for mark in plan.marks if mark.kind == "cover"}


Sides = tuple[float, float, float, float]


def _around(at: tuple[float, float], half: float) -> Sides:
    return at[0] - half, at[1] - half, at[0] + half, at[1] + half


def _ink(text: Text) -> Sides:
    half = width_mm(text.text, text.height_mm, text.bold) / 2
    return text.x_mm - half, text.y_mm - text.height_mm, text.x_mm + half, text.y_mm


def _pairs(boxes: list[Sides]) -> list[tuple[Sides, Sides]]:
    return [(one, other) for i, one in enumerate(boxes) for other in boxes[i + 1 :]]


def _meet(one: Sides, other: Sides) -> bool:
    return min(one[2], other[2]) > max(one[0], other[0]) and min(one[3], other[3]) > max(one[1], other[1])


def _within(inner: Sides, outer: Sides) -> bool:
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def _crosses(line: Line, box: Sides) -> bool:
    """Tell whether a point of a line lies in a box; points are a tenth of a millimetre apart."""
    length = math.dist((line.x1_mm, line.y1_mm), (line.x2_mm, line.y2_mm))
    steps = max(int(length * 10), 1)
    return any(
        box[0] < line.x1_mm + (line.x2_mm - line.x1_mm) * i / steps < box[2]
        and box[1] < line.y1_mm + (line.y2_mm - line.y1_mm) * i / steps < box[3]
        for i in range(steps + 1)
    )
