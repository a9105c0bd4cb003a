"""Set tables: columns as wide as texts need, longer texts smaller, then shortened and said in full."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.paperwork.imprint import SMALL_MM
from docgen.paperwork.marks import Box, Mark, Text
from docgen.paperwork.typeface import shortened, width_mm


@dataclass(frozen=True)
class Column:
    """A column: heading, capital height of its texts, and how it is set.

    `gives` columns may be narrower than their widest text; `fixed_mm` is a width of its own.
    """

    heading: str
    height_mm: float
    bold: bool = False
    align: str = "left"
    gives: bool = False
    fixed_mm: float | None = None
    least_mm: float = SMALL_MM


GAP_MM = 2.0


def column_widths_mm(columns: Sequence[Column], rows: Sequence[Sequence[str]], room_mm: float) -> list[float]:
    """Return the width of each column; together with the gaps they fill the room."""
    wanted = [
        column.fixed_mm
        if column.fixed_mm is not None
        else max(
            [width_mm(column.heading, SMALL_MM)] + [width_mm(row[i], column.height_mm, column.bold) for row in rows]
        )
        + 0.2
        for i, column in enumerate(columns)
    ]
    room = room_mm - GAP_MM * (len(columns) - 1)
    over = sum(wanted) - room
    giving = [i for i, column in enumerate(columns) if column.gives]
    if over <= 0 or not giving:
        if giving:
            for i in giving:
                wanted[i] += -over / len(giving)
        return wanted
    left = room - sum(width for i, width in enumerate(wanted) if i not in giving)
    for i, share in _fair_shares({i: wanted[i] for i in giving}, left).items():
        wanted[i] = share
    return wanted


def _fair_shares(wanted: dict[int, float], room: float) -> dict[int, float]:
    """Share room: who wants less than an equal part gets what it wants, the others share the rest alike."""
    shares: dict[int, float] = {}
    left = dict(wanted)
    while left:
        part = (room - sum(shares.values())) / len(left)
        small = {i: width for i, width in left.items() if width <= part}
        if not small:
            shares.update(dict.fromkeys(left, max(part, 4.0)))
            break
        shares.update(small)
        left = {i: width for i, width in left.items() if i not in small}
    return shares


@dataclass(frozen=True)
class SetText:
    """A cell's text as it is set, and the whole text where that was shortened."""

    mark: Text
    whole: str = ""


def set_cell(text: str, column: Column, box: Box, base_mm: float) -> SetText:
    """Set one text in its cell: at the column's height, else smaller down to the least, else shortened."""
    height = column.height_mm
    natural = width_mm(text, 1, column.bold)
    if natural * height > box.width_mm:
        height = max(column.least_mm, box.width_mm / natural - 1e-6)
    said = shortened(text, box.width_mm, height, column.bold)
    at = {"left": box.x_mm, "right": box.right_mm, "centre": box.x_mm + box.width_mm / 2}[column.align]
    mark = Text(at, base_mm, said, height, column.bold, column.align, cell=box)
    return SetText(mark, text if said != text else "")


def shortened_in(columns: Sequence[Column], widths: Sequence[float], row: Sequence[str]) -> list[str]:
    """Return the texts of a row that are shortened at these widths."""
    cells = zip(row, columns, widths, strict=True)
    return [text for text, column, width in cells if text and set_cell(text, column, Box(0, 0, width, 0), 0).whole]


def heading_marks(columns: Sequence[Column], widths: Sequence[float], x_mm: float, base_mm: float) -> list[Mark]:
    """Return the headings of columns on one base line."""
    marks: list[Mark] = []
    for column, width in zip(columns, widths, strict=True):
        if column.heading:
            box = Box(x_mm, base_mm - 3, width, 4)
            head = Column(column.heading, SMALL_MM, align=column.align)
            marks.append(set_cell(column.heading, head, box, base_mm).mark)
        x_mm += width + GAP_MM
    return marks
