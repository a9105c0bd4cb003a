"""How a view is set where there is any room: the first that can be read of all settings, from the best one on."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest

from docgen.paperwork.cards.view_drawing import is_legible
from docgen.paperwork.cards.view_letters import Beside, Setting, ViewContact, draw_contacts, places_of_letters
from docgen.paperwork.cards.view_pair import ViewsOf, views_blocks
from docgen.paperwork.cards.views import View, mirrored
from docgen.paperwork.typesetting.ink import Box, Circle, Ink, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import width_mm

ROOM_MM = 700.0


def grid(rows: int, columns: int, across: float, down: float, rim: float = 0.0, shape: str = "rectangle") -> View:
    at = {
        str(row * columns + column + 1): (across * (column - (columns - 1) / 2), down * ((rows - 1) / 2 - row))
        for row in range(rows)
        for column in range(columns)
    }
    outline = across * columns + rim, down * rows + rim
    return View(at, (max(outline),) * 2 if shape == "round" else outline, "up", shape)


VIEWS = {
    "two rows with room": grid(2, 4, 8.0, 8.0, 10.0),
    "two rows, 5 mm": grid(2, 7, 5.0, 5.0),
    "two rows, 4 mm": grid(2, 7, 4.0, 4.0),
    "two rows, 2.77 mm": grid(2, 8, 2.77, 2.84),
    "two rows, 2 mm": grid(2, 8, 2.0, 2.0),
    "two rows, 1 mm": grid(2, 4, 1.0, 1.2),
    "one row, 2.54 mm": grid(1, 3, 2.54, 2.54),
    "one row, 5 mm": grid(1, 5, 5.0, 9.0),
    "two columns, 4 mm": grid(6, 2, 4.0, 4.0),
    "two columns, 2.5 mm": grid(6, 2, 2.5, 2.5),
    "two columns with room": grid(4, 2, 8.0, 8.0, 20.0),
    "three rows, 8 mm": grid(3, 4, 8.0, 8.0),
    "three rows, 3.5 mm": grid(3, 3, 3.5, 3.5),
    "three rows, 2.5 mm": grid(3, 15, 2.5, 2.5),
    "three rows, 1.5 mm": grid(3, 3, 1.5, 1.5),
    "round": grid(3, 3, 5.0, 5.0, 8.0, "round"),
    "round, 2 mm": grid(3, 3, 2.0, 2.0, 3.0, "round"),
}
COLOURS = {"short": ("BK", "RD", ""), "striped": ("GNYE", "WHRD", "BK")}


def settings(view: View) -> Iterator[Setting]:
    """Walk the settings as they are preferred.

    The least scale first; in each the larger type, of letters too before of numbers, and in each of that letters inside
    before those outside in one to three tiers; then close together; numbers outside only if no scale does else.
    """
    rows, columns = len({up for _, up in view.at_mm.values()}), len({right for right, _ in view.at_mm.values()})
    has_sides = view.shape != "round" and min(rows, columns) <= 2
    across = has_sides and rows > 2
    usual = [(number, letters, tiers) for number, letters in ((2.5, 2.5), (1.8, 2.5), (1.8, 1.8)) for tiers in range(4)]
    for scale in (1, 2, 3, 4):
        for number, letters, tiers in usual:
            if not across or number == letters:  # beside each other they share a line
                yield Setting(scale, number, letters, tiers)
        yield Setting(scale, 1.8, 1.8, 0, away_mm=0.5, stripe_mm=0.25)
    for scale, tiers in product((1, 2, 3, 4), (1, 2, 3) if has_sides else ()):
        yield Setting(scale, 1.8, 1.8, tiers, numbers_outside=True)


def contacts_of(view: View, colours: tuple[str, ...]) -> dict[str, ViewContact]:
    return {name: ViewContact(name, colours[i % 3], name == "1") for i, name in enumerate(view.at_mm)}


def drawn(view: View, contacts: dict[str, ViewContact]) -> list[Ink]:
    [block] = views_blocks(ViewsOf([(view, mirrored(view))], contacts, "", True), ROOM_MM, ROOM_MM, anyhow=True)
    return list(block.draw(Box(0, 0, ROOM_MM, block.height_mm)))


def at_contacts(ink: list[Ink]) -> list[tuple[object, ...]]:
    """Return numbers, letters, rings and dots in order: what they say, and how large and how far apart they are."""
    found = [
        (one.text, one.height_mm, one.x_mm, one.y_mm)
        if isinstance(one, Text)
        else ("", one.radius_mm, one.x_mm, one.y_mm)
        for one in ink
        if (isinstance(one, Text) and one.align == "centre") or isinstance(one, Circle)
    ]
    x, y = found[0][2], found[0][3]
    return [(text, size, round(left - x, 6), round(top - y, 6)) for text, size, left, top in found]


@pytest.mark.parametrize("colours", COLOURS)
@pytest.mark.parametrize("name", VIEWS)
def test_the_first_setting_that_can_be_read_is_drawn(name: str, colours: str) -> None:
    view, contacts = VIEWS[name], contacts_of(VIEWS[name], COLOURS[colours])
    expected = None
    for setting in settings(view):
        drawing = draw_contacts(view, contacts, setting, places_of_letters(view, setting))
        if is_legible(view, drawing, setting.scale):
            expected = drawing.ink
            break
    ink = drawn(view, contacts)
    wire_side = next(i for i, one in enumerate(ink) if isinstance(one, Text) and one.text == "Wire side") - 4
    begins = next(i for i, one in enumerate(ink) if isinstance(one, Text) and one.text == "Mating face")
    outline = next(i for i, one in enumerate(ink) if i > begins and isinstance(one, Shape | Circle))
    first = ink[outline + 1 : wire_side]
    said = " ".join(one.text for one in ink if isinstance(one, Text))
    if expected is None:
        assert "too tight" in said
    else:
        assert "too tight" not in said
        assert at_contacts(first) == at_contacts(expected)


def test_letters_stand_outside_where_there_is_room_for_them_and_for_the_one_line_that_is_said() -> None:
    """Ten contacts 5 mm apart in an outline of 12 mm.

    Heading 8.9 mm; key 1.6, to the letters 0.7, letters 1.8, above them 1; outline 12; below it 0.7, letters 1.8, to
    what is said 1.6; that is one line of some 2.8 mm with 1 mm above and below: 34.9 mm together.
    """
    view = View(grid(2, 5, 5.0, 5.0).at_mm, (30.0, 12.0), "up")
    contacts = contacts_of(view, ("BK", "RD", "WH"))
    (block,) = views_blocks(ViewsOf([(view, mirrored(view))], contacts, "not turned to the hatch", True), 85.0, 35.5)
    ink = list(block.draw(Box(0, 0, 85, block.height_mm)))
    letters = [one for one in ink if isinstance(one, Text) and one.text in ("BK", "RD", "WH")]
    assert {one.height_mm for one in letters} == {1.8}
    boxes = [one.points_mm for one in ink if isinstance(one, Shape)]
    outline = next(box for box in boxes if box[1][0] - box[0][0] == pytest.approx(30.0))
    top, bottom = outline[0][1], outline[2][1]
    assert all(one.y_mm < top or one.y_mm - 1.8 > bottom for one in letters)


def test_numbers_alone_stand_in_the_least_scale_in_which_they_keep_clear_upright() -> None:
    """Three rows 2.5 mm apart have no room for letters at any scale that fits: then numbers are 1.8 mm high."""
    view = grid(3, 15, 2.5, 2.5)
    contacts = contacts_of(view, COLOURS["striped"])
    [block] = views_blocks(ViewsOf([(view, mirrored(view))], contacts, "", True), 85.0, 65.0, anyhow=True)
    ink = list(block.draw(Box(0, 0, 85, block.height_mm)))
    numbers = [one for one in ink if isinstance(one, Text) and one.align == "centre"]
    assert [one.text for one in numbers] == list(contacts) * 2
    assert {one.height_mm for one in numbers} == {1.8}
    said = " ".join(one.text for one in ink if isinstance(one, Text))
    # Two figures of 1.8 mm are 2.4 mm wide: at 2.5 mm they touch, at 5 mm they do not.
    assert "drawn 2 : 1" in said
    assert "too tight for colours: see the table" in said
    assert views_blocks(ViewsOf([(view, mirrored(view))], contacts, "", True), 85.0, 65.0) == ()


@pytest.mark.parametrize(("name", "beside"), [("one row, 2.54 mm", True), ("two rows with room", False)])
def test_each_heading_has_an_eye_that_looks_along_an_arrow_and_the_mating_face_s_is_framed(
    name: str, beside: bool
) -> None:
    view = VIEWS[name]
    contacts = contacts_of(view, COLOURS["striped"])
    [block] = views_blocks(ViewsOf([(view, mirrored(view))], contacts, "", True), 85.0, 110.0, anyhow=True)
    ink = list(block.draw(Box(10, 20, 85, block.height_mm)))
    titles = {one.text: i for i, one in enumerate(ink) if isinstance(one, Text) and one.bold and not one.text.isdigit()}
    assert list(titles) == ["Mating face", "Wire side"]
    wide, high = (40.5, 8.9 - 0.6) if beside else (85.0, 6.0 - 0.6)
    frame, *_ = ink
    assert isinstance(frame, Shape)
    assert set(frame.points_mm) == {(x, y) for x in (10, 10 + wide) for y in (20, 20 + high)}
    tops = []
    for number, (title, says) in enumerate(
        zip(titles, ("looking into the open end", "from the wires' side"), strict=True)
    ):
        lens, pupil, shaft, head, heading = ink[titles[title] - 4 : titles[title] + 1]
        assert isinstance(lens, Shape)
        assert isinstance(pupil, Circle)
        assert isinstance(shaft, Line)
        assert isinstance(head, Shape)
        assert isinstance(heading, Text)
        xs, ys = zip(*lens.points_mm, strict=True)
        left, right, middle = min(xs), max(xs), (min(ys) + max(ys)) / 2
        # A lens with its ends at the left and the right, the pupil in its middle, black.
        assert {(x, y) for x, y in lens.points_mm if x in (left, right)} == {(left, middle), (right, middle)}
        assert (pupil.x_mm, pupil.y_mm) == pytest.approx(((left + right) / 2, middle))
        assert (pupil.radius_mm, max(ys) - min(ys), right - left) == pytest.approx((0.5, 2.2, 3.0))
        assert (pupil.fill, pupil.colour, lens.fill, head.fill, head.colour) == ("#000000", None, None, "#000000", None)
        # From it an arrow points to the right, to the words.
        assert (shaft.y1_mm, shaft.y2_mm) == (middle, middle)
        tip = max(head.points_mm)
        back = [corner for corner in head.points_mm if corner != tip]
        assert tip[1] == middle
        assert sum(y for _, y in back) / 2 == pytest.approx(middle)
        assert len(back) == 2
        assert len({x for x, _ in back}) == 1
        assert right < shaft.x1_mm < back[0][0] < shaft.x2_mm < tip[0] < heading.x_mm - 0.5
        column = 10 + (44.5 * number if beside else 0.0)
        tops.append(middle - high / 2)
        assert left - column == pytest.approx(1.2)
        assert (heading.x_mm - column, heading.y_mm - tops[-1] - 2.5, heading.height_mm) == pytest.approx((9, 1.2, 2.5))
        words = []
        for one in ink[titles[title] + 1 :]:
            if not isinstance(one, Text) or one.align != "left":
                break
            words.append(one)
        assert " ".join(text.text for text in words) == says
        assert all(text.height_mm == 1.8 and text.y_mm < tops[-1] + high - 0.6 for text in words)
        if beside:
            assert {text.x_mm for text in words} == {heading.x_mm}
            assert words[0].y_mm - 1.8 - heading.y_mm > 1
        else:
            assert {text.y_mm for text in words} == {heading.y_mm}
            assert words[0].x_mm - heading.x_mm - width_mm(title, 2.5, True) == pytest.approx(2)
    assert tops[0] == pytest.approx(20)
    assert (tops[0] == pytest.approx(tops[1])) == beside


# What is said below


def said_of(*pairs: View, colours: tuple[str, ...] = ("BK",), to_scale: bool = True, height_mm: float = 110.0) -> str:
    contacts = {
        name: ViewContact(name, colours[i % len(colours)], name == "3") for i, name in enumerate(pairs[0].at_mm)
    }
    of = ViewsOf([(view, mirrored(view)) for view in pairs], contacts, "as it sits", to_scale)
    *_, block = views_blocks(of, 85.0, height_mm, anyhow=True)
    texts = [ink for ink in block.draw(Box(0, 0, 85, block.height_mm)) if isinstance(ink, Text)]
    last = max(i for i, text in enumerate(texts) if text.align == "centre")
    return " ".join(text.text for text in texts[last + 1 :])


def test_what_is_said_below_tells_size_square_spares_and_how_it_is_turned() -> None:
    roomy, tiny, tight = grid(2, 3, 8.0, 8.0, 10.0), grid(2, 3, 2.5, 2.5), grid(2, 30, 2.5, 2.5)
    assert said_of(roomy) == "true to size · square: contact 3 · as it sits"
    assert said_of(roomy, colours=("BK", "")) == "true to size · square: contact 3 · ring: spare · as it sits"
    assert said_of(roomy, to_scale=False) == (
        "not to scale: the pitch of this part is not given · square: contact 3 · as it sits"
    )
    assert said_of(tiny) == "drawn 2 : 1 · square: contact 3 · as it sits"
    assert said_of(tight, colours=("BK", ""), height_mm=30.0) == (
        "true to size · square: contact 3 · as it sits · too tight for numbers and colours: see the table"
    )
    # Lying on its side it is higher than there is room for; upright it is not.
    turned = grid(12, 2, 5.0, 5.0)
    upright = View({name: (up, -right) for name, (right, up) in turned.at_mm.items()}, turned.outline_mm[::-1], "left")
    assert said_of(turned, upright, height_mm=70.0) == (
        "true to size · square: contact 3 · upright, as it could not be read turned to the hatch"
    )


def test_where_numbers_stand_outside_no_letters_tell_a_spare_contact() -> None:
    view = grid(2, 30, 2.5, 4.0)
    assert said_of(view, colours=("BK", "")) == "true to size · square: contact 3 · no letters: spare · as it sits"
    assert said_of(view) == "true to size · square: contact 3 · as it sits"


# Where letters stand


def places(at: dict[str, tuple[float, float]], tiers: int | None, shape: str = "rectangle") -> dict[str, Beside]:
    return places_of_letters(View(at, (60.0, 60.0), None, shape), Setting(1, 1.8, 1.8, tiers))


def test_letters_of_two_rows_stand_up_and_down_of_two_columns_left_and_right_else_below() -> None:
    two_rows = {"1": (-5.0, 3.0), "2": (0.0, 3.0), "3": (5.0, 3.0), "4": (-2.5, -1.0), "5": (2.5, -1.0)}
    turned = {name: (up, right) for name, (right, up) in two_rows.items()}
    sides = {name: beside.side for name, beside in places(two_rows, 0).items()}
    assert sides == {"1": "up", "2": "up", "3": "up", "4": "down", "5": "down"}
    sides = {name: beside.side for name, beside in places(turned, 0).items()}
    assert sides == {"1": "right", "2": "right", "3": "right", "4": "left", "5": "left"}
    one_row = {str(i): (4.0 * i, 2.0) for i in range(3)}
    one_column = {name: (up, right) for name, (right, up) in one_row.items()}
    assert {beside.side for beside in places(one_row, 0).values()} == {"down"}
    assert {beside.side for beside in places(one_column, 0).values()} == {"left"}
    three_rows = {**two_rows, "6": (0.0, -5.0)}
    assert {beside.side for beside in places(three_rows, 0).values()} == {"down"}
    assert {beside.side for beside in places(two_rows, 0, "round").values()} == {"down"}


def test_outside_letters_stand_in_tiers_by_turns_along_their_side_whatever_the_order_of_writing() -> None:
    rows = {"a": (4.0, 3.0), "b": (-4.0, 3.0), "c": (0.0, 3.0), "d": (8.0, 3.0), "e": (2.0, -3.0), "f": (-2.0, -3.0)}
    columns = {name: (up, right) for name, (right, up) in rows.items()}
    for at in (rows, columns):
        # From the left, or from below: b c a d of one side, f e of the other.
        for count, tiers in ((1, "000000"), (2, "010101"), (3, "012001")):
            found = places(at, count)
            assert "".join(str(found[name].tier) for name in "bcadfe") == tiers
        assert {beside.tier for beside in places(at, 0).values()} == {None}
        assert {beside.tier for beside in places(at, None).values()} == {None}


def legible(view: View, colour: str, setting: Setting) -> bool:
    contacts = {name: ViewContact(name, colour, name == "1") for name in view.at_mm}
    return is_legible(view, draw_contacts(view, contacts, setting, places_of_letters(view, setting)), setting.scale)


@pytest.mark.parametrize(("away", "stripe", "least"), [(0.7, 0.5, 5.35), (0.5, 0.25, 4.85)])
def test_letters_below_their_number_are_half_as_far_again_from_the_next(
    away: float, stripe: float, least: float
) -> None:
    """Numbers and letters of 1.8 mm: from one number to the next 0.9 + away + 1.8 + 1.5 away + 0.9."""
    assert least == pytest.approx(0.9 + away + 1.8 + 1.5 * away + 0.9)
    setting = Setting(1, 1.8, 1.8, 0, away_mm=away, stripe_mm=stripe)
    for down, expected in ((least + 0.01, True), (least - 0.01, False)):
        assert legible(grid(3, 3, 9.0, down, 20.0), "BK", setting) == expected


def test_letters_side_by_side_are_apart_by_more_than_they_are_in_words() -> None:
    """By 0.4 of their height and the 0.3 mm of different contacts; blank beside their ink, 0.06 of it, left out."""
    ink_mm = width_mm("BK", 1.8) - 2 * 0.06 * 1.8
    least = ink_mm + 0.4 * 1.8 + 0.3
    assert least > width_mm("8", 1.8, True) + 0.4 * 1.8 + 0.3
    for across, expected in ((least + 0.01, True), (least - 0.01, False)):
        assert legible(grid(2, 4, across, 9.0, 20.0), "BK", Setting(1, 1.8, 1.8, 0)) == expected


def test_a_leader_keeps_the_box_of_its_line_clear_on_whichever_side_it_leads() -> None:
    sides = set()
    for name in ("two rows, 5 mm", "two columns, 4 mm"):
        view, setting = VIEWS[name], Setting(1, 1.8, 1.8, 2)
        drawing = draw_contacts(view, contacts_of(view, COLOURS["short"]), setting, places_of_letters(view, setting))
        lines = [one for one in drawing.ink if isinstance(one, Line)]
        assert [contact for contact, _ in drawing.leaders] == list(view.at_mm)
        for (contact, box), line in zip(drawing.leaders, lines, strict=True):
            xs, ys = sorted((line.x1_mm, line.x2_mm)), sorted((line.y1_mm, line.y2_mm))
            assert (box.x_mm, box.y_mm, box.right_mm, box.bottom_mm) == pytest.approx((xs[0], ys[0], xs[1], ys[1]))
            assert max(box.width_mm, box.height_mm) > 0
            sides.add(places_of_letters(view, setting)[contact].side)
    assert sides == {"up", "down", "left", "right"}
