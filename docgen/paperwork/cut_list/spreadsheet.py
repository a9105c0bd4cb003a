"""Take groups of pieces; return what is said of each in a row, and all rows as comma-separated values."""

from __future__ import annotations

import csv
import io

from docgen.basics.units import millimetres
from docgen.harness.assembly.spools import Cut
from docgen.paperwork.cut_list.content import CutContent
from docgen.paperwork.cut_list.pieces import Group

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def rows_of(group: Group) -> list[tuple[str, ...]]:
    """Return for each piece its length, mark, function, both ends, and the spool that it comes off."""
    cut_of = group.cut_of
    return [
        (
            millimetres(piece.length_mm),
            piece.mark or "tail",
            piece.function,
            piece.start,
            piece.goal,
            _spool(cut_of.get(index)),
        )
        for index, piece in enumerate(group.pieces)
    ]


def _spool(cut: Cut | None) -> str:
    if cut is None:
        return ""
    return f"buy {cut.number}" if cut.bought else str(cut.number)


def as_csv(items: CutContent) -> str:
    """Return the pieces as comma-separated values (RFC 4180).

    No cell begins as a formula of a spreadsheet does: one that would gets an apostrophe before it.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(("colour", "gauge", "length_mm", "mark", "function", "from", "to", "spool"))
    for group in items.groups:
        for row in rows_of(group):
            cells = group.colour, group.gauge.text, *row
            writer.writerow([f"'{cell}" if cell[:1] in _FORMULA else cell for cell in cells])
    return text.getvalue()
