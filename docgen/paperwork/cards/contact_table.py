"""The table of a half's card: a row for each used contact in, blocks out; commons are held together by a bracket."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from docgen.basics.frozen import frozen
from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.page_kit.cells import Cell, Swatch
from docgen.paperwork.page_kit.tables import Column, Row, table
from docgen.paperwork.typesetting.ink import THICK_MM, Box, Ink, Line
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM

_LANE_MM = 1.5  # of the bracket of a common
_LARGE_ROW_MM, _SMALL_ROW_MM = 4.8, 4.0


@frozen
class CardRow:
    """What one used contact carries behind its half: `goes` is the other end of the wire there."""

    contact: str
    colour: str
    gauge: str
    function: str
    goes: str
    mark: str
    common: str = ""


def contact_table(rows: Sequence[CardRow], width_mm: float, *, small: bool = False) -> tuple[Block, list[Block]]:
    """Return the headings and a block for each row, in the least type if `small`."""
    lanes = _lanes(rows)
    indent = _LANE_MM * max((lane.number + 1 for lane in lanes), default=0)
    unit = _gauge_unit(rows)
    high = SMALL_MM if small else PLAIN_MM
    columns = [
        Column("", high, high, bold=True, align="right", wraps=False),
        Column("colour", wraps=False),
        Column("function", high, SMALL_MM, bold=True),
        Column("goes to", high, SMALL_MM),
        Column(unit or "gauge", align="right", wraps=False),
        Column("mark", wraps=False),
    ]
    cells = [Row(_cells(row, unit), rule=_parts(rows, i)) for i, row in enumerate(rows)]
    as_set = table(columns, cells, width_mm, _SMALL_ROW_MM if small else _LARGE_ROW_MM, indent)
    return as_set.head(), [_bracketed(as_set.block(row), lanes, i) for i, row in enumerate(cells)]


def _gauge_unit(rows: Sequence[CardRow]) -> str:
    """Return the unit that all gauges of a card share, if they do; it stands in the heading then."""
    units = {row.gauge.partition(" ")[2] for row in rows if row.gauge}
    return units.pop() if len(units) == 1 else ""


def _cells(row: CardRow, unit: str) -> tuple[Cell, ...]:
    gauge = row.gauge.removesuffix(f" {unit}")
    return row.contact, Swatch(row.colour), row.function, row.goes, gauge, row.mark


def _parts(rows: Sequence[CardRow], index: int) -> bool:
    """Tell whether a hair line parts a row from the one before: they are of two functions."""
    return index > 0 and rows[index].function != rows[index - 1].function


@frozen
class _Lane:
    """The bracket that holds the contacts of a common together: its rows, and how far to the right it stands."""

    rows: tuple[int, ...]
    number: int


def _lanes(rows: Sequence[CardRow]) -> list[_Lane]:
    """Return the brackets of all commons, side by side where they pass each other."""
    lanes: list[_Lane] = []
    for common in dict.fromkeys(row.common for row in rows if row.common):
        held = tuple(index for index, row in enumerate(rows) if row.common == common)
        taken = {lane.number for lane in lanes if lane.rows[0] <= held[-1] and held[0] <= lane.rows[-1]}
        lanes.append(_Lane(held, next(number for number in range(len(lanes) + 1) if number not in taken)))
    return lanes


def _bracketed(block: Block, lanes: Sequence[_Lane], index: int) -> Block:
    return replace(block, draw=lambda box: [*block.draw(box), *_brackets(lanes, index, box)])


def _brackets(lanes: Sequence[_Lane], index: int, box: Box) -> list[Ink]:
    """Return this row's part of the brackets that pass it, with a tick to each contact that they hold."""
    ink: list[Ink] = []
    for lane in lanes:
        first, last = lane.rows[0], lane.rows[-1]
        if first <= index <= last:
            x, middle = box.x_mm + 0.4 + lane.number * _LANE_MM, box.y_mm + box.height_mm / 2
            top = middle if index == first and first != last else box.y_mm
            ink.append(Line(x, top, x, middle if index == last else box.bottom_mm, THICK_MM))
            if index in lane.rows:
                ink.append(Line(x, middle, x + 1, middle, THICK_MM))
    return ink
