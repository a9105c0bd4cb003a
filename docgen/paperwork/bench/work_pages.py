"""Take what the order of work holds; return its pages: samples to pull, then a matrix for each assembly."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain

from docgen.basics.pulls import SOURCE
from docgen.harness.assembly.samples import SAMPLE_MM, Sample
from docgen.harness.assembly.work import AssemblyWork
from docgen.paperwork.bench.work_content import WorkContent
from docgen.paperwork.bench.work_steps import columns_of, rows_of, steps_of
from docgen.paperwork.labels.content import CAUTION
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.naming import unmeasured_text
from docgen.paperwork.page_kit.blocks import GRID_MM, Block, Group, abreast, joined
from docgen.paperwork.page_kit.cautions import caution
from docgen.paperwork.page_kit.cells import Cell, Field, Stacked, Tick
from docgen.paperwork.page_kit.sheets import AREA_MM, COLUMN_GAP_MM, Sheets
from docgen.paperwork.page_kit.tables import TICKED_MM, Column, Row, band, heading, lines, notice, table
from docgen.paperwork.typesetting.composed import Composed, Laid

STEM = "order-of-work"
_WHOLE_MM = AREA_MM[1] / 2  # what is higher may be parted, so that no page is left half empty
_HALF_MM = (AREA_MM[0] - COLUMN_GAP_MM) / 2
_EYES = "Glasses on: what gives flies, and wire ends are sharp."
_IRON = "An iron burns, and so does what drips from it: glasses on. Solder's fumes harm: air the room."
_N_PER_KG = 9.80665
_LAST = (
    "When all assemblies are in the aircraft, electronics still unplugged: mate all disconnects, and ring out whole "
    "paths by the ring-out sheet."
)


def compose(items: WorkContent, layout: PageLayout) -> Laid:
    """Lay out the pages: samples first, then the assemblies one after the other, whole paths at the last."""
    if not items.assemblies:
        return lambda _: Composed([])
    sheets = Sheets("Order of work", layout.paper, CAUTION)
    matrix = _Matrix(items)
    groups = notice("To be measured before it is cut", unmeasured_text(items.unmeasured), AREA_MM[0])
    pulled = (heading("First: pull samples", 3.5, above_mm=0), *pulled_samples(items.samples))
    groups += [Group(pulled)] if items.samples else []
    groups += [group for work in items.assemblies for group in matrix.groups(work)]
    if items.has_paths:
        groups.append(Group(tuple(_whole_paths())))
    return lambda title_block: Composed(sheets.of(title_block).lay(groups))


def pulled_samples(samples: Sequence[Sequence[Sample]]) -> Iterator[Block]:
    """Walk how samples are pulled, and a field for each."""
    if not samples:
        return
    says = (
        f"Crimp one sample of each wire and contact with the tool of the day, about {SAMPLE_MM:.0f} mm long, and pull "
        f"it until it gives: it must hold the least force ({SOURCE}). Contacts that fly get a tug."
    )
    yield caution(_EYES, AREA_MM[0], 1.0, stays=True)
    yield lines(says, AREA_MM[0], above_mm=2.0, stays=True)
    rows = [list(_of_wires(group)) for group in samples]
    columns = [Column("", 2.5), Column("pins held"), Column("sockets held")]
    of = table(columns, [row for group in rows for row in group], _HALF_MM, TICKED_MM)
    blocks = [[_gauge(group[0]), *of.blocks(its)] for group, its in zip(samples, rows, strict=True)]
    parted = [(list(chain(*blocks[:i])), list(chain(*blocks[i:]))) for i in range(1, len(blocks) + 1)]
    left, right = min(parted, key=lambda both: max(map(len, both)))
    yield from abreast([of.head(), *left], [of.head(), *right] if right else [], COLUMN_GAP_MM)


def _gauge(sample: Sample) -> Block:
    """Return the heading of the samples of one gauge, with what all of them must hold."""
    if sample.least_n is None:
        return heading(f"{sample.gauge.text}: no least force is known", above_mm=0, row_mm=TICKED_MM)
    military = "" if sample.military_n is None else f"military {_force(sample.military_n)}"
    return heading(f"{sample.gauge.text}: at least {_force(sample.least_n)}", 2.5, military, 0, TICKED_MM)


def _force(newtons: float) -> str:
    return f"{newtons:.1f} N, {newtons / _N_PER_KG:.2f} kg"


def _of_wires(samples: Sequence[Sample]) -> Iterator[Row]:
    """Walk the rows of one gauge: each wire with each connector, and a field for each gender."""
    genders: dict[tuple[str, str], set[str]] = {}
    for sample in samples:
        genders.setdefault((sample.wire, sample.connector), set()).add(sample.gender)
    for (wire, connector), its in genders.items():
        fields: list[Cell] = [Field() if gender in its else "" for gender in ("pins", "sockets")]
        yield Row((f"{wire} · {connector}", *fields), rule=True)


class _Matrix:
    """The matrices of all assemblies, whose columns stand at the same places."""

    def __init__(self, items: WorkContent) -> None:
        self.items = items
        rows = {work.assembly: rows_of(items, work) for work in items.assemblies}
        columns = columns_of(items.labels.each, has_straight=bool(items.straight))
        every = [row for its in rows.values() for row in its]
        used = [i for i in range(len(columns)) if any(row.cells[i] for row in every)]
        self.rows = {name: [_only(row, used) for row in its] for name, its in rows.items()}
        self.table = table([columns[i] for i in used], list(chain(*self.rows.values())), AREA_MM[0], TICKED_MM)

    def groups(self, work: AssemblyWork) -> Iterator[Group]:
        """Walk the matrix of an assembly and what is done to all leads, on one page if half of one does for both."""
        again = joined(band(f"{work.assembly}, continued"), self.table.head())
        rows = self.rows[work.assembly]
        matrix = (self.table.head(), *self.table.blocks(rows)) if rows else ()
        leads = Group((band(work.assembly), *matrix), again)
        below, *more = self._below(work)
        both = Group((*leads.blocks, *below.blocks))
        yield from [_whole(both)] if both.height_mm <= _WHOLE_MM and not more else [leads, below, *more]

    def _below(self, work: AssemblyWork) -> list[Group]:
        """Return what is done to all leads, on one page unless it takes more than half of one.

        Then it is parted, first where it has been sleeved, so that on no page a later step is read before an earlier.
        """
        title = f"{work.assembly}, all leads"
        says = "5 and 6 before 7; 10 to 15 after 9" if self.rows[work.assembly] else ""
        head = heading(title, says=says, above_mm=GRID_MM)
        soldered = work.is_soldered or (self.items.splices.join == "solder" and work.splices)
        warning = caution(f"{CAUTION} {_IRON}" if soldered else CAUTION, AREA_MM[0])
        rows, first = list(steps_of(self.items, work)), 1 + len(work.sleeves)
        group = Group((head, *self._abreast(rows), warning))
        if group.height_mm <= _WHOLE_MM:
            return [_whole(group)]
        again = heading(f"{title}, continued", above_mm=GRID_MM)
        laid_up, (shrunk, *rest) = ([*self._parts(some)] for some in (rows[:first], rows[first:]))
        parts = [*laid_up, [*shrunk, warning], *rest]
        return [_whole(Group((again if number else head, *part))) for number, part in enumerate(parts)]

    def _parts(self, rows: Sequence[Row]) -> Iterator[list[Block]]:
        """Walk parts of the steps, none of them higher than half a page."""
        blocks, half = self._abreast(rows), len(rows) // 2
        if half and sum(block.height_mm for block in blocks) > _WHOLE_MM:
            yield from chain(self._parts(rows[:half]), self._parts(rows[half:]))
        else:
            yield blocks

    def _abreast(self, rows: Sequence[Row]) -> list[Block]:
        of = table([Column("", 2.5, 2.5, bold=True), Column("")], list(rows), _HALF_MM, TICKED_MM)
        half = (len(rows) + 1) // 2
        return abreast(of.blocks(rows[:half]), of.blocks(rows[half:]), COLUMN_GAP_MM)


def _whole(group: Group) -> Group:
    """Return a group that is never parted."""
    return replace(group, blocks=tuple(replace(block, stays=True) for block in group.blocks))


def _only(row: Row, used: Sequence[int]) -> Row:
    return Row(tuple(row.cells[i] for i in used), row.rule)


def _whole_paths() -> Iterator[Block]:
    yield heading("Last: whole paths", 3.5)
    columns = [Column("", 2.5, 2.5, bold=True), Column("")]
    row = Row((Stacked("whole paths ring out, nothing else does", under=_LAST), Tick()), rule=True)
    of = table(columns, [row], AREA_MM[0], TICKED_MM)
    yield of.block(row)
