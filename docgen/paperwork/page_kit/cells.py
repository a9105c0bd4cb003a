"""What a cell of a table may hold: texts, and marks that know how wide they are and how they are drawn."""

from __future__ import annotations

from abc import ABC, abstractmethod

from docgen.basics.frozen import frozen
from docgen.paperwork.page_kit.stacks import SetLine, set_lines, stack_mm
from docgen.paperwork.typesetting.ink import MIDDLE_MM, Box, Ink, Line, rectangle
from docgen.paperwork.typesetting.swatches import swatch, swatch_width_mm
from docgen.paperwork.typesetting.typeface import SMALL_MM, width_mm

TICK_MM, FIELD_MM, BRACKET_MM = 4.0, 18.0, 1.2
_FIELD_MOST_MM = 5.6
_BESIDE_MM = TICK_MM + 1.0  # from the left of a tick to what is said beside it


@frozen
class Stacked:
    """A text in the height of its column, with small ones over and under it."""

    text: str
    over: str = ""
    under: str = ""


class Mark(ABC):
    """What is drawn in a cell."""

    @property
    @abstractmethod
    def natural_mm(self) -> float:
        """Return how wide its column must be."""

    @abstractmethod
    def draw(self, box: Box) -> list[Ink]:
        """Draw it in its cell."""


@frozen
class Tick(Mark):
    """A box to tick, and what is said beside it in a line or two."""

    says: str = ""
    under: str = ""

    @property
    def _lines(self) -> list[SetLine]:
        return [SetLine(text, SMALL_MM, False) for text in (self.says, self.under) if text]

    @property
    def natural_mm(self) -> float:
        """Return the width of the box and of what is said."""
        return max([TICK_MM, *(_BESIDE_MM + width_mm(*line) for line in self._lines)])

    def draw(self, box: Box) -> list[Ink]:
        """Draw the box at the left, in the middle of the row."""
        middle = box.y_mm + box.height_mm / 2
        tick = rectangle(Box(box.x_mm, middle - TICK_MM / 2, TICK_MM, TICK_MM), MIDDLE_MM)
        beside = Box(box.x_mm + _BESIDE_MM, box.y_mm, box.width_mm - _BESIDE_MM, box.height_mm)
        return [tick, *set_lines(self._lines, "left", beside, middle - stack_mm(self._lines) / 2)]


@frozen
class Field(Mark):
    """A box to write a figure in."""

    width_mm: float = FIELD_MM

    @property
    def natural_mm(self) -> float:
        """Return the width of the box."""
        return self.width_mm

    def draw(self, box: Box) -> list[Ink]:
        """Draw the box nearly as high as a row that is written in."""
        high = min(box.height_mm - 1.4, _FIELD_MOST_MM)
        return [rectangle(Box(box.x_mm, box.y_mm + (box.height_mm - high) / 2, self.width_mm, high), MIDDLE_MM)]


@frozen
class Swatch(Mark):
    """A wire's colour with its letters; nothing without letters."""

    letters: str

    @property
    def natural_mm(self) -> float:
        """Return the width of the colour and its letters."""
        return swatch_width_mm(self.letters, SMALL_MM) if self.letters else 0.0

    def draw(self, box: Box) -> list[Ink]:
        """Draw it in the middle of the row."""
        return swatch(self.letters, box.x_mm, box.y_mm + box.height_mm / 2, SMALL_MM) if self.letters else []


@frozen
class Bracket(Mark):
    """A bracket beside rows that say the same: each row has its part of it, the first one opens it, the last closes."""

    opens: bool
    closes: bool

    @property
    def natural_mm(self) -> float:
        """Return how far its ends reach."""
        return BRACKET_MM

    def draw(self, box: Box) -> list[Ink]:
        """Draw the part of this row."""
        top, bottom = box.y_mm + 0.8 * self.opens, box.bottom_mm - 0.8 * self.closes
        right = box.x_mm + BRACKET_MM
        ends = [y for y, is_end in ((top, self.opens), (bottom, self.closes)) if is_end]
        return [Line(right, top, right, bottom), *(Line(box.x_mm, y, right, y) for y in ends)]


Cell = str | Stacked | Mark
