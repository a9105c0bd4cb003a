"""Take groups of pieces; return a row for each piece, as comma-separated values."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.units import millimetres
from docgen.paperwork.cut_list.content import CutContent
from docgen.paperwork.values import comma_separated


def as_csv(items: CutContent) -> str:
    """Return the pieces as comma-separated values (RFC 4180)."""
    return comma_separated((("colour", "gauge", "length_mm", "mark", "function", "from", "to", "spool"), *_rows(items)))


def _rows(items: CutContent) -> Iterator[list[str]]:
    for group in items.groups:
        for piece, spool in zip(group.pieces, group.spools, strict=True):
            cells = [group.colour, group.gauge.text, millimetres(piece.length_mm), piece.mark or "tail"]
            yield [*cells, piece.function, piece.start, piece.goal, spool]
