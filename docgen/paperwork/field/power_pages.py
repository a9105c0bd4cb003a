"""Take what first power-up holds; return its sheets: two columns of steps, each with a box and a place to write."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from docgen.paperwork.field.aboard import Aboard
from docgen.paperwork.field.power_content import PowerContent
from docgen.paperwork.field.power_parts import Part, Step
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.page_kit.blocks import Block, Group
from docgen.paperwork.page_kit.cautions import caution
from docgen.paperwork.page_kit.cells import Field, Tick
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.page_kit.tables import TICKED_MM, Column, Row, heading, lines, table
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.typeface import PLAIN_MM, unbroken

STEM = "first-power"
_ABOVE_MM = 1.5  # over the headings of a table
_READING_MM = 14.0
_TOGETHER = re.compile(r"[\d.]+ (A|V|mm|s|degrees)\b|\(fault \d+\)")  # that no line parts


def throughout(aboard: Aboard) -> str:
    """Return the caution that holds for all of it."""
    said = ["One thing at a time; a limit on the bench supply; aircraft restrained, hands clear of surfaces."]
    said += ["On stands, legs free to move."] * aboard.gear
    said += ["Linkages off until direction and centre are right."]
    said += [aboard.made_safe] * bool(aboard.made_safe)
    return " ".join(said)


def compose(items: PowerContent, layout: PageLayout) -> Laid:
    """Lay out the pages of first power-up."""
    if not any(step.of for part in items.parts for step in part.steps):
        return lambda _: Composed([])
    sheets = Sheets("First power-up", layout.paper, "", columns=2)
    width = sheets.column_mm
    first = Group((caution(throughout(items.aboard), width, 0.0),))
    groups = [first, *(_part(part, number, width) for number, part in enumerate(items.parts, 1))]
    return lambda title_block: Composed(sheets.of(title_block).lay(groups))


def _part(part: Part, number: int, width: float) -> Group:
    title = f"{number} {part.title}"
    blocks = (heading(title, room_mm=width), *blocks_of(part, width))
    return Group(blocks, heading(f"{title}, continued", room_mm=width))


def blocks_of(part: Part, width: float, beside: Sequence[Part] = ()) -> list[Block]:
    """Return what stands below the title of a part: what holds for all, its steps, and if what to stop.

    Its columns are those of parts `beside` it.
    """
    receivers = list(dict.fromkeys(name for step in part.steps for name in step.boxes))
    several = receivers if len(receivers) > 1 else []
    rows = [_row(step, several) for step in part.steps]
    alike = [_row(step, several) for other in beside for step in other.steps]
    of = table(_columns(several), alike or rows, width, TICKED_MM)
    blocks = [lines(part.says, width, stays=True)] * bool(part.says)
    blocks += [caution(part.caution, width, 1.0, stays=True)] * bool(part.caution)
    blocks += [replace(of.head(), above_mm=_ABOVE_MM)] * bool(several)
    blocks += of.blocks(rows)
    if part.stop:
        blocks[-1:] = [of.block(rows[-1], stays=True), lines(f"Stop if {part.stop}", width, above_mm=0.5)]
    return blocks


def _columns(several: Sequence[str]) -> list[Column]:
    """Return columns: a box, or one for each of several receivers behind all else."""
    said = [Column("", PLAIN_MM, PLAIN_MM, bold=True), Column("")]
    if several:
        return [*said, *map(Column, several)]
    return [Column(""), *said, Column("", bold=True), Column("")]


def _row(step: Step, several: Sequence[str]) -> Row:
    if several:
        return Row((step.name, step.does, *(Tick() if name in step.boxes else "" for name in several)))
    does = _TOGETHER.sub(lambda found: unbroken(found[0]), step.does)
    return Row((Tick(), step.name, does, step.should, Field(_READING_MM) if step.reads else ""))
