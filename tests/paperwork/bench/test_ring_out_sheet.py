"""The ring-out sheet as it is printed, read back and measured by a renderer that is not ours."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from measured import PrintedPage, printed_pages, rows_of
from printed_tables import PrintedDocument, document_of
from resolved import EXAMPLES, harness_of

from docgen.harness.model.harness import Harness
from docgen.paperwork.bench import ring_out_content, ring_out_pages
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.ink import Shape
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from conftest import AircraftFolder

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
    title_block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "01234567")
    return ring_out_pages.compose(ring_out_content.content(harness), read_page(f"list-{paper}"), title_block)


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
        for mark in page.ink
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
    items = ring_out_content.content(harness_of(EXAMPLES / "fulmar"))
    circuits = {group.leads[0].circuit for group in items.leads}
    assert "left-flap" in circuits
    assert not {"gyro", "light-signal", "left-fan"} & circuits


def test_a_name_that_is_shortened_is_said_in_full(tmp_path: Path) -> None:
    said = " ".join(" ".join(lines_of(composed(harness_of(long_names(tmp_path / "wren"))))).split())
    assert f"left-root-{LONG}" in said.replace("- ", "-")


# The sheet of the smallest example, by hand: at 1 A a pair's wire of 20 AWG (AC 43.13-1B table 11-9: 9.88 ohm/1000 ft)
# drops 10.5 mV over 325 mm, one of 22 AWG (16.20 ohm/1000 ft) 15.9, 55.5 and 71.0 mV over 300, 1045 and 1335 mm; 5 mV
# more is too much between plugs of 10 A, else 10 mV (common practice, no source).


@pytest.fixture(scope="module")
def wren_sheet() -> PrintedDocument:
    return document_of(harness_of(EXAMPLES / "wren"), "ring-out-sheet")


@pytest.fixture(scope="module")
def fulmar_sheet() -> PrintedDocument:
    return document_of(harness_of(EXAMPLES / "fulmar"), "ring-out-sheet")


HEADS = ("wire", "lead", "from", "contacts", "to", "expected mV", "bad over mV")


def rows_below(sheet: PrintedDocument, title: str, first: tuple[str, str] = ("wire", "lead")) -> list[tuple[str, ...]]:
    return [tuple(row[head] for head in (*first, *HEADS[2:])) for row in sheet.table(title)]


def test_every_wire_of_every_lead_is_rung_out_with_what_it_drops(wren_sheet: PrintedDocument) -> None:
    assert rows_below(wren_sheet, "Each lead, disconnects parted: fuselage") == [
        ("P1A20N", "supply A", "pack", "1 – 1", "receiver BATT", "11", "16"),
        ("P1A20", "supply A", "pack", "2 – 2", "receiver BATT", "11", "16"),
        ("C1A22N", "left-aileron A", "receiver 1", "1 – 1", "left-root", "16", "26"),
        ("C1A22", "left-aileron A", "receiver 1", "2 – 2", "left-root", "16", "26"),
        ("C2A22", "left-aileron A", "receiver 1", "3 – 3", "left-root", "16", "26"),
        ("C3A22N", "right-aileron A", "receiver 2", "1 – 1", "right-root", "16", "26"),
        ("C3A22", "right-aileron A", "receiver 2", "2 – 2", "right-root", "16", "26"),
        ("C4A22", "right-aileron A", "receiver 2", "3 – 3", "right-root", "16", "26"),
        ("C5A22N", "rudder A", "receiver 4", "1 – 1", "rudder", "71", "81"),
        ("C5A22", "rudder A", "receiver 4", "2 – 2", "rudder", "71", "81"),
        ("C6A22", "rudder A", "receiver 4", "3 – 3", "rudder", "71", "81"),
    ]
    assert rows_below(wren_sheet, "Each lead, disconnects parted: right-panel") == [
        ("C3B22N", "right-aileron B", "right-root", "1 – 1", "right-aileron", "56", "66"),
        ("C3B22", "right-aileron B", "right-root", "2 – 2", "right-aileron", "56", "66"),
        ("C4B22", "right-aileron B", "right-root", "3 – 3", "right-aileron", "56", "66"),
    ]


def test_every_role_of_every_whole_path_is_rung_out(wren_sheet: PrintedDocument) -> None:
    # 1345 mm of 22 AWG and one contact of 5 mohm: 71.5 + 5 = 76.5 mV; the servo's plug bears 3 A.
    assert rows_below(wren_sheet, "Whole paths, all disconnects mated", ("role", "circuit")) == [
        (role, f"{side}-aileron", f"receiver {port}", f"{contact} – {contact}", f"{side}-aileron", "76", "86")
        for port, side in ((1, "left"), (2, "right"))
        for contact, role in enumerate(("negative", "positive", "signal"), 1)
    ]


def test_mirror_leads_are_named_in_pairs(wren_sheet: PrintedDocument) -> None:
    (row, *_) = wren_sheet.lines("Mirror leads: readings within 5 mV of each other")
    assert row == ["left-aileron A – right-aileron A", "left-aileron B – right-aileron B"]


def test_pairs_that_must_stay_apart_stand_at_their_half_or_plug(wren_sheet: PrintedDocument) -> None:
    three = ["1 – 2", "1 – 3", "2 – 3"]
    parted = "Must not be connected, disconnects parted: "
    assert wren_sheet.lines(f"{parted}fuselage") == [
        ["left-root, fixed half", *three],
        ["right-root, fixed half", *three],
        ["pack", "1 – 2"],
        ["receiver 4", *three],
    ]
    assert wren_sheet.lines(f"{parted}left-panel") == [["left-root, loose half", *three]]
    assert wren_sheet.lines(f"{parted}right-panel") == [["right-root, loose half", *three]]
    assert wren_sheet.lines("Must not be connected, all disconnects mated")[:2] == [
        ["left-aileron", *three],
        ["right-aileron", *three],
    ]


def test_a_wire_from_a_common_is_rung_out_from_the_commons_first_contact(fulmar_sheet: PrintedDocument) -> None:
    # As the builder wrote: positive on 1+2, negative on 3+4, the signal on the first contact that is free, 5.
    rows = rows_below(fulmar_sheet, "Each lead, disconnects parted: left-panel")
    assert [row[2:5] for row in rows if row[1] == "left-outer-aileron B"] == [
        ("left-wing-b", "3 – 1", "left-outer-aileron"),
        ("left-wing-b", "1 – 2", "left-outer-aileron"),
        ("left-wing-b", "5 – 3", "left-outer-aileron"),
    ]
    tails = [row[1:5] for row in rows if row[0] == "splice"]
    assert tails == [
        ("tails of wing-positive", "left-wing-b", "1 – 2", "left-wing-b"),
        ("tails of wing-negative", "left-wing-b", "3 – 4", "left-wing-b"),
    ]
    # Pinned by the builder, away from the aileron's.
    assert [row[3] for row in rows if row[1] == "airspeed B"] == ["13 – 1", "14 – 2", "15 – 3"]


def test_no_pack_may_be_connected_to_another(fulmar_sheet: PrintedDocument) -> None:
    lines = fulmar_sheet.lines("Must not be connected, all disconnects mated: one pack to another")
    packs = ("left-pack", "right-pack", "service-pack", "left-fan-pack", "right-fan-pack")
    # Contact 2 of their plugs is the positive.
    every = [f"{one} 2 – {other} 2" for one, other in combinations(packs, 2)]
    assert [text for line in lines for text in line][: len(every)] == every


@pytest.mark.parametrize(("shell", "over_mv"), [("block-6", 5), ("dsub-9", 10)])
def test_a_light_contact_anywhere_on_a_path_lets_it_drop_more(
    shell: str, over_mv: int, aircraft_folder: AircraftFolder
) -> None:
    # Plugs of 10 A at both ends; between them a block of 10 A or a D shell of 5 A.
    camera = "  camera: {kind: other, place: left-aileron, lead: 200 mm, lead_wire: pvc-22, plug: power-2}\n"
    circuit = "  camera: {label: CAM, from: receiver AUX, to: camera, through: [left-root], lead: power-20}\n"
    port = "      - {plug: power-2, names: [BATT], contacts: pins}\n"
    changes = [
        ("equipment:\n", f"equipment:\n{camera}"),
        ("circuits:\n", f"circuits:\n{circuit}"),
        (port, f"{port}      - {{plug: power-2, names: [AUX], contacts: sockets}}\n"),
        ("shell: block-6", f"shell: {shell}"),
    ]
    sheet = document_of(harness_of(aircraft_folder({"harness.yaml": changes})), "ring-out-sheet")
    paths = sheet.table("Whole paths, all disconnects mated")
    found = {int(row["bad over mV"]) - int(row["expected mV"]) for row in paths if row["circuit"] == "camera"}
    assert found == {over_mv}


def test_readings_are_rounded_to_the_nearest_millivolt(aircraft_folder: AircraftFolder) -> None:
    # Of 22 AWG 0.05315 mV/mm: 1345 mm are 71.49 mV, 1350 mm 71.75 mV.
    for length_mm, shown in ((1345, "71"), (1350, "72")):
        pinned = ("  rudder:\n    label: RUD\n", f"  rudder:\n    lengths: {{A: {length_mm} mm}}\n    label: RUD\n")
        sheet = document_of(harness_of(aircraft_folder({"harness.yaml": [pinned]})), "ring-out-sheet")
        rows = rows_below(sheet, "Each lead, disconnects parted: fuselage")
        assert {row[5] for row in rows if row[1] == "rudder A"} == {shown}
