"""How long labels take beside a bare loop that draws the same marks, and how time and memory grow with their number.

Times are of the processor. Run by hand: python tests/bench/labels.py
"""

from __future__ import annotations

import gc
import io
import itertools
import sys
import time
import tracemalloc
from collections.abc import Sequence
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from docgen.basics.findings import Position, Said
from docgen.paperwork.draw import draw_pdf
from docgen.paperwork.imprint import Imprint
from docgen.paperwork.label_pages import compose
from docgen.paperwork.label_text import LabelText
from docgen.paperwork.layouts import LabelSheet, LabelTape, read_layout
from docgen.paperwork.marks import Circle, Line, Mark, Page, Shape, Text
from docgen.paperwork.typeface import NAMES, font, size_mm
from docgen.paperwork.wire_labels import LabelContent, LabelItem

IMPRINT = Imprint("Bench", "B-1", "A", "2026-01-01", None, "00000000")
POINTS = 72 / 25.4
ROUNDS = 2
COUNTS = (1_000, 10_000, 50_000)


def content(count: int, batch: int) -> LabelContent:
    """Return labels of three wires of 1.6 mm, each with a function of its own, which no other batch has.

    All texts of a kind are equally long, so that each label is the same work however many there are.
    """
    at = Position("harness.yaml", 1, 1)

    def said(text: str) -> Said:
        return Said(text, at)

    items = []
    for i in range(count):
        text = LabelText(
            said(f"{batch:02}{i:05}"),
            said(f"unit {i % 97:02}"),
            said(f"joint-{i % 53:02} 1–3"),
            said(f"C{i % 10_000:04}A22"),
            "A",
        )
        items.append(LabelItem((f"c{i}", "A", "from"), f"c{i}", "tray", text, 3.45, 3.45, 3.13, None, False, at))
    return LabelContent(tuple(items), (), 1.6, 25)


def draw_bare_mark(canvas: Any, mark: Mark, faces: dict[bool, str]) -> None:
    if isinstance(mark, Text):
        canvas.setFillColor(mark.colour)
        canvas.setFont(faces[mark.bold], size_mm(mark.height_mm, mark.bold))
        draw = canvas.drawRightString if mark.align == "right" else canvas.drawString
        draw(mark.x_mm, -mark.y_mm, mark.text)
    elif isinstance(mark, Line):
        canvas.setStrokeColor(mark.colour)
        canvas.setLineWidth(mark.width_mm)
        canvas.line(mark.x1_mm, -mark.y1_mm, mark.x2_mm, -mark.y2_mm)
    elif isinstance(mark, Shape):
        path = canvas.beginPath()
        path.moveTo(mark.points_mm[0][0], -mark.points_mm[0][1])
        for x, y in mark.points_mm[1:]:
            path.lineTo(x, -y)
        path.close()
        if mark.colour is not None:
            canvas.setStrokeColor(mark.colour)
            canvas.setLineWidth(mark.width_mm)
        if mark.fill is not None:
            canvas.setFillColor(mark.fill)
        canvas.drawPath(path, stroke=int(mark.colour is not None), fill=int(mark.fill is not None))
    elif isinstance(mark, Circle):
        canvas.circle(mark.x_mm, -mark.y_mm, mark.radius_mm, stroke=0, fill=1)


def draw_bare(pages: list[Page], faces: dict[bool, str]) -> bytes:
    """Draw the same texts, lines and shapes in a plain loop, with the library's own calls."""
    stream = io.BytesIO()
    canvas: Any = Canvas(stream, pageCompression=1, invariant=1)
    for page in pages:
        canvas.setPageSize((page.width_mm * POINTS, page.height_mm * POINTS))
        canvas.translate(0, page.height_mm * POINTS)
        canvas.scale(POINTS, POINTS)
        for mark in page.marks:
            draw_bare_mark(canvas, mark, faces)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def bare_faces() -> dict[bool, str]:
    """Register the two weights of the face under names of their own."""
    faces = {}
    for bold in (False, True):
        faces[bold] = f"Bare{NAMES[bold]}"
        pdfmetrics.registerFont(TTFont(faces[bold], font(bold).face.filename))
    return faces


class Bench:
    """Labels on one stock, of texts that were never set before."""

    def __init__(self, layout: LabelSheet | LabelTape) -> None:
        self._layout = layout
        self._batches = itertools.count()

    def compose_and_draw(self, count: int) -> list[Page]:
        pages = compose(content(count, next(self._batches)), self._layout, IMPRINT).pages
        draw_pdf(pages, "Wire labels", "")
        return pages

    def seconds(self, count: int) -> tuple[float, list[Page]]:
        gc.collect()
        start = time.process_time()
        pages = self.compose_and_draw(count)
        return time.process_time() - start, pages

    def peak_bytes(self, count: int) -> int:
        gc.collect()
        tracemalloc.start()
        try:
            self.compose_and_draw(count)
            return tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()


def bare_seconds(pages: list[Page], faces: dict[bool, str]) -> float:
    gc.collect()
    start = time.process_time()
    draw_bare(pages, faces)
    return time.process_time() - start


def slopes(values: Sequence[float]) -> str:
    first, second = ((values[i + 1] - values[i]) / (COUNTS[i + 1] - COUNTS[i]) for i in (0, 1))
    return f"{first:.0f} then {second:.0f} a label, ratio {second / first:.2f}"


def main() -> None:
    """Print ratio and slopes for each stock named, else for a sheet of tube."""
    faces = bare_faces()
    for stock in sys.argv[1:] or ["carrier-4.8"]:
        layout, _ = read_layout(stock)
        assert isinstance(layout, LabelSheet | LabelTape)
        bench = Bench(layout)
        bench.compose_and_draw(100)
        rounds = []
        for _ in range(ROUNDS):  # in turn, so that both meet the same noise
            ours, pages = bench.seconds(10_000)
            rounds.append((ours, bare_seconds(pages, faces)))
        ours, bare = (min(each) for each in zip(*rounds, strict=True))
        print(f"{stock}: 10,000 labels {ours:.2f} s, bare loop {bare:.2f} s, ratio {ours / bare:.2f}", flush=True)  # noqa: T201
        turns = [[bench.seconds(count)[0] for count in COUNTS] for _ in range(ROUNDS)]
        times = [min(each) for each in zip(*turns, strict=True)]
        print(f"{stock}: time in µs {slopes([1e6 * value for value in times])}", flush=True)  # noqa: T201
        print(f"{stock}: memory in bytes {slopes([bench.peak_bytes(count) for count in COUNTS])}", flush=True)  # noqa: T201


if __name__ == "__main__":
    main()
