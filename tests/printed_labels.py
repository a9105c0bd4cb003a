"""Printed wire labels, read again by the cells of their stock."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from click.testing import Result
from measured import PrintedPage, cells, mm, read

from docgen.basics.shipped import shipped_folder

EXAMPLES, LAYOUTS = shipped_folder("examples"), shipped_folder("layouts")
WREN, FULMAR = EXAMPLES / "wren", EXAMPLES / "fulmar"

Run = Callable[..., Result]


def functions(pages: list[PrintedPage], stock: str) -> list[str | None]:
    """Return the function on each cell of a shipped stock, page by page; nothing for an unused cell."""
    layout = read(LAYOUTS / f"{stock}.yaml")
    length, width = mm(layout["label"]["length"]), mm(layout["label"].get("width", layout["label"].get("printed")))
    found: list[str | None] = []
    for page in pages:
        for x, y in cells(layout):
            within = [t for t in page.texts if x <= t.box.left < x + length and y <= t.base_mm < y + width]
            found.append(next((text.text for text in within if text.bold), None))
    return found


def said_on(pages: list[PrintedPage]) -> str:
    return "\n".join(text.text for page in pages for text in page.texts)


# Bench order: fuselage, then the panels; in each the circuits as written, both ends side by side.
BENCH = ["RX BATT", "RX BATT", "AIL L", "AIL L", "AIL R", "AIL R", "RUD", "RUD", "AIL L", "AIL L", "AIL R", "AIL R"]

OWN = """# Pieces of tube on half a sheet.
kind: label sheet
paper: [148 mm, 210 mm]
margin: 8 mm
tube: {expanded: 4.8 mm, recovered: 2.4 mm}
cells: {across: 2, down: 8, first: [12 mm, 20 mm], pitch: [64 mm, 12 mm]}
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
