"""Cut list: every piece by colour, then gauge, then longest first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from docgen.basics.colours import colour_order, colour_words
from docgen.basics.findings import Said
from docgen.basics.units import millimetres
from docgen.harness.model import Common, Disconnect, Harness
from docgen.harness.wiring import Lead, Wire
from docgen.paperwork import wire_labels
from docgen.paperwork.flow import Flow, TableStyle
from docgen.paperwork.imprint import (
    LARGE_MM,
    PLAIN_MM,
    SMALL_MM,
    TITLE_MM,
    Foot,
    Imprint,
    foot_height_mm,
    number_pages,
    state_of,
)
from docgen.paperwork.layouts import PageLayout
from docgen.paperwork.marks import Box, Mark
from docgen.paperwork.materials import (
    ROW_MM,
    TICK_MM,
    GuardPiece,
    TubePieces,
    add_guards,
    add_tubes,
    guard_pieces,
    tick,
    tube_pieces,
)
from docgen.paperwork.naming import end_said, half_title, marks_text
from docgen.paperwork.pages import Composed
from docgen.paperwork.swatches import strip
from docgen.paperwork.tables import Column

STEM = "cut-list"
CAUTION = "Blades cut and wire ends fly: cut away from the hand, and keep ends away from the eyes."
_STRIP_MM = 4.0


@dataclass(frozen=True)
class Piece:
    """One piece to cut."""

    key: tuple[str, str, str]
    length_mm: float
    mark: Said
    function: Said
    start: Said
    goal: Said


@dataclass(frozen=True)
class Group:
    """Pieces of one wire and colour, or of one ready-made lead, longest first."""

    colour: str
    gauge: str
    part: str
    pieces: tuple[Piece, ...]

    @property
    def total_mm(self) -> float:
        """Return the length of all its pieces."""
        return sum(piece.length_mm for piece in self.pieces)


@dataclass(frozen=True)
class CutContent:
    """All groups, what plugs straight in with nothing to cut, guards, and tubes for the labels."""

    groups: tuple[Group, ...]
    straight: tuple[Said, ...]
    guards: tuple[GuardPiece, ...]
    tubes: tuple[TubePieces, ...]


def content(harness: Harness) -> CutContent:
    """Return what there is to cut."""
    pieces: dict[tuple[str, str], list[Piece]] = {}
    gauges: dict[str, tuple[str, float]] = {}
    for lead in harness.leads():
        if lead.straight:
            continue
        for colour, part, gauge, area_mm2, piece in _pieces(lead):
            pieces.setdefault((colour, part), []).append(piece)
            gauges[part] = gauge, area_mm2
    for disconnect in harness.disconnects.values():
        for common in disconnect.commons.values():
            for wire, piece in _tails(disconnect, common):
                pieces.setdefault((wire.colour, wire.kind.name), []).append(piece)
                gauges[wire.kind.name] = wire.kind.gauge.text, wire.kind.gauge.area_mm2
    order = sorted(pieces, key=lambda key: (colour_order(key[0]), -gauges[key[1]][1], key[1]))
    groups = tuple(
        Group(colour, gauges[part][0], part, tuple(sorted(pieces[colour, part], key=lambda p: -p.length_mm)))
        for colour, part in order
    )
    straight = tuple(
        Said(f"{lead.label.text}: {lead.ends[0].text} – {lead.ends[1].text}", lead.label.position)
        for lead in harness.leads()
        if lead.straight
    )
    return CutContent(
        groups, straight, guard_pieces(harness), tube_pieces(harness, wire_labels.content(harness).labels)
    )


def _pieces(lead: Lead) -> list[tuple[str, str, str, float, Piece]]:
    """Return a lead's pieces with colour, part, gauge and area: one for each wire, or one if bought ready-made."""
    start, goal = end_said(lead.ends[0]), end_said(lead.ends[1])
    length = lead.cut_length_mm or 0.0
    if lead.bought:
        gauge = max((wire.kind.gauge for wire in lead.wires), key=lambda g: g.area_mm2)
        colours = "+".join(wire.colour for wire in lead.wires)
        mark = Said(marks_text(lead), lead.position)
        key = (lead.circuit, lead.segment, "")
        return [
            (
                colours,
                lead.part,
                gauge.text,
                gauge.area_mm2,
                Piece(key, length, mark, lead.label, start, goal),
            )
        ]
    found = []
    for wire in lead.wires:
        key = (lead.circuit, lead.segment, wire.role)
        piece = Piece(key, length, Said(wire.mark, lead.position), lead.label, start, goal)
        found.append((wire.colour, wire.kind.name, wire.kind.gauge.text, wire.kind.gauge.area_mm2, piece))
    return found


def _tails(disconnect: Disconnect, common: Common) -> Iterator[tuple[Wire, Piece]]:
    """Walk the tails behind both halves of a common; they have no marks."""
    for half, behind in zip(disconnect.halves, common.halves, strict=True):
        splice = Said(f"splice behind the {half_title(half)}", common.said.position)
        for wire in behind.tails:
            contact = wire.contacts[1][0]
            key = (disconnect.name, common.name, f"{half.name} {contact}")
            function = Said(common.name, common.said.position)
            goal = Said(f"{disconnect.name} {contact}", common.said.position)
            yield wire, Piece(key, behind.tail_mm or 0.0, Said("tail", common.said.position), function, splice, goal)


def totals_text(group: Group) -> str:
    """Say a group's total: pieces, mm and metres."""
    count = len(group.pieces)
    pieces = f"{count} piece{'s' if count != 1 else ''}"
    return f"{pieces} · {millimetres(group.total_mm)} mm · {group.total_mm / 1000:.3f} m"


def compose(items: CutContent, layout: PageLayout, imprint: Imprint) -> Composed:
    """Return the pages of the cut list."""
    foot = Foot(imprint, CAUTION, state_of(imprint), imprint.record_hash)
    width = layout.paper[0] - 2 * layout.margin
    flow = Flow(layout.paper, layout.margin, layout.margin + foot_height_mm(foot, width) + 2)
    flow.new_page()
    flow.heading(f"Cut list · {imprint.aircraft}", TITLE_MM)
    flow.paragraph("Cut each piece to the length at the left; one row is one piece. Tick it when it is cut.", SMALL_MM)
    like = [_row(piece) for group in items.groups for piece in group.pieces]
    for group in items.groups:
        _group(flow, group, like)
    if items.straight:
        flow.space(5)
        flow.heading("Nothing to cut: these plug straight in with their own leads", PLAIN_MM)
        for said in items.straight:
            flow.paragraph(said.text, SMALL_MM)
    add_guards(flow, items.guards)
    add_tubes(flow, items.tubes)
    flow.finish_page()
    number_pages(flow.pages, [foot] * len(flow.pages), layout.margin)
    return Composed(flow.pages if items.groups or items.straight else [])


def _row(piece: Piece) -> tuple[str, ...]:
    length = millimetres(piece.length_mm)
    return length, piece.mark.text, piece.function.text, piece.start.text, piece.goal.text, ""


def _group(flow: Flow, group: Group, like: list[tuple[str, ...]]) -> None:
    flow.space(5)
    title = f"{group.colour} {colour_words(group.colour)} · {group.gauge} · {group.part}"
    flow.heading(title, LARGE_MM, keep_mm=2 * ROW_MM + 6)
    columns = [
        Column("cut, mm", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("mark", PLAIN_MM, gives=True),
        Column("function", PLAIN_MM, bold=True, gives=True),
        Column("from", PLAIN_MM, gives=True),
        Column("to", PLAIN_MM, gives=True),
        Column("cut", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    rows = [_row(piece) for piece in group.pieces]

    def side(index: int, row: Box, cells: Sequence[Box]) -> list[Mark]:
        own = Box(row.x_mm, row.y_mm, _STRIP_MM, row.height_mm)
        return [*tick(index, row, cells), *strip(group.colour, own)]

    flow.table(columns, rows, TableStyle(ROW_MM), title, side, _STRIP_MM + 2, like, key_column=1)
    flow.space(1.2)
    flow.paragraph(f"Together {totals_text(group)}", PLAIN_MM, bold=True)
