"""Take wires and a contact that is soldered; return the tubes over the joints, which are slid on before."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from docgen.harness.assembly.splices import fitted_wires
from docgen.harness.bundling.tubes import tube_past
from docgen.harness.model.circuits import CutLead, End
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, Disconnect, Half
from docgen.harness.model.parts import ContactPart, TubePart, WirePart


def contact_tubes(
    kinds: Iterable[WirePart], contact: ContactPart, tubes: Sequence[TubePart], heat_c: float | None
) -> tuple[TubePart | None, ...]:
    """Return the tube over the contact of each wire: none where it is crimped, nothing where no tube does.

    It passes the contact's cup, taken as thick as the largest insulation that the contact takes, and grips the wire:
    common practice, no source.
    """
    if contact.join != "solder":
        return ()
    cup_mm = contact.over_mm or 0.0
    return tuple(tube_past(max(kind.diameter_mm, cup_mm), kind.diameter_mm, tubes, heat_c) for kind in kinds)


def soldered_leads(harness: Harness) -> Iterator[tuple[CutLead, End, tuple[TubePart | None, ...]]]:
    """Walk the ends of leads with contacts that are soldered, and the tubes over those."""
    for lead in harness.cut_leads():
        for end in lead.ends:
            kinds, heat_c = [wire.kind for wire in fitted_wires(harness, lead, end)], harness.places[end.place].heat_c
            if tubes := contact_tubes(kinds, end.connector.contact, harness.tubes, heat_c):
                yield lead, end, tubes


def soldered_tails(harness: Harness) -> Iterator[tuple[Disconnect, Common, Half, tuple[TubePart | None, ...]]]:
    """Walk the halves of commons with tails whose contacts are soldered, and the tubes over those."""
    for disconnect, common, behind in harness.behind_commons():
        kinds, heat_c = [tail.kind for tail in behind.tails], harness.places[behind.half.place].heat_c
        if tubes := contact_tubes(kinds, disconnect.shell.contact, harness.tubes, heat_c):
            yield disconnect, common, behind.half, tubes


def soldered_tubes(harness: Harness) -> Iterator[TubePart | None]:
    """Walk the tubes over all soldered contacts: of leads, and of tails."""
    for _, _, tubes in soldered_leads(harness):
        yield from tubes
    for _, _, _, tubes in soldered_tails(harness):
        yield from tubes
