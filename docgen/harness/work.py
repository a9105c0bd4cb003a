"""In which order leads are made, so that nothing is stranded behind a crimped plug."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from docgen.harness.model import Guard, Harness
from docgen.harness.wiring import End, Lead


@dataclass(frozen=True)
class LeadWork:
    """How one lead is made: the end that is crimped first (0 or 1), and why the first must wait, if it must.

    `after` names guards that do not pass over the first end: it is crimped only when those are on.
    """

    lead: Lead
    first: int
    after: tuple[str, ...]

    @property
    def first_end(self) -> End:
        """Return the end that is crimped first."""
        return self.lead.ends[self.first]

    @property
    def second_end(self) -> End:
        """Return the end over which labels and guards slide on before it is crimped."""
        return self.lead.ends[1 - self.first]


def plan_work(harness: Harness) -> tuple[LeadWork, ...]:
    """Return how each cut lead is made, in the order written.

    First comes the end with the larger plug or shell, over which braid and labels need not pass; a splice comes
    last. Common practice, no source.
    """
    firsts = {lead.name: _first(lead) for lead in harness.leads() if not lead.straight}
    leads = {lead.name: lead for lead in harness.leads() if not lead.straight}
    stranded: dict[str, list[str]] = {}
    for guard in guards_of(harness):
        inside = [leads[name] for name in harness.bundles[guard.runs[0]].leads if name in leads]
        for lead in _stranded(harness, guard, inside, firsts):
            stranded.setdefault(lead.name, []).append(guard.kind.name)
    return tuple(
        LeadWork(lead, firsts[name], tuple(dict.fromkeys(stranded.get(name, ())))) for name, lead in leads.items()
    )


def guards_of(harness: Harness) -> list[Guard]:
    """Return each piece of guard once."""
    return [b.guard for b in harness.bundles if b.guard is not None and b.guard.runs[0] == b.run]


def girth_mm(end: End) -> float:
    """Return the diameter of the tube whose circumference is the girth of an end's plug or shell [mm]."""
    return 0.0 if end.is_splice else 2 * sum(end.connector.outline_mm) / math.pi


def _first(lead: Lead) -> int:
    sizes = [girth_mm(end) for end in lead.ends]
    return 0 if sizes[0] >= sizes[1] else 1


def _stranded(harness: Harness, guard: Guard, leads: Sequence[Lead], firsts: dict[str, int]) -> list[Lead]:
    """Return the leads whose first end lies where a guard slides on and is too large for it.

    It slides on from the side where fewer first ends are.
    """
    start = harness.runs[guard.runs[0]].between[0]
    sides: dict[bool, list[Lead]] = {True: [], False: []}
    for lead in leads:
        sides[_is_before(lead, guard, start) == (firsts[lead.name] == 0)].append(lead)
    passing = min(sides.values(), key=len)
    return [lead for lead in passing if girth_mm(lead.ends[firsts[lead.name]]) > guard.kind.fits_mm[1]]


def _is_before(lead: Lead, guard: Guard, start: str) -> bool:
    """Tell whether a lead comes to a guard's first place before the other end of its first run."""
    index = next(i for i, run in enumerate(lead.route.runs) if run in guard.runs)
    run = lead.route.runs[index]
    return lead.route.places[index] == start if run == guard.runs[0] else lead.route.runs.index(guard.runs[0]) < index
