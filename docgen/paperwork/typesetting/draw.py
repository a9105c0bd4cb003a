"""Paint pages of ink into a PDF; the only place that uses the canvas. Decides nothing."""

from __future__ import annotations

import io
import os
import re
from collections.abc import Sequence
from functools import cache
from typing import Any, NamedTuple

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from docgen.paperwork.typesetting.ink import BLACK, Circle, Code, Line, Page, Shape, Text
from docgen.paperwork.typesetting.typeface import NAMES, font, size_mm

_POINTS = 72 / 25.4
_colour = cache(HexColor)


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
        for ink in page.ink:
            _DRAW[type(ink)](canvas, ink)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _draw_text(canvas: Any, ink: Text) -> None:
    canvas.setFillColor(_colour(ink.colour))
    canvas.setFont(NAMES[ink.bold], size_mm(ink.height_mm, ink.bold))
    draw = {
        "left": canvas.drawString,
        "right": canvas.drawRightString,
        "centre": canvas.drawCentredString,
    }
    if not ink.turned:
        draw[ink.align](ink.x_mm, -ink.y_mm, ink.text)
        return
    canvas.saveState()
    canvas.translate(ink.x_mm, -ink.y_mm)
    canvas.rotate(90)
    draw[ink.align](0, 0, ink.text)
    canvas.restoreState()


def _draw_line(canvas: Any, ink: Line) -> None:
    canvas.setStrokeColor(_colour(ink.colour))
    canvas.setLineWidth(ink.width_mm)
    canvas.line(ink.x1_mm, -ink.y1_mm, ink.x2_mm, -ink.y2_mm)


def _draw_shape(canvas: Any, ink: Shape) -> None:
    path = canvas.beginPath()
    path.moveTo(ink.points_mm[0][0], -ink.points_mm[0][1])
    for x_mm, y_mm in ink.points_mm[1:]:
        path.lineTo(x_mm, -y_mm)
    path.close()
    _set_paint(canvas, ink)
    canvas.drawPath(path, stroke=int(ink.colour is not None), fill=int(ink.fill is not None))


def _draw_circle(canvas: Any, ink: Circle) -> None:
    _set_paint(canvas, ink)
    stroke, fill = int(ink.colour is not None), int(ink.fill is not None)
    canvas.circle(ink.x_mm, -ink.y_mm, ink.radius_mm, stroke=stroke, fill=fill)


def _set_paint(canvas: Any, ink: Shape | Circle) -> None:
    if ink.colour is not None:
        canvas.setStrokeColor(_colour(ink.colour))
        canvas.setLineWidth(ink.width_mm)
    if ink.fill is not None:
        canvas.setFillColor(_colour(ink.fill))


def _draw_code(canvas: Any, ink: Code) -> None:
    """Paint runs of dark modules as rectangles at whole coordinates, so that no hair lines show between them."""
    canvas.saveState()
    canvas.translate(ink.x_mm, -ink.y_mm)
    canvas.scale(ink.module_mm, ink.module_mm)
    canvas.setFillColor(_colour(BLACK))
    path = canvas.beginPath()
    for j, row in enumerate(ink.rows):
        for dark in re.finditer("1+", row):
            path.rect(dark.start(), -j - 1, len(dark.group()), 1)
    canvas.drawPath(path, stroke=0, fill=1)
    canvas.restoreState()


_DRAW: dict[type, Any] = {
    Text: _draw_text,
    Line: _draw_line,
    Shape: _draw_shape,
    Circle: _draw_circle,
    Code: _draw_code,
}
