"""Every code on every page is read back by a reader that is not ours, and says what it should."""

from __future__ import annotations

import pypdfium2 as pdfium
import pytest
import zxingcpp
from reference.qr_code import BYTES
from resolved import files_of_example

from docgen.paperwork.codes import most_bytes, numbered_texts

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
    base = "https://hangar.example/wren"
    halves = [f"disconnect-{joint}" for joint in ("left-root", "left-root", "right-root", "right-root")]
    expected = [[f"{base}/record/{part}.txt"] for part in (*halves, "equipment-receiver")]
    assert read_pages(files["pinout-cards.pdf"]) == expected
    assert all("record/" + code[0].rsplit("/", 1)[1] in files for code in expected)


def test_the_hangar_card_leads_to_the_record() -> None:
    pages = read_pages(files_of_example("wren")["hangar-card.pdf"])
    assert pages
    assert all(codes == ["https://hangar.example/wren/record.txt"] for codes in pages)


@pytest.mark.long
def test_without_a_place_on_the_web_every_page_of_cards_carries_the_text() -> None:
    files = files_of_example("fulmar")
    for stem in ("pinout-cards.pdf", "hangar-card.pdf"):
        pages = read_pages(files[stem])
        assert pages
        assert all(len(codes) == 1 and codes[0].startswith("FM-12 ") for codes in pages)


def test_the_codes_of_a_card_name_each_used_contact() -> None:
    codes = {code for page in read_pages(files_of_example("fulmar")["pinout-cards.pdf"]) for code in page}
    tail = [code for code in codes if "disconnect-tail fixed half" in code]
    text = "\n".join(tail)
    # The tail's first circuit is the left elevator, 22 AWG in black, red and white.
    for line in ("1 BK22 ELEV L", "2 RD22 ELEV L", "3 WH22 ELEV L"):
        assert line in text.split("\n")


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
