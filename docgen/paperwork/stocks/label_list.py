"""Labels by hand: a list of what to write on white tube with a marker, or to type into a tape printer with keys.

It stands in the order in which labels are fitted. Tube is as long as a strip of paper, and what it shortens by.
"""

from __future__ import annotations

import math

from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import PAPER_MM, SHORTENS
from docgen.paperwork.labels.content import CAUTION, LabelContent, LabelItem
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.page_kit.blocks import Group
from docgen.paperwork.page_kit.cells import Tick
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.page_kit.tables import Column, Row, lines, table
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM
from docgen.paperwork.values import comma_separated

STEM = "label-list"
TUBE_MM = float(math.ceil(PAPER_MM / (1 - SHORTENS)))
_NO_TUBE = "no tube"
_NO_TUBE_SAYS = "Where no tube does, write on a flag of tape, never where it goes through an opening, nor by an arm."


def compose(items: LabelContent, layout: PageLayout) -> Laid:
    """Lay out the pages of the list."""
    if not items.labels:
        return lambda _: Composed([])
    sheets = Sheets("Label list", layout.paper, CAUTION, 2)
    tubes = _tubes(items)
    rows = [
        Row((item.text.function, item.text.said_here, tube, Tick()), rule=item.key[:2] != before.key[:2])
        for item, before, tube in zip(items.labels, (items.labels[0], *items.labels), tubes, strict=False)
    ]
    columns = [
        Column("function", PLAIN_MM, SMALL_MM, bold=True),
        Column("this end", PLAIN_MM, SMALL_MM),
        Column(f"tube, {decimal(TUBE_MM)} mm", wraps=False),
        Column(""),
    ]
    of = table(columns, rows, sheets.column_mm)
    says = [lines(_says(items), sheets.column_mm)]
    says += [lines(_NO_TUBE_SAYS, sheets.column_mm)] if _NO_TUBE in tubes else []
    groups = [Group(tuple(says)), Group((of.head(), *of.blocks(rows)), of.head())]
    return lambda title_block: Composed(sheets.of(title_block).lay(groups))


def _says(items: LabelContent) -> str:
    near = decimal(items.rules.behind_plug_mm)
    return (
        "Write function and this end on white tube, or type them into a tape printer. Slide tube on "
        f"{items.slid_on}, near edge {near} mm behind the plug; shrink last."
    )


def _tubes(items: LabelContent) -> list[str]:
    chosen = items.printed_tubes()
    return [chosen[of.need].name if of.need in chosen else _NO_TUBE for of in items.labels]


def as_csv(items: LabelContent) -> str:
    """Return the labels as comma-separated values, a row each: both lines of text, place, tube, length and mark."""
    head = ("line_1", "line_2", "place", "tube", "length_mm", "mark")
    rows = (_values(item, tube) for item, tube in zip(items.labels, _tubes(items), strict=True))
    return comma_separated((head, *rows))


def _values(item: LabelItem, tube: str) -> list[str]:
    text = item.text
    cut = ["", ""] if tube == _NO_TUBE else [tube, decimal(TUBE_MM)]
    return [f"{text.function} {text.said_here}", text.said_far, item.place, *cut, text.mark]
