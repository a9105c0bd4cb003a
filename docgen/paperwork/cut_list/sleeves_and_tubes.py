"""What else is cut for a harness besides wire: sleeves and the tubes of labels."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from docgen.basics.units import decimal, millimetres
from docgen.harness.bundling.sleeves import LABEL_MM, sleeves_of
from docgen.harness.bundling.tubes import choose_tube
from docgen.harness.model.harness import Harness
from docgen.paperwork.labels.wire_labels import LabelItem
from docgen.paperwork.typesetting.ink import MIDDLE_MM, Box, Ink, rectangle
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

ROW_MM = 7.0
TICK_MM = 4.0


@dataclass(frozen=True)
class SleevePiece:
    """One piece of a sleeve: what it is cut to, and the places that it lies between."""

    key: tuple[str, ...]
    length_mm: float
    sleeve: str
    kind: str
    start: str
    goal: str
    over: str


@dataclass(frozen=True)
class TubePieces:
    """How many label tubes of one size are cut, each `length_mm` long."""

    tube: str
    expanded_mm: float
    pieces: int
    length_mm: float


def sleeve_pieces(harness: Harness) -> tuple[SleevePiece, ...]:
    """Return the pieces of sleeves, by part in the order of the parts list, longest first."""
    order = {kind.name: i for i, kind in enumerate(harness.sleeves)}
    pieces = []
    for sleeve in sleeves_of(harness.bundles):
        over = f"{sleeve.diameter_mm:.1f} mm of wires"
        start, goal = sleeve.ends
        key = (sleeve.kind.name, *sleeve.ends)
        pieces.append(SleevePiece(key, sleeve.cut_length_mm, sleeve.kind.name, sleeve.kind.kind, start, goal, over))
    return tuple(sorted(pieces, key=lambda piece: (order[piece.sleeve], -piece.length_mm)))


def tube_pieces(harness: Harness, labels: Iterable[LabelItem]) -> tuple[TubePieces, ...]:
    """Return how many tubes the labels want of each size, as on the usual sheets; the narrowest first."""
    counts: dict[str, int] = {}
    for label in labels:
        kind = None if label.plug_is_on else choose_tube(label.passes_mm, label.grips_mm, harness.tubes, label.heat_c)
        if kind is not None:
            counts[kind.name] = counts.get(kind.name, 0) + 1
    return tuple(
        TubePieces(kind.name, kind.expanded_mm, counts[kind.name], LABEL_MM)
        for kind in harness.tubes
        if kind.name in counts
    )


def add_sleeves(writer: PageWriter, pieces: tuple[SleevePiece, ...]) -> None:
    """Add the table of sleeves."""
    if not pieces:
        return
    writer.space(5)
    title = "Sleeves"
    writer.heading(title, LARGE_MM, keep_mm=3 * ROW_MM)
    writer.paragraph("They shorten as they open over the wires; cut lengths allow for it.", SMALL_MM)
    columns = [
        Column("cut, mm", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("sleeve", PLAIN_MM, gives=True),
        Column("kind", PLAIN_MM, gives=True),
        Column("from", PLAIN_MM, gives=True),
        Column("to", PLAIN_MM, gives=True),
        Column("over", PLAIN_MM),
        Column("cut", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    rows = [(millimetres(p.length_mm), p.sleeve, p.kind, p.start, p.goal, p.over, "") for p in pieces]
    writer.table(columns, rows, TableStyle(ROW_MM), title, tick)


def add_tubes(writer: PageWriter, tubes: tuple[TubePieces, ...]) -> None:
    """Add the table of label tubes."""
    if not tubes:
        return
    writer.space(5)
    title = "Tubes for the labels"
    writer.heading(title, LARGE_MM, keep_mm=3 * ROW_MM)
    columns = [
        Column("pieces", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("tube", PLAIN_MM),
        Column("inside, mm", PLAIN_MM, align="right"),
        Column("each, mm", PLAIN_MM, align="right"),
        Column("together, m", PLAIN_MM, align="right"),
        Column("cut", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    rows = [
        (
            str(tube.pieces),
            tube.tube,
            decimal(tube.expanded_mm),
            decimal(tube.length_mm),
            f"{tube.pieces * tube.length_mm / 1000:.2f}",
            "",
        )
        for tube in tubes
    ]
    writer.table(columns, rows, TableStyle(ROW_MM), title, tick)


def tick(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:  # noqa: ARG001 - every row has the same box
    """Return the box to tick in the last column."""
    cell = cells[-1]
    return [rectangle(Box(cell.x_mm + 0.5, cell.y_mm + (ROW_MM - TICK_MM) / 2, TICK_MM, TICK_MM), MIDDLE_MM)]
