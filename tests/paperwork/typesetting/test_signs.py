"""Small drawings, looked at as ink: cautions, colours of wires, codes in a corner."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import pytest

from docgen.basics.colours import colour_rgb
from docgen.paperwork.page_kit.cautions import caution
from docgen.paperwork.typesetting.codes import code_side_mm
from docgen.paperwork.typesetting.ink import Box, Circle, Code, Ink, Line, Shape, Text
from docgen.paperwork.typesetting.swatches import strip, swatch, swatch_width_mm
from docgen.paperwork.typesetting.title_block import Corner, TitleBlock, corner_ink, corner_size
from docgen.paperwork.typesetting.typeface import line_pitch_mm, width_mm

Point = tuple[float, float]


def around(shape: Shape) -> Box:
    xs, ys = zip(*shape.points_mm, strict=True)
    return Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def is_box(shape: Shape) -> bool:
    box = around(shape)
    corners = {(x, y) for x in (box.x_mm, box.right_mm) for y in (box.y_mm, box.bottom_mm)}
    return set(shape.points_mm) == corners and len(shape.points_mm) == 4


def near(*box: float) -> object:
    return pytest.approx(box, abs=1e-6)


def middle(box: Box) -> Point:
    return box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2


# A caution: the general warning sign of ISO 7010 (W001) is an equilateral triangle that stands on a side, with an
# exclamation mark in it. How it stands in its frame is our own choice.


@pytest.mark.parametrize("count", [1, 2, 8])
def test_a_caution_is_framed_with_the_warning_triangle_before_its_words(count: int) -> None:
    text = " ".join(["Packs unplugged."] * (2 * count))
    block = caution(text, 60)
    box = Box(20, 30, 60, block.height_mm)
    ink = list(block.draw(box))
    frame, triangle = (one for one in ink if isinstance(one, Shape))
    assert is_box(frame)
    assert around(frame) == near(*box)
    assert (frame.fill, frame.colour) == (None, "#000000")
    assert frame.width_mm == triangle.width_mm == 0.5
    sides = [
        math.dist(one, other)
        for one, other in zip(triangle.points_mm, triangle.points_mm[1:] + triangle.points_mm[:1], strict=True)
    ]
    assert len(sides) == 3
    assert sides == pytest.approx([5.0] * 3, rel=0.02)
    whole = around(triangle)
    at_foot = [x for x, y in triangle.points_mm if y == whole.bottom_mm]
    [top] = [x for x, y in triangle.points_mm if y == whole.y_mm]
    assert sorted(at_foot) == [whole.x_mm, whole.right_mm]
    assert top == pytest.approx(middle(whole)[0])
    assert middle(whole)[1] == pytest.approx(middle(box)[1], abs=0.15)
    words = [one for one in ink if isinstance(one, Text)]
    assert whole.x_mm - box.x_mm == pytest.approx(words[0].x_mm - whole.right_mm, abs=0.01)
    assert block.height_mm >= whole.height_mm + 2


def test_the_warning_triangle_holds_an_exclamation_mark_on_its_axis() -> None:
    ink = list(caution("Packs unplugged.", 60).draw(Box(20, 30, 60, 7)))
    triangle = around([one for one in ink if isinstance(one, Shape)][1])
    [stem] = [one for one in ink if isinstance(one, Line)]
    [dot] = [one for one in ink if isinstance(one, Circle)]
    axis = middle(triangle)[0]
    assert (stem.x1_mm, stem.x2_mm, dot.x_mm) == near(axis, axis, axis)
    assert 2 * dot.radius_mm == pytest.approx(stem.width_mm, rel=0.15)
    assert (dot.fill, dot.colour, stem.colour) == ("#000000", None, "#000000")
    assert (stem.y1_mm - 33.5, stem.y2_mm - 33.5, dot.y_mm - 33.5, dot.radius_mm) == near(-0.9, 0.7, 1.45, 0.33)
    # From the top down: the tip, the stem, a gap that shows, the dot, the foot.
    gap = dot.y_mm - dot.radius_mm - stem.y2_mm
    assert 0.3 < gap < stem.width_mm < stem.y2_mm - stem.y1_mm
    # The stem is clear of the sides where it begins: they are apart by their share of the height from the tip.
    apart = 5 * (stem.y1_mm - triangle.y_mm) / triangle.height_mm
    assert apart - stem.width_mm > 0.8
    assert triangle.bottom_mm - dot.y_mm - dot.radius_mm > 0.25


@pytest.mark.parametrize("count", [1, 2, 8])
def test_the_words_of_a_caution_are_whole_within_its_frame_and_about_its_middle(count: int) -> None:
    text = " ".join(["Packs unplugged."] * (2 * count))
    block = caution(text, 60, 5.0, stays=True)
    assert (block.above_mm, block.stays) == (5.0, True)
    box = Box(20, 30, 60, block.height_mm)
    words = [one for one in block.draw(box) if isinstance(one, Text)]
    assert " ".join(line.text for line in words) == text
    assert (len(words) > 1) == (count > 1)
    assert {line.x_mm for line in words} == {words[0].x_mm}
    assert all(line.x_mm + width_mm(line.text, 1.8) <= box.right_mm - 2 for line in words)
    pitches = [other.y_mm - one.y_mm for one, other in pairwise(words)]
    assert pitches == pytest.approx([line_pitch_mm(1.8)] * len(pitches))
    top, foot = words[0].y_mm - 1.8 - box.y_mm, box.bottom_mm - words[-1].y_mm
    assert top == pytest.approx(foot)
    assert min(top, foot) > 1.2
    # A line is 1.55 of its height; the sign wants 7 mm.
    assert block.height_mm == pytest.approx(max(7.0, len(words) * 1.55 * 1.8 + 2.6))


# Colours of wires


@pytest.mark.parametrize("letters", ["BK", "WH", "WHRD", "GNYE"])
def test_the_letters_of_a_swatch_stand_in_the_middle_of_its_colour_and_a_stripe_beside_them(letters: str) -> None:
    shapes_and_text = swatch(letters, 20, 30, 1.8)
    [text] = [ink for ink in shapes_and_text if isinstance(ink, Text)]
    ground, *stripes = (ink for ink in shapes_and_text if isinstance(ink, Shape))
    box = around(ground)
    assert all(is_box(shape) for shape in (ground, *stripes))
    assert shapes_and_text.index(text) > max(shapes_and_text.index(shape) for shape in (ground, *stripes))
    assert ground.fill == colour_rgb(letters[:2])
    assert [stripe.fill for stripe in stripes] == ([colour_rgb(letters[2:])] if letters[2:] else [])
    assert (box.x_mm, box.width_mm) == near(20, swatch_width_mm(letters, 1.8))
    assert middle(box)[1] == pytest.approx(30)
    assert (text.text, text.height_mm, text.bold, text.align) == (letters, 1.8, True, "left")
    assert text.y_mm - 1.8 / 2 == pytest.approx(30)
    assert box.height_mm == pytest.approx(1.8 + 2 * 0.7)
    ends = text.x_mm + width_mm(letters, 1.8, True)
    free = [stripe.points_mm[0][0] for stripe in stripes] or [box.right_mm]
    assert text.x_mm - box.x_mm == pytest.approx(0.8)
    assert free[0] - ends >= 0.8 - 1e-6
    for band in map(around, stripes):
        assert (band.y_mm, band.height_mm) == near(box.y_mm, box.height_mm)
        assert 0.6 < band.width_mm < 1.2
        # The first colour shows on either side of the stripe.
        assert box.right_mm - band.right_mm == pytest.approx(0.7)


STRIP_AT = Box(20, 30, 6, 8)


def areas(ink: Sequence[Ink]) -> list[tuple[str | None, Box]]:
    shapes = [one for one in ink if isinstance(one, Shape)]
    assert all(is_box(shape) and shape.colour is None for shape in shapes)
    return [(shape.fill, around(shape)) for shape in shapes]


def test_wires_share_a_strip_in_equal_parts_and_a_stripe_is_the_middle_third_of_its_own() -> None:
    (one, left), (two, right), (stripe, band) = areas(strip("RD+WHBK", STRIP_AT))
    assert (one, two, stripe) == (colour_rgb("RD"), colour_rgb("WH"), colour_rgb("BK"))
    assert left == near(20, 30, 3, 8)
    assert right == near(23, 30, 3, 8)
    assert band == near(24, 30, 1, 8)


def test_a_strip_has_a_line_along_each_colour_and_across_where_it_opens_or_closes() -> None:
    for opens in (False, True):
        for closes in (False, True):
            ink = strip("RD+WHBK", STRIP_AT, opens=opens, closes=closes)
            lines = [(one.x1_mm, one.y1_mm, one.x2_mm, one.y2_mm) for one in ink if isinstance(one, Line)]
            upright = sorted({line[0] for line in lines if line[0] == line[2]})
            assert upright == pytest.approx([20, 23, 24, 25, 26])
            assert all((line[1], line[3]) == (30, 38) for line in lines if line[0] == line[2])
            across = [line for line in lines if line[0] != line[2]]
            assert across == [(20, y, 26, y) for y, is_there in ((30, opens), (38, closes)) if is_there]
            assert all(one.width_mm == 0.18 for one in ink if isinstance(one, Line))


def test_a_wire_without_a_colour_leaves_its_part_of_a_strip_empty() -> None:
    [(fill, box)] = areas(strip("+RD", STRIP_AT))
    assert (fill, box) == (colour_rgb("RD"), near(23, 30, 3, 8))


# The code in a corner


def test_a_code_has_its_quiet_zone_around_it_and_its_caption_in_the_middle_below() -> None:
    corner = Corner("https://hangar.example/wren/record/disconnect-left-root.txt", "this joint in the record")
    wide, high = corner_size(corner)
    [code, *caption] = corner_ink(corner, 20, 30)
    assert isinstance(code, Code)
    assert code.says == corner.text
    # Four modules of quiet zone (ISO/IEC 18004), of 0.5 mm.
    assert (code.x_mm, code.y_mm, code.module_mm) == (22, 32, 0.5)
    assert wide == len(code.rows) * 0.5 + 4 == code_side_mm(code.rows)
    lines = [ink for ink in caption if isinstance(ink, Text)]
    assert " ".join(line.text for line in lines) == corner.caption
    for number, line in enumerate(lines):
        assert (line.x_mm, line.align, line.height_mm) == (20 + wide / 2, "centre", 1.5)
        assert line.y_mm == pytest.approx(30 + wide + 1.5 + number * line_pitch_mm(1.5))
        assert width_mm(line.text, 1.5) <= wide
    assert lines[-1].y_mm < 30 + high < lines[-1].y_mm + line_pitch_mm(1.5)


def test_no_code_takes_no_room() -> None:
    assert corner_size(None) == (0, 0)


@pytest.mark.parametrize("record", ["https://hangar.example/wren", "https://hangar.example/wren/"])
def test_a_link_leads_below_the_place_of_the_record(record: str) -> None:
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", record, "0123abcd")
    assert block.link("record.txt") == "https://hangar.example/wren/record.txt"


def test_without_a_place_on_the_web_there_is_no_link_and_without_a_date_the_state_is_the_issue() -> None:
    block = TitleBlock("Wren", "WR-7", "draft", "", None, "0123abcd")
    assert (block.link("record.txt"), block.state) == (None, "draft")
    assert TitleBlock("Wren", "WR-7", "issue A", "2026-01-01", None, "").state == "issue A · 2026-01-01"
