"""Take what the ring-out sheet holds; return its pages: a row for each wire, boxes to tick, and what must not ring."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise

from docgen.basics.units import decimal
from docgen.harness.continuity.isolation import Isolation
from docgen.harness.continuity.readings import ALIKE_MV, HEAVY_A, OVER_HEAVY_MV, OVER_MV, Chain, Pair, Reading
from docgen.paperwork.bench.ring_out_content import RingOutContent
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.typesetting.boxes import ROW_MM, TICK_MM, box_in, tick_box
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import FAINT, THIN_MM, Box, Ink, Line
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.title_block import TitleBlock, record_foot
from docgen.paperwork.typesetting.typeface import HUGE_MM, LARGE_MM, PLAIN_MM, SMALL_MM
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

STEM = "ring-out-sheet"
CAUTION = "Nothing with electronics plugged in. Bench supply set to 1 A and 2 V before it is connected."
FIRST = "Everything with electronics unplugged"
_SUPPLY = "Bench supply set to 1 A and 2 V before it is connected."
_HOW = (
    "Tick a row when the meter shows continuity. Then let 1 A through the same two contacts, measure at the contacts "
    "themselves, inside the supply's clips, and write down the millivolts. Expected is copper at 20 °C at its cut "
    f"length with the joints between. Over the last figure a crimp is bad: {decimal(OVER_MV)} mV over the expected, "
    f"{decimal(OVER_HEAVY_MV)} mV where every contact bears {decimal(HEAVY_A)} A or more (common practice, no "
    "source). Wires of "
    f"which as much is expected, in one lead or in mirror leads, read within {decimal(ALIKE_MV)} mV of each other."
)
_READING_MM, _READING_HIGH_MM = 18.0, 5.5
_STYLE = TableStyle(ROW_MM, rule_every=0, key_column=1)
_BOX = Column("", PLAIN_MM, fixed_mm=TICK_MM + 1)
_PAIRS_A_LINE, _PAIR_MM, _ACROSS_A_LINE = 6, 12.0, 2

_Cells = tuple[int | str, tuple[str, ...]]  # what a row belongs to, and its texts


def compose(items: RingOutContent, layout: PageLayout, title_block: TitleBlock) -> Composed:
    """Return the pages of the ring-out sheet."""
    if not items.leads:
        return Composed([])
    writer = PageWriter(layout.paper, layout.margin, record_foot(title_block, CAUTION))
    writer.heading(FIRST, HUGE_MM)
    writer.heading(f"{_SUPPLY} Ring-out sheet · {title_block.aircraft}", PLAIN_MM)
    writer.paragraph(_HOW, SMALL_MM)
    leads = {assembly: list(_lead_cells(items, assembly)) for assembly in items.assemblies}
    paths: list[_Cells] = [
        (path.leads[0].circuit, _cells(items, reading.role, path.leads[0].circuit, reading))
        for path in items.paths
        for reading in path.readings
    ]
    every = [cells for rows in (*leads.values(), paths) for _, cells in rows]
    for assembly, rows in leads.items():
        _table(writer, f"Each lead, disconnects parted: {assembly}", ("wire", "lead"), rows, every)
    mirrors = [f"{_chain_text(left)} – {_chain_text(right)}" for left, right in items.mirrors]
    _across(writer, f"Mirror leads: readings within {decimal(ALIKE_MV)} mV of each other", mirrors)
    _table(writer, "Whole paths, all disconnects mated", ("role", "circuit"), paths, every)
    apart = items.isolations
    for assembly in items.assemblies:
        here = [group for group in apart.parted if group.assembly == assembly]
        _apart(writer, f"Must not be connected, disconnects parted: {assembly}", items, here)
    _apart(writer, "Must not be connected, all disconnects mated", items, apart.mated)
    packs = [" – ".join(f"{items.place(point)} {point.contact}" for point in pair) for pair in apart.packs]
    _across(writer, "Must not be connected, all disconnects mated: one pack to another", packs)
    return Composed(writer.finished())


def _millivolts(value_mv: float) -> str:
    """Write a reading in whole millivolts."""
    return str(math.floor(value_mv + 0.5))


def _lead_cells(items: RingOutContent, assembly: str) -> Iterator[_Cells]:
    """Walk the rows of an assembly's leads and tails, each with what it belongs to."""
    for number, lead in enumerate(items.leads):
        if lead.leads[-1].assembly == assembly:
            for reading in lead.readings:
                marks = " ".join(lead.marks(reading.role))
                yield number, _cells(items, marks, _chain_text(lead.leads), reading)
    for number, tails in enumerate(items.tails, len(items.leads)):
        if tails.assembly == assembly:
            for reading in tails.readings:
                yield number, _cells(items, "splice", f"tails of {tails.common.name}", reading)


def _cells(items: RingOutContent, wire: str, lead: str, reading: Reading) -> tuple[str, ...]:
    start, goal = reading.start, reading.goal
    texts = wire, lead, items.place(start), _pair_text((start, goal)), items.place(goal)
    return *texts, "", _millivolts(reading.expected_mv), "", _millivolts(reading.too_much_mv)


def _chain_text(chain: Chain) -> str:
    return f"{chain[0].circuit} {'+'.join(lead.segment for lead in chain)}"


def _pair_text(pair: Pair) -> str:
    return f"{pair[0].contact} – {pair[1].contact}"


def _table(
    writer: PageWriter, title: str, heads: tuple[str, str], rows: Sequence[_Cells], like: Sequence[tuple[str, ...]]
) -> None:
    """Add what is rung out, with a hair line between leads, a box to tick and one for the reading."""
    if not rows:
        return
    writer.space(5)
    writer.heading(title, LARGE_MM, keep_mm=2 * ROW_MM + 6)
    columns = [
        *(Column(head, PLAIN_MM, gives=True) for head in heads),
        Column("from", PLAIN_MM, align="right", gives=True),
        Column("contacts", LARGE_MM, bold=True, align="centre", gives=True),
        Column("to", PLAIN_MM, gives=True),
        Column("rings", PLAIN_MM, fixed_mm=8),
        Column("expected mV", PLAIN_MM, bold=True, align="right"),
        Column("reading mV", PLAIN_MM, align="centre", fixed_mm=_READING_MM),
        Column("bad over mV", PLAIN_MM, align="right"),
    ]

    def boxes(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:
        ink = [tick_box(cells[5]), box_in(cells[7], _READING_MM, _READING_HIGH_MM)]
        return ink + _rule(row, bool(index) and rows[index][0] != rows[index - 1][0])

    writer.table(columns, [cells for _, cells in rows], _STYLE, title, boxes, like)


def _rule(row: Box, wanted: bool) -> list[Ink]:
    """Return a hair line over a row that begins something else."""
    return [Line(row.x_mm, row.y_mm, row.right_mm, row.y_mm, THIN_MM, FAINT)] if wanted else []


def _apart(writer: PageWriter, title: str, items: RingOutContent, groups: Sequence[Isolation]) -> None:
    """Add pairs that must not be connected, a box behind each, along one plug or half after the other."""
    each = [Column("", PLAIN_MM, bold=True, align="right", fixed_mm=_PAIR_MM), _BOX]
    lines = []
    for group in groups:
        place = items.place(group.pairs[0][0], with_half=True)
        lines.append([(place, *line) for line in _lines([_pair_text(pair) for pair in group.pairs], _PAIRS_A_LINE)])
    _boxed(writer, title, [Column("", PLAIN_MM, gives=True), *each * _PAIRS_A_LINE], lines)


def _across(writer: PageWriter, title: str, texts: Sequence[str]) -> None:
    """Add pairs of things that are apart, a box behind each."""
    lines = [[line] for line in _lines(texts, _ACROSS_A_LINE)]
    _boxed(writer, title, [Column("", PLAIN_MM, gives=True), _BOX] * _ACROSS_A_LINE, lines)


def _lines(texts: Sequence[str], a_line: int) -> list[tuple[str, ...]]:
    """Return texts in lines of so many, each with an empty cell behind it."""
    padded = [*texts, *[""] * (-len(texts) % a_line)]
    cells = [cell for text in padded for cell in (text, "")]
    return [tuple(cells[at : at + 2 * a_line]) for at in range(0, len(cells), 2 * a_line)]


def _boxed(
    writer: PageWriter, title: str, columns: Sequence[Column], groups: Sequence[Sequence[tuple[str, ...]]]
) -> None:
    """Add a table of groups of lines with a box to tick in each empty cell behind a text."""
    rows = [line for group in groups for line in group]
    if not rows:
        return
    writer.space(5)
    writer.heading(title, LARGE_MM, keep_mm=2 * ROW_MM + 6)
    # Groups of one line each need no rule between them.
    counts = [len(group) for group in groups]
    ruled = {at for at, pair in zip(accumulate(counts), pairwise(counts), strict=False) if max(pair) > 1}

    def boxes(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:
        texts = zip(rows[index], columns[1:], cells[1:], strict=False)
        ticks: list[Ink] = [tick_box(cell) for before, column, cell in texts if before and column is _BOX]
        return ticks + _rule(row, index in ruled)

    writer.table(columns, rows, TableStyle(ROW_MM, rule_every=3 if max(counts) == 1 else 0), title, boxes)
