"""A stock of one's own: printed where it says, and its errors found on their line."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest
from measured import Box, PrintedPage, cells, read
from printed_labels import LAYOUTS, OWN, WREN, Run, own


def test_a_stock_of_one_s_own_is_printed_where_it_says(labels: Callable[..., list[PrintedPage]]) -> None:
    [page] = labels(WREN, "--stock", own(OWN))
    assert (page.width_mm, page.height_mm) == pytest.approx((148, 210), abs=0.01)
    for i, (x, y) in enumerate(cells(read(Path("own.yaml")))):
        # Ten of twelve labels fit the tube, π × 4.8 / 2 = 7.54 mm flat; the other cells are as large as told.
        height = 7.54 if i < 10 else 7.6
        assert page.off_outline_mm(Box(x, y, x + 55, y + height)) < 0.1


@pytest.mark.parametrize(
    ("old", "new", "line", "name"),
    [
        ("margin: 8 mm", "margin: 8", 4, "unit"),
        ("margin: 8 mm\n", "", 2, "missing"),
        ("across: 2", "across: two", 6, "value"),
        ("label: {length", "label: {colour: RD, length", 7, "key"),
        ("kind: label sheet", "kind: label", 2, "value"),
        ("first: [12 mm, 20 mm]", "first: [12 mm]", 6, "value"),
        ("edges: 0.4 mm}", "edges: 0.4 mm", 9, "syntax"),
        ("recovered: 2.4 mm", "recovered: thin", 5, "value"),
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
        assert told[0][0] >= 8
    else:
        assert told[0][1] in (name, "unit")
        assert told[0][0] == line
    assert not Path("out").exists()


@pytest.mark.parametrize(
    ("old", "new", "line", "says"),
    [
        # 12 + 64 + 80 = 156 mm on a paper of 148 mm, and 80 mm at a pitch of 64 mm.
        ("length: 55 mm", "length: 80 mm", 6, "8.0 mm over the paper's edge across"),
        ("length: 55 mm", "length: 80 mm", 6, "run into each other"),
        # 20 + 19 × 12 + 7.6 = 255.6 mm of 210 mm.
        ("down: 8", "down: 20", 6, "45.6 mm over the paper's edge down"),
        ("pitch: [64 mm, 12 mm]", "pitch: [64 mm, 7 mm]", 6, "run into each other"),
        ("ends: 2 mm", "ends: 27.5 mm", 8, "nothing of a label is left"),
        # π × 19.1 / 2 = 30.0 mm flat on 7.6 mm of carrier: two and a half rows of 12 mm.
        ("expanded: 4.8 mm", "expanded: 19.1 mm", 5, "30.0 mm flat is wider than its label of 7.6 mm"),
        ("recovered: 2.4 mm", "recovered: 4.9 mm", 5, "does not shrink"),
    ],
)
def test_sizes_that_do_not_fit_are_found_on_their_line(run: Run, old: str, new: str, line: int, says: str) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", own(OWN.replace(old, new)))
    told = re.findall(r"own\.yaml:(\d+):\d+: caution stock: (.*)", ran.stderr)
    assert any(int(at) == line and says in sentence for at, sentence in told), ran.stderr
    assert not Path("out/wren/wire-labels.pdf").exists()


# Plain carriers and strips, whose cells follow each other without a gap or with the one that is told.
CLOSE = OWN.replace("tube: {expanded: 4.8 mm, recovered: 2.4 mm}\n", "")
CLOSE = CLOSE.replace("pitch: [64 mm, 12 mm]", "pitch: [55 mm, 12 mm]")
STRIPS = CLOSE.replace("label sheet", "label strips")


@pytest.mark.parametrize("width", ["12 mm", "10.2 mm", "11.5 mm", "9.8 mm", "9.7 mm", "9.5 mm"])
@pytest.mark.parametrize("stock", [CLOSE, STRIPS])
@pytest.mark.parametrize(
    "first", ["20 mm", "7 mm", *(pytest.param(f"{at} mm", marks=pytest.mark.long) for at in (14, 12))]
)
def test_labels_close_to_each_other_keep_their_marks_to_themselves(
    labels: Callable[..., list[PrintedPage]], stock: str, width: str, first: str
) -> None:
    text = stock.replace("width: 7.6 mm", f"width: {width}").replace("[12 mm, 20 mm]", f"[12 mm, {first}]")
    [page] = labels(WREN, "--stock", own(text), "--only", "rudder", "--only", "left-aileron")
    texts = [text for text in page.texts if text.box.top < 120]
    overlapping = [(a.text, b.text) for a, b in combinations(texts, 2) if a.box.overlaps(b.box, by_mm=0.02)]
    assert overlapping == []
    assert sum("shrink-" in text.text or "clear-" in text.text for text in texts) == 6
    # No mark reaches into the label beside: a strip's 0.3 mm at its outline apart, its clear ends are free of ink.
    for x, y in cells(read(Path("own.yaml"))):
        ends = [Box(x + 0.3, y + 0.3, x + 1.7, y + 9), Box(x + 53.3, y + 0.3, x + 54.7, y + 9)]
        ink = [page.ink_outside(end, [text.box.grown(0.1) for text in page.texts]) for end in ends]
        assert ink == [[], []]


@pytest.mark.parametrize(("pitch", "fits"), [("12 mm", True), ("9.9 mm", True), ("8 mm", False)])
def test_a_label_beside_which_its_tube_s_name_has_no_room_is_found(run: Run, pitch: str, fits: bool) -> None:
    # A tube of 4.8 mm is 7.54 mm flat on labels of 7.6 mm. At a pitch of 8 mm there are 0.4 mm for the name below it.
    text = CLOSE.replace("pitch: [55 mm, 12 mm]", f"pitch: [55 mm, {pitch}]").replace(
        "[12 mm, 20 mm]", "[12 mm, 10 mm]"
    )
    ran = run("print", WREN, "wire-labels", "--stock", own(text), "--only", "rudder")
    assert ("shrink-4.8 is 7.5 mm flat, the stock holds" in ran.stderr) != fits


def test_a_wrap_without_room_for_print_is_found_on_its_line(run: Run) -> None:
    wrap = OWN.replace("label sheet", "label wraps").replace("tube: {expanded: 4.8 mm, recovered: 2.4 mm}\n", "")
    wrap = wrap.replace("{length: 55 mm, width: 7.6 mm}", "{length: 55 mm, printed: 4 mm, cover: 6 mm}")
    ran = run("print", WREN, "wire-labels", "--stock", own(wrap.replace("edges: 0.4 mm", "edges: 2 mm")))
    assert "own.yaml:7:" in ran.stderr


# The 65-up set of reference sheets: 38.1 × 21.2 mm from 4.75 and 10.7 mm, to within 11 mm of the foot.
FULL = """kind: label sheet
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
