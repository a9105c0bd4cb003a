"""How wide a text is, how far its ink reaches, and how it is broken, against a renderer that is not ours."""

from __future__ import annotations

import ctypes
import string
from functools import cache
from typing import NamedTuple

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from measured import MM_PER_POINT

from docgen.basics.findings import Position
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.ink import Page, Text
from docgen.paperwork.typesetting.typeface import (
    check_characters,
    extent,
    line_pitch_mm,
    missing_characters,
    overhang_mm,
    shortened,
    width_mm,
    wrapped,
)

HEIGHT_MM, APART_MM, PER_ROW = 20.0, 60.0, 12
NEAR_MM = 0.07  # what a renderer says of ink is whole thousandths of the size, which is 30 mm here
LETTERS = string.ascii_letters + string.digits + string.punctuation + "äÄçéøΩµ°±×–…²"


class Drawn(NamedTuple):
    """How far the ink of a letter reaches from where it begins on its base line, right and up, and its width [mm]."""

    left: float
    low: float
    right: float
    high: float
    wide: float


@cache
def letters(bold: bool) -> dict[str, Drawn]:
    """Return what is drawn of each letter; an H that follows it begins where it ends."""
    page = Page(PER_ROW * APART_MM, APART_MM * (2 + len(LETTERS) // PER_ROW))
    places = [(APART_MM * (i % PER_ROW), APART_MM * (1 + i // PER_ROW)) for i in range(len(LETTERS))]
    page.add(*(Text(*at, f"{letter}H", HEIGHT_MM, bold) for letter, at in zip(LETTERS, places, strict=True)))
    textpage = pypdfium2.PdfDocument(draw_pdf([page], "", ""))[0].get_textpage()
    read = [(i, chr(pdfium.FPDFText_GetUnicode(textpage, i))) for i in range(textpage.count_chars())]
    shown = [(index, letter) for index, letter in read if not letter.isspace()]
    assert [letter for _, letter in shown] == [letter for pair in LETTERS for letter in (pair, "H")]
    found: dict[str, Drawn] = {}
    for at, (index, letter), (following, _) in zip(places, shown[::2], shown[1::2], strict=True):
        x, up = at[0], page.height_mm - at[1]
        left, low, right, high = (side * MM_PER_POINT for side in textpage.get_charbox(index))
        ends_x, ends_up = ctypes.c_double(), ctypes.c_double()
        pdfium.FPDFText_GetCharOrigin(textpage, following, ends_x, ends_up)
        found[letter] = Drawn(left - x, low - up, right - x, high - up, ends_x.value * MM_PER_POINT - x)
    return found


@pytest.mark.parametrize("bold", [False, True])
def test_a_letter_is_as_wide_as_it_is_set(bold: bool) -> None:
    for letter, drawn in letters(bold).items():
        assert width_mm(letter, HEIGHT_MM, bold) == pytest.approx(drawn.wide, abs=NEAR_MM), letter


@pytest.mark.parametrize("bold", [False, True])
def test_ink_reaches_as_far_above_and_below_its_line_as_it_is_drawn(bold: bool) -> None:
    for letter, drawn in letters(bold).items():
        expected = max(drawn.high, 0), max(-drawn.low, 0)
        assert extent(letter, HEIGHT_MM, bold) == pytest.approx(expected, abs=NEAR_MM), letter


@pytest.mark.parametrize("bold", [False, True])
def test_ink_reaches_as_far_out_of_its_width_as_it_is_drawn(bold: bool) -> None:
    out = set()
    for letter, drawn in letters(bold).items():
        expected = max(-drawn.left, 0), max(drawn.right - drawn.wide, 0)
        assert overhang_mm(letter, HEIGHT_MM, bold) == pytest.approx(expected, abs=NEAR_MM), letter
        out |= {side for side in (0, 1) if expected[side] > 2 * NEAR_MM}
    assert out == {0, 1}


def test_of_a_text_the_outermost_letters_count() -> None:
    # j hangs out at the left and lowest, f at the right; a parenthesis is the highest of these.
    for bold in (False, True):
        left, right = overhang_mm("j(f", 2.0, bold)
        assert (left, right) == (overhang_mm("j", 2.0, bold)[0], overhang_mm("f", 2.0, bold)[1])
        assert extent("ajx(f", 2.0, bold) == (extent("(f", 2.0, bold).above_mm, extent("(j", 2.0, bold).below_mm)
        assert width_mm("j(f", 2.0, bold) == pytest.approx(sum(width_mm(each, 2.0, bold) for each in "j(f"))
    assert extent("", 2.0) == extent(" ", 2.0) == (0, 0)
    # What the face lacks is refused elsewhere; it has no ink.
    assert extent("a飛", 2.0) == extent("a", 2.0)


def test_all_measures_grow_with_the_height() -> None:
    assert width_mm("fj", 5.0) == pytest.approx(2 * width_mm("fj", 2.5))
    assert extent("fj", 5.0) == pytest.approx([2 * each for each in extent("fj", 2.5)])
    assert overhang_mm("jf", 5.0) == pytest.approx([2 * each for each in overhang_mm("jf", 2.5)])
    assert line_pitch_mm(5.0) == pytest.approx(2 * line_pitch_mm(2.5))


def test_lines_of_running_text_do_not_meet_and_are_no_two_lines_apart() -> None:
    reach = max(sum(extent(letter, 1.0)) for letter in string.ascii_letters + string.digits)
    assert reach < line_pitch_mm(1.0) < 2


# Letters of any script, emoji, and an accent that is put on the letter before it: the face has Latin, Greek and
# Cyrillic ones, and none that are put on others.


@pytest.mark.parametrize("text", ["AIL L", "Ärmel 4 µm", "Ω – Δ", "Ж", "a…"])
def test_a_text_in_letters_of_the_face_lacks_nothing(text: str) -> None:
    assert missing_characters([text]) == ""
    assert check_characters([(text, Position("harness.yaml", 1, 1))]) == []


@pytest.mark.parametrize(
    ("texts", "missing"),
    [
        (["飛", "AIL"], "飛"),
        (["b飛", "a機飛"], "機飛"),
        (["e\u0301"], "\u0301"),
        (["a\tb"], "\t"),
        (["\u200b"], "\u200b"),
    ],
)
def test_what_the_face_lacks_is_named_once_in_order(texts: list[str], missing: str) -> None:
    assert missing_characters(texts) == missing


def test_each_text_that_can_not_be_set_is_an_error_at_its_place_and_names_five_characters_at_most() -> None:
    places = [Position("harness.yaml", line, 5) for line in range(1, 5)]
    texts = ["AIL L", "AIL 飛", "café", "一二三四五六"]
    first, second = check_characters(zip(texts, places, strict=True))
    assert (first.position, first.name) == (places[1], "character")
    assert "(U+98DB)" in first.sentence
    assert second.position == places[3]
    # In the order of their numbers.
    order = sorted("一二三四五六")
    assert [f"U+{ord(each):04X}" in second.sentence for each in order] == [True] * 5 + [False]


def test_a_tab_is_named_by_its_number() -> None:
    [found] = check_characters([("a\tb", Position("harness.yaml", 1, 1))])
    assert "(U+0009)" in found.sentence


WORDS = st.lists(st.text("abWij-", min_size=1, max_size=12), min_size=1, max_size=9).map(" ".join)


@settings(derandomize=True)
@given(WORDS, st.floats(1.0, 60.0), st.sampled_from([1.8, 2.5]), st.booleans())
def test_a_text_is_whole_or_as_much_of_it_as_fits_with_an_ellipsis(
    text: str, room: float, height: float, bold: bool
) -> None:
    found = shortened(text, room, height, bold)
    if width_mm(text, height, bold) <= room:
        assert found == text
        return
    fitting = [cut for cut in range(len(text)) if width_mm(text[:cut].rstrip() + "…", height, bold) <= room]
    assert found == text[: max(fitting, default=0)].rstrip() + "…"


@settings(derandomize=True)
@given(WORDS, st.floats(6.0, 60.0), st.sampled_from([1.8, 2.5]), st.booleans())
def test_lines_hold_as_many_whole_words_as_they_have_room_for(
    text: str, room: float, height: float, bold: bool
) -> None:
    lines = wrapped(text, room, height, bold)
    assert all(width_mm(line, height, bold) <= room + 1e-9 for line in lines)
    left = text.split()
    for number, line in enumerate(lines):
        taken = line.split(" ")
        if taken == left[: len(taken)]:
            left = left[len(taken) :]
            if left and number + 1 < len(lines):
                # The next word had no room here.
                assert width_mm(f"{line} {left[0]}", height, bold) > room
            continue
        # The last of a line is a piece of a word that has no room of its own in any line.
        assert width_mm(left[0], height, bold) > room
        [piece] = taken
        assert left[0].startswith(piece)
        left[0] = left[0].removeprefix(piece)
        longer = piece + left[0][:1]
        assert piece.endswith("-") or width_mm(longer, height, bold) > room
    assert left == []
