"""Take what the hangar card shows; return its pages: one sheet, folded to two sides, for a pouch."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain

from docgen.basics.findings import Finding, listed
from docgen.basics.units import decimal
from docgen.paperwork.field.aboard import field_caution
from docgen.paperwork.field.acts import acts_off, acts_on, numbered
from docgen.paperwork.field.hangar_content import HangarContent, Pack, Stroke
from docgen.paperwork.field.plan import plan_height_mm, plan_ink
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.naming import sides_text
from docgen.paperwork.page_kit.blocks import GRID_MM, Block, Group, abreast, joined
from docgen.paperwork.page_kit.cautions import caution
from docgen.paperwork.page_kit.cells import Stacked, Tick
from docgen.paperwork.page_kit.folded import SIDE_MM, Folded
from docgen.paperwork.page_kit.sheets import disclaimer
from docgen.paperwork.page_kit.tables import Column, Row, heading, lines, table
from docgen.paperwork.typesetting.codes import as_much
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.ink import THIN_MM, Box, Ink, Line, Text
from docgen.paperwork.typesetting.title_block import Corner, TitleBlock, corner_ink, corner_size
from docgen.paperwork.typesetting.typeface import HUGE_MM, PLAIN_MM, SMALL_MM

STEM = "hangar-card"
_WIDTH_MM = SIDE_MM[0]
_LOCKS_MM, _GAP_MM = 76.0, 5.0
_PACKS_MM = _WIDTH_MM - _LOCKS_MM - _GAP_MM
_CHECKS_MM, _CHECKS_GAP_MM = (63.6, 60.4), 3.0
_PLAN_MM, _PLAN_HIGH_MM = 62.0, (50.0, 40.0)
_LOG_LINES, _LOG_LINE_MM = range(12, 0, -1), 6.0
_CODE_MM = 27.0
_CARD_COLUMNS, _SEEN_COLUMNS = 4, 4
_ROW_MM = 4.2
_CLEAR = Block(GRID_MM, lambda box: ())  # noqa: ARG005 - it has no ink
_LOG = {8.0: "date", 24.0: "changed what", 58.0: "from", 80.0: "to", 104.0: "put in the file"}
_TOOLS = {"crimp": "crimp tool, extraction tool", "solder": "iron, tube"}


def compose(items: HangarContent, layout: PageLayout) -> Laid:
    """Lay out the sheet of the hangar card: as many lines for the log as it has room for, else with a lower plan.

    Where locks and packs have no room on the front, legs go below locks, else all of that goes to the back.
    """

    def laid(title_block: TitleBlock) -> Composed:
        sheets = Folded("Hangar card", layout.paper[::-1], "").of(title_block)
        front, backs = _front(items, title_block), list(_backs(items, title_block))
        usual, lower = (_locks_and_packs(items, legs_left=left) for left in (False, True))
        fronts = [[*front, Group((_CLEAR, *both))] for both in (usual, lower)]
        ways = [(whole, back) for whole in fronts for back in backs]
        ways += [(front, [Group((*usual, _CLEAR)), *back]) for back in backs]
        way = next((way for way in ways if sheets.count(*way) == 1), (fronts[0], backs[-1]))
        return Composed(sheets.lay(*way))

    return laid


def _front(items: HangarContent, title_block: TitleBlock) -> list[Group]:
    on, off = list(acts_on(items.switching, items.aboard)), list(acts_off(items.switching, items.aboard))
    return [
        Group(tuple(_top(items, title_block))),
        Group((heading("Switch on", above_mm=GRID_MM), *numbered(on, _WIDTH_MM, 0))),
        Group((heading("Switch off", above_mm=GRID_MM), *numbered(off, _WIDTH_MM))),
    ]


def _locks_and_packs(items: HangarContent, *, legs_left: bool) -> list[Block]:
    """Return both beside each other, below either legs with what their controllers are set to."""
    locks, packs = list(_locks(items)), list(_packs(items))
    column, room_mm = (locks, _LOCKS_MM) if legs_left else (packs, _PACKS_MM)
    said = [f"{sides_text(stroke.names)}: {_set(stroke)}" for stroke in items.strokes]
    column += [lines(text, room_mm, above_mm=1.0) for text in said]
    return abreast([joined(*locks)], [joined(*packs)] if packs else [], _GAP_MM, _LOCKS_MM)


def _top(items: HangarContent, title_block: TitleBlock) -> Iterator[Block]:
    """Walk whose it is and the caution, with the code beside them."""
    corner = _corner(items, title_block)
    width, height = corner_size(corner)
    room = _WIDTH_MM - width - (_GAP_MM if corner else 0.0)
    name = heading(f"{items.name} · {items.marks}", HUGE_MM, above_mm=0, room_mm=room)
    said = [lines(text, room, PLAIN_MM, 0.8) for text in (items.contact,) if text]
    left = joined(name, *said, caution(field_caution(items.aboard), room, 1.5))
    code = [Block(height, lambda box: corner_ink(corner, box.x_mm, box.y_mm))] if corner else []
    yield from abreast([left], code, _GAP_MM, room)
    for finding in items.cautions:
        yield lines(_found(finding), _WIDTH_MM, PLAIN_MM, 1.0)


def _found(finding: Finding) -> str:
    accepted = f" Accepted: {finding.accepted}." if finding.accepted else ""
    return f"{finding.sentence}".replace("`", "") + accepted


def _packs(items: HangarContent) -> Iterator[Block]:
    """Walk packs as a table, if there are any, and those that are taken for others."""
    rows = [
        Row((sides_text(pack.names), _volts(pack.full_v), _volts(pack.land_v), _flights(pack.flights)))
        for pack in items.packs
    ]
    if rows:
        figures = ("full\nV", "land\nbelow V", "flights")
        columns = [Column(head, PLAIN_MM, align="right") for head in figures]
        of = table([Column(Stacked("Packs"), PLAIN_MM, bold=True), *columns], rows, _PACKS_MM)
        yield of.head()
        yield from of.blocks(rows)
    for names in _mixed(items.packs):
        yield lines(f"{names}: one plug, other volts. Read the label first.", _PACKS_MM, above_mm=1.0)
    for name, harmed in items.too_high:
        said = f"{name} fits {listed(harmed)} too: too many volts. Read the label first."
        yield lines(said, _PACKS_MM, above_mm=1.0)


def _mixed(packs: Iterable[Pack]) -> Iterator[str]:
    """Walk packs of other volts that go into each other's places, by their plug."""
    by_plug: dict[str, list[Pack]] = {}
    for pack in packs:
        by_plug.setdefault(pack.plug, []).append(pack)
    for plug, some in by_plug.items():
        if plug and len({pack.full_v for pack in some}) > 1:
            yield ", ".join(sides_text(pack.names) for pack in some)


def _set(stroke: Stroke) -> str:
    """Say how long legs take, and what their controller is set to."""
    figures = ("stroke", stroke.longer_s, "s"), ("limit", stroke.limit_s, "s"), ("stop", stroke.stop_a, "A")
    return ", ".join(f"{name} {decimal(value)} {unit}" for name, value, unit in figures if value is not None)


def _volts(volts: float) -> str:
    return f"{volts:.1f}"


def _flights(flights: float | None) -> str:
    return "" if flights is None else f"{flights:.1f}"


def _locks(items: HangarContent) -> Iterator[Block]:
    """Walk what is locked: joints, plugs with retainers, hatches, packs; when it is and how it is opened apart."""
    rows = [(sides_text(lock.names), lock.locked or "home", lock.opens) for lock in items.locks]
    rows += [("servo plugs", "retainer on", "retainer off first, then by the housings")] * items.retained
    rows += [("hatches and covers", "shut, catches home", "")] * items.hatches
    rows += [("packs", "strapped, leads clear", "plug first, then strap")]
    columns = [Column(Stacked("Locks"), PLAIN_MM, bold=True), Column("locked when"), Column("to open")]
    of = table(columns, [Row(row) for row in rows], _LOCKS_MM, _ROW_MM)
    yield of.head()
    yield from of.blocks([Row(row) for row in rows])


def _corner(items: HangarContent, title_block: TitleBlock) -> Corner | None:
    """Return the code of the record's address, else of as much of its short form as its place takes."""
    if link := title_block.link("record.txt"):
        return Corner(link, "the whole record")
    first, *short = items.short.headed(items.marks, title_block.issue)
    text = as_much([first, *short], _CODE_MM)
    held = sum(one == other for one, other in zip(text.split("\n")[1:], short, strict=False))
    return Corner(text, items.short.named(held)) if text else None


def _backs(items: HangarContent, title_block: TitleBlock) -> Iterator[list[Group]]:
    """Walk what may stand on the back, with less and less room for the log, then for the plan."""
    control, below = _control(items), [_cards(items, title_block), _season(items)]
    end = Group((replace(disclaimer(_WIDTH_MM), above_mm=2.0),))
    for plan_mm in _PLAN_HIGH_MM:
        above = [Group(tuple(blocks)) for blocks in (control, _plan(items, plan_mm), *below) if blocks]
        yield from ([*above, Group((_log(count),)), end] for count in _LOG_LINES)


def _control(items: HangarContent) -> list[Block]:
    """Return the control check: a box for each function, in two columns; below what is only seen to move."""
    seen = [one.function for one in items.channels if (one.throw, one.failsafe) == ("", "")]
    said = [one for one in items.channels if (one.throw, one.failsafe) != ("", "")]
    rows = [Row((one.function, one.throw, one.failsafe or "", Tick())) for one in said]
    half = (len(rows) + 1) // 2
    left, right = _controls(rows[:half], _CHECKS_MM[0]), _controls(rows[half:], _CHECKS_MM[1])
    return abreast(left, right, _CHECKS_GAP_MM, _CHECKS_MM[0]) + _seen_to_move(seen, is_first=not rows)


def _seen_to_move(functions: Sequence[str], *, is_first: bool) -> list[Block]:
    """Return rows of functions with a box for each, with a heading if nothing stands above."""
    cells = [(name, Tick()) for name in functions] + [("", "")] * (-len(functions) % _SEEN_COLUMNS)
    rows = [Row(tuple(chain(*cells[i : i + _SEEN_COLUMNS]))) for i in range(0, len(cells), _SEEN_COLUMNS)]
    title = [heading("Check", above_mm=0)] * (is_first and bool(rows))
    columns = [Column("", PLAIN_MM, bold=True), Column("")] * _SEEN_COLUMNS
    return [*title, *table(columns, rows, _WIDTH_MM).blocks(rows)]


def _controls(rows: Sequence[Row], room_mm: float) -> list[Block]:
    """Return one column of it, without what none of its functions has."""
    if not rows:
        return []
    heads = [Column(Stacked("Check"), PLAIN_MM, bold=True), Column("throw"), Column("fail-safe", wraps=False)]
    heads.append(Column(""))
    kept = [i for i in range(len(heads)) if any(row.cells[i] for row in rows)]
    some = [Row(tuple(row.cells[i] for i in kept)) for row in rows]
    of = table([heads[i] for i in kept], some, room_mm)
    return [of.head(), *(of.block(row) for row in some)]


def _plan(items: HangarContent, most_mm: float) -> list[Block]:
    """Return the plan, at most so high, beside it what its numbers and letters stand for, and what to have at hand."""
    plan, room = items.plan, _WIDTH_MM - _PLAN_MM - _GAP_MM
    keys = [lines(f"{key}  {says}", (room - 3) / 2) for key, says in (*plan.joints, *plan.covers)]
    half = (len(keys) + 1) // 2
    said = abreast(keys[:half], keys[half:], 3.0)
    said += [lines("Arrows: antennas, as they lie; a ring: upright.", room, above_mm=1.5)] * plan.has_antennas
    tools = ", ".join(_TOOLS[join] for join in items.joins)
    kit = f"Field kit: spare contacts and one housing of each plug and shell on the cut list; {tools}, stripper, meter."
    said += [lines(kit, room, above_mm=1.5)] * items.kit
    if not said:
        return []
    title = heading("From above: joints numbered, covers lettered", above_mm=GRID_MM)
    if not plan.marks:
        return [joined(*said)]
    drawn = Block(plan_height_mm(plan, _PLAN_MM, most_mm), lambda box: plan_ink(plan, box))
    return [title, *abreast([drawn], [joined(*said)], _GAP_MM, _PLAN_MM)]


def _cards(items: HangarContent, title_block: TitleBlock) -> list[Block]:
    """Return the cards that belong aboard, with four characters of each hash, and the issue of each or once of all."""
    issues = [title_block.parts.get(key, "") for card in items.cards for key, _ in card.hashes]
    of_all = issues[0] if len(set(issues)) == 1 else None
    cells = []
    for card in items.cards:
        said = dict.fromkeys(title_block.parts.get(key, "") for key, _ in card.hashes) if of_all is None else {}
        cells.append(" ".join([card.name, *said, *(digest[:4] for _, digest in card.hashes)]))
    cells += [""] * (-len(cells) % _CARD_COLUMNS)
    down = len(cells) // _CARD_COLUMNS
    rows = [Row(tuple(cells[i::down])) for i in range(down)]
    of = table([Column("")] * _CARD_COLUMNS, rows, _WIDTH_MM, 3.5)
    stands = f"issue {of_all or ''}".strip()
    says = ", ".join(filter(None, (stands, "first four characters of each half")))
    return [heading(f"Cards aboard: {says}", above_mm=GRID_MM), *of.blocks(rows)] if rows else []


def _season(items: HangarContent) -> list[Block]:
    """Return the runs to look at each season, a line for each reason."""
    season = items.season
    kinds = ("sharp edges", season.sharp), ("heat", season.hot), ("hinges", season.hinged)
    said = [f"Each season, {reason}: {', '.join(runs)}." for reason, runs in kinds if runs]
    return [lines(text, _WIDTH_MM, above_mm=0.5 if number else GRID_MM) for number, text in enumerate(said)]


def _log(count: int) -> Block:
    def head(box: Box) -> list[Ink]:
        log: list[Ink] = [Text(box.x_mm, box.bottom_mm, "Log", PLAIN_MM, bold=True)]
        return log + [Text(box.x_mm + left, box.bottom_mm, text, SMALL_MM) for left, text in _LOG.items()]

    def line(box: Box) -> list[Ink]:
        return [Line(box.x_mm, box.bottom_mm, box.right_mm, box.bottom_mm, THIN_MM)]

    written = [Block(_LOG_LINE_MM, line) for _ in range(count)]
    return joined(Block(PLAIN_MM, head, GRID_MM), *written)
