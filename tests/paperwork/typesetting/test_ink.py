"""Ink at another place is the same ink, all of it as far away."""

from __future__ import annotations

from dataclasses import replace

import pytest

from docgen.paperwork.typesetting.ink import Box, Circle, Code, Ink, Line, Page, Shape, Text, moved, rectangle

CELL = Box(1, 2, 30, 4)


@pytest.mark.parametrize(
    ("ink", "there"),
    [
        (
            Text(1, 2, "a", 2.5, True, "right", "#112233", CELL, True),
            {"x_mm": 11, "y_mm": -3, "cell": Box(11, -3, 30, 4)},
        ),
        (Text(1, 2, "a", 2.5), {"x_mm": 11, "y_mm": -3}),
        (Line(1, 2, 5, 7, 0.5, "#112233"), {"x1_mm": 11, "y1_mm": -3, "x2_mm": 15, "y2_mm": 2}),
        (Shape(((1, 2), (5, 7), (8, 9)), 0.5, "#112233", None), {"points_mm": ((11, -3), (15, 2), (18, 4))}),
        (Circle(1, 2, 3, 0.5, "#112233", None), {"x_mm": 11, "y_mm": -3}),
        (Code(1, 2, 0.5, ("101", "010"), "a"), {"x_mm": 11, "y_mm": -3}),
    ],
)
def test_what_is_moved_is_the_same_10_mm_right_and_5_mm_up(ink: Ink, there: dict[str, object]) -> None:
    assert moved(ink, 10, -5) == replace(ink, **there)  # type: ignore[arg-type]


def test_a_box_ends_where_its_width_and_height_end_and_is_drawn_from_corner_to_corner() -> None:
    box = Box(1, 2, 30, 4)
    assert (box.right_mm, box.bottom_mm) == (31, 6)
    outline = rectangle(box, 0.5, "#112233", None)
    assert outline == Shape(((1, 2), (31, 2), (31, 6), (1, 6)), 0.5, "#112233", None)
    assert rectangle(box) == Shape(outline.points_mm, 0.25, None, "#000000")


def test_a_page_keeps_the_order_in_which_ink_is_put_on_it() -> None:
    page = Page(210, 297)
    first, second, third = (Line(0, i, 10, i) for i in range(3))
    page.add(first, second)
    page.add(third)
    assert page.ink == [first, second, third]
