"""Codes of cards are read as a worn sheet in a dim hatch shows them: coarse, blurred and turned."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
import zxingcpp
from printed_cards import CardPart, cards_of_example, sheets_in
from resolved import files_of_example

if TYPE_CHECKING:
    from numpy.typing import NDArray

DOTS_PER_INCH = 200
BLUR_PIXELS = 1.5
TURN_DEGREES = 5.0


def blurred(pixels: NDArray[np.float64]) -> NDArray[np.float64]:
    """Blur by a Gaussian, along rows and then along columns; it is cut off where 1 in 10⁴ is left."""
    reach = np.arange(-6, 7)
    weights = np.exp(-(reach**2) / (2 * BLUR_PIXELS**2))
    weights /= weights.sum()
    for axis in (0, 1):
        pixels = sum(weight * np.roll(pixels, shift, axis) for weight, shift in zip(weights, reach, strict=True))
    return pixels


def turned(pixels: NDArray[np.float64], degrees: float) -> NDArray[np.float64]:
    """Turn about the middle, each pixel between its four neighbours; what comes from outside is white."""
    pixels = np.pad(pixels, 60, constant_values=255)
    height, width = pixels.shape
    cos, sin = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    y, x = np.mgrid[0:height, 0:width].astype(np.float64)
    across, down = x - width / 2, y - height / 2
    from_x = np.clip(cos * across - sin * down + width / 2, 0, width - 2)
    from_y = np.clip(sin * across + cos * down + height / 2, 0, height - 2)
    left, top = from_x.astype(int), from_y.astype(int)
    right, low = from_x - left, from_y - top
    upper = pixels[top, left] * (1 - right) + pixels[top, left + 1] * right
    lower = pixels[top + 1, left] * (1 - right) + pixels[top + 1, left + 1] * right
    turned_pixels: NDArray[np.float64] = upper * (1 - low) + lower * low
    return turned_pixels


def read_badly_seen(page: CardPart) -> str:
    """Read the only code on a card."""
    left, top, right, bottom = (round(side * DOTS_PER_INCH / 25.4) for side in page.region)
    pixels = page.pixels(DOTS_PER_INCH)[top:bottom, left:right].astype(np.float64)
    seen = turned(blurred(pixels), TURN_DEGREES).round().astype(np.uint8)
    [code] = zxingcpp.read_barcodes(seen)
    return str(code.text)


def test_turning_turns_and_blurring_keeps_ink() -> None:
    dot = np.full((101, 101), 255.0)
    dot[50, 90] = 0
    seen = turned(blurred(dot), TURN_DEGREES)
    # 40 pixels right of the middle, turned by 5°: 40 cos 5° = 39.8 along and 40 sin 5° = 3.5 across.
    y, x = np.indices(seen.shape)
    ink = 255 - seen
    middle = (np.array([(ink * x).sum(), (ink * y).sum()]) / ink.sum() - np.array(seen.shape) / 2).round(1)
    assert np.hypot(*(np.abs(middle) - (39.8, 3.5))) < 1
    assert ink.sum() == pytest.approx(255, rel=0.01)


@pytest.mark.long
def test_the_codes_of_wren_lead_to_the_record_though_badly_seen() -> None:
    read = {(card.title, card.texts[1]): read_badly_seen(card.pages[0]) for card in cards_of_example("wren")}
    assert len(read) == 5
    for (title, _), said in read.items():
        kind = "equipment" if title == "receiver" else "disconnect"
        assert said == f"https://hangar.example/wren/record/{kind}-{title}.txt"


def test_without_an_address_cards_have_no_code() -> None:
    for sheet in sheets_in(files_of_example("fulmar")["pinout-cards.pdf"]):
        assert zxingcpp.read_barcodes(sheet.pixels(DOTS_PER_INCH)) == []
