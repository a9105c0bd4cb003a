"""Take a harness; return what the cut list holds: pieces, sleeves, tubes of labels, all else, and what to buy."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from docgen.basics.frozen import frozen
from docgen.basics.units import millimetres
from docgen.harness.assembly.bill_of_materials import BillOfMaterials, bill_of_materials
from docgen.harness.assembly.unmeasured import Waiting, straight_leads, straight_sleeves, waiting_leads
from docgen.harness.bundling.sleeves import sleeves_of
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import OwnLeads
from docgen.harness.model.harness import Harness
from docgen.paperwork.cut_list.pieces import Group, groups_of
from docgen.paperwork.cut_list.shopping import Shopping, shopping
from docgen.paperwork.items import Item, item
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.reading import KINDS
from docgen.paperwork.stocks.stock import printed

_USUAL_STOCK = "strips-a4"  # of the other paper the same goes under the same tubes


@frozen
class CutContent:
    """All groups, leads that came along, sleeves, label tubes by name, all else, what to buy.

    `unmeasured` are the leads that are left out, having no length; `straight` those cut by a straight line.
    """

    groups: tuple[Group, ...]
    own_leads: tuple[OwnLeads, ...]
    sleeves: tuple[Sleeve, ...]
    label_tubes: dict[str | None, int]
    bill: BillOfMaterials
    shopping: Shopping
    unmeasured: tuple[Waiting, ...]
    straight: tuple[Waiting, ...]
    straight_sleeves: frozenset[tuple[int, ...]]


def content(harness: Harness) -> CutContent:
    """Return what there is to cut: groups of pieces; sleeves as on the parts list, longest first; and all else."""
    harness = harness.made
    kinds = [kind.name for kind in harness.sleeves]
    sleeves = sorted(sleeves_of(harness.bundles), key=lambda s: (kinds.index(s.kind.name), -(s.cut_length_mm or 0)))
    groups, bill = groups_of(harness), bill_of_materials(harness)
    label_tubes = _label_tubes(harness)
    return CutContent(
        groups=tuple(groups),
        own_leads=tuple(lead for lead in harness.leads() if isinstance(lead, OwnLeads)),
        sleeves=tuple(sleeves),
        label_tubes=label_tubes,
        bill=bill,
        shopping=shopping(harness, groups, sleeves, label_tubes, bill),
        unmeasured=waiting_leads(harness),
        straight=straight_leads(harness),
        straight_sleeves=straight_sleeves(harness),
    )


def items(content: CutContent) -> list[Item]:
    """Return each piece of wire as it is compared: it is cut anew for its length, colour or part alone."""
    return [
        item(
            piece.key,
            (piece.mark or "", piece.function, piece.start, piece.goal),
            (f"{millimetres(piece.length_mm)} mm", group.colour, group.gauge.text, group.part),
        )
        for group in content.groups
        for piece in group.pieces
    ]


def _label_tubes(harness: Harness) -> dict[str | None, int]:
    """Return how many tubes the labels want of each size, as on the usual stock; the narrowest first.

    A label that is wrap or flag there wants none. The list is made without being told on which stock labels are.
    """
    pieces, _, _ = printed(wire_labels.content(harness), read_shipped(_USUAL_STOCK, KINDS))
    counts = Counter(piece.place.size[1] for piece in pieces if not piece.place.instead)
    return {tube.name: counts[tube.name] for tube in harness.tubes if counts[tube.name]}


def ordered(items: CutContent, colours: Sequence[str]) -> CutContent:
    """Return the groups in the builder's own order of colours, those that it does not name after them."""
    place = {colour: i for i, colour in enumerate(colours)}
    groups = sorted(items.groups, key=lambda group: place.get(group.colour, len(place)))
    return replace(items, groups=tuple(groups))
