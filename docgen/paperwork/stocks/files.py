"""Read a layout from a file of the builder's own, and find sizes in it that do not go together."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from docgen.basics.findings import Finding, Kind, Level
from docgen.basics.locate import position_of
from docgen.basics.source import Node
from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import flat_width_mm
from docgen.paperwork.stocks.layouts import (
    MODELS,
    CellStock,
    LabelSheet,
    LabelStock,
    LabelStrips,
    LabelTape,
    LabelWraps,
    Layout,
    PageLayout,
    StockTube,
)
from docgen.paperwork.stocks.reading import read_form

STOCK = Kind(
    name="stock",
    level=Level.CAUTION,
    stands_on="layout",
    meaning="A stock does not fit its paper or its labels.",
    when="Labels of a layout run into each other or over the paper's edge, or a tube pressed flat (half its "
    "expanded circumference) is wider than the label.",
    why="Text is printed beside the tube, and a sheet of labels is wasted.",
    remedy="Print on a stock that holds it: `docgen stock` lists them, `--stock` chooses. Or remedy the layout's "
    "sizes by a ruler, or choose narrower tubes, `expanded: 4.8 mm`.",
    source="Geometry: what is printed must lie on the paper.",
)


def read_layout_file(path: Path, shown_name: str) -> tuple[Layout | None, list[Finding]]:
    """Return the layout in a file, or what is wrong with it."""
    layout, node, findings = read_form(path, shown_name, MODELS)
    if layout is None or node is None:
        return None, findings
    found = list(_misfits(layout, node))
    return (None if found else layout), found


def _finding(node: Node, path: tuple[str | int, ...], sentence: str, do: str) -> Finding:
    return STOCK.at(position_of(node, path), sentence, do, ("layout", ""))


def _misfits(layout: Layout, node: Node) -> Iterator[Finding]:
    """Find labels that run into each other, over the paper's edge, or have no room for print."""
    if isinstance(layout, PageLayout):
        return
    length_mm, height_mm = _printed_mm(layout)
    if length_mm <= 2 * layout.clear.ends or height_mm <= 2 * layout.clear.edges:
        sentence = "nothing of a label is left to print on."
        yield _finding(node, ("clear",), sentence, "Leave less clear, or make labels larger.")
    if isinstance(layout, LabelTape):
        yield from _of_tape(layout, node)
        return
    if isinstance(layout, LabelSheet) and layout.tube is not None:
        yield from _of_tube(layout.tube, layout.label.width, node)
    yield from _of_cells(layout, node)


def _printed_mm(layout: LabelStock) -> tuple[float, float]:
    """Return length and height of the part of a label that is printed on."""
    if isinstance(layout, LabelTape):
        return layout.length[0], layout.flat_mm
    if isinstance(layout, LabelWraps):
        return layout.label.length, layout.label.printed
    if isinstance(layout, LabelStrips) or (isinstance(layout, LabelSheet) and layout.tube is None):
        return layout.label.length, layout.room_mm
    return layout.label.length, layout.label.width


def _of_tape(layout: LabelTape, node: Node) -> Iterator[Finding]:
    if layout.flat_mm > layout.width:
        sentence = f"a flat tube of {decimal(layout.flat_mm)} mm is wider than its tape of {decimal(layout.width)} mm."
        yield _finding(node, ("flat",), sentence, "Measure the flat tube and the tape again.")
    if layout.length[0] > layout.length[1]:
        yield _finding(node, ("length",), "the least length is over the most.", "Write the shorter first.")


def _of_tube(tube: StockTube, width_mm: float, node: Node) -> Iterator[Finding]:
    flat = flat_width_mm(tube.expanded)
    if flat > width_mm + 1e-9:
        sentence = (
            f"a tube of {decimal(tube.expanded)} mm, {flat:.1f} mm flat is wider than its label of "
            f"{decimal(width_mm)} mm."
        )
        yield _finding(node, ("tube", "expanded"), sentence, "Make the labels wider, or take a narrower tube.")
    if tube.recovered >= tube.expanded:
        sentence = (
            f"a tube of {decimal(tube.expanded)} mm that recovers to {decimal(tube.recovered)} mm does not shrink."
        )
        yield _finding(node, ("tube", "recovered"), sentence, "Look at both diameters again.")


def _of_cells(layout: CellStock, node: Node) -> Iterator[Finding]:
    cells, size = layout.cells, layout.size_mm
    counts = cells.across, cells.down
    for axis, way in ((0, "across"), (1, "down")):
        if counts[axis] > 1 and cells.pitch[axis] < size[axis] - 1e-9:
            sentence = (
                f"labels of {decimal(size[axis])} mm run into each other at a pitch of "
                f"{decimal(cells.pitch[axis])} mm {way}."
            )
            do = "Make the pitch wider, or the labels smaller."
            yield _finding(node, ("cells", "pitch", axis), sentence, do)
        end = cells.first[axis] + (counts[axis] - 1) * cells.pitch[axis] + size[axis]
        if end > layout.paper[axis] + 1e-9:
            sentence = f"labels run {end - layout.paper[axis]:.1f} mm over the paper's edge {way}."
            do = "Make fewer or smaller cells, or begin nearer to the edge."
            yield _finding(node, ("cells", way), sentence, do)
