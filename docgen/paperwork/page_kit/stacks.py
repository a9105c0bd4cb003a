"""Take lines of several heights; return how high they are below each other, and their ink."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from docgen.paperwork.typesetting.ink import Box, Ink, Text
from docgen.paperwork.typesetting.typeface import SMALL_MM, line_pitch_mm

_BELOW = 0.31  # how far letters of the face reach below the base line, over the height of capitals
_CLEAR_MM = 0.3  # between lines of different heights


class SetLine(NamedTuple):
    """One line, the height of its capitals and its weight."""

    text: str
    height_mm: float
    bold: bool


def stack_of(over: str, line: SetLine, under: str) -> list[SetLine]:
    """Return a line with small ones over and under it, those that say nothing left out."""
    lines = SetLine(over, SMALL_MM, False), line, SetLine(under, SMALL_MM, False)
    return [each for each in lines if each.text] or [line]


def stack_mm(lines: Sequence[SetLine]) -> float:
    """Return the height of lines, from the capitals of the first to the base line of the last."""
    if len(lines) == 1:  # as nearly all are
        return lines[0].height_mm
    return sum(line.height_mm for line in lines) + sum(_gap_mm(*both) for both in pairwise(lines))


def _gap_mm(line: SetLine, following: SetLine) -> float:
    """Return what is between two lines: that of running text, or what letters reach down and a little more."""
    if line.height_mm == following.height_mm:
        return line_pitch_mm(line.height_mm) - line.height_mm
    return below_mm([line]) + _CLEAR_MM


def below_mm(lines: Sequence[SetLine]) -> float:
    """Return how far the last line reaches below its base line."""
    return lines[-1].height_mm * _BELOW


def set_lines(lines: Sequence[SetLine], align: str, box: Box, top_mm: float) -> list[Ink]:
    """Return the ink of lines below each other, from the top of the first one's capitals."""
    edge = box.right_mm if align == "right" else box.x_mm
    steps = (_gap_mm(*both) + both[1].height_mm for both in pairwise(lines))
    bases = accumulate(steps, initial=top_mm + lines[0].height_mm) if lines else ()
    return [
        Text(edge, base, line.text, line.height_mm, line.bold, align, cell=box)
        for base, line in zip(bases, lines, strict=True)
        if line.text
    ]
