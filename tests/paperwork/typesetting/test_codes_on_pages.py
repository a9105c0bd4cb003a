"""Every code on every page is read back by a reader that is not ours, and says what it should."""

from __future__ import annotations

import pypdfium2 as pdfium
import pytest
import zxingcpp
from reference.qr_code import BYTES, LEAST_MODULE_LAMINATED_MM, LEAST_VERSIONS, QUIET_ZONE_MODULES
from resolved import files_of_example

from docgen.paperwork.typesetting.codes import code_rows, most_bytes, numbered_texts

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
    pages = read_pages(files_of_example("wren")["hangar-card.pdf"])
    assert pages
    assert all(codes == ["https://hangar.example/wren/record.txt"] for codes in pages)


@pytest.mark.long
def test_without_a_place_on_the_web_every_page_of_the_hangar_card_carries_the_text() -> None:
    files = files_of_example("fulmar")
    pages = read_pages(files["hangar-card.pdf"])
    assert pages
    assert all(len(codes) == 1 and codes[0].startswith("FM-12 ") for codes in pages)


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


def test_what_outgrows_one_code_goes_on_in_numbered_ones_that_begin_alike() -> None:
    lines = [f"{i} BK22 AIL L" for i in range(1, 40)]
    texts = numbered_texts("WR-7 left-root", lines, 10)
    assert [text.split("\n")[0] for text in texts] == [
        f"WR-7 left-root {i}/{len(texts)}" for i in range(1, len(texts) + 1)
    ]
    assert [line for text in texts for line in text.split("\n")[1:]] == lines
    assert all(len(text.encode()) <= BYTES[10][2] for text in texts)
