"""Set tables as blocks: columns of one document share their edges, step down together, and rows grow for what wraps."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import field, replace
from typing import NamedTuple

from docgen.basics.frozen import frozen
from docgen.paperwork.page_kit.blocks import GRID_MM, Block, Group
from docgen.paperwork.page_kit.cells import Cell, Mark, Stacked
from docgen.paperwork.page_kit.stacks import SetLine, below_mm, set_lines, stack_mm, stack_of
from docgen.paperwork.typesetting.ink import BLACK, FAINT, THIN_MM, WHITE, Box, Ink, Line, Text, rectangle
from docgen.paperwork.typesetting.typeface import SMALL_MM, line_pitch_mm, width_mm, wrapped

HEIGHTS_MM = (7.0, 5.0, 3.5, 2.5, 1.8)  # ISO 3098, the series of capitals
LOOKED_UP_MM, TICKED_MM = 5.0, 7.0  # rows
GAP_MM = 2.0
_PAD_MM, _FIGURES_PAD_MM = 1.1, 0.7  # from type to the edge of its row
_STACK_PAD_MM = 0.4  # from the ink of stacked texts to that


@frozen
class Column:
    """A column: its heading, the capital height that its texts have if there is room, and the least; how they are set.

    What does not fit steps down by the whole column; at its least height texts of one that `wraps` go on below. The
    text of a stacked heading is 2.5 mm high; a plain one may have several lines.
    """

    heading: str | Stacked
    height_mm: float = 1.8
    least_mm: float = 1.8
    bold: bool = False
    align: str = "left"
    wraps: bool = True


@frozen
class Row:
    """One row; a hair line stands over it where the meaning parts."""

    cells: tuple[Cell, ...]
    rule: bool = False


@frozen
class Table:
    """Columns with their widths and heights found for all rows that are set with them."""

    columns: tuple[Column, ...]
    widths_mm: tuple[float, ...]
    row_mm: float
    indent_mm: float = 0.0
    _lines: dict[tuple[str | Stacked, int], list[SetLine]] = field(default_factory=dict, compare=False)

    def head(self) -> Block:
        """Return the headings, over the rows that they belong to."""
        return Block(max(stack_mm(_head_lines(column)) for column in self.columns) + 1.7, self._draw_head, stays=True)

    def block(self, row: Row, *, stays: bool = False) -> Block:
        """Return one row, as high as the cell that needs most."""
        height = max(self.row_mm, *(self._least_mm(cell, i) for i, cell in enumerate(row.cells)))
        return Block(height, lambda box: self._draw_row(row, box), stays=stays)

    def blocks(self, rows: Sequence[Row]) -> list[Block]:
        """Return rows, of which the first two stay together, and the last two."""
        last = len(rows) - 1
        return [self.block(row, stays=i != last and i in (0, last - 1)) for i, row in enumerate(rows)]

    def _least_mm(self, cell: Cell, index: int) -> float:
        if isinstance(cell, Stacked):
            lines = self._lines_of(cell, index)
            return stack_mm(lines) + below_mm(lines) + 2 * _STACK_PAD_MM
        # Figures, which end at the right, have nothing below their line.
        pad = _FIGURES_PAD_MM if self.columns[index].align == "right" else _PAD_MM
        return stack_mm(self._lines_of(cell, index)) + 2 * pad if isinstance(cell, str) else 0.0

    def _lines_of(self, cell: str | Stacked, index: int) -> list[SetLine]:
        """Return the lines of a cell; they are kept, as its row asks for its height before it is drawn."""
        lines = self._lines.get((cell, index))
        if lines is None:
            column, width = self.columns[index], self.widths_mm[index]
            stack = cell if isinstance(cell, Stacked) else Stacked(cell)
            lines = stack_of(stack.over, SetLine(stack.text, column.height_mm, column.bold), stack.under)
            if column.wraps:
                lines = [
                    SetLine(text, *line[1:]) for line in lines for text in wrapped(line.text, width, *line[1:])
                ] or lines
            self._lines[cell, index] = lines
        return lines

    def _boxes(self, box: Box) -> list[Box]:
        boxes, left = [], box.x_mm + self.indent_mm
        for width in self.widths_mm:
            boxes.append(Box(left, box.y_mm, width, box.height_mm))
            left += width + GAP_MM
        return boxes

    def _draw_head(self, box: Box) -> list[Ink]:
        cells = zip(self.columns, self._boxes(box), strict=True)
        return [ink for column, cell in cells for ink in set_lines(_head_lines(column), column.align, cell, cell.y_mm)]

    def _draw_row(self, row: Row, box: Box) -> list[Ink]:
        ink: list[Ink] = []
        if row.rule:
            ink.append(Line(box.x_mm, box.y_mm, box.right_mm, box.y_mm, THIN_MM, FAINT))
        for index, (cell, at) in enumerate(zip(row.cells, self._boxes(box), strict=True)):
            ink += self._draw_text(cell, index, at) if isinstance(cell, str | Stacked) else cell.draw(at)
        return ink

    def _draw_text(self, cell: str | Stacked, index: int, box: Box) -> list[Ink]:
        lines = self._lines_of(cell, index)
        high = stack_mm(lines) + (below_mm(lines) / 2 if isinstance(cell, Stacked) else 0.0)
        return set_lines(lines, self.columns[index].align, box, box.y_mm + (box.height_mm - high) / 2)


def _head_lines(column: Column) -> list[SetLine]:
    heading = column.heading
    if isinstance(heading, str):
        return [SetLine(line, SMALL_MM, False) for line in heading.split("\n")]
    return stack_of(heading.over, SetLine(heading.text, 2.5, True), heading.under)


def table(
    columns: Sequence[Column], rows: Sequence[Row], room_mm: float, row_mm: float = LOOKED_UP_MM, indent_mm: float = 0.0
) -> Table:
    """Return a table whose columns fit the room with all of these rows; an empty column goes on being empty.

    All texts of a column have one height: from the least all columns step up in turn, the first of them first, as
    long as there is room. Where there is none at the least heights, those that wrap share what is left.
    """
    room = room_mm - indent_mm - GAP_MM * (len(columns) - 1)
    chosen = [replace(column, height_mm=column.least_mm) for column in columns]
    widest = [_Widest.of(column, [row.cells[i] for row in rows]) for i, column in enumerate(columns)]
    wanted = [each.natural_mm(column.height_mm) for column, each in zip(chosen, widest, strict=True)]
    for step in reversed(HEIGHTS_MM):
        for i, column in enumerate(columns):
            if chosen[i].height_mm < step <= column.height_mm:
                more = widest[i].natural_mm(step) - wanted[i]
                if sum(wanted) + more <= room:
                    chosen[i], wanted[i] = replace(column, height_mm=step), wanted[i] + more
    return Table(tuple(chosen), tuple(_shared(chosen, rows, wanted, room)), row_mm, indent_mm)


class _Widest(NamedTuple):
    """The widest of a column: of its texts at a height of 1 mm, as they grow with it, and of all else [mm]."""

    text: float
    fixed_mm: float

    @classmethod
    def of(cls, column: Column, cells: Sequence[Cell]) -> _Widest:
        """Return what is widest of a column's heading and cells."""
        texts = [cell.text if isinstance(cell, Stacked) else cell for cell in cells if isinstance(cell, str | Stacked)]
        small = [text for cell in cells if isinstance(cell, Stacked) for text in (cell.over, cell.under)]
        fixed_mm = [width_mm(*line) for line in _head_lines(column)] + [width_mm(text, SMALL_MM) for text in small]
        fixed_mm += [cell.natural_mm for cell in cells if isinstance(cell, Mark)]
        return cls(max((width_mm(text, 1.0, column.bold) for text in texts), default=0.0), max(fixed_mm, default=0.0))

    def natural_mm(self, height_mm: float) -> float:
        """Return how wide the column must be with texts of a height."""
        return max(self.text * height_mm, self.fixed_mm) + 0.2


def _shared(columns: Sequence[Column], rows: Sequence[Row], wanted: list[float], room: float) -> list[float]:
    """Return widths that fill the room: what is left over goes to the columns that wrap, what lacks is taken there."""
    giving = [i for i, column in enumerate(columns) if column.wraps and column.align == "left"]
    texts = [
        i for i in giving if any(isinstance(row.cells[i], str | Stacked) and row.cells[i] for row in rows)
    ] or giving
    if not texts:
        return wanted
    left = room - sum(width for i, width in enumerate(wanted) if i not in texts)
    if sum(wanted[i] for i in texts) <= left:
        spare = (left - sum(wanted[i] for i in texts)) / len(texts)
        return [width + spare if i in texts else width for i, width in enumerate(wanted)]
    shares: dict[int, float] = {}
    open_ones = sorted(texts, key=lambda i: wanted[i])
    for done, i in enumerate(open_ones):  # who wants less than an equal part gets it, the others share the rest
        shares[i] = min(wanted[i], (left - sum(shares.values())) / (len(open_ones) - done))
    return [shares.get(i, width) for i, width in enumerate(wanted)]


def heading(
    text: str,
    height_mm: float = 2.5,
    says: str = "",
    above_mm: float = 2 * GRID_MM,
    row_mm: float = LOOKED_UP_MM,
    room_mm: float = math.inf,
) -> Block:
    """Return a heading that stays with what follows; what it adds is at its right, below where both don't fit."""
    title = wrapped(text, room_mm, height_mm, bold=True)
    is_beside = len(title) == 1 and width_mm(text, height_mm, True) + GAP_MM + width_mm(says, 1.8) <= room_mm
    below = [] if is_beside else wrapped(says, room_mm, 1.8)
    pitch, below_mm = line_pitch_mm(height_mm), len(below) * line_pitch_mm(1.8)

    def draw(box: Box) -> list[Ink]:
        base = box.bottom_mm - 1.2 - below_mm
        first = base - (len(title) - 1) * pitch
        ink: list[Ink] = [Text(box.x_mm, first + i * pitch, line, height_mm, bold=True) for i, line in enumerate(title)]
        if is_beside and says:
            ink.append(Text(box.right_mm, base, says, 1.8, align="right"))
        return ink + [Text(box.x_mm, base + (i + 1) * line_pitch_mm(1.8), line, 1.8) for i, line in enumerate(below)]

    return Block(max(row_mm, height_mm + 2) + (len(title) - 1) * pitch + below_mm, draw, above_mm, stays=True)


def band(text: str) -> Block:
    """Return a reversed band with a name, as a thumb index from the edge of the area."""

    def draw(box: Box) -> list[Ink]:
        whole = Box(box.x_mm, box.y_mm, box.width_mm, 6.0)
        base = box.y_mm + 3 + 2.5 / 2
        return [rectangle(whole, THIN_MM, BLACK), Text(box.x_mm + 2, base, text, 2.5, True, colour=WHITE, cell=whole)]

    return Block(6.0 + 1.5, draw, 2 * GRID_MM, stays=True)


def notice(title: str, text: str, room_mm: float) -> list[Group]:
    """Return a text below a heading at the head of a document, or nothing where there is none."""
    return [Group((heading(title, above_mm=0, room_mm=room_mm), lines(text, room_mm)))] if text else []


def lines(text: str, room_mm: float, height_mm: float = 1.8, above_mm: float = 0.0, *, stays: bool = False) -> Block:
    """Return running text, broken into lines."""
    said = wrapped(text, room_mm, height_mm)
    pitch = line_pitch_mm(height_mm)

    def draw(box: Box) -> list[Ink]:
        return [Text(box.x_mm, box.y_mm + height_mm + i * pitch, line, height_mm) for i, line in enumerate(said)]

    return Block(len(said) * pitch + 0.7, draw, above_mm, stays)
