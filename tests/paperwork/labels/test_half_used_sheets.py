"""Labels in the order of the bench, on sheets that were begun, in copies, and those that were asked for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from measured import Box, PrintedPage, cells, mm, read
from printed_labels import BENCH, LAYOUTS, WREN, Run, functions


def test_labels_come_in_the_order_of_the_bench(labels: Callable[..., list[PrintedPage]]) -> None:
    assert [name for name in functions(labels(WREN), "carrier-a4") if name] == BENCH


def test_the_first_label_goes_into_the_cell_told_and_others_are_drawn_faint(
    labels: Callable[..., list[PrintedPage]],
) -> None:
    [page] = labels(WREN, "--first", "6")
    assert functions([page], "carrier-a4") == [*[None] * 5, *BENCH, *[None] * 11]
    layout = read(LAYOUTS / "carrier-a4.yaml")
    corners = list(cells(layout))
    for i in (*range(5), *range(17, 28)):
        x, y = corners[i]
        outline = Box(x, y, x + mm(layout["label"]["length"]), y + mm(layout["label"]["width"]))
        assert page.off_outline_mm(outline) < 0.1, f"cell {i + 1}"
        inner = page.cut(outline.grown(-0.5))
        assert (inner == 255).all()
        # Faint: seen, and far from black.
        assert 110 < page.cut(outline._replace(bottom=y + 0.2)).min() < 220


@pytest.mark.parametrize("stock", ["flags-a4", "wraps-a4", "strips-a4", "carrier-4.8"])
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


def test_a_sheet_that_is_begun_late_goes_on_on_the_next(labels: Callable[..., list[PrintedPage]]) -> None:
    pages = labels(WREN, "--first", "25")
    assert len(pages) == 2
    assert functions(pages, "carrier-a4") == [*[None] * 24, *BENCH, *[None] * 20]


@pytest.mark.parametrize(
    ("stock", "count"),
    # Across times down, as listed by `docgen stock`.
    [("carrier-a4", "28 labels"), ("strips-letter", "60 labels"), ("wraps-a4", "15 labels"), ("tape-9", "1 label")],
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
    found = [name for name in functions(labels(WREN, "--copies", "3"), "carrier-a4") if name]
    assert found == [name for name in BENCH for _ in range(3)]


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
    assert Counter(name for name in functions(labels(WREN, *words), "carrier-a4") if name) == printed


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
