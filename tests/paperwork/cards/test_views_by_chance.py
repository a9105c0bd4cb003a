"""Views of shells made by chance, looked at as ink: what belongs to a contact stands at it, and nothing meets."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations
from random import Random
from typing import NamedTuple

import pytest

from docgen.paperwork.cards.view_letters import ViewContact
from docgen.paperwork.cards.view_pair import ViewsOf, views_block
from docgen.paperwork.cards.views import View
from docgen.paperwork.typesetting.ink import Box, Circle, Ink, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import width_mm

WIDTH_MM = 85.0
AT = Box(7, 11, WIDTH_MM, 0)
COLOURS = ("", "", "BK", "RD", "WH", "GNYE", "WHRD")
KEYS = ("up", "down", "left", "right")
MIRRORED = {"left": "right", "right": "left"}
NEAR_MM = 1e-6


class Case(NamedTuple):
    """A shell as it is seen, what its contacts carry, the heights that a card has left, and the ink."""

    name: str
    view: View
    colours: dict[str, str]
    height_mm: float
    block_mm: float
    ink: list[Ink]


def view_by_chance(dice: Random) -> View:
    """Return rows of contacts, some of them left out or shifted, on an outline that has room for them."""
    rows, columns = dice.choice([(1, 3), (2, 3), (2, 7), (3, 4), (4, 2), (6, 1), (2, 12), (3, 8), (1, 9)])
    across, down = dice.choice([2.5, 2.77, 4.0, 5.0, 8.0]), dice.choice([2.84, 4.0, 5.0, 8.0])
    shift = dice.choice([0.0, across / 2])
    names = iter(range(1, 100))
    at = {
        str(next(names)): (column * across + shift * (row % 2), -row * down)
        for row in range(rows)
        for column in range(columns - (row % 2 if shift else 0))
    }
    right, up = ([place[axis] for place in at.values()] for axis in (0, 1))
    off = dice.choice([0.0, 1.5]), dice.choice([0.0, 1.5])  # contacts stand in no shell's middle of necessity
    middle = (min(right) + max(right)) / 2 + off[0], (min(up) + max(up)) / 2 + off[1]
    at = {name: (x - middle[0], y - middle[1]) for name, (x, y) in at.items()}
    rim = dice.choice([0.0, 0.0, 9.0])
    outline = max(right) - min(right) + across + 2 * off[0] + rim, max(up) - min(up) + down + 2 * off[1] + rim
    shape = dice.choice(["rectangle", "rectangle", "D", "round"])
    if shape == "round":
        outline = (math.hypot(*outline),) * 2
    if max(outline) > WIDTH_MM - 5:  # what fits no card is refused
        return view_by_chance(dice)
    return View(at, outline, dice.choice(KEYS) if shape != "rectangle" else dice.choice([*KEYS, None]), shape)


def case_by_chance(seed: int) -> Case:
    dice = Random(seed)
    view = view_by_chance(dice)
    colours = {name: dice.choice(COLOURS) for name in view.at_mm}
    return case_of(f"seed {seed}", view, colours, dice.choice([60.0, 80.0, 110.0]))


def case_of(name: str, view: View, colours: dict[str, str], height_mm: float) -> Case:
    contacts = {name: ViewContact(name, colour, name == "1") for name, colour in colours.items()}
    wires = View(mirrored(view.at_mm), view.outline_mm, MIRRORED.get(view.key or "", view.key), view.shape)
    block = views_block(ViewsOf([(view, wires)] * 2, contacts, "the way", True), WIDTH_MM, height_mm, anyhow=True)
    assert block is not None
    ink = list(block.draw(AT._replace(height_mm=block.height_mm)))
    return Case(name, view, colours, height_mm, block.height_mm, ink)


def lopsided(side: float) -> Case:
    """Return two columns at the ends of a wide outline: long letters beside one of them, rings beside the other."""
    at = {str(1 + row): (15.0 * side, 5.0 - 5.0 * row) for row in range(3)}
    at |= {str(4 + row): (-15.0 * side, 5.0 - 5.0 * row) for row in range(3)}
    return case_of(
        f"lopsided {side}", View(at, (34.0, 16.0), None), dict.fromkeys("123", "GNYE") | dict.fromkeys("456", ""), 110.0
    )


def roomy(rows: int, columns: int) -> Case:
    """Return rows and columns 8 mm apart with as much around them, so that letters stand beside their numbers."""
    at = {
        str(row * columns + column + 1): (8.0 * column - 4.0 * (columns - 1), 4.0 * (rows - 1) - 8.0 * row)
        for row in range(rows)
        for column in range(columns)
    }
    outline = 8.0 * columns + 12, 8.0 * rows + 12
    colours = {name: COLOURS[1 + int(name) % 6] for name in at}
    return case_of(f"roomy {rows} {columns}", View(at, outline, "up"), colours, 110.0)


def mirrored(at: dict[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    return {name: (-right, up) for name, (right, up) in at.items()}


@pytest.fixture(scope="module")
def cases() -> list[Case]:
    return [lopsided(1), lopsided(-1), roomy(2, 3), roomy(3, 2), *(case_by_chance(seed) for seed in range(60))]


class Seen(NamedTuple):
    """One view: where contacts should be, the middle and box of its outline, its key and what is at contacts."""

    case: Case
    at: dict[str, tuple[float, float]]
    outline: Box
    ink: list[Ink]
    key: str | None

    @property
    def middle(self) -> tuple[float, float]:
        return self.outline.x_mm + self.outline.width_mm / 2, self.outline.y_mm + self.outline.height_mm / 2


def said_below(case: Case) -> list[Text]:
    texts = [ink for ink in case.ink if isinstance(ink, Text)]
    last = max(i for i, text in enumerate(texts) if text.align == "centre")
    return texts[last + 1 :]


def scale_of(case: Case) -> int:
    said = " ".join(text.text for text in said_below(case))
    return 1 if "true to size" in said else int(said.partition("drawn ")[2][0])


def box_of(ink: Ink) -> Box:
    """Return the box of ink, of a text from the height of its capitals to its base line."""
    if isinstance(ink, Text):
        wide = width_mm(ink.text, ink.height_mm, ink.bold)
        left = ink.x_mm - {"left": 0, "centre": wide / 2, "right": wide}[ink.align]
        return Box(left, ink.y_mm - ink.height_mm, wide, ink.height_mm)
    if isinstance(ink, Circle):
        return Box(ink.x_mm - ink.radius_mm, ink.y_mm - ink.radius_mm, 2 * ink.radius_mm, 2 * ink.radius_mm)
    assert isinstance(ink, Line | Shape)
    points = ink.points_mm if isinstance(ink, Shape) else ((ink.x1_mm, ink.y1_mm), (ink.x2_mm, ink.y2_mm))
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def views_of(case: Case) -> Iterator[Seen]:
    """Walk the two views: what follows the heading of each, up to what is said below."""
    headings = [
        i for i, ink in enumerate(case.ink) if isinstance(ink, Text) and ink.text in ("Mating face", "Wire side")
    ]
    ends = headings[1] - 4, len(case.ink) - len(said_below(case))  # before the second heading stands an eye
    width, height = (side * scale_of(case) for side in case.view.outline_mm)
    sides = (
        (case.view.at_mm, case.view.key),
        (mirrored(case.view.at_mm), MIRRORED.get(case.view.key or "", case.view.key)),
    )
    for begin, end, (at, key) in zip(headings, ends, sides, strict=True):
        ink = case.ink[begin:end]
        first = next(i for i, one in enumerate(ink) if isinstance(one, Shape | Circle))
        outline = box_of(ink[first])
        assert (outline.width_mm, outline.height_mm) == pytest.approx((width, height))
        yield Seen(case, at, outline, ink[first:], key)


def all_views(cases: Sequence[Case]) -> list[Seen]:
    return [view for case in cases for view in views_of(case)]


def numbers(view: Seen) -> dict[str, Text]:
    return {ink.text.split(" ")[0]: ink for ink in view.ink if isinstance(ink, Text) and ink.text[0].isdigit()}


def dots(view: Seen) -> list[tuple[float, float]]:
    return [(ink.x_mm, ink.y_mm) for ink in view.ink[1:] if isinstance(ink, Circle) and ink.fill == "#000000"]


def texts_at(view: Seen, name: str) -> list[Text]:
    """Return all texts that follow a contact's place, in the order of writing."""
    found: list[Text] = []
    current = -1
    names = list(view.at)
    for ink in view.ink[1:]:
        begins = (isinstance(ink, Text) and ink.text[0].isdigit() and not dots(view)) or (
            isinstance(ink, Circle) and ink.fill == "#000000"
        )
        current += begins
        if isinstance(ink, Text) and names[min(current, len(names) - 1)] == name:
            found.append(ink)
    return found


def near(*sides: float) -> object:
    return pytest.approx(sides, abs=NEAR_MM)


def test_the_cases_are_of_all_sorts(cases: list[Case]) -> None:
    said = [" ".join(text.text for text in said_below(case)) for case in cases]
    for words in ("true to size", "drawn 2 : 1", "drawn 3 : 1", "too tight for colours", "ring: spare"):
        assert any(words in each for each in said), words
    assert any(dots(view) for view in all_views(cases))
    assert any(isinstance(ink, Line) for view in all_views(cases) for ink in view.ink)


def test_each_contact_has_its_number_or_a_dot_at_its_place_true_to_the_stated_scale(cases: list[Case]) -> None:
    for view in all_views(cases):
        scale, (x, y) = scale_of(view.case), view.middle
        places = [(x + right * scale, y - up * scale) for right, up in view.at.values()]
        if dots(view):
            assert [near(*dot) for dot in dots(view)] == places, view.case.name
        else:
            found = numbers(view)
            assert list(found) == list(view.at)
            middles = [(text.x_mm, text.y_mm - text.height_mm / 2) for text in found.values()]
            assert [near(*middle) for middle in middles] == places, view.case.name
            assert all(text.bold and text.align == "centre" for text in found.values())


def test_letters_are_those_of_the_wire_in_line_with_their_number_from_the_top_down(cases: list[Case]) -> None:
    for view in all_views(cases):
        if "too tight" in " ".join(text.text for text in said_below(view.case)):
            continue
        for name, (right, up) in view.at.items():
            colour = view.case.colours[name]
            x, y = view.middle[0] + right * scale_of(view.case), view.middle[1] - up * scale_of(view.case)
            texts = texts_at(view, name)
            words = " ".join(text.text for text in texts).split(" ")
            assert "".join(words) == name + colour, (view.case.name, name)
            letters = [text for text in texts if not text.bold]
            assert [text.y_mm for text in letters] == sorted(text.y_mm for text in letters)
            in_line = all(text.x_mm == near_to(x) for text in letters)
            level = len(letters) == 1 and letters[0].y_mm - letters[0].height_mm / 2 == near_to(y)
            assert in_line or level, (view.case.name, name)


def near_to(value: float) -> object:
    return pytest.approx(value, abs=NEAR_MM)


def test_a_spare_contact_has_a_ring_instead_of_letters_unless_its_number_stands_outside(cases: list[Case]) -> None:
    for view in all_views(cases):
        said = " ".join(text.text for text in said_below(view.case))
        rings = [ink for ink in view.ink[1:] if isinstance(ink, Circle) and ink.fill is None]
        spare = [name for name, colour in view.case.colours.items() if not colour]
        shows = "too tight" not in said and not dots(view)
        assert len(rings) == (len(spare) if shows else 0), view.case.name
        assert ("ring: spare" in said) == bool(spare and shows)
        assert ("no letters: spare" in said) == bool(spare and dots(view) and "too tight" not in said)
        for name, ring in zip(spare, rings, strict=False):
            x = view.middle[0] + view.at[name][0] * scale_of(view.case)
            y = view.middle[1] - view.at[name][1] * scale_of(view.case)
            assert abs(ring.x_mm - x) < NEAR_MM or abs(ring.y_mm - y) < NEAR_MM


def test_contact_1_alone_has_a_square_around_it_clear_of_what_is_in_it(cases: list[Case]) -> None:
    for view in all_views(cases):
        x, y = (view.middle[axis] + (1, -1)[axis] * view.at["1"][axis] * scale_of(view.case) for axis in (0, 1))
        # The outline comes first, a key is filled.
        squares = [box_of(ink) for ink in view.ink[1:] if isinstance(ink, Shape) and ink.fill is None]
        [square] = squares
        assert (square.x_mm + square.width_mm / 2, square.y_mm + square.height_mm / 2) == near(x, y)
        assert all(len(ink.points_mm) == 4 for ink in view.ink[1:] if isinstance(ink, Shape))
        inside = box_of(numbers(view)["1"]) if not dots(view) else Box(x - 0.35, y - 0.35, 0.7, 0.7)
        assert (square.width_mm - inside.width_mm) / 2 > 0.25
        assert (square.height_mm - inside.height_mm) / 2 > 0.15
        for box in (box_of(text) for text in texts_at(view, "1") if not text.bold):
            across = max(box.x_mm, square.x_mm) - min(box.right_mm, square.right_mm)
            down = max(box.y_mm, square.y_mm) - min(box.bottom_mm, square.bottom_mm)
            assert max(across, down) > 0.2, view.case.name


def test_the_key_stands_at_its_side_in_the_middle_of_the_outline_s(cases: list[Case]) -> None:
    for view in all_views(cases):
        keys = [box_of(ink) for ink in view.ink[1:] if isinstance(ink, Shape) and ink.fill == "#000000"]
        assert len(keys) == (view.key is not None)
        for key in keys:
            across, down = key.x_mm + key.width_mm / 2 - view.middle[0], key.y_mm + key.height_mm / 2 - view.middle[1]
            sides = {
                "up": (0, key.bottom_mm - view.outline.y_mm, down < 0),
                "down": (0, key.y_mm - view.outline.bottom_mm, down > 0),
                "left": (1, key.right_mm - view.outline.x_mm, across < 0),
                "right": (1, key.x_mm - view.outline.right_mm, across > 0),
            }
            axis, gap, is_there = sides[view.key or ""]
            assert is_there
            assert (gap, (across, down)[axis]) == near(0, 0)


def test_a_tooth_is_4_mm_wide_and_1_6_mm_deep_and_a_d_s_wide_side_is_solid(cases: list[Case]) -> None:
    for view in all_views(cases):
        for key in (box_of(ink) for ink in view.ink[1:] if isinstance(ink, Shape) and ink.fill == "#000000"):
            level, side = view.key in ("up", "down"), view.outline
            along, across = (key.width_mm, key.height_mm) if level else (key.height_mm, key.width_mm)
            is_d = view.case.view.shape == "D"
            wide = (side.width_mm if level else side.height_mm) if is_d else 4.0
            assert (along, across) == near(wide, 0.8 if is_d else 1.6)


def test_a_d_is_narrower_away_from_its_key_by_0_18_of_its_height_at_each_end(cases: list[Case]) -> None:
    seen = 0
    for view in all_views(cases):
        if view.case.view.shape != "D":
            continue
        outline = view.ink[0]
        assert isinstance(outline, Shape)
        axis = 1 if view.key in ("up", "down") else 0
        ends = sorted(outline.points_mm, key=lambda corner: corner[axis])
        near_key, away = (ends[:2], ends[2:]) if view.key in ("up", "left") else (ends[2:], ends[:2])
        wide, narrow = (sorted(corner[1 - axis] for corner in pair) for pair in (near_key, away))
        deep = (view.outline.height_mm, view.outline.width_mm)[1 - axis]
        step = min(0.18 * deep, (wide[1] - wide[0]) / 4)
        assert (narrow[0] - wide[0], wide[1] - narrow[1]) == near(step, step)
        seen += step < (wide[1] - wide[0]) / 4
    assert seen


def own_reach_mm(view: Seen, name: str, across: bool) -> float:
    """Return how far what is on a contact reaches from its middle: a dot twice, the square, or its number's ink."""
    if dots(view):
        return 0.7
    number = numbers(view)[name]
    if not across:
        return number.height_mm / 2
    if name == "1":
        square = next(box_of(ink) for ink in view.ink[1:] if isinstance(ink, Shape) and ink.fill is None)
        return square.width_mm / 2
    return width_mm(number.text, number.height_mm, True) / 2 - 0.06 * number.height_mm


def beside_contacts(view: Seen) -> Iterator[tuple[str, str, Box]]:
    """Walk what stands beside each contact, letters or a ring: on which side, and the box around it."""
    names = list(view.at)
    found: dict[str, list[Box]] = {}
    current = -1
    for ink in view.ink[1:]:
        is_dot = isinstance(ink, Circle) and ink.fill == "#000000"
        begins = is_dot or (isinstance(ink, Text) and ink.text[0].isdigit() and not dots(view))
        current += begins
        if (isinstance(ink, Text | Circle) and not begins) or (isinstance(ink, Text) and dots(view)):
            found.setdefault(names[current], []).append(box_of(ink))
    for name, boxes in found.items():
        x = view.middle[0] + view.at[name][0] * scale_of(view.case)
        y = view.middle[1] - view.at[name][1] * scale_of(view.case)
        left, top = min(box.x_mm for box in boxes), min(box.y_mm for box in boxes)
        right, bottom = max(box.right_mm for box in boxes), max(box.bottom_mm for box in boxes)
        middle = (left + right) / 2 - x, (top + bottom) / 2 - y
        if abs(middle[0]) < abs(middle[1]):
            side = "up" if middle[1] < 0 else "down"
        else:
            side = "left" if middle[0] < 0 else "right"
        yield name, side, Box(left, top, right - left, bottom - top)


def test_letters_are_0_7_mm_from_their_number_or_outside_from_the_outline_or_key_and_from_tier_to_tier(
    cases: list[Case],
) -> None:
    seen: set[tuple[str, int]] = set()
    for view in all_views(cases):
        said = " ".join(text.text for text in said_below(view.case))
        if "too tight" in said:
            continue
        letters = [ink.height_mm for ink in view.ink if isinstance(ink, Text) and not ink.bold]
        for name, side, box in beside_contacts(view):
            x = view.middle[0] + view.at[name][0] * scale_of(view.case)
            y = view.middle[1] - view.at[name][1] * scale_of(view.case)
            out, key = view.outline, 1.6 if view.key == side else 0.0
            gaps = {
                "up": (y - box.bottom_mm, out.y_mm - box.bottom_mm),
                "down": (box.y_mm - y, box.y_mm - out.bottom_mm),
                "left": (x - box.right_mm, out.x_mm - box.right_mm),
                "right": (box.x_mm - x, box.x_mm - out.right_mm),
            }
            from_number, from_outline = gaps[side]
            across = side in ("left", "right")
            bearing = 0.06 * letters[0] if across and view.case.colours[name] else 0.0
            if from_outline < 0:
                away = from_number - own_reach_mm(view, name, across) + bearing
                assert min(abs(away - usual) for usual in (0.7, 0.5)) < 0.01, (view.case.name, name)
                seen.add((side, 0))
                continue
            # Tiers are as far apart as a striped wire's letters need, and its number where that stands outside.
            lines = 3 if dots(view) else 2
            longest = (8 if dots(view) else 5) * letters[0] if across else lines * (letters[0] + 0.5) - 0.5
            tier = (from_outline - key - 0.7 + bearing) / (longest + 0.7)
            assert abs(tier - round(tier)) < 0.01, (view.case.name, name, side, tier)
            assert round(tier) in (0, 1, 2)
            seen.add((side, 1 + round(tier)))
    assert {(side, 0) for side in ("up", "down", "left", "right")} <= seen
    assert {(side, 1) for side in ("up", "down", "left", "right")} <= seen


def boxes_at(view: Seen) -> list[tuple[int, Box]]:
    """Return what is at each contact, by the contact's place in their order: texts, rings, dots and the square."""
    found, current = [], -1
    for ink in view.ink[1:]:
        if isinstance(ink, Line) or (isinstance(ink, Shape) and ink.fill is not None):
            continue
        is_dot = isinstance(ink, Circle) and ink.fill == "#000000"
        current += is_dot or (isinstance(ink, Text) and ink.text[0].isdigit() and not dots(view))
        found.append((current, box_of(ink)))
    return found


def test_what_belongs_to_different_contacts_does_not_meet(cases: list[Case]) -> None:
    for view in all_views(cases):
        said = " ".join(text.text for text in said_below(view.case))
        if "too tight for numbers" in said:
            continue
        for (one, box), (other, beside) in combinations(boxes_at(view), 2):
            across = max(box.x_mm, beside.x_mm) - min(box.right_mm, beside.right_mm)
            down = max(box.y_mm, beside.y_mm) - min(box.bottom_mm, beside.bottom_mm)
            assert one == other or across > 0.1 or down > 0.3, (view.case.name, one, other)


def test_what_is_at_contacts_is_within_the_outline_or_beyond_it_and_the_key(cases: list[Case]) -> None:
    for view in all_views(cases):
        out = view.outline
        for _, box in boxes_at(view):
            corners = [(x, y) for x in (box.x_mm, box.right_mm) for y in (box.y_mm, box.bottom_mm)]
            if view.case.view.shape == "round":
                within = all(math.dist(corner, view.middle) < out.width_mm / 2 for corner in corners)
            else:
                within = all(out.x_mm < x < out.right_mm and out.y_mm < y < out.bottom_mm for x, y in corners)
            key = (
                {"left": 1.6, "right": 1.6}.get(view.key or "", 0.0),
                {"up": 1.6, "down": 1.6}.get(view.key or "", 0.0),
            )
            clear = [
                out.x_mm - box.right_mm,
                box.x_mm - out.right_mm,
                out.y_mm - box.bottom_mm,
                box.y_mm - out.bottom_mm,
            ]
            at_key = {"left": 0, "right": 1, "up": 2, "down": 3}.get(view.key or "", -1)
            beyond = any(gap > 0.5 + (1.6 if side == at_key else 0.0) for side, gap in enumerate(clear))
            assert within or beyond, (view.case.name, key)


def test_a_line_leads_from_a_contact_to_its_letters_outside_and_strikes_none_of_another(cases: list[Case]) -> None:
    for view in all_views(cases):
        current = -1
        own: dict[int, list[Line]] = {}
        for ink in view.ink[1:]:
            is_dot = isinstance(ink, Circle) and ink.fill == "#000000"
            current += is_dot or (isinstance(ink, Text) and ink.text[0].isdigit() and not dots(view))
            if isinstance(ink, Line):
                own.setdefault(current, []).append(ink)
        places = list(view.at.values())
        for contact, lines in own.items():
            [line] = lines
            assert line.width_mm == 0.18
            x = view.middle[0] + places[contact][0] * scale_of(view.case)
            y = view.middle[1] - places[contact][1] * scale_of(view.case)
            along = box_of(line)
            assert (line.x1_mm, line.x2_mm) == near(x, x) or (line.y1_mm, line.y2_mm) == near(y, y)
            assert max(along.width_mm, along.height_mm) > 0
            for other, box in boxes_at(view):
                across = max(box.x_mm, along.x_mm) - min(box.right_mm, along.right_mm)
                down = max(box.y_mm, along.y_mm) - min(box.bottom_mm, along.bottom_mm)
                assert max(across, down) > 0, (view.case.name, contact, other)


def test_all_ink_is_in_the_block_headings_above_it_and_words_below_it(cases: list[Case]) -> None:
    for case in cases:
        views = list(views_of(case))
        of_views = [[box_of(ink) for ink in view.ink] for view in views]
        for box in map(box_of, case.ink):
            assert AT.x_mm - NEAR_MM <= box.x_mm
            assert box.right_mm <= AT.right_mm + NEAR_MM, case.name
            assert AT.y_mm - NEAR_MM <= box.y_mm
            assert box.bottom_mm <= AT.y_mm + case.block_mm + NEAR_MM
        texts = [ink for ink in case.ink if isinstance(ink, Text)]
        heads = [text for text in texts if text.align == "left" and text not in said_below(case)]
        below = box_of(said_below(case)[0])
        assert all(box.bottom_mm + 0.9 < below.y_mm for boxes in of_views for box in boxes), case.name
        beside = views[0].middle[1] == near_to(views[1].middle[1])
        for one, other in ((0, 1), (1, 0)):
            for head, box in ((head, box) for head in heads for box in of_views[one]):
                assert not meets(box_of(head), box), (case.name, head.text)
            if beside:
                assert views[0].middle[0] < views[1].middle[0]
                assert all(not meets(box, there) for box in of_views[one] for there in of_views[other]), case.name
        if beside:
            assert max(box.right_mm for box in of_views[0]) + 3.9 < min(box.x_mm for box in of_views[1]), case.name
        else:
            assert max(box.bottom_mm for box in of_views[0]) + 6 < min(box.y_mm for box in of_views[1]), case.name


def meets(box: Box, other: Box) -> bool:
    across = max(box.x_mm, other.x_mm) - min(box.right_mm, other.right_mm)
    return across < 0 and max(box.y_mm, other.y_mm) - min(box.bottom_mm, other.bottom_mm) < 0


def test_what_can_be_read_in_the_height_that_is_left_is_no_higher(cases: list[Case]) -> None:
    for case in cases:
        said = " ".join(text.text for text in said_below(case))
        assert case.block_mm <= case.height_mm or "too tight" in said or "the way" not in said, case.name
