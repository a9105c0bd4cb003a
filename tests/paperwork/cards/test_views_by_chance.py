"""Views of shells made by chance, looked at as ink: what belongs to a contact stands at it, and nothing meets."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise

import pytest
from seen_views import AT, Case, Seen, apart_mm, box_of, case_by_chance, lopsided, roomy, views_of, views_of_all

from docgen.paperwork.typesetting.ink import Box, Circle, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import width_mm

NEAR_MM = 1e-6


@pytest.fixture(scope="module")
def cases() -> list[Case]:
    return [lopsided(1), lopsided(-1), roomy(2, 3), roomy(3, 2), *(case_by_chance(seed) for seed in range(60))]


@pytest.fixture(scope="module")
def views(cases: list[Case]) -> list[Seen]:
    return views_of_all(cases)


def near(*sides: float) -> object:
    return pytest.approx(sides, abs=NEAR_MM)


def near_to(value: float) -> object:
    return pytest.approx(value, abs=NEAR_MM)


def test_the_cases_are_of_all_sorts(cases: list[Case], views: list[Seen]) -> None:
    for words in ("true to size", "drawn 2 : 1", "drawn 3 : 1", "too tight for colours", "ring: spare"):
        assert any(words in case.said for case in cases), words
    assert any(view.dots for view in views)
    assert any(isinstance(ink, Line) for view in views for ink in view.ink)


def test_each_contact_has_its_number_or_a_dot_at_its_place_true_to_the_stated_scale(views: list[Seen]) -> None:
    for view in views:
        places = list(view.places.values())
        if view.dots:
            assert [near(dot.x_mm, dot.y_mm) for dot in view.dots] == places, view.case.name
        else:
            assert list(view.numbers) == list(view.at)
            middles = [(text.x_mm, text.y_mm - text.height_mm / 2) for text in view.numbers.values()]
            assert [near(*middle) for middle in middles] == places, view.case.name
            assert all(text.bold and text.align == "centre" for text in view.numbers.values())


def test_letters_are_those_of_the_wire_in_line_with_their_number_from_the_top_down(views: list[Seen]) -> None:
    for view in (view for view in views if "too tight" not in view.case.said):
        for name, (x, y) in view.places.items():
            texts = view.texts_at(name)
            words = " ".join(text.text for text in texts).split(" ")
            assert "".join(words) == name + view.case.colours[name], (view.case.name, name)
            letters = [text for text in texts if not text.bold]
            assert [text.y_mm for text in letters] == sorted(text.y_mm for text in letters)
            in_line = all(text.x_mm == near_to(x) for text in letters)
            level = len(letters) == 1 and letters[0].y_mm - letters[0].height_mm / 2 == near_to(y)
            assert in_line or level, (view.case.name, name)


def test_a_spare_contact_has_a_ring_instead_of_letters_unless_its_number_stands_outside(views: list[Seen]) -> None:
    for view in views:
        said = view.case.said
        rings = {name: ink for name, ink in view.of_contacts if isinstance(ink, Circle) and ink.fill is None}
        spare = [name for name, colour in view.case.colours.items() if not colour]
        shows = "too tight" not in said and not view.dots
        assert list(rings) == (spare if shows else []), view.case.name
        assert ("ring: spare" in said) == bool(spare and shows)
        assert ("no letters: spare" in said) == bool(spare and view.dots and "too tight" not in said)
        for name, ring in rings.items():
            x, y = view.places[name]
            assert abs(ring.x_mm - x) < NEAR_MM or abs(ring.y_mm - y) < NEAR_MM
            # A third of the height of letters, of which two are in use.
            assert ring.radius_mm in (near_to(2.5 / 3), near_to(1.8 / 3))


def test_contact_1_alone_has_a_square_around_it_clear_of_what_is_in_it_and_of_its_letters(views: list[Seen]) -> None:
    for view in views:
        x, y = view.places["1"]
        square = view.square
        assert (square.x_mm + square.width_mm / 2, square.y_mm + square.height_mm / 2) == near(x, y)
        assert all(len(ink.points_mm) == 4 for ink in view.ink[1:] if isinstance(ink, Shape))
        if view.dots:
            assert (square.width_mm, square.height_mm) == near(1.4, 1.4)
            assert {dot.radius_mm for dot in view.dots} == {0.35}
        else:
            number = view.numbers["1"]
            # Above and below it is 0.4 of the way to the letters, 0.7 mm or close together 0.5; it is wider only for
            # a number that is wider than high, by half a millimetre at either side.
            over = (square.height_mm - number.height_mm) / 2
            assert min(abs(over - 0.4 * away) for away in (0.7, 0.5)) < NEAR_MM
            ink_mm = width_mm(number.text, number.height_mm, True) - 2 * 0.06 * number.height_mm
            assert square.width_mm == near_to(max(square.height_mm, ink_mm + 1.0))
        for text in (text for text in view.texts_at("1") if not text.bold):
            assert max(apart_mm(box_of(text), square)) > 0.2, view.case.name


def test_the_key_stands_at_its_side_in_the_middle_of_the_outline_s(views: list[Seen]) -> None:
    for view in views:
        assert len(view.keys) == (view.key is not None)
        for key in view.keys:
            across, down = key.x_mm + key.width_mm / 2 - view.middle[0], key.y_mm + key.height_mm / 2 - view.middle[1]
            axis, gap, is_there = {
                "up": (0, key.bottom_mm - view.outline.y_mm, down < 0),
                "down": (0, key.y_mm - view.outline.bottom_mm, down > 0),
                "left": (1, key.right_mm - view.outline.x_mm, across < 0),
                "right": (1, key.x_mm - view.outline.right_mm, across > 0),
            }[view.key or ""]
            assert is_there
            assert (gap, (across, down)[axis]) == near(0, 0)


def test_a_tooth_is_4_mm_wide_and_1_6_mm_deep_and_a_d_s_wide_side_is_solid(views: list[Seen]) -> None:
    for view in views:
        for key in view.keys:
            level, side = view.key in ("up", "down"), view.outline
            along, across = (key.width_mm, key.height_mm) if level else (key.height_mm, key.width_mm)
            is_d = view.case.view.shape == "D"
            wide = (side.width_mm if level else side.height_mm) if is_d else 4.0
            assert (along, across) == near(wide, 0.8 if is_d else 1.6)


def test_a_d_is_narrower_away_from_its_key_by_0_18_of_its_height_at_each_end(views: list[Seen]) -> None:
    seen = 0
    for view in (view for view in views if view.case.view.shape == "D"):
        outline = view.ink[0]
        assert isinstance(outline, Shape)
        axis = 1 if view.key in ("up", "down") else 0
        ends = sorted(outline.points_mm, key=lambda corner: corner[axis])
        at_key, away = (ends[:2], ends[2:]) if view.key in ("up", "left") else (ends[2:], ends[:2])
        wide, narrow = (sorted(corner[1 - axis] for corner in pair) for pair in (at_key, away))
        deep = (view.outline.height_mm, view.outline.width_mm)[1 - axis]
        # One that is deeper than wide is half as wide there.
        step = min(0.18 * deep, (wide[1] - wide[0]) / 4)
        assert (narrow[0] - wide[0], wide[1] - narrow[1]) == near(step, step)
        seen += step < (wide[1] - wide[0]) / 4
    assert seen


def own_reach_mm(view: Seen, name: str, across: bool) -> float:
    """Return how far what is on a contact reaches from its middle: a dot twice, the square, or its number's ink."""
    if view.dots:
        return 0.7
    number = view.numbers[name]
    if not across:
        return number.height_mm / 2
    return (
        view.square.width_mm / 2
        if name == "1"
        else width_mm(number.text, number.height_mm, True) / 2 - 0.06 * number.height_mm
    )


def beside_contacts(view: Seen) -> Iterator[tuple[str, str, Box]]:
    """Walk what stands beside each contact, letters or a ring: on which side, and the box around it."""
    found: dict[str, list[Box]] = {}
    for name, ink in view.of_contacts:
        is_on_it = ink in view.dots or (isinstance(ink, Text) and ink.bold and not view.dots)
        if isinstance(ink, Text | Circle) and not is_on_it:
            found.setdefault(name, []).append(box_of(ink))
    for name, boxes in found.items():
        left, top = min(box.x_mm for box in boxes), min(box.y_mm for box in boxes)
        around = Box(left, top, max(box.right_mm for box in boxes) - left, max(box.bottom_mm for box in boxes) - top)
        x, y = view.places[name]
        across, down = left + around.width_mm / 2 - x, top + around.height_mm / 2 - y
        level = abs(across) > abs(down)
        yield name, (("left", "right")[across > 0] if level else ("up", "down")[down > 0]), around


def test_letters_are_0_7_mm_from_their_number_or_outside_from_the_outline_or_key_and_from_tier_to_tier(
    views: list[Seen],
) -> None:
    seen: set[tuple[str, int]] = set()
    for view in (view for view in views if "too tight" not in view.case.said):
        height = next((ink.height_mm for ink in view.ink if isinstance(ink, Text) and not ink.bold), 1.8)
        for name, side, box in beside_contacts(view):
            (x, y), out = view.places[name], view.outline
            from_number, from_outline = {
                "up": (y - box.bottom_mm, out.y_mm - box.bottom_mm),
                "down": (box.y_mm - y, box.y_mm - out.bottom_mm),
                "left": (x - box.right_mm, out.x_mm - box.right_mm),
                "right": (box.x_mm - x, box.x_mm - out.right_mm),
            }[side]
            across = side in ("left", "right")
            bearing = 0.06 * height if across and view.case.colours[name] else 0.0  # blank beside a text's ink
            if from_outline < 0:
                away = from_number - own_reach_mm(view, name, across) + bearing
                # Close together they are 0.5 mm apart.
                assert min(abs(away - usual) for usual in (0.7, 0.5)) < 0.01, (view.case.name, name)
                seen.add((side, 0))
                continue
            # Tiers are as far apart as a striped wire's letters need, and its number where that stands outside.
            lines = 3 if view.dots else 2
            longest = (8 if view.dots else 5) * height if across else lines * (height + 0.5) - 0.5
            key = 1.6 if view.key == side else 0.0
            tier = (from_outline - key - 0.7 + bearing) / (longest + 0.7)
            assert abs(tier - round(tier)) < 0.01, (view.case.name, name, side, tier)
            assert round(tier) in (0, 1, 2)
            seen.add((side, 1 + round(tier)))
    assert {(side, tier) for side in ("up", "down", "left", "right") for tier in (0, 1)} <= seen


def test_what_belongs_to_different_contacts_does_not_meet(views: list[Seen]) -> None:
    for view in (view for view in views if "too tight for numbers" not in view.case.said):
        for (one, box), (other, beside) in combinations(view.boxes(), 2):
            across, down = apart_mm(box, beside)
            assert one == other or across > 0.1 or down > 0.3, (view.case.name, one, other)


def test_what_is_at_contacts_is_within_the_outline_or_beyond_it_and_the_key(views: list[Seen]) -> None:
    for view in views:
        out = view.outline
        for name, box in view.boxes():
            corners = [(x, y) for x in (box.x_mm, box.right_mm) for y in (box.y_mm, box.bottom_mm)]
            if view.case.view.shape == "round":
                within = all(math.dist(corner, view.middle) < out.width_mm / 2 for corner in corners)
            else:
                within = all(out.x_mm < x < out.right_mm and out.y_mm < y < out.bottom_mm for x, y in corners)
            clear = {
                "left": out.x_mm - box.right_mm,
                "right": box.x_mm - out.right_mm,
                "up": out.y_mm - box.bottom_mm,
                "down": box.y_mm - out.bottom_mm,
            }
            beyond = any(gap > 0.5 + (1.6 if side == view.key else 0.0) for side, gap in clear.items())
            assert within or beyond, (view.case.name, name)


def test_a_line_leads_from_a_contact_to_its_letters_outside_and_strikes_none_of_another(views: list[Seen]) -> None:
    for view in views:
        lines = [(name, ink) for name, ink in view.of_contacts if isinstance(ink, Line)]
        assert len({name for name, _ in lines}) == len(lines)
        for name, line in lines:
            (x, y), along = view.places[name], box_of(line)
            assert line.width_mm == 0.18
            assert (line.x1_mm, line.x2_mm) == near(x, x) or (line.y1_mm, line.y2_mm) == near(y, y)
            assert max(along.width_mm, along.height_mm) > 0
            # It begins 0.3 mm from what is on the contact, and ends as far before the letters.
            [(side, letters)] = [(side, box) for other, side, box in beside_contacts(view) if other == name]
            near_end, far_end = {
                "up": (y - along.bottom_mm, along.y_mm - letters.bottom_mm),
                "down": (along.y_mm - y, letters.y_mm - along.bottom_mm),
                "left": (x - along.right_mm, along.x_mm - letters.right_mm),
                "right": (along.x_mm - x, letters.x_mm - along.right_mm),
            }[side]
            assert near_end == near_to(own_reach_mm(view, name, side in ("left", "right")) + 0.3)
            height = next((ink.height_mm for ink in view.ink if isinstance(ink, Text) and not ink.bold), 1.8)
            assert far_end in (near_to(0.3), near_to(0.3 - 0.06 * height)), (view.case.name, name)
            for other, box in view.boxes():
                assert max(apart_mm(box, along)) > 0, (view.case.name, name, other)


def test_all_ink_is_in_the_block_headings_above_it_and_words_below_it(cases: list[Case]) -> None:
    for case in cases:
        views = list(views_of(case))
        of_views = [[box_of(ink) for ink in view.ink] for view in views]
        for box in map(box_of, case.ink):
            assert AT.x_mm - NEAR_MM <= box.x_mm
            assert box.right_mm <= AT.right_mm + NEAR_MM, case.name
            assert AT.y_mm - NEAR_MM <= box.y_mm
            assert box.bottom_mm <= AT.y_mm + sum(case.blocks_mm) + NEAR_MM
        lefts = [ink for ink in case.ink if isinstance(ink, Text) and ink.align == "left"]
        heads = [box_of(text) for text in lefts if text not in case.below]
        below = box_of(case.below[0])
        for box in (box for boxes in of_views for box in boxes):
            assert box.bottom_mm + 0.9 < below.y_mm, case.name
            assert all(max(apart_mm(head, box)) > 0 for head in heads), case.name
        if views[0].middle[1] == near_to(views[1].middle[1]):
            assert max(box.right_mm for box in of_views[0]) + 3.9 < min(box.x_mm for box in of_views[1]), case.name
        else:
            assert max(box.bottom_mm for box in of_views[0]) + 6 < min(box.y_mm for box in of_views[1]), case.name


def test_no_block_is_higher_than_what_a_card_has_left_but_for_words_below_the_second_of_two(cases: list[Case]) -> None:
    assert {len(case.blocks_mm) for case in cases} == {1, 2}
    for case in cases:
        first, *second = case.blocks_mm
        assert first <= case.height_mm + NEAR_MM, case.name
        assert all(block < first + 11 for block in second), case.name


def test_numbers_at_the_ends_of_rows_are_0_7_mm_from_the_outline_or_a_key_there(views: list[Seen]) -> None:
    seen = 0
    for view in (view for view in views if "too tight for numbers" in view.case.said):
        key = 1.6 if view.key in ("left", "right") else 0.0
        for number in view.numbers.values():
            box = box_of(number)
            gap = max(view.outline.x_mm - box.right_mm, box.x_mm - view.outline.right_mm)
            assert gap == near_to(0.7 + key)
            rows = [y for _, y in view.places.values()]
            assert min(abs(number.y_mm - number.height_mm / 2 - y) for y in rows) < 0.06
            seen += 1
    assert seen


def test_what_is_said_stands_1_mm_below_the_room_of_the_views_and_ends_as_far_above_the_end(cases: list[Case]) -> None:
    for case in cases:
        first, last = case.below[0], case.below[-1]
        steps = [below.y_mm - above.y_mm for above, below in pairwise(case.below)]
        assert steps == pytest.approx([1.55 * 1.8] * len(steps))
        # Lines of running text are 1.55 of their height apart, and 1 mm more is clear.
        assert AT.y_mm + sum(case.blocks_mm) - last.y_mm == near_to(0.55 * 1.8 + 1.0)
        assert {(text.x_mm, text.height_mm) for text in case.below} == {(AT.x_mm, 1.8)}
        *_, view = views_of(case)
        if view.case.view.has_outer_sides:
            # An outline has room for a key on each side and 0.5 mm; below all of it 1.6 mm are clear.
            low = max([view.outline.bottom_mm + 1.6 + 0.5, *(box.bottom_mm for _, box in view.boxes())])
            assert first.y_mm - 1.8 - low == near_to(1.6 + 1.0), case.name
