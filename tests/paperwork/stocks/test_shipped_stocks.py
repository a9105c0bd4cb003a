"""`docgen stock`: the stocks that are there."""

from __future__ import annotations

from measured import mm, read
from printed_labels import LAYOUTS, Run

from docgen.paperwork.stocks.reading import read_stock, stock_names


def test_all_stocks_are_listed_with_what_they_are(run: Run) -> None:
    listed = run("stock")
    assert (listed.exit_code, listed.stderr) == (0, "")
    lines = {line.split()[0]: line for line in listed.stdout.splitlines()}
    assert lines.keys() == {path.stem for path in LAYOUTS.glob("*.yaml") if "label" in str(read(path)["kind"])}
    for name, line in lines.items():
        layout = read(LAYOUTS / f"{name}.yaml")
        if "cells" in layout:
            assert f"{layout['cells']['across']} × {layout['cells']['down']} on " in line
        else:
            assert f"{mm(layout['width']):g} mm" in line


def test_the_usual_stocks_are_there() -> None:
    every = [read(path) for path in LAYOUTS.glob("*.yaml")]
    tapes = {mm(layout["width"]) for layout in every if layout["kind"] == "label tape"}
    assert tapes == {6, 9, 12, 18, 24}
    for kind in ("label sheet", "label strips", "label wraps", "label flags"):
        papers = {tuple(sorted(mm(side) for side in layout["paper"])) for layout in every if layout["kind"] == kind}
        # Letter is 8.5 × 11 in.
        assert {tuple(round(side, 2) for side in paper) for paper in papers} == {(210, 297), (215.9, 279.4)}


def test_the_sizes_of_every_stock_go_together() -> None:
    read_again = {name: read_stock(LAYOUTS / f"{name}.yaml") for name in stock_names()}
    assert [name for name, (stock, found) in read_again.items() if stock is None or found] == []
