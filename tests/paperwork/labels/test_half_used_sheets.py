"""Labels in the order of the bench, on sheets that were begun, in copies, and those that were asked for."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from measured import Box, PrintedPage, cells, mm, read
from printed_labels import BENCH, FULMAR, LAYOUTS, WREN, Run, functions, labels_on, printed_on, said_on

pytestmark = pytest.mark.long


def test_labels_of_a_stock_with_cells_come_in_the_order_of_the_bench(
    labels: Callable[..., list[PrintedPage]],
) -> None:
    assert functions(labels(WREN, "--stock", "wraps-a4"), "wraps-a4") == BENCH


@pytest.mark.parametrize("stock", ["strips-a4", "carrier-a4"])
def test_labels_that_are_cut_out_stand_by_the_size_of_their_tube(
    labels: Callable[..., list[PrintedPage]], stock: str
) -> None:
    found = printed_on(labels(FULMAR, "--stock", stock), stock)
    sizes = [label.beside for label in found]
    assert [size for i, size in enumerate(sizes) if i == 0 or size != sizes[i - 1]] == list(dict.fromkeys(sizes))
    wide = [float(size.partition("-")[2].split()[0]) for size in dict.fromkeys(sizes) if "-" in size]
    assert wide == sorted(wide)
    # No row holds two sizes.
    rows: dict[tuple[int, float], set[str]] = {}
    for label in found:
        rows.setdefault((id(label.page), label.outline.top), set()).add(label.beside)
    assert all(len(sizes) == 1 for sizes in rows.values())


def test_the_first_label_goes_into_the_cell_told_and_others_are_drawn_faint(
    labels: Callable[..., list[PrintedPage]],
) -> None:
    [page] = labels(WREN, "--first", "3", "--stock", "wraps-a4")
    layout = read(LAYOUTS / "wraps-a4.yaml")
    said = [bool(label.copies[0]) for label in labels_on([page], layout)]
    assert said == [False] * 2 + [True] * 12 + [False]


@pytest.mark.parametrize("stock", ["strips-a4", "carrier-letter"])
def test_on_a_sheet_that_was_used_before_nothing_is_printed_above_or_before_the_cell_told(
    labels: Callable[..., list[PrintedPage]], stock: str
) -> None:
    layout = read(LAYOUTS / f"{stock}.yaml")
    corners, across = list(cells(layout)), layout["cells"]["across"]
    first = 20 * across + 2  # the second cell of the twenty-first row
    found = printed_on(labels(WREN, "--first", str(first), "--stock", stock), stock)
    assert len(found) == len(BENCH)
    x, y = corners[first - 1]
    assert (found[0].outline.left, found[0].outline.top) == pytest.approx((x, y), abs=0.02)
    assert min(label.outline.top for label in found) == pytest.approx(y, abs=0.02)


@pytest.mark.parametrize("stock", ["strips-a4", "carrier-a4"])
def test_the_sheet_says_from_where_on_it_is_free(labels: Callable[..., list[PrintedPage]], stock: str) -> None:
    pages = labels(WREN, "--stock", stock)
    first = re.search(r"free from here on: --first (\d+)", said_on(pages))
    assert first is not None
    used = max(label.outline.bottom for label in printed_on(pages, stock))
    free = list(cells(read(LAYOUTS / f"{stock}.yaml")))[int(first[1]) - 1]
    # Names stand 2.3 mm above labels; a row of cells is 5.3 mm high.
    assert used < free[1] - 2.3 < used + 5.3 + 1.5
    later = printed_on(labels(WREN, "--stock", stock, "--first", first[1]), stock)
    assert min(label.outline.top for label in later) > used


@pytest.mark.parametrize("stock", ["flags-a4", "wraps-a4", "carrier-4.8"])
def test_all_of_an_unused_label_is_faint(labels: Callable[..., list[PrintedPage]], stock: str) -> None:
    [page] = labels(WREN, "--first", "2", "--only", "rudder", "--stock", stock)
    layout = read(LAYOUTS / f"{stock}.yaml")
    length, height = layout_size(layout)
    for i, (x, y) in enumerate(cells(layout)):
        darkest = page.cut(Box(x - 0.5, y - 0.1, x + length + 0.5, y + height)).min()
        assert (darkest < 60) == (i in (1, 2)), f"cell {i + 1}"
        assert darkest < 220


def layout_size(layout: dict[str, Any]) -> tuple[float, float]:
    """Return how much of a sheet a label takes."""
    size = {name: mm(side) for name, side in layout["label"].items()}
    across = 2 * size["length"] + size["wrap"] if "wrap" in size else size["length"]
    return across, size.get("width") or size["printed"] + size["cover"]


@pytest.mark.parametrize(("stock", "first"), [("wraps-a4", "13"), ("strips-a4", "186")])
def test_a_sheet_that_is_begun_late_goes_on_on_the_next(
    labels: Callable[..., list[PrintedPage]], stock: str, first: str
) -> None:
    pages = labels(WREN, "--first", first, "--stock", stock)
    assert len(pages) == 2
    assert Counter(functions(pages, stock)) == Counter(BENCH)


@pytest.mark.parametrize(
    ("stock", "count"),
    # Across times down, as listed by `docgen stock`.
    [("carrier-a4", "117 labels"), ("strips-letter", "195 labels"), ("wraps-a4", "15 labels"), ("tape-9", "1 label")],
)
def test_a_first_label_beyond_the_sheet_is_wrong_use(run: Run, stock: str, count: str) -> None:
    last = int(count.split(maxsplit=1)[0])
    assert run("print", WREN, "wire-labels", "--stock", stock, "--first", last).exit_code == 0
    Path("out/wren/wire-labels.pdf").unlink()
    ran = run("print", WREN, "wire-labels", "--stock", stock, "--first", last + 1)
    assert ran.exit_code == 2
    assert f"--first {last + 1}" in ran.stderr
    assert f"has {count}." in ran.stderr
    assert not Path("out/wren/wire-labels.pdf").exists()


def test_copies_of_a_label_stand_side_by_side(labels: Callable[..., list[PrintedPage]]) -> None:
    found = functions(labels(WREN, "--copies", "3", "--stock", "wraps-a4"), "wraps-a4")
    assert found == [name for name in BENCH for _ in range(3)]
    assert len(functions(labels(WREN, "--copies", "2"))) == 2 * len(BENCH)


def test_copies_on_tape_are_pages(labels: Callable[..., list[PrintedPage]]) -> None:
    # The tape's tube of 5.73 mm shrinks to 1.91 mm: it grips all leads of wren, the thinnest 2.95 mm.
    assert len(labels(WREN, "--stock", "tape-9", "--copies", "2")) == 2 * 12


@pytest.mark.parametrize(
    ("words", "printed"),
    [
        (["--only", "rudder"], {"RUD": 2}),
        (["--only", "rudder", "--only", "left-aileron"], {"RUD": 2, "AIL L": 4}),
        # At the tray: supply, two ailerons and the rudder end at the receiver.
        (["--only-place", "radio-tray"], {"RX BATT": 1, "AIL L": 1, "AIL R": 1, "RUD": 1}),
        (["--only-place", "left-root", "--only-place", "tail-post"], {"AIL L": 1, "RUD": 1}),
        (["--only", "left-aileron", "--only-place", "left-panel-root"], {"AIL L": 1}),
    ],
)
def test_only_the_labels_asked_for_are_printed(
    labels: Callable[..., list[PrintedPage]], words: list[str], printed: dict[str, int]
) -> None:
    assert Counter(functions(labels(WREN, *words))) == printed


def test_a_selection_that_holds_nothing_is_no_error(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--only", "rudder", "--only-place", "left-root")
    assert ran.exit_code == 0
    assert "no label is of rudder and at left-root" in ran.stderr
    assert "nothing to show" in ran.stderr


@pytest.mark.parametrize(
    ("option", "name", "offered"),
    [
        ("--only", "ruder", "rudder"),
        ("--only", "left-ailerons", "left-aileron"),
        ("--only-place", "tailpost", "tail-post"),
        ("--only-place", "radio-try", "radio-tray"),
    ],
)
def test_an_unknown_name_is_wrong_use_and_the_nearest_is_offered(
    run: Run, option: str, name: str, offered: str
) -> None:
    ran = run("print", WREN, "wire-labels", option, name)
    assert ran.exit_code == 2
    assert f"'{name}'" in ran.stderr
    assert f"'{offered}'" in ran.stderr
    assert list(Path().iterdir()) == []


@pytest.mark.parametrize("words", [["--first", "0"], ["--copies", "0"], ["--copies", "two"]])
def test_what_is_no_count_is_wrong_use(run: Run, words: list[str]) -> None:
    assert run("print", WREN, "wire-labels", *words).exit_code == 2
