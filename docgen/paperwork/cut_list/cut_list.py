"""Cut list: every piece by colour, then gauge, then longest first."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass, replace

from docgen.basics.colours import colour_order, colour_words
from docgen.basics.gauges import Gauge
from docgen.basics.units import millimetres
from docgen.harness.assembly.cutting import CutPiece, Tail, cut_pieces
from docgen.harness.assembly.spools import SpoolPlan
from docgen.harness.assembly.stores import plan_group
from docgen.harness.model.circuits import End, OwnLeads, Wire
from docgen.harness.model.harness import Harness
from docgen.paperwork.cut_list.bill_of_materials import Wanted, add_wanted, wanted
from docgen.paperwork.cut_list.sleeves_and_tubes import (
    ROW_MM,
    TICK_MM,
    SleevePiece,
    TubePieces,
    add_sleeves,
    add_tubes,
    sleeve_pieces,
    tick,
    tube_pieces,
)
from docgen.paperwork.cut_list.spool_bars import ORDER, add_spools, first_mm
from docgen.paperwork.labels import wire_labels
from docgen.paperwork.naming import end_text, half_title, marks_text
from docgen.paperwork.stocks.layouts import PageLayout
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
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True)
class Piece:
    """One piece to cut."""

    key: tuple[str, str, str]
    length_mm: float
    mark: str
    function: str
    start: str
    goal: str


@dataclass(frozen=True)
class Group:
    """Pieces of one wire and colour, or of one ready-made lead, longest first."""

    colour: str
    gauge: str
    part: str
    pieces: tuple[Piece, ...]
    plan: SpoolPlan | None = None

    @property
    def spools(self) -> dict[int, str]:
        """Return for each piece, by its place in the group, the spool that it comes off."""
        return {index: cut.number for cut in self.plan.cuts for index in cut.pieces} if self.plan is not None else {}

    @property
    def total_mm(self) -> float:
        """Return the length of all its pieces."""
        return sum(piece.length_mm for piece in self.pieces)


@dataclass(frozen=True)
class CutContent:
    """All groups, what plugs straight in with nothing to cut, sleeves, tubes for the labels, and all else."""

    groups: tuple[Group, ...]
    straight: tuple[str, ...]
    sleeves: tuple[SleevePiece, ...]
    tubes: tuple[TubePieces, ...]
    wanted: tuple[Wanted, ...]


def content(harness: Harness) -> CutContent:
    """Return what there is to cut."""
    pieces: dict[tuple[str, str], list[Piece]] = {}
    gauges: dict[str, Gauge] = {}
    for cut in cut_pieces(harness):
        pieces.setdefault((cut.colour, cut.part), []).append(_piece(cut))
        gauges[cut.part] = cut.gauge
    order = sorted(pieces, key=lambda key: (colour_order(key[0]), -gauges[key[1]].area_mm2, key[1]))
    groups = []
    for colour, part in order:
        longest_first = tuple(sorted(pieces[colour, part], key=lambda p: -p.length_mm))
        plan = plan_group(harness, part, colour, [piece.length_mm for piece in longest_first])
        groups.append(Group(colour, gauges[part].text, part, longest_first, plan))
    straight = tuple(
        f"{lead.label}: {lead.ends[0].text} – {lead.ends[1].text}"
        for lead in harness.leads()
        if isinstance(lead, OwnLeads)
    )
    tubes = tube_pieces(harness, wire_labels.content(harness).labels)
    return CutContent(tuple(groups), straight, sleeve_pieces(harness), tubes, wanted(harness))


def ordered(items: CutContent, colours: Sequence[str]) -> CutContent:
    """Return the groups in the builder's own order of colours, those that it does not name after them."""
    place = {colour: i for i, colour in enumerate(colours)}
    groups = sorted(items.groups, key=lambda group: place.get(group.colour, len(place)))
    return replace(items, groups=tuple(groups))


def as_csv(items: CutContent) -> str:
    """Return the pieces as comma-separated values (RFC 4180); no cell begins as a formula of a spreadsheet does."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(("colour", "gauge", "length_mm", "mark", "function", "from", "to", "spool"))
    for group in items.groups:
        spools = group.spools
        for index, piece in enumerate(group.pieces):
            said = (piece.mark, piece.function, piece.start, piece.goal)
            cells = group.colour, group.gauge, millimetres(piece.length_mm), *said, spools.get(index, "")
            writer.writerow([f"'{cell}" if cell[:1] in _FORMULA else cell for cell in cells])
    return text.getvalue()


def _piece(cut: CutPiece) -> Piece:
    """Return a piece with what is said of it; tails have no marks."""
    of = cut.of
    if isinstance(of, Tail):
        key = (of.disconnect.name, of.common.name, f"{of.half.name} {of.contact}")
        splice = f"splice behind the {half_title(of.half)}"
        goal = f"{of.disconnect.name} {of.contact}"
        return Piece(key, cut.length_mm, "tail", of.common.name, splice, goal)
    start, goal = (_wire_end(end, cut.wire) for end in of.ends)
    mark = marks_text(of) if cut.wire is None else cut.wire.mark
    key = (of.circuit, of.segment, cut.wire.role if cut.wire else "")
    return Piece(key, cut.length_mm, mark, of.label, start, goal)


def _wire_end(end: End, wire: Wire | None) -> str:
    """Say where one end of a piece goes, a wire to its own contact; one that joins a common is spliced to its tails."""
    if wire is None or end.kind != "half" or end.connector.roles or wire.role not in end.contacts:
        return end_text(end)
    common = "common " if wire.role in end.commons else ""
    return f"{end.name} {common}{'+'.join(end.contacts[wire.role])}"


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
    like = [row for group in items.groups for row in _rows(group)]
    for group in items.groups:
        _group(writer, group, like)
    if items.straight:
        writer.space(5)
        writer.heading("Nothing to cut: these plug straight in with their own leads", PLAIN_MM)
        for said in items.straight:
            writer.paragraph(said, SMALL_MM)
    add_sleeves(writer, items.sleeves)
    add_tubes(writer, items.tubes)
    add_wanted(writer, items.wanted)
    return Composed(writer.finished() if items.groups or items.straight else [])


def _rows(group: Group) -> list[tuple[str, ...]]:
    spools = group.spools
    return [
        (
            millimetres(piece.length_mm),
            piece.mark,
            piece.function,
            piece.start,
            piece.goal,
            spools.get(index, ""),
            "",
        )
        for index, piece in enumerate(group.pieces)
    ]


def _group(writer: PageWriter, group: Group, like: list[tuple[str, ...]]) -> None:
    writer.space(5)
    title = f"{group.colour} {colour_words(group.colour)} · {group.gauge} · {group.part}"
    writer.heading(title, LARGE_MM, keep_mm=2 * ROW_MM + 6)
    columns = [
        Column("cut, mm", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("mark", PLAIN_MM, gives=True),
        Column("function", PLAIN_MM, bold=True, gives=True),
        Column("from", PLAIN_MM, gives=True),
        Column("to", PLAIN_MM, gives=True),
        Column("spool" if group.spools else "", SMALL_MM, align="right"),
        Column("cut", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    rows = _rows(group)

    def side(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:
        own = Box(row.x_mm, row.y_mm, _STRIP_MM, row.height_mm)
        return [*tick(index, row, cells), *strip(group.colour, own)]

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
