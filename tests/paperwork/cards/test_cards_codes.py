"""Codes of cards are read as a worn sheet in a dim hatch shows them: coarse, blurred and turned."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np
import pytest
import zxingcpp
from printed_cards import CardPage, PrintedCard, cards_of_example
from resolved import EXAMPLES, harness_of

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


def read_badly_seen(page: CardPage) -> str:
    """Read the only code on a page, which is in its lower right quarter."""
    pixels = page.pixels(DOTS_PER_INCH).astype(np.float64)
    pixels = pixels[pixels.shape[0] // 2 :, pixels.shape[1] // 2 :]
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


def test_the_codes_of_wren_lead_to_the_record_though_badly_seen() -> None:
    read = [[read_badly_seen(page) for page in card.pages] for card in cards_of_example("wren")]
    joints = ("left-root", "left-root", "right-root", "right-root")
    parts = [*(f"disconnect-{joint}" for joint in joints), "equipment-receiver"]
    assert read == [[f"https://hangar.example/wren/record/{part}.txt"] for part in parts]


def rows_as_text(card: PrintedCard, names: tuple[str, ...]) -> list[str]:
    """Say what a code carries of a half's table: contact, colour and gauge, function; only what has a wire."""
    rows = card.rows(names).items()
    return [f"{name} {row['colour']}{row['AWG']} {row['function']}" for name, row in rows if "colour" in row]


@pytest.mark.long
def test_the_codes_of_fulmar_carry_the_card_though_badly_seen() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    for card in cards_of_example("fulmar"):
        texts = list(dict.fromkeys(read_badly_seen(page) for page in card.pages))
        kind = "disconnect" if card.title in harness.disconnects else "equipment"
        # The half is the one that the card itself says below its title: `fixed half · sockets`.
        half = f"{card.texts[1].partition(' · ')[0]} " if kind == "disconnect" else ""
        [hash8] = set(re.findall(r"page \d of \d · ([0-9a-f]{8})\b", card.said))
        first = f"FM-12 {kind}-{card.title} {half}since A {hash8}"
        numbers = [f" {i}/{len(texts)}" for i in range(1, len(texts) + 1)] if len(texts) > 1 else [""]
        assert [text.split("\n")[0] for text in texts] == [first + number for number in numbers]
        lines = [line for text in texts for line in text.split("\n")[1:]]
        if kind == "disconnect":
            assert lines == rows_as_text(card, harness.disconnects[card.title].shell.contacts)
        else:
            ports = [port.name for port in harness.equipment[card.title].ports]
            rows = card.rows(ports)
            radio = (("channel", "ch"), ("fail-safe", "fail-safe"))
            said = {
                port: "".join(
                    f" {word} {row[key]}" for key, word in radio if row.get(key, "hold") not in ("hold", "centre")
                )
                for port, row in rows.items()
            }
            assert lines == [f"{port} {rows[port]['function']}{said[port]}" for port in ports]
