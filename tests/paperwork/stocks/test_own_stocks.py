"""A stock of one's own: printed where it says, and its errors found on their line."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest
from measured import Box, PrintedPage, cells, read
from printed_labels import LAYOUTS, OWN, WREN, Run, labels_on, own


def test_a_stock_of_one_s_own_is_printed_where_it_says(labels: Callable[..., list[PrintedPage]]) -> None:
    [page] = labels(WREN, "--stock", own(OWN))
    assert (page.width_mm, page.height_mm) == pytest.approx((148, 210), abs=0.01)
    for i, (x, y) in enumerate(cells(read(Path("own.yaml")))):
        # Twelve labels on the tube, π × 4.8 / 2 = 7.54 mm flat; the other cells are as large as told.
        height = 7.54 if i < 12 else 7.6
        assert page.off_outline_mm(Box(x, y, x + 55, y + height)) < 0.1


@pytest.mark.parametrize(
    ("old", "new", "line", "name"),
    [
        ("margin: 8 mm", "margin: 8", 5, "unit"),
        ("margin: 8 mm\n", "", 2, "missing"),
        ("across: 2", "across: two", 7, "value"),
        ("label: {length", "label: {colour: RD, length", 8, "key"),
        ("kind: label sheet", "kind: label", 2, "value"),
        ("first: [12 mm, 28 mm]", "first: [12 mm]", 7, "value"),
        ("edges: 0.4 mm}", "edges: 0.4 mm", 10, "syntax"),
        ("recovered: 2.4 mm", "recovered: thin", 6, "value"),
        ("printer: thermal transfer\n", "", 2, "missing"),
        ("thermal transfer", "laser", 3, "value"),
    ],
)
def test_an_error_in_a_stock_says_its_line(run: Run, old: str, new: str, line: int, name: str) -> None:
    assert old in OWN
    ran = run("print", WREN, "wire-labels", "--stock", own(OWN.replace(old, new)))
    assert ran.exit_code == 1
    told = [(int(at), found) for at, found in re.findall(r"own\.yaml:(\d+):\d+: error (\w+)", ran.stderr)]
    if name == "missing":  # what is missing has no line of its own
        assert [found for _, found in told] == [name]
    elif name == "syntax":  # told where the file ends in the middle, or before it
        assert told[0][1] == name
        assert told[0][0] >= 9
    else:
        assert told[0][1] in (name, "unit")
        assert told[0][0] == line
    assert not Path("out").exists()


@pytest.mark.parametrize(
    ("old", "new", "line", "says"),
    [
        # 12 + 64 + 80 = 156 mm on a paper of 148 mm, and 80 mm at a pitch of 64 mm.
        ("length: 55 mm", "length: 80 mm", 7, "8.0 mm over the paper's edge across"),
        ("length: 55 mm", "length: 80 mm", 7, "run into each other"),
        # 28 + 19 × 12 + 7.6 = 263.6 mm of 210 mm.
        ("down: 8", "down: 20", 7, "53.6 mm over the paper's edge down"),
        ("pitch: [64 mm, 12 mm]", "pitch: [64 mm, 7 mm]", 7, "run into each other"),
        ("ends: 2 mm", "ends: 27.5 mm", 9, "nothing of a label is left"),
        # π × 19.1 / 2 = 30.0 mm flat on 7.6 mm of carrier: two and a half rows of 12 mm.
        ("expanded: 4.8 mm", "expanded: 19.1 mm", 6, "30.0 mm flat is wider than its label of 7.6 mm"),
        ("recovered: 2.4 mm", "recovered: 4.9 mm", 6, "does not shrink"),
    ],
)
def test_sizes_that_do_not_fit_are_found_on_their_line(run: Run, old: str, new: str, line: int, says: str) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", own(OWN.replace(old, new)))
    told = re.findall(r"own\.yaml:(\d+):\d+: caution stock: (.*)", ran.stderr)
    assert any(int(at) == line and says in sentence for at, sentence in told), ran.stderr
    assert not Path("out/wren/wire-labels.pdf").exists()


# Lengths, and heights where a stock says them, are those in the file; a tape's least length is meant.
ROOM = {
    "carrier-4.8": (50, 7.6),
    "carrier-a4": (63, None),
    "flags-a4": (35, 12),
    "strips-a4": (32, None),
    "tape-12": (30, None),
    "wraps-a4": (50, 12),
}


@pytest.mark.parametrize(("name", "side"), [(name, side) for name in ROOM for side in (0, 1) if ROOM[name][side]])
def test_a_label_of_which_nothing_is_left_to_print_on_is_found(name: str, side: int, run: Run) -> None:
    half_mm = (ROOM[name][side] or 0) / 2
    told = []
    for clear_mm in (half_mm - 0.1, half_mm):
        text = (LAYOUTS / f"{name}.yaml").read_text("utf-8")
        text = re.sub(("ends: [0-9.]+", "edges: [0-9.]+")[side], f"{('ends', 'edges')[side]}: {clear_mm:.2f}", text)
        told.append("nothing of a label is left" in run("print", WREN, "wire-labels", "--stock", own(text)).stderr)
    assert told == [False, True]


STRIPS = """kind: label strips
printer: any
limit: 210 °C
paper: [148 mm, 210 mm]
margin: 8 mm
cells: {across: 3, down: 20, first: [12 mm, 50 mm], pitch: [40 mm, 5 mm]}
label: {length: 32 mm}
clear: {ends: 1 mm, edges: 0.1 mm}
"""
CARRIER = STRIPS.replace("label strips", "label carrier").replace("any\nlimit: 210 °C", "tape")


@pytest.mark.parametrize("stock", [STRIPS, CARRIER])
def test_rows_of_one_s_own_keep_their_labels_and_names_to_themselves(
    labels: Callable[..., list[PrintedPage]], stock: str
) -> None:
    pages = labels(WREN, "--stock", own(stock))
    found = [label for label in labels_on(pages, read(Path("own.yaml"))) if label.copies[0]]
    assert len(found) == 12
    for page in pages:
        boxes = [label.outline for label in found if label.page is page]
        assert [(a, b) for a, b in combinations(boxes, 2) if a.overlaps(b)] == []
        texts = [text for text in page.texts if 45 < text.box.top < 150]
        overlapping = [(a.text, b.text) for a, b in combinations(texts, 2) if a.box.overlaps(b.box, by_mm=0.02)]
        assert overlapping == []
    assert all(label.beside for label in found)


def test_a_tube_that_is_wider_than_all_rows_is_found(run: Run) -> None:
    # A tube of 4 mm is 6.28 mm flat, the one row of cells 5 mm high.
    ran = run("print", WREN, "wire-labels", "--stock", own(CARRIER.replace("down: 20", "down: 1")), "--only", "rudder")
    assert "shrink-4 is 6.3 mm flat, the stock holds 5 mm" in ran.stderr


def test_a_strip_that_would_stiffen_the_wires_is_found_on_its_line(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", own(STRIPS.replace("length: 32 mm", "length: 33 mm")))
    assert "own.yaml:7:17: caution stock: a strip of 33 mm stiffens the wires; 32 mm are the most." in ran.stderr


# A laser printer fuses print at about 200 °C: common practice, no source.
TUBE_IN_A_LASER = OWN.replace("thermal transfer", "sheet")
TAPE = "kind: label tape\nprinter: any\nwidth: 12 mm\nshrinks: 3:1\nlength: [30 mm, 60 mm]\n"
TAPE += "clear: {ends: 2 mm, edges: 0.8 mm}\n"


@pytest.mark.parametrize(
    ("stock", "says"),
    [
        (TUBE_IN_A_LASER, "nothing says what it stands"),
        (TUBE_IN_A_LASER.replace("2.4 mm}", "2.4 mm, limit: 260 °C}"), "nothing says what it stands"),
        (TUBE_IN_A_LASER.replace("2.4 mm}", "2.4 mm, limit: 135 °C, shrinks_at: 90 °C}"), "it stands 90 °C"),
        (TUBE_IN_A_LASER.replace("2.4 mm}", "2.4 mm, limit: 135 °C, shrinks_at: 327 °C}"), "it stands 135 °C"),
        (TAPE, "nothing says what it stands"),
        (f"{TAPE}limit: 200 °C\nshrinks_at: 199 °C\n", "it stands 199 °C"),
        (CARRIER.replace("printer: tape", "printer: any"), "nothing says what it stands"),
        (STRIPS.replace("limit: 210 °C\n", ""), "nothing says what it stands"),
        (STRIPS.replace("limit: 210 °C", "limit: 199 °C"), "it stands 199 °C"),
    ],
)
def test_a_stock_that_a_laser_printer_would_burn_is_an_error_and_nothing_is_printed(
    run: Run, stock: str, says: str
) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", own(stock))
    assert ran.exit_code == 1
    line = next(i for i, text in enumerate(stock.splitlines(), 1) if text.startswith("printer:"))
    assert f"own.yaml:{line}:10: error stock: a laser printer fuses print at about 200 °C, and {says}." in ran.stderr
    assert not Path("out").exists()


def test_a_stock_that_stands_a_laser_printer_is_printed(run: Run) -> None:
    stands = TUBE_IN_A_LASER.replace("2.4 mm}", "2.4 mm, limit: 260 °C, shrinks_at: 327 °C}")
    for stock in (stands, STRIPS.replace("limit: 210 °C", "limit: 200 °C")):
        assert run("print", WREN, "wire-labels", "--stock", own(stock)).exit_code == 0


def test_a_wrap_without_room_for_print_is_found_on_its_line(run: Run) -> None:
    wrap = OWN.replace("label sheet", "label wraps").replace("tube: {expanded: 4.8 mm, recovered: 2.4 mm}\n", "")
    wrap = wrap.replace("{length: 55 mm, width: 7.6 mm}", "{length: 55 mm, printed: 4 mm, cover: 6 mm}")
    ran = run("print", WREN, "wire-labels", "--stock", own(wrap.replace("edges: 0.4 mm", "edges: 2 mm")))
    assert "own.yaml:8:" in ran.stderr


# The 65-up set of reference sheets: 38.1 × 21.2 mm from 4.75 and 10.7 mm, to within 11 mm of the foot.
FULL = """kind: label sheet
printer: thermal transfer
tube: {expanded: 4.8 mm, recovered: 2.4 mm}
paper: [210 mm, 297 mm]
margin: 4 mm
cells: {across: 5, down: 13, first: [4.75 mm, 10.7 mm], pitch: [40.6 mm, 21.2 mm]}
label: {length: 38.1 mm, width: 21.2 mm}
clear: {ends: 2 mm, edges: 1 mm}
"""


def test_head_and_foot_keep_off_the_labels(labels: Callable[..., list[PrintedPage]]) -> None:
    [page] = labels(WREN, "--stock", own(FULL))
    corners = list(cells(read(Path("own.yaml"))))
    unused = [Box(x, y, x + 38.1, y + 21.2).grown(-0.5) for x, y in corners[12:]]
    assert [box for box in unused if (page.cut(box) < 255).any()] == []


def test_a_file_that_is_no_stock_is_told(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", LAYOUTS / "list-a4.yaml")
    assert ran.exit_code == 1
    assert "no stock" in ran.stderr
    assert run("print", WREN, "wire-labels", "--stock", "carier-a4").exit_code == 2
