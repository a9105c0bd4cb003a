"""Take a harness; return what the cut list holds: pieces by colour and wire, sleeves, tubes of labels, and all else."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from docgen.basics.colours import colour_order
from docgen.basics.gauges import Gauge
from docgen.harness.assembly.bill_of_materials import BillOfMaterials, bill_of_materials
from docgen.harness.assembly.cutting import CutPiece, LeadPiece, TailPiece, lead_pieces, tail_pieces
from docgen.harness.assembly.shelf import plan_group
from docgen.harness.assembly.spools import Cut, SpoolPlan
from docgen.harness.bundling.sleeves import LABEL_MM, sleeves_of
from docgen.harness.bundling.tubes import choose_tube
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import End, OwnLeads, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.content import LabelItem
from docgen.paperwork.naming import end_text, half_title, marks_text


@dataclass(frozen=True)
class Piece:
    """One piece to cut, and where its two ends go; a tail, which has no mark, is for its common."""

    length_mm: float
    mark: str | None
    function: str
    start: str
    goal: str


@dataclass(frozen=True)
class Group:
    """Pieces of one wire and colour, or of one ready-made lead, longest first, and how they come off spools."""

    colour: str
    gauge: Gauge
    part: str
    pieces: tuple[Piece, ...]
    plan: SpoolPlan | None

    @property
    def cut_of(self) -> dict[int, Cut]:
        """Return for each piece, by its place in the group, the spool that it comes off."""
        return {index: cut for cut in self.plan.cuts for index in cut.pieces} if self.plan is not None else {}

    @property
    def total_mm(self) -> float:
        """Return the length of all its pieces."""
        return sum(piece.length_mm for piece in self.pieces)


@dataclass(frozen=True)
class TubePieces:
    """How many label tubes of one size are cut, each `length_mm` long."""

    tube: TubePart
    pieces: int
    length_mm: float


@dataclass(frozen=True)
class CutContent:
    """All groups, what plugs straight in with nothing to cut, sleeves, tubes for the labels, and all else."""

    groups: tuple[Group, ...]
    own_leads: tuple[OwnLeads, ...]
    sleeves: tuple[Sleeve, ...]
    tubes: tuple[TubePieces, ...]
    bill: BillOfMaterials


def content(harness: Harness) -> CutContent:
    """Return what there is to cut: groups by colour, then thick first; sleeves as on the parts list, longest first."""
    pieces: list[tuple[CutPiece, Piece]] = [(cut, _of_lead(cut)) for cut in lead_pieces(harness)]
    pieces += [(cut, _of_tail(cut)) for cut in tail_pieces(harness)]
    cuts: dict[tuple[str, str, Gauge], list[Piece]] = {}
    for cut, piece in pieces:
        cuts.setdefault((cut.part, cut.colour, cut.gauge), []).append(piece)
    groups = [_group(harness, *key, some) for key, some in cuts.items()]
    groups.sort(key=lambda group: (colour_order(group.colour), -group.gauge.area_mm2, group.part))
    kinds = [kind.name for kind in harness.sleeves]
    sleeves = sorted(sleeves_of(harness.bundles), key=lambda s: (kinds.index(s.kind.name), -s.cut_length_mm))
    return CutContent(
        groups=tuple(groups),
        own_leads=tuple(lead for lead in harness.leads() if isinstance(lead, OwnLeads)),
        sleeves=tuple(sleeves),
        tubes=_tube_pieces(harness, wire_labels.content(harness).labels),
        bill=bill_of_materials(harness),
    )


def _group(harness: Harness, part: str, colour: str, gauge: Gauge, pieces: Sequence[Piece]) -> Group:
    longest_first = tuple(sorted(pieces, key=lambda piece: -piece.length_mm))
    plan = plan_group(harness, part, colour, [piece.length_mm for piece in longest_first])
    return Group(colour, gauge, part, longest_first, plan)


def _of_lead(cut: LeadPiece) -> Piece:
    lead = cut.lead
    if lead.part.bought:
        return Piece(cut.length_mm, marks_text(lead), lead.label, *(end_text(end) for end in lead.ends))
    (wire,) = cut.wires
    return Piece(cut.length_mm, wire.mark, lead.label, *(_wire_end(end, wire) for end in lead.ends))


def _of_tail(cut: TailPiece) -> Piece:
    start = f"splice behind the {half_title(cut.half)}"
    return Piece(cut.length_mm, None, cut.common.name, start, f"{cut.disconnect.name} {cut.contact}")


def _wire_end(end: End, wire: Wire) -> str:
    """Say where one end of a wire goes, to its own contact; one that joins a common is spliced to its tails."""
    if end.kind != "half" or end.connector.roles or wire.role not in end.contacts:
        return end_text(end)
    common = "common " if wire.role in end.commons else ""
    return f"{end.name} {common}{'+'.join(end.contacts[wire.role])}"


def _tube_pieces(harness: Harness, labels: Iterable[LabelItem]) -> tuple[TubePieces, ...]:
    """Return how many tubes the labels want of each size, as on the usual sheets; the narrowest first."""
    chosen = (
        choose_tube(label.passes_mm, label.grips_mm, harness.tubes, label.heat_c)
        for label in labels
        if not label.plug_is_on
    )
    counts = Counter(tube.name for tube in chosen if tube is not None)
    return tuple(TubePieces(tube, counts[tube.name], LABEL_MM) for tube in harness.tubes if counts[tube.name])


def ordered(items: CutContent, colours: Sequence[str]) -> CutContent:
    """Return the groups in the builder's own order of colours, those that it does not name after them."""
    place = {colour: i for i, colour in enumerate(colours)}
    groups = sorted(items.groups, key=lambda group: place.get(group.colour, len(place)))
    return replace(items, groups=tuple(groups))
