"""Take a harness; return in which order each assembly is made, so that nothing is stranded behind a crimped plug.

A sleeve slides on over all its leads from one side; labels go on beside it. So a lead's first end is one that no
sleeve slides over, of two the larger; where sleeves slide over both, one that they pass over, else both ends wait. Its
label goes on before the sleeves and that of the other end after them. Spiral wrap goes around when all else is on.
Leads are taken as laid out from that of the places where most of them end for which the fewest have to wait, and every
sleeve slides toward it, the nearest first. Common practice, no source.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from functools import cached_property
from itertools import combinations, pairwise

from docgen.basics.frozen import frozen
from docgen.harness.assembly.passing import Waits
from docgen.harness.assembly.sleeve_sizes import Sizes, girth_mm
from docgen.harness.assembly.soldered import contact_tubes
from docgen.harness.assembly.splices import BranchSplice, Splice, TailSplice, branch_splices, fitted_wires, tail_splices
from docgen.harness.assembly.things import Key
from docgen.harness.assembly.through_openings import Threading, plan_threading, waits_at, waits_of
from docgen.harness.bundling.sleeves import collar_need, sleeves_of
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import CutLead, End, Lead, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Behind, Common, Disconnect, Half
from docgen.harness.model.parts import TubePart
from docgen.harness.routing.routes import Routes

# In how many places at most, those where most leads end, sleeves are taken to begin, to find which serves best.
_HUBS = 8


@frozen
class EndWork:
    """One end of a lead: which of its wires go into contacts there, and which are spliced to tails.

    `tubes` are those over soldered contacts, one for each of these wires and slid on before, if one of the parts list
    does. What `waits` is put on in place, when the end is through the airframe's openings.
    """

    end: End
    fitted: tuple[Wire, ...]
    spliced: tuple[Wire, ...]
    tubes: tuple[TubePart | None, ...] = ()
    waits: Waits = Waits.NOTHING


@frozen
class LeadWork:
    """How one lead is made: the end that is crimped first, and that over which labels and sleeves slide on before.

    `after` names sleeves that slide on over either end and do not pass over what is there: both ends are crimped
    only when those are on.
    """

    lead: CutLead
    first: EndWork
    second: EndWork
    after: tuple[str, ...]

    @property
    def twisted(self) -> bool:
        """Tell whether its wires are twisted here: they have a lay and did not come so."""
        part = self.lead.part
        return part.lay_mm is not None and len(part.wires) > 1 and not part.bought


@frozen
class SleeveWork:
    """How one sleeve goes on: the place it slides on from and that where it stops; one that opens goes around.

    `collar` is the tube that closes its ends, if one of the parts list does. `plugs` names equipment whose own lead
    lies in it and came with a plug that it does not pass over, `past` leads on which another sleeve is in its way from
    either side: they run around a ring.
    """

    sleeve: Sleeve
    start: str
    goal: str
    collar: str | None
    plugs: tuple[str, ...]
    past: tuple[str, ...] = ()

    @property
    def opens(self) -> bool:
        """Tell whether it goes around leads that are crimped."""
        return self.sleeve.kind.splits


@frozen
class AssemblyWork:
    """What is made for one assembly: leads in the order written, sleeves in the order in which they go on.

    Tails are crimped and filled with the first ends; all splices are made last, those before tails too. Then all goes
    into the airframe, through its openings, and what `waits` there, by its end, is put on in place. `halves` are those
    that are made here.
    """

    assembly: str
    leads: tuple[LeadWork, ...]
    tails: tuple[tuple[Disconnect, Common, Behind], ...]
    sleeves: tuple[SleeveWork, ...]
    branch_splices: tuple[BranchSplice, ...]
    tail_splices: tuple[TailSplice, ...]
    threadings: tuple[Threading, ...] = ()
    waits: Mapping[Key, Waits] = field(default_factory=dict)
    halves: tuple[Half, ...] = ()

    @property
    def splices(self) -> tuple[Splice, ...]:
        """Return all splices."""
        return *self.branch_splices, *self.tail_splices

    @property
    def is_soldered(self) -> bool:
        """Tell whether contacts are soldered."""
        ends = [end for made in self.leads for end in (made.first, made.second)]
        return any(end.tubes for end in ends) or any(joint.shell.contact.join == "solder" for joint, _, _ in self.tails)


def plan_work(harness: Harness) -> tuple[AssemblyWork, ...]:
    """Return how the cut leads of each assembly are made, and what came along is sleeved and led through openings."""
    threadings = plan_threading(harness)
    places = [each.start for each in threadings] + [sleeve.ends[0] for sleeve in sleeves_of(harness.bundles)]
    made = {lead.assembly for lead in harness.cut_leads()} | {harness.places[place].assembly for place in places}
    return tuple(_plan(harness, assembly, threadings) for assembly in harness.assemblies if assembly in made)


def _plan(harness: Harness, assembly: str, every: Sequence[Threading]) -> AssemblyWork:
    """Return how one assembly is made; of what goes through openings what does there."""
    here = [name for name, place in harness.places.items() if place.assembly == assembly]
    leads = [lead for lead in harness.cut_leads() if lead.assembly == assembly]
    sleeves = [sleeve for sleeve in sleeves_of(harness.bundles) if sleeve.ends[0] in here]
    ends = Counter(end.place for lead in leads for end in lead.ends)
    hubs = [place for place, _ in ends.most_common(_HUBS if sleeves else 1)] or here[:1]
    # Sleeves slide along leads, so a route without any brings nothing nearer.
    routes = Routes([harness.runs[run] for run in sorted({run for lead in leads for run in lead.route.runs})])
    threadings = tuple(threading for threading in every if threading.start in here)
    waits = waits_of(threadings)
    sizes = Sizes(harness)
    benches = (_Bench(harness, routes, hub, leads, sleeves, waits, sizes) for hub in hubs)
    bench = min(benches, key=lambda each: each.cost)
    return AssemblyWork(
        assembly=assembly,
        leads=bench.lead_works,
        tails=tuple(of for of in harness.behind_commons() if of[2].tails and of[2].half.place in here),
        sleeves=bench.passed_sleeve_works,
        branch_splices=tuple(splice for splice in branch_splices(harness) if splice.place in here),
        tail_splices=tuple(splice for splice in tail_splices(harness) if splice.place in here),
        threadings=threadings,
        waits=waits,
        halves=tuple(half for _, half in harness.halves() if half.place in here and not half.came_on),
    )


@frozen
class _Bench:
    """Leads laid out from one place, the hub: every sleeve slides toward it, the nearest first."""

    harness: Harness
    routes: Routes
    hub: str
    leads: Sequence[CutLead]
    sleeves: Sequence[Sleeve]
    waits: Mapping[Key, Waits]
    sizes: Sizes

    @property
    def cost(self) -> tuple[int, int]:
        """Return how many leads would block their own sleeves, and how many can't be crimped before sleeves are on."""
        blocked = sum(any(one > two for (_, one), (_, two) in pairwise(self._passing(lead))) for lead in self.leads)
        return blocked, sum(bool(after) for _, after in self._firsts)

    @property
    def passed_sleeve_works(self) -> tuple[SleeveWork, ...]:
        """Return the sleeves with the leads on which they can't pass another that is on already."""
        order = [work.sleeve.runs[0] for work in self.sleeve_works]
        past: dict[int, dict[str, None]] = {first: {} for first in order}
        for lead in self.leads:
            for (sleeve, side), (other, other_side) in combinations(self._passing(lead), 2):
                if side > other_side:
                    past[max(sleeve.runs[0], other.runs[0], key=order.index)][lead.name] = None
        return tuple(replace(work, past=tuple(past[work.sleeve.runs[0]])) for work in self.sleeve_works)

    @cached_property
    def sleeve_works(self) -> tuple[SleeveWork, ...]:
        """Return the sleeves in the order in which they go on."""
        works = []
        nth: dict[int, tuple[bool, int]] = {}
        shared = {run for lead in self.leads for run in lead.route.runs}
        for sleeve in self.sleeves:
            near, far = sorted(sleeve.ends, key=lambda end: self._from_hub[end])
            own = self.sizes.way_of_owns(sleeve)
            nth[sleeve.runs[0]] = (True, 0) if own is None else (shared.isdisjoint(own.beyond), own.nth)
            if own is not None:
                near, far = own.goal, own.start
            collar = self.sizes.collars.get(collar_need(sleeve))
            works.append(SleeveWork(sleeve, far, near, collar.name if collar else None, self.sizes.plugs_in(sleeve)))

        def order(work: SleeveWork) -> tuple[bool, bool, float, int]:
            late, along = nth[work.sleeve.runs[0]]
            return work.opens, late, self._from_hub[work.goal], along

        return tuple(sorted(works, key=order))

    @cached_property
    def lead_works(self) -> tuple[LeadWork, ...]:
        """Return how each lead is made."""
        return tuple(
            LeadWork(lead, self._end(lead, first), self._end(lead, 1 - first), after)
            for lead, (first, after) in zip(self.leads, self._firsts, strict=True)
        )

    @cached_property
    def _firsts(self) -> list[tuple[int, tuple[str, ...]]]:
        """Return which end of each lead is crimped first, and the sleeves that have to be on before."""
        return [self._first(lead) for lead in self.leads]

    @cached_property
    def _sleeve_in(self) -> dict[int, SleeveWork]:
        return {run: work for work in self.sleeve_works if not work.opens for run in work.sleeve.runs}

    def _passing(self, lead: Lead) -> list[tuple[Sleeve, int]]:
        """Return the sleeves on a lead's route, and the end over which each slides on."""
        found: dict[int, tuple[Sleeve, int]] = {}
        for index, run in enumerate(lead.route.runs):
            work = self._sleeve_in.get(run)
            if work is not None and work.sleeve.runs[0] not in found:
                found[work.sleeve.runs[0]] = work.sleeve, int(lead.route.places[index] != work.start)
        return list(found.values())

    def _first(self, lead: CutLead) -> tuple[int, tuple[str, ...]]:
        over: tuple[list[Sleeve], list[Sleeve]] = ([], [])
        for sleeve, side in self._passing(lead):
            over[side].append(sleeve)
        plugs = sorted(lead.plugs_at, key=lambda index: -girth_mm(lead.ends[index]))
        stranded = [
            [s.kind.name for s in over[index] if self.sizes.room_mm(s) < self.sizes.end_mm(lead, index)]
            for index in (0, 1)
        ]
        free = [index for index in plugs if not over[index]] or [index for index in plugs if not stranded[index]]
        first = (free or plugs)[0]
        return first, () if free else tuple(dict.fromkeys(stranded[first]))

    def _end(self, lead: CutLead, index: int) -> EndWork:
        end = lead.ends[index]
        fitted = tuple(fitted_wires(self.harness, lead, end))
        spliced = tuple(wire for wire in lead.wires if end.contacts.get(wire.role) and wire not in fitted)
        kinds = [wire.kind for wire in fitted]
        tubes = contact_tubes(kinds, end.connector.contact, self.harness.tubes, self.harness.places[end.place].heat_c)
        return EndWork(end, fitted, spliced, tubes, waits_at(self.waits, lead, index))

    @cached_property
    def _from_hub(self) -> dict[str, float]:
        """Return how far the ends of sleeves lie from the hub."""
        return self.routes.apart(self.hub, dict.fromkeys(end for sleeve in self.sleeves for end in sleeve.ends))
