"""Take groups of pieces; return a row for each piece, as comma-separated values."""

from __future__ import annotations

import csv
import io

from docgen.basics.units import millimetres
from docgen.paperwork.cut_list.content import CutContent

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def as_csv(items: CutContent) -> str:
    """Return the pieces as comma-separated values (RFC 4180).

    No cell begins as a formula of a spreadsheet does: one that would gets an apostrophe before it.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(("colour", "gauge", "length_mm", "mark", "function", "from", "to", "spool"))
    for group in items.groups:
        for piece, spool in zip(group.pieces, group.spools, strict=True):
            cells = [group.colour, group.gauge.text, millimetres(piece.length_mm), piece.mark or "tail"]
            cells += [piece.function, piece.start, piece.goal, spool]
            writer.writerow([f"'{cell}" if cell[:1] in _FORMULA else cell for cell in cells])
    return text.getvalue()
