"""How what stands in columns is set: what is looked for is bold, figures end at the right, all as large as has room."""

from __future__ import annotations

from functools import cache

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.document import Choice
from docgen.paperwork.documents import DOCUMENTS
from docgen.paperwork.typesetting.ink import Box, Ink, Shape, Text
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import width_mm

BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
SMALL, PLAIN, LARGE = 1.8, 2.5, 3.5


@cache
def drawn(name: str, stem: str) -> list[Ink]:
    document = next(document for document in DOCUMENTS if document.stem == stem)
    layout, _ = document.layout(Choice())
    laid = document.compose(document.content(harness_of(EXAMPLES / name)), layout)
    return [ink for page in laid(BLOCK).pages for ink in page.ink]


def texts(name: str, stem: str) -> list[Text]:
    return [ink for ink in drawn(name, stem) if isinstance(ink, Text)]


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
        ("canopy: receiver 4; tail hatch: rudder", False, "left", SMALL),
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


# Headings of columns that are as wide as what stands in them, the widest of them; others share what is left.
NARROW = {
    ("wren", "cut-list"): ["cut, mm", "mark", "spool", "over, mm", "each, mm", "each, m"],
    ("wren", "ring-out-sheet"): ["rings", "mV", "alone"],
    ("wren", "label-list"): ["tube, 36 mm"],
    ("wren", "measuring-sheet"): ["now, mm"],
    ("wren", "order-of-work"): ["1 cut", "2 tube", "3 twist", "7 tube", "pins held", "sockets held"],
    ("wren", "hangar-card"): ["full", "below V", "flights"],
    ("fulmar", "hangar-card"): ["fail-safe"],
    ("fulmar", "first-power"): ["receiver-a", "receiver-b"],
    ("fulmar", "cut-list"): ["on the shelf, m", "retainers"],
}
# What stands right of a box to tick, from its left; a box to tick is 4 mm wide, one to write in 18 mm.
BESIDE_MM, TICK_MM, FIELD_MM = 5.0, 4.0, 18.0


def cells(name: str, stem: str) -> list[tuple[Text, Box]]:
    return [(text, text.cell) for text in texts(name, stem) if text.cell is not None]


@pytest.mark.parametrize(("name", "stem", "head"), [(*of, head) for of, heads in NARROW.items() for head in heads])
def test_a_column_of_figures_boxes_and_names_is_no_wider_than_the_widest_in_it(name: str, stem: str, head: str) -> None:
    every = cells(name, stem)
    for _, at in (cell for cell in every if cell[0].text == head):
        within = [
            (cell.x_mm - at.x_mm, text)
            for text, cell in every
            if cell.right_mm == pytest.approx(at.right_mm)
            if min(abs(cell.x_mm - at.x_mm), abs(cell.x_mm - at.x_mm - BESIDE_MM)) < 0.01
        ]
        widest = max(begins + width_mm(text.text, text.height_mm, text.bold) for begins, text in within)
        box = FIELD_MM if head.endswith(" held") else TICK_MM
        assert at.width_mm == pytest.approx(max(widest, box) + 0.2, abs=0.01)


@pytest.mark.parametrize(
    ("name", "stem", "head", "following", "between"),
    [
        # A bracket of 1.2 mm, a tick of 4 mm, a box of 14 or 18 mm to write in; 0.2 mm to spare in each, 2 mm between.
        ("wren", "cut-list", "cut, mm", "mark", 2 + 1.4 + 2),
        ("wren", "cut-list", "pieces", "each, mm", 2 + 1.4 + 2),
        ("wren", "ring-out-sheet", "mV", "alone", 2 + 14.2 + 2),
        ("wren", "order-of-work", "4 first end", "7 tube", 2 + 4.2 + 2),
        ("fulmar", "hangar-card", "throw", "fail-safe", 2),
    ],
)
def test_between_columns_is_what_stands_there_and_2_mm(
    name: str, stem: str, head: str, following: str, between: float
) -> None:
    every = cells(name, stem)
    ends = [(cell.right_mm, cell.y_mm) for text, cell in every if text.text == head]
    starts = [(cell.x_mm, cell.y_mm) for text, cell in every if text.text == following]
    rows = [[left - right for left, at in starts if at == y and left > right] for right, y in ends]
    gaps = [min(row) for row in rows if row]
    assert gaps == pytest.approx([between] * len(gaps), abs=0.01)
    assert gaps


@pytest.mark.parametrize(
    ("stem", "heads", "right_mm"),
    [
        ("cut-list", ("function", "family", "what"), 10 + 92),
        ("measuring-sheet", ("measured, mm",), 10 + 190),
        ("label-list", ("tube, 36 mm",), 10 + 92),
        ("order-of-work", ("8 second end",), 10 + 190),
    ],
)
def test_columns_of_texts_take_what_is_left_so_that_a_table_ends_at_its_edge(
    stem: str, heads: tuple[str, ...], right_mm: float
) -> None:
    """The last column is of boxes to tick, 4 mm wide, or to write in, 18 mm, with 0.2 mm to spare."""
    shapes = [ink.points_mm for ink in drawn("wren", stem) if isinstance(ink, Shape)]
    boxes = [(min(points), max(points)) for points in shapes]
    wide = FIELD_MM if stem == "measuring-sheet" else TICK_MM
    ends = {round(high[0], 2) for low, high in boxes if high[0] - low[0] == pytest.approx(wide) and high[0] <= right_mm}
    assert max(ends) == pytest.approx(right_mm - 0.2)
    assert {text.text for text in texts("wren", stem)} >= set(heads)
