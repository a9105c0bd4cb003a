"""Take a cell of a table; return the box to tick, or to write in, that stands in it."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.paperwork.typesetting.ink import MIDDLE_MM, Box, Ink, rectangle

ROW_MM = 7.0  # of a row that is ticked
TICK_MM = 4.0


def box_in(cell: Box, width_mm: float, height_mm: float) -> Ink:
    """Return a box at the left of a cell, in the middle of its height."""
    return rectangle(Box(cell.x_mm, cell.y_mm + (cell.height_mm - height_mm) / 2, width_mm, height_mm), MIDDLE_MM)


def tick_box(cell: Box) -> Ink:
    """Return the box to tick in a cell."""
    return box_in(cell, TICK_MM, TICK_MM)


def tick_last(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:  # noqa: ARG001 - every row has the same box
    """Return the box to tick in the last column."""
    return [tick_box(cells[-1]._replace(x_mm=cells[-1].x_mm + 0.5))]
