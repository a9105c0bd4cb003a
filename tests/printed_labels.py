"""Printed wire labels, read again by the faint outlines along which they are cut."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

from click.testing import Result
from measured import Box, PrintedPage, PrintedText, mm, read

from docgen.basics.shipped import shipped_folder

EXAMPLES, LAYOUTS = shipped_folder("examples"), shipped_folder("layouts")
WREN, FULMAR = EXAMPLES / "wren", EXAMPLES / "fulmar"

Run = Callable[..., Result]

# By the method: paper goes round the wires once and 3 mm over, its text half a millimetre from its edge; a flag on the
# usual stock is two cells long, with 16 mm of it round the wires.
LAP_MM, ABOVE_MM, FLAG_MM, FLAG_ROUND_MM = 3.0, 0.5, 71.0, 16.0
HAIR_MM = 0.18


class Label(NamedTuple):
    """A label: its page, outline, where its ink may be, the texts in each of these, and what stands above it."""

    page: PrintedPage
    outline: Box
    zones: list[Box]
    copies: list[list[PrintedText]]
    beside: str

    @property
    def texts(self) -> list[PrintedText]:
        return [text for copy in self.copies for text in copy]

    @property
    def bold(self) -> str:
        """Return the function and this end."""
        return joined([text for text in self.copies[0] if text.bold])

    @property
    def small(self) -> str:
        return " ".join(joined([text for text in self.copies[0] if not text.bold]).replace(" · ", " ").split())

    @property
    def function(self) -> PrintedText:
        return next(text for text in self.copies[0] if text.bold)


def joined(texts: list[PrintedText]) -> str:
    return " ".join(text.text for text in texts)


def labels_on(pages: list[PrintedPage], layout: dict[str, Any]) -> list[Label]:
    """Return the labels on pages of a stock, unused ones without texts."""
    if layout["kind"] == "label tape":
        return [_on_tape(page, layout) for page in pages]
    return [label for page in pages for label in _on_sheet(page, layout)]


def printed_on(pages: list[PrintedPage], stock: str) -> list[Label]:
    """Return the labels on pages of a shipped stock that say something."""
    return [label for label in labels_on(pages, read(LAYOUTS / f"{stock}.yaml")) if label.copies[0]]


def _on_tape(page: PrintedPage, layout: dict[str, Any]) -> Label:
    outline = Box(0, 0, page.width_mm, page.height_mm)
    return Label(page, outline, [_clear(outline, layout)], [in_order(page.texts)], "")


def _on_sheet(page: PrintedPage, layout: dict[str, Any]) -> Iterator[Label]:
    size = {key: mm(value) for key, value in layout["label"].items()}
    lengths = {2 * size["length"] + size["wrap"]} if "wrap" in size else {size["length"]}
    if layout["kind"] == "label strips":
        lengths.add(FLAG_MM)
    found = {
        Box(*(round(side, 2) for side in box.grown(-HAIR_MM)))
        for box in page.outlines
        if box.bottom - box.top > 2
        and any(abs(box.right - box.left - 2 * HAIR_MM - length) < 0.05 for length in lengths)
    }
    for outline in sorted(found, key=lambda box: (box.top, box.left)):
        zones = _zones(layout, size, outline)
        texts = [text for text in page.texts if outline.holds(text.box, 0.1)]
        copies = [in_order([t for t in texts if _middle_in(zone, t)]) for zone in zones]
        above = [t.text for t in page.texts if abs(t.box.left - outline.left) < 1 and 0 < outline.top - t.base_mm < 1.5]
        yield Label(page, outline, zones, copies, above[0] if above else "")


def _zones(layout: dict[str, Any], size: dict[str, float], outline: Box) -> list[Box]:
    length, high = outline.right - outline.left, outline.bottom - outline.top
    parts = [outline]
    if layout["kind"] == "label wraps":
        parts = [outline._replace(bottom=outline.top + size["printed"])]
    elif layout["kind"] == "label flags" or length > 1.5 * size["length"]:
        half = (length - size.get("wrap", FLAG_ROUND_MM)) / 2
        parts = [outline._replace(right=outline.left + half), outline._replace(left=outline.right - half)]
    elif layout["kind"] == "label strips":
        half, top = (high - LAP_MM) / 2, outline.top + ABOVE_MM
        parts = [outline._replace(top=top + i * half, bottom=top + (i + 1) * half) for i in (0, 1)]
    # On a flag of a sheet of strips scissors go along the text, so it has as much clear as on a sheet of flags.
    is_flag = layout["kind"] == "label strips" and length > 1.5 * size["length"]
    return [_clear(part, layout, 0.8 if is_flag else 0.0) for part in parts]


def _clear(part: Box, layout: dict[str, Any], least_mm: float = 0.0) -> Box:
    ends, edges = mm(layout["clear"]["ends"]), max(mm(layout["clear"]["edges"]), least_mm)
    return Box(part.left + ends, part.top + edges, part.right - ends, part.bottom - edges)


def _middle_in(zone: Box, text: PrintedText) -> bool:
    across, down = (text.box.left + text.box.right) / 2, (text.box.top + text.box.bottom) / 2
    return zone.left <= across <= zone.right and zone.top <= down <= zone.bottom


def in_order(texts: list[PrintedText]) -> list[PrintedText]:
    """Return texts as they are read."""
    return sorted(texts, key=lambda text: (round(text.base_mm, 1), text.box.left))


def functions(pages: list[PrintedPage], stock: str = "strips-a4") -> list[str]:
    """Return the function on each label, page by page; it is known by the example's own text."""
    known = {name for example in (WREN, FULMAR) for name in _known(example)}
    found = []
    for label in printed_on(pages, stock):
        fitting = [name for name in known if f"{label.bold} ".startswith(f"{name} ")]
        found.append(max(fitting, key=len) if fitting else label.bold)
    return found


def _known(example: Path) -> Iterator[str]:
    for circuit in read(example / "harness.yaml")["circuits"].values():
        said = circuit["label"]
        yield from said.values() if isinstance(said, dict) else [said]


def said_on(pages: list[PrintedPage]) -> str:
    return "\n".join(text.text for page in pages for text in page.texts)


# Bench order: fuselage, then the panels; in each the circuits as written, both ends side by side.
BENCH = ["RX BATT", "RX BATT", "AIL L", "AIL L", "AIL R", "AIL R", "RUD", "RUD", "AIL L", "AIL L", "AIL R", "AIL R"]

OWN = """# Pieces of tube on half a sheet.
kind: label sheet
printer: thermal transfer
paper: [148 mm, 210 mm]
margin: 8 mm
tube: {expanded: 4.8 mm, recovered: 2.4 mm}
cells: {across: 2, down: 8, first: [12 mm, 28 mm], pitch: [64 mm, 12 mm]}
label: {length: 55 mm, width: 7.6 mm}
clear: {ends: 2 mm, edges: 0.4 mm}
"""


def own(text: str) -> Path:
    path = Path("own.yaml")
    path.write_text(text, "utf-8")
    return path


def each(folder: Path, mode: str) -> Path:
    harness = folder / "harness.yaml"
    harness.write_text(harness.read_text("utf-8") + f"\nlabels: {{each: {mode}}}\n", "utf-8")
    return folder


def without_blanks(text: str) -> str:
    return re.sub(r"\s", "", text)
