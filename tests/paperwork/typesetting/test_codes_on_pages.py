"""Every code on every page is read back by a reader that is not ours, and says what it should."""

from __future__ import annotations

import re

import numpy as np
import pypdfium2 as pdfium
import pytest
import zxingcpp
from reference.qr_code import BYTES, LEAST_MODULE_LAMINATED_MM, LEAST_VERSIONS, QUIET_ZONE_MODULES
from resolved import files_of_example

from docgen.paperwork.typesetting.codes import as_much, code_rows, code_side_mm, most_bytes

pytestmark = pytest.mark.long

DPI = 300


def read_pages(content: bytes) -> list[list[str]]:
    """Return the texts of the codes on each page, rendered at 300 dpi."""
    pages = []
    for page in pdfium.PdfDocument(content):
        image = page.render(scale=DPI / 72, grayscale=True).to_numpy()
        pages.append([code.text for code in zxingcpp.read_barcodes(image[:, :, 0] if image.ndim == 3 else image)])
    return pages


def test_cards_lead_to_their_part_of_the_record() -> None:
    files = files_of_example("wren")
    parts = ["equipment-receiver", *(f"disconnect-{side}-root" for side in ("left", "right") for _ in (0, 1))]
    expected = [f"https://hangar.example/wren/record/{part}.txt" for part in parts]
    read = [code for codes in read_pages(files["pinout-cards.pdf"]) for code in codes]
    assert sorted(read) == sorted(expected)
    assert all("record/" + code.rsplit("/", 1)[1] in files for code in read)


def test_the_hangar_card_leads_to_the_record() -> None:
    assert read_pages(files_of_example("wren")["hangar-card.pdf"]) == [["https://hangar.example/wren/record.txt"]]


def test_without_a_place_on_the_web_the_hangar_card_carries_as_much_of_the_record_as_there_is_room_for() -> None:
    (codes,) = read_pages(files_of_example("fulmar")["hangar-card.pdf"])
    (text,) = codes
    first, *channels, last = text.split("\n")
    assert re.fullmatch(r"FM-12 draft [0-9a-f]{8}", first)
    assert channels[0] == "1 AIL L IN power-unit 1 hold"
    assert re.fullmatch(r"… \d+ more lines in the record", last)


def test_a_reader_of_another_make_reads_the_code_of_the_hangar_card() -> None:
    cv2 = pytest.importorskip("cv2")
    for name in ("wren", "fulmar"):
        pdf = files_of_example(name)["hangar-card.pdf"]
        whole = pdfium.PdfDocument(pdf)[0].render(scale=DPI / 72).to_numpy()
        top_right = np.ascontiguousarray(whole[: whole.shape[0] // 4, whole.shape[1] * 4 // 5 :])
        (codes,) = read_pages(pdf)
        assert [cv2.QRCodeDetector().detectAndDecode(top_right)[0]] == codes


def test_the_longest_code_is_read_from_a_poor_print() -> None:
    """At 200 dpi, each pixel the mean of those within one of it."""
    image = pdfium.PdfDocument(files_of_example("fulmar")["hangar-card.pdf"])[0].render(scale=200 / 72, grayscale=True)
    sharp = np.pad(image.to_numpy().squeeze().astype(float), 1, constant_values=255)
    high, wide = sharp.shape
    blurred = sum(sharp[y : high - 2 + y, x : wide - 2 + x] for y in range(3) for x in range(3)) / 9
    (code,) = zxingcpp.read_barcodes(np.ascontiguousarray(blurred, dtype=np.uint8))
    assert code.text.startswith("FM-12 draft ")


def test_the_codes_of_cards_have_modules_that_are_read_under_a_laminate_and_a_quiet_zone() -> None:
    content = files_of_example("wren")["pinout-cards.pdf"]
    for page in pdfium.PdfDocument(content):
        image = page.render(scale=600 / 72, grayscale=True).to_numpy().squeeze()
        [code, *_] = zxingcpp.read_barcodes(image)
        corners = (code.position.top_left, code.position.bottom_right)
        left, top, right, bottom = (getattr(corner, axis) for corner in corners for axis in ("x", "y"))
        # The finder pattern's dark side is 7 modules long.
        row = image[top + 4, left : left + 400] < 128
        module = int(row.argmin()) / 7
        assert module * 25.4 / 600 >= LEAST_MODULE_LAMINATED_MM - 0.01
        zone = int(QUIET_ZONE_MODULES * module) - 3
        for strip in (
            image[top - zone : top - 3, left - zone : right + zone],
            image[top - zone : bottom + zone, left - zone : left - 3],
            image[top - zone : bottom + zone, right + 4 : right + zone],
            image[bottom + 4 : bottom + zone, left - zone : right + zone],
        ):
            assert strip.min() > 200
        assert code.ec_level == "M"


@pytest.mark.parametrize(("count", "version"), [(count, v) for count, level, v in LEAST_VERSIONS if level == "M"])
def test_a_code_is_no_larger_than_its_text_needs(count: int, version: int) -> None:
    assert len(code_rows("a" * count)) == BYTES[version][0]


@pytest.mark.parametrize("version", range(1, 16))
def test_a_version_holds_what_the_standard_says(version: int) -> None:
    assert most_bytes(version) == BYTES[version][2]


@pytest.mark.parametrize("side_mm", [12.0, 22.0, 30.0, 60.0])
def test_as_many_lines_as_there_is_room_for_stand_in_one_code_that_says_how_many_lack(side_mm: float) -> None:
    lines = ["WR-7 A 01234567", *(f"left-root {i} BK22 AIL L" for i in range(1, 40))]
    text = as_much(lines, side_mm)
    assert not text or code_side_mm(code_rows(text)) <= side_mm
    if side_mm > 20:
        *kept, last = text.split("\n")
        assert kept == lines[: len(kept)]
        assert last == f"… {len(lines) - len(kept)} more lines in the record"
    # A line more would not fit: by the standard's table of what a version holds.
    version = (int(side_mm / 0.5) - 8 - 17) // 4
    if version in BYTES and text:
        longer = "\n".join(
            [*lines[: text.count("\n") + 1], f"… {len(lines) - text.count(chr(10)) - 1} more lines in the record"]
        )
        assert len(longer.encode()) > BYTES[version][2]


def test_what_fits_whole_says_nothing_of_more_lines() -> None:
    assert as_much(["WR-7 A 01234567", "left-root 1 BK22 AIL L"], 40.0) == "WR-7 A 01234567\nleft-root 1 BK22 AIL L"


@pytest.mark.parametrize(
    ("side_mm", "most"),
    # Version 1 has 21 modules and holds 14 bytes, version 40 177 and 2331 (ISO/IEC 18004); 8 more are quiet zone.
    [(14.49, 0), (14.5, 14), (92.5, 2331), (400.0, 2331)],
)
def test_the_smallest_and_the_largest_code_hold_what_the_standard_says(side_mm: float, most: int) -> None:
    assert as_much(["x" * most], side_mm) == "x" * most
    assert as_much(["x" * (most + 1)], side_mm) == ""
