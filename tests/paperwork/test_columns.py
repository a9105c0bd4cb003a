"""How what stands in columns is set: what is looked for is bold, figures end at the right, all as large as has room."""

from __future__ import annotations

from functools import cache

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.document import Choice
from docgen.paperwork.documents import DOCUMENTS
from docgen.paperwork.typesetting.ink import Text
from docgen.paperwork.typesetting.title_block import TitleBlock

BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
SMALL, PLAIN, LARGE = 1.8, 2.5, 3.5


@cache
def texts(name: str, stem: str) -> list[Text]:
    document = next(document for document in DOCUMENTS if document.stem == stem)
    layout, _ = document.layout(Choice())
    laid = document.compose(document.content(harness_of(EXAMPLES / name)), layout)
    return [ink for page in laid(BLOCK).pages for ink in page.ink if isinstance(ink, Text)]


# By document: a text, whether it is bold, at which edge its column is, and how high its capitals are. Where there are
# two examples the second has more to say than there is room for at the height of the first.
SET = {
    ("wren", "cut-list"): [
        ("1335", True, "right", LARGE),
        ("C5A22", False, "left", SMALL),
        ("RUD", False, "left", PLAIN),
        ("2", False, "right", SMALL),
        ("1120", True, "right", LARGE),
        ("radio-tray – tail-post", False, "left", SMALL),
        ("3.4", False, "right", SMALL),
        ("12", True, "right", PLAIN),
        ("47", False, "right", SMALL),
        ("clear-4.8, labels", False, "left", SMALL),
        ("block-6", False, "left", SMALL),
        ("11", False, "right", PLAIN),
        ("pvc-20 BK black", False, "left", SMALL),
        ("0.564", True, "right", PLAIN),
    ],
    ("fulmar", "cut-list"): [("GYRO", False, "left", PLAIN), ("receiver-a 6", False, "left", SMALL)],
    ("wren", "ring-out-sheet"): [
        ("rudder A", True, "left", PLAIN),
        ("receiver 4 – rudder", False, "left", SMALL),
        ("3 – 3", True, "right", PLAIN),
        ("71", False, "right", SMALL),
        ("≤81", False, "right", SMALL),
    ],
    ("fulmar", "ring-out-sheet"): [("rudder A", True, "left", SMALL), ("3 – 3", True, "right", SMALL)],
    ("wren", "label-list"): [
        ("RUD", True, "left", PLAIN),
        ("receiver 4", False, "left", PLAIN),
        ("shrink-4", False, "left", SMALL),
        ("tube, 36 mm", False, "left", SMALL),
    ],
    ("fulmar", "label-list"): [("RUDDER", True, "left", PLAIN), ("power-unit 9", False, "left", SMALL)],
    ("wren", "measuring-sheet"): [
        ("1", True, "right", PLAIN),
        ("radio-tray – tail-post", False, "left", PLAIN),
        ("length · sharp · 1 lead", False, "left", SMALL),
        ("1140", False, "right", SMALL),
    ],
    ("fulmar", "measuring-sheet"): [("radio-tray – left-root", False, "left", SMALL), ("1", True, "right", PLAIN)],
    ("wren", "order-of-work"): [
        ("RUD A", True, "left", PLAIN),
        ("rudder A", False, "left", SMALL),
        ("1335", False, "left", SMALL),
        ("22 AWG", False, "left", SMALL),
        ("1 BK, 2 RD, 3 WH · 2.5 mm", False, "left", PLAIN),
        ("receiver 4 · servo-3 sockets", False, "left", SMALL),
        ("1 cut", True, "left", PLAIN),
        ("mm, gauge", False, "left", SMALL),
        ("5 lay up", True, "left", PLAIN),
        ("pvc-22 · servo-3", False, "left", PLAIN),
        ("pins held", False, "left", SMALL),
        ("whole paths ring out, nothing else does", True, "left", PLAIN),
    ],
    ("wren", "first-power"): [
        ("RX BATT", True, "left", PLAIN),
        ("receiver BATT 2+ 1− (fault 2)", False, "left", SMALL),
        ("7.4 V", True, "left", SMALL),
    ],
    ("fulmar", "first-power"): [("receiver-a", False, "left", SMALL), ("hold", False, "left", SMALL)],
    ("wren", "fault-finder"): [
        ("4", True, "right", SMALL),
        ("left-root: pins straight; AIL L 2 (+) to 1 (−)", False, "left", SMALL),
        ("6.4 to 8.4 V", True, "left", SMALL),
        ("RUD", True, "left", SMALL),
        ("tail hatch: rudder; canopy: receiver 4", False, "left", SMALL),
        ("canopy", True, "left", PLAIN),
    ],
    ("wren", "hangar-card"): [
        ("pack", True, "left", PLAIN),
        ("8.4", False, "right", PLAIN),
        ("6.6", False, "right", PLAIN),
        ("packs", True, "left", SMALL),
        ("strapped, leads clear", False, "left", SMALL),
        ("plug first, then strap", False, "left", SMALL),
        ("RUD", True, "left", PLAIN),
        ("40 mm each way", False, "left", SMALL),
        ("Locks", True, "left", PLAIN),
        ("locked when", False, "left", SMALL),
        ("full", False, "right", SMALL),
    ],
}
CASES = [(*of, *said) for of, every in SET.items() for said in every]


@pytest.mark.parametrize(("name", "stem", "text", "bold", "align", "high"), CASES)
def test_a_text_is_set_as_its_column_is(name: str, stem: str, text: str, bold: bool, align: str, high: float) -> None:
    found = {(one.bold, one.align, round(one.height_mm, 2)) for one in texts(name, stem) if one.text == text}
    assert (bold, align, high) in found
