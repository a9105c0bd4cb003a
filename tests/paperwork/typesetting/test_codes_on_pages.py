"""Every code on every page is read back by a reader that is not ours, and says what it should."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2 as pdfium
import pytest
import zxingcpp
from reference.qr_code import BYTES, LEAST_MODULE_LAMINATED_MM, LEAST_VERSIONS, QUIET_ZONE_MODULES
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.paperwork.documents import Choice, make_paperwork
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
    # As the builder wrote: addressed lights have a striped clock; tails of commons are red and black; an engine's
    # fail-safe is said, a surface's that holds is not.
    for title, line in (
        ("disconnect-left-wing-a loose half", "7 WHGN24 POS L"),
        ("disconnect-left-wing-b fixed half", r"1 RD\d\d wing-positive"),
        ("disconnect-left-wing-b loose half", r"4 BK\d\d wing-negative"),
        ("equipment-receiver-a", "1 THR L ch 15 fail-safe off"),
        ("equipment-power-unit", "1 AIL L IN ch 1"),
    ):
        lines = [line for code in codes if f"FM-12 {title} " in code for line in code.split("\n")]
        assert any(re.fullmatch(line, said) for said in lines), (title, lines)


def without_record(folder: Path) -> dict[str, bytes]:
    """Print the cards of the smallest aircraft as if no record stood on the web."""
    for path in (EXAMPLES / "wren").glob("*.yaml"):
        lines = path.read_text("utf-8").splitlines()
        (folder / path.name).write_text("\n".join(x for x in lines if not x.startswith("  record:")) + "\n", "utf-8")
    return make_paperwork(harness_of(folder), Choice(stems=("pinout-cards",))).files


def test_without_a_place_on_the_web_each_code_says_its_own_half_and_what_is_on_it(tmp_path: Path) -> None:
    content = without_record(tmp_path)["pinout-cards.pdf"]
    said = [page.get_textpage().get_text_range() for page in pdfium.PdfDocument(content)]
    # Written by hand: negative, positive and signal of an aileron lead are black, red and white, of 22 AWG.
    ailerons = {side: [f"{i} {c}22 AIL {side}" for i, c in enumerate(("BK", "RD", "WH"), 1)] for side in "LR"}
    expected = [
        ("disconnect-left-root fixed half", ailerons["L"]),
        ("disconnect-left-root loose half", ailerons["L"]),
        ("disconnect-right-root fixed half", ailerons["R"]),
        ("disconnect-right-root loose half", ailerons["R"]),
        ("equipment-receiver", ["1 AIL L ch 1", "2 AIL R ch 2", "3 free", "4 RUD ch 4", "BATT RX BATT"]),
    ]
    for (code,), text, (first, lines) in zip(read_pages(content), said, expected, strict=True):
        [hash8] = re.findall(r"page 1 of 1 · ([0-9a-f]{8})", text)
        assert code.split("\n") == [f"WR-7 {first} since A {hash8}", *lines]


def test_the_codes_of_cards_have_modules_that_are_read_under_a_laminate_and_a_quiet_zone() -> None:
    content = files_of_example("wren")["pinout-cards.pdf"]
    for page in pdfium.PdfDocument(content):
        image = page.render(scale=600 / 72, grayscale=True).to_numpy().squeeze()
        [code] = zxingcpp.read_barcodes(image)
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
