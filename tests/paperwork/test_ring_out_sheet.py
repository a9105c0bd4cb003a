"""The ring-out sheet as it is printed, read back and measured by a renderer that is not ours."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path

import pypdfium2
import pytest
from measured import PrintedPage, printed_pages, rows_of
from resolved import EXAMPLES, harness_of

from docgen.harness.model import Harness
from docgen.paperwork import ring_out_sheet
from docgen.paperwork.draw import draw_pdf
from docgen.paperwork.imprint import Imprint
from docgen.paperwork.layouts import PageLayout, read_layout
from docgen.paperwork.marks import Shape
from docgen.paperwork.pages import Composed

LONG = "a-long-name-that-somebody-gave-it"
CLIP_MM = 6.0  # printers clip within 6 mm of a sheet's edge: common practice, no source
TOUCH_MM = 0.12  # rectangles of characters are their advance and the face's own bounds, to this


def long_names(target: Path) -> Path:
    """Write a copy of the smallest example with a name that fits no column."""
    target.mkdir()
    for path in (EXAMPLES / "wren").glob("*.yaml"):
        text = re.sub(r"\brudder\b", f"rudder-{LONG}", path.read_text("utf-8"))
        (target / path.name).write_text(re.sub(r"<side>-root\b", f"<side>-root-{LONG}", text), "utf-8")
    return target


def composed(harness: Harness, paper: str = "a4") -> Composed:
    layout, _ = read_layout(f"list-{paper}")
    assert isinstance(layout, PageLayout)
    imprint = Imprint("Wren", "WR-7", "A", "2026-01-01", None, "01234567")
    return ring_out_sheet.compose(ring_out_sheet.content(harness), layout, imprint)


@pytest.fixture(scope="module", params=["wren", "fulmar", "letter", "long names"])
def sheet(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> list[PrintedPage]:
    folder = EXAMPLES / ("fulmar" if request.param == "fulmar" else "wren")
    if request.param == "long names":
        folder = long_names(tmp_path_factory.mktemp("names") / "wren")
    pages = composed(harness_of(folder), "letter" if request.param == "letter" else "a4").pages
    file = tmp_path_factory.mktemp("sheet") / "sheet.pdf"
    file.write_bytes(draw_pdf(pages, "sheet", "", None))
    return printed_pages(file)


@pytest.fixture(scope="module")
def wren() -> Composed:
    return composed(harness_of(EXAMPLES / "wren"))


def lines_of(composed_sheet: Composed) -> list[str]:
    """Return the lines of text of a sheet, as a reader of the PDF gets them."""
    document = pypdfium2.PdfDocument(draw_pdf(composed_sheet.pages, "sheet", "", None))
    return [line for page in document for line in page.get_textpage().get_text_range().split("\r\n")]


def test_unplugging_everything_stands_first_and_largest(sheet: list[PrintedPage]) -> None:
    texts = sheet[0].texts
    first = min(texts, key=lambda text: text.box.top)
    assert "unplugged" in first.text
    assert all(text.capital_mm < first.capital_mm for page in sheet for text in page.texts if text != first)


def test_every_page_carries_its_caution(sheet: list[PrintedPage]) -> None:
    said = "Nothing with electronics plugged in. Bench supply set to 1 A and 2 V before it is connected."
    assert all(said in [text.text for text in page.texts] for page in sheet)


def test_nothing_overlaps_and_nothing_is_clipped(sheet: list[PrintedPage]) -> None:
    for page in sheet:
        assert [
            (one.text, other.text)
            for one, other in combinations(page.texts, 2)
            if one.box.overlaps(other.box, TOUCH_MM)
        ] == []
        boxes = [text.box for text in page.texts]
        assert min(min(box.left, box.top) for box in boxes) >= CLIP_MM
        assert max(box.right for box in boxes) <= page.width_mm - CLIP_MM
        assert max(box.bottom for box in boxes) <= page.height_mm - CLIP_MM


def test_a_row_says_contacts_expected_and_what_is_too_much(wren: Composed, tmp_path: Path) -> None:
    file = tmp_path / "sheet.pdf"
    file.write_bytes(draw_pdf(wren.pages, "sheet", "", None))
    rows = [[text.text for text in row] for page in printed_pages(file) for row in rows_of(page)]
    # 300 mm, 1045 mm and 1335 mm of 22 AWG at 16.20 ohm/1000 ft: 15.9, 55.5 and 71.0 mV at 1 A.
    assert ["C1A22", "left-aileron A", "receiver 1", "2 – 2", "left-root", "16", "26"] in rows
    assert ["C2B22", "left-aileron B", "left-root", "3 – 3", "left-aileron", "56", "66"] in rows
    assert ["C6A22", "rudder A", "receiver 4", "3 – 3", "rudder", "71", "81"] in rows
    # 1.345 m of it and 5 mohm: 76 mV.
    assert ["positive", "left-aileron", "receiver 1", "2 – 2", "left-aileron", "76", "86"] in rows


def test_each_row_has_a_box_to_tick_and_one_for_the_reading(wren: Composed) -> None:
    sizes = [
        (round(max(x) - min(x), 2), round(max(y) - min(y), 2))
        for page in wren.pages
        for mark in page.marks
        if isinstance(mark, Shape) and len(mark.points_mm) == 4
        for x, y in [zip(*mark.points_mm, strict=True)]
    ]
    # 17 wires of 6 leads, 6 of two whole paths: a tick and 18 mm for a handwritten figure each.
    assert sum(width == 18 for width, _ in sizes) == 17 + 6
    # Besides those ticks: two pairs of mirror leads; three pairs of contacts at each of four halves, at the rudder's
    # plug and at two loads, one at the pack's plug.
    assert sum(size == (4, 4) for size in sizes) == 17 + 6 + 2 + 3 * (4 + 1 + 2) + 1


def test_what_must_not_be_connected_stands_plug_by_plug(wren: Composed) -> None:
    said = " ".join(lines_of(wren))
    at = said.index("Must not be connected, disconnects parted: fuselage")
    assert said.index("Whole paths") < at
    assert re.search(r"left-root, fixed half 1 – 2 1 – 3 2 – 3 ", said[at:])


def test_what_plugs_straight_in_is_not_rung_out() -> None:
    items = ring_out_sheet.content(harness_of(EXAMPLES / "fulmar"))
    keys = {row.key[1] for rows in items.leads.values() for row in rows}
    assert "left-flap" in keys
    assert not {"gyro", "light-signal", "left-fan"} & keys


def test_each_row_has_a_key_of_its_own() -> None:
    items = ring_out_sheet.content(harness_of(EXAMPLES / "fulmar"))
    keys = [row.key for rows in (*items.leads.values(), items.paths) for row in rows]
    assert len(set(keys)) == len(keys)


def test_a_name_that_is_shortened_is_said_in_full(tmp_path: Path) -> None:
    said = " ".join(" ".join(lines_of(composed(harness_of(long_names(tmp_path / "wren"))))).split())
    assert f"left-root-{LONG}" in said.replace("- ", "-")
