"""Signs that pages carry: cautions in a frame."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.paperwork.typesetting.ink import BLACK, THICK_MM, Box, Circle, Ink, Line, Shape, Text, rectangle
from docgen.paperwork.typesetting.typeface import SMALL_MM, line_pitch_mm

SIGN_MM = 8.2  # from the frame's edge to the words


def caution_ink(lines: Sequence[str], box: Box) -> list[Ink]:
    """Return a framed caution with the general warning triangle (ISO 7010 W001)."""
    ink: list[Ink] = [rectangle(box, THICK_MM)]
    middle = box.y_mm + box.height_mm / 2
    left = box.x_mm + 1.6
    ink.append(Shape(((left, middle + 2.1), (left + 5, middle + 2.1), (left + 2.5, middle - 2.3)), THICK_MM))
    ink.append(Line(left + 2.5, middle - 0.9, left + 2.5, middle + 0.7, 0.6))
    ink.append(Circle(left + 2.5, middle + 1.45, 0.33, fill=BLACK, colour=None))
    first = middle - (len(lines) - 1) / 2 * line_pitch_mm(SMALL_MM) + SMALL_MM / 2
    for i, line in enumerate(lines):
        ink.append(Text(box.x_mm + SIGN_MM, first + i * line_pitch_mm(SMALL_MM), line, SMALL_MM, cell=box))
    return ink
