"""Leads that are cut too short: pinned under what the route needs, without a way, or with no room for a label."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.basics.findings import Finding, listed, shown
from docgen.basics.units import decimal, round_up_to_step
from docgen.harness.assembly.unmeasured import has_no_way
from docgen.harness.bundling.tubes import LABEL_MM
from docgen.harness.checks.facts import ROUNDING_MM, Facts, caution
from docgen.harness.model.circuits import CutLead
from docgen.harness.remedies.own_lead import own_lead_alone

KIND = caution(
    name="short",
    stands_on="circuit or place",
    meaning="A lead is cut short.",
    when="A length in `lengths:` is under what the route needs: (route × (1 + slack) + slack of the places + reach "
    "of a loose half + loops + strip and reterminations at each end) × twist. `allowances: slack` (3 %), "
    "`allowances: strip` (4 mm), `allowances: reterminations` (2) and `allowances: retermination` (10 mm) change "
    "it. Two things lie on one place that has no `across:`, so that nothing is cut for the way between them. A lead is "
    "shorter than a label.",
    why="The wire cut short. It can't be crimped again after a bad crimp, or it hangs taut across the bay and "
    "pulls at its contacts until one comes out.",
    remedy="Leave the length to be worked out by deleting `lengths:`, or pin what is needed, "
    "`lengths: {B: 1050 mm}`. A measured shorter route, `length: 745 mm` on its run, or a smaller `loop: 40 mm` "
    "needs less. Say how far apart things on a place lie, `across: 120 mm`; give a lead that bears no label a "
    "`loop: 40 mm`.",
    source="FAA AC 43.13-1B, 11-118: slack for two reterminations at each end. Segment letters: US Navy "
    "Electricity and Electronics Training Series, module 4. 3 %, 4 mm and 10 mm: common practice, no source.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each segment that is pinned to less than its route needs, has no way, or is shorter than a label."""
    on_one_place: dict[str, list[CutLead]] = {}
    for lead in facts.harness.cut_leads():
        if lead.pinned:
            yield from _pinned(facts, lead)
        elif has_no_way(facts.harness, lead):
            on_one_place.setdefault(lead.route.places[0], []).append(lead)
            continue
        if lead.cut_length_mm is not None and lead.cut_length_mm < LABEL_MM:
            yield _unlabelled(facts, lead, lead.cut_length_mm)
    for place, leads in on_one_place.items():
        names = listed(shown(lead.name) for lead in leads)
        sentence = f"both ends of {names} are at {shown(place)}, so nothing is cut for the way between them."
        do = f"Say how far apart things lie there, `across: 120 mm` at {shown(place)}."
        yield KIND.at(facts.where.key("places", place), sentence, do, ("places", place))


def _pinned(facts: Facts, lead: CutLead) -> Iterator[Finding]:
    needed_mm, pinned_mm = lead.needed_length_mm, lead.cut_length_mm
    if needed_mm is None or pinned_mm is None or pinned_mm >= needed_mm - ROUNDING_MM:
        return
    sentence = (
        f"segment {lead.segment} is pinned to {decimal(pinned_mm)} mm, its route needs {math.ceil(needed_mm)} mm."
    )
    enough = decimal(round_up_to_step(needed_mm, facts.harness.round_up_to_mm))
    do = f"Pin it to {enough} mm at least, or leave it to be worked out."
    remedy = {"circuit": lead.circuit, "lengths": {lead.segment: f"{enough} mm"}}
    yield facts.found(
        KIND, ("circuits", lead.circuit, "lengths", lead.segment), sentence, do, remedy, needed_mm - pinned_mm
    )


def _unlabelled(facts: Facts, lead: CutLead, cut_mm: float) -> Finding:
    sentence = (
        f"segment {lead.segment} is cut to {decimal(cut_mm)} mm: not even one label of {decimal(LABEL_MM)} mm fits."
    )
    do = f"Leave more lying free at its end, `loop: {decimal(math.ceil((LABEL_MM - cut_mm) / 10) * 10)} mm`."
    do += own_lead_alone(facts.harness, facts.harness.circuits[lead.circuit])
    return KIND.at(facts.where.key("circuits", lead.circuit), sentence, do, ("circuits", lead.circuit))
