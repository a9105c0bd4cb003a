"""`docgen stock`: the stocks that are there."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from measured import mm, read
from printed_labels import LAYOUTS, WREN, Run, said_on

from docgen.paperwork.stocks.reading import read_stock, stock_names

if TYPE_CHECKING:
    from measured import PrintedPage


STOCKS = {path.stem: read(path) for path in LAYOUTS.glob("*.yaml") if "label" in str(read(path)["kind"])}
# What prints on them, as it is said, and which go through a printer that may fuse print.
SAID = {
    "any": "any printer that takes sheets",
    "sheet": "ink or laser printer",
    "thermal transfer": "thermal transfer printer",
    "tape": "tape printer",
}
FUSES = {"any", "sheet"}


def test_all_stocks_are_listed_below_what_prints_on_them(run: Run) -> None:
    listed = run("stock")
    assert (listed.exit_code, listed.stderr) == (0, "")
    lines, below = listed.stdout.splitlines(), {}
    for line in lines:
        if line[:1].strip():
            printer = line.rstrip(":")
        elif line.split()[0] in STOCKS:
            below[line.split()[0]] = (printer, line)
    assert below.keys() == STOCKS.keys()
    for name, (printer, line) in below.items():
        layout = STOCKS[name]
        assert printer == SAID[layout["printer"]]
        if "cells" in layout and layout["kind"] not in ("label strips", "label carrier"):
            assert f"{layout['cells']['across']} × {layout['cells']['down']} on " in line
        elif "width" in layout:
            assert f"{mm(layout['width']):g} mm" in line


def test_of_every_kind_it_is_said_how_it_goes_on_and_what_it_survives(run: Run) -> None:
    said = run("stock").stdout
    told = re.findall(r"(?:^ {6}\S.*\n?)+", said, re.MULTILINE)
    assert len(told) == len({layout["kind"] for layout in STOCKS.values()}) + 1  # and by hand
    assert all(re.search(r"surviv", part, re.IGNORECASE) and re.search(r"\bfuel\b", part) for part in told)
    assert said.index("any printer") < said.index("ink or laser printer:") < said.index("label-list")


@pytest.mark.parametrize("name", STOCKS)
def test_what_passes_a_fuser_stands_200_degrees_and_no_tube_does(name: str) -> None:
    # What a laser printer fuses at: common practice, no source.
    layout = STOCKS[name]
    tube = layout.get("tube", layout)
    if layout["printer"] in FUSES:
        assert layout["kind"] in ("label strips", "label wraps", "label flags")
        assert float(layout["limit"].split()[0]) >= 200
    elif layout["kind"] != "label carrier":  # what tube that takes is in the parts list, at most 135 °C
        assert min(float(tube[key].split()[0]) for key in ("limit", "shrinks_at")) < 200
    stock, _ = read_stock(LAYOUTS / f"{name}.yaml")
    assert stock is not None
    assert stock.burns() is None
    assert (stock.model_copy(update={"printer": "sheet"}).burns() is None) == (layout["printer"] in FUSES)


def test_the_first_line_of_a_sheet_of_tube_says_that_no_laser_printer_takes_it(
    labels: Callable[..., list[PrintedPage]],
) -> None:
    for name in ("carrier-a4", "carrier-4.8"):
        first = sorted(labels(WREN, "--stock", name)[0].texts, key=lambda text: text.base_mm)[1]
        assert "not through a laser printer: the tube shrinks there" in first.text
    assert "First pass on paper alone" in said_on(labels(WREN, "--stock", "carrier-a4"))
    usual = sorted(labels(WREN)[0].texts, key=lambda text: text.base_mm)[1]
    assert "never on thermal paper" in usual.text


def test_the_usual_stocks_are_there() -> None:
    assert {mm(layout["width"]) for layout in STOCKS.values() if layout["kind"] == "label tape"} == {6, 9, 12, 18, 24}
    for kind in ("label carrier", "label strips", "label wraps", "label flags"):
        every = [layout for layout in STOCKS.values() if layout["kind"] == kind]
        papers = {tuple(round(mm(side), 2) for side in layout["paper"]) for layout in every}
        # Letter is 8.5 × 11 in.
        assert papers == {(210, 297), (215.9, 279.4)}


def test_the_sizes_of_every_stock_go_together() -> None:
    assert stock_names() == sorted(stock_names())
    read_again = {name: read_stock(LAYOUTS / f"{name}.yaml") for name in stock_names()}
    assert [name for name, (stock, found) in read_again.items() if stock is None or found] == []
