"""How long labels take beside a bare loop that draws the same ink, and how time and memory grow with their number.

Of equal short texts on a sheet of one tube, so that each label is the same work, and of texts and bundles as they
vary on a large aircraft on the usual stock and on carriers. Times are of the processor. Run by hand: python
tests/bench/labels.py
"""

from __future__ import annotations

import gc
import io
import itertools
import random
import sys
import time
import tracemalloc
from collections.abc import Callable, Sequence
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from docgen.basics.findings import Position
from docgen.basics.shipped import shipped_folder
from docgen.definition.defaults import Labels
from docgen.paperwork.labels.content import LabelContent, LabelItem, LabelKey
from docgen.paperwork.labels.content import content as content_of
from docgen.paperwork.labels.text import LabelText
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.reading import KINDS
from docgen.paperwork.stocks.stock import LabelStock, compose
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.ink import Circle, Ink, Line, Page, Shape, Text
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import NAMES, font, size_mm
from docgen.pipeline import check

TITLE_BLOCK = TitleBlock("Bench", "B-1", "A", "2026-01-01", None, "00000000")
POINTS = 72 / 25.4
ROUNDS = 2
COUNTS = (1_000, 10_000, 50_000)


AT = Position("harness.yaml", 1, 1)
# What a tube passes and grips of wires of 1.6 mm: one, two, three and four of them.
BUNDLES = ((1.6, 1.6), (3.2, 2.62), (3.45, 3.13), (3.86, 3.64))


def equal(count: int, batch: int) -> LabelContent:
    """Return labels of three wires of 1.6 mm, each with a function of its own, which no other batch has.

    All texts of a kind are equally long, so that each label is the same work however many there are.
    """
    items = []
    for i in range(count):
        text = LabelText(
            f"{batch:02}{i:05}",
            f"unit {i % 97:02}",
            f"joint-{i % 53:02} 1–3",
            f"C{i % 10_000:04}A22",
        )
        items.append(LabelItem(LabelKey(f"c{i}", "A", "from"), "tray", text, 3.45, 3.45, 3.13, None, False, AT))
    return LabelContent(tuple(items), (), Labels())


def varied(count: int, batch: int) -> LabelContent:
    """Return labels of one to four wires whose texts are short and long, some at a joint."""
    chance = random.Random(batch)
    harness = check(shipped_folder("examples") / "wren").harness
    assert harness is not None

    def name(least: int, most: int) -> str:
        return "".join(chance.choices("abcdefghijklmnopqrstuvwxyz-", k=chance.randint(least, most)))

    items = []
    for i in range(count):
        passes, grips = chance.choice(BUNDLES)
        of_wire = passes == grips
        text = LabelText(
            f"{name(2, 8)} {name(1, 8)}".upper(),
            f"{name(4, 16)} {i % 25}, 3+4",
            f"{name(4, 16)} {i % 23}",
            f"C{i}A22" if of_wire else f"C{i}A22 C{i + 1}A22",
            chance.choice(["", "A", "B"]),
            of_wire,
        )
        items.append(LabelItem(LabelKey(f"c{i}", "A", "from"), "tray", text, passes, passes, grips, None, False, AT))
    return LabelContent(tuple(items), content_of(harness).tubes, Labels())


def draw_bare_ink(canvas: Any, ink: Ink, faces: dict[bool, str]) -> None:
    if isinstance(ink, Text):
        canvas.setFillColor(ink.colour)
        canvas.setFont(faces[ink.bold], size_mm(ink.height_mm, ink.bold))
        draw = canvas.drawRightString if ink.align == "right" else canvas.drawString
        draw(ink.x_mm, -ink.y_mm, ink.text)
    elif isinstance(ink, Line):
        canvas.setStrokeColor(ink.colour)
        canvas.setLineWidth(ink.width_mm)
        canvas.line(ink.x1_mm, -ink.y1_mm, ink.x2_mm, -ink.y2_mm)
    elif isinstance(ink, Shape):
        path = canvas.beginPath()
        path.moveTo(ink.points_mm[0][0], -ink.points_mm[0][1])
        for x, y in ink.points_mm[1:]:
            path.lineTo(x, -y)
        path.close()
        if ink.colour is not None:
            canvas.setStrokeColor(ink.colour)
            canvas.setLineWidth(ink.width_mm)
        if ink.fill is not None:
            canvas.setFillColor(ink.fill)
        canvas.drawPath(path, stroke=int(ink.colour is not None), fill=int(ink.fill is not None))
    elif isinstance(ink, Circle):
        canvas.circle(ink.x_mm, -ink.y_mm, ink.radius_mm, stroke=0, fill=1)


def draw_bare(pages: list[Page], faces: dict[bool, str]) -> bytes:
    """Draw the same texts, lines and shapes in a plain loop, with the library's own calls."""
    stream = io.BytesIO()
    canvas: Any = Canvas(stream, pageCompression=1, invariant=1)
    for page in pages:
        canvas.setPageSize((page.width_mm * POINTS, page.height_mm * POINTS))
        canvas.translate(0, page.height_mm * POINTS)
        canvas.scale(POINTS, POINTS)
        for ink in page.ink:
            draw_bare_ink(canvas, ink, faces)
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

    def __init__(self, layout: LabelStock, content: Callable[[int, int], LabelContent]) -> None:
        self._layout = layout
        self._content = content
        self._batches = itertools.count()

    def labels(self, count: int) -> LabelContent:
        return self._content(count, next(self._batches))

    def compose_and_draw(self, labels: LabelContent) -> list[Page]:
        pages = compose(labels, self._layout)(TITLE_BLOCK).pages
        draw_pdf(pages, "Wire labels", "")
        return pages

    def seconds(self, count: int) -> tuple[float, list[Page]]:
        labels = self.labels(count)
        gc.collect()
        start = time.process_time()
        pages = self.compose_and_draw(labels)
        return time.process_time() - start, pages

    def peak_bytes(self, count: int) -> int:
        labels = self.labels(count)
        gc.collect()
        tracemalloc.start()
        try:
            self.compose_and_draw(labels)
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


def measure(stock: str, content: Callable[[int, int], LabelContent], faces: dict[bool, str]) -> None:
    """Print ratio and slopes of labels on a stock."""
    bench, what = Bench(read_shipped(stock, KINDS), content), f"{content.__name__} labels on {stock}"
    bench.compose_and_draw(bench.labels(100))
    rounds = []
    for _ in range(ROUNDS):  # in turn, so that both meet the same noise
        ours, pages = bench.seconds(10_000)
        rounds.append((ours, bare_seconds(pages, faces)))
    ours, bare = (min(each) for each in zip(*rounds, strict=True))
    print(f"{what}: 10,000 take {ours:.2f} s, bare loop {bare:.2f} s, ratio {ours / bare:.2f}", flush=True)  # noqa: T201
    turns = [[bench.seconds(count)[0] for count in COUNTS] for _ in range(ROUNDS)]
    times = [min(each) for each in zip(*turns, strict=True)]
    print(f"{what}: time in µs {slopes([1e6 * value for value in times])}", flush=True)  # noqa: T201
    print(f"{what}: memory in bytes {slopes([bench.peak_bytes(count) for count in COUNTS])}", flush=True)  # noqa: T201


def main() -> None:
    """Measure both kinds of labels on each stock named, else each on the stock it is for."""
    faces = bare_faces()
    named = [(stock, content) for stock in sys.argv[1:] for content in (equal, varied)]
    for stock, content in named or [("carrier-4.8", equal), ("strips-a4", varied), ("carrier-a4", varied)]:
        measure(stock, content, faces)


if __name__ == "__main__":
    main()
