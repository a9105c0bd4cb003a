"""Take what else the cut list holds; return it as tables: leads that came along, sleeves, tubes, and all to buy."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from docgen.basics.colours import colour_words
from docgen.basics.units import counted, decimal, millimetres
from docgen.harness.assembly.bill_of_materials import COLLAR_MM, CONTACT_MM, SPLICE_MM, BillOfMaterials
from docgen.harness.assembly.samples import SAMPLE_MM
from docgen.harness.bundling.tubes import LABEL_MM
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import OwnLeads
from docgen.paperwork.cut_list.columns import Listing, rows_of
from docgen.paperwork.cut_list.content import CutContent
from docgen.paperwork.cut_list.shopping import WireToBuy
from docgen.paperwork.naming import STRAIGHT, straight_text
from docgen.paperwork.page_kit.blocks import GRID_MM, Block, Group, joined
from docgen.paperwork.page_kit.cells import Tick
from docgen.paperwork.page_kit.tables import Column, Row, Table, heading, lines, table
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM

NO_TUBE = "a tube of your own"
_CLIPS_AT = "where a coil begins, routes part or a half is fixed"
_NO_SHELF = "what lies on the shelf is not known. Contacts are with pull samples and a tenth to spare."
_ALL_OUT = f"What to get out; {_NO_SHELF}"
_BEYOND_WIRE = f"Wire: what the shelf lacks. All else: what to get out; {_NO_SHELF}"
_BELOW_MM = 1.0  # from a heading to the headings of columns


def materials(items: CutContent, listing: Listing) -> Iterator[Group]:
    """Walk the groups of all that is not wire to cut."""
    if items.own_leads:
        yield _straight(items.own_leads, listing)
    yield from _sleeves(items, listing)
    yield from _short_pieces(items, listing)
    yield from _to_buy(items, listing)


def _straight(leads: Sequence[OwnLeads], listing: Listing) -> Group:
    rows = [Row((lead.label, *(end.text for end in lead.ends))) for lead in leads]
    of = table([Column("function", PLAIN_MM), Column("from"), Column("to")], rows, listing.room_mm)
    return _group("Nothing to cut: leads that came along", of, rows, listing)


def cut_text(items: CutContent, sleeve: Sleeve) -> str:
    """Write how long a sleeve is cut, marked where that rests on a straight line."""
    return straight_text(millimetres(sleeve.cut_length_mm), is_straight=sleeve.runs in items.straight_sleeves)


def _sleeves(items: CutContent, listing: Listing) -> Iterator[Group]:
    kinds = [list(some) for _, some in groupby(items.sleeves, lambda sleeve: sleeve.kind.name)]
    rows = [
        rows_of(
            [cut_text(items, sleeve) for sleeve in some],
            [(" – ".join(sleeve.ends), f"{sleeve.diameter_mm:.1f}") for sleeve in some],
        )
        for some in kinds
    ]
    way = f"from – to\n{STRAIGHT}" if any(of.runs in items.straight_sleeves for of in items.sleeves) else "from – to"
    columns = [Column(way), Column("over, mm", align="right")]
    of = listing.table("cut, mm", columns, [row for some in rows for row in some], LARGE_MM)
    head = _head(of)
    for some, own in zip(kinds, rows, strict=True):
        known = [sleeve.cut_length_mm for sleeve in some if sleeve.cut_length_mm is not None]
        total = counted(len(some), "piece") + (f" · {sum(known) / 1000:.3f} m" if known else "")
        total += f" · {len(some) - len(known)} not measured" if len(known) < len(some) else ""
        yield _group(f"Sleeve {some[0].kind.name} · {some[0].kind.kind}", of, own, listing, total, head)


def _short_pieces(items: CutContent, listing: Listing) -> Iterator[Group]:
    """Walk tubes and sample wire: how many pieces, how long each, and of what."""
    bill = items.bill
    tubes = [(count, LABEL_MM, f"{name}, labels") for name, count in items.label_tubes.items()]
    tubes += [(count, COLLAR_MM, f"{name or NO_TUBE}, collars at sleeves") for name, count in bill.collars.items()]
    tubes += [(count, SPLICE_MM, f"{name or NO_TUBE}, over splices") for name, count in bill.splice_tubes.items()]
    tubes += [
        (count, CONTACT_MM, f"{name or NO_TUBE}, over soldered contacts") for name, count in bill.contact_tubes.items()
    ]
    wires = [(count, SAMPLE_MM, f"{wire}, any colour") for wire, count in bill.sample_wires.items()]
    told = [("Tubes", tubes), ("Wire for pull samples", wires)]
    rows = {title: [_row(str(n), millimetres(mm), what) for n, mm, what in some] for title, some in told if some}
    columns = [Column("each, mm", align="right"), Column("what")]
    of = listing.table("pieces", columns, [row for some in rows.values() for row in some])
    head = _head(of)
    for title, some in rows.items():
        yield _group(title, of, some, listing, head=head)


def _row(first: str, *others: str) -> Row:
    return Row((first, "", *others, Tick()))


def _to_buy(items: CutContent, listing: Listing) -> Iterator[Group]:
    """Walk the list of everything to buy, below one heading; of what is counted it is also what to get out."""
    some = [*_lengths(items, listing), *_matrix(items.bill, listing), *_fastened(items.bill, listing)]
    if some:
        title = heading("Everything to buy", LARGE_MM, row_mm=7.0)
        how = lines(_BEYOND_WIRE if items.shopping.wires else _ALL_OUT, listing.room_mm, above_mm=_BELOW_MM, stays=True)
        first, *others = some[0].blocks
        yield replace(some[0], blocks=(title, how, replace(first, above_mm=_BELOW_MM), *others))
        yield from some[1:]


def _lengths(items: CutContent, listing: Listing) -> Iterator[Group]:
    """Walk what is bought by length: wire with what the shelf has of it, then sleeve and tube."""
    wires, shopping = items.shopping.wires, items.shopping
    has = _metres([wire.shelf_mm for wire in wires])
    shelf = Column("on the shelf, m" if any(has) else "", align="right")
    columns = [Column("each, m", align="right"), Column("wire"), shelf]
    cells = zip(wires, _metres([wire.length_mm for wire in wires]), has, strict=True)
    counts = [str(wire.count) if wire.length_mm is not None else "" for wire in wires]
    rows = [_row(count, each, _wire(wire), there) for count, (wire, each, there) in zip(counts, cells, strict=True)]
    if rows:
        yield _group("Wire", listing.table("buy", columns, rows), rows, listing)
    others = {
        f"{name}, sleeve{_and_more(shopping.sleeves_unmeasured.get(name, 0))}": length_mm or None
        for name, length_mm in shopping.sleeves_mm.items()
    }
    others |= {name or NO_TUBE: length_mm for name, length_mm in shopping.tubes_mm.items()}
    rows = [_row(*cells) for cells in zip(_metres([*others.values()]), others, strict=True)]
    if rows:
        yield _group("Sleeve and tube", listing.table("m", [Column("what")], rows), rows, listing)


def _matrix(bill: BillOfMaterials, listing: Listing) -> Iterator[Group]:
    """Walk the matrix of families by contacts, housings and retainers, if there is any."""
    contacts = {(of.connector, of.gender): of.count for of in bill.contacts}
    families = sorted({name for name, _ in (*contacts, *bill.housings)} | {*bill.retainers})
    rows = [Row((name, *_counts(name, contacts, bill), Tick())) for name in families]
    if rows:
        heads = ("pin\ncontacts", "socket\ncontacts", "housings\nfor pins", "housings\nfor sockets", "\nretainers")
        columns = [Column("\nfamily"), *(Column(head, PLAIN_MM, align="right") for head in heads)]
        of = table([*columns, Column("")], rows, listing.room_mm)
        yield _group("Contacts, housings, retainers", of, rows, listing)


def _counts(name: str, contacts: Mapping[tuple[str, str], int], bill: BillOfMaterials) -> tuple[str, ...]:
    counts = [by.get((name, gender)) for by in (contacts, bill.housings) for gender in ("pins", "sockets")]
    return tuple(str(count or "") for count in (*counts, bill.retainers.get(name)))


def _fastened(bill: BillOfMaterials, listing: Listing) -> Iterator[Group]:
    """Walk grommets, clips and strain reliefs."""
    rows = [_row(str(count), f"grommets, {inside_mm} mm inside at least") for inside_mm, count in bill.grommets.items()]
    rows += [_row(str(count), f"clips for {wide_mm} mm") for wide_mm, count in bill.clips.items()]
    rows += [_row(str(count), f"strain reliefs for {wide_mm} mm") for wide_mm, count in bill.strain_reliefs.items()]
    every = f"one every {decimal(bill.clip_every_mm)} mm and {_CLIPS_AT}"
    every += f"; those along {counted(bill.clips_unmeasured, 'run')} not measured" if bill.clips_unmeasured else ""
    if rows:
        of = listing.table("pieces", [Column("what")], rows)
        yield _group("Grommets, clips, strain reliefs", of, rows, listing, every)


def _wire(wire: WireToBuy) -> str:
    of = f"{wire.part} {f'{wire.colour} {colour_words(wire.colour)}' if wire.colour else 'for pull samples'}"
    return of if wire.length_mm is not None else f"{of}: {counted(wire.count, 'piece')} not measured"


def _and_more(count: int) -> str:
    """Say how many more pieces there are that have no length."""
    return f" and {counted(count, 'piece')} not measured" if count else ""


def _metres(lengths_mm: Sequence[float | None]) -> list[str]:
    """Write lengths in m, all with as many decimals as one of them needs; one that is not known as nothing."""
    figures = (f"{mm / 1000:.3f}".rstrip("0").split(".")[1] for mm in lengths_mm if mm is not None)
    decimals = max(map(len, figures), default=0)
    return [f"{mm / 1000:.{decimals}f}" if mm is not None else "" for mm in lengths_mm]


def _head(of: Table) -> Block:
    return replace(of.head(), above_mm=2 * GRID_MM)


def _group(
    title: str, of: Table, rows: Sequence[Row], listing: Listing, says: str = "", head: Block | None = None
) -> Group:
    """Return rows below their heading; below it the headings of their columns, unless several groups share these."""
    again = heading(f"{title}, continued", above_mm=0, room_mm=listing.room_mm)
    top = heading(title, PLAIN_MM, says, GRID_MM if head else 2 * GRID_MM, room_mm=listing.room_mm)
    if head is not None:
        return Group((top, *of.blocks(rows)), again, head)
    own = replace(of.head(), above_mm=_BELOW_MM)
    return Group((top, own, *of.blocks(rows)), joined(again, own))
