"""Take wires and a contact that is soldered; return the tubes over the joints, which are slid on before."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from docgen.harness.assembly.splices import fitted_wires
from docgen.harness.bundling.tubes import tube_past
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import ContactPart, TubePart, WirePart


def contact_tubes(
    kinds: Iterable[WirePart], contact: ContactPart, tubes: Sequence[TubePart]
) -> tuple[TubePart | None, ...]:
    """Return the tube over the contact of each wire: none where it is crimped, nothing where no tube does.

    It passes the contact's cup, taken as thick as the largest insulation that the contact takes, and grips the wire:
    common practice, no source.
    """
    if contact.join != "solder":
        return ()
    return tuple(tube_past(max(kind.diameter_mm, contact.over_mm or 0.0), kind.diameter_mm, tubes) for kind in kinds)


def soldered_tubes(harness: Harness) -> Iterator[TubePart | None]:
    """Walk the tubes over all soldered contacts: of leads, and of tails."""
    for lead in harness.cut_leads():
        for end in lead.ends:
            kinds = [wire.kind for wire in fitted_wires(harness, lead, end)]
            yield from contact_tubes(kinds, end.connector.contact, harness.tubes)
    for disconnect, _, behind in harness.behind_commons():
        yield from contact_tubes([tail.kind for tail in behind.tails], disconnect.shell.contact, harness.tubes)
