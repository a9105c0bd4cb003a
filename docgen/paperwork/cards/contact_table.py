"""The table of a pin-out card: what each contact carries, commons held together by a bracket."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.paperwork.typesetting.ink import THICK_MM, Box, Ink, Line
from docgen.paperwork.typesetting.swatches import swatch, swatch_width_mm
from docgen.paperwork.typesetting.tables import Column, Table, set_table
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM, line_pitch_mm, width_mm, wrapped
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

_LANE_MM = 1.5  # of the bracket of a common
_HEAD_MM = 5.0
_LEAST_ROW_MM = 3.3  # where rows would have to be lower, the table begins on another page
_FUNCTION_MM = 26.0  # up to this width functions are never shortened
_ROW_MM, _SPLIT_ROW_MM = 4.6, 4.4


@dataclass(frozen=True)
class CardRow:
    """What one contact carries; a spare one says so.

    `used` is the working current, or that of a jammed leg, in per cent of the contact's rating.
    """

    contact: str
    colour: str
    gauge: str
    function: str
    start: str
    load: str
    mark: str
    common: str = ""
    used: str = ""


def add_table(writer: PageWriter, rows: Sequence[CardRow], said: Sequence[str], notes: Sequence[str]) -> None:
    """Set the table on a page of its own if need be, so that it is read as one; then what is said below it.

    No card has a back, so that page is taped beside the first. Notes stand below all that where there is room, else
    above the table.
    """
    table = _set(writer, rows, wraps=False)
    if _row_mm(writer, table, [*said, *notes]) >= _LEAST_ROW_MM:
        said, notes = [*said, *notes], []
    writer.notes(notes)
    if _row_mm(writer, table, said) < _LEAST_ROW_MM:
        writer.new_page()
    in_two_lines = _set(writer, rows, wraps=True)
    if _row_mm(writer, in_two_lines, said) >= _LEAST_ROW_MM:
        table = in_two_lines
    row_mm = min(_row_mm(writer, table, said), _ROW_MM)
    row_mm = row_mm if row_mm >= _LEAST_ROW_MM else _SPLIT_ROW_MM
    lanes = _lanes(rows)

    def beside(index: int, row_box: Box, cells: Sequence[Box]) -> list[Ink]:
        letters = rows[index].colour
        middle = row_box.y_mm + row_box.height_mm / 2
        ink = swatch(letters, cells[1].x_mm, middle, SMALL_MM) if letters else []
        return [*ink, *_brackets(lanes, index, row_box)]

    writer.place(table, TableStyle(row_mm, indent_mm=_indent_mm(rows)), "", beside)
    writer.space(1)
    for text in said:
        writer.paragraph(text, SMALL_MM)


def _set(writer: PageWriter, rows: Sequence[CardRow], *, wraps: bool) -> Table:
    return set_table(_columns(rows, wraps=wraps), _cells(rows), writer.width_mm - _indent_mm(rows))


def _row_mm(writer: PageWriter, table: Table, said: Sequence[str]) -> float:
    """Return how high rows of one line can be so that the table and what is said below it have room on the page."""
    in_full = writer.in_full_mm((row.key, row.cut) for row in table.rows)
    lines = sum(len(wrapped(text, writer.width_mm, SMALL_MM)) for text in said)
    tall = [row.least_mm for row in table.rows if row.least_mm]
    room = writer.room_mm - _HEAD_MM - in_full - lines * line_pitch_mm(SMALL_MM) - sum(tall)
    return room / max(1, len(table.rows) - len(tall)) - 0.01 if room >= 0 else 0.0


def _gauge_unit(rows: Sequence[CardRow]) -> str:
    """Return the unit that all gauges of a card share, if they do; it stands in the heading then."""
    units = {row.gauge.partition(" ")[2] for row in rows if row.gauge}
    return units.pop() if len(units) == 1 else ""


def _indent_mm(rows: Sequence[CardRow]) -> float:
    return _LANE_MM * max((lane.number + 1 for lane in _lanes(rows)), default=0) + 0.1


def _cells(rows: Sequence[CardRow]) -> list[tuple[str, ...]]:
    unit = f" {_gauge_unit(rows)}"
    return [
        (
            row.contact,
            "",
            row.gauge.removesuffix(unit),
            row.function,
            row.start,
            row.load,
            row.mark,
            row.used,
        )
        for row in rows
    ]


def _columns(rows: Sequence[CardRow], *, wraps: bool) -> list[Column]:
    function_mm = max(width_mm(row.function, PLAIN_MM, True) for row in rows)
    colour_mm = max([swatch_width_mm(row.colour, SMALL_MM) for row in rows if row.colour] or [8.0])
    return [
        Column("", PLAIN_MM, bold=True, align="right", least_mm=SMALL_MM),
        Column("colour", PLAIN_MM, fixed_mm=max(colour_mm, 8.0)),
        Column(_gauge_unit(rows) or "gauge", SMALL_MM, align="right"),
        Column("function", PLAIN_MM, bold=True, gives=function_mm > _FUNCTION_MM, wraps=wraps),
        Column("from", SMALL_MM, gives=True, wraps=wraps),
        Column("to", SMALL_MM, gives=True, wraps=wraps),
        Column("mark", SMALL_MM),
        Column("%" if any(row.used for row in rows) else "", SMALL_MM, align="right"),
    ]


@dataclass(frozen=True)
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
