"""Take groups of pieces, sleeves, tubes and the bill of materials; return what must be bought by length, each once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from docgen.basics.frozen import frozen
from docgen.harness.assembly.bill_of_materials import COLLAR_MM, CONTACT_MM, SPLICE_MM, BillOfMaterials
from docgen.harness.assembly.samples import SAMPLE_MM
from docgen.harness.assembly.shelf import shelf_of
from docgen.harness.bundling.tubes import LABEL_MM
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.harness import Harness
from docgen.paperwork.cut_list.pieces import Group


@frozen
class WireToBuy:
    """Spools of one length, or a piece of that length where none is sold, of a wire or lead; of samples any colour.

    `shelf_mm` is what the shelf has of it, or nothing where nothing is said of the shelf. Without a length it is that
    many pieces that are not measured.
    """

    part: str
    colour: str | None
    count: int
    length_mm: float | None
    shelf_mm: float | None


@frozen
class Shopping:
    """Wires, and together how much sleeve and tube of each name; a tube without a name is the builder's own.

    `sleeves_unmeasured` are how many pieces of sleeve are not measured.
    """

    wires: tuple[WireToBuy, ...]
    sleeves_mm: dict[str, float]
    sleeves_unmeasured: dict[str, int]
    tubes_mm: dict[str | None, float]


def shopping(
    harness: Harness,
    groups: Sequence[Group],
    sleeves: Sequence[Sleeve],
    label_tubes: Mapping[str | None, int],
    bill: BillOfMaterials,
) -> Shopping:
    """Return everything to buy by length, labels' tubes by their names; what is counted is in the bill of materials."""
    sleeves_mm: dict[str, float] = {}
    for sleeve in sleeves:
        sleeves_mm[sleeve.kind.name] = sleeves_mm.get(sleeve.kind.name, 0.0) + (sleeve.cut_length_mm or 0.0)
    sleeves_unmeasured = Counter(sleeve.kind.name for sleeve in sleeves if sleeve.cut_length_mm is None)
    tubes_mm: dict[str | None, float] = {}
    pieces = (
        (label_tubes, LABEL_MM),
        (bill.collars, COLLAR_MM),
        (bill.splice_tubes, SPLICE_MM),
        (bill.contact_tubes, CONTACT_MM),
    )
    for counts, length_mm in pieces:
        for name, count in counts.items():
            tubes_mm[name] = tubes_mm.get(name, 0.0) + count * length_mm
    in_order = (*(tube.name for tube in harness.tubes), None)
    wires = *_wires(harness, groups), *_samples(harness, groups, bill)
    in_order_mm = {name: tubes_mm[name] for name in in_order if name in tubes_mm}
    return Shopping(wires, sleeves_mm, sleeves_unmeasured, in_order_mm)


def _wires(harness: Harness, groups: Sequence[Group]) -> Iterator[WireToBuy]:
    for group in groups:
        if group.plan is None and group.pieces:
            yield WireToBuy(group.part, group.colour, 1, group.total_mm, None)
        shelf_mm = sum(spool.length_mm for spool in shelf_of(harness, group.part, group.colour))
        bought = Counter(cut.length_mm for cut in (group.plan.cuts if group.plan is not None else ()) if cut.bought)
        for length_mm, count in sorted(bought.items()):
            yield WireToBuy(group.part, group.colour, count, length_mm, shelf_mm)
        if group.unmeasured:
            yield WireToBuy(group.part, group.colour, group.unmeasured, None, None)


def _samples(harness: Harness, groups: Sequence[Group], bill: BillOfMaterials) -> Iterator[WireToBuy]:
    """Walk the wires of which what is left over on spools does not give all samples; a lead gives its wires'."""
    rests = list(_rests(harness, groups))
    bought = [lead for lead in harness.cut_leads() if lead.part.bought]
    for wire, count in bill.sample_wires.items():
        parts = {wire, *(lead.part.name for lead in bought if any(of.kind.name == wire for of in lead.wires))}
        given = sum(int(rest_mm // SAMPLE_MM) for part, rest_mm in rests if part in parts)
        if given < count:
            yield WireToBuy(wire, None, 1, (count - given) * SAMPLE_MM, 0.0 if harness.spools else None)


def _rests(harness: Harness, groups: Sequence[Group]) -> Iterator[tuple[str, float]]:
    """Walk what is left on each spool of the shelf, and on each that is bought, by wire or lead."""
    cuts = [(group.part, cut) for group in groups if group.plan is not None for cut in group.plan.cuts]
    left_mm = {cut.number: cut.rest_mm for _, cut in cuts if not cut.bought}
    for number, spool in enumerate(harness.spools, 1):
        yield spool.part, left_mm.get(number, spool.length_mm)
    yield from ((part, cut.rest_mm) for part, cut in cuts if cut.bought)
