"""Draw a wire's colour with its letters, so that grey paper tells it too."""

from __future__ import annotations

from docgen.basics.colours import colour_rgb, stripe_rgb, text_colour_on
from docgen.paperwork.typesetting.ink import THIN_MM, Box, Ink, Line, Text, rectangle
from docgen.paperwork.typesetting.typeface import width_mm


def swatch_width_mm(letters: str, height_mm: float) -> float:
    """Return the width of a swatch with its letters."""
    stripe = 2.0 if stripe_rgb(letters) else 0.0
    return width_mm(letters, height_mm, True) + 1.6 + stripe


def swatch(letters: str, x_mm: float, middle_mm: float, height_mm: float) -> list[Ink]:
    """Draw a swatch; a stripe is drawn as a stripe at its right, so that letters stand on one colour."""
    base, stripe = colour_rgb(letters), stripe_rgb(letters)
    box = Box(x_mm, middle_mm - height_mm / 2 - 0.7, swatch_width_mm(letters, height_mm), height_mm + 1.4)
    ink: list[Ink] = [rectangle(box, THIN_MM, base)]
    if stripe:
        band = Box(box.right_mm - 1.6, box.y_mm, 0.9, box.height_mm)
        ink.append(rectangle(band, THIN_MM, stripe))
    letters_colour = text_colour_on(base)
    base_mm = middle_mm + height_mm / 2
    ink.append(Text(x_mm + 0.8, base_mm, letters, height_mm, True, colour=letters_colour, cell=box))
    return ink


def strip(letters: str, box: Box, *, opens: bool = True, closes: bool = True) -> list[Ink]:
    """Draw a plain strip of a wire's colour, striped where the wire is; several wires share it.

    One that goes on over the next box has no line across where it does, so that it never looks like boxes to tick.
    """
    parts = letters.split("+")
    width = box.width_mm / len(parts)
    ink: list[Ink] = []
    for i, part in enumerate(parts):
        if not part:
            continue
        own = Box(box.x_mm + i * width, box.y_mm, width, box.height_mm)
        ink.append(rectangle(own, THIN_MM, colour_rgb(part), None))
        stripe = stripe_rgb(part)
        if stripe:
            band = Box(own.x_mm + width / 3, own.y_mm, width / 3, own.height_mm)
            ink += [rectangle(band, THIN_MM, stripe, None), *_sides(band)]
        ink += _sides(own)
    ends = [y for y, is_end in ((box.y_mm, opens), (box.bottom_mm, closes)) if is_end]
    return ink + [Line(box.x_mm, y, box.right_mm, y, THIN_MM) for y in ends]


def _sides(box: Box) -> list[Ink]:
    return [Line(x, box.y_mm, x, box.bottom_mm, THIN_MM) for x in (box.x_mm, box.right_mm)]
