"""Pinned lengths against what the route needs."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.basics.findings import Finding
from docgen.basics.units import decimal, round_up_to_step
from docgen.harness.checks.facts import ROUNDING_MM, Facts, caution

KIND = caution(
    name="short",
    stands_on="circuit",
    meaning="A pinned length is under what the route needs.",
    when="A length in `lengths:` is under what the route needs: (route × (1 + slack) + slack of the places + reach "
    "of a loose half + loops + strip and reterminations at each end) × twist. `allowances: slack` (3 %), "
    "`allowances: strip` (4 mm), `allowances: reterminations` (2) and `allowances: retermination` (10 mm) change "
    "it.",
    why="The wire cut short. It can't be crimped again after a bad crimp, or it hangs taut across the bay and "
    "pulls at its contacts until one comes out.",
    remedy="Leave the length to be worked out by deleting `lengths:`, or pin what is needed, "
    "`lengths: {B: 1050 mm}`. A measured shorter route, `length: 745 mm` on its run, or a smaller `loop: 40 mm` "
    "needs less.",
    source="FAA AC 43.13-1B, 11-118: slack for two reterminations at each end. Segment letters: US Navy "
    "Electricity and Electronics Training Series, module 4. 3 %, 4 mm and 10 mm: common practice, no source.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each segment that is pinned to less than its route needs."""
    for lead in facts.harness.cut_leads():
        needed_mm, pinned_mm = lead.needed_length_mm, lead.cut_length_mm if lead.pinned else None
        if needed_mm is not None and pinned_mm is not None and pinned_mm < needed_mm - ROUNDING_MM:
            sentence = (
                f"segment {lead.segment} is pinned to {decimal(pinned_mm)} mm, its route needs "
                f"{math.ceil(needed_mm)} mm."
            )
            enough = decimal(round_up_to_step(needed_mm, facts.harness.round_up_to_mm))
            do = f"Pin it to {enough} mm at least, or leave it to be worked out."
            remedy = {"circuit": lead.circuit, "lengths": {lead.segment: f"{enough} mm"}}
            yield facts.found(KIND, ("circuits", lead.circuit, "lengths", lead.segment), sentence, do, remedy)
