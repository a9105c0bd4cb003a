"""What a page is made of: plain ink in mm from its top left corner. Drawing only paints them."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import NamedTuple

from docgen.basics.frozen import frozen

BLACK = "#000000"
WHITE = "#FFFFFF"
FAINT = "#8C8C8C"
THIN_MM, MIDDLE_MM, THICK_MM = 0.18, 0.25, 0.5  # ISO 128: to guide the eye, outlines, what is framed or cut


class Box(NamedTuple):
    """A rectangle: left, top, width, height [mm]."""

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float

    @property
    def right_mm(self) -> float:
        """Return its right edge."""
        return self.x_mm + self.width_mm

    @property
    def bottom_mm(self) -> float:
        """Return its lower edge."""
        return self.y_mm + self.height_mm


@frozen(slots=True)
class Text:
    """A line of text on its base line; `height_mm` is that of capitals; `cell` is what it must stay in.

    One that is `turned` is read upwards from where it begins.
    """

    x_mm: float
    y_mm: float
    text: str
    height_mm: float
    bold: bool = False
    align: str = "left"
    colour: str = BLACK
    cell: Box | None = None
    turned: bool = False


@frozen(slots=True)
class Line:
    """A straight line."""

    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    width_mm: float = MIDDLE_MM
    colour: str = BLACK


@frozen(slots=True)
class Shape:
    """A closed outline through points, filled, drawn or both."""

    points_mm: tuple[tuple[float, float], ...]
    width_mm: float = MIDDLE_MM
    fill: str | None = None
    colour: str | None = BLACK


@frozen(slots=True)
class Circle:
    """A circle, filled, drawn or both."""

    x_mm: float
    y_mm: float
    radius_mm: float
    width_mm: float = MIDDLE_MM
    fill: str | None = None
    colour: str | None = BLACK


@frozen(slots=True)
class Code:
    """A QR code: dark modules as text of 1 and 0 by row, without the quiet zone, from its top left module."""

    x_mm: float
    y_mm: float
    module_mm: float
    rows: tuple[str, ...]
    says: str


Ink = Text | Line | Shape | Circle | Code


@dataclass
class Page:
    """One page and its ink in the order in which they are painted."""

    width_mm: float
    height_mm: float
    ink: list[Ink] = field(default_factory=list)

    def add(self, *ink: Ink) -> None:
        """Put ink on the page."""
        self.ink.extend(ink)


def rectangle(box: Box, width_mm: float = MIDDLE_MM, fill: str | None = None, colour: str | None = BLACK) -> Shape:
    """Return the outline of a box."""
    corners = (
        (box.x_mm, box.y_mm),
        (box.right_mm, box.y_mm),
        (box.right_mm, box.bottom_mm),
        (box.x_mm, box.bottom_mm),
    )
    return Shape(corners, width_mm, fill, colour)


def moved(ink: Ink, x: float, y: float) -> Ink:
    """Return ink at another place."""
    if isinstance(ink, Text):
        cell = ink.cell._replace(x_mm=ink.cell.x_mm + x, y_mm=ink.cell.y_mm + y) if ink.cell else None
        return replace(ink, x_mm=ink.x_mm + x, y_mm=ink.y_mm + y, cell=cell)
    if isinstance(ink, Line):
        return replace(ink, x1_mm=ink.x1_mm + x, x2_mm=ink.x2_mm + x, y1_mm=ink.y1_mm + y, y2_mm=ink.y2_mm + y)
    if isinstance(ink, Shape):
        return replace(ink, points_mm=tuple((px + x, py + y) for px, py in ink.points_mm))
    return replace(ink, x_mm=ink.x_mm + x, y_mm=ink.y_mm + y)
