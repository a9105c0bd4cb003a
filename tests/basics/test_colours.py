from __future__ import annotations

import colorsys

import pytest
from reference import colour_contrast as contrast
from reference import colour_letters as reference

from docgen.basics.colours import (
    COLOURS,
    colour_order,
    colour_rgb,
    colour_words,
    contrast_ratio,
    parse_colour,
    relative_luminance,
    stripe_rgb,
    text_colour_on,
)
from docgen.basics.findings import Refused

# Green and yellow together are no base with a stripe.
LETTERS = [(letters, words) for letters, words in reference.LETTERS.items() if letters != "GNYE"]
WORDS_OF_INK = {"black": "#000000", "white": "#FFFFFF"}


def test_letters_are_those_of_the_standard_in_its_order() -> None:
    assert [(letters, words) for letters, (words, _) in COLOURS.items()] == LETTERS


@pytest.mark.parametrize("letters", [*(letters for letters, _ in LETTERS), "GNYE", "WHRD", "RDWH", "BKBN"])
def test_plain_and_striped_wires_are_read(letters: str) -> None:
    assert parse_colour(letters) == letters


@pytest.mark.parametrize(
    "text", ["", "W", "bk", "XX", "RED", "BKBK", "BKXX", "XXBK", "WHRDBU", "RD BK", "RD/BK", "WH" * 10_000]
)
def test_what_is_no_colour_is_refused(text: str) -> None:
    with pytest.raises(Refused) as caught:
        parse_colour(text)
    assert caught.value.name == "value"
    assert len(str(caught.value)) < 200


@pytest.mark.parametrize("text", ["YEGN"])
def test_green_and_yellow_go_together_only_as_protective_earth_does(text: str) -> None:
    # IEC 60757:2021, 5.1.
    with pytest.raises(Refused):
        parse_colour(text)


@pytest.mark.parametrize(
    ("letters", "words"),
    [
        ("BU", "blue"),
        ("WHRD", "white, red stripe"),
        ("GNYE", "green and yellow"),
        ("BN+RD+OG", "brown + red + orange"),
    ],
)
def test_colours_are_said_in_words(letters: str, words: str) -> None:
    assert colour_words(letters) == words


@pytest.mark.parametrize(
    ("letters", "base", "stripe"), [("BU", "BU", None), ("WHRD", "WH", "RD"), ("GNYE", "GN", "YE")]
)
def test_the_base_of_a_striped_wire_comes_first(letters: str, base: str, stripe: str | None) -> None:
    assert (colour_rgb(letters), stripe_rgb(letters)) == (COLOURS[base][1], COLOURS[stripe][1] if stripe else None)


def test_colours_sort_by_the_resistor_code_plain_before_striped() -> None:
    # IEC 60062: 0 black, 1 brown, 2 red, 3 orange, 4 yellow, 5 green, 6 blue, 7 violet, 8 grey, 9 white.
    order = ["BK", "BKWH", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "WHBK", "WHRD", "BK+RD"]
    shuffled = [order[i] for i in (3, 11, 0, 9, 13, 1, 6, 5, 12, 2, 10, 4, 8, 7)]
    assert sorted(shuffled, key=colour_order) == order


def test_striped_wires_sort_after_plain_ones_and_several_last() -> None:
    order = ["BK", "BKWH", "BN", "WH", "WHBK", "WHRD", "BK+RD"]
    assert sorted([order[i] for i in (3, 6, 0, 5, 1, 4, 2)], key=colour_order) == order


def test_a_cable_s_colours_are_read_as_the_standard_writes_them() -> None:
    assert colour_words(reference.CABLE_OF_FIVE) == "black + black + brown + blue + green and yellow"
    assert parse_colour(reference.RED_AND_BLUE_ITEM) == "RDBU"


# Degrees on the circle of hues, on which red is 0, yellow 60, green 120 and blue 240 (the definition of HSV).
HUES = {
    "RD": (0, 15),
    "OG": (20, 45),
    "YE": (45, 65),
    "GN": (100, 140),
    "TQ": (165, 185),
    "BU": (205, 250),
    "VT": (270, 310),
    "BN": (20, 40),
    "GD": (40, 55),
}


@pytest.mark.parametrize("letters", HUES)
def test_a_colour_looks_like_its_name(letters: str) -> None:
    red, green, blue = (int(colour_rgb(letters)[i : i + 2], 16) / 255 for i in (1, 3, 5))
    hue, saturation, _ = colorsys.rgb_to_hsv(red, green, blue)
    low, high = HUES[letters]
    assert low <= 360 * hue <= high
    assert saturation > 0.5


def test_brown_is_dark_orange_and_pink_light_red() -> None:
    light = {letters: relative_luminance(colour_rgb(letters)) for letters in ("BN", "OG", "RD", "PK")}
    assert light["BN"] < light["OG"] / 3
    assert light["PK"] > 3 * light["RD"]


def test_black_grey_silver_and_white_grow_lighter_without_a_hue() -> None:
    greys = [colour_rgb(letters) for letters in ("BK", "GY", "SR", "WH")]
    levels = [{int(rgb[i : i + 2], 16) for i in (1, 3, 5)} for rgb in greys]
    assert [len(level) for level in levels] == [1] * 4
    assert [min(level) for level in levels] == sorted(min(level) for level in levels)
    assert (levels[0], levels[-1]) == ({0}, {255})


def test_a_stripe_is_of_the_second_colour_on_the_first() -> None:
    assert (colour_rgb("WHRD"), stripe_rgb("WHRD")) == (colour_rgb("WH"), colour_rgb("RD"))
    assert stripe_rgb("WH") is None


@pytest.mark.parametrize(("rgb", "luminance"), contrast.LUMINANCE.items())
def test_luminance_is_that_of_the_published_rule(rgb: str, luminance: float) -> None:
    assert relative_luminance(rgb) == pytest.approx(luminance, abs=5e-5)


@pytest.mark.parametrize(("one", "other", "ratio"), contrast.CONTRASTS)
def test_contrast_is_that_of_the_published_rule_both_ways_round(one: str, other: str, ratio: float) -> None:
    assert contrast_ratio(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast_ratio(other, one) == contrast_ratio(one, other)


@pytest.mark.parametrize("rgb", contrast.TEXT_COLOURS)
def test_text_is_in_the_ink_that_stands_out(rgb: str) -> None:
    ink, ratio = contrast.TEXT_COLOURS[rgb]
    assert text_colour_on(rgb) == WORDS_OF_INK[ink]
    assert contrast_ratio(WORDS_OF_INK[ink], rgb) == pytest.approx(ratio, abs=0.005)


def test_one_of_black_and_white_is_always_read() -> None:
    # Where both are alike it is the square root of 1.05 / 0.05.
    greys = [f"#{level:02X}{level:02X}{level:02X}" for level in range(256)]
    assert min(contrast_ratio(text_colour_on(grey), grey) for grey in greys) >= contrast.ALWAYS_REACHED - 0.001


@pytest.mark.parametrize("letters", COLOURS)
def test_text_on_every_swatch_can_be_read(letters: str) -> None:
    rgb = COLOURS[letters][1]
    assert contrast_ratio(text_colour_on(rgb), rgb) >= contrast.LEAST_CONTRAST
