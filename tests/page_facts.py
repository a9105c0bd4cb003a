"""What holds for every page of the kit, measured from the PDF: heights of type, texts, lines, how full they are."""

from __future__ import annotations

import ctypes
import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pypdfium2
import pypdfium2.raw
from measured import Box, PrintedPage
from reference.character_heights import SERIES_MM

if TYPE_CHECKING:
    from numpy.typing import NDArray

FOOT_MM = 1.5
TICK_MM = 4.0
CLIP_MM = 6.0  # printers clip within 6 mm of a sheet's edge: common practice, no source
_FOOT_FROM_BOTTOM_MM = 10.0


class Sheet(PrintedPage):
    """One page with the lines on it, sides of boxes among them, as thin boxes; and the boxes to tick."""

    def __init__(self, page: pypdfium2.PdfPage) -> None:
        super().__init__(page)
        paths = [self._path(path) for path in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])]
        self.lines = [side for box in paths for side in _sides(box)]
        self.uprights = [line for line in self.lines if line.left == line.right and line.top < line.bottom]
        self.ticks = [box for box in paths if abs(_wide(box) - TICK_MM) < 0.1 and abs(_high(box) - TICK_MM) < 0.1]

    def _path(self, path: pypdfium2.PdfObject) -> Box:
        """Return the box of a path along the middle of its line; the renderer's has the line's width around it."""
        width = ctypes.c_float()
        pypdfium2.raw.FPDFPageObj_GetStrokeWidth(path.raw, width)
        return self._box(path.get_bounds()).grown(-width.value)  # lines are drawn in mm


def sheets_of(pdf: bytes) -> list[Sheet]:
    """Return the pages of a document."""
    return [Sheet(page) for page in pypdfium2.PdfDocument(pdf)]


def doubled_names(folder: Path, target: Path) -> Path:
    """Write a copy of an example whose labels, places and equipment have names twice as long."""
    for path in folder.glob("*.yaml"):
        text = re.sub(r"((?:label|left|right): )([A-Z][^,}\n]*[^,}\n ])", r"\1\2 \2", path.read_text("utf-8"))
        for name in ("aileron", "radio-tray", "lower-tray", "panel-root", "fan-bay", "leg-bay", "rudder", "receiver"):
            text = re.sub(rf"(?<!kind: )\b{name}\b", f"{name}-{name}", text)
        (target / path.name).write_text(text, "utf-8")
    return target


def _wide(box: Box) -> float:
    return box.right - box.left


def _high(box: Box) -> float:
    return box.bottom - box.top


def _sides(box: Box) -> list[Box]:
    """Return the four sides of a box, a hair wide; of a line they lie in one."""
    return [
        Box(box.left, box.top, box.left, box.bottom),
        Box(box.right, box.top, box.right, box.bottom),
        Box(box.left, box.top, box.right, box.top),
        Box(box.left, box.bottom, box.right, box.bottom),
    ]


def heights_off(pages: Sequence[Sheet]) -> set[float]:
    """Return the heights of capitals that are neither of the series nor the foot's."""
    heights = {round(text.capital_mm, 2) for page in pages for text in page.texts}
    return heights - {*SERIES_MM, FOOT_MM}


def texts_that_meet(pages: Sequence[Sheet]) -> list[tuple[str, str]]:
    """Return texts whose ink overlaps that of another."""
    found = []
    for page in pages:
        boxes = [text.box for text in page.texts]
        pairs = np.argwhere(np.triu(_shared_mm(boxes, boxes) > 0.01, 1))
        found += [(page.texts[one].text, page.texts[other].text) for one, other in pairs]
    return found


def texts_struck(pages: Sequence[Sheet]) -> list[str]:
    """Return texts that a line goes through."""
    found = []
    for page in pages:
        struck = np.any(_shared_mm([text.box for text in page.texts], page.lines) >= 0, axis=1).tolist()
        found += [text.text for text, is_struck in zip(page.texts, struck, strict=True) if is_struck]
    return found


def _shared_mm(boxes: Sequence[Box], others: Sequence[Box]) -> NDArray[np.float64]:
    """Return how much each box has in common with each of the others, across or down, whichever is less."""
    one, other = np.array(boxes).reshape(-1, 1, 4), np.array(others).reshape(1, -1, 4)
    shared = np.minimum(one[..., 2:], other[..., 2:]) - np.maximum(one[..., :2], other[..., :2])
    return np.asarray(shared.min(axis=2), dtype=np.float64)


def texts_near_an_edge(pages: Sequence[Sheet]) -> list[str]:
    """Return texts that a printer may clip."""
    return [
        text.text
        for page in pages
        for text in page.texts
        if not Box(0, 0, page.width_mm, page.height_mm).grown(-CLIP_MM).holds(text.box, 0.05)
    ]


def pages_half_empty(pages: Sequence[Sheet]) -> list[int]:
    """Return the pages but the last on which less than half of the height is used, the foot left out."""
    return [
        number
        for number, page in enumerate(pages[:-1], 1)
        if max(t.box.bottom for t in page.texts if t.box.bottom < page.height_mm - _FOOT_FROM_BOTTOM_MM)
        < page.height_mm / 2
    ]
