"""Take a harness; return how what is made on the bench goes through the openings of the airframe, and what waits.

An opening parts each lead in two, and one side goes through. All leads that share openings are laid out from one
place, and the sides that are farther from there go through, nearest opening first: from the place for which the fewest
ends are left unfinished. What came along goes plug first: what a sleeve ties to others as they do, the rest alone, when
all else is through, or before that if less is left unfinished so. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise

from docgen.basics.frozen import frozen
from docgen.harness.assembly.passing import Passage, Waits, passages_of
from docgen.harness.assembly.things import Came, Key, Thing, Things, end_key, far_end
from docgen.harness.bundling.diameters import lead_thickness_mm
from docgen.harness.bundling.openings import passes
from docgen.harness.bundling.sleeves import BRAID_MM, collar_need, collar_tubes
from docgen.harness.bundling.tubes import LABEL_MM, PAPER_THICKENS_MM, Need, tube_of_label
from docgen.harness.model.airframe import Route
from docgen.harness.model.bundles import Bundle
from docgen.harness.model.circuits import CutLead, Lead
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import TubePart
from docgen.harness.routing.routes import Routes

_CONFLICT = 1_000_000.0  # a lead can't begin on both sides of what it goes through, nor equipment go through
_TOO_THICK = _CONFLICT / 100  # an opening can be widened


@frozen
class Threading:
    """What goes through the opening of a run, in this order, from one place to the other; and its bundle when all has.

    That is sleeved, and on a closed run with labels and collars; `thickest_mm` is that, or a sleeve with all in it that
    goes through, if that is thicker. Leads that go `round` would have to begin on both sides of it: where runs make a
    ring there may be no place to begin from. What came along and is tied `against` others would have to go through with
    what it hangs on.
    """

    run: int
    start: str
    goal: str
    passages: tuple[Passage, ...]
    bundle_mm: float
    thickest_mm: float
    bundle_passes: bool
    round: tuple[str, ...] = ()
    against: tuple[str, ...] = ()


def plan_threading(harness: Harness) -> tuple[Threading, ...]:
    """Return what goes through each opening, those of one assembly after the other, nearest to where leads begin."""
    opened = [b.run for b in harness.bundles if b.leads and harness.runs[b.run].hole_mm is not None]
    things = Things(harness, opened)
    orders = (False,) if all(each.tied for each in things.came) else (False, True)
    return min((_Planner(harness, opened, things, first).plan() for first in orders), key=_cost)


def waits_of(threadings: Iterable[Threading]) -> dict[Key, Waits]:
    """Return for each end what waits until it is through all its openings, of those for which something does."""
    found: dict[Key, Waits] = {}
    for passage in (passage for threading in threadings for passage in threading.passages):
        if passage.waits is not Waits.NOTHING:
            found[passage.thing.key] = max(passage.waits, found.get(passage.thing.key, Waits.NOTHING))
    return found


def waits_at(waits: Mapping[Key, Waits], lead: CutLead, index: int) -> Waits:
    """Return what waits at an end of a lead."""
    return waits.get(end_key(lead, index), Waits.NOTHING)


@frozen
class _Way:
    """The way of something through openings, in the order of its route; what came along has an end that goes first."""

    name: str
    route: Route
    runs: tuple[int, ...]
    first: int | None = None

    def clashes(self, goals: Mapping[int, str]) -> bool:
        """Tell whether it would have to begin in two places, or its equipment to go through."""
        ends = [far_end(self.route, run, goals[run]) for run in self.runs]
        if self.first is not None:
            return any(end != self.first for end in ends)
        return any(one > other for one, other in pairwise(ends))


@frozen
class _Planner:
    """What goes through runs that are `opened`; what goes alone before all else, if `alone_first`, or after."""

    harness: Harness
    opened: Sequence[int]
    things: Things
    alone_first: bool

    def plan(self) -> tuple[Threading, ...]:
        """Return what goes through all openings."""
        tied = [threading for group in self._groups() for threading in self._best(group) if threading.passages]
        alone = self._alone()
        return (*alone, *tied) if self.alone_first else (*tied, *alone)

    @cached_property
    def _leads(self) -> dict[str, Lead]:
        return {lead.name: lead for lead in self.harness.leads()}

    @cached_property
    def _collars(self) -> dict[Need, TubePart]:
        return collar_tubes(self.harness.bundles, self.harness.tubes)

    @cached_property
    def _passing(self) -> list[_Way]:
        """Return the ways of leads through openings, and of what is tied to them."""
        ways = [_Way(lead.name, lead.route, self._through(lead.route)) for lead in self.harness.cut_leads()]
        came = (each for each in self.things.came if each.tied)
        ways += [_Way(each.thing.name, each.route, self._through(each.route), each.first) for each in came]
        return [way for way in ways if way.runs]

    def _through(self, route: Route) -> tuple[int, ...]:
        return tuple(run for run in route.runs if run in self.opened)

    def _groups(self) -> list[list[int]]:
        """Return openings in groups, those together that one lead passes, or one and what comes along with it."""
        group_of = {run: run for run in self.opened}
        shared = [(run, other) for run in self.opened for other in self.things.openings_bound_to(run)]
        for one, other in (*shared, *(pair for way in self._passing for pair in pairwise(way.runs))):
            group_of = {run: group_of[one] if of == group_of[other] else of for run, of in group_of.items()}
        return [[run for run in self.opened if group_of[run] == of] for of in dict.fromkeys(group_of.values())]

    def _best(self, group: Sequence[int]) -> list[Threading]:
        """Return what goes through a group of openings, from the best place to begin."""
        mine = [way for way in self._passing if way.runs[0] in group]
        laid_along = {run for way in mine for run in way.route.runs}
        routes = Routes([self.harness.runs[run] for run in sorted(laid_along.union(group))])
        ends = dict.fromkeys(place for run in group for place in self.harness.runs[run].between)
        plans: dict[tuple[int, str], Threading] = {}

        def from_place(place: str) -> tuple[float, float, list[Threading]]:
            far = routes.apart(place, ends)
            goals = {run: max(reversed(self.harness.runs[run].between), key=far.__getitem__) for run in group}
            for at in goals.items():
                plans[at] = plans.get(at) or self._tied(*at)
            chosen = [plans[at] for at in goals.items()]
            clashing = [way for way in mine if way.clashes(goals)]
            chosen = [_clashed(plan, clashing) for plan in chosen]
            chosen.sort(key=lambda plan: far[plan.start])
            too_thick = sum(not plan.bundle_passes for plan in chosen)
            bad = _CONFLICT * len(clashing) + _TOO_THICK * too_thick
            return _unfinished(chosen) + bad, _through_mm(chosen), chosen

        return min((from_place(place) for place in ends), key=lambda each: each[:2])[2]

    def _tied(self, run: int, goal: str) -> Threading:
        """Return what goes through one opening to a place, but for what goes alone."""
        lies_mm = self.things.lying_mm(run, alone=True) if self.alone_first else []
        things = list(self.things.through(run, goal))
        return self._threading(run, goal, things, lies_mm, self.things.sleeved_mm(run, goal))

    def _alone(self) -> list[Threading]:
        """Return how what goes alone does, that together which goes the same way; from where it hangs, plug first."""
        by_way: dict[tuple[tuple[int, str], ...], list[Came]] = {}
        for each in (each for each in self.things.came if not each.tied):
            way = [(run, each.goal(run)) for run in self._through(each.route)]
            by_way.setdefault(tuple(way if each.first else way[::-1]), []).append(each)
        lies_mm = {run: [] if self.alone_first else self.things.lying_mm(run, alone=False) for run in self.opened}
        found = []
        for at, came in by_way.items():
            for run, goal in at:
                found.append(self._threading(run, goal, [each.thing for each in came], lies_mm[run]))
                lies_mm[run] += [circle for each in came for circle in each.thing.circles_mm]
        return found

    def _threading(
        self, run: int, goal: str, things: Sequence[Thing], lies_mm: Sequence[float], sleeved_mm: float = 0.0
    ) -> Threading:
        """Return what goes through one opening to a place, in the best order, beside what lies there already."""
        hole_mm, bundle_mm = self.harness.runs[run].hole_mm, self._bundles_mm[run]
        assert hole_mm is not None
        start = next(place for place in self.harness.runs[run].between if place != goal)
        order, thickest_mm = passages_of(hole_mm, things, lies_mm), max(bundle_mm, sleeved_mm)
        return Threading(run, start, goal, tuple(order), bundle_mm, thickest_mm, passes(hole_mm, (thickest_mm,)))

    @cached_property
    def _bundles_mm(self) -> dict[int, float]:
        return {run: self._bundle_mm(self.harness.bundles[run]) for run in self.opened}

    def _bundle_mm(self, bundle: Bundle) -> float:
        """Return how thick all that lies in a run is: sleeved, on a closed one with collars and labels too."""
        closed = self.harness.runs[bundle.run].closed
        label_mm = max(self._label_walls_mm(bundle), default=0.0) if closed else 0.0
        if bundle.sleeve is None:
            return bundle.diameter_mm + label_mm
        collar = self._collars.get(collar_need(bundle.sleeve)) if closed else None
        return bundle.diameter_mm + BRAID_MM + max(label_mm, 2 * collar.wall_mm if collar is not None else 0.0)

    def _label_walls_mm(self, bundle: Bundle) -> Iterator[float]:
        """Walk by how much the labels that reach into a run thicken what lies there."""
        between, leads = self.harness.runs[bundle.run].between, self._leads
        reach_mm = self.harness.labels.behind_plug_mm + LABEL_MM
        for lead in (leads[name] for name in bundle.leads if name in leads):
            for index in lead.plugs_at:
                inside = (lead.free_mm[index] or 0.0) < reach_mm and lead.ends[index].place in between
                tube = tube_of_label(lead_thickness_mm(lead), self.harness.tubes) if inside else None
                if tube is not None:
                    yield 2 * tube.wall_mm + PAPER_THICKENS_MM


def _clashed(plan: Threading, clashing: Collection[_Way]) -> Threading:
    """Return how an opening is passed with what clashes there."""
    here = [way for way in clashing if plan.run in way.runs]
    against = (way for way in here if way.first not in (None, far_end(way.route, plan.run, plan.goal)))
    return replace(
        plan,
        round=tuple(way.name for way in here if way.first is None),
        against=tuple(way.name for way in against),
    )


def _cost(plan: Sequence[Threading]) -> tuple[int, float]:
    """Return how much clashes in a plan, and what is left unfinished."""
    return sum(len(each.round) + len(each.against) for each in plan), _unfinished(plan)


def _unfinished(threadings: Iterable[Threading]) -> float:
    """Return what is left unfinished, each end once, however many openings it goes through."""
    worst: dict[Key, float] = {}
    for passage in (passage for threading in threadings for passage in threading.passages):
        worst[passage.thing.key] = max(passage.cost, worst.get(passage.thing.key, 0.0))
    return sum(worst.values())


def _through_mm(threadings: Iterable[Threading]) -> float:
    """Return how much in all goes through, each thing as thick as it is finished [mm]."""
    return sum(passage.thing.through_mm for threading in threadings for passage in threading.passages)
