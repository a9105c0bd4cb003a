"""Paint pages of marks into a PDF; the only place that uses the canvas. Decides nothing."""

from __future__ import annotations

import io
import os
from collections.abc import Sequence
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from docgen.paperwork.typesetting.ink import Circle, Code, Correction, Line, Page, Shape, Text
from docgen.paperwork.typesetting.typeface import NAMES, font, size_mm

_POINTS = 72 / 25.4


def draw_pdf(pages: Sequence[Page], title: str, subject: str, correction: Correction | None = None) -> bytes:
    """Return the PDF of pages, the same bytes for the same marks, undoing what a printer does to them."""
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
        for mark in page.marks:
            _DRAW[type(mark)](canvas, mark)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _draw_text(canvas: Any, mark: Text) -> None:
    canvas.setFillColor(mark.colour)
    canvas.setFont(NAMES[mark.bold], size_mm(mark.height_mm, mark.bold))
    draw = {
        "left": canvas.drawString,
        "right": canvas.drawRightString,
        "centre": canvas.drawCentredString,
    }
    draw[mark.align](mark.x_mm, -mark.y_mm, mark.text)


def _draw_line(canvas: Any, mark: Line) -> None:
    canvas.setStrokeColor(mark.colour)
    canvas.setLineWidth(mark.width_mm)
    canvas.line(mark.x1_mm, -mark.y1_mm, mark.x2_mm, -mark.y2_mm)


def _draw_shape(canvas: Any, mark: Shape) -> None:
    path = canvas.beginPath()
    path.moveTo(mark.points_mm[0][0], -mark.points_mm[0][1])
    for x_mm, y_mm in mark.points_mm[1:]:
        path.lineTo(x_mm, -y_mm)
    path.close()
    _set_paint(canvas, mark)
    canvas.drawPath(path, stroke=int(mark.colour is not None), fill=int(mark.fill is not None))


def _draw_circle(canvas: Any, mark: Circle) -> None:
    _set_paint(canvas, mark)
    stroke, fill = int(mark.colour is not None), int(mark.fill is not None)
    canvas.circle(mark.x_mm, -mark.y_mm, mark.radius_mm, stroke=stroke, fill=fill)


def _set_paint(canvas: Any, mark: Shape | Circle) -> None:
    if mark.colour is not None:
        canvas.setStrokeColor(mark.colour)
        canvas.setLineWidth(mark.width_mm)
    if mark.fill is not None:
        canvas.setFillColor(mark.fill)


def _draw_code(canvas: Any, mark: Code) -> None:
    """Paint runs of dark modules as rectangles at whole coordinates, so that no hair lines show between them."""
    canvas.saveState()
    canvas.translate(mark.x_mm, -mark.y_mm)
    canvas.scale(mark.module_mm, mark.module_mm)
    canvas.setFillColor("#000000")
    path = canvas.beginPath()
    for j, row in enumerate(mark.rows):
        start = 0
        for dark, run in _runs(row):
            if dark == "1":
                path.rect(start, -j - 1, run, 1)
            start += run
    canvas.drawPath(path, stroke=0, fill=1)
    canvas.restoreState()


def _runs(row: str) -> list[tuple[str, int]]:
    runs: list[tuple[str, int]] = []
    for module in row:
        if runs and runs[-1][0] == module:
            runs[-1] = module, runs[-1][1] + 1
        else:
            runs.append((module, 1))
    return runs


_DRAW: dict[type, Any] = {
    Text: _draw_text,
    Line: _draw_line,
    Shape: _draw_shape,
    Circle: _draw_circle,
    Code: _draw_code,
}
