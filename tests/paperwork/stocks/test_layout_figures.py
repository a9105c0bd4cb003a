"""The layouts' figures: paper by its standard, tube by the data sheet, known sheets of labels, and what is chosen."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pypdf
import pytest
from click.testing import CliRunner
from measured import Box, mm, printed_pages, read
from reference import label_sheets
from reference.heat_shrink import THIN_WALL_MM
from reference.label_stocks import (
    PAGES,
    SHEETS,
    TAPE_CLEAR_MM,
    TAPE_LENGTHS_MM,
    TAPE_SHRINKS,
    TAPES_MM,
    Sheet,
)
from reference.paper_sizes import ISO_216_MM, POINTS, US_LETTER_MM

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen

if TYPE_CHECKING:
    from reference.label_sheets import LabelSheet

EXAMPLES, LAYOUTS = shipped_folder("examples"), shipped_folder("layouts")
PAPERS_MM: dict[str, tuple[float, ...]] = {**ISO_216_MM, "US Letter": US_LETTER_MM}
FORMS = {path.stem: read(path) for path in sorted(LAYOUTS.glob("*.yaml"))}
SIZES = {"sheet": ("length", "width"), "strips": ("length",), "carrier": ("length",)} | {
    "wraps": ("length", "printed", "cover"),
    "flags": ("length", "width", "wrap"),
}


def sizes(said: list[str]) -> tuple[float, ...]:
    return tuple(round(mm(side), 3) for side in said)


def kind_of(name: str) -> str:
    """Return its kind by its name: carriers named after a tube hold pieces of it."""
    kind = name.partition("-")[0]
    return "sheet" if re.fullmatch(r"carrier-[\d.]+", name) else kind


def as_kept(name: str, form: dict[str, Any]) -> Sheet:
    """Return what a layout says in the form in which its figures are kept beside it."""
    paper, cells, clear = sizes(form["paper"]), form["cells"], form["clear"]
    [known] = [known for known, size in PAPERS_MM.items() if sorted(size) == sorted(paper)]
    assert form["label"].keys() == set(SIZES[kind_of(name)])
    return Sheet(
        paper=known,
        lying=paper[0] > paper[1],
        cells=(cells["across"], cells["down"]),
        first=(mm(cells["first"][0]), mm(cells["first"][1])),
        pitch=(mm(cells["pitch"][0]), mm(cells["pitch"][1])),
        label=tuple(mm(form["label"][key]) for key in SIZES[kind_of(name)]),
        clear=(mm(clear["ends"]), mm(clear["edges"])),
        margin=mm(form["margin"]),
    )


def test_every_layout_has_its_figures_here() -> None:
    assert FORMS.keys() == {*SHEETS, *PAGES, *(f"tape-{width}" for width in TAPES_MM)}


@pytest.mark.parametrize("name", SHEETS)
def test_sheets_of_labels_are_as_chosen(name: str) -> None:
    assert as_kept(name, FORMS[name]) == SHEETS[name]
    assert FORMS[name]["kind"] == f"label {kind_of(name)}"


@pytest.mark.parametrize("name", PAGES)
def test_pages_are_on_paper_of_the_standard(name: str) -> None:
    paper, margin = PAGES[name]
    assert sizes(FORMS[name]["paper"]) == PAPERS_MM[paper]
    assert (FORMS[name]["kind"], mm(FORMS[name]["margin"])) == ("page", margin)


@pytest.mark.parametrize("width", TAPES_MM)
def test_tapes_are_as_chosen(width: int) -> None:
    form = FORMS[f"tape-{width}"]
    assert (form["kind"], mm(form["width"])) == ("label tape", width)
    # As written: YAML by itself reads minutes and seconds there.
    assert f"\nshrinks: {TAPE_SHRINKS}\n" in (LAYOUTS / f"tape-{width}.yaml").read_text("utf-8")
    assert (sizes(form["length"]), sizes(list(form["clear"].values()))) == (TAPE_LENGTHS_MM, TAPE_CLEAR_MM)
    assert list(form["clear"]) == ["ends", "edges"]


@pytest.mark.parametrize("name", [name for name in SHEETS if re.fullmatch(r"carrier-[\d.]+", name)])
def test_a_carrier_of_one_tube_holds_a_tube_of_the_data_sheet_pressed_flat(name: str) -> None:
    # 2:1, half of 9.5 and of 12.7 rounded by the data sheet to a tenth; flat it is π D / 2, said to a tenth.
    expanded, recovered = (mm(FORMS[name]["tube"][key]) for key in ("expanded", "recovered"))
    assert expanded == float(name.removeprefix("carrier-"))
    assert recovered == expanded / 2 == pytest.approx(THIN_WALL_MM[expanded][0], abs=0.051)
    assert mm(FORMS[name]["label"]["width"]) == pytest.approx(math.pi * expanded / 2, abs=0.1)


@pytest.mark.parametrize("name", [name for name in FORMS if "shrinks_at" in str(FORMS[name])])
def test_tubes_shrink_well_below_what_they_stand_and_in_no_car_in_the_sun(name: str) -> None:
    # Cross-linked polyolefin begins at about 90 °C and stands 135 °C (SAE AMS-DTL-23053/5, from memory).
    form = FORMS[name].get("tube", FORMS[name])
    assert (form["shrinks_at"], form["limit"]) == ("90 °C", "135 °C")


@pytest.mark.parametrize("name", SHEETS)
def test_cells_stand_in_the_middle_of_their_sheet_and_on_it(name: str) -> None:
    sheet = SHEETS[name]
    width, height = PAPERS_MM[sheet.paper][:: -1 if sheet.lying else 1]
    length = 2 * sheet.label[0] + sheet.label[-1] if kind_of(name) == "flags" else sheet.label[0]
    high = {"wraps": sum(sheet.label[1:]), "strips": sheet.pitch[1], "carrier": sheet.pitch[1]}
    down = high.get(kind_of(name)) or sheet.label[1]
    right = width - (sheet.first[0] + (sheet.cells[0] - 1) * sheet.pitch[0] + length)
    bottom = height - (sheet.first[1] + (sheet.cells[1] - 1) * sheet.pitch[1] + down)
    assert right == pytest.approx(sheet.first[0], abs=0.5)
    assert bottom >= sheet.margin
    assert all(pitch >= size for pitch, size in zip(sheet.pitch, (length, down), strict=True))


# Sheets that are known from outside, written as a stock of one's own


KNOWN = {
    "21 on A4": label_sheets.A4_21,
    "30 on Letter": label_sheets.LETTER_30,
    "65 on A4": label_sheets.A4_65_FROM_MEMORY,
    "24 on A4": label_sheets.A4_24_FROM_MEMORY,
}


def stock_of(sheet: LabelSheet, folder: Path) -> Path:
    def pair(sides: tuple[float, float]) -> str:
        return f"[{sides[0]} mm, {sides[1]} mm]"

    cells = f"across: {sheet.across}, down: {sheet.down}, first: {pair((sheet.left, sheet.top))}"
    printed = min(sheet.label[1], sheet.pitch[1])
    label = f"length: {sheet.label[0]} mm, printed: {printed / 2} mm, cover: {printed / 2} mm"
    lines = [
        "kind: label wraps",
        "printer: any",
        "limit: 210 °C",
        f"paper: {pair(sheet.page)}",
        "margin: 4 mm",
        f"cells: {{{cells}, pitch: {pair(sheet.pitch)}}}",
        f"label: {{{label}}}",
        "clear: {ends: 2 mm, edges: 1 mm}",
    ]
    path = folder / "known.yaml"
    path.write_text("\n".join(lines) + "\n", "utf-8")
    return path


def labels_begun_at(first: int, sheet: LabelSheet, folder: Path) -> Iterator[Any]:
    words = ["print", str(EXAMPLES / "wren"), "wire-labels", "--to", str(folder), "--first", str(first)]
    ran = CliRunner().invoke(docgen, [*words, "--only", "supply", "--stock", str(stock_of(sheet, folder))])
    assert ran.exit_code == 0, ran.stderr
    yield from printed_pages(folder / "wire-labels.pdf")


@pytest.mark.parametrize("name", KNOWN)
def test_the_last_label_of_a_known_sheet_lies_where_the_sheet_has_it(name: str, tmp_path: Path) -> None:
    sheet = KNOWN[name]
    # Worked out by hand where it is: 65 on A4 4.75 + 4 × 40.6 and 10.70 + 12 × 21.2, the third column of 30 on Letter.
    last = tuple(
        begin + (count - 1) * pitch
        for begin, count, pitch in zip((sheet.left, sheet.top), (sheet.across, sheet.down), sheet.pitch, strict=True)
    )
    if name == "65 on A4":
        assert last == pytest.approx(label_sheets.A4_65_LAST_LABEL_MM)
    if name == "30 on Letter":
        assert last[0] == pytest.approx(label_sheets.LETTER_30_THIRD_COLUMN_MM)
    page = next(labels_begun_at(sheet.across * sheet.down, sheet, tmp_path))
    assert (page.width_mm, page.height_mm) == pytest.approx(sheet.page, abs=0.01)
    bold = [text.box for text in page.texts if text.bold and text.text == "RX BATT"]
    cell = Box(last[0], last[1], last[0] + sheet.label[0], last[1] + sheet.label[1])
    assert [cell.holds(box) for box in bold] == [True]


# What a PDF calls its paper


@pytest.mark.parametrize(
    ("words", "stem", "paper"),
    [
        ((), "cut-list", "A4"),
        (("--paper", "letter"), "cut-list", "US Letter"),
    ],
)
def test_a_page_is_as_large_as_its_paper_is_in_points(
    words: tuple[str, ...], stem: str, paper: str, tmp_path: Path
) -> None:
    ran = CliRunner().invoke(docgen, ["print", str(EXAMPLES / "wren"), stem, "--to", str(tmp_path), *words])
    assert ran.exit_code == 0, ran.stderr
    for page in pypdf.PdfReader(tmp_path / f"{stem}.pdf").pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(POINTS[paper], abs=0.01)
