"""Paint pages of ink into a PDF; the only place that uses the canvas. Decides nothing.

Operators are those of ISO 32000-1, annex A, written here: the canvas's own calls take several times as long.
"""

from __future__ import annotations

import io
import math
import os
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache, lru_cache
from typing import Any, NamedTuple

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pdfgeom import bezierArc

from docgen.paperwork.typesetting.ink import BLACK, Circle, Code, Ink, Line, Page, Shape, Text
from docgen.paperwork.typesetting.typeface import KEPT, NAMES, font, size_mm

_POINTS = 72 / 25.4
_LEADING = 1.2  # of the type's size; no line follows another
# Strings hold bytes: what is no printable ASCII is written in octal (ISO 32000-1, 7.3.4.2).
_ESCAPED = {code: f"\\{code:03o}" for code in range(256) if not 32 <= code < 127}
_ESCAPED |= {ord(sign): f"\\{sign}" for sign in "\\()"}


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
    # What a user's environment or settings file may have changed is set back, so that bytes do not depend on it.
    rl_config.useA85 = 0
    rl_config.invariant = 1
    rl_config.pageCompression = 1
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
    for page in pages:
        canvas.setPageSize((page.width_mm * _POINTS, page.height_mm * _POINTS))
        canvas.translate(0, page.height_mm * _POINTS)
        canvas.scale(_POINTS, _POINTS)
        if correction is not None:
            canvas.scale(1 / correction.scale[0], 1 / correction.scale[1])
            canvas.translate(-correction.shift_mm[0], correction.shift_mm[1])
        canvas.addLiteral("\n".join(_operators(page.ink, canvas._doc)))
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _operators(inks: Iterable[Ink], document: Any) -> Iterator[str]:
    """Walk what paints ink in a document, which learns the characters that it needs of the typeface."""
    for ink in inks:
        yield from _OPERATORS[type(ink)](ink, document)


@lru_cache(KEPT)
def _number(value: float) -> str:
    """Write a number with six digits after the point, or as many fewer as it has before it."""
    size = abs(value)
    if size <= 1e-7:
        return "0"
    places = 6 if size <= 1 else min(max(0, 6 - int(math.log(size) / math.log(10))), 6)
    text = f"{value:.{places}f}"
    if places:
        text = text.rstrip("0").rstrip(".")
    return text[1:] if text[0] == "0" and len(text) > 1 else text


def _numbers(*values: float) -> str:
    return " ".join(map(_number, values))


@cache
def _rgb(colour: str) -> str:
    return _numbers(*HexColor(colour).rgb())


def _text(ink: Text, document: Any) -> Iterator[str]:
    face, size = font(ink.bold), size_mm(ink.height_mm, ink.bold)
    width = 0.0 if ink.align == "left" else face.stringWidth(ink.text, size)
    before = {"left": 0.0, "right": width, "centre": 0.5 * width}[ink.align]
    x, y = (0.0, 0.0) if ink.turned else (ink.x_mm, -ink.y_mm)
    yield f"{_rgb(ink.colour)} rg"
    if ink.turned:
        yield f"q\n0 1 -1 0 {_numbers(ink.x_mm, -ink.y_mm)} cm"
    shown = []
    for subset, codes in face.splitString(ink.text, document):
        named = f"{face.getSubsetInternalName(subset, document)} {_number(size)} Tf {_number(size * _LEADING)} TL"
        shown.append(f"{named} ({codes.decode('latin-1').translate(_ESCAPED)}) Tj")
    yield f"BT 1 0 0 1 {_numbers(x - before, y)} Tm {' '.join(shown)} T* ET"
    if ink.turned:
        yield "Q"


def _line(ink: Line, _: Any) -> Iterator[str]:
    yield f"{_rgb(ink.colour)} RG\n{_number(ink.width_mm)} w"
    yield f"n {_numbers(ink.x1_mm, -ink.y1_mm)} m {_numbers(ink.x2_mm, -ink.y2_mm)} l S"


def _shape(ink: Shape, _: Any) -> Iterator[str]:
    yield from _paint(ink)
    first, *others = (_numbers(x_mm, -y_mm) for x_mm, y_mm in ink.points_mm)
    yield f"n {first} m {''.join(f'{other} l ' for other in others)}h"
    yield _painted(ink)


def _circle(ink: Circle, _: Any) -> Iterator[str]:
    yield from _paint(ink)
    x, y, radius = ink.x_mm, -ink.y_mm, ink.radius_mm
    arcs = bezierArc(x - radius, y - radius, x + radius, y + radius, 0, 360)
    yield f"n\n{_numbers(*arcs[0][:2])} m"
    yield from (f"{_numbers(*arc[2:])} c" for arc in arcs)
    yield _painted(ink)


def _paint(ink: Shape | Circle) -> Iterator[str]:
    """Set the colours that an outline is drawn in and filled with."""
    if ink.colour is not None:
        yield f"{_rgb(ink.colour)} RG\n{_number(ink.width_mm)} w"
    if ink.fill is not None:
        yield f"{_rgb(ink.fill)} rg"


def _painted(ink: Shape | Circle) -> str:
    """Return the operator that draws an outline, fills it, or does both."""
    if ink.fill is None:
        return "n" if ink.colour is None else "S"
    return "f*" if ink.colour is None else "B*"


def _code(ink: Code, _: Any) -> Iterator[str]:
    """Paint runs of dark modules as rectangles at whole coordinates, so that no hair lines show between them."""
    yield f"q\n{_numbers(ink.module_mm, 0, 0, ink.module_mm, ink.x_mm, -ink.y_mm)} cm\n{_rgb(BLACK)} rg"
    runs = ((dark, j) for j, row in enumerate(ink.rows) for dark in re.finditer("1+", row))
    yield " ".join(["n", *(f"{_numbers(dark.start(), -j - 1, len(dark.group()), 1)} re" for dark, j in runs)])
    yield "f*\nQ"


_OPERATORS: dict[type, Callable[[Any, Any], Iterable[str]]] = {
    Text: _text,
    Line: _line,
    Shape: _shape,
    Circle: _circle,
    Code: _code,
}
