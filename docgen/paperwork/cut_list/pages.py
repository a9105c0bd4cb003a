"""Take what the cut list holds; return its pages: a row for each piece, how it comes off spools, then all else."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.basics.colours import colour_words
from docgen.basics.units import millimetres
from docgen.paperwork.cut_list.content import CutContent, Group
from docgen.paperwork.cut_list.materials import add_bill, add_sleeves, add_tubes
from docgen.paperwork.cut_list.spool_bars import ORDER, add_spools, first_mm
from docgen.paperwork.cut_list.spreadsheet import rows_of
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.typesetting.boxes import ROW_MM, TICK_MM, tick_last
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import Box, Ink
from docgen.paperwork.typesetting.swatches import strip
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.title_block import TitleBlock, record_foot
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, TITLE_MM, line_pitch_mm
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

STEM = "cut-list"
CAUTION = "Blades cut and wire ends fly: cut away from the hand, and keep ends away from the eyes."
_STRIP_MM = 4.0


def totals_text(group: Group) -> str:
    """Say a group's total: pieces, mm and metres."""
    count = len(group.pieces)
    pieces = f"{count} piece{'s' if count != 1 else ''}"
    return f"{pieces} · {millimetres(group.total_mm)} mm · {group.total_mm / 1000:.3f} m"


def compose(items: CutContent, layout: PageLayout, title_block: TitleBlock) -> Composed:
    """Return the pages of the cut list."""
    writer = PageWriter(layout.paper, layout.margin, record_foot(title_block, CAUTION))
    writer.heading(f"Cut list · {title_block.aircraft}", TITLE_MM)
    order = f" {ORDER}" if any(group.plan is not None for group in items.groups) else ""
    how = f"Cut each piece to the length at the left; one row is one piece. Tick it when it is cut.{order}"
    writer.paragraph(how, SMALL_MM)
    like = [(*row, "") for group in items.groups for row in rows_of(group)]
    for group in items.groups:
        _group(writer, group, like)
    if items.own_leads:
        writer.space(5)
        writer.heading("Nothing to cut: these plug straight in with their own leads", PLAIN_MM)
        for lead in items.own_leads:
            writer.paragraph(f"{lead.label}: {lead.ends[0].text} – {lead.ends[1].text}", SMALL_MM)
    add_sleeves(writer, items.sleeves)
    add_tubes(writer, items.tubes)
    add_bill(writer, items.bill)
    return Composed(writer.finished() if items.groups or items.own_leads else [])


def _group(writer: PageWriter, group: Group, like: list[tuple[str, ...]]) -> None:
    writer.space(5)
    title = f"{group.colour} {colour_words(group.colour)} · {group.gauge.text} · {group.part}"
    writer.heading(title, LARGE_MM, keep_mm=2 * ROW_MM + 6)
    columns = [
        Column("cut, mm", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("mark", PLAIN_MM, gives=True),
        Column("function", PLAIN_MM, bold=True, gives=True),
        Column("from", PLAIN_MM, gives=True),
        Column("to", PLAIN_MM, gives=True),
        Column("spool" if group.cut_of else "", SMALL_MM, align="right"),
        Column("cut", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    rows = [(*row, "") for row in rows_of(group)]

    def side(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:
        own = Box(row.x_mm, row.y_mm, _STRIP_MM, row.height_mm)
        return [*tick_last(index, row, cells), *strip(group.colour, own)]

    below_mm = 1.2 + line_pitch_mm(PLAIN_MM) + (first_mm(group.plan) if group.plan is not None else 0.0)
    style = TableStyle(ROW_MM, below_mm=below_mm, indent_mm=_STRIP_MM + 2, key_column=1)
    writer.table(columns, rows, style, title, side, like)
    usual = writer.on_new_page
    writer.on_new_page = lambda writer: writer.heading(f"{title}, continued", PLAIN_MM)
    writer.space(1.2)
    writer.paragraph(f"Together {totals_text(group)}", PLAIN_MM, bold=True)
    if group.plan is not None:
        add_spools(writer, group.plan, [piece.length_mm for piece in group.pieces])
    writer.on_new_page = usual
