"""Where wires are joined for good: at a lead that divides, and before the tails of a common."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.harness.model.circuits import Circuit, End, Lead, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, Disconnect, Half
from docgen.harness.model.parts import WirePart


@dataclass(frozen=True)
class Splice:
    """One joint of wires of one role: what goes in from either side, and what is joined, by lead.

    Behind a half it belongs to a `common`, whose tails are one side; else one side is the lead that divides.
    """

    of: Circuit | tuple[Disconnect, Half, Common]
    role: str
    place: str
    leads: tuple[Lead, ...]
    sides: tuple[tuple[WirePart, ...], tuple[WirePart, ...]]


def splices_of(harness: Harness) -> Iterator[Splice]:
    """Walk all splices: of leads that divide, in the order written, then those behind the halves of joints."""
    for circuit in harness.circuits.values():
        if circuit.branches:
            yield from _at_branches(circuit)
    for disconnect, common, behind in harness.behind_commons():
        if behind.tails and behind.wires:
            leads = tuple(lead for lead, _ in behind.wires)
            sides = tuple(wire.kind for _, wire in behind.wires), tuple(tail.kind for tail in behind.tails)
            yield Splice((disconnect, behind.half, common), common.role, behind.half.place, leads, sides)


def _at_branches(circuit: Circuit) -> Iterator[Splice]:
    """Walk the splices of a lead that divides, one for each role that its branches have."""
    stem, *branches = circuit.leads[-1 - circuit.branches :]
    for wire in stem.wires:
        joined = [(lead, branch) for lead in branches if (branch := lead.wire(wire.role))]
        if joined:
            leads = (stem, *(lead for lead, _ in joined))
            sides = (wire.kind,), tuple(branch.kind for _, branch in joined)
            yield Splice(circuit, wire.role, stem.ends[1].place, leads, sides)


def crimped_wires(harness: Harness, lead: Lead, end: End) -> list[Wire]:
    """Return the wires of a lead that go into a contact at one end; those that are spliced there do not."""
    if end.is_splice:
        return []
    return [wire for wire in lead.wires if end.contacts.get(wire.role) and not _has_tails(harness, end, wire.role)]


def _has_tails(harness: Harness, end: End, role: str) -> bool:
    behind = harness.disconnects[end.name].behind(end, role) if end.kind == "half" else None
    return behind is not None and bool(behind.tails)
