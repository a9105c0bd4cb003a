"""Hangar card: what a helper at the field needs beside the aircraft."""

from __future__ import annotations

from docgen.paperwork.hangar.content import HangarContent, Row
from docgen.paperwork.hangar.plan_view import cut_names, plan_height_mm, plan_ink
from docgen.paperwork.stocks.layouts import PageLayout
from docgen.paperwork.typesetting.codes import numbered_texts
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import THIN_MM, Box, Ink, Line
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.title_block import Corner, TitleBlock, record_foot
from docgen.paperwork.typesetting.typeface import HUGE_MM, LARGE_MM, PLAIN_MM, SMALL_MM, line_pitch_mm
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

STEM = "hangar-card"
CAUTION = (
    "Charge packs out of the aircraft or as their maker says, never alone. Keep clear of propeller and turbine arcs "
    "and of gear doors."
)
_CODE_VERSION = 12
_LOG_LINES = 6


def compose(items: HangarContent, layout: PageLayout, title_block: TitleBlock) -> Composed:
    """Return the pages of the hangar card."""
    foot = record_foot(title_block, CAUTION, _corners(items, title_block))
    writer = PageWriter(layout.paper, layout.margin, foot)
    writer.heading(f"{items.name} · {items.marks}", HUGE_MM)
    writer.paragraph(items.description, PLAIN_MM)
    if items.contact:
        writer.paragraph(f"If found: {items.contact}", SMALL_MM)
    if items.overvolts or items.cautions:
        writer.space(2)
    for caution in items.overvolts:
        writer.paragraph(caution, LARGE_MM, bold=True)
    for caution in items.cautions:
        writer.paragraph(caution, PLAIN_MM, bold=True)
    _tables(writer, items)
    _plan_block(writer, items)
    _log(writer)
    return Composed(writer.finished())


def _corners(items: HangarContent, title_block: TitleBlock) -> list[Corner]:
    link = title_block.link("record.txt")
    if link is not None:
        return [Corner(link, "the whole record")]
    first = f"{title_block.marks} record {title_block.revision} {title_block.record_hash}"
    texts = numbered_texts(first, list(items.summary), _CODE_VERSION)
    return [Corner(text, "summary as text") for text in texts]


def _tables(writer: PageWriter, items: HangarContent) -> None:
    _table(writer, "Switch on", items.switching_on, ("", ""), (0,))
    _table(writer, "Switch off", items.switching_off, ("", ""), (0,))
    heads = ("pack", "cells", "mAh", "full, V", "empty, V", "flights", "alone", "place")
    _table(writer, "Packs, and flights on a charge: all together, each alone", items.packs, heads, (0, 3, 5))
    of_supplies = ("supply", "works, A", "peak, A", "least, V", "there")
    _table(
        writer,
        "Supplies at empty: currents, and the least volts at peak of what can't stall",
        items.supplies,
        of_supplies,
        (0, 3),
    )
    _table(writer, "Channels", items.channels, ("channel", "function", "port", "throw", "fail-safe"), (0, 1, 4))
    for said, ports in items.ports:
        _table(writer, said, ports, ("port", "function", "other end", "channel"), (0, 1))
    _table(writer, "Gear", items.gear, ("gear", "up, s", "down, s", "limit, s", "stop, A"), (0, 3))
    _table(writer, "Antennas", items.antennas, ("", "lies", "place"), (0,))
    _table(writer, "Locks to check", items.joints, ("joint", "access", "lock"), (0,))


def _table(
    writer: PageWriter,
    title: str,
    rows: tuple[Row, ...],
    heads: tuple[str, ...],
    bold: tuple[int, ...],
) -> None:
    if not rows:
        return
    said = [i for i in range(len(heads)) if any(row[i] for row in rows)]
    rows = tuple(tuple(row[i] for i in said) for row in rows)
    heads, bold = tuple(heads[i] for i in said), tuple(said.index(i) for i in bold if i in said)
    writer.space(2.5)
    writer.heading(title, PLAIN_MM + 0.5, keep_mm=14)
    figures = [all(_is_figure(row[i]) for row in rows) for i in range(len(heads))]
    columns = [
        Column(
            head,
            PLAIN_MM if i in bold else SMALL_MM,
            i in bold,
            align="right" if figures[i] else "left",
            gives=not figures[i],
        )
        for i, head in enumerate(heads)
    ]
    writer.table(columns, rows, TableStyle(4.4), title)


def _is_figure(text: str) -> bool:
    return not text or text.replace(".", "", 1).isdigit()


def _plan_block(writer: PageWriter, items: HangarContent) -> None:
    if not items.plan:
        return
    height = plan_height_mm(items.plan)
    writer.space(2.5)
    cut = cut_names(items.plan, writer.width_mm)
    in_full = line_pitch_mm(SMALL_MM) * (len(cut) + 1) if cut else 0
    writer.heading("From above: joints (squares) and covers", PLAIN_MM + 0.5, keep_mm=height + 2 + in_full)
    writer.say_in_full("plan", cut)
    writer.page.add(*plan_ink(items.plan, Box(writer.x_mm, writer.y_mm, writer.width_mm, height)))
    writer.y_mm += height + 1


def _log(writer: PageWriter) -> None:
    writer.space(2.5)
    writer.heading("Log: date, what was done, initials", PLAIN_MM + 0.5, keep_mm=_LOG_LINES * 7.0)
    lines: list[Ink] = []
    for i in range(1, _LOG_LINES + 1):
        y = writer.y_mm + i * 7.0
        lines.append(Line(writer.x_mm, y, writer.x_mm + writer.width_mm, y, THIN_MM))
    writer.page.add(*lines)
    writer.y_mm += _LOG_LINES * 7.0
