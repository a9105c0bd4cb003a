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
    """A cell's text as it is set: in one line or two, how high, and the whole text where that was shortened."""

    lines: tuple[str, ...]
    height_mm: float
    whole: str = ""

    def ink(self, column: Column, box: Box, base_mm: float) -> list[Text]:
        """Place it in its cell; `base_mm` is the base line of one line at the column's height."""
        at = {"left": box.x_mm, "right": box.right_mm, "centre": box.x_mm + box.width_mm / 2}[column.align]
        pitch = line_pitch_mm(self.height_mm)
        if len(self.lines) > 1:
            base_mm -= (column.height_mm + pitch - self.height_mm) / 2
        return [
            Text(at, base_mm + i * pitch, line, self.height_mm, column.bold, column.align, cell=box)
            for i, line in enumerate(self.lines)
        ]


def set_text(text: str, column: Column, room_mm: float) -> SetText:
    """Set one text: at the column's height, else smaller, else in two lines, else shortened."""
    height = column.height_mm
    natural = width_mm(text, 1, column.bold)
    if natural * column.least_mm > room_mm and column.wraps:
        halves = _halves(text, room_mm, column)
        if halves is not None:
            return SetText(halves, column.least_mm)
    if natural * height > room_mm:
        height = max(column.least_mm, room_mm / natural - 1e-6)
    said = shortened(text, room_mm, height, column.bold)
    return SetText((said,), height, text if said != text else "")


def _halves(text: str, room_mm: float, column: Column) -> tuple[str, str] | None:
    """Return a text in two lines, broken at a blank or else behind a hyphen, where both fit at the least height."""
    breaks = [index + 1 for at in "- " for index, character in enumerate(text[:-1]) if character == at]
    for index in reversed(breaks):
        first, second = text[:index].rstrip(), text[index:].lstrip()
        if all(width_mm(half, column.least_mm, column.bold) <= room_mm for half in (first, second)):
            return first, second
    return None


@dataclass(frozen=True)
class SetRow:
    """A row's texts as they are set; `key` tells it from others where its texts are said in full."""

    key: str
    texts: tuple[SetText, ...]

    @property
    def cut(self) -> list[str]:
        """Return the texts that are shortened."""
        return [text.whole for text in self.texts if text.whole]

    @property
    def least_mm(self) -> float:
        """Return its least height: that of two lines, where a text is broken into them."""
        is_broken = any(len(text.lines) > 1 for text in self.texts)
        return 2 * line_pitch_mm(SMALL_MM) + 0.1 if is_broken else 0.0


@dataclass(frozen=True)
class Table:
    """A table whose texts are set, to be placed row by row."""

    columns: tuple[Column, ...]
    widths_mm: tuple[float, ...]
    rows: tuple[SetRow, ...]

    def cells(self, row: Box) -> list[Box]:
        """Return the cells of a row."""
        x_mm, boxes = row.x_mm, []
        for width in self.widths_mm:
            boxes.append(Box(x_mm, row.y_mm, width, row.height_mm))
            x_mm += width + GAP_MM
        return boxes

    def row_ink(self, index: int, cells: Sequence[Box]) -> list[Ink]:
        """Place the texts of a row in its cells."""
        base = cells[0].y_mm + (cells[0].height_mm + max(column.height_mm for column in self.columns)) / 2
        placed = zip(self.rows[index].texts, self.columns, cells, strict=True)
        return [ink for text, column, cell in placed if any(text.lines) for ink in text.ink(column, cell, base)]

    def heading_ink(self, x_mm: float, base_mm: float) -> list[Ink]:
        """Return the headings of columns on one base line."""
        ink: list[Ink] = []
        for column, cell in zip(self.columns, self.cells(Box(x_mm, base_mm - 3, 0, 4)), strict=True):
            if column.heading:
                head = Column(column.heading, SMALL_MM, align=column.align)
                ink += set_text(column.heading, head, cell.width_mm).ink(head, cell, base_mm)
        return ink


def set_table(
    columns: Sequence[Column],
    rows: Sequence[Sequence[str]],
    room_mm: float,
    like: Sequence[Sequence[str]] = (),
    key_column: int = 0,
) -> Table:
    """Set a table's texts; columns are as wide as the rows `like` need, where several tables are set alike."""
    widths = column_widths_mm(columns, like or rows, room_mm)
    set_rows = (
        SetRow(row[key_column], tuple(set_text(*cell) for cell in zip(row, columns, widths, strict=True)))
        for row in rows
    )
    return Table(tuple(columns), tuple(widths), tuple(set_rows))
