"""Take a harness and what differs; return how new leads are made, as the order of work makes them.

A new lead that lies in a sleeve or goes through an opening keeps one end free till it is through: that which the order
of work crimps last. Of what is crimped a sample is pulled before, of each wire with each contact.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field
from itertools import chain

from docgen.basics.frozen import frozen
from docgen.definition.issued import State
from docgen.harness.assembly.passing import Waits
from docgen.harness.assembly.samples import Sample, samples_of
from docgen.harness.assembly.work import LeadWork, plan_work
from docgen.harness.model.harness import Harness
from docgen.reissue.differences import Differences
from docgen.reissue.moves import at_text


@frozen
class Opening:
    """What of new leads is threaded through the opening of a run between two places."""

    ends: str
    hole_mm: tuple[float, ...]
    leads: tuple[str, ...]


@frozen
class Making:
    """How new leads are made: ends that stay `free` by lead, the lay of what is twisted, samples, openings.

    Leads that stay are among those with free ends where a sleeve has to slide over them.
    """

    free: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    lay_mm: Mapping[str, float] = field(default_factory=dict)
    samples: tuple[Sample, ...] = ()
    openings: tuple[Opening, ...] = ()


def making(harness: Harness, of: Differences, new: State) -> Making:
    """Return how the leads that are new are made; nothing where the aircraft has been altered already."""
    if of.is_built:
        return Making()
    harness = harness.made
    works = {made.lead.name: made for work in plan_work(harness) for made in work.leads}
    openings = tuple(_openings(harness, of))
    slid = [each.now.leads for each in of.sleeves if each.now and not each.now.splits]
    through = dict.fromkeys(chain(*slid, *of.threaded.values(), *(each.leads for each in openings)))
    pieces = [piece.lead for piece in of.wiring.cut]
    return Making(
        free={lead: _free(works[lead], new) for lead in through if lead in works},
        lay_mm={
            name: made.lead.part.lay_mm
            for name, made in works.items()
            if made.twisted and made.lead.part.lay_mm and pieces.count(name) == len(made.lead.wires)
        },
        samples=tuple(_samples(harness, of)),
        openings=openings,
    )


def _free(made: LeadWork, new: State) -> tuple[str, ...]:
    """Name the ends of a lead that go in last: what waits for an opening, else its second, or both for its sleeves."""
    ends = [made.second, made.first] if made.after else [made.second]
    ends = [end for end in (made.first, made.second) if end.waits is not Waits.NOTHING] or ends
    there = new.circuits[made.lead.circuit].leads[made.lead.segment].ends
    return tuple(at_text(there[int(end.end is made.lead.ends[1])]) for end in ends)


def _openings(harness: Harness, of: Differences) -> Iterator[Opening]:
    for bundle in harness.bundles:
        run = harness.runs[bundle.run]
        leads = tuple(lead for lead in bundle.leads if lead in of.wiring.anew)
        if run.hole_mm is not None and leads:
            yield Opening(" to ".join(run.between), tuple(run.hole_mm), leads)


def _samples(harness: Harness, of: Differences) -> Iterator[Sample]:
    """Walk samples of all that is crimped now: a sample is of the tool as it is on the day."""
    moves = [move for move in of.wiring.moves if move.into and not move.crimped and move.spot.join == "crimp"]
    crimped = {(move.wire, move.spot.plug) for move in moves}
    for sample in samples_of(harness):
        if (sample.wire, f"{sample.connector} {sample.gender}") in crimped:
            yield sample
