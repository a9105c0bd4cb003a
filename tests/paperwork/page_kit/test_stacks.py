"""Lines below each other stand where their heights and gaps say, and each gap is worked out once."""

from __future__ import annotations

import pytest

from docgen.paperwork.page_kit import stacks
from docgen.paperwork.page_kit.stacks import SetLine, set_lines
from docgen.paperwork.typesetting.ink import Box, Text
from docgen.paperwork.typesetting.typeface import line_pitch_mm

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
