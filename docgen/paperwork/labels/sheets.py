"""Lay labels out on a stock: sheets of cells, or one label a page on a tape."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, islice, repeat

from docgen.basics.findings import Finding
from docgen.basics.units import decimal
from docgen.paperwork.labels.pieces import Piece, blank_ink, fit
from docgen.paperwork.labels.wire_labels import CAUTION, LabelContent
from docgen.paperwork.stocks.layouts import (
    NAME_MM,
    CellStock,
    LabelFlags,
    LabelSheet,
    LabelStock,
    LabelStrips,
    LabelTape,
    LabelWraps,
)
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import Ink, Page, Text, moved
from docgen.paperwork.typesetting.title_block import Foot, TitleBlock, foot_height_mm, number_pages, record_foot
from docgen.paperwork.typesetting.typeface import FOOT_MM, PLAIN_MM, SMALL_MM, shortened, wrapped


def compose(items: LabelContent, layout: LabelStock, title_block: TitleBlock) -> Composed:
    """Return the pages of labels on one stock; what does not fit it is found and left out."""
    left_out = [item for item in items.labels if item.plug_is_on and not isinstance(layout, LabelWraps | LabelFlags)]
    findings: list[Finding] = []
    pieces = _pieces(items, layout, findings)
    notes = []
    if left_out:
        named = ", ".join(f"{item.text.function} at {item.text.here}" for item in left_out)
        notes.append(f"left out on tube, their plugs are on already: {named}.")
    if isinstance(layout, LabelTape):
        pages = [_tape_page(piece) for piece in pieces]
        if pages:
            notes.append(f"a label of tape has no room for what belongs beside it: {_says(items, layout)} {CAUTION}")
        return Composed(pages, findings, notes)
    foot = record_foot(title_block, CAUTION)
    head = _head_lines(items, layout, foot)
    pages = _sheets(items.first, pieces, layout, head, foot)
    if pages and not head:
        notes.append(
            f"the labels fill their sheet, so it says here what belongs on it: {_says(items, layout)} {CAUTION}"
        )
    elif pages and " ".join(head) != _says(items, layout):
        notes.append(f"the sheet has no room above its labels to say all: {_says(items, layout)}")
    return Composed(pages, findings, notes)


def _pieces(items: LabelContent, layout: LabelStock, findings: list[Finding]) -> Iterator[Piece]:
    """Walk the labels to print, each as often as it is wanted; what is found of them goes into `findings`."""
    for item in items.labels:
        if item.plug_is_on and not isinstance(layout, LabelWraps | LabelFlags):
            continue
        piece, found = fit(item, items, layout)
        findings += found
        if piece is not None:
            yield from repeat(piece, items.copies)


def _tape_page(piece: Piece) -> Page:
    page = Page(piece.length_mm, piece.height_mm)
    page.add(*piece.ink(0, 0))
    return page


def _head_lines(items: LabelContent, layout: CellStock, foot: Foot) -> list[str]:
    """Return what is said above the labels in lines, less where there is little room; none if head or foot lack it."""
    cells, margin = layout.cells, layout.margin
    last = cells.first[1] + (cells.down - 1) * cells.pitch[1] + layout.size_mm[1]
    width = layout.paper[0] - 2 * margin
    names_mm = NAME_MM if isinstance(layout, LabelSheet | LabelStrips) and layout.names_above else 0
    if last + 1 > layout.paper[1] - margin - foot_height_mm(foot, width):
        return []
    for says in (_says(items, layout), _says_least(items, layout)):
        lines = wrapped(says, width, SMALL_MM)
        if _head_base_mm(layout) + _HEAD_MM + (len(lines) - 1) * _PITCH_MM + names_mm <= cells.first[1]:
            return lines
    return []


def _sheets(first: int, pieces: Iterator[Piece], layout: CellStock, head: Sequence[str], foot: Foot) -> list[Page]:
    """Fill the cells from the first wanted one on; cells that stay empty are drawn faint."""
    cells = layout.cells
    per_sheet = cells.across * cells.down
    placed: Iterator[Piece | None] = chain(repeat(None, (first - 1) % per_sheet), pieces)
    pages = []
    while any(on_sheet := list(islice(placed, per_sheet))):
        page = Page(layout.paper[0], layout.paper[1])
        if head:
            _head(page, head, layout, foot)
        for i, piece in enumerate([*on_sheet, *repeat(None, per_sheet - len(on_sheet))]):
            x = cells.first[0] + i % cells.across * cells.pitch[0]
            y = cells.first[1] + i // cells.across * cells.pitch[1]
            if piece is None:
                page.add(*(moved(ink, x, y) for ink in blank_ink(layout)))
            else:
                page.add(*piece.ink(x, y), *_name(piece, layout, x, y))
        pages.append(page)
    if head:
        number_pages(pages, foot, layout.margin)
    return pages


def _name(piece: Piece, layout: CellStock, x: float, y: float) -> Iterator[Ink]:
    """Say beside a label which tube it is for: above it, or below it where labels are too close to each other."""
    if isinstance(layout, LabelSheet | LabelStrips) and (layout.names_above or piece.height_mm <= layout.room_mm):
        base = y - 0.7 if layout.names_above else y + piece.height_mm + NAME_MM - 0.5
        room = layout.cells.pitch[0] - 1 if layout.cells.across > 1 else layout.paper[0] - layout.margin - x
        yield Text(x, base, shortened(piece.says, room, FOOT_MM), FOOT_MM)


_HEAD_MM = 3.6  # from the title's base line to below the first line that says how labels are used
_PITCH_MM = 2.6
_CLIPPED_MM = 6.0  # printers print nothing nearer to the paper's edge
_HOW = {
    LabelWraps: "Print towards you, wrap the printed part on first, the clear film over it",
    LabelFlags: "Lay the middle round the wires and stick the halves together",
}


_AFTER = {
    "lead": "over the plug, or contact by contact before a shell is filled",
    "wire": "over the contact before its housing is filled",
    "both": "a lead's over the plug, or contact by contact before a shell is filled, a wire's over its contact",
}


def _how(items: LabelContent, layout: LabelStock) -> str:
    """Say what is done with labels of a stock, and for tube when it goes on and over what."""
    if isinstance(layout, LabelWraps | LabelFlags):
        return _HOW[type(layout)]
    when = "before crimping" if items.fit == "before" else f"after crimping, {_AFTER[items.each]}"
    if isinstance(layout, LabelStrips):
        return f"Slide the clear tube named on {when}. Cut strips out along their marks and lay them under it"
    tape = isinstance(layout, LabelSheet) and layout.tube is None
    return f"{'Tape flat tube of the size named over each outline. ' if tape else ''}Slide on {when}"


def _says(items: LabelContent, layout: LabelStock) -> str:
    """Say how labels are used."""
    least = _says_least(items, layout)
    return f"{_how(items, layout)}, {least[0].lower()}{least[1:]}"


def _says_least(items: LabelContent, layout: LabelStock) -> str:
    """Say what must be said of labels: how they lie, and where."""
    facing = "Arrow" if isinstance(layout, LabelFlags) else "Bar"
    last = "." if isinstance(layout, LabelWraps | LabelFlags) else "; shrink last."
    middle = ", those in the middle halfway" if any(item.text.middle for item in items.labels) else ""
    return f"{facing} towards the plug, near edge {decimal(items.behind_plug_mm)} mm behind it{middle}{last}"


def _head_base_mm(layout: CellStock) -> float:
    """Return the base line of a sheet's title."""
    return max(layout.margin - 1, _CLIPPED_MM + PLAIN_MM)


def _head(page: Page, lines: Sequence[str], layout: CellStock, foot: Foot) -> None:
    """Say once how labels are used, above the cells."""
    margin, base, width = layout.margin, _head_base_mm(layout), page.width_mm - 2 * layout.margin
    title = shortened(f"Wire labels · {foot.title_block.aircraft} {foot.title_block.marks}", width, PLAIN_MM, bold=True)
    page.add(Text(margin, base, title, PLAIN_MM, bold=True))
    for i, line in enumerate(lines):
        page.add(Text(margin, base + 3 + i * _PITCH_MM, line, SMALL_MM))
