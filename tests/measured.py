"""Measure printed pages from outside: pixels, lines and texts, in mm from the top left of the paper."""

from __future__ import annotations

import struct
from collections.abc import Iterator, Mapping, Sequence
from functools import cache, cached_property
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np
import pypdfium2
import pypdfium2.raw
import yaml

if TYPE_CHECKING:
    from numpy.typing import NDArray

DOTS_PER_INCH = 600
MM_PER_POINT = 25.4 / 72
INK = 110  # darker than the grey of outlines (140) when printed black, so that outlines do not count
# Capitals whose ink ends flat, on the base line and at the height of capitals.
FLAT_CAPITALS = frozenset("BDEFHIKLMNPRTXZ")
_WINDOW_MM = 0.25


class Box(NamedTuple):
    """A rectangle on the paper [mm]."""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, mm: float) -> Box:
        return Box(self.left - mm, self.top - mm, self.right + mm, self.bottom + mm)

    def holds(self, other: Box, slack_mm: float = 0.0) -> bool:
        grown = self.grown(slack_mm)
        return (
            grown.left <= other.left
            and grown.top <= other.top
            and grown.right >= other.right
            and grown.bottom >= other.bottom
        )

    def overlaps(self, other: Box, by_mm: float = 0.0) -> bool:
        return (
            min(self.right, other.right) - max(self.left, other.left) > by_mm
            and min(self.bottom, other.bottom) - max(self.top, other.top) > by_mm
        )


class PrintedText(NamedTuple):
    """A text as it stands in the PDF: its ink, base line, and the height that its capitals have by the text matrix."""

    text: str
    box: Box
    base_mm: float
    capital_mm: float
    bold: bool


def face_file(bold: bool) -> Path:
    """Return the file of one weight of the typeface."""
    package = find_spec("font_source_sans_pro")
    assert package is not None
    assert package.origin is not None
    return Path(package.origin).parent / "files" / f"SourceSansPro-{'Semibold' if bold else 'Regular'}.ttf"


@cache
def capital_ratio(bold: bool) -> float:
    """Return the height of capitals over the size: sCapHeight (OpenType `OS/2`) over unitsPerEm (`head`)."""
    data = face_file(bold).read_bytes()
    tables = {}
    for i in range(struct.unpack_from(">H", data, 4)[0]):
        tag, _, offset, _ = struct.unpack_from(">4sIII", data, 12 + 16 * i)
        tables[tag] = offset
    capital = struct.unpack_from(">h", data, tables[b"OS/2"] + 88)[0]
    return float(capital / struct.unpack_from(">H", data, tables[b"head"] + 18)[0])


class PrintedPage:
    """One page of a PDF."""

    def __init__(self, page: Any) -> None:
        self._page = page
        self.width_mm, self.height_mm = (float(side) * MM_PER_POINT for side in page.get_size())

    @cached_property
    def pixels(self) -> NDArray[np.uint8]:
        """Return it rendered: rows from the top, 0 black to 255 white."""
        bitmap = self._page.render(scale=DOTS_PER_INCH / 72, grayscale=True)
        return np.array(bitmap.to_numpy()).reshape(bitmap.height, bitmap.width)

    @cached_property
    def texts(self) -> list[PrintedText]:
        """Return the texts, pieces that follow each other on one base line in one size and weight together."""
        found: list[PrintedText] = []
        textpage = self._page.get_textpage()
        end = None
        for piece in self._page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_TEXT], textpage=textpage):
            bold = "Semibold" in piece.get_font().get_base_name()
            matrix = piece.get_matrix().get()
            capital = piece.get_font_size() * matrix[3] * capital_ratio(bold) * MM_PER_POINT
            text = PrintedText(
                piece.extract().strip(), self._box(piece.get_bounds()), self._down(matrix[5]), capital, bold
            )
            if found and end is not None and self._follows(found[-1], text, end):
                last = found[-1]
                both = Box(
                    last.box.left,
                    min(last.box.top, text.box.top),
                    text.box.right,
                    max(last.box.bottom, text.box.bottom),
                )
                text = text._replace(text=last.text + text.text, box=both)
                found[-1] = text
            else:
                found.append(text)
            end = text.box.right
        return found

    @staticmethod
    def _follows(last: PrintedText, text: PrintedText, end_mm: float) -> bool:
        alike = last.bold == text.bold and abs(last.capital_mm - text.capital_mm) < 1e-4
        return alike and abs(last.base_mm - text.base_mm) < 1e-4 and abs(text.box.left - end_mm) < 0.6 * last.capital_mm

    @cached_property
    def outlines(self) -> list[Box]:
        """Return the boxes of all that is drawn, its lines' width on each side included."""
        paths = self._page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])
        return [self._box(path.get_bounds()) for path in paths]

    @cached_property
    def capitals(self) -> list[tuple[str, Box]]:
        """Return the boxes of the flat capitals on the page."""
        textpage = self._page.get_textpage()
        every = textpage.get_text_range(0, -1, errors="replace")
        found = []
        for i in range(textpage.count_chars()):
            letter = every[i] if len(every) == textpage.count_chars() else textpage.get_text_range(i, 1)
            if letter in FLAT_CAPITALS:
                found.append((letter, self._box(textpage.get_charbox(i))))
        return found

    def _down(self, y_points: float) -> float:
        return self.height_mm - y_points * MM_PER_POINT

    def _box(self, bounds: Sequence[float]) -> Box:
        left, bottom, right, top = bounds
        return Box(left * MM_PER_POINT, self._down(top), right * MM_PER_POINT, self._down(bottom))

    @property
    def per_mm(self) -> tuple[float, float]:
        """Return pixels per mm, across and down."""
        rows, columns = self.pixels.shape
        return columns / self.width_mm, rows / self.height_mm

    def cut(self, box: Box) -> NDArray[np.uint8]:
        """Return the pixels in a box."""
        x, y = self.per_mm
        left, right = (max(round(side * x), 0) for side in (box.left, box.right))
        top, bottom = (max(round(side * y), 0) for side in (box.top, box.bottom))
        return self.pixels[top:bottom, left:right]

    def upright_line_mm(self, x_mm: float, top_mm: float, bottom_mm: float) -> float | None:
        """Return where across an upright line is that should be at `x_mm`, or nothing if there is none near."""
        left = round((x_mm - _WINDOW_MM) * self.per_mm[0])
        part = self.cut(Box(x_mm - _WINDOW_MM, top_mm, x_mm + _WINDOW_MM, bottom_mm))
        return _centre(part.T, left, self.per_mm[0])

    def level_line_mm(self, y_mm: float, left_mm: float, right_mm: float) -> float | None:
        """Return where down a level line is that should be at `y_mm`, or nothing if there is none near."""
        top = round((y_mm - _WINDOW_MM) * self.per_mm[1])
        part = self.cut(Box(left_mm, y_mm - _WINDOW_MM, right_mm, y_mm + _WINDOW_MM))
        return _centre(part, top, self.per_mm[1])

    def off_outline_mm(self, box: Box) -> float:
        """Return how far the worst side of an outline is from where it should be [mm], infinite if one is missing."""
        # Corners are left out: the sides meet there, and cut marks begin.
        inset_x, inset_y = 0.05 * (box.right - box.left), 0.2 * (box.bottom - box.top)
        sides = [
            (side, self.upright_line_mm(side, box.top + inset_y, box.bottom - inset_y))
            for side in (box.left, box.right)
        ]
        sides += [
            (side, self.level_line_mm(side, box.left + inset_x, box.right - inset_x)) for side in (box.top, box.bottom)
        ]
        return max(abs(at - side) if at is not None else float("inf") for side, at in sides)

    def ink_outside(self, region: Box, allowed: Sequence[Box]) -> list[tuple[float, float]]:
        """Return some points in a region where ink is outside the boxes that it may stand in [mm]."""
        x, y = self.per_mm
        dark = self.cut(region) < INK
        first_row, first_column = max(round(region.top * y), 0), max(round(region.left * x), 0)
        for box in allowed:
            rows = slice(max(int(box.top * y) - first_row, 0), max(int(np.ceil(box.bottom * y)) - first_row, 0))
            columns = slice(
                max(int(box.left * x) - first_column, 0), max(int(np.ceil(box.right * x)) - first_column, 0)
            )
            dark[rows, columns] = False
        return [((c + first_column) / x, (r + first_row) / y) for r, c in np.argwhere(dark)[:5]]

    def capital_height_mm(self, text: PrintedText) -> float | None:
        """Return the height of a flat capital of a text by its pixels, or nothing if the text has none."""
        for _letter, box in self.capitals:
            middle = (box.left + box.right) / 2
            if abs(box.bottom - text.base_mm) > 0.1 or not text.box.left < middle < text.box.right:
                continue
            part = self.cut(Box(box.left, box.top - 0.15, box.right, text.base_mm + 0.15))
            rows = np.flatnonzero((part < 128).any(axis=1))
            return float(rows[-1] - rows[0] + 1) / self.per_mm[1]
        return None


def _centre(part: NDArray[np.uint8], first: int, per_mm: float) -> float | None:
    """Return where a line along the second axis stands on the first: the centre of what is dark there."""
    dark = 255.0 - part
    # A line of 0.18 mm in grey is 4 pixels of 115 at 600 dpi; in nearly every column half of that must be there.
    if part.size == 0 or np.quantile(dark.sum(axis=0), 0.02) < 2 * 115:
        return None
    profile = dark.mean(axis=1)
    at = (np.arange(len(profile)) + 0.5) @ profile / profile.sum()
    return float((first + at) / per_mm)


def printed_pages(pdf: Path) -> list[PrintedPage]:
    """Return the pages of a PDF."""
    return [PrintedPage(page) for page in pypdfium2.PdfDocument(pdf.read_bytes())]


def rows_of(page: PrintedPage) -> Iterator[list[PrintedText]]:
    """Walk the texts that stand in one row, from the left; rows are nearer to nothing than half their 7 mm."""
    row: list[PrintedText] = []
    for text in sorted(page.texts, key=lambda text: (text.box.top + text.box.bottom) / 2):
        middle = (text.box.top + text.box.bottom) / 2
        if row and middle - (row[-1].box.top + row[-1].box.bottom) / 2 > 1.5:
            yield sorted(row, key=lambda text: text.box.left)
            row = []
        row.append(text)
    yield sorted(row, key=lambda text: text.box.left)


def mm(said: str) -> float:
    """Read a length as it stands in a layout."""
    value, unit = said.split()
    return float(value) * {"mm": 1.0, "in": 25.4}[unit]


def read(path: Path) -> Any:
    """Read a YAML file."""
    return yaml.safe_load(path.read_text("utf-8"))


def cells(layout: Mapping[str, Any]) -> Iterator[tuple[float, float]]:
    """Walk the top left corners of the labels on a sheet, row by row [mm]."""
    form = layout["cells"]
    first, pitch = ([mm(side) for side in form[key]] for key in ("first", "pitch"))
    for row in range(form["down"]):
        for column in range(form["across"]):
            yield first[0] + column * pitch[0], first[1] + row * pitch[1]
