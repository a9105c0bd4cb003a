"""Take sleeves, label tubes and a bill of materials; add their tables to the pages of the cut list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.basics.units import decimal, millimetres
from docgen.harness.assembly.bill_of_materials import COLLAR_MM, SPLICE_MM, BillOfMaterials
from docgen.harness.assembly.samples import SAMPLE_MM
from docgen.harness.model.bundles import Sleeve
from docgen.paperwork.cut_list.content import TubePieces
from docgen.paperwork.typesetting.boxes import ROW_MM, TICK_MM, tick_last
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

NO_TUBE = "a tube of your own"


def add_sleeves(writer: PageWriter, sleeves: Sequence[Sleeve]) -> None:
    """Add the table of sleeves."""
    if not sleeves:
        return
    writer.space(5)
    title = "Sleeves"
    writer.heading(title, LARGE_MM, keep_mm=3 * ROW_MM)
    writer.paragraph("They shorten as they open over the wires; cut lengths allow for it.", SMALL_MM)
    columns = [
        Column("cut, mm", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("sleeve", PLAIN_MM, gives=True),
        Column("kind", PLAIN_MM, gives=True),
        Column("from", PLAIN_MM, gives=True),
        Column("to", PLAIN_MM, gives=True),
        Column("over", PLAIN_MM),
        Column("cut", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    rows = [
        (
            millimetres(sleeve.cut_length_mm),
            sleeve.kind.name,
            sleeve.kind.kind,
            *sleeve.ends,
            f"{sleeve.diameter_mm:.1f} mm of wires",
            "",
        )
        for sleeve in sleeves
    ]
    writer.table(columns, rows, TableStyle(ROW_MM), title, tick_last)


def add_tubes(writer: PageWriter, tubes: Sequence[TubePieces]) -> None:
    """Add the table of label tubes."""
    if not tubes:
        return
    writer.space(5)
    title = "Tubes for the labels"
    writer.heading(title, LARGE_MM, keep_mm=3 * ROW_MM)
    columns = [
        Column("pieces", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("tube", PLAIN_MM),
        Column("inside, mm", PLAIN_MM, align="right"),
        Column("each, mm", PLAIN_MM, align="right"),
        Column("together, m", PLAIN_MM, align="right"),
        Column("cut", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    rows = [
        (
            str(tube.pieces),
            tube.tube.name,
            decimal(tube.tube.expanded_mm),
            decimal(tube.length_mm),
            f"{tube.pieces * tube.length_mm / 1000:.2f}",
            "",
        )
        for tube in tubes
    ]
    writer.table(columns, rows, TableStyle(ROW_MM), title, tick_last)


def add_bill(writer: PageWriter, bill: BillOfMaterials) -> None:
    """Add the table of everything else."""
    rows = [(str(count), what, says, "") for count, what, says in _bill_rows(bill)]
    if not rows:
        return
    writer.space(5)
    title = "Everything else to get out"
    writer.heading(title, LARGE_MM, keep_mm=3 * ROW_MM)
    columns = [
        Column("count", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("what", PLAIN_MM, gives=True),
        Column("", SMALL_MM, gives=True),
        Column("", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    writer.table(columns, rows, TableStyle(ROW_MM, key_column=1), title, tick_last)


def _bill_rows(bill: BillOfMaterials) -> Iterator[tuple[int, str, str]]:
    """Walk how many of what to get out, and what to know of it."""
    for wire, count in bill.sample_wires.items():
        says = f"pieces of wire for pull samples, of any colour; {count * SAMPLE_MM / 1000:.2f} m in all"
        yield count, f"{wire}, {SAMPLE_MM:.0f} mm", says
    for of in bill.contacts:
        says = f"contacts; {of.fitted} fitted, pull samples {of.samples}, a tenth to spare"
        yield of.count, f"{of.connector} {of.gender}", says
    for (connector, gender), count in bill.housings.items():
        yield count, f"{connector} for {gender}", "housings"
    for connector, count in bill.retainers.items():
        yield count, connector, "retainers, or turns of tape, for mated pairs"
    for tube, count in bill.collars.items():
        yield count, tube or NO_TUBE, f"collars of {decimal(COLLAR_MM)} mm, two for each sleeve"
    for tube, count in bill.splice_tubes.items():
        yield count, tube or NO_TUBE, f"tubes of {decimal(SPLICE_MM)} mm over splices"
    for inside_mm, count in bill.grommets.items():
        yield count, f"{inside_mm} mm inside at least", "grommets"
    if bill.clips:
        every = f"one every {decimal(bill.clip_every_mm)} mm, at each half within 50 mm"
        yield bill.clips, "as thick as the bundle", f"clips: {every}, where a coil or a free tail begins or routes part"
