"""List the label stocks that come with the program."""

from __future__ import annotations

from docgen.paperwork.layouts import (
    STOCK_KINDS,
    LabelFlags,
    LabelSheet,
    LabelStock,
    LabelStrips,
    LabelTape,
    LabelWraps,
    PageLayout,
    layout_names,
    read_layout,
)


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
        return f"shrink tape {stock.width:g} mm wide, {stock.shrinks:g}:1, one label a page"
    if isinstance(stock, LabelSheet):
        tube = f"tube of {stock.tube.expanded:g} mm" if stock.tube else f"any tube up to {stock.label.width:g} mm flat"
        what = f"carrier sheet for {tube}, {stock.label.length:g} mm long"
    elif isinstance(stock, LabelStrips):
        what = f"strips of paper for under clear tube, {stock.label.length:g} × {stock.label.width:g} mm at most"
    elif isinstance(stock, LabelWraps):
        size = stock.label
        what = f"wrap-round labels {size.length:g} mm along the wire, {size.printed:g} printed and {size.cover:g} clear"
    else:
        assert isinstance(stock, LabelFlags)
        what = f"flags of two {stock.label.length:g} × {stock.label.width:g} mm, {stock.label.wrap:g} mm round the wire"
    paper = " × ".join(f"{side:g}" for side in stock.paper)
    return f"{what}; {stock.cells.across} × {stock.cells.down} on {paper} mm"
