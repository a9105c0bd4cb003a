"""Take what the order of work holds; return its pages: samples, then each assembly step by step, with boxes to tick."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.basics.pulls import SOURCE
from docgen.harness.assembly.samples import SAMPLE_MM
from docgen.paperwork.bench.work_content import WorkContent
from docgen.paperwork.bench.work_steps import Step, steps_of
from docgen.paperwork.labels.content import CAUTION
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.typesetting.boxes import ROW_MM, TICK_MM, box_in, tick_box
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import Box, Ink
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.title_block import TitleBlock, record_foot
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, TITLE_MM
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

STEM = "order-of-work"
_INITIALS_MM = 18.0
_LAST = (
    "When all assemblies are in the aircraft, electronics still unplugged: mate all disconnects, and ring out whole "
    "paths by the ring-out sheet."
)


def compose(items: WorkContent, layout: PageLayout, title_block: TitleBlock) -> Composed:
    """Return the pages: samples first, then a new page for each assembly."""
    writer = PageWriter(layout.paper, layout.margin, record_foot(title_block, CAUTION))
    _add_samples(writer, items, title_block)
    for work in items.assemblies:
        writer.new_page()
        writer.heading(f"Order of work · {work.assembly}", TITLE_MM)
        for number, step in enumerate(steps_of(items, work), 1):
            _add_step(writer, number, step)
    return Composed(writer.finished() if items.assemblies else [])


def _add_samples(writer: PageWriter, items: WorkContent, title_block: TitleBlock) -> None:
    writer.heading(f"Order of work · {title_block.aircraft}", TITLE_MM)
    writer.heading("First: pull samples", LARGE_MM)
    says = (
        f"Crimp one sample of each wire and contact with the tool of the day, about {SAMPLE_MM:.0f} mm long, and pull "
        f"it until it gives. It must hold the least force ({SOURCE}). Contacts that fly get a tug."
    )
    writer.paragraph(says, SMALL_MM)
    columns = [
        Column("wire", PLAIN_MM, bold=True, gives=True),
        Column("contact", PLAIN_MM, gives=True),
        Column("least, N", PLAIN_MM, align="right"),
        Column("military, N", PLAIN_MM, align="right"),
        Column("held, N", PLAIN_MM, fixed_mm=_INITIALS_MM),
        Column("initials", PLAIN_MM, fixed_mm=_INITIALS_MM),
    ]
    rows = [
        (s.wire, f"{s.connector} {s.gender}", _newtons(s.least_n), _newtons(s.military_n), "", "")
        for s in items.samples
    ]
    writer.table(columns, rows, TableStyle(ROW_MM), "Samples", _two_boxes)
    writer.space(5)
    writer.heading("Then: each assembly by its own sheet", LARGE_MM)
    if items.has_paths:
        writer.heading("Last: whole paths", LARGE_MM, keep_mm=ROW_MM + 6)
        writer.paragraph(_LAST, SMALL_MM)
        columns = [Column("", PLAIN_MM, bold=True, gives=True), Column("", PLAIN_MM, fixed_mm=_INITIALS_MM)]
        writer.table(columns, [("whole paths ring out, nothing else does", "")], TableStyle(ROW_MM), "", _last_box)


def _newtons(force: float | None) -> str:
    return "–" if force is None else f"{force:.1f}"


def _add_step(writer: PageWriter, number: int, step: Step) -> None:
    writer.space(4)
    title = f"{number}  {step.verb}"
    writer.heading(title, LARGE_MM, keep_mm=2 * ROW_MM + 8)
    writer.paragraph(step.says, SMALL_MM)
    on, how, at, mind = step.heads or ("", "", "", "")
    columns = [
        Column(on, PLAIN_MM, bold=True, gives=True),
        Column(how, PLAIN_MM, align="right"),
        Column("", PLAIN_MM, fixed_mm=1),
        Column(at, PLAIN_MM, gives=True),
        Column(mind, PLAIN_MM, gives=True),
        Column("", PLAIN_MM, fixed_mm=TICK_MM + 1),
        Column("initials" if step.heads else "", PLAIN_MM, fixed_mm=_INITIALS_MM),
    ]

    def boxes(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:  # noqa: ARG001 - every row is as high
        return [_box(cells[-2], TICK_MM), _box(cells[-1], _INITIALS_MM)] if step.rows[index].ticked else []

    rows = [(row.on, row.how, "", row.at, row.mind, "", "") for row in step.rows]
    writer.table(columns, rows, TableStyle(ROW_MM), title, boxes)


def _two_boxes(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:  # noqa: ARG001 - rows look alike
    return [_box(cell, _INITIALS_MM) for cell in cells[-2:]]


def _last_box(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:  # noqa: ARG001 - it is one row
    return [_box(cells[-1], _INITIALS_MM)]


def _box(cell: Box, width_mm: float) -> Ink:
    return tick_box(cell) if width_mm == TICK_MM else box_in(cell, width_mm, ROW_MM - 1.6)
