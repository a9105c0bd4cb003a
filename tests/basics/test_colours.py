from __future__ import annotations

import pytest

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

# IEC 60757, as reprinted in GOST 28763-90, in the order of its table.
LETTERS = [
    ("BK", "black"),
    ("BN", "brown"),
    ("RD", "red"),
    ("OG", "orange"),
    ("YE", "yellow"),
    ("GN", "green"),
    ("BU", "blue"),
    ("VT", "violet"),
    ("GY", "grey"),
    ("WH", "white"),
    ("PK", "pink"),
    ("GD", "gold"),
    ("TQ", "turquoise"),
    ("SR", "silver"),
]


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


@pytest.mark.parametrize(
    ("rgb", "luminance"),
    [
        ("#000000", 0),
        ("#FFFFFF", 1),
        ("#0000FF", 0.0722),
        ("#FF0000", 0.2126),
        ("#7B3F00", 0.0777),
        ("#C00000", 0.1121),
    ],
)
def test_luminance_is_that_of_the_published_rule(rgb: str, luminance: float) -> None:
    assert relative_luminance(rgb) == pytest.approx(luminance, abs=5e-5)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#FFFFFF", 21),
        ("#0000FF", "#FFFFFF", 8.59),
        ("#FF0000", "#0000FF", 2.149),
        ("#FF0000", "#000000", 5.25),
        ("#008000", "#FFFFFF", 5.14),
        ("#808080", "#FFFFFF", 3.95),
    ],
)
def test_contrast_is_that_of_the_published_rule(one: str, other: str, ratio: float) -> None:
    assert contrast_ratio(one, other) == pytest.approx(ratio, abs=0.005)


def test_contrast_is_the_same_both_ways_round() -> None:
    assert contrast_ratio("#FFE600", "#0050C8") == contrast_ratio("#0050C8", "#FFE600")


@pytest.mark.parametrize(
    ("rgb", "ink"),
    [("#FF0000", "#000000"), ("#C00000", "#FFFFFF"), ("#808080", "#000000"), ("#008000", "#FFFFFF")],
)
def test_text_is_in_the_ink_that_stands_out(rgb: str, ink: str) -> None:
    assert text_colour_on(rgb) == ink


@pytest.mark.parametrize("letters", COLOURS)
def test_text_on_every_swatch_can_be_read(letters: str) -> None:
    rgb = COLOURS[letters][1]
    assert contrast_ratio(text_colour_on(rgb), rgb) >= 4.5
