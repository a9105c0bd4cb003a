"""Ring-out sheet: contacts that must show continuity, what 1 A drops between them, contacts that must stay apart."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from docgen.basics.units import decimal
from docgen.harness.continuity.isolation import PACKS, Isolation, isolations
from docgen.harness.continuity.netlist import Point
from docgen.harness.continuity.ring_out import (
    ALIKE_MV,
    HEAVY_A,
    OVER_HEAVY_MV,
    OVER_MV,
    Reading,
    chain_name,
    lead_readings,
    mirror_chains,
    path_readings,
)
from docgen.harness.model.circuits import End
from docgen.harness.model.harness import Harness
from docgen.paperwork.cut_list.sleeves_and_tubes import ROW_MM, TICK_MM
from docgen.paperwork.naming import half_said, half_where_both
from docgen.paperwork.stocks.layouts import PageLayout
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import FAINT, MIDDLE_MM, THIN_MM, Box, Ink, Line, rectangle
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.title_block import Foot, TitleBlock, foot_height_mm, number_pages, state_of
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
_STYLE = TableStyle(ROW_MM, rule_every=0)
_BOX = Column("", PLAIN_MM, fixed_mm=TICK_MM + 1)
_PAIRS_A_LINE, _PAIR_MM, _ACROSS_A_LINE = 6, 12.0, 2


@dataclass(frozen=True)
class Row:
    """Two contacts to ring out: over which lead (or circuit) and which wire (or role), and what 1 A drops [mV]."""

    key: tuple[str, ...]
    lead: str
    wire: str
    start: str
    contacts: str
    goal: str
    expected_mv: float
    too_much_mv: float


@dataclass(frozen=True)
class Pair:
    """Two contacts, or two leads, to hold against each other."""

    key: tuple[str, ...]
    text: str


@dataclass(frozen=True)
class Along:
    """Pairs that must not be connected, at one plug or half; those of packs are at none."""

    key: tuple[str, ...]
    place: str
    pairs: tuple[Pair, ...]


@dataclass(frozen=True)
class RingOutContent:
    """All that is rung out, by assembly with disconnects parted, and then with all mated."""

    leads: dict[str, tuple[Row, ...]]
    mirrors: tuple[Pair, ...]
    paths: tuple[Row, ...]
    parted: dict[str, tuple[Along, ...]]
    mated: tuple[Along, ...]
    packs: tuple[Pair, ...]


def content(harness: Harness) -> RingOutContent:
    """Return what there is to ring out."""
    names = _Names(harness)
    leads: dict[str, list[Row]] = {assembly: [] for assembly in harness.assemblies}
    for reading in lead_readings(harness):
        leads[reading.assembly].append(_row(names, reading))
    parted: dict[str, list[Along]] = {assembly: [] for assembly in harness.assemblies}
    mated: list[Along] = []
    packs: list[Pair] = []
    for group in isolations(harness):
        if group.key == PACKS:
            packs += [names.across(one, other) for one, other in group.pairs]
        elif group.mated:
            mated.append(names.along(group))
        else:
            parted[group.assembly].append(names.along(group))
    return RingOutContent(
        leads={assembly: tuple(rows) for assembly, rows in leads.items() if rows},
        mirrors=tuple(
            Pair(
                (chain_name(left), chain_name(right)),
                f"{chain_name(left)} – {chain_name(right)}",
            )
            for left, right in mirror_chains(harness)
        ),
        paths=tuple(_row(names, reading) for reading in path_readings(harness)),
        parted={assembly: tuple(groups) for assembly, groups in parted.items() if groups},
        mated=tuple(mated),
        packs=tuple(packs),
    )


class _Names:
    """Says points of one harness, with the position of what the builder wrote for them."""

    def __init__(self, harness: Harness) -> None:
        self.harness = harness
        self.ends: dict[tuple[str, str, str], End] = {
            (end.kind, end.name, end.part): end for lead in harness.leads() for end in lead.ends
        }

    def end(self, point: Point, with_half: bool = False) -> str:
        """Say a plug or a disconnect; which half of it if asked, or if both are in one assembly."""
        end = self.ends[point.place]
        if end.is_port:
            return end.text
        which = half_said(self.harness, end) if with_half else half_where_both(self.harness, end)
        return f"{end.name}{which}"

    def contacts(self, one: Point, other: Point) -> str:
        """Say two contacts by their names alone."""
        return f"{one.contact} – {other.contact}"

    def along(self, group: Isolation) -> Along:
        """Return the pairs at one plug or half."""
        pairs = tuple(Pair((one.contact, other.contact), self.contacts(one, other)) for one, other in group.pairs)
        return Along(group.key, self.end(group.pairs[0][0], with_half=True), pairs)

    def across(self, one: Point, other: Point) -> Pair:
        """Return a pair of contacts of different plugs."""
        ends = [self.end(point) for point in (one, other)]
        text = f"{ends[0]} {one.contact} – {ends[1]} {other.contact}"
        return Pair((*one.place, *other.place), text)


def _row(names: _Names, reading: Reading) -> Row:
    last = reading.leads[-1] if reading.leads else None
    if last is None:
        lead, wire = f"tails of {reading.key[3]}", "splice"
    elif reading.assembly:
        lead = chain_name(reading.leads)
        wire = " ".join(reading.marks)
    else:
        lead, wire = last.circuit, reading.role
    start, goal = names.end(reading.start), names.end(reading.goal)
    return Row(
        key=reading.key,
        lead=lead,
        wire=wire,
        start=start,
        contacts=names.contacts(reading.start, reading.goal),
        goal=goal,
        expected_mv=reading.expected_mv,
        too_much_mv=reading.too_much_mv,
    )


def compose(items: RingOutContent, layout: PageLayout, title_block: TitleBlock) -> Composed:
    """Return the pages of the ring-out sheet."""
    foot = Foot(title_block, CAUTION, state_of(title_block), title_block.record_hash)
    width = layout.paper[0] - 2 * layout.margin
    writer = PageWriter(layout.paper, layout.margin, layout.margin + foot_height_mm(foot, width) + 2)
    if not items.leads:
        return Composed([])
    writer.new_page()
    writer.heading(FIRST, HUGE_MM)
    writer.heading(f"{_SUPPLY} Ring-out sheet · {title_block.aircraft}", PLAIN_MM)
    writer.paragraph(_HOW, SMALL_MM)
    every = [_cells(row) for rows in (*items.leads.values(), items.paths) for row in rows]
    for assembly, rows in items.leads.items():
        _table(writer, f"Each lead, disconnects parted: {assembly}", ("wire", "lead"), rows, every)
    _across(writer, f"Mirror leads: readings within {decimal(ALIKE_MV)} mV of each other", items.mirrors)
    _table(writer, "Whole paths, all disconnects mated", ("role", "circuit"), items.paths, every)
    for assembly, groups in items.parted.items():
        _apart(writer, f"Must not be connected, disconnects parted: {assembly}", groups)
    _apart(writer, "Must not be connected, all disconnects mated", items.mated)
    _across(writer, "Must not be connected, all disconnects mated: one pack to another", items.packs)
    writer.finish_page()
    number_pages(writer.pages, [foot] * len(writer.pages), layout.margin)
    return Composed(writer.pages)


def _millivolts(value_mv: float) -> str:
    """Write a reading in whole millivolts."""
    return str(math.floor(value_mv + 0.5))


def _cells(row: Row) -> tuple[str, ...]:
    expected, too_much = _millivolts(row.expected_mv), _millivolts(row.too_much_mv)
    texts = (row.wire, row.lead, row.start, row.contacts, row.goal)
    return (*texts, "", expected, "", too_much)


def _table(
    writer: PageWriter, title: str, heads: tuple[str, str], rows: tuple[Row, ...], like: list[tuple[str, ...]]
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
        reading = Box(cells[7].x_mm, row.y_mm + (ROW_MM - _READING_HIGH_MM) / 2, _READING_MM, _READING_HIGH_MM)
        ink: list[Ink] = [_tick(cells[5]), rectangle(reading, MIDDLE_MM)]
        return ink + _rule(row, bool(index) and rows[index].lead != rows[index - 1].lead)

    writer.table(columns, [_cells(row) for row in rows], _STYLE, title, boxes, like=like, key_column=1)


def _rule(row: Box, wanted: bool) -> list[Ink]:
    """Return a hair line over a row that begins something else."""
    return [Line(row.x_mm, row.y_mm, row.right_mm, row.y_mm, THIN_MM, FAINT)] if wanted else []


def _tick(cell: Box) -> Ink:
    return rectangle(Box(cell.x_mm, cell.y_mm + (cell.height_mm - TICK_MM) / 2, TICK_MM, TICK_MM), MIDDLE_MM)


def _apart(writer: PageWriter, title: str, groups: tuple[Along, ...]) -> None:
    """Add pairs that must not be connected, a box behind each, along one plug or half after the other."""
    rows = [
        (group.place, *line) for group in groups for line in _lines([pair.text for pair in group.pairs], _PAIRS_A_LINE)
    ]
    pair = [Column("", PLAIN_MM, bold=True, align="right", fixed_mm=_PAIR_MM), _BOX]
    _boxed(writer, title, [Column("", PLAIN_MM, gives=True), *pair * _PAIRS_A_LINE], rows)


def _across(writer: PageWriter, title: str, pairs: tuple[Pair, ...]) -> None:
    """Add pairs of things that are apart, a box behind each."""
    rows = _lines([pair.text for pair in pairs], _ACROSS_A_LINE)
    _boxed(writer, title, [Column("", PLAIN_MM, gives=True), _BOX] * _ACROSS_A_LINE, rows)


def _lines(texts: Sequence[str], a_line: int) -> list[tuple[str, ...]]:
    """Return texts in lines of so many, each with an empty cell behind it."""
    padded = [*texts, *[""] * (-len(texts) % a_line)]
    cells = [cell for text in padded for cell in (text, "")]
    return [tuple(cells[at : at + 2 * a_line]) for at in range(0, len(cells), 2 * a_line)]


def _boxed(writer: PageWriter, title: str, columns: Sequence[Column], rows: Sequence[tuple[str, ...]]) -> None:
    """Add a table with a box to tick in each empty cell behind a text."""
    if not rows:
        return
    writer.space(5)
    writer.heading(title, LARGE_MM, keep_mm=2 * ROW_MM + 6)
    places = ["", "", *(row[0] for row in rows), ""]

    def boxes(index: int, row: Box, cells: Sequence[Box]) -> list[Ink]:
        texts = zip(rows[index], columns[1:], cells[1:], strict=False)
        ticks: list[Ink] = [_tick(cell) for before, column, cell in texts if before and column is _BOX]
        # Places of one line each need no rule between them.
        before_last, last, own, after = places[index : index + 4]
        return ticks + _rule(row, bool(last) and last != own and (last == before_last or own == after))

    alone = len(set(places)) == len(rows) + 1
    writer.table(columns, rows, TableStyle(ROW_MM, rule_every=3 if alone else 0), title, boxes)
