"""Lines below each other stand where their heights and gaps say, and each gap is worked out once."""

from __future__ import annotations

import pytest

from docgen.paperwork.page_kit import stacks
from docgen.paperwork.page_kit.stacks import SetLine, below_mm, set_lines, stack_mm, stack_of
from docgen.paperwork.typesetting.ink import Box, Text
from docgen.paperwork.typesetting.typeface import extent, line_pitch_mm

BOX = Box(10, 20, 100, 1000)


def bases(lines: list[SetLine]) -> list[float]:
    return [ink.y_mm for ink in set_lines(lines, "left", BOX, 20) if isinstance(ink, Text)]


def test_lines_of_one_height_are_a_pitch_apart() -> None:
    # The first base line is the height of its capitals below the top.
    assert bases([SetLine("word", 2, False)] * 4) == pytest.approx([22 + i * line_pitch_mm(2) for i in range(4)])


def test_a_line_that_says_nothing_keeps_its_room() -> None:
    lines = [SetLine("a", 2, False), SetLine("", 2, False), SetLine("b", 2, False)]
    assert bases(lines) == pytest.approx([22, 22 + 2 * line_pitch_mm(2)])


def test_no_lines_have_no_ink() -> None:
    assert set_lines([], "left", BOX, 20) == []


def test_what_is_worked_out_grows_with_the_number_of_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = 0

    def pitch(height_mm: float) -> float:
        nonlocal asked
        asked += 1
        return 1.5 * height_mm

    monkeypatch.setattr(stacks, "line_pitch_mm", pitch)
    bases([SetLine("word", 2, False)] * 1000)
    assert asked == 999  # gaps between them


@pytest.mark.parametrize(("align", "edge"), [("left", 10), ("right", 110)])
def test_lines_stand_at_an_edge_of_their_box_which_they_know(align: str, edge: float) -> None:
    found = [
        ink
        for ink in set_lines([SetLine("a", 2, True), SetLine("b", 3, False)], align, BOX, 20)
        if isinstance(ink, Text)
    ]
    assert [(ink.text, ink.height_mm, ink.bold) for ink in found] == [("a", 2, True), ("b", 3, False)]
    assert all((ink.x_mm, ink.align, ink.cell) == (edge, align, BOX) for ink in found)


def test_small_lines_stand_over_and_under_one_and_those_that_say_nothing_are_left_out() -> None:
    line = SetLine("1 BK", 2.5, True)
    over, under = SetLine("left-gully", 1.8, False), SetLine("place", 1.8, False)
    assert stack_of("left-gully", line, "place") == [over, line, under]
    assert stack_of("", line, "place") == [line, under]
    assert stack_of("", line, "") == [line]
    assert stack_of("over", SetLine("", 2.5, True), "") == [SetLine("over", 1.8, False)]
    # A cell that says nothing at all still has a line, as high as its column's.
    assert stack_of("", SetLine("", 2.5, True), "") == [SetLine("", 2.5, True)]


def test_a_stack_is_as_high_as_its_lines_and_what_is_between_them() -> None:
    assert stack_mm([SetLine("a", 2.5, True)]) == 2.5
    assert stack_mm([SetLine("a", 2, True)] * 3) == pytest.approx(2 + 2 * line_pitch_mm(2))
    # Letters reach 0.31 of the height below their line, and 0.3 mm more is clear before lines of another height.
    lines = [SetLine("a", 1.8, False), SetLine("b", 2.5, True), SetLine("c", 1.8, False)]
    assert stack_mm(lines) == pytest.approx(1.8 + 1.8 * 0.31 + 0.3 + 2.5 + 2.5 * 0.31 + 0.3 + 1.8)
    assert below_mm(lines) == pytest.approx(1.8 * 0.31)
    assert bases(lines)[-1] == pytest.approx(20 + stack_mm(lines))


def test_what_letters_reach_below_their_line_is_what_the_face_draws() -> None:
    for bold in (False, True):
        deepest = max(extent(letter, 1.0, bold).below_mm for letter in "gpqy")
        assert deepest == pytest.approx(below_mm([SetLine("g", 1.0, bold)]), abs=0.03)
