"""Set tables as blocks: columns of one document share their edges, step down together, and rows grow for what wraps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from docgen.paperwork.page_kit.blocks import GRID_MM, Block
from docgen.paperwork.typesetting.ink import BLACK, FAINT, MIDDLE_MM, THIN_MM, WHITE, Box, Ink, Line, Text, rectangle
from docgen.paperwork.typesetting.swatches import swatch, swatch_width_mm
from docgen.paperwork.typesetting.typeface import line_pitch_mm, width_mm, wrapped

HEIGHTS_MM = (7.0, 5.0, 3.5, 2.5, 1.8)  # ISO 3098, the series of capitals
LOOKED_UP_MM, TICKED_MM = 5.0, 7.0  # rows
TICK_MM, FIELD_MM = 4.0, 18.0
GAP_MM = 2.0
_PAD_MM = 1.1  # from type to the edge of its row


@dataclass(frozen=True)
class Tick:
    """A box to tick."""


@dataclass(frozen=True)
class Field:
    """A box to write a figure in."""

    width_mm: float = FIELD_MM


@dataclass(frozen=True)
class Swatch:
    """A wire's colour with its letters."""

    letters: str


Cell = str | Tick | Field | Swatch


@dataclass(frozen=True)
class Column:
    """A column: its heading, the capital height that its texts have if there is room, and the least; how they are set.

    What does not fit steps down by the whole column; at its least height texts of one that `wraps` go on below.
    """

    heading: str
    height_mm: float = 1.8
    least_mm: float = 1.8
    bold: bool = False
    align: str = "left"
    wraps: bool = True


@dataclass(frozen=True)
class Row:
    """One row; a hair line stands over it where the meaning parts."""

    cells: tuple[Cell, ...]
    rule: bool = False


@dataclass(frozen=True)
class Table:
    """Columns with their widths and heights found for all rows that are set with them."""

    columns: tuple[Column, ...]
    widths_mm: tuple[float, ...]
    row_mm: float
    indent_mm: float = 0.0
    _lines: dict[tuple[str, int], tuple[str, ...]] = field(default_factory=dict, compare=False)

    def head(self) -> Block:
        """Return the headings, over the rows that they belong to."""
        return Block(1.8 + 1.7, self._draw_head, stays=True)

    def block(self, row: Row, *, stays: bool = False) -> Block:
        """Return one row, as high as the text that wraps most needs it."""
        most = max(
            (len(self._wrapped(cell, i)) for i, cell in enumerate(row.cells) if isinstance(cell, str)), default=1
        )
        tallest = max(
            (self.columns[i].height_mm for i, cell in enumerate(row.cells) if isinstance(cell, str)), default=0
        )
        height = max(self.row_mm, (most - 1) * line_pitch_mm(tallest) + tallest + 2 * _PAD_MM)
        return Block(height, lambda box: self._draw_row(row, box), stays=stays)

    def blocks(self, rows: Sequence[Row]) -> list[Block]:
        """Return rows, of which the first two stay together, and the last two."""
        last = len(rows) - 1
        return [self.block(row, stays=i != last and i in (0, last - 1)) for i, row in enumerate(rows)]

    def _wrapped(self, text: str, index: int) -> tuple[str, ...]:
        column = self.columns[index]
        key = text, index
        if key not in self._lines:
            lines = wrapped(text, self.widths_mm[index], column.height_mm, column.bold) if column.wraps else [text]
            self._lines[key] = tuple(lines) or ("",)
        return self._lines[key]

    def _boxes(self, box: Box) -> list[Box]:
        boxes, left = [], box.x_mm + self.indent_mm
        for width in self.widths_mm:
            boxes.append(Box(left, box.y_mm, width, box.height_mm))
            left += width + GAP_MM
        return boxes

    def _draw_head(self, box: Box) -> list[Ink]:
        cells = zip(self.columns, self._boxes(box), strict=True)
        return [
            Text(_edge(cell, column.align), box.y_mm + 1.8, column.heading, 1.8, align=column.align, cell=cell)
            for column, cell in cells
            if column.heading
        ]

    def _draw_row(self, row: Row, box: Box) -> list[Ink]:
        ink: list[Ink] = []
        if row.rule:
            ink.append(Line(box.x_mm, box.y_mm, box.right_mm, box.y_mm, THIN_MM, FAINT))
        for index, (cell, at) in enumerate(zip(row.cells, self._boxes(box), strict=True)):
            ink += self._draw_text(cell, index, at) if isinstance(cell, str) else _draw_cell(cell, at)
        return ink

    def _draw_text(self, text: str, index: int, box: Box) -> list[Ink]:
        column, lines = self.columns[index], self._wrapped(text, index)
        if not text:
            return []
        pitch, high = line_pitch_mm(column.height_mm), column.height_mm
        first = box.y_mm + (box.height_mm - (len(lines) - 1) * pitch + high) / 2
        at = _edge(box, column.align)
        return [
            Text(at, first + i * pitch, line, high, column.bold, column.align, cell=box) for i, line in enumerate(lines)
        ]


def _edge(box: Box, align: str) -> float:
    return {"left": box.x_mm, "right": box.right_mm, "centre": box.x_mm + box.width_mm / 2}[align]


def _draw_cell(cell: Tick | Field | Swatch, box: Box) -> list[Ink]:
    middle = box.y_mm + box.height_mm / 2
    if isinstance(cell, Swatch):
        return swatch(cell.letters, box.x_mm, middle, 1.8) if cell.letters else []
    if isinstance(cell, Tick):
        return [rectangle(Box(box.x_mm, middle - TICK_MM / 2, TICK_MM, TICK_MM), MIDDLE_MM)]
    high = min(box.height_mm, TICKED_MM) - 1.4
    return [rectangle(Box(box.x_mm, middle - high / 2, cell.width_mm, high), MIDDLE_MM)]


def table(
    columns: Sequence[Column], rows: Sequence[Row], room_mm: float, row_mm: float = LOOKED_UP_MM, indent_mm: float = 0.0
) -> Table:
    """Return a table whose columns fit the room with all of these rows; an empty column goes on being empty.

    All texts of a column have one height: from the least all columns step up in turn, the first of them first, as
    long as there is room. Where there is none at the least heights, those that wrap share what is left.
    """
    room = room_mm - indent_mm - GAP_MM * (len(columns) - 1)
    chosen = [replace(column, height_mm=column.least_mm) for column in columns]
    wanted = [_natural_mm(column, rows, i) for i, column in enumerate(chosen)]
    for step in reversed(HEIGHTS_MM):
        for i, column in enumerate(columns):
            higher = replace(column, height_mm=step)
            more = _natural_mm(higher, rows, i) - wanted[i]
            if chosen[i].height_mm < step <= column.height_mm and sum(wanted) + more <= room:
                chosen[i], wanted[i] = higher, wanted[i] + more
    return Table(tuple(chosen), tuple(_shared(chosen, rows, wanted, room)), row_mm, indent_mm)


def _natural_mm(column: Column, rows: Sequence[Row], index: int) -> float:
    return max([width_mm(column.heading, 1.8), *(_cell_mm(column, row.cells[index]) for row in rows)]) + 0.2


def _cell_mm(column: Column, cell: Cell) -> float:
    if isinstance(cell, str):
        return width_mm(cell, column.height_mm, column.bold)
    if isinstance(cell, Swatch):
        return swatch_width_mm(cell.letters, 1.8) if cell.letters else 0.0
    return TICK_MM if isinstance(cell, Tick) else cell.width_mm


def _shared(columns: Sequence[Column], rows: Sequence[Row], wanted: list[float], room: float) -> list[float]:
    """Return widths that fill the room: what is left over goes to the columns that wrap, what lacks is taken there."""
    giving = [i for i, column in enumerate(columns) if column.wraps and column.align == "left"]
    texts = [i for i in giving if any(isinstance(row.cells[i], str) and row.cells[i] for row in rows)] or giving
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
    text: str, height_mm: float = 2.5, says: str = "", above_mm: float = 2 * GRID_MM, row_mm: float = LOOKED_UP_MM
) -> Block:
    """Return a heading in one line, with what it adds at its right; it stays with what follows."""

    def draw(box: Box) -> list[Ink]:
        base = box.bottom_mm - 1.2
        ink: list[Ink] = [Text(box.x_mm, base, text, height_mm, bold=True)]
        return [*ink, Text(box.right_mm, base, says, 1.8, align="right")] if says else ink

    return Block(max(row_mm, height_mm + 2), draw, above_mm, stays=True)


def band(text: str) -> Block:
    """Return a reversed band with a name, as a thumb index from the edge of the area."""

    def draw(box: Box) -> list[Ink]:
        whole = Box(box.x_mm, box.y_mm, box.width_mm, 6.0)
        base = box.y_mm + 3 + 2.5 / 2
        return [rectangle(whole, THIN_MM, BLACK), Text(box.x_mm + 2, base, text, 2.5, True, colour=WHITE, cell=whole)]

    return Block(6.0 + 1.5, draw, 2 * GRID_MM, stays=True)


def lines(text: str, room_mm: float, height_mm: float = 1.8, above_mm: float = 0.0, *, stays: bool = False) -> Block:
    """Return running text, broken into lines."""
    said = wrapped(text, room_mm, height_mm)
    pitch = line_pitch_mm(height_mm)

    def draw(box: Box) -> list[Ink]:
        return [Text(box.x_mm, box.y_mm + height_mm + i * pitch, line, height_mm) for i, line in enumerate(said)]

    return Block(len(said) * pitch + 0.7, draw, above_mm, stays)
