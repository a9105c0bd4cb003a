"""Ink as it is painted, read back by a renderer that is not ours: place, size, colour, what the file says of itself."""

from __future__ import annotations

import ctypes
import io
import os
from typing import Any, NamedTuple

import numpy as np
import pypdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
import zxingcpp
from measured import MM_PER_POINT

from docgen.paperwork.typesetting.codes import code_rows
from docgen.paperwork.typesetting.draw import Correction, draw_pdf
from docgen.paperwork.typesetting.ink import Circle, Code, Ink, Line, Page, Shape, Text

WIDTH_MM, HEIGHT_MM = 120.0, 80.0
Colour = tuple[int, int, int]
Point = tuple[float, float]


class Path(NamedTuple):
    """A path: its corners from the top left [mm], colour and width of its line, and what fills it."""

    corners: list[Point]
    line: Colour | None
    line_mm: float
    fill: Colour | None


class Words(NamedTuple):
    """A text: where it begins, how it is turned, its colour and weight."""

    text: str
    begins: Point
    matrix: tuple[float, ...]
    colour: Colour
    bold: bool


def painted(*ink: Ink, correction: Correction | None = None) -> Any:
    page = Page(WIDTH_MM, HEIGHT_MM)
    page.add(*ink)
    return pypdfium2.PdfDocument(draw_pdf([page], "Title", "Subject", correction))[0]


def colour_of(asked: Any, item: Any) -> Colour:
    parts = [ctypes.c_uint() for _ in range(4)]
    assert asked(item, *parts)
    return parts[0].value, parts[1].value, parts[2].value


def paths(page: Any) -> list[Path]:
    found = []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        mode, stroke, width = ctypes.c_int(), ctypes.c_int(), ctypes.c_float()
        pdfium.FPDFPath_GetDrawMode(item, mode, stroke)
        pdfium.FPDFPageObj_GetStrokeWidth(item, width)
        a, b, c, d, e, f = item.get_matrix().get()
        corners = []
        for i in range(pdfium.FPDFPath_CountSegments(item)):
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(item, i), x, y)
            across, up = a * x.value + c * y.value + e, b * x.value + d * y.value + f
            corners.append((across * MM_PER_POINT, HEIGHT_MM - up * MM_PER_POINT))
        line = colour_of(pdfium.FPDFPageObj_GetStrokeColor, item) if stroke.value else None
        fill = colour_of(pdfium.FPDFPageObj_GetFillColor, item) if mode.value else None
        found.append(Path(corners, line, width.value, fill))
    return found


def words(page: Any) -> list[Words]:
    textpage = page.get_textpage()
    found = []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT], textpage=textpage):
        matrix = item.get_matrix().get()
        begins = matrix[4] * MM_PER_POINT, HEIGHT_MM - matrix[5] * MM_PER_POINT
        bold = "Semibold" in item.get_font().get_base_name()
        colour = colour_of(pdfium.FPDFPageObj_GetFillColor, item)
        found.append(Words(item.extract(), begins, matrix, colour, bold))
    return found


def ends_mm(page: Any) -> float:
    """Return where the last character of a page's only text ends, as type is set."""
    textpage = page.get_textpage()
    return float(max(textpage.get_charbox(i, loose=True)[2] for i in range(textpage.count_chars())) * MM_PER_POINT)


def near(*points: Point) -> Any:
    return [pytest.approx(point, abs=0.01) for point in points]


@pytest.mark.parametrize("bold", [False, True])
def test_a_text_begins_at_its_place_ends_there_or_has_its_middle_there(bold: bool) -> None:
    for align in ("left", "right", "centre"):
        page = painted(Text(60, 30, "Half WAY", 5, bold, align))
        [found] = words(page)
        left, right = found.begins[0], ends_mm(page)
        at = {"left": left, "right": right, "centre": (left + right) / 2}[align]
        # A renderer keeps edges of characters to a hundredth of their size.
        assert at == pytest.approx(60, abs=0.1), align
        assert right - left > 15
        assert found.begins[1] == pytest.approx(30, abs=0.01)
        assert (found.text, found.bold, found.colour) == ("Half WAY", bold, (0, 0, 0))


@pytest.mark.parametrize("bold", [False, True])
def test_capitals_are_as_high_as_is_said(bold: bool) -> None:
    page = painted(Text(10, 40, "H", 7, bold))
    left, bottom, right, top = (side * MM_PER_POINT for side in page.get_textpage().get_charbox(0))
    # The face's own H is up to a hundredth lower than the height that it says of its capitals.
    assert (HEIGHT_MM - top, HEIGHT_MM - bottom) == pytest.approx((33, 40), abs=0.07)
    assert 10 < left < right


def test_a_text_that_is_turned_is_read_upwards_from_where_it_begins() -> None:
    [found] = words(painted(Text(60, 30, "UP", 2.5, turned=True)))
    assert found.begins == pytest.approx((60, 30), abs=0.01)
    a, b, c, d, *_ = found.matrix
    assert (a, d) == pytest.approx((0, 0), abs=1e-4)
    assert b == pytest.approx(-c)
    assert b > 0


def test_texts_have_their_colours_and_all_their_characters() -> None:
    said = ["(a) \\ b", "Ω – é ö “x” …", "50 %", "a)"]
    page = painted(*(Text(10, 10 + 8 * i, text, 2.5, colour="#1A80FF") for i, text in enumerate(said)))
    lines = [line.strip() for line in page.get_textpage().get_text_bounded().splitlines()]
    assert lines == said
    assert {found.colour for found in words(page)} == {(0x1A, 0x80, 0xFF)}


def test_letters_are_told_apart_however_many_there_are_on_a_page() -> None:
    # Latin-1 letters, Greek and Cyrillic ones: more than have a code of one byte.
    said = [
        "".join(map(chr, range(0xC0, 0x100))),
        "".join(map(chr, range(0x3B1, 0x3CA))),
        "".join(map(chr, range(0x410, 0x450))),
    ]
    page = painted(*(Text(5, 10 + 10 * i, text, 1.8) for i, text in enumerate(said)))
    assert page.get_textpage().get_text_bounded().split() == said


def test_a_line_goes_from_end_to_end_in_its_width_and_colour() -> None:
    [found] = paths(painted(Line(10, 20, 70, 50, 0.5, "#8C0000")))
    assert found.corners == near((10, 20), (70, 50))
    assert (found.line, found.fill) == ((0x8C, 0, 0), None)
    assert found.line_mm == pytest.approx(0.5)


@pytest.mark.parametrize("fill", [None, "#00FF00"])
@pytest.mark.parametrize("colour", [None, "#0000FF"])
def test_an_outline_is_drawn_filled_both_or_neither(fill: str | None, colour: str | None) -> None:
    triangle = Shape(((10, 20), (40, 20), (25, 45)), 0.4, fill, colour)
    ring = Circle(80, 40, 12, 0.4, fill, colour)
    found = paths(painted(triangle, ring))
    for path in found:
        assert path.line == (None if colour is None else (0, 0, 255))
        assert path.fill == (None if fill is None else (0, 255, 0))
        if colour is not None:
            assert path.line_mm == pytest.approx(0.4)
    if len(found) == 2:
        corners, arcs = (path.corners for path in found)
        assert corners[:3] == near((10, 20), (40, 20), (25, 45))
        assert min(x for x, _ in arcs) == pytest.approx(68, abs=0.01)
        assert max(x for x, _ in arcs) == pytest.approx(92, abs=0.01)
        assert min(y for _, y in arcs) == pytest.approx(28, abs=0.01)
        assert max(y for _, y in arcs) == pytest.approx(52, abs=0.01)
    assert len(found) == 2 or (fill is None and colour is None)


def test_a_triangle_that_is_only_drawn_is_closed() -> None:
    pixels = pixels_of(painted(Shape(((10, 20), (40, 20), (25, 45)), 0.5)))
    # Half way along each side, the third among them, there is ink; in the middle there is none.
    assert [dark_at(pixels, x, y) for x, y in ((25, 20), (32.5, 32.5), (17.5, 32.5), (25, 28))] == [True] * 3 + [False]


PER_MM = 12


def pixels_of(page: Any) -> Any:
    bitmap = page.render(scale=PER_MM * MM_PER_POINT, grayscale=True)
    return np.array(bitmap.to_numpy()).reshape(bitmap.height, bitmap.width)


def dark_at(pixels: Any, x: float, y: float) -> bool:
    return bool(pixels[int(y * PER_MM) - 1 : int(y * PER_MM) + 2, int(x * PER_MM) - 1 : int(x * PER_MM) + 2].min() < 99)


def test_the_modules_of_a_code_stand_from_its_place_on_in_their_size() -> None:
    rows = code_rows("RUD 4")
    page = painted(Code(20, 10, 0.5, rows, "RUD 4"))
    pixels = pixels_of(page)
    for j, row in enumerate(rows):
        for i, module in enumerate(row):
            x, y = 20 + 0.5 * (i + 0.5), 10 + 0.5 * (j + 0.5)
            assert (pixels[int(y * PER_MM), int(x * PER_MM)] < 128) == (module == "1"), (i, j)
    dark = np.argwhere(pixels < 128) / PER_MM
    assert dark.min(axis=0) == pytest.approx((10, 20), abs=0.1)
    assert dark.max(axis=0) == pytest.approx((10 + 0.5 * len(rows), 20 + 0.5 * len(rows)), abs=0.1)
    assert [code.text for code in zxingcpp.read_barcodes(pixels)] == ["RUD 4"]


def test_what_a_printer_does_to_a_page_is_undone() -> None:
    # It makes scale × point + shift of a point; from the left and from the top.
    correction = Correction((1.02, 0.98), (2.0, -3.0))
    [found] = paths(painted(Line(10, 20, 70, 50), correction=correction))
    assert found.corners == near(*(((x - 2) / 1.02, (y + 3) / 0.98) for x, y in ((10, 20), (70, 50))))


def test_pages_have_their_sizes_and_each_its_own_ink() -> None:
    pages = [Page(60, 30), Page(40, 90)]
    for number, page in enumerate(pages):
        page.add(Text(5, 5, f"page {number}", 2.5))
    read = pypdf.PdfReader(io.BytesIO(draw_pdf(pages, "", ""))).pages
    sizes = [(float(page.mediabox.width) * MM_PER_POINT, float(page.mediabox.height) * MM_PER_POINT) for page in read]
    assert sizes == near((60, 30), (40, 90))
    assert [page.extract_text().strip() for page in read] == ["page 0", "page 1"]


def test_a_document_says_what_it_is_who_made_it_and_that_it_is_printed_at_its_size() -> None:
    reader = pypdf.PdfReader(io.BytesIO(draw_pdf([Page(60, 30)], "Cut list", "Wren WR-7")))
    said = reader.metadata
    assert said is not None
    assert (said.title, said.subject, said.creator, said.producer) == ("Cut list", "Wren WR-7", "docgen", "docgen")
    assert said.author == ""
    root: Any = reader.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/Lang"] == "en"
    assert reader.pdf_header == "%PDF-1.7"


def test_the_environment_changes_no_byte_and_stays_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    page = Page(60, 30)
    page.add(Text(5, 5, "A", 2.5))
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    usual = draw_pdf([page], "", "")
    assert "SOURCE_DATE_EPOCH" not in os.environ
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    assert draw_pdf([page], "", "") == usual
    assert os.environ["SOURCE_DATE_EPOCH"] == "86400"


def test_a_document_that_repeats_itself_is_kept_small() -> None:
    page = Page(WIDTH_MM, HEIGHT_MM)
    page.add(*(Line(10, y / 10, 110, y / 10) for y in range(700)))
    plain = "\n".join("0 0 0 RG\n0.25 w\nn 10 -00.0 m 110 -00.0 l S" for _ in range(700))
    assert len(draw_pdf([page], "", "")) < len(plain) / 2
