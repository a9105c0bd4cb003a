"""Read the layouts: sizes and margins of pages and label stocks, as YAML data."""

from __future__ import annotations

import math
import re
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from docgen.basics.findings import Refused
from docgen.basics.units import LENGTH_MM, OFFSET_MM, TEMPERATURE_C, Quantity, parse_quantity, parse_whole
from docgen.paperwork.typesetting.ink import Correction


def _length(value: Any) -> float:
    return parse_quantity(value if isinstance(value, str) else "", LENGTH_MM)


def _count(value: Any) -> int:
    return parse_whole(value if isinstance(value, str) else "", 1, 200)


def _temperature(value: Any) -> float:
    return parse_quantity(value if isinstance(value, str) else "", TEMPERATURE_C)


LengthMm = Annotated[float, BeforeValidator(_length)]
TemperatureC = Annotated[float, BeforeValidator(_temperature)]
Count = Annotated[int, BeforeValidator(_count)]
Pair = Annotated[list[LengthMm], Field(min_length=2, max_length=2)]


NAME_MM = 2.3  # what the name of a tube takes beside its label, with the space to both


class LayoutForm(BaseModel):
    """A file of `layouts/`, or a part of one: unknown keys are refused, nothing can be changed."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class PageLayout(LayoutForm):
    """A sheet or card: paper and the margin around all that is printed [mm]."""

    kind: Literal["page"]
    paper: Pair
    margin: LengthMm


class Cells(LayoutForm):
    """Where labels stand on a sheet: the first one's top left corner and the pitch."""

    across: Count
    down: Count
    first: Pair
    pitch: Pair


class LabelSize(LayoutForm):
    """A label's length along the wire, and the widest flat tube that a cell holds."""

    length: LengthMm
    width: LengthMm


class Clear(LayoutForm):
    """What stays free of ink at a label's ends and edges."""

    ends: LengthMm
    edges: LengthMm


class StockTube(LayoutForm):
    """The tube that a stock is made of: inside diameter as supplied and recovered, and the heat that it stands."""

    expanded: LengthMm
    recovered: LengthMm
    limit: TemperatureC | None = None


class _Cells(LayoutForm):
    """A sheet with labels in cells; `size_mm` is a label's length and height as it lies on the sheet."""

    paper: Pair
    margin: LengthMm
    cells: Cells
    clear: Clear

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        raise NotImplementedError


class _Pieces(_Cells):
    """Pieces of tube or paper in cells; `width` is the widest. Beside each stands the name of the tube to use."""

    label: LabelSize

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return self.label.length, self.label.width

    @property
    def gaps_mm(self) -> tuple[float, float]:
        """Return what is free between labels across and down, without end where there is but one."""
        cells, size = self.cells, self.size_mm
        across = cells.pitch[0] - size[0] if cells.across > 1 else math.inf
        return across, cells.pitch[1] - size[1] if cells.down > 1 else math.inf

    @property
    def names_above(self) -> bool:
        """Tell whether there is room for names above the labels; else they stand below, within their cells."""
        return min(self.gaps_mm[1], self.cells.first[1] - self.margin) >= NAME_MM

    @property
    def room_mm(self) -> float:
        """Return the most height of a label with its name beside it."""
        return (
            self.label.width
            if self.names_above
            else min(self.label.width, self.label.width + self.gaps_mm[1] - NAME_MM)
        )


class LabelSheet(_Pieces):
    """A carrier sheet for flat tube, of one tube or of whatever is taped on."""

    kind: Literal["label sheet"]
    tube: StockTube | None = None


class LabelStrips(_Pieces):
    """Strips of paper that are cut out and go under clear tube."""

    kind: Literal["label strips"]


class WrapSize(LayoutForm):
    """A label's length along the wire; around it first the printed zone, then the clear one that covers it."""

    length: LengthMm
    printed: LengthMm
    cover: LengthMm


class LabelWraps(_Cells):
    """Labels that are wrapped round a wire, their clear zone over their print."""

    kind: Literal["label wraps"]
    label: WrapSize

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return self.label.length, self.label.printed + self.label.cover


class FlagSize(LayoutForm):
    """One of the two halves of a flag, and what lies round the wire between them."""

    length: LengthMm
    width: LengthMm
    wrap: LengthMm


class LabelFlags(_Cells):
    """Flags: two halves stuck back to back, with the wire between."""

    kind: Literal["label flags"]
    label: FlagSize

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return 2 * self.label.length + self.label.wrap, self.label.width


_SCALE = Quantity("a scale", {"%": 0.01}, "100.4 %", 0.9, 1.1)
_SHIFT_MM = Quantity("a shift", OFFSET_MM.units, "-0.8 mm", -20, 20)


def _scale(value: Any) -> float:
    return parse_quantity(value if isinstance(value, str) else "", _SCALE)


def _shift(value: Any) -> float:
    return parse_quantity(value if isinstance(value, str) else "", _SHIFT_MM)


def _ratio(value: Any) -> float:
    match = re.fullmatch(r"([2-9]):1", value) if isinstance(value, str) else None
    if match is None:
        raise Refused("value", "this is not how much a tube shrinks.", "Write it like `3:1`.")
    return float(match.group(1))


class LabelTape(LayoutForm):
    """A continuous flat tape of tube, one label a page.

    `flat` is its measured width where that is not the tape's, `limit` the heat that it stands.
    """

    kind: Literal["label tape"]
    width: LengthMm
    flat: LengthMm | None = None
    shrinks: Annotated[float, BeforeValidator(_ratio)]
    length: Pair
    clear: Clear
    limit: TemperatureC | None = None

    @property
    def flat_mm(self) -> float:
        """Return the width of the flat tube."""
        return self.width if self.flat is None else self.flat

    def measured(self, flat_mm: float) -> LabelTape:
        """Return it with another flat width, as measured by the builder."""
        return self.model_copy(update={"flat": flat_mm})

    def corrected(self, printer: Printer) -> LabelTape:
        """Return it with so much more clear that what is shifted and scaled for a printer stays in its zone too."""
        edge = (self.width - self.flat_mm) / 2
        edges = _clear_mm(edge, edge + self.flat_mm, self.clear.edges, printer.scale[1], printer.shift[1])
        ends = max(_clear_mm(0, each, self.clear.ends, printer.scale[0], printer.shift[0]) for each in self.length)
        return self.model_copy(update={"clear": Clear.model_construct(ends=ends, edges=edges)})

    @property
    def tube(self) -> StockTube:
        """Return the tube: pressed flat, its width is half its circumference."""
        expanded = 2 * self.flat_mm / math.pi
        return StockTube.model_construct(expanded=expanded, recovered=expanded / self.shrinks, limit=self.limit)


CellStock = LabelSheet | LabelStrips | LabelWraps | LabelFlags
LabelStock = CellStock | LabelTape
Layout = PageLayout | LabelStock
MODELS: dict[str, type[LayoutForm]] = {
    "page": PageLayout,
    "label sheet": LabelSheet,
    "label strips": LabelStrips,
    "label wraps": LabelWraps,
    "label flags": LabelFlags,
    "label tape": LabelTape,
}
STOCK_KINDS = tuple(kind for kind in MODELS if kind != "page")


class Printer(LayoutForm):
    """What a printer makes of 100 %, across and down, and how far it shifts, right and down; `turned` of wide pages."""

    kind: Literal["printer"]
    scale: Annotated[list[Annotated[float, BeforeValidator(_scale)]], Field(min_length=2, max_length=2)]
    shift: Annotated[list[Annotated[float, BeforeValidator(_shift)]], Field(min_length=2, max_length=2)]
    turned: Literal["yes", "no"] = "no"

    @property
    def correction(self) -> Correction:
        """Return what is undone where pages are drawn."""
        return Correction(self.scale, self.shift)

    def is_of(self, width_mm: float, height_mm: float) -> bool:
        """Tell whether it holds for such a page: it lies as that measured, or all directions are alike."""
        alike = self.scale[0] == self.scale[1] and self.shift == [0, 0]
        return alike or (self.turned == "yes") == (width_mm > height_mm)


def _clear_mm(start: float, end: float, clear: float, scale: float, shift: float) -> float:
    """Return what must be clear at both ends of a stretch for print to be clear of them as drawn for a printer too.

    A point is drawn at (point − shift) / scale.
    """
    low, high = (start + clear) * scale + shift - start, end - (end - clear) * scale - shift
    return max(clear, low, high)
