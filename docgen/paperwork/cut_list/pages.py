"""Take what the cut list holds; return its pages: a row for each piece, how it comes off spools, then all else."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from docgen.basics.colours import colour_words
from docgen.basics.units import counted, decimal, millimetres
from docgen.paperwork.cut_list.columns import Listing, rows_of
from docgen.paperwork.cut_list.content import CutContent
from docgen.paperwork.cut_list.materials import cut_text, materials
from docgen.paperwork.cut_list.pieces import Group, Piece
from docgen.paperwork.cut_list.spool_bars import spool_bars, spool_name
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.naming import STRAIGHT, straight_text, unmeasured_text
from docgen.paperwork.page_kit import blocks
from docgen.paperwork.page_kit.blocks import GRID_MM, Block, Draw
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.page_kit.tables import GAP_MM, Column, Row, heading, lines, notice
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.ink import Box, Ink
from docgen.paperwork.typesetting.swatches import strip
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, width_mm

STEM = "cut-list"
CAUTION = "Blades cut and wire ends fly: cut away from the hand, and keep ends away from the eyes."
_HOW = "One row is one piece: cut it to the length at its left, then tick it. A bracket holds equal lengths."
_ORDER = "Spools, by their numbers in stores.yaml: fewest bought, then fewest sealed opened, then fewest part-used."
_LEFT_OUT = "Left out, as the way is not measured yet"
_STRAIGHT = "≈ By the straight line, too short: measure first"
_STRIP_MM = 3.0


def compose(items: CutContent, layout: PageLayout) -> Laid:
    """Lay out the pages of the cut list."""
    if not items.groups and not items.own_leads:
        return lambda _: Composed([])
    sheets = Sheets("Cut list", layout.paper, CAUTION, 2)
    straight_leads = frozenset(waiting.lead for waiting in items.straight)
    lengths = [_length(piece, straight_leads) for group in items.groups for piece in group.pieces]
    lengths += [cut_text(items, sleeve) for sleeve in items.sleeves]
    listing = Listing(sheets.column_mm, max(lengths, key=len, default=""))
    left_out = notice(_LEFT_OUT, unmeasured_text(items.unmeasured), listing.room_mm)
    straight = notice(_STRAIGHT, unmeasured_text(items.straight), listing.room_mm)
    known = [group for group in items.groups if group.pieces]
    groups = [*straight, *left_out, *_pieces(known, listing, straight_leads), *materials(items, listing)]
    return lambda title_block: Composed(sheets.of(title_block).lay(groups))


def _pieces(groups: Sequence[Group], listing: Listing, straight: Collection[str]) -> list[blocks.Group]:
    """Return the groups of pieces, below how they are cut."""
    if not groups:
        return []
    rows = [_rows(group, straight) for group in groups]
    columns = [
        Column("mark", wraps=False),
        Column(f"function\n{STRAIGHT}" if straight else "function", 2.5, 1.8),
        Column("spool" if any(group.plan for group in groups) else "", align="right"),
    ]
    table = listing.table("cut, mm", columns, [row for some in rows for row in some], LARGE_MM)
    how = _HOW if groups[0].plan is None else f"{_HOW} {_ORDER}"
    laid = [blocks.Group((lines(how, listing.room_mm, above_mm=0),))]
    head = replace(table.head(), above_mm=GRID_MM)
    for group, some in zip(groups, rows, strict=True):
        of = _with_strip(table.blocks(some), group.colour)
        bars = spool_bars(group, listing.room_mm)
        if bars:
            of[-1] = replace(of[-1], stays=True)
        says = _says(group)
        title = _title(group, says, listing.room_mm)
        again = heading(f"{title}, continued", above_mm=0, room_mm=listing.room_mm)
        top = heading(title, PLAIN_MM, says, GRID_MM, room_mm=listing.room_mm)
        laid.append(blocks.Group((top, *of, *bars), again, head))
    return laid


def _length(piece: Piece, straight: Collection[str]) -> str:
    """Write how long a piece is cut, marked where it is of a lead that is cut by a straight line."""
    return straight_text(millimetres(piece.length_mm), is_straight=" ".join(piece.key[:2]) in straight)


def _rows(group: Group, straight: Collection[str]) -> list[Row]:
    each = zip(group.pieces, group.spools, strict=True)
    others = [(piece.mark or "tail", piece.function, spool) for piece, spool in each]
    return rows_of([_length(piece, straight) for piece in group.pieces], others)


def _with_strip(rows: Sequence[Block], colour: str) -> list[Block]:
    """Return rows with the wire's colour at their edge."""

    def drawn(block: Block, opens: bool, closes: bool) -> Draw:
        def draw(box: Box) -> list[Ink]:
            edge = Box(box.x_mm, box.y_mm, _STRIP_MM, box.height_mm)
            return [*block.draw(box), *strip(colour, edge, opens=opens, closes=closes)]

        return draw

    last = len(rows) - 1
    return [replace(block, draw=drawn(block, i == 0, i == last)) for i, block in enumerate(rows)]


def _title(group: Group, says: str, room_mm: float) -> str:
    """Return what the pieces are, in one line with what is said of them: the colour in words only where that fits."""
    words, of = colour_words(group.colour), f"{group.gauge.text} · {group.part}"
    title = f"{group.colour} {words} · {of}"
    fits = width_mm(title, PLAIN_MM, bold=True) + GAP_MM + width_mm(says, SMALL_MM) <= room_mm
    return title if fits else f"{group.colour} · {of}"


def _says(group: Group) -> str:
    """Say how many pieces, how long together, and off which spools."""
    said = [counted(len(group.pieces), "piece"), f"{group.total_mm / 1000:.3f} m"]
    said += [f"{group.unmeasured} not measured"] if group.unmeasured else []
    if group.plan is not None:
        cuts = group.plan.cuts
        one = [f"buy {decimal(cuts[0].length_mm / 1000)} m" if cuts[0].bought else spool_name(cuts[0])] if cuts else []
        said += one if len(cuts) < 2 else [f"{len(cuts)} spools"]
        said += [f"{len(group.plan.too_long)} longer than any spool"] if group.plan.too_long else []
    return " · ".join(said)
