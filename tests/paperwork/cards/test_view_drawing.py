"""Whether a view can be read, by chance, against its definition: each pair of things, each box and the outline."""

from __future__ import annotations

import math
from itertools import combinations, product
from random import Random

import pytest

from docgen.paperwork.cards.view_drawing import Drawing, is_legible
from docgen.paperwork.cards.views import View
from docgen.paperwork.typesetting.ink import Box

ACROSS_MM, DOWN_MM = 0.3, 0.35  # between different contacts
RIM_MM = 0.4  # from the middle of an outline 0.25 mm wide: as much white beside it is left by any printer
WIDE = View({"1": (0.0, 0.0)}, (1000.0, 1000.0), None)


def box_by_chance(dice: Random) -> Box:
    return Box(dice.uniform(-9, 9), dice.uniform(-9, 9), dice.uniform(0, 4), dice.uniform(0, 4))


def are_near(one: Box, other: Box) -> bool:
    across = max(one.x_mm, other.x_mm) - min(one.right_mm, other.right_mm)
    down = max(one.y_mm, other.y_mm) - min(one.bottom_mm, other.bottom_mm)
    return across < ACROSS_MM and down < DOWN_MM


def test_what_belongs_to_different_contacts_keeps_clear_but_leaders_of_each_other() -> None:
    dice, seen = Random(1), set()
    for _ in range(600):
        drawing = Drawing()
        for _ in range(dice.randint(1, 6)):
            drawing.keep_clear(dice.choice("123"), box_by_chance(dice))
        for _ in range(dice.randint(0, 2)):
            drawing.leaders.append((dice.choice("123"), box_by_chance(dice)))
        pairs = [*combinations(drawing.boxes, 2), *product(drawing.boxes, drawing.leaders)]
        clear = not any(one != other and are_near(box, beside) for (one, box), (other, beside) in pairs)
        assert is_legible(WIDE, drawing, 1) == clear
        seen.add(clear)
    assert seen == {True, False}


@pytest.mark.parametrize(("gap", "clear"), [(0.31, True), (0.29, False)])
def test_side_by_side_a_little_less_is_enough_than_below_each_other(gap: float, clear: bool) -> None:
    for second in (Box(2 + gap, 0, 2, 2), Box(-2 - gap, 0, 2, 2)):
        drawing = Drawing(boxes=[("1", Box(0, 0, 2, 2)), ("2", second)])
        assert is_legible(WIDE, drawing, 1) == clear
    for second in (Box(0, 2.05 + gap, 2, 2), Box(0, -2.05 - gap, 2, 2)):
        drawing = Drawing(boxes=[("1", Box(0, 0, 2, 2)), ("2", second)])
        assert is_legible(WIDE, drawing, 1) == clear


@pytest.mark.parametrize("shape", ["rectangle", "D", "round"])
@pytest.mark.parametrize("scale", [1, 2])
def test_what_is_inside_keeps_clear_of_the_outline_in_its_scale(shape: str, scale: int) -> None:
    dice, seen = Random(2), set()
    view = View({"1": (0.0, 0.0)}, (10.0, 10.0 if shape == "round" else 6.0), None, shape)
    wide, high = (scale * side / 2 - RIM_MM for side in view.outline_mm)
    for _ in range(400):
        box = Box(*(scale * side / 3 for side in box_by_chance(dice)))
        corners = [(x, y) for x in (box.x_mm, box.right_mm) for y in (box.y_mm, box.bottom_mm)]
        inside = all(
            math.hypot(x, y) < wide if shape == "round" else abs(x) < wide and abs(y) < high for x, y in corners
        )
        drawing = Drawing()
        drawing.keep_clear("1", Box(0, 0, 1, 1), inside=box)
        assert is_legible(view, drawing, scale) == inside
        seen.add(inside)
    assert seen == {True, False}


def test_what_stands_outside_need_not_be_within_the_outline() -> None:
    drawing = Drawing()
    drawing.keep_clear("1", Box(700, 0, 1, 1))
    assert is_legible(WIDE, drawing, 1)


def test_the_extent_is_around_all_that_keeps_clear() -> None:
    drawing = Drawing(boxes=[("1", Box(-3, 2, 4, 1)), ("2", Box(0, -5, 2, 3)), ("3", Box(-1, 0, 9, 4))])
    assert drawing.extent == Box(-3, -5, 11, 9)
