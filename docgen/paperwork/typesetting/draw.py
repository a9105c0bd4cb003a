"""Paint pages of ink into a PDF; the only place that uses the canvas. Decides nothing.

Operators are those of ISO 32000-1, annex A, written here: the canvas's own calls take several times as long.
"""

from __future__ import annotations

import io
import os
import re
from collections.abc import Callable, Sequence
from functools import cache, lru_cache
from typing import Any, NamedTuple

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pdfgeom import bezierArc

from docgen.paperwork.typesetting.ink import BLACK, Circle, Code, Line, Page, Shape, Text
from docgen.paperwork.typesetting.typeface import KEPT, NAMES, font, size_mm, width_mm

_POINTS = 72 / 25.4
_LEADING = 1.2  # of the type's size; no line follows another
# Strings hold bytes: what is no printable ASCII is written in octal (ISO 32000-1, 7.3.4.2).
_ESCAPED = {code: f"\\{code:03o}" for code in range(256) if not 32 <= code < 127}
_ESCAPED |= {ord(sign): f"\\{sign}" for sign in "\\()"}
# What paints an outline that is drawn, filled, both or neither.
_PAINTED = {(True, False): "S", (False, True): "f*", (True, True): "B*", (False, False): "n"}

Shows = Callable[[str, float, bool], str]
"""What shows a text, the height of whose capitals is given [mm], bold or not: many stand on a page more than once."""


class Correction(NamedTuple):
    """What a printer makes of 100 %, across and down, and how far it shifts, right and down [mm]; it is undone."""

    scale: Sequence[float]
    shift_mm: Sequence[float]


def draw_pdf(pages: Sequence[Page], title: str, subject: str, correction: Correction | None = None) -> bytes:
    """Return the PDF of pages, the same bytes for the same ink, undoing what a printer does to them."""
    # The canvas would take its date from this variable even where it is told to take none.
    kept = os.environ.pop("SOURCE_DATE_EPOCH", None)
    try:
        return _draw(pages, title, subject, correction)
    finally:
        if kept is not None:
            os.environ["SOURCE_DATE_EPOCH"] = kept


def _draw(pages: Sequence[Page], title: str, subject: str, correction: Correction | None) -> bytes:
    # What a user's settings file may have changed and the canvas is not told is set back: bytes do not depend on it.
    rl_config.useA85 = 0
    for bold in (False, True):
        pdfmetrics.registerFont(font(bold))
        font(bold).state = {}
    stream = io.BytesIO()
    canvas = Canvas(stream, invariant=1, pageCompression=1, initialFontName=NAMES[False], pdfVersion=(1, 7), lang="en")
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setAuthor("")
    canvas.setCreator("docgen")
    canvas.setProducer("docgen")
    canvas.setViewerPreference("PrintScaling", "None")
    shows = _shown_in(canvas._doc)
    for page in pages:
        canvas.setPageSize((page.width_mm * _POINTS, page.height_mm * _POINTS))
        canvas.translate(0, page.height_mm * _POINTS)
        canvas.scale(_POINTS, _POINTS)
        if correction is not None:
            canvas.scale(1 / correction.scale[0], 1 / correction.scale[1])
            canvas.translate(-correction.shift_mm[0], correction.shift_mm[1])
        canvas.addLiteral("\n".join([_OPERATORS[type(ink)](ink, shows) for ink in page.ink]))
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


@lru_cache(KEPT)
def _number(value: float) -> str:
    """Write a number to a ten-thousandth: of a mm, or of the most of a colour."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _numbers(*values: float) -> str:
    return " ".join(map(_number, values))


@cache
def _rgb(colour: str) -> str:
    return _numbers(*HexColor(colour).rgb())


def _shown_in(document: Any) -> Shows:
    """Return what shows texts in a document, which learns the characters that it needs of the typeface."""

    @cache
    def shown(text: str, height_mm: float, bold: bool) -> str:
        face, size = font(bold), size_mm(height_mm, bold)
        return " ".join(
            f"{face.getSubsetInternalName(subset, document)} {_number(size)} Tf {_number(size * _LEADING)} TL"
            f" ({codes.decode('latin-1').translate(_ESCAPED)}) Tj"
            for subset, codes in face.splitString(text, document)
        )

    return shown


def _text(ink: Text, shows: Shows) -> str:
    width = 0.0 if ink.align == "left" else width_mm(ink.text, ink.height_mm, ink.bold)
    before = {"left": 0.0, "right": width, "centre": 0.5 * width}[ink.align]
    x, y = (0.0, 0.0) if ink.turned else (ink.x_mm, -ink.y_mm)
    painted = f"BT 1 0 0 1 {_numbers(x - before, y)} Tm {shows(ink.text, ink.height_mm, ink.bold)} T* ET"
    if ink.turned:
        painted = f"q\n0 1 -1 0 {_numbers(ink.x_mm, -ink.y_mm)} cm\n{painted}\nQ"
    return f"{_rgb(ink.colour)} rg\n{painted}"


def _line(ink: Line, _: Shows) -> str:
    along = f"n {_numbers(ink.x1_mm, -ink.y1_mm)} m {_numbers(ink.x2_mm, -ink.y2_mm)} l S"
    return f"{_rgb(ink.colour)} RG\n{_number(ink.width_mm)} w\n{along}"


def _shape(ink: Shape, _: Shows) -> str:
    first, *others = [_numbers(x_mm, -y_mm) for x_mm, y_mm in ink.points_mm]
    return _painted(ink, f"n {first} m {''.join([f'{other} l ' for other in others])}h")


def _circle(ink: Circle, _: Shows) -> str:
    x, y, radius = ink.x_mm, -ink.y_mm, ink.radius_mm
    arcs = bezierArc(x - radius, y - radius, x + radius, y + radius, 0, 360)
    return _painted(ink, "\n".join([f"n\n{_numbers(*arcs[0][:2])} m", *(f"{_numbers(*arc[2:])} c" for arc in arcs)]))


def _painted(ink: Shape | Circle, outline: str) -> str:
    """Return what draws an outline, fills it, or does both, in its colours."""
    drawn = [] if ink.colour is None else [f"{_rgb(ink.colour)} RG\n{_number(ink.width_mm)} w"]
    filled = [] if ink.fill is None else [f"{_rgb(ink.fill)} rg"]
    return "\n".join([*drawn, *filled, outline, _PAINTED[bool(drawn), bool(filled)]])


def _code(ink: Code, _: Shows) -> str:
    """Paint runs of dark modules as rectangles at whole coordinates, so that no hair lines show between them."""
    runs = ((dark, j) for j, row in enumerate(ink.rows) for dark in re.finditer("1+", row))
    rectangles = (f"{_numbers(dark.start(), -j - 1, len(dark.group()), 1)} re" for dark, j in runs)
    at = _numbers(ink.module_mm, 0, 0, ink.module_mm, ink.x_mm, -ink.y_mm)
    return f"q\n{at} cm\n{_rgb(BLACK)} rg\nn {' '.join(rectangles)}\nf*\nQ"


_OPERATORS: dict[type, Callable[[Any, Shows], str]] = {
    Text: _text,
    Line: _line,
    Shape: _shape,
    Circle: _circle,
    Code: _code,
}
