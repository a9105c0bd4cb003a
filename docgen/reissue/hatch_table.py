"""Take what is done at each end of leads; return its table: out and in by number and colour, plugs, labels."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import zip_longest

from docgen.basics.findings import listed
from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.page_kit.cells import Cell, Stacked, Tick
from docgen.paperwork.page_kit.sheets import AREA_MM
from docgen.paperwork.page_kit.tables import TICKED_MM, Column, Row, table
from docgen.paperwork.typesetting.typeface import PLAIN_MM
from docgen.reissue.hatch import Stop
from docgen.reissue.moves import Move
from docgen.reissue.told import acts, contact_text, how_text

ABOVE_MM = 1.5  # over the headings of a table
_LIVE = "bare one wire at a time, the other insulated"


def with_head(columns: Sequence[Column], rows: Sequence[Row]) -> list[Block]:
    """Return a table below its headings, an empty column left out; nothing without rows."""
    used = [i for i in range(len(columns)) if any(row.cells[i] for row in rows)]
    kept = [Row(tuple(row.cells[i] for i in used), row.rule) for row in rows]
    as_set = table([columns[i] for i in used], kept, AREA_MM[0], TICKED_MM)
    return [replace(as_set.head(), above_mm=ABOVE_MM), *as_set.blocks(kept)] if kept else []


def hatch_table(some: Iterable[Stop]) -> list[Block]:
    """Return a row for each end of a lead at which something is done, by covers."""
    columns = [
        Column("cover", PLAIN_MM),
        Column("lead", PLAIN_MM, PLAIN_MM, bold=True),
        Column("at", PLAIN_MM, PLAIN_MM),
        Column(Stacked("take out"), PLAIN_MM, PLAIN_MM, bold=True),
        Column(""),
        Column(Stacked("label")),
        Column(""),
        Column(Stacked("put in"), PLAIN_MM, PLAIN_MM, bold=True),
        Column(""),
    ]
    rows = []
    last = ""
    for stop in some:
        cover = Stacked(stop.access or stop.place, under=f"{stop.place}, {stop.assembly}")
        out, into = _each(stop.out, _pulled(stop)), _each(stop.into, _plugged(stop))
        for taken, label, put in zip_longest(out, [_labelled(stop)], into):
            cells: tuple[Cell, ...] = (
                cover if stop.place != last else "",
                Stacked(stop.function, under=stop.lead),
                Stacked(stop.at, under=_LIVE if stop.live else ""),
                *_done_at(taken),
                *_done_at(label),
                *_done_at(put),
            )
            rows.append(Row(cells, rule=True))
            last = stop.place
    return with_head(columns, rows)


def _each(moves: Sequence[Move], plug: Stacked | None) -> list[Stacked]:
    """Return what is done with wires, those apart that are joined otherwise, else with their plug."""
    return [_moved(some) for some in acts(moves)] or ([plug] if plug is not None else [])


def _done_at(cell: Stacked | None) -> tuple[Cell, Cell]:
    """Return what is done, and its tick."""
    return (cell, Tick()) if cell is not None else ("", "")


def _moved(moves: Sequence[Move]) -> Stacked:
    """Say by number and colour which wires come out or go in, and how; with marks where two have one colour.

    Where contacts are put on, their housing is said.
    """
    alike = Counter(move.colour for move in moves)
    said = [
        f"{contact_text(move)} {move.mark}".rstrip() if alike[move.colour] > 1 else contact_text(move) for move in moves
    ]
    first = moves[0]
    how = how_text(first)
    how = f"{'new wires' if first.into else 'old wires'}: {how}" if first.anew else how
    return Stacked(", ".join(said), over=first.spot.plug if first.into and not first.crimped else "", under=how)


def _pulled(stop: Stop) -> Stacked | None:
    for plugging in stop.plugged:
        if plugging.was is not None and (plugging.was.at, plugging.was.place) == (stop.at, stop.place):
            return Stacked("unplug", under="dead: cap it" if plugging.capped else "the whole plug")
    return None


def _plugged(stop: Stop) -> Stacked | None:
    for plugging in stop.plugged:
        if plugging.now is not None and (plugging.now.at, plugging.now.place) == (stop.at, stop.place):
            return Stacked("plug in", under="the whole plug")
    return None


def _labelled(stop: Stop) -> Stacked | None:
    if not stop.stripped and not stop.put_on:
        return None
    off, on = (listed(label.says for label in labels) for labels in (stop.stripped, stop.put_on))
    off, on = off and f"off {off}", on and f"on {on}"
    how = ("tube, slid on first" if stop.is_open else "wrap or flag") if on else ""
    return Stacked(on or off, over=off if on else "", under=how)
