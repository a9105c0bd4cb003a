"""Read a stock, one that came with the program or a file of the builder's own; `KINDS` names all kinds."""

from __future__ import annotations

import textwrap
from pathlib import Path

from docgen.basics.findings import Finding, Position, Refused
from docgen.basics.locate import position_of
from docgen.paperwork.layouts.forms import Layout
from docgen.paperwork.layouts.reading import PAGES, read_form, read_shipped, shipped_names
from docgen.paperwork.stocks.carrier import Carrier
from docgen.paperwork.stocks.findings import STOCK
from docgen.paperwork.stocks.flags import Flags
from docgen.paperwork.stocks.pieces import Pieces
from docgen.paperwork.stocks.stock import PRINTERS, LabelStock
from docgen.paperwork.stocks.strips import Strips
from docgen.paperwork.stocks.tape import Tape
from docgen.paperwork.stocks.wraps import Wraps

KINDS: dict[str, type[LabelStock]] = {
    "label strips": Strips,
    "label carrier": Carrier,
    "label sheet": Pieces,
    "label wraps": Wraps,
    "label flags": Flags,
    "label tape": Tape,
}

_HAND = (
    "White tube, written on with a marker or printed on tape and put under clear tube. A marker's ink survives neither "
    "fuel nor handling for long."
)


def stock_names() -> list[str]:
    """Return the names of the stocks that came with the program."""
    return shipped_names(KINDS)


def list_stocks() -> str:
    """Return the stocks that came with the program by what prints on them: what each is, how it goes on, what becomes.

    Stocks of which the same is said share it.
    """
    stocks = {name: read_shipped(name, KINDS) for name in stock_names()}
    width = max(len(name) for name in stocks)
    lines: list[str] = []
    for printer, says in PRINTERS.items():
        told: dict[str, list[str]] = {}
        for name, stock in stocks.items():
            if stock.printer == printer:
                how = f"{stock.warns} {stock.use.format(slid_on='before crimping')}. {stock.outcome}"
                told.setdefault(how, []).append(f"  {name.ljust(width)}  {stock.says}")
        if told:
            lines += [f"{says}:", *(line for how, some in told.items() for line in (*some, *_indented(how)))]
    return "\n".join(
        [*lines, f"{PRINTERS['hand']}, or on a tape printer with keys: print label-list.", *_indented(_HAND)]
    )


def _indented(text: str) -> list[str]:
    return textwrap.wrap(text, 96, initial_indent="      ", subsequent_indent="      ")


def read_stock(stock: str | Path, flat_mm: float | None = None) -> tuple[LabelStock | None, list[Finding]]:
    """Return a stock by its name or from a file, or what is wrong with it; `flat_mm` is measured on its tube."""
    read, findings = _read_file(stock) if isinstance(stock, Path) else (read_shipped(stock, KINDS), [])
    if read is None or flat_mm is None:
        return read, findings
    try:
        return read.measured(flat_mm), []
    except Refused as refused:
        return None, [STOCK.at(Position(str(stock), 1, 1), refused.sentence, refused.do)]


def _read_file(path: Path) -> tuple[LabelStock | None, list[Finding]]:
    """Return the stock in a file, or what is wrong with it: sizes that do not go together too."""
    known: dict[str, type[Layout]] = {**PAGES, **KINDS}
    read, node, findings = read_form(path, str(path), known)
    if read is None or node is None:
        return None, findings
    if not isinstance(read, LabelStock):
        sentence = "this layout is no stock for labels."
        return None, [Finding(Position(str(path), 1, 1), "value", sentence, "Name a label stock.")]
    found = [STOCK.at(position_of(node, of.path), of.sentence, of.do, ("layout", "")) for of in read.misfits()]
    burns = read.burns()
    found += [burns.at(position_of(node, burns.path))] if burns is not None else []
    return (None if found else read), found
