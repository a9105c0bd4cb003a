"""Hangar card: what a helper at the field needs beside the aircraft."""

from __future__ import annotations

from docgen.paperwork.hangar.content import HangarContent, Row
from docgen.paperwork.hangar.plan_view import cut_names, plan_height_mm, plan_marks
from docgen.paperwork.stocks.layouts import PageLayout
from docgen.paperwork.typesetting.codes import numbered_texts
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import THIN_MM, Box, Line, Mark
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.title_block import (
    HUGE_MM,
    LARGE_MM,
    PLAIN_MM,
    SMALL_MM,
    Corner,
    Foot,
    Imprint,
    foot_height_mm,
    line_pitch_mm,
    number_pages,
    state_of,
)
from docgen.paperwork.typesetting.writer import Flow, TableStyle

STEM = "hangar-card"
CAUTION = (
    "Charge packs out of the aircraft or as their maker says, never alone. Keep clear of propeller and turbine arcs "
    "and of gear doors."
)
_CODE_VERSION = 12
_LOG_LINES = 6


def compose(items: HangarContent, layout: PageLayout, imprint: Imprint) -> Composed:
    """Return the pages of the hangar card."""
    corners = _corners(items, imprint)
    feet = [Foot(imprint, CAUTION, state_of(imprint), imprint.record_hash, corner) for corner in corners]
    width = layout.paper[0] - 2 * layout.margin
    bottom = layout.margin + max(foot_height_mm(foot, width) for foot in feet) + 2
    flow = Flow(layout.paper, layout.margin, bottom)
    flow.new_page()
    flow.heading(f"{items.name} · {items.marks}", HUGE_MM)
    flow.paragraph(items.description, PLAIN_MM)
    if items.contact:
        flow.paragraph(f"If found: {items.contact}", SMALL_MM)
    if items.overvolts or items.cautions:
        flow.space(2)
    for caution in items.overvolts:
        flow.paragraph(caution, LARGE_MM, bold=True)
    for caution in items.cautions:
        flow.paragraph(caution, PLAIN_MM, bold=True)
    _tables(flow, items)
    _plan_block(flow, items)
    _log(flow)
    flow.finish_page()
    while len(flow.pages) < len(feet):
        flow.new_page()
    feet += feet[-1:] * (len(flow.pages) - len(feet))
    number_pages(flow.pages, feet, layout.margin)
    return Composed(flow.pages)


def _corners(items: HangarContent, imprint: Imprint) -> list[Corner]:
    link = imprint.link("record.txt")
    if link is not None:
        return [Corner(link, "the whole record")]
    first = f"{imprint.marks} record {imprint.revision} {imprint.record_hash}"
    texts = numbered_texts(first, list(items.summary), _CODE_VERSION)
    return [Corner(text, "summary as text") for text in texts]


def _tables(flow: Flow, items: HangarContent) -> None:
    _table(flow, "Switch on", items.switching_on, ("", ""), (0,))
    _table(flow, "Switch off", items.switching_off, ("", ""), (0,))
    heads = ("pack", "cells", "mAh", "full, V", "empty, V", "flights", "alone", "place")
    _table(flow, "Packs, and flights on a charge: all together, each alone", items.packs, heads, (0, 3, 5))
    of_supplies = ("supply", "works, A", "peak, A", "least, V", "there")
    _table(
        flow,
        "Supplies at empty: currents, and the least volts at peak of what can't stall",
        items.supplies,
        of_supplies,
        (0, 3),
    )
    _table(flow, "Channels", items.channels, ("channel", "function", "port", "throw", "fail-safe"), (0, 1, 4))
    for said, ports in items.ports:
        _table(flow, said, ports, ("port", "function", "other end", "channel"), (0, 1))
    _table(flow, "Gear", items.gear, ("gear", "up, s", "down, s", "limit, s", "stop, A"), (0, 3))
    _table(flow, "Antennas", items.antennas, ("", "lies", "place"), (0,))
    _table(flow, "Locks to check", items.joints, ("joint", "access", "lock"), (0,))


def _table(
    flow: Flow,
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
    flow.space(2.5)
    flow.heading(title, PLAIN_MM + 0.5, keep_mm=14)
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
    flow.table(columns, rows, TableStyle(4.4), title)


def _is_figure(text: str) -> bool:
    return not text or text.replace(".", "", 1).isdigit()


def _plan_block(flow: Flow, items: HangarContent) -> None:
    if not items.plan:
        return
    height = plan_height_mm(items.plan)
    flow.space(2.5)
    cut = cut_names(items.plan, flow.width_mm)
    in_full = line_pitch_mm(SMALL_MM) * (len(cut) + 1) if cut else 0
    flow.heading("From above: joints (squares) and covers", PLAIN_MM + 0.5, keep_mm=height + 2 + in_full)
    flow.say_in_full("plan", cut)
    flow.page.add(*plan_marks(items.plan, Box(flow.x_mm, flow.y_mm, flow.width_mm, height)))
    flow.y_mm += height + 1


def _log(flow: Flow) -> None:
    flow.space(2.5)
    flow.heading("Log: date, what was done, initials", PLAIN_MM + 0.5, keep_mm=_LOG_LINES * 7.0)
    lines: list[Mark] = []
    for i in range(1, _LOG_LINES + 1):
        y = flow.y_mm + i * 7.0
        lines.append(Line(flow.x_mm, y, flow.x_mm + flow.width_mm, y, THIN_MM))
    flow.page.add(*lines)
    flow.y_mm += _LOG_LINES * 7.0
