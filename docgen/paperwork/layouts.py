"""Read the layouts: sizes and margins of pages and label stocks, as YAML data."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, TypeAdapter, ValidationError

from docgen.basics.findings import Finding, Position, Refused
from docgen.basics.locate import findings_from_errors, position_of
from docgen.basics.shipped import shipped_folder
from docgen.basics.source import Node, plain, read_yaml
from docgen.basics.units import LENGTH_MM, OFFSET_MM, Quantity, parse_quantity, parse_whole


def _length(value: Any) -> float:
    return parse_quantity(value if isinstance(value, str) else "", LENGTH_MM)


def _count(value: Any) -> int:
    return parse_whole(value if isinstance(value, str) else "", 1, 200)


LengthMm = Annotated[float, BeforeValidator(_length)]
Count = Annotated[int, BeforeValidator(_count)]
Pair = Annotated[list[LengthMm], Field(min_length=2, max_length=2)]


class _Layout(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class PageLayout(_Layout):
    """A sheet or card: paper and the margin around all that is printed [mm]."""

    kind: Literal["page"]
    paper: Pair
    margin: LengthMm


class Cells(_Layout):
    """Where labels stand on a sheet: the first one's top left corner and the pitch."""

    across: Count
    down: Count
    first: Pair
    pitch: Pair


class LabelSize(_Layout):
    """A label's length along the wire, and the widest flat tube that a cell holds."""

    length: LengthMm
    width: LengthMm


class Clear(_Layout):
    """What stays free of ink at a label's ends and edges."""

    ends: LengthMm
    edges: LengthMm


class StockTube(_Layout):
    """The tube that a stock is made of: inside diameter as supplied and recovered."""

    expanded: LengthMm
    recovered: LengthMm


class _Cells(_Layout):
    """A sheet with labels in cells; `size_mm` is a label's length and height as it lies on the sheet."""

    paper: Pair
    margin: LengthMm
    cells: Cells
    clear: Clear

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        raise NotImplementedError


class LabelSheet(_Cells):
    """A carrier sheet for flat tube, of one tube or of whatever is taped on; `width` is the widest flat tube."""

    kind: Literal["label sheet"]
    label: LabelSize
    tube: StockTube | None = None

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return self.label.length, self.label.width


class LabelStrips(_Cells):
    """Strips of paper that are cut out and go under clear tube; `width` is the widest strip."""

    kind: Literal["label strips"]
    label: LabelSize

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return self.label.length, self.label.width


class WrapSize(_Layout):
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


class FlagSize(_Layout):
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


class LabelTape(_Layout):
    """A continuous flat tape of tube, one label a page; `flat` is its measured width where that is not the tape's."""

    kind: Literal["label tape"]
    width: LengthMm
    flat: LengthMm | None = None
    shrinks: Annotated[float, BeforeValidator(_ratio)]
    length: Pair
    clear: Clear

    @property
    def flat_mm(self) -> float:
        """Return the width of the flat tube."""
        return self.width if self.flat is None else self.flat

    def measured(self, flat_mm: float) -> LabelTape:
        """Return it with another flat width, as measured by the builder."""
        return self.model_copy(update={"flat": flat_mm})

    @property
    def tube(self) -> StockTube:
        """Return the tube: pressed flat, its width is half its circumference."""
        expanded = 2 * self.flat_mm / math.pi
        return StockTube.model_construct(expanded=expanded, recovered=expanded / self.shrinks)


CellStock = LabelSheet | LabelStrips | LabelWraps | LabelFlags
LabelStock = CellStock | LabelTape
Layout = PageLayout | LabelStock
_MODELS: dict[str, type[_Layout]] = {
    "page": PageLayout,
    "label sheet": LabelSheet,
    "label strips": LabelStrips,
    "label wraps": LabelWraps,
    "label flags": LabelFlags,
    "label tape": LabelTape,
}
STOCK_KINDS = tuple(kind for kind in _MODELS if kind != "page")


class Printer(_Layout):
    """What a printer does to a page: what it makes of 100 %, across and down, and how far it shifts it, right and down.

    `kind` tells the file from others.
    """

    kind: Literal["printer"]
    scale: Annotated[list[Annotated[float, BeforeValidator(_scale)]], Field(min_length=2, max_length=2)]
    shift: Annotated[list[Annotated[float, BeforeValidator(_shift)]], Field(min_length=2, max_length=2)]


def layout_names(kinds: tuple[str, ...] = tuple(_MODELS)) -> list[str]:
    """Return the names of the layouts that came with the program, of some kinds."""
    names = []
    for path in sorted(shipped_folder("layouts").glob("*.yaml")):
        node, _ = read_yaml(path, path.name)
        form: Any = plain(node) if node else {}
        if form.get("kind") in kinds:
            names.append(path.stem)
    return names


def read_layout(name: str) -> tuple[Layout | None, list[Finding]]:
    """Return a layout that came with the program, by its name."""
    return read_layout_file(shipped_folder("layouts") / f"{name}.yaml", f"{name}.yaml")


def read_layout_file(path: Path, shown_name: str) -> tuple[Layout | None, list[Finding]]:
    """Return the layout in a file, or what is wrong with it."""
    layout, node, findings = _read(path, shown_name, _MODELS)
    if layout is None or node is None:
        return None, findings
    found = list(_misfits(layout, node))
    return (None if found else layout), found


def read_printer(path: Path) -> tuple[Printer | None, list[Finding]]:
    """Return what a file says of a printer, or what is wrong with it."""
    printer, _, findings = _read(path, str(path), {"printer": Printer})
    return printer, findings


def _read(path: Path, shown_name: str, models: Mapping[str, type[_Layout]]) -> tuple[Any, Node | None, list[Finding]]:
    """Return what is in a file, as the model that its `kind` names, with its node."""
    node, findings = read_yaml(path, shown_name)
    if node is None or findings:
        return None, node, findings
    form: Any = plain(node)
    kind = form.get("kind") if isinstance(form, dict) else None
    model = models.get(kind) if isinstance(kind, str) else None
    start = Position(shown_name, 1, 1)
    if model is None:
        position = position_of(node, ("kind",)) if isinstance(form, dict) and "kind" in form else start
        name = "value" if isinstance(form, dict) and "kind" in form else "missing"
        sentence = "the `kind` of the file is unknown." if name == "value" else "the `kind` of the file is not said."
        return None, node, [Finding(position, name, sentence, f"Write one of: {', '.join(models)}.")]
    try:
        return TypeAdapter(model).validate_python(form), node, []
    except ValidationError as error:
        errors: Any = error.errors(include_url=False, include_input=False)
        return None, node, findings_from_errors(errors, node, start, model)


def _zone_mm(layout: LabelStock, size: tuple[float, float]) -> tuple[float, float]:
    """Return the part of a label that is printed on."""
    if isinstance(layout, LabelWraps):
        return layout.label.length, layout.label.printed
    return (layout.label.length, layout.label.width) if isinstance(layout, LabelFlags) else size


def _misfits(layout: Layout, node: Node) -> Iterator[Finding]:
    """Find labels that run into each other, over the paper's edge, or have no room for print."""

    def finding(path: tuple[str | int, ...], sentence: str, do: str) -> Finding:
        return Finding(position_of(node, path), "stock", sentence, do, ("layout", ""))

    if isinstance(layout, PageLayout):
        return
    clear = layout.clear
    size = (layout.length[1], layout.flat_mm) if isinstance(layout, LabelTape) else layout.size_mm
    zone = _zone_mm(layout, size)
    if zone[0] <= 2 * clear.ends or zone[1] <= 2 * clear.edges:
        yield finding(("clear",), "nothing of a label is left to print on.", "Leave less clear, or make labels larger.")
    if isinstance(layout, LabelTape):
        if layout.flat_mm > layout.width:
            sentence = f"a flat tube of {layout.flat_mm:g} mm is wider than its tape of {layout.width:g} mm."
            yield finding(("flat",), sentence, "Measure the flat tube and the tape again.")
        if layout.length[0] > layout.length[1]:
            yield finding(("length",), "the least length is over the most.", "Write the shorter first.")
        return
    cells = layout.cells
    counts = cells.across, cells.down
    for axis, way in ((0, "across"), (1, "down")):
        if counts[axis] > 1 and cells.pitch[axis] < size[axis] - 1e-9:
            sentence = f"labels of {size[axis]:g} mm run into each other at a pitch of {cells.pitch[axis]:g} mm {way}."
            yield finding(("cells", "pitch", axis), sentence, "Make the pitch wider, or the labels smaller.")
        end = cells.first[axis] + (counts[axis] - 1) * cells.pitch[axis] + size[axis]
        if end > layout.paper[axis] + 1e-9:
            sentence = f"labels run {end - layout.paper[axis]:.1f} mm over the paper's edge {way}."
            yield finding(("cells", way), sentence, "Make fewer or smaller cells, or begin nearer to the edge.")
