"""Lay labels out on a stock: sheets of cells, or one label a page on a tape."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.basics.findings import Finding
from docgen.paperwork.imprint import FOOT_MM, PLAIN_MM, SMALL_MM, Foot, Imprint, foot_height_mm, number_pages, state_of
from docgen.paperwork.label_stocks import Piece, blank_marks, fit
from docgen.paperwork.layouts import (
    NAME_MM,
    CellStock,
    LabelFlags,
    LabelSheet,
    LabelStock,
    LabelStrips,
    LabelTape,
    LabelWraps,
)
from docgen.paperwork.marks import Line, Mark, Page, Shape, Text
from docgen.paperwork.pages import Composed
from docgen.paperwork.typeface import shortened
from docgen.paperwork.wire_labels import CAUTION, LabelContent


def compose(items: LabelContent, layout: LabelStock, imprint: Imprint) -> Composed:
    """Return the pages of labels on one stock; what does not fit it is found and left out."""
    pieces: list[Piece] = []
    findings: list[Finding] = []
    left_out: list[str] = []
    for item in items.labels:
        if item.plug_is_on and not isinstance(layout, LabelWraps | LabelFlags):
            left_out.append(f"{item.text.function.text} at {item.text.here.text}")
            continue
        piece, found = fit(item, items, layout)
        findings += found
        pieces += [piece] * items.copies if piece is not None else []
    notes = []
    if left_out:
        notes.append(f"left out on tube, their plugs are on already: {', '.join(left_out)}.")
    if isinstance(layout, LabelTape):
        return Composed([_tape_page(piece) for piece in pieces], findings, notes)
    foot = Foot(imprint, CAUTION, state_of(imprint), imprint.record_hash)
    if pieces and not _has_margins(layout, foot):
        notes.append(
            f"the labels fill their sheet, so it says here what belongs on it: {_says(items, layout)} {CAUTION}"
        )
    return Composed(_sheets(items, pieces, layout, foot), findings, notes)


def _tape_page(piece: Piece) -> Page:
    page = Page(piece.length_mm, piece.height_mm)
    page.add(*piece.marks())
    return page


def _has_margins(layout: CellStock, foot: Foot) -> bool:
    """Tell whether a sheet has room above and below its labels for what is said there."""
    last = layout.cells.first[1] + (layout.cells.down - 1) * layout.cells.pitch[1] + layout.size_mm[1]
    foot_mm = foot_height_mm(foot, layout.paper[0] - 2 * layout.margin)
    names_mm = NAME_MM if isinstance(layout, LabelSheet | LabelStrips) and layout.names_above else 0
    above = layout.margin + _HEAD_MM + names_mm <= layout.cells.first[1]
    return above and last + 1 <= layout.paper[1] - layout.margin - foot_mm


def _sheets(items: LabelContent, pieces: Sequence[Piece], layout: CellStock, foot: Foot) -> list[Page]:
    """Fill the cells from the first wanted one on; cells that stay empty are drawn faint."""
    cells = layout.cells
    per_sheet = cells.across * cells.down
    margins = _has_margins(layout, foot)
    placed: list[Piece | None] = [*[None] * ((items.first - 1) % per_sheet), *pieces]
    pages = []
    for start in range(0, len(placed) if pieces else 0, per_sheet):
        page = Page(layout.paper[0], layout.paper[1])
        if margins:
            _head(page, items, layout, foot)
        on_sheet = placed[start : start + per_sheet]
        for i in range(per_sheet):
            x = cells.first[0] + i % cells.across * cells.pitch[0]
            y = cells.first[1] + i // cells.across * cells.pitch[1]
            piece = on_sheet[i] if i < len(on_sheet) else None
            if piece is None:
                page.add(*(moved(mark, x, y) for mark in blank_marks(layout)))
                continue
            page.add(*(moved(mark, x, y) for mark in piece.marks()))
            page.add(*_name(piece, layout, x, y))
        pages.append(page)
    if margins:
        number_pages(pages, [foot] * len(pages), layout.margin)
    return pages


def _name(piece: Piece, layout: CellStock, x: float, y: float) -> Iterator[Mark]:
    """Say beside a label which tube it is for: above it, or below it where labels are too close to each other."""
    if isinstance(layout, LabelSheet | LabelStrips) and (layout.names_above or piece.height_mm <= layout.room_mm):
        base = y - 0.7 if layout.names_above else y + piece.height_mm + NAME_MM - 0.5
        yield Text(x, base, shortened(piece.says, piece.length_mm, FOOT_MM), FOOT_MM)


def moved(mark: Mark, x: float, y: float) -> Mark:
    """Return a mark at another place."""
    if isinstance(mark, Text):
        cell = mark.cell._replace(x_mm=mark.cell.x_mm + x, y_mm=mark.cell.y_mm + y) if mark.cell else None
        return replace(mark, x_mm=mark.x_mm + x, y_mm=mark.y_mm + y, cell=cell)
    if isinstance(mark, Line):
        return replace(mark, x1_mm=mark.x1_mm + x, x2_mm=mark.x2_mm + x, y1_mm=mark.y1_mm + y, y2_mm=mark.y2_mm + y)
    if isinstance(mark, Shape):
        return replace(mark, points_mm=tuple((px + x, py + y) for px, py in mark.points_mm))
    return replace(mark, x_mm=mark.x_mm + x, y_mm=mark.y_mm + y)


_HEAD_MM = 4.0  # from a sheet's margin to below the lines that say how labels are used
_HOW = {
    LabelStrips: "Cut each strip out along its marks, lay it on the wires and push the clear tube named over it.",
    LabelWraps: "Print towards you, wrap the printed part on first, the clear film over it.",
    LabelFlags: "Lay the middle round the wires, the arrow to the plug, and stick the halves together.",
}


def _how(layout: CellStock) -> str:
    if isinstance(layout, LabelSheet):
        if layout.tube is None:
            return "Tape flat tube of the size named over each outline. Slide on before crimping"
        return "Slide on before crimping"
    return _HOW[type(layout)][:-1]


def _says(items: LabelContent, layout: CellStock) -> str:
    """Say how labels are used."""
    facing = "" if isinstance(layout, LabelFlags) else ", bar towards the plug"
    last = "; shrink last." if isinstance(layout, LabelSheet | LabelStrips) else "."
    return f"{_how(layout)}{facing}, near edge {items.behind_plug_mm:g} mm behind it{last}"


def _head(page: Page, items: LabelContent, layout: CellStock, foot: Foot) -> None:
    """Say once how labels are used, above the cells."""
    width = page.width_mm - 2 * layout.margin
    title = f"Wire labels · {foot.imprint.aircraft} {foot.imprint.marks}"
    page.add(Text(layout.margin, layout.margin, title, PLAIN_MM, bold=True))
    says = shortened(_says(items, layout), width, SMALL_MM)
    page.add(Text(layout.margin, layout.margin + 3.2, says, SMALL_MM))
