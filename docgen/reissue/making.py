"""Take a harness and what differs; return how new leads are made, as the order of work makes them.

A new lead that lies in a sleeve or goes through an opening keeps one end free till it is through: that which the order
of work crimps last. Of what is crimped a sample is pulled before, of each wire with each contact.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import field
from itertools import chain

from docgen.basics.frozen import frozen
from docgen.definition.issued import State
from docgen.harness.assembly.passing import Waits
from docgen.harness.assembly.samples import Sample, samples_of
from docgen.harness.assembly.work import LeadWork, SleeveWork, plan_work
from docgen.harness.model.circuits import Lead
from docgen.harness.model.harness import Harness
from docgen.reissue.differences import Differences, OtherSleeve
from docgen.reissue.laid import plug_of
from docgen.reissue.moves import at_text
from docgen.reissue.sleeves import lead_of, slid_over
from docgen.reissue.state_of_sleeves import named_sleeves


@frozen
class Opening:
    """What of new leads goes through a run between two places: through its opening, or where it is `closed`."""

    ends: str
    hole_mm: tuple[float, ...]
    leads: tuple[str, ...]
    closed: bool = False


@frozen
class Making:
    """How new leads are made: ends that stay `free` by lead, the lay of what is twisted, samples, openings.

    Leads that stay are among those with free ends where a sleeve has to slide over them. `sleeves` are those that go
    on, by the places at their ends, `around` such as would go around instead of those that slide.
    """

    free: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    lay_mm: Mapping[str, float] = field(default_factory=dict)
    samples: tuple[Sample, ...] = ()
    openings: tuple[Opening, ...] = ()
    sleeves: Mapping[str, SleeveWork] = field(default_factory=dict)
    around: Mapping[str, str] = field(default_factory=dict)


def making(harness: Harness, of: Differences, new: State) -> Making:
    """Return how the leads that are new are made; nothing where the aircraft has been altered already."""
    if of.is_built:
        return Making()
    harness = harness.made
    plans = plan_work(harness)
    works = {made.lead.name: made for work in plans for made in work.leads}
    openings = tuple(_openings(harness, of))
    passing = {*chain(*of.threaded.values(), *(each.leads for each in openings))}
    through, over = of.wiring.anew & works.keys() & passing, _over(of, new, passing)
    pieces = [piece.lead for piece in of.wiring.cut]
    of_sleeves = {made.sleeve.runs: made for work in plans for made in work.sleeves}
    on = {each.ends: each for each in of.sleeves if each.now is not None and each.back_mm is None}
    return Making(
        free={
            lead.name: _free(lead, works[lead.name] if lead.name in through else None, over.get(lead.name, {}), new)
            for lead in harness.leads()
            if lead.name in over or lead.name in through
        },
        lay_mm={
            name: made.lead.part.lay_mm
            for name, made in works.items()
            if made.twisted and made.lead.part.lay_mm and pieces.count(name) == len(made.lead.wires)
        },
        samples=tuple(_samples(harness, of)),
        openings=openings,
        sleeves={ends: of_sleeves[sleeve.runs] for ends, sleeve in named_sleeves(harness).items() if ends in on},
        around=dict(_around(harness, on)),
    )


def _around(harness: Harness, on: Mapping[str, OtherSleeve]) -> Iterator[tuple[str, str]]:
    """Walk the least kinds that would go around, by the ends of sleeves that slide on where a hand reaches."""
    wraps = sorted((kind for kind in harness.sleeves if kind.splits), key=lambda kind: kind.fits_mm[1])
    for ends, sleeve in on.items():
        now = sleeve.now
        names = [kind.name for kind in wraps if now is not None and kind.name in now.would_do and not now.splits]
        if names and not sleeve.closed:
            yield ends, names[0]


def _over(of: Differences, new: State, passing: Collection[str]) -> dict[str, dict[int, None]]:
    """Return the ends over which sleeves slide on, or what lies in them is drawn out, by lead.

    Of an own lead that passes something that is its plug.
    """
    found: dict[str, dict[int, None]] = {}
    drawn = [OtherSleeve(ends, None, new.sleeves[ends], closed=True) for ends in of.drawn]
    for sleeve in (*of.sleeves, *drawn):
        for lead, index in slid_over(sleeve, new).items():
            found.setdefault(lead, {})[index] = None
    for name in passing:
        own = lead_of(new, name)
        if own is not None and not own.part:
            found.setdefault(name, {})[plug_of(own)] = None
    return found


def _free(lead: Lead, made: LeadWork | None, over: Collection[int], new: State) -> tuple[str, ...]:
    """Name the ends of a lead that go in last: those that a sleeve slides over, or what of a new one waits.

    That is what waits for an opening, else, if none is free yet, its second, or both for its sleeves.
    """
    free = dict.fromkeys(over)
    if made is not None:
        ends = [made.second, made.first] if made.after else [made.second]
        waiting = [end for end in (made.first, made.second) if end.waits is not Waits.NOTHING]
        free |= {int(end.end is lead.ends[1]): None for end in waiting or ends if waiting or not over}
    there = new.circuits[lead.circuit].leads[lead.segment].ends
    return tuple(at_text(there[index]) for index in free)


def _openings(harness: Harness, of: Differences) -> Iterator[Opening]:
    """Walk what new leads go through, but closed runs in a sleeve: with that they are drawn in."""
    for bundle in harness.bundles:
        run = harness.runs[bundle.run]
        leads = tuple(lead for lead in bundle.leads if lead in of.wiring.anew or lead in of.came)
        if leads and (bundle.sleeve is None if run.closed else run.hole_mm is not None):
            yield Opening(" to ".join(run.between), tuple(run.hole_mm or ()), leads, run.closed)


def _samples(harness: Harness, of: Differences) -> Iterator[Sample]:
    """Walk samples of all that is crimped now: a sample is of the tool as it is on the day."""
    moves = [move for move in of.wiring.moves if move.into and not move.crimped and move.spot.join == "crimp"]
    crimped = {(move.wire, move.spot.plug) for move in moves}
    for sample in samples_of(harness):
        if (sample.wire, f"{sample.connector} {sample.gender}") in crimped:
            yield sample
