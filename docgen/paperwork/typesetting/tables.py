"""Set tables: columns as wide as texts need, longer texts smaller, then shortened and said in full."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.paperwork.typesetting.ink import Box, Ink, Text
from docgen.paperwork.typesetting.typeface import SMALL_MM, line_pitch_mm, shortened, width_mm


@dataclass(frozen=True)
class Column:
    """A column: heading, capital height of its texts, and how it is set.

    `gives` columns may be narrower than their widest text; `fixed_mm` is a width of its own. One that `wraps` breaks
    a text that does not fit into two lines, where both fit at the least height.
    """

    heading: str
    height_mm: float
    bold: bool = False
    align: str = "left"
    gives: bool = False
    fixed_mm: float | None = None
    least_mm: float = SMALL_MM
    wraps: bool = False


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
    """A cell's text as it is set, in one line or two, and the whole text where that was shortened."""

    ink: tuple[Text, ...]
    whole: str = ""


def set_cell(text: str, column: Column, box: Box, base_mm: float) -> SetText:
    """Set one text in its cell: at the column's height, else smaller, else in two lines, else shortened."""
    height = column.height_mm
    natural = width_mm(text, 1, column.bold)
    at = {"left": box.x_mm, "right": box.right_mm, "centre": box.x_mm + box.width_mm / 2}[column.align]

    def line(said: str, base: float, high: float) -> Text:
        return Text(at, base, said, high, column.bold, column.align, cell=box)

    if natural * column.least_mm > box.width_mm and column.wraps:
        halves = _halves(text, box.width_mm, column)
        if halves is not None:
            pitch = line_pitch_mm(column.least_mm)
            first = base_mm - (height + pitch - column.least_mm) / 2
            return SetText((line(halves[0], first, column.least_mm), line(halves[1], first + pitch, column.least_mm)))
    if natural * height > box.width_mm:
        height = max(column.least_mm, box.width_mm / natural - 1e-6)
    said = shortened(text, box.width_mm, height, column.bold)
    return SetText((line(said, base_mm, height),), text if said != text else "")


def _halves(text: str, room_mm: float, column: Column) -> tuple[str, str] | None:
    """Return a text in two lines, broken at a blank or else behind a hyphen, where both fit at the least height."""
    breaks = [index + 1 for ink in "- " for index, character in enumerate(text[:-1]) if character == ink]
    for index in reversed(breaks):
        first, second = text[:index].rstrip(), text[index:].lstrip()
        if all(width_mm(half, column.least_mm, column.bold) <= room_mm for half in (first, second)):
            return first, second
    return None


def row_height_mm(columns: Sequence[Column], widths: Sequence[float], row: Sequence[str]) -> float:
    """Return the least height of a row: of two lines, where a text in it is broken into them."""
    lines = (
        len(set_cell(text, column, Box(0, 0, width, 0), 0).ink)
        for column, width, text in zip(columns, widths, row, strict=True)
        if column.wraps and text
    )
    return 2 * line_pitch_mm(SMALL_MM) + 0.1 if max(lines, default=1) > 1 else 0.0


def shortened_in(columns: Sequence[Column], widths: Sequence[float], row: Sequence[str]) -> list[str]:
    """Return the texts of a row that are shortened at these widths."""
    cells = zip(row, columns, widths, strict=True)
    return [text for text, column, width in cells if text and set_cell(text, column, Box(0, 0, width, 0), 0).whole]


def heading_ink(columns: Sequence[Column], widths: Sequence[float], x_mm: float, base_mm: float) -> list[Ink]:
    """Return the headings of columns on one base line."""
    ink: list[Ink] = []
    for column, width in zip(columns, widths, strict=True):
        if column.heading:
            box = Box(x_mm, base_mm - 3, width, 4)
            head = Column(column.heading, SMALL_MM, align=column.align)
            ink += set_cell(column.heading, head, box, base_mm).ink
        x_mm += width + GAP_MM
    return ink
