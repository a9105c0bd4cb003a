"""Set tables: columns as wide as texts need, longer texts smaller, then shortened and said in full."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.paperwork.typesetting.ink import Box, Ink, Text
from docgen.paperwork.typesetting.typeface import SMALL_MM, shortened, width_mm


@dataclass(frozen=True)
class Column:
    """A column: heading, capital height of its texts, how it is set; `gives` ones may be narrower than their texts."""

    heading: str
    height_mm: float
    bold: bool = False
    align: str = "left"
    gives: bool = False


GAP_MM = 2.0


def column_widths_mm(columns: Sequence[Column], rows: Sequence[Sequence[str]], room_mm: float) -> list[float]:
    """Return the width of each column; together with the gaps they fill the room."""
    wanted = [
        max([width_mm(column.heading, SMALL_MM)] + [width_mm(row[i], column.height_mm, column.bold) for row in rows])
        + 0.2
        for i, column in enumerate(columns)
    ]
    room = room_mm - GAP_MM * (len(columns) - 1)
    over = sum(wanted) - room
    giving = [i for i, column in enumerate(columns) if column.gives]
    if over <= 0 or not giving:
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
    """A cell's text as it is set: how high, and the whole text where it is shortened."""

    text: str
    height_mm: float
    whole: str = ""

    def ink(self, column: Column, box: Box, base_mm: float) -> Text:
        """Place it in its cell, on a base line."""
        at = box.right_mm if column.align == "right" else box.x_mm
        return Text(at, base_mm, self.text, self.height_mm, column.bold, column.align, cell=box)


def set_text(text: str, column: Column, room_mm: float) -> SetText:
    """Set one text: at the column's height, else smaller, else shortened."""
    height = column.height_mm
    natural = width_mm(text, 1, column.bold)
    if natural * height > room_mm:
        height = max(SMALL_MM, room_mm / natural - 1e-6)
    said = shortened(text, room_mm, height, column.bold)
    return SetText(said, height, text if said != text else "")


@dataclass(frozen=True)
class SetRow:
    """A row's texts as they are set; `key` tells it from others where its texts are said in full."""

    key: str
    texts: tuple[SetText, ...]

    @property
    def cut(self) -> list[str]:
        """Return the texts that are shortened."""
        return [text.whole for text in self.texts if text.whole]


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
        return [text.ink(column, cell, base) for text, column, cell in placed if text.text]

    def heading_ink(self, x_mm: float, base_mm: float) -> list[Ink]:
        """Return the headings of columns on one base line."""
        ink: list[Ink] = []
        for column, cell in zip(self.columns, self.cells(Box(x_mm, base_mm - 3, 0, 4)), strict=True):
            if column.heading:
                head = Column(column.heading, SMALL_MM, align=column.align)
                ink.append(set_text(column.heading, head, cell.width_mm).ink(head, cell, base_mm))
        return ink


def set_table(columns: Sequence[Column], rows: Sequence[Sequence[str]], room_mm: float) -> Table:
    """Set a table's texts; the first one of a row is its key."""
    widths = column_widths_mm(columns, rows, room_mm)
    set_rows = (
        SetRow(row[0], tuple(set_text(*cell) for cell in zip(row, columns, widths, strict=True))) for row in rows
    )
    return Table(tuple(columns), tuple(widths), tuple(set_rows))
