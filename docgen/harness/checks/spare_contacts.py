"""Whether contacts are to spare in every shell."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from docgen.basics.findings import Finding, shown
from docgen.harness.checks.facts import Facts, note
from docgen.harness.wiring.spares import spares_kept

KIND = note(
    name="spare-contacts",
    stands_on="disconnect",
    meaning="Fewer contacts are spare than the limit.",
    when="Fewer contacts of a disconnect are free than `limits: spare_contacts`; unsaid, 2 up to 25 contacts, 4 "
    "up to 100, 6 above. Plain joints of plugs are left out: their contacts have roles.",
    why="Next season's light or sensor needs a way across the wing joint, and a damaged contact another hole. "
    "Without a spare both halves are crimped anew.",
    remedy="Choose a larger `shell:`, share poles with `commons:`, or ask for fewer, "
    "`limits: {spare_contacts: 1}`. Or `accept: {spare-contacts: nothing more will come}`.",
    source="FAA AC 43.13-1B, 11-234.",
)

_SPARES_SOURCE = "AC 43.13-1B 11-234"


def find(facts: Facts) -> Iterator[Finding]:
    """Find each shell with fewer contacts to spare than the builder's limit, else than the circular's."""
    limit = facts.harness.limits.spare_contacts
    source = _SPARES_SOURCE if limit is None else limit.source
    for disconnect in facts.harness.disconnects.values():
        every, spare = len(disconnect.shell.contacts), len(disconnect.spares)
        wanted = spares_kept(facts.harness.limits, every)
        if disconnect.shell.roles or spare >= wanted:
            continue
        sentence = (
            f"{shown(disconnect.name)} has {spare} of {every} contacts to spare, "
            f"{wanted} are wanted ({source}): {wanted - spare} too few."
        )
        larger = itertools.count(every)
        enough = next(count for count in larger if count - spares_kept(facts.harness.limits, count) >= every - spare)
        do = f"Choose a shell with at least {enough} contacts, or take circuits out of this one."
        yield facts.found(KIND, ("disconnects", disconnect.name, "shell"), sentence, do)
