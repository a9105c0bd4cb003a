"""Every text on every page, measured from the PDF by a renderer that is not ours."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pypdfium2 as pdfium
import pytest
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.paperwork.documents import Choice, make_paperwork

POINTS = 72 / 25.4
CLIP_MM = 6.0  # printers clip within 6 mm of a sheet's edge: common practice, no source
TOUCH_MM = 0.12  # rectangles of characters are their advance and the face's own bounds, to this


class Rect(NamedTuple):
    left: float
    bottom: float
    right: float
    top: float


def doubled_names(folder: Path, target: Path) -> Path:
    """Write a copy of an example whose names of equipment and labels are twice as long."""
    target.mkdir()
    for path in folder.glob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        for name in ("receiver", "rudder", "pack", "<side>-aileron"):
            text = re.sub(rf"(?m)^  {name}:", f"  {name}-{name}:", text)
            text = re.sub(rf"(from|to): {name}\b", rf"\1: {name}-{name}", text)
        text = text.replace("{left: receiver", "{left: receiver-receiver").replace(
            "right: receiver", "right: receiver-receiver"
        )
        text = text.replace("<side>-root", "<side>-root-<side>-root").replace("radio-tray", "radio-tray-radio-tray")
        text = text.replace("place: <side>-aileron", "place: <side>-aileron-<side>-aileron")
        text = re.sub(r"(?m)(, )<side>-aileron\]", r"\1<side>-aileron-<side>-aileron]", text)
        for label in ("AIL L", "AIL R", "RX BATT", "RUD"):
            text = text.replace(label, f"{label} {label}")
        (target / path.name).write_text(text, encoding="utf-8")
    return target


@pytest.fixture(scope="module", params=["wren", "fulmar", "doubled", "letter", "tape"])
def documents(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    folder = EXAMPLES / ("fulmar" if request.param in ("fulmar", "tape") else "wren")
    if request.param == "doubled":
        folder = doubled_names(folder, tmp_path_factory.mktemp("names") / "wren")
    choice = Choice(paper="letter" if request.param == "letter" else "a4")
    if request.param == "tape":
        choice = Choice(stems=("wire-labels",), stock="tape-9")
    usual = request.param in ("wren", "fulmar")
    files = files_of_example(request.param) if usual else make_paperwork(harness_of(folder), choice).files
    return {path: content for path, content in files.items() if path.endswith(".pdf")}


def pages(documents: dict[str, bytes]) -> Iterator[tuple[str, Any]]:
    for name, content in documents.items():
        for number, page in enumerate(pdfium.PdfDocument(content), 1):
            yield f"{name} page {number}", page


def lines_of(page: Any) -> list[tuple[str, Rect]]:
    """Return the lines of text on a page and the rectangles of their ink [mm]."""
    found = []
    for mark in page.get_objects(filter=[pdfium.raw.FPDF_PAGEOBJ_TEXT]):
        left, bottom, right, top = (side / POINTS for side in mark.get_bounds())
        found.append((f"{left:.1f},{bottom:.1f}", Rect(left, bottom, right, top)))
    return found


def test_all_ink_is_inside_its_page(documents: dict[str, bytes]) -> None:
    """Lines, bars and codes are ink too: every pixel that is not white counts."""
    outside = []
    for where, page in pages(documents):
        width, height = (side / POINTS for side in page.get_size())
        clip = CLIP_MM if height > 50 else 0.4
        scale = 4  # pixels a point
        dark = page.render(scale=scale, grayscale=True).to_numpy().squeeze() < 250
        margin = int(clip * POINTS * scale)
        dark[margin:-margin, margin:-margin] = False
        if dark.any():
            outside.append((where, (dark.nonzero()[1][0] / scale / POINTS, dark.nonzero()[0][0] / scale / POINTS)))
        assert width > 2 * clip
    assert outside == []


def overlap(one: Rect, other: Rect) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.top, other.top) - max(one.bottom, other.bottom)
    return across > TOUCH_MM and down > TOUCH_MM


def test_no_text_runs_into_another(documents: dict[str, bytes]) -> None:
    runs_into = []
    for where, page in pages(documents):
        lines = sorted(lines_of(page), key=lambda line: line[1].bottom)
        for i, (text, rect) in enumerate(lines):
            for other_text, other in lines[i + 1 :]:
                if other.bottom > rect.top:
                    break
                if overlap(rect, other):
                    runs_into.append((where, text, other_text))
    assert runs_into == []
