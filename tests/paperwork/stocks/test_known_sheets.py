"""Sheets of labels that are known from outside, written as a stock of one's own, and what a PDF calls its paper."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pypdf
import pytest
from click.testing import CliRunner
from measured import Box, printed_pages
from reference import label_sheets
from reference.paper_sizes import POINTS

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen

if TYPE_CHECKING:
    from reference.label_sheets import LabelSheet

EXAMPLES = shipped_folder("examples")

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
