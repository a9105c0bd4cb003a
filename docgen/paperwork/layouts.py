"""Read the layouts: sizes and margins of pages and label stocks, as YAML data."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, TypeAdapter, ValidationError

from docgen.basics.findings import Finding, Position
from docgen.basics.locate import findings_from_errors
from docgen.basics.shipped import shipped_folder
from docgen.basics.source import plain, read_yaml
from docgen.basics.units import LENGTH_MM, parse_quantity, parse_whole


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


class LabelSheet(_Layout):
    """A sheet that carries labels in cells."""

    kind: Literal["label sheet"]
    paper: Pair
    margin: LengthMm
    cells: Cells
    label: LabelSize
    clear: Clear


class LabelTape(_Layout):
    """A continuous flat tape of tube, one label a page."""

    kind: Literal["label tape"]
    flat: LengthMm
    tube: StockTube
    length: Pair
    clear: Clear


Layout = PageLayout | LabelSheet | LabelTape
LabelStock = LabelSheet | LabelTape
_MODELS: dict[str, type[_Layout]] = {
    "page": PageLayout,
    "label sheet": LabelSheet,
    "label tape": LabelTape,
}


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
    node, findings = read_yaml(path, shown_name)
    if node is None or findings:
        return None, findings
    form: Any = plain(node)
    kind = form.get("kind") if isinstance(form, dict) else None
    model = _MODELS.get(str(kind))
    start = Position(shown_name, 1, 1)
    if model is None:
        position = node.keys.get("kind", start)
        return None, [
            Finding(position, "value", "the kind of layout is unknown.", f"Write one of: {', '.join(_MODELS)}.")
        ]
    try:
        layout: Any = TypeAdapter(model).validate_python(form)
    except ValidationError as error:
        errors: Any = error.errors(include_url=False, include_input=False)
        return None, findings_from_errors(errors, node, start, model)
    found = list(_misfits(layout, start))
    return (None if found else layout), found


def _misfits(layout: Layout, start: Position) -> list[Finding]:
    """Find cells that do not fit their paper or run into each other."""
    if not isinstance(layout, LabelSheet):
        return []
    cells, label = layout.cells, layout.label
    size = label.length, label.width
    counts = cells.across, cells.down
    for axis in (0, 1):
        if counts[axis] > 1 and cells.pitch[axis] < size[axis]:
            return [Finding(start, "stock", "labels run into each other.", "Make the pitch wider.")]
        if cells.first[axis] + (counts[axis] - 1) * cells.pitch[axis] + size[axis] > layout.paper[axis]:
            return [Finding(start, "stock", "labels run over the paper's edge.", "Make fewer or smaller cells.")]
    return []
