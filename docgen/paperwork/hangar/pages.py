"""Take what the hangar card shows; return its pages: what a helper at the field needs beside the aircraft."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.basics.findings import Finding
from docgen.basics.units import decimal
from docgen.paperwork.hangar.content import HangarContent
from docgen.paperwork.hangar.plan_view import cut_names, plan_height_mm, plan_ink
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.typesetting.codes import numbered_texts
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import THIN_MM, Box, Line
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.title_block import Corner, TitleBlock, record_foot
from docgen.paperwork.typesetting.typeface import HUGE_MM, LARGE_MM, PLAIN_MM, SMALL_MM, line_pitch_mm
from docgen.paperwork.typesetting.writer import PageWriter

STEM = "hangar-card"
CAUTION = (
    "Charge packs out of the aircraft or as their maker says, never alone. Keep clear of propeller and turbine arcs "
    "and of gear doors."
)
_CODE_VERSION = 12
_LOG_LINES, _LOG_LINE_MM = 6, 7.0


def compose(items: HangarContent, layout: PageLayout, title_block: TitleBlock) -> Composed:
    """Return the pages of the hangar card."""
    foot = record_foot(title_block, CAUTION, _corners(items, title_block))
    writer = PageWriter(layout.paper, layout.margin, foot)
    writer.heading(f"{items.name} · {items.marks}", HUGE_MM)
    writer.paragraph(items.description, PLAIN_MM)
    if items.contact:
        writer.paragraph(f"If found: {items.contact}", SMALL_MM)
    if items.cautions:
        writer.space(2)
    for caution in sorted(items.cautions, key=lambda caution: caution.name != "overvolts"):  # is read first
        height = LARGE_MM if caution.name == "overvolts" else PLAIN_MM
        writer.paragraph(_caution_text(caution), height, bold=True)
    _tables(writer, items)
    _plan_block(writer, items)
    _log(writer)
    return Composed(writer.finished())


def _caution_text(caution: Finding) -> str:
    accepted = f" Accepted: {caution.accepted}." if caution.accepted else ""
    return f"{caution.name}: {caution.sentence}".replace("`", "") + accepted


def _corners(items: HangarContent, title_block: TitleBlock) -> list[Corner]:
    link = title_block.link("record.txt")
    if link is not None:
        return [Corner(link, "the whole record")]
    first = f"{title_block.marks} record {title_block.issue} {title_block.content_hash}"
    lines = [f"{items.circuits} circuits, {len(items.joints)} joints"]
    lines += [" ".join(column.cell(value) for column, value in zip(_PACKS, pack, strict=True)) for pack in items.packs]
    lines += [items.contact] if items.contact else []
    return [Corner(text, "summary as text") for text in numbered_texts(first, lines, _CODE_VERSION)]


@dataclass(frozen=True)
class _Column:
    """A column's head, whether it is bold, its decimals (as many as there are, if none are said), and its gaps."""

    head: str
    bold: bool = False
    decimals: int | None = None
    nothing: str = ""

    def cell(self, value: str | float | None) -> str:
        """Write a value."""
        if value is None or isinstance(value, str):
            return value or self.nothing
        return decimal(value) if self.decimals is None else f"{value:.{self.decimals}f}"


_ACTS = (_Column("", True), _Column(""))
_PACKS = (
    *(_Column("pack", True), _Column("cells"), _Column("mAh"), _Column("full, V", True), _Column("empty, V")),
    *(_Column("flights", True, decimals=1), _Column("alone", decimals=1), _Column("place")),
)
_SUPPLIES = (
    *(_Column("supply", True), _Column("works, A", decimals=1), _Column("peak, A", decimals=1)),
    *(_Column("least, V", True, decimals=2), _Column("there")),
)
_CHANNELS = (
    *(_Column("channel", True, nothing="–"), _Column("function", True), _Column("port")),
    *(_Column("throw"), _Column("fail-safe", True)),
)
_PORTS = (_Column("port", True), _Column("function", True, nothing="free"), _Column("other end"), _Column("channel"))
_GEAR = (_Column("gear", True), *map(_Column, ("up, s", "down, s")), _Column("limit, s", True), _Column("stop, A"))
_ANTENNAS = (_Column("", True), _Column("lies"), _Column("place"))
_JOINTS = (_Column("joint", True), _Column("access"), _Column("lock", nothing="see that it is home"))


def _tables(writer: PageWriter, items: HangarContent) -> None:
    _table(writer, "Switch on", _ACTS, items.switching_on)
    _table(writer, "Switch off", _ACTS, items.switching_off)
    _table(writer, "Packs, and flights on a charge: all together, each alone", _PACKS, items.packs)
    least = "Supplies at empty: currents, and the least volts at peak of what can't stall"
    _table(writer, least, _SUPPLIES, items.supplies)
    _table(writer, "Channels", _CHANNELS, items.channels)
    for each in items.ports:
        title = each.equipment if each.equipment == each.kind else f"{each.equipment} · {each.kind}"
        _table(writer, title, _PORTS, each.ports)
    _table(writer, "Gear", _GEAR, items.gear)
    antennas = [(f"{antenna.receiver} {antenna.name}", antenna.lies, antenna.place) for antenna in items.antennas]
    _table(writer, "Antennas", _ANTENNAS, antennas)
    _table(writer, "Locks to check", _JOINTS, items.joints)


def _table(
    writer: PageWriter, title: str, columns: Sequence[_Column], entries: Sequence[tuple[str | float | None, ...]]
) -> None:
    """Add a table without the columns that say nothing, if anything is left; figures end at one edge."""
    if not entries:
        return
    rows = [[column.cell(value) for column, value in zip(columns, entry, strict=True)] for entry in entries]
    said = [i for i in range(len(columns)) if any(row[i] for row in rows)]
    set_columns = []
    for i in said:
        are_figures = all(_is_figure(row[i]) for row in rows)
        height = PLAIN_MM if columns[i].bold else SMALL_MM
        align = "right" if are_figures else "left"
        set_columns.append(Column(columns[i].head, height, columns[i].bold, align, gives=not are_figures))
    writer.space(2.5)
    writer.heading(title, PLAIN_MM + 0.5, keep_mm=14)
    writer.table(set_columns, [[row[i] for i in said] for row in rows], title)


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
    writer.heading("Log: date, what was done, initials", PLAIN_MM + 0.5, keep_mm=_LOG_LINES * _LOG_LINE_MM)
    for _ in range(_LOG_LINES):
        writer.y_mm += _LOG_LINE_MM
        writer.page.add(Line(writer.x_mm, writer.y_mm, writer.x_mm + writer.width_mm, writer.y_mm, THIN_MM))
