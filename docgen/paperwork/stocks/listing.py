"""List the label stocks that come with the program."""

from __future__ import annotations

from docgen.basics.units import decimal
from docgen.paperwork.stocks.layouts import (
    STOCK_KINDS,
    LabelFlags,
    LabelSheet,
    LabelStock,
    LabelStrips,
    LabelTape,
    LabelWraps,
    PageLayout,
)
from docgen.paperwork.stocks.reading import layout_names, read_layout


def list_stocks() -> str:
    """Return all stocks, a line each: name, what they are, how many labels of which size."""
    rows = []
    for name in layout_names(STOCK_KINDS):
        layout, _ = read_layout(name)
        if layout is not None and not isinstance(layout, PageLayout):
            rows.append((name, _says(layout)))
    width = max(len(name) for name, _ in rows)
    return "\n".join(f"{name.ljust(width)}  {says}" for name, says in rows)


def _says(stock: LabelStock) -> str:
    if isinstance(stock, LabelTape):
        return f"shrink tape {decimal(stock.width)} mm wide, {decimal(stock.shrinks)}:1, one label a page"
    if isinstance(stock, LabelSheet):
        tube = (
            f"tube of {decimal(stock.tube.expanded)} mm"
            if stock.tube
            else f"any tube up to {decimal(stock.label.width)} mm flat"
        )
        what = f"carrier sheet for {tube}, {decimal(stock.label.length)} mm long"
    elif isinstance(stock, LabelStrips):
        what = (
            f"strips of paper for under clear tube, {decimal(stock.label.length)} × "
            f"{decimal(stock.label.width)} mm at most"
        )
    elif isinstance(stock, LabelWraps):
        size = stock.label
        what = (
            f"wrap-round labels {decimal(size.length)} mm along the wire, {decimal(size.printed)} printed "
            f"and {decimal(size.cover)} clear"
        )
    else:
        assert isinstance(stock, LabelFlags)
        what = (
            f"flags of two {decimal(stock.label.length)} × {decimal(stock.label.width)} mm, "
            f"{decimal(stock.label.wrap)} mm round the wire"
        )
    paper = " × ".join(decimal(side) for side in stock.paper)
    return f"{what}; {stock.cells.across} × {stock.cells.down} on {paper} mm"
