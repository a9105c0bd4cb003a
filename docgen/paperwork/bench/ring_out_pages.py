"""Take what the ring-out sheet holds; return its pages: a row a lead, a group of boxes for each of its wires."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain

from docgen.basics.units import decimal
from docgen.harness.continuity.netlist import Point
from docgen.harness.continuity.readings import ALIKE_MV, HEAVY_A, OVER_HEAVY_MV, OVER_MV, Chain, Reading, SharedReading
from docgen.paperwork.bench.ring_out_content import RingOutContent
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.naming import contacts_text, unmeasured_text
from docgen.paperwork.page_kit.blocks import Block, Group
from docgen.paperwork.page_kit.cells import Cell, Field, Stacked, Tick
from docgen.paperwork.page_kit.sheets import AREA_MM, Sheets
from docgen.paperwork.page_kit.tables import TICKED_MM, Column, Row, Table, band, heading, lines, notice, table
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.typeface import PLAIN_MM

STEM = "ring-out-sheet"
CAUTION = "Nothing with electronics plugged in. Bench supply set to 1 A and 2 V before it is connected."
FIRST = "All packs out of the aircraft, all electronics unplugged."
_RINGS = (
    "Never a meter's tip in a socket, which it spreads: probe with a loose mating pin on a lead. Rings: the meter "
    "shows continuity between the two contacts. Alone: with one probe there, the other touches every other contact of "
    "the plug or half at either end, and none rings but what is named."
)
_TOO = " In brackets: contacts of the same common, which ring too."
_MILLIVOLTS = (
    "mV: let 1 A through the same two contacts, measure at the contacts themselves, inside the supply's clips, and "
    "write it down. Expected is copper at 20 °C at its cut length with the joints between. Over the second figure a "
    f"joint is bad: {decimal(OVER_MV)} mV over the expected, {decimal(OVER_HEAVY_MV)} mV where every contact bears "
    f"{decimal(HEAVY_A)} A or more (common practice, no source). Wires of which as much is expected read within "
    f"{decimal(ALIKE_MV)} mV of each other, in one lead and in mirror leads."
)
_BLANK = "No mV without a length, as the way is not measured yet"
_WIRES = 3  # beside each other; what a lead has more goes on below
_TICKED = 4  # texts beside each other
_READING_MM = 14.0
_Lead = tuple[Cell, list[list[Cell]]]  # what is rung out, and the cells of each of its wires


def compose(items: RingOutContent, layout: PageLayout) -> Laid:
    """Lay out the pages of the ring-out sheet."""
    if not items.leads:
        return lambda _: Composed([])
    sheets = Sheets("Ring-out sheet", layout.paper, CAUTION)
    first = Group((lines(FIRST, AREA_MM[0], PLAIN_MM), how_text(items, above_mm=1.5)))
    unmeasured = "" if items.brief else unmeasured_text(items.unmeasured)
    groups = [first, *notice(_BLANK, unmeasured, AREA_MM[0]), *readings(items), *_apart(items)]
    return lambda title_block: Composed(sheets.of(title_block).lay(groups))


def how_text(items: RingOutContent, above_mm: float = 0.0) -> Block:
    """Return how it is rung out."""
    every = [some.readings for some in (*items.leads, *items.paths)] + [tails.readings for tails in items.tails]
    rings = _RINGS + _TOO * any(isinstance(reading, SharedReading) for reading in chain.from_iterable(every))
    return lines(rings if items.brief else f"{rings} {_MILLIVOLTS}", AREA_MM[0], above_mm=above_mm)


def readings(items: RingOutContent) -> Iterator[Group]:
    """Walk what is rung out, by assembly, whole paths at the last."""
    brief = items.brief
    assemblies = {name: list(_of_assembly(items, name)) for name in items.assemblies}
    paths = [lead for path in items.paths for lead in _between_plugs(items, path.leads[0].circuit, path.readings)]
    columns = _columns(brief)
    every = [row for leads in (*assemblies.values(), paths) for row in _rows(leads, brief)]
    of = table(columns, every, AREA_MM[0], TICKED_MM)
    for name, leads in assemblies.items():
        if leads:
            yield _group(of, band(name), band(f"{name}, continued"), leads, brief)
    if paths:
        title = "Whole paths, all disconnects mated"
        yield _group(of, heading(title), heading(f"{title}, continued"), paths, brief)


def _columns(brief: bool) -> list[Column]:
    contacts = Column("", 2.5, 1.8, bold=True, align="right")
    rings, alone = Column("rings"), Column("alone")
    expected, reading = Column("mV", align="right"), Column("")
    wire = [contacts, rings, alone] if brief else [contacts, rings, expected, reading, alone]
    return [Column("", 2.5, 1.8, bold=True), *wire * _WIRES]


def _group(of: Table, head: Block, again: Block, leads: Sequence[_Lead], brief: bool) -> Group:
    """Return the rows of leads below a head; those of one lead are not parted."""
    blocks = [head, of.head()]
    for lead in leads:
        rows = [of.block(row) for row in _rows([lead], brief)]
        blocks += [*(replace(row, stays=True) for row in rows[:-1]), rows[-1]]
    return Group(tuple(blocks), again)


def _rows(leads: Sequence[_Lead], brief: bool) -> list[Row]:
    rows = []
    empty: list[Cell] = [""] * (3 if brief else 5)
    for name, wires in leads:
        for at in range(0, len(wires), _WIRES):
            some = [*wires[at : at + _WIRES], *[empty] * (_WIRES - len(wires[at : at + _WIRES]))]
            cells = [cell for wire in some for cell in (wire[:2] + wire[4:] if brief and wire is not empty else wire)]
            rows.append(Row((name if at == 0 else "", *cells), rule=at == 0))
    return rows


def _of_assembly(items: RingOutContent, assembly: str) -> Iterator[_Lead]:
    """Walk the leads and tails of an assembly."""
    for lead in items.leads:
        if lead.leads[-1].assembly == assembly:
            yield from _between_plugs(items, _chain_text(lead.leads), lead.readings)
    tails = [each for each in items.tails if each.assembly == assembly and each.readings]
    for half in dict.fromkeys(each.readings[0].start.place for each in tails):
        here = [each for each in tails if each.readings[0].start.place == half]
        says = f"{items.place(here[0].readings[0].start)}: {', '.join(each.common.name for each in here)}"
        yield Stacked("tails, together", under=says), [_wire(reading) for each in here for reading in each.readings]


def _between_plugs(items: RingOutContent, name: str, readings: Sequence[Reading]) -> Iterator[_Lead]:
    """Walk what is rung out from one plug or half to another; a lead that commons feed has several."""
    places = dict.fromkeys((reading.start.place, reading.goal.place) for reading in readings)
    for ends in places:
        some = [reading for reading in readings if (reading.start.place, reading.goal.place) == ends]
        start, goal = items.place(some[0].start), items.place(some[0].goal)
        says = f"from {start}" if goal == name else f"{start} – {goal}"
        says += " · in place" if items.in_place.intersection(ends) else ""
        yield Stacked(name, under=says), [_wire(reading) for reading in some]


def _wire(reading: Reading) -> list[Cell]:
    """Return contacts, a tick, what is expected over what is too much, a box for the reading, and a tick."""
    contacts = " – ".join(_contact(reading, end) for end in (reading.start, reading.goal))
    expected, too_much = _millivolts(reading.expected_mv), _millivolts(reading.too_much_mv)
    return [contacts, Tick(), Stacked(expected, under=f"≤{too_much}" if too_much else ""), Field(_READING_MM), Tick()]


def _contact(reading: Reading, end: Point) -> str:
    """Name a contact, and in brackets the others there that ring too; where both ends are one half, once."""
    is_other = reading.start.place == reading.goal.place and end is reading.start
    too = reading.too if isinstance(reading, SharedReading) and not is_other else ()
    others = [point.contact for point in too if point.place == end.place]
    return f"{end.contact} ({contacts_text(others)})" if others else end.contact


def _apart(items: RingOutContent) -> Iterator[Group]:
    """Walk what is told of several leads: which are mirror leads, and that no pack rings to another."""
    mirrors = "; ".join(f"{_chain_text(left)} – {_chain_text(right)}" for left, right in items.mirrors)
    if mirrors:
        title = heading(f"Mirror leads: readings within {decimal(ALIKE_MV)} mV of each other")
        yield Group((title, lines(mirrors, AREA_MM[0])))
    packs = [" – ".join(f"{items.place(point)} {point.contact}" for point in pair) for pair in items.isolations.packs]
    yield from _ticked("Must not ring, all disconnects mated: one pack to another", packs)


def _ticked(title: str, texts: Sequence[str]) -> Iterator[Group]:
    """Give texts with a tick each, some beside each other."""
    if texts:
        padded = [*texts, *[""] * (-len(texts) % _TICKED)]
        cells: list[tuple[Cell, Cell]] = [(Tick() if text else "", text) for text in padded]
        rows = [
            Row(tuple(cell for pair in cells[at : at + _TICKED] for cell in pair))
            for at in range(0, len(cells), _TICKED)
        ]
        of = table([Column("")] * (2 * _TICKED), rows, AREA_MM[0])
        yield Group((heading(title), *of.blocks(rows)), heading(f"{title}, continued"))


def _millivolts(value_mv: float | None) -> str:
    """Write a reading in whole millivolts; one that is not known as nothing."""
    return "" if value_mv is None else str(math.floor(value_mv + 0.5))


def _chain_text(chain: Chain) -> str:
    return f"{chain[0].circuit} {'+'.join(lead.segment for lead in chain)}"
