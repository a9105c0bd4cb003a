"""Marks in cells, looked at as ink: in the middle of their row, within their column, beside what they say."""

from __future__ import annotations

import pytest

from docgen.paperwork.page_kit.cells import Bracket, Field, Mark, Swatch, Tick
from docgen.paperwork.typesetting.ink import Box, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import line_pitch_mm, width_mm

AT = Box(20, 30, 40, 9)
ROW_MIDDLE_MM = 34.5


def box_of(mark: Mark, at: Box = AT) -> Box:
    """Return the only box that is drawn, of four corners."""
    [shape] = [ink for ink in mark.draw(at) if isinstance(ink, Shape)]
    xs, ys = zip(*shape.points_mm, strict=True)
    assert set(shape.points_mm) == {(x, y) for x in xs for y in ys}
    assert len(shape.points_mm) == 4
    return Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def texts_of(mark: Mark) -> list[Text]:
    return [ink for ink in mark.draw(AT) if isinstance(ink, Text)]


@pytest.mark.parametrize("tick", [Tick(), Tick("1480"), Tick("1480", "22 AWG"), Tick("", "22 AWG")])
def test_a_box_to_tick_is_4_mm_in_the_middle_of_its_row_and_says_beside_it_what_it_is_for(tick: Tick) -> None:
    assert box_of(tick) == (20, ROW_MIDDLE_MM - 2, 4, 4)
    lines = texts_of(tick)
    said = [text for text in (tick.says, tick.under) if text]
    assert [(line.text, line.height_mm, line.bold, line.align) for line in lines] == [
        (text, 1.8, False, "left") for text in said
    ]
    # 1 mm right of the box.
    assert {line.x_mm for line in lines} <= {25}
    if lines:
        middle = (lines[0].y_mm - 1.8 + lines[-1].y_mm) / 2
        assert middle == pytest.approx(ROW_MIDDLE_MM)
        assert lines[-1].y_mm - lines[0].y_mm == pytest.approx(line_pitch_mm(1.8) * (len(lines) - 1))
    widest = max((width_mm(text, 1.8) for text in said), default=0)
    assert tick.natural_mm == pytest.approx(5 + widest if said else 4)


@pytest.mark.parametrize(("row_mm", "high"), [(5.0, 3.6), (6.0, 4.6), (7.0, 5.6), (20.0, 5.6)])
def test_a_field_is_clear_of_its_row_s_edges_and_no_higher_than_one_writes(row_mm: float, high: float) -> None:
    assert box_of(Field(14), Box(20, 30, 40, row_mm)) == pytest.approx((20, 30 + (row_mm - high) / 2, 14, high))
    assert Field(14).natural_mm == 14
    assert Field().natural_mm == 18


def test_a_swatch_stands_at_the_left_in_the_middle_of_its_row_and_without_letters_there_is_none() -> None:
    box = box_of(Swatch("BK"))
    assert (box.x_mm, box.width_mm) == pytest.approx((20, Swatch("BK").natural_mm))
    assert box.y_mm + box.height_mm / 2 == pytest.approx(ROW_MIDDLE_MM)
    assert [text.text for text in texts_of(Swatch("BK"))] == ["BK"]
    assert Swatch("BK").natural_mm > width_mm("BK", 1.8, True) + 1
    assert (Swatch("").draw(AT), Swatch("").natural_mm) == ([], 0)


@pytest.mark.parametrize("opens", [False, True])
@pytest.mark.parametrize("closes", [False, True])
def test_a_row_s_part_of_a_bracket_goes_on_to_the_rows_that_belong_to_it(opens: bool, closes: bool) -> None:
    lines = [ink for ink in Bracket(opens, closes).draw(AT) if isinstance(ink, Line)]
    upright, *ends = ((line.x1_mm, line.y1_mm, line.x2_mm, line.y2_mm) for line in lines)
    top, bottom = 30 + (0.8 if opens else 0), 39 - (0.8 if closes else 0)
    assert upright == pytest.approx((21.2, top, 21.2, bottom))
    expected = [y for y, is_end in ((top, opens), (bottom, closes)) if is_end]
    assert ends == [pytest.approx((20, y, 21.2, y)) for y in expected]
    assert Bracket(opens, closes).natural_mm == 1.2
