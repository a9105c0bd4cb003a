"""Take a harness; return the pieces of wire to cut: by colour and wire, and how they come off spools."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.basics.colours import colour_order
from docgen.basics.frozen import frozen
from docgen.basics.gauges import Gauge
from docgen.harness.assembly.cutting import LeadPiece, TailPiece, lead_pieces, tail_pieces
from docgen.harness.assembly.shelf import plan_group
from docgen.harness.assembly.spools import Cut, SpoolPlan
from docgen.harness.model.circuits import End, Wire
from docgen.harness.model.harness import Harness
from docgen.paperwork.naming import end_text, half_title, marks_text


@frozen
class Piece:
    """One piece to cut, and where its two ends go; a tail, which has no mark, is for its common.

    `key` is the circuit, the letter of its lead and its role, of a tail its joint, common, half and contact.
    """

    key: tuple[str, ...]
    length_mm: float
    mark: str | None
    function: str
    start: str
    goal: str


@frozen
class Group:
    """Pieces of one wire and colour, or of one ready-made lead, longest first, and how they come off spools.

    So many more are `unmeasured`.
    """

    colour: str
    gauge: Gauge
    part: str
    pieces: tuple[Piece, ...]
    plan: SpoolPlan | None
    unmeasured: int

    @property
    def spools(self) -> list[str]:
        """Return for each piece which spool it comes off; nothing where none does."""
        cuts = self.plan.cuts if self.plan is not None else ()
        names = {index: short_name(cut) for cut in cuts for index in cut.pieces}
        return [names.get(index, "") for index in range(len(self.pieces))]

    @property
    def total_mm(self) -> float:
        """Return the length of all its pieces."""
        return sum(piece.length_mm for piece in self.pieces)


def short_name(cut: Cut) -> str:
    """Say which spool it is beside its pieces: by its number on the shelf, or which one to buy."""
    return f"buy {cut.number}" if cut.bought else str(cut.number)


def groups_of(harness: Harness) -> list[Group]:
    """Return what there is to cut, by colour, then thick first."""
    cuts: dict[tuple[str, str, Gauge], list[Piece | None]] = {}
    every: list[LeadPiece | TailPiece] = [*lead_pieces(harness), *tail_pieces(harness)]
    for cut in every:
        cuts.setdefault((cut.part, cut.colour, cut.gauge), []).append(_piece(cut))
    groups = [_group(harness, *key, some) for key, some in cuts.items()]
    return sorted(groups, key=lambda group: (colour_order(group.colour), -group.gauge.area_mm2, group.part))


def _group(harness: Harness, part: str, colour: str, gauge: Gauge, pieces: Sequence[Piece | None]) -> Group:
    known = [piece for piece in pieces if piece is not None]
    longest_first = tuple(sorted(known, key=lambda piece: -piece.length_mm))
    plan = plan_group(harness, part, colour, [piece.length_mm for piece in longest_first])
    return Group(colour, gauge, part, longest_first, plan, len(pieces) - len(known))


def _piece(cut: LeadPiece | TailPiece) -> Piece | None:
    """Return a piece as its row shows it; nothing where its length is not known."""
    if cut.length_mm is None:
        return None
    if isinstance(cut, TailPiece):
        start = f"splice behind the {half_title(cut.half)}"
        tail = cut.disconnect.name, cut.common.name, cut.half.name, cut.contact
        return Piece(tail, cut.length_mm, None, cut.common.name, start, f"{cut.disconnect.name} {cut.contact}")
    lead = cut.lead
    if lead.part.bought:
        return Piece(
            (lead.circuit, lead.segment),
            cut.length_mm,
            marks_text(lead),
            lead.label,
            *(end_text(end) for end in lead.ends),
        )
    (wire,) = cut.wires
    key = lead.circuit, lead.segment, wire.role
    return Piece(key, cut.length_mm, wire.mark, lead.label, *(_wire_end(end, wire) for end in lead.ends))


def _wire_end(end: End, wire: Wire) -> str:
    """Say where one end of a wire goes, to its own contact; one that joins a common is spliced to its tails."""
    if end.kind != "half" or end.connector.roles or wire.role not in end.contacts:
        return end_text(end)
    common = "common " if wire.role in end.commons else ""
    return f"{end.name} {common}{'+'.join(end.contacts[wire.role])}"
