"""Plans from above as drawn: airframes made at random, and what holds for the plan of any."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator

from docgen.paperwork.field.plan import plan_ink
from docgen.paperwork.field.plan_content import Mark, Plan
from docgen.paperwork.typesetting.ink import THICK_MM, THIN_MM, Box, Circle, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import width_mm

AREA = Box(10, 10, 62, 50)
NEAR_MM = 0.3

Sides = tuple[float, float, float, float]


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


def _on(lines: list[Line], at: tuple[float, float]) -> bool:
    """Tell whether a point lies on one of the lines."""
    for line in lines:
        start, end = (line.x1_mm, line.y1_mm), (line.x2_mm, line.y2_mm)
        if math.dist(start, at) + math.dist(at, end) - math.dist(start, end) < 1e-6:
            return True
    return False


def _along(start: tuple[float, float], end: tuple[float, float]) -> Iterator[tuple[float, float]]:
    steps = max(int(math.dist(start, end) / 0.2), 2)
    for i in range(1, steps):
        yield start[0] + (end[0] - start[0]) * i / steps, start[1] + (end[1] - start[1]) * i / steps


def _inside(at: tuple[float, float], boxes: list[Sides], by: float) -> bool:
    return any(x - by < at[0] < x_end + by and y - by < at[1] < y_end + by for x, y, x_end, y_end in boxes)


def box_of(shape: Shape) -> Sides:
    return (*min(shape.points_mm), *max(shape.points_mm))


def middle_of(box: Sides) -> tuple[float, float]:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2


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


def hold_places(plan: Plan) -> None:
    """Hold that each place is where its coordinates say, and that nothing overlaps."""
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


def hold_lines(plan: Plan) -> None:
    """Hold that lines and stubs are whole but for a gap around marks."""
    ink = plan_ink(plan, AREA)
    at = expected(plan)
    squares = [box_of(one) for one in ink if isinstance(one, Shape)]
    rings = [one for one in ink if isinstance(one, Circle) and one.fill == "#FFFFFF"]
    boxes = [*squares, *(_around((ring.x_mm, ring.y_mm), ring.radius_mm) for ring in rings)]
    arrows = [one for one in ink if isinstance(one, Line) and one.width_mm not in (THICK_MM, THIN_MM)]
    if not arrows and not any(mark.kind == "antenna" for mark in plan.marks):
        thick = [one for one in ink if isinstance(one, Line) and one.width_mm == THICK_MM]
        spots = {mark.at: spot for mark, spot in at.items()}
        for start, end in plan.lines:
            if start in spots and end in spots:
                for point in _along(spots[start], spots[end]):
                    if not _inside(point, boxes, 0.351):
                        assert _on(thick, point)
                    elif _inside(point, boxes, 0.349):
                        assert not _on(thick, point)
    # From each mark that is not on its spot a stub leads there, and a dot marks that.
    thin = [one for one in ink if isinstance(one, Line) and one.width_mm == THIN_MM]
    dots = [(one.x_mm, one.y_mm) for one in ink if isinstance(one, Circle) and one.radius_mm == 0.35]
    letters = {(one.x_mm, one.y_mm - one.height_mm / 2): one for one in ink if isinstance(one, Text)}
    for (x, y), letter in letters.items():
        assert any(math.dist((x, y), middle_of(box)) < 1e-6 for box in boxes)
        spots_of = [spot for mark, spot in at.items() if mark.says == letter.text and mark.kind != "antenna"]
        on_spot = any(math.dist((x, y), spot) < 1e-6 for spot in spots_of)
        led = [spot for spot in spots_of if any(math.dist(spot, dot) < 1e-6 for dot in dots)]
        assert on_spot or led
    for line in thin:
        assert not _inside(((line.x1_mm + line.x2_mm) / 2, (line.y1_mm + line.y2_mm) / 2), boxes, 0.349)
