"""Take what is done at each end of leads; return its table: out and in by number and colour, plugs, labels."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
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
# By whether a row below closes the splice, and whether the wires go into several.
_SPLICED = {
    (True, False): "into the splice below",
    (True, True): "each into its splice below",
    (False, False): "new tube, spliced with those above",
    (False, True): "new tubes, each spliced with those above",
}


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
    every = list(some)
    ends = _last_rows(every)
    for number, stop in enumerate(every):
        cover = Stacked(stop.access or stop.place, under=f"{stop.place}, {stop.assembly}")
        out = [_moved(some) for some in acts(sorted(stop.out, key=lambda move: move.spot.is_spliced))] or _pulled(stop)
        into = _put_in(stop.into, {splice: number < end for splice, end in ends.items()}) or _plugged(stop)
        later = [None] * (len(out) - len(into))  # what goes in where all else is out
        for taken, label, put in zip_longest(out, [_labelled(stop)], [*later, *into]):
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


def _last_rows(some: Sequence[Stop]) -> dict[str, int]:
    """Return where each splice is closed that is made of wires of several rows: in the last of those."""
    rows: dict[str, list[int]] = {}
    for number, stop in enumerate(some):
        for splice in {move.spot.splice for move in stop.into if _is_spliced(move)}:
            rows.setdefault(splice, []).append(number)
    return {splice: numbers[-1] for splice, numbers in rows.items() if len(numbers) > 1}


def _put_in(moves: Sequence[Move], waits: Mapping[str, bool]) -> list[Stacked]:
    """Return what is done with wires that go in; those apart that are joined otherwise, or in a row below."""
    closed = {move: waits.get(move.spot.splice) if _is_spliced(move) else None for move in moves}
    some = [[move for move in moves if closed[move] is when] for when in (None, True, False)]
    return [_moved(act, closed[act[0]]) for each in some for act in acts(each)]


def _done_at(cell: Stacked | None) -> tuple[Cell, Cell]:
    """Return what is done, and its tick."""
    return (cell, Tick()) if cell is not None else ("", "")


def _is_spliced(move: Move) -> bool:
    """Tell whether a wire is joined in a splice, or as a tail that is new comes out of one."""
    return bool(move.spot.splice) and (move.anew or move.spot.is_spliced)


def _moved(moves: Sequence[Move], waits: bool | None = None) -> Stacked:
    """Say by number and colour which wires come out or go in, and how; with marks where two have one colour.

    Where contacts are put on, their housing is said. What is spliced with wires of other rows `waits` for the last.
    """
    alike = Counter(move.colour for move in moves)
    said = [
        f"{contact_text(move)} {move.mark}".rstrip() if alike[move.colour] > 1 else contact_text(move) for move in moves
    ]
    first = moves[0]
    how = how_text(first)
    if waits is not None:
        spliced = _SPLICED[waits, len({move.spot.splice for move in moves}) > 1]
        how = spliced if first.spot.is_spliced else how if waits else f"{how}; {spliced}"
    how = f"{'new wires' if first.into else 'old wires'}: {how}" if first.anew else how
    return Stacked(", ".join(said), over=first.spot.plug if first.into and not first.crimped else "", under=how)


def _pulled(stop: Stop) -> list[Stacked]:
    pulled = stop.pulled
    return [Stacked("unplug", under="dead: cap it" if pulled.capped else "the whole plug")] if pulled else []


def _plugged(stop: Stop) -> list[Stacked]:
    return [Stacked("plug in", under="the whole plug")] if stop.plugged_in else []


def _labelled(stop: Stop) -> Stacked | None:
    if not stop.stripped and not stop.put_on:
        return None
    off, on = (listed(label.says for label in labels) for labels in (stop.stripped, stop.put_on))
    off, on = off and f"off {off}", on and f"on {on}"
    how = ("tube, slid on first" if stop.is_open else "wrap or flag") if on else ""
    return Stacked(on or off, over=off if on else "", under=how)
