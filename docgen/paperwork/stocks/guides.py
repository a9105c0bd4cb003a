"""What helps to cut and fold labels: outlines, folds, and where paper laps over its beginning."""

from __future__ import annotations

from docgen.paperwork.typesetting.ink import BLACK, FAINT, THIN_MM, Box, Ink, Line, Shape, rectangle

_ARROW_MM, _TICK_MM = 4.0, 1.0


def outline(length_mm: float, high_mm: float) -> Ink:
    """Return the outline to cut along."""
    return rectangle(Box(0, 0, length_mm, high_mm), THIN_MM, colour=FAINT)


def strip_guides(length_mm: float, high_mm: float, blank_mm: float) -> tuple[Ink, ...]:
    """Return the outline of a strip, and where its blank edge begins, which goes on the wires first."""
    y = high_mm - blank_mm
    ticks = (Line(x, y, x + _TICK_MM, y, THIN_MM, FAINT) for x in (0, length_mm - _TICK_MM))
    return outline(length_mm, high_mm), *ticks


def flag_guides(half_mm: float, round_mm: float, high_mm: float, arrow: str = BLACK) -> tuple[Ink, ...]:
    """Return the outline of a flag, where it folds, and an arrow up, along the wire, to the plug."""
    whole = 2 * half_mm + round_mm
    folds = (Line(x, 0, x, high_mm, THIN_MM, FAINT) for x in (half_mm, half_mm + round_mm))
    return outline(whole, high_mm), *folds, _arrow(whole / 2, high_mm / 2, arrow)


def _arrow(x: float, y: float, colour: str) -> Shape:
    top = y - _ARROW_MM / 2
    points = ((x, top), (x + 1.6, top + 2), (x + 0.5, top + 2), (x + 0.5, top + _ARROW_MM), (x - 0.5, top + _ARROW_MM))
    return Shape((*points, (x - 0.5, top + 2), (x - 1.6, top + 2)), THIN_MM, colour, None)
