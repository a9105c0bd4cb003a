"""Take what differs between the aircraft and an issue; return the rework sheet: in the order of bench and hatch."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace

from docgen.basics.frozen import frozen
from docgen.basics.units import decimal, millimetres
from docgen.definition.issued import State
from docgen.harness.model.results import Rest
from docgen.paperwork.bench import ring_out_pages
from docgen.paperwork.bench.ring_out_content import RingOutContent
from docgen.paperwork.bench.work_content import by_gauge
from docgen.paperwork.bench.work_pages import pulled_samples
from docgen.paperwork.field.power_pages import blocks_of
from docgen.paperwork.field.power_parts import Part
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.naming import STRAIGHT, straight_text
from docgen.paperwork.page_kit.blocks import GRID_MM, Block, Group, joined
from docgen.paperwork.page_kit.cells import Swatch, Tick
from docgen.paperwork.page_kit.sheets import AREA_MM, Sheets
from docgen.paperwork.page_kit.tables import TICKED_MM, Column, Row, heading, table
from docgen.paperwork.standing import SHEETS
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.typeface import PLAIN_MM
from docgen.reissue.checked_table import checked_table
from docgen.reissue.differences import Differences, OtherCard
from docgen.reissue.hatch import function_of, parted, stops
from docgen.reissue.hatch_table import ABOVE_MM, hatch_table, with_head
from docgen.reissue.making import Making
from docgen.reissue.sleeves_table import openings_table, sleeves_table
from docgen.reissue.told import between_text, broken_text, changes, perhaps_left

STEM = "rework-sheet"
CAUTION = (
    "Packs unplugged and out before a joint is parted; never pull by the wires. Blades away from the hand; a heat "
    "gun never near packs or fuel."
)
_OUT = "All packs out of the aircraft, and all equipment unplugged that is worked on. Go by number and colour."
_DONE = "All of this is done in the aircraft. Say so: docgen built, and the folder of the aircraft."


@frozen
class ReworkContent:
    """What differs, both states, what is rung out, what of supplies is measured, and how new leads are made.

    Leads that are `straight` are cut by a straight line; `rest` is what a meter reads by circuit while nothing draws.
    """

    differences: Differences
    old: State
    new: State
    ring_out: RingOutContent
    powered: tuple[Part, ...] = ()
    making: Making = field(default=Making())
    straight: frozenset[str] = frozenset()
    rest: Mapping[str, Rest] = field(default_factory=dict)


@frozen
class _Part:
    """One step of the sheet; `also` are groups below it, `head` is which block heads its table, if it is one."""

    title: str
    blocks: Sequence[Block]
    also: Sequence[Group] = ()
    head: int | None = None

    def again(self, title: str) -> Block:
        """Return what stands over it where it goes on: its title, and the head of its table."""
        head = () if self.head is None else (self.blocks[self.head],)
        return joined(heading(f"{title}, continued"), *head)


def compose(items: ReworkContent, layout: PageLayout) -> Laid:
    """Lay out the pages of the rework sheet: what no longer holds first, then what differs, then the steps."""
    of = items.differences
    first, last = parted(stops(of, items.old, items.new), items.making.free)
    sheets = Sheets(f"Rework {of.was} to {of.now}{', altered already' * of.is_built}", layout.paper, CAUTION)
    steps = [
        _packs(),
        _looked(of),
        _Part("At the bench: pull samples", list(pulled_samples(by_gauge(items.making.samples)))),
        _cut(items),
        _Part("Under the covers", hatch_table(first), head=0),
        _Part("Sleeves", sleeves_table(of, items.new, items.making), head=0),
        _Part("Openings", openings_table(of, items.making), head=0),
        _Part("Ends that were free, once through", hatch_table(last), head=0),
        _rung(items),
        _powered(items),
        _cards(items),
        _Part("Packs in: check again", checked_table(items.new, items.differences.checks, items.rest), head=1),
        _done(),
    ]
    groups = list(_said(of, items.making.around))
    for number, part in enumerate((part for part in steps if part.blocks or part.also), 1):
        title = f"{number}  {part.title}"
        groups.append(Group((heading(title, 3.5), *part.blocks), part.again(title)))
        groups += part.also
    return lambda title_block: Composed(sheets.of(title_block).lay(groups))


def _said(of: Differences, around: Mapping[str, str]) -> Iterator[Group]:
    broken = [broken_text(broken) for broken in of.broken] + ([between_text(of)] if of.between else [])
    if broken:
        rows = [Row((text,), rule=True) for text in broken]
        as_set = table([Column("", PLAIN_MM, PLAIN_MM)], rows, AREA_MM[0])
        yield Group((heading("No longer holds", 3.5, above_mm=GRID_MM), *as_set.blocks(rows)))
    texts = changes(of)
    for ends, wrap in around.items():
        texts[ends] = [f"its sleeve slides on, over ends that come out; sleeve: {wrap} at its run would go around"]
    if texts:
        rows = [Row((name, "; ".join(said)), rule=True) for name, said in texts.items()]
        as_set = table([Column("", PLAIN_MM, bold=True, wraps=False), Column("")], rows, AREA_MM[0])
        again = heading("What differs, continued")
        yield Group((heading("What differs", 3.5, above_mm=GRID_MM), *as_set.blocks(rows)), again)


def _packs() -> _Part:
    return _Part("Packs out", [_tick(_OUT)])


def _looked(of: Differences) -> _Part:
    """Return a row for each thing of which an issue that is not said to be built may have left something."""
    columns = [
        Column("issue"),
        Column("", PLAIN_MM, bold=True),
        Column(""),
        Column("where it is so, put it back", PLAIN_MM),
    ]
    left = perhaps_left(of).items()
    rows = [Row((issue, name, Tick(), "; ".join(texts)), rule=True) for (issue, name), texts in left]
    return _Part("Look first: not said to be built", with_head(columns, rows), head=0)


def _done() -> _Part:
    return _Part("Done", [_tick(_DONE)])


def _tick(text: str) -> Block:
    row = Row((Tick(), text), rule=True)
    return table([Column(""), Column("", PLAIN_MM)], [row], AREA_MM[0], TICKED_MM).block(row)


def _cut(items: ReworkContent) -> _Part:
    """Return a row for each piece that is cut."""
    is_any = any(piece.lead in items.straight for piece in items.differences.wiring.cut)
    columns = [
        Column("mm", 3.5, 2.5, bold=True, align="right", wraps=False),
        Column(""),
        Column("gauge", wraps=False),
        Column("wire", wraps=False),
        Column(f"lead\n{STRAIGHT}" if is_any else "lead", PLAIN_MM, bold=True),
        Column("mark", PLAIN_MM, wraps=False),
        Column(""),
        Column("twist: lay, mm", wraps=False),
    ]
    rows: list[Row] = []
    last = ""
    for piece in items.differences.wiring.cut:
        length = straight_text(millimetres(piece.cut_mm), is_straight=piece.lead in items.straight)
        of = function_of(items.old, items.new, piece.lead)
        lay_mm = items.making.lay_mm.get(piece.lead) if piece.lead != last else None
        twist = Tick(decimal(lay_mm)) if lay_mm is not None else ""
        cells = (length, Swatch(piece.colour), piece.gauge, piece.wire, of, piece.mark, Tick(), twist)
        rows.append(Row(cells, rule=piece.lead != last))
        last = piece.lead
    return _Part("At the bench: cut", with_head(columns, rows), head=0)


def _rung(items: ReworkContent) -> _Part:
    title, groups = "Ring out, packs still out", list(ring_out_pages.readings(items.ring_out))
    if not groups:
        return _Part(title, [])
    how = replace(ring_out_pages.how_text(items.ring_out, ABOVE_MM), stays=True)
    return _Part(title, [how, *groups[0].blocks], groups[1:], head=2)


def _powered(items: ReworkContent) -> _Part:
    """Return what is measured of supplies, each kind below its own heading, the first with the step's."""
    width, parts = AREA_MM[0], items.powered
    groups = [
        Group((heading(part.title), *blocks_of(part, width, parts)), heading(f"{part.title}, continued"))
        for part in parts
    ]
    blocks = groups[0].blocks if groups else ()
    return _Part("Plus and minus, before packs go in", blocks, groups[1:])


def _cards(items: ReworkContent) -> _Part:
    columns = [
        Column("card", 3.5, PLAIN_MM, bold=True),
        Column("where", PLAIN_MM),
        Column("tear up", PLAIN_MM, wraps=False),
        Column(""),
        Column("put in", PLAIN_MM, wraps=False),
        Column(""),
    ]
    rows = []
    aboard = [OtherCard(name, *_hashes(items, name)) for name in items.differences.aboard]
    for card in (*items.differences.cards, *aboard):
        torn = [card.was] * (bool(card.was) and card.was != card.now)
        torn += items.differences.leftover.get(card.card, ())
        ticks = [Tick() if each else "" for each in (torn, card.now)]
        cells = (card.card, _where(items, card.card), " or ".join(torn), ticks[0], card.now, ticks[1])
        rows.append(Row(cells, rule=True))
    return _Part("Cards", with_head(columns, rows), head=0)


def _hashes(items: ReworkContent, sheet: str) -> tuple[str, str]:
    was, now = (state.items.get(SHEETS, {}).get(sheet) for state in (items.old, items.new))
    return was.hash if was else "", now.hash if now else ""


def _where(items: ReworkContent, card: str) -> str:
    """Say under which cover a card of a half or of equipment is."""
    name, _, half = card.partition(" ")
    for state in (items.new, items.old):
        places = [
            each.place
            for joint in (state.disconnects.get(name),)
            if joint
            for each in joint.halves
            if each.name == half
        ]
        places += [state.equipment[name].place] if name in state.equipment else []
        for place in places:
            access = state.places[place].access
            return f"{access}: {place}" if access else place
    return ""
