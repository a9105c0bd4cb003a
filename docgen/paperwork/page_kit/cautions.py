"""Cautions in a frame with the general warning triangle."""

from __future__ import annotations

from docgen.paperwork.page_kit.blocks import GRID_MM, Block
from docgen.paperwork.typesetting.signs import SIGN_MM, caution_ink
from docgen.paperwork.typesetting.typeface import SMALL_MM, line_pitch_mm, wrapped


def caution(text: str, room_mm: float, above_mm: float = GRID_MM, *, stays: bool = False) -> Block:
    """Return a framed caution with the general warning triangle (ISO 7010 W001), as wide as the room."""
    lines = wrapped(text, room_mm - SIGN_MM - 2, SMALL_MM)
    height = max(len(lines) * line_pitch_mm(SMALL_MM) + 2.6, 7.0)
    return Block(height, lambda box: caution_ink(lines, box), above_mm, stays)
