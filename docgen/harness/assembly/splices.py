"""Take a harness; return where wires are joined for good (leads divide, tails begin), and what goes into contacts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.basics.frozen import frozen
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.bundling.tubes import tube_over
from docgen.harness.model.circuits import Circuit, End, Lead, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, Disconnect, Half
from docgen.harness.model.parts import TubePart, WirePart


@frozen
class Splice:
    """One joint of wires of one role: the leads that are joined, and the wires that go in from either side.

    `tube` is the one that is shrunk over it, if one of the parts list does.
    """

    role: str
    place: str
    leads: tuple[Lead, ...]
    sides: tuple[tuple[WirePart, ...], tuple[WirePart, ...]]
    tube: TubePart | None


@frozen
class BranchSplice(Splice):
    """A joint where a lead of a circuit divides, which is one side."""

    circuit: Circuit


@frozen
class TailSplice(Splice):
    """A joint behind a half, where the tails of a common are one side."""

    disconnect: Disconnect
    half: Half
    common: Common


def branch_splices(harness: Harness) -> Iterator[BranchSplice]:
    """Walk the splices of leads that divide, one for each role that the branches have."""
    for circuit in harness.circuits.values():
        stem, *branches = circuit.leads[-1 - circuit.form.branches :]
        for wire in stem.wires:
            joined = [(lead, branch) for lead in branches if (branch := lead.wire(wire.role))]
            if joined and harness.has_here(stem.ends[1].place):
                leads = (stem, *(lead for lead, _ in joined))
                sides = (wire.kind,), tuple(branch.kind for _, branch in joined)
                place = stem.ends[1].place
                yield BranchSplice(wire.role, place, leads, sides, _tube(harness, sides, place), circuit)


def tail_splices(harness: Harness) -> Iterator[TailSplice]:
    """Walk the splices behind the halves of joints; a wire that arrives alone goes straight into its contact."""
    for disconnect, common, behind in harness.behind_commons():
        if behind.tails:
            leads = tuple(lead for lead, _ in behind.wires)
            sides = tuple(wire.kind for _, wire in behind.wires), tuple(tail.kind for tail in behind.tails)
            half, tube = behind.half, _tube(harness, sides, behind.half.place)
            yield TailSplice(common.role, half.place, leads, sides, tube, disconnect, half, common)


def _tube(harness: Harness, sides: Sequence[Sequence[WirePart]], place: str) -> TubePart | None:
    """Return the tube over a splice at a place, which passes the thicker side."""
    thicker_mm = max(outside_diameter_mm([kind.diameter_mm for kind in side]) for side in sides)
    return tube_over(thicker_mm, harness.tubes, harness.places[place].heat_c)


def fitted_wires(harness: Harness, lead: Lead, end: End) -> list[Wire]:
    """Return the wires of a lead that go into a contact at one end; those that are spliced there do not."""
    if end.is_splice:
        return []
    return [wire for wire in lead.wires if end.contacts.get(wire.role) and not harness.has_tails(end, wire.role)]
