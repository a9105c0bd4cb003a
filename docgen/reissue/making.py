"""Take a harness and what differs; return how new leads are made, as the order of work makes them.

A new lead that lies in a sleeve or goes through an opening keeps one end free till it is through: that which the order
of work crimps last. What is crimped into a contact for the first time is pulled as a sample before.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
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

_Crimped = tuple[str, str, str]  # wire, connector, gender


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


def making(harness: Harness, of: Differences, old: State, new: State) -> Making:
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
        samples=tuple(_samples(harness, of, old, new)),
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


def _samples(harness: Harness, of: Differences, old: State, new: State) -> Iterator[Sample]:
    """Walk samples of wires and contacts that go in and were not crimped together before."""
    into = {move.lead for move in of.wiring.moves if move.into and not move.crimped}
    before = set(_crimped(old, {f"{name} {letter}" for name, one in old.circuits.items() for letter in one.leads}))
    wanted = set(_crimped(new, into)) - before
    for sample in samples_of(harness):
        if (sample.wire, sample.connector, sample.gender) in wanted:
            yield sample


def _crimped(state: State, leads: Collection[str]) -> Iterator[_Crimped]:
    """Walk what is crimped at the ends of leads, and of tails at theirs."""
    for joint in state.disconnects.values():
        for half in joint.halves:
            for tail in joint.tails.get(half.name, {}).values():
                yield tail.wire, joint.shell, half.gender
    for name, circuit in state.circuits.items():
        for letter, lead in circuit.leads.items():
            is_there = lead.part and not circuit.planned and (state.as_built or not lead.is_uncut)
            for index, end in enumerate(lead.ends if is_there and f"{name} {letter}" in leads else ()):
                wires = [wire.wire for wire in lead.wires.values() if wire.at[index] and end.join == "crimp"]
                yield from ((wire, end.plug, end.gender) for wire in wires)
