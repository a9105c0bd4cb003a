"""Cautions in a frame with the general warning triangle."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.paperwork.page_kit.blocks import GRID_MM, Block
from docgen.paperwork.typesetting.ink import BLACK, THICK_MM, Box, Circle, Ink, Line, Shape, Text, rectangle
from docgen.paperwork.typesetting.typeface import SMALL_MM, line_pitch_mm, wrapped

_SIGN_MM = 8.2  # from the frame's edge to the words


def caution(text: str, room_mm: float, above_mm: float = GRID_MM, *, stays: bool = False) -> Block:
    """Return a framed caution with the general warning triangle (ISO 7010 W001), as wide as the room."""
    lines = wrapped(text, room_mm - _SIGN_MM - 2, SMALL_MM)
    height = max(len(lines) * line_pitch_mm(SMALL_MM) + 2.6, 7.0)
    return Block(height, lambda box: _draw(lines, box), above_mm, stays)


def _draw(lines: Sequence[str], box: Box) -> list[Ink]:
    middle, left = box.y_mm + box.height_mm / 2, box.x_mm + 1.6
    ink: list[Ink] = [
        rectangle(box, THICK_MM),
        Shape(((left, middle + 2.1), (left + 5, middle + 2.1), (left + 2.5, middle - 2.3)), THICK_MM),
        Line(left + 2.5, middle - 0.9, left + 2.5, middle + 0.7, 0.6),
        Circle(left + 2.5, middle + 1.45, 0.33, fill=BLACK, colour=None),
    ]
    pitch = line_pitch_mm(SMALL_MM)
    first = middle - (len(lines) - 1) / 2 * pitch + SMALL_MM / 2
    return ink + [
        Text(box.x_mm + _SIGN_MM, first + i * pitch, line, SMALL_MM, cell=box) for i, line in enumerate(lines)
    ]
