"""Take what there is to measure; return the pages of the measuring sheet: sketch and list side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.basics.units import millimetres
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.measuring.content import Assembly, Branch, Measure, MeasuringContent
from docgen.paperwork.page_kit.blocks import Block, Draw, Group, abreast
from docgen.paperwork.page_kit.cells import Field, Stacked
from docgen.paperwork.page_kit.sheets import AREA_MM, COLUMN_GAP_MM, Sheets
from docgen.paperwork.page_kit.tables import TICKED_MM, Column, Row, Table, band, lines, table
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.ink import MIDDLE_MM, Box, Ink, Line, Text, rectangle
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM, shortened, width_mm

STEM = "measuring-sheet"
CAUTION = "Packs out of the aircraft before a hand goes in. Edges of formers cut hands too."
_HOW = (
    "Lay a string along the way that the wires go, from where one plug, half or unit sits to where the next does, "
    "through the holes and past the formers, and measure the string. Write it down here, then into the files, at what "
    "stands small below it. Slack, loops and what the crimps need are added by the program: measure the way alone."
)
_SKETCH = "Sketch: what hangs on what, not to scale; numbers are those of the rows."
_HALF_MM = (AREA_MM[0] - COLUMN_GAP_MM) / 2
_COLUMNS = (
    Column("", PLAIN_MM, PLAIN_MM, bold=True, align="right"),
    Column("from – to", PLAIN_MM, SMALL_MM),
    Column("now, mm", align="right"),
    Column("measured, mm"),
)
_STEP_MM, _MOST_STEPS = 5.0, 9
_NUMBER_MM = 4.6


def compose(items: MeasuringContent, layout: PageLayout) -> Laid:
    """Lay out the pages of the measuring sheet."""
    if not items.assemblies:
        return lambda _: Composed([])
    sheets = Sheets("Measuring sheet", layout.paper, CAUTION)
    groups = [Group((lines(_HOW, AREA_MM[0]), lines(_SKETCH, AREA_MM[0], above_mm=1.0)))]
    rows = {assembly.name: list(_rows(assembly.measures)) for assembly in items.assemblies}
    of = table(_COLUMNS, [row for some in rows.values() for row in some], _HALF_MM, TICKED_MM)
    groups += [_group(assembly, of, rows[assembly.name]) for assembly in items.assemblies]
    return lambda title_block: Composed(sheets.of(title_block).lay(groups))


def _group(assembly: Assembly, of: Table, rows: Sequence[Row]) -> Group:
    sketch = [Block(TICKED_MM, _drawn(assembly.sketch, index)) for index in range(len(assembly.sketch))]
    head, *blocks = abreast([_clear(of.head()), *sketch], [of.head(), *of.blocks(rows)], COLUMN_GAP_MM)
    again = band(f"{assembly.name}, continued")
    return Group((band(assembly.name), head, *blocks), again)


def _clear(block: Block) -> Block:
    """Return room as high as a block."""
    return Block(block.height_mm, lambda box: ())  # noqa: ARG005 - it has no ink


def _rows(measures: Sequence[Measure]) -> Iterator[Row]:
    known = [measure.measured for measure in measures]
    for number, measure in enumerate(measures, 1):
        line = "straight line; " if not measure.measured and measure.now_mm is not None else ""
        count = f"{measure.leads} lead{'s' if measure.leads != 1 else ''}" if measure.leads else ""
        under = " · ".join(part for part in (f"{line}{measure.key}", measure.passes, count) if part)
        begins = number > 1 and not known[number - 2]
        what = Stacked(measure.what, under=under)
        yield Row((str(number), what, millimetres(measure.now_mm), Field()), rule=begins or not measure.measured)


def _drawn(sketch: Sequence[Branch], index: int) -> Draw:
    """Return how one place of a sketch is drawn: its name, what leads to it, and what goes on past it."""
    branch = sketch[index]

    def left(depth: int, box: Box) -> float:
        return box.x_mm + _NUMBER_MM / 2 + _STEP_MM * min(depth, _MOST_STEPS)

    def draw(box: Box) -> list[Ink]:
        middle = box.y_mm + box.height_mm / 2
        x = left(branch.depth, box)
        ink: list[Ink] = [
            Line(left(depth, box), box.y_mm, left(depth, box), box.bottom_mm, MIDDLE_MM)
            for depth in range(branch.depth - 1)
            if _goes_on(sketch, index, depth + 1)
        ]
        if branch.number is not None:
            up = left(branch.depth - 1, box)
            down = box.bottom_mm if _goes_on(sketch, index, branch.depth) else middle
            ink += [Line(up, box.y_mm, up, down, MIDDLE_MM), Line(up, middle, x + _STEP_MM, middle, MIDDLE_MM)]
            number = Box(x, middle - _NUMBER_MM / 2, _NUMBER_MM, _NUMBER_MM)
            ink += [rectangle(number, MIDDLE_MM, "#ffffff")]
            base = middle + SMALL_MM / 2
            ink.append(Text(x + _NUMBER_MM / 2, base, str(branch.number), SMALL_MM, True, "centre", cell=number))
        if _goes_on(sketch, index, branch.depth + 1):
            ink.append(Line(x, middle + (_NUMBER_MM / 2 if branch.number else PLAIN_MM), x, box.bottom_mm, MIDDLE_MM))
        known = f"{millimetres(branch.now_mm)} mm" if branch.now_mm is not None else ""
        at = x + (_NUMBER_MM + 1.5 if branch.number is not None else 2.0)
        room = box.right_mm - at - width_mm(known, SMALL_MM) - 2.0
        ink.append(Text(at, middle + PLAIN_MM / 2, shortened(branch.place, room, PLAIN_MM), PLAIN_MM))
        return [*ink, Text(box.right_mm, middle + SMALL_MM / 2, known, SMALL_MM, align="right")] if known else ink

    return draw


def _goes_on(sketch: Sequence[Branch], index: int, depth: int) -> bool:
    """Tell whether a place further down hangs at a depth, before one that hangs higher."""
    for branch in sketch[index + 1 :]:
        if branch.depth <= depth:
            return branch.depth == depth
    return False
