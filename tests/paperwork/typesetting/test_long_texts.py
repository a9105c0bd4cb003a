"""Texts of any length: nothing goes over the edge of a page, and codes say what they leave out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest

from docgen.paperwork.documents import Choice, make_paperwork
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder, Replacements

RECORD = (
    "  record: https://hangar.example/wren    # where the plain-text record will be put; leave it out and the "
    "codes carry the text itself\n"
)
NOTE = " ".join(f"word{number}" for number in range(400))
EDGE_MM = 5.0  # every layout keeps at least this much of its paper clear


def printed(folder: Path) -> dict[str, bytes]:
    harness = check(folder).harness
    assert harness is not None
    files = make_paperwork(harness, Choice()).files
    return {name: content for name, content in files.items() if name.endswith(".pdf")}


def over_the_edge(pdf: bytes) -> list[tuple[int, list[float]]]:
    """Return page and bounds [pt] of each text that comes too near to an edge, measured by the renderer."""
    edge = EDGE_MM * 72 / 25.4
    found = []
    for number, page in enumerate(pdfium.PdfDocument(pdf), 1):
        width, height = page.get_size()
        for text in page.get_objects(filter=[pdfium.raw.FPDF_PAGEOBJ_TEXT]):
            left, bottom, right, top = text.get_bounds()
            if left < edge or bottom < edge or right > width - edge or top > height - edge:
                found.append((number, [left, bottom, right, top]))
    return found


def words_of(pdf: bytes) -> list[str]:
    return [word for page in pdfium.PdfDocument(pdf) for word in page.get_textpage().get_text_bounded().split()]


def with_receivers_note(*more: tuple[str, str]) -> dict[str, Replacements]:
    return {"harness.yaml": [("  receiver:\n", f"  receiver:\n    note: {NOTE}\n"), *more]}


def test_a_note_of_400_words_is_printed_whole_and_on_its_pages(aircraft_folder: AircraftFolder) -> None:
    files = printed(aircraft_folder({**with_receivers_note(), "aircraft.yaml": [(RECORD, "")]}))
    assert {name: over_the_edge(pdf) for name, pdf in files.items() if over_the_edge(pdf)} == {}
    said = [word for word in words_of(files["pinout-cards.pdf"]) if word.startswith("word")]
    assert said == NOTE.split()


@pytest.mark.parametrize("record", ["", RECORD])
def test_aircraft_and_marks_at_their_bounds_stay_on_the_page(record: str, aircraft_folder: AircraftFolder) -> None:
    # W is the widest letter.
    changes = [("name: Wren", f"name: {'W' * 60}"), ("marks: WR-7", f"marks: {'W' * 20}"), (RECORD, record)]
    files = printed(aircraft_folder({"aircraft.yaml": [*changes, ("revision: A", f"revision: {'W' * 20}")]}))
    assert {name: over_the_edge(pdf) for name, pdf in files.items() if over_the_edge(pdf)} == {}
