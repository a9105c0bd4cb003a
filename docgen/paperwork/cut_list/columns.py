"""Take what stands in the columns of a table of the cut list; return the table, whose lengths all end at one edge."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from docgen.basics.frozen import frozen
from docgen.paperwork.page_kit.cells import Bracket, Cell, Tick
from docgen.paperwork.page_kit.tables import Column, Row, Table, table

INDENT_MM = 5.0  # of all rows, so that the strips of colour stand before them


@frozen
class Listing:
    """Tables in columns of one width: a length or a count first, a box to tick last."""

    room_mm: float
    longest: str

    def table(self, first: str, columns: Sequence[Column], rows: Sequence[Row], height_mm: float = 2.5) -> Table:
        """Return a table for these rows with more columns between; lengths may be higher than counts."""
        every = [Column(first, height_mm, 2.5, True, "right"), Column(""), *columns]
        like = Row((self.longest, Bracket(opens=True, closes=True), *("" for _ in columns), Tick()))
        return table([*every, Column("")], [like, *rows], self.room_mm, indent_mm=INDENT_MM)


def rows_of(firsts: Sequence[str], others: Sequence[Sequence[Cell]]) -> list[Row]:
    """Return rows with what stands first in them, equal ones that follow each other in a bracket; nothing is not."""
    alike = [False, *(one == other != "" for one, other in pairwise(firsts)), False]
    brackets = [
        Bracket(opens=not above, closes=not below) if above or below else "" for above, below in pairwise(alike)
    ]
    return [
        Row((first, bracket, *cells, Tick())) for first, bracket, cells in zip(firsts, brackets, others, strict=True)
    ]
