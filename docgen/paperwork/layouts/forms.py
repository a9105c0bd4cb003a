"""The forms of YAML files about paper: values with units in, a page's size or a printer's faults as numbers out."""

from __future__ import annotations

import re
from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from docgen.basics.findings import Refused
from docgen.basics.units import LENGTH_MM, OFFSET_MM, TEMPERATURE_C, Quantity, parse_quantity, parse_whole
from docgen.paperwork.typesetting.draw import Correction


def _text(value: Any) -> str:
    """Return what was typed as one value; lists and keys are none."""
    return value if isinstance(value, str) else ""


def _of(quantity: Quantity) -> BeforeValidator:
    return BeforeValidator(lambda value: parse_quantity(_text(value), quantity))


def _ratio(value: Any) -> float:
    match = re.fullmatch(r"([2-9]):1", _text(value))
    if match is None:
        raise Refused("value", "this is not how much a tube shrinks.", "Write it like `3:1`.")
    return float(match.group(1))


LengthMm = Annotated[float, _of(LENGTH_MM)]
TemperatureC = Annotated[float, _of(TEMPERATURE_C)]
Count = Annotated[int, BeforeValidator(lambda value: parse_whole(_text(value), 1, 200))]
Ratio = Annotated[float, BeforeValidator(_ratio)]
_Scale = Annotated[float, _of(Quantity("a scale", {"%": 0.01}, "100.4 %", 0.9, 1.1))]
_ShiftMm = Annotated[float, _of(Quantity("a shift", OFFSET_MM.units, "-0.8 mm", -20, 20))]
_TWO = Field(min_length=2, max_length=2)
Pair = Annotated[list[LengthMm], _TWO]


class LayoutForm(BaseModel):
    """A file, or a part of one: unknown keys are refused, nothing can be changed."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


class Printer(LayoutForm):
    """What a printer makes of 100 %, across and down, and how far it shifts, right and down; `turned` of wide pages."""

    kind: str
    scale: Annotated[list[_Scale], _TWO]
    shift: Annotated[list[_ShiftMm], _TWO]
    turned: Literal["yes", "no"] = "no"

    @property
    def correction(self) -> Correction:
        """Return what is undone where pages are drawn: every page of every document, whose foot says so."""
        return Correction(self.scale, self.shift)

    def is_of(self, width_mm: float, height_mm: float) -> bool:
        """Tell whether it holds for such a page: it lies as that measured, or all directions are alike."""
        alike = self.scale[0] == self.scale[1] and self.shift == [0, 0]
        return alike or (self.turned == "yes") == (width_mm > height_mm)

    def other_way(self, width_mm: float, height_mm: float) -> list[str]:
        """Say so where a page lies the other way than that on which it was measured."""
        if self.is_of(width_mm, height_mm):
            return []
        says = "its pages lie the other way than the one that was measured, so directions are mixed up"
        return [f"{says}. Measure `docgen ruler{'' if self.turned == 'yes' else ' --turned'}` for them."]

    def clear_mm(self, axis: int, start_mm: float, end_mm: float, clear_mm: float) -> float:
        """Return what must be clear at both ends of a stretch, across or down, for it to be clear as drawn too.

        A point is drawn at (point − shift) / scale.
        """
        scale, shift = self.scale[axis], self.shift[axis]
        low = (start_mm + clear_mm) * scale + shift - start_mm
        return max(clear_mm, low, end_mm - (end_mm - clear_mm) * scale - shift)


class Layout(LayoutForm):
    """What a document is laid out on; `on_sheets` tells whether that goes through a printer one way or the other."""

    on_sheets: ClassVar[bool] = True
    kind: str

    def corrected(self, printer: Printer) -> tuple[Self, list[str]]:
        """Return it for pages that are corrected for a printer, and what the builder is told of that."""
        del printer
        return self, []


class PageLayout(Layout):
    """A sheet or card: paper and the margin around all that is printed [mm]."""

    paper: Pair
    margin: LengthMm
