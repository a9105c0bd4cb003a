"""Take what the fault finder shows; return its sheet: a grid of losses by functions, and where each is tested."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.paperwork.field.aboard import at_rest
from docgen.paperwork.field.fault_content import Alone, FaultContent, faults_at
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.page_kit.blocks import GRID_MM, Block, Group
from docgen.paperwork.page_kit.cautions import caution
from docgen.paperwork.page_kit.sheets import AREA_MM, Sheets
from docgen.paperwork.page_kit.tables import Column, Row, heading, lines, table
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.ink import BLACK, FAINT, MIDDLE_MM, THIN_MM, Box, Circle, Ink, Line, Text
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM, shortened, width_mm, wrapped

STEM = "fault-finder"
FIRST = (
    "Limp is supply. Stiff and not following is signal. Comes and goes: shake the joints.",
    "Try a servo known to be good. What shaking cured is not mended: no flight.",
)
_GRID = "Find the row whose dots are just what is dead. A dot is dead, a ring goes on another way."
_VOLTS = "Volts: packs on. Rings: packs and both ends unplugged."
_ALONE = "One alone is dead: quickest cover first"
_COVER_MM, _NUMBER_MM = 20.0, 6.0
_MOST_NAME_MM = 46.0
_TIGHT_ROW_MM = 3.5  # where the grid fits on one side so, and else does not
_ROW_MM, _MOST_COLUMN_MM, _LEAST_COLUMN_MM = 4.0, 5.0, 3.4
_DOT_MM = 0.9
_HEAD_MOST_MM = 60.0  # a longer label stands whole where one function alone is looked for


def compose(items: FaultContent, layout: PageLayout) -> Laid:
    """Lay out the pages of the fault finder: the grid over the whole width, then tests in two columns."""
    if not items.faults:
        return lambda _: Composed([])
    sheets = Sheets("Fault finder", layout.paper, "")
    first = [caution(at_rest(items.aboard), AREA_MM[0], 0.0)]
    first += [lines(text, AREA_MM[0], PLAIN_MM, GRID_MM / 2 * (text == FIRST[0])) for text in FIRST]
    first += [lines(_GRID, AREA_MM[0], PLAIN_MM, GRID_MM / 2)]
    whole = [Group(tuple(first)), *_grids(items, _ROW_MM)]
    if sheets.count(whole) > 1:
        tight = [whole[0], *_grids(items, _TIGHT_ROW_MM)]
        whole = tight if sheets.count(tight) == 1 else whole
    wide = [*whole, *_tests(items, AREA_MM[0]), *_alone(items, AREA_MM[0])]
    columns = replace(sheets, columns=2)
    narrow = [*_tests(items, columns.column_mm), *_alone(items, columns.column_mm)]

    def laid(title_block: TitleBlock) -> Composed:
        titled = sheets.of(title_block)
        if titled.count(wide) == 1:
            return Composed(titled.lay(wide))
        pages = titled.pages(whole) + columns.pages(narrow, headed=False)
        titled.finish(pages)
        return Composed(pages)

    return laid


def _grids(items: FaultContent, row_mm: float) -> Iterator[Group]:
    """Walk grids of as many functions as fit beside each other; of several each has the rows that mark one of them."""
    name_mm = min(max(width_mm(fault.name, SMALL_MM) for fault in items.faults) + 1, _MOST_NAME_MM)
    left = _COVER_MM + _NUMBER_MM + name_mm
    most = int((AREA_MM[0] - left) / _LEAST_COLUMN_MM)
    for start in range(0, len(items.labels), most):
        some = range(start, min(start + most, len(items.labels)))
        yield _grid(items, some, left, min((AREA_MM[0] - left) / len(some), _MOST_COLUMN_MM), row_mm)


def _grid(items: FaultContent, some: Sequence[int], left_mm: float, column_mm: float, row_mm: float) -> Group:
    middles = [left_mm + (i + 0.5) * column_mm for i in range(len(some))]
    labels = [items.labels[index] for index in some]
    high = min(max(width_mm(label, SMALL_MM, bold=True) for label in labels), _HEAD_MOST_MM) + 1.5

    def head(box: Box) -> list[Ink]:
        low = box.bottom_mm - 0.8
        return [
            Text(
                box.x_mm + x + SMALL_MM / 2,
                low,
                shortened(label, _HEAD_MOST_MM, SMALL_MM, bold=True),
                SMALL_MM,
                True,
                turned=True,
            )
            for x, label in zip(middles, labels, strict=True)
        ]

    blocks = [Block(high, head, GRID_MM, stays=True)]
    at = dict(zip(some, middles, strict=True))
    for cover, faults in faults_at(items):
        shown = cover
        for number, fault in faults:
            marks = [(at[i], True) for i in fault.dead if i in at] + [(at[i], False) for i in fault.goes_on if i in at]
            if marks or len(some) == len(items.labels):
                blocks.append(_row(shown, f"{number}", fault.name, sorted(marks), left_mm, row_mm))
                shown = ""
    again = Block(high, head, stays=True)
    return Group(tuple(blocks), again)


def _row(
    cover: str, number: str, name: str, marks: Sequence[tuple[float, bool]], left_mm: float, row_mm: float
) -> Block:
    covers = wrapped(cover, _COVER_MM - 1, SMALL_MM)
    names = wrapped(name, left_mm - _COVER_MM - _NUMBER_MM, SMALL_MM)
    pitch = 2.8
    high = max(row_mm, max(len(covers), len(names)) * pitch + row_mm - 3.0)

    def draw(box: Box) -> list[Ink]:
        base = box.y_mm + (row_mm + SMALL_MM) / 2
        ink: list[Ink] = [Text(box.x_mm, base + i * pitch, line, SMALL_MM) for i, line in enumerate(covers)]
        ink += [Line(box.x_mm, box.y_mm, box.right_mm, box.y_mm, THIN_MM, FAINT)] * bool(cover)
        ink.append(Text(box.x_mm + _COVER_MM + _NUMBER_MM - 2, base, number, SMALL_MM, True, "right"))
        at = box.x_mm + _COVER_MM + _NUMBER_MM
        ink += [Text(at, base + i * pitch, line, SMALL_MM) for i, line in enumerate(names)]
        for x, is_dead in marks:
            ring = Circle(box.x_mm + x, box.y_mm + row_mm / 2, _DOT_MM, MIDDLE_MM, BLACK if is_dead else None)
            ink.append(ring)
        return ink

    return Block(high, draw)


def _tests(items: FaultContent, room_mm: float) -> Iterator[Group]:
    """Walk covers with what is tested behind each."""
    yield Group((lines(_VOLTS, room_mm, PLAIN_MM, 2 * GRID_MM),))
    rows = {
        number: Row((f"{number}", f"{fault.name}: {fault.contacts}", fault.reads))
        for _, faults in faults_at(items)
        for number, fault in faults
    }
    columns = [Column("", bold=True, align="right"), Column("test"), Column("", bold=True, wraps=False)]
    of = table(columns, list(rows.values()), room_mm, _ROW_MM)
    for cover, faults in faults_at(items):
        again = heading(f"{cover}, continued", above_mm=1.5, row_mm=4.0)
        blocks = of.blocks([rows[number] for number, _ in faults])
        yield Group((heading(cover, above_mm=1.5, row_mm=4.0), *blocks), again)


def _alone(items: FaultContent, room_mm: float) -> Iterator[Group]:
    """Walk what is tested where a function alone is dead."""
    rows = [Row((one.label, _stops(one))) for one in items.alone]
    of = table([Column("", bold=True), Column("")], rows, room_mm, _ROW_MM)
    title = heading(_ALONE, above_mm=GRID_MM, room_mm=room_mm)
    yield Group((title, *of.blocks(rows)), heading(f"{_ALONE}, continued", room_mm=room_mm))


def _stops(one: Alone) -> str:
    """Say plugs and joints, the cover once before all that lies behind it."""
    covers = dict.fromkeys(stop.cover for stop in one.stops)
    said = {cover: ", ".join(stop.says for stop in one.stops if stop.cover == cover) for cover in covers}
    return "; ".join(f"{cover}: {stops}" for cover, stops in said.items())
