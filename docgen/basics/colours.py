"""Colours of wires: letters, words and what they look like on paper."""

from __future__ import annotations

from docgen.basics.findings import Refused, shown

# Letters and their order: IEC 60757 (GOST 28763-90 reprints the 1983 edition). The sRGB values are ours.
COLOURS: dict[str, tuple[str, str]] = {
    "BK": ("black", "#000000"),
    "BN": ("brown", "#7B3F00"),
    "RD": ("red", "#C00000"),
    "OG": ("orange", "#FF8000"),
    "YE": ("yellow", "#FFE600"),
    "GN": ("green", "#008000"),
    "BU": ("blue", "#0050C8"),
    "VT": ("violet", "#800080"),
    "GY": ("grey", "#808080"),
    "WH": ("white", "#FFFFFF"),
    "PK": ("pink", "#FFC0CB"),
    "GD": ("gold", "#C9A227"),
    "TQ": ("turquoise", "#40E0D0"),
    "SR": ("silver", "#C8C8C8"),
}
GREEN_AND_YELLOW = "GNYE"

# The resistor code of IEC 60062 counts 0 to 9 in this order; what it has no digit for comes after.
_ORDER = {letters: number for number, letters in enumerate(COLOURS)}


def parse_colour(text: str) -> str:
    """Check colour letters: one pair, `GNYE`, or two pairs for a striped wire, base first."""
    pairs = [text[i : i + 2] for i in range(0, len(text), 2)]
    if text == GREEN_AND_YELLOW or (
        set(pairs) != {"GN", "YE"}
        and 0 < len(pairs) <= 2
        and all(pair in COLOURS for pair in pairs)
        and len(set(pairs)) == len(pairs)
    ):
        return text
    letters = ", ".join(COLOURS)
    do = f"Use {letters}, GNYE, or two for a striped wire, base first, like `WHRD`."
    raise Refused("value", f"{shown(text)} is no colour by its letters.", do)


def colour_rgb(letters: str) -> str:
    """Return the base colour of a wire or tube as `#RRGGBB`."""
    return COLOURS[letters[:2]][1]


def stripe_rgb(letters: str) -> str | None:
    """Return the colour of the stripe as `#RRGGBB`, if there is one."""
    return COLOURS[letters[2:]][1] if letters[2:] else None


def colour_words(letters: str) -> str:
    """Say a colour in words: `white, red stripe`; of several wires (`BK+RD`) one after the other."""
    if "+" in letters:
        return " + ".join(colour_words(part) for part in letters.split("+"))
    if letters == GREEN_AND_YELLOW:
        return "green and yellow"
    base, stripe = letters[:2], letters[2:]
    return f"{COLOURS[base][0]}, {COLOURS[stripe][0]} stripe" if stripe else COLOURS[base][0]


def colour_order(letters: str) -> tuple[int, ...]:
    """Return a sort key: the order of the resistor code, plain before striped, one wire before several."""
    parts = letters.split("+")
    first = [_ORDER[part[i : i + 2]] for part in parts for i in range(0, len(part), 2)]
    return (len(parts), *first)


def relative_luminance(rgb: str) -> float:
    """Return the relative luminance of `#RRGGBB`, 0 to 1. Source: WCAG 2.1, definition."""
    channels = [int(rgb[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast_ratio(one: str, other: str) -> float:
    """Return the contrast of two colours, 1 to 21. Source: WCAG 2.1, definition."""
    high, low = sorted((relative_luminance(one), relative_luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def text_colour_on(rgb: str) -> str:
    """Return black or white, whichever stands out more; one of them always reaches 4.5."""
    return max(("#000000", "#FFFFFF"), key=lambda ink: contrast_ratio(ink, rgb))
