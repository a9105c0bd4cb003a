"""Take a harness; return how what is made on the bench goes through the openings of the airframe, and what waits.

An opening parts each lead in two, and one side goes through. All leads that share openings are laid out from one
place, and the sides that are farther from there go through, nearest opening first: from the place for which the fewest
ends are left unfinished. What came along goes through with its plug. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise

from docgen.basics.frozen import frozen
from docgen.harness.assembly.passing import Passage, Waits, order_of, passage_of
from docgen.harness.assembly.things import Key, Things, end_key, far_end
from docgen.harness.bundling.diameters import lead_thickness_mm
from docgen.harness.bundling.openings import passes
from docgen.harness.bundling.sleeves import BRAID_MM, collar_need, collar_tubes
from docgen.harness.bundling.tubes import LABEL_MM, PAPER_THICKENS_MM, Need, tube_of_label
from docgen.harness.model.bundles import Bundle
from docgen.harness.model.circuits import CutLead, Lead
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import TubePart
from docgen.harness.routing.routes import Routes

_CONFLICT = 1_000_000.0  # a lead can't begin on both sides of what it goes through


@frozen
class Threading:
    """What goes through the opening of a run, in this order, from one place to the other; and its bundle when all has.

    That is sleeved, and on a closed run with labels and collars; `thickest_mm` is that, or a sleeve with all in it that
    goes through, if that is thicker. Leads that go `round` would have to begin on both sides of it: where runs make a
    ring there may be no place to begin from.
    """

    run: int
    start: str
    goal: str
    passages: tuple[Passage, ...]
    bundle_mm: float
    thickest_mm: float
    bundle_passes: bool
    round: tuple[str, ...] = ()


def plan_threading(harness: Harness) -> tuple[Threading, ...]:
    """Return what goes through each opening, those of one assembly after the other, nearest to where leads begin."""
    planner = _Planner(harness)
    return tuple(threading for group in planner.groups() for threading in planner.best(group))


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
class _Planner:
    harness: Harness

    @cached_property
    def _open(self) -> list[int]:
        """Return the runs with an opening in which something lies."""
        return [b.run for b in self.harness.bundles if b.leads and self.harness.runs[b.run].hole_mm is not None]

    @cached_property
    def _things(self) -> Things:
        return Things(self.harness, self._open)

    @cached_property
    def _leads(self) -> dict[str, Lead]:
        return {lead.name: lead for lead in self.harness.leads()}

    @cached_property
    def _collars(self) -> dict[Need, TubePart]:
        return collar_tubes(self.harness.bundles, self.harness.tubes)

    @cached_property
    def _passing(self) -> list[tuple[CutLead, list[int]]]:
        """Return the leads that go through openings, with those in the order of their routes."""
        found = [(lead, [run for run in lead.route.runs if run in self._open]) for lead in self.harness.cut_leads()]
        return [(lead, runs) for lead, runs in found if runs]

    def groups(self) -> list[list[int]]:
        """Return openings in groups, those together that one lead passes, or one and what comes along with it."""
        group_of = {run: run for run in self._open}
        shared = [(run, other) for run in self._open for other in self._things.openings_bound_to(run)]
        for one, other in (*shared, *(pair for _, runs in self._passing for pair in pairwise(runs))):
            group_of = {run: group_of[one] if of == group_of[other] else of for run, of in group_of.items()}
        return [[run for run in self._open if group_of[run] == of] for of in dict.fromkeys(group_of.values())]

    def best(self, group: Sequence[int]) -> list[Threading]:
        """Return what goes through a group of openings, from the best place to begin."""
        mine = [(lead, runs) for lead, runs in self._passing if runs[0] in group]
        laid_along = {run for lead, _ in mine for run in lead.route.runs}
        routes = Routes([self.harness.runs[run] for run in sorted(laid_along.union(group))])
        ends = dict.fromkeys(place for run in group for place in self.harness.runs[run].between)
        plans: dict[tuple[int, str], Threading] = {}
        wide_mm = {run: self._bundle_mm(self.harness.bundles[run]) for run in group}

        def from_place(place: str) -> tuple[float, float, list[Threading]]:
            far = routes.apart(place, ends)
            goals = {run: max(reversed(self.harness.runs[run].between), key=far.__getitem__) for run in group}
            for at in goals.items():
                plans[at] = plans.get(at) or self._through(*at, wide_mm[at[0]])
            chosen = [plans[at] for at in goals.items()]
            clashing = [(lead, runs) for lead, runs in mine if _clash(lead, runs, goals)]
            rounds = {run: tuple(lead.name for lead, runs in clashing if run in runs) for run in group}
            chosen = [replace(plan, round=rounds[plan.run]) for plan in chosen]
            chosen.sort(key=lambda plan: far[plan.start])
            too_thick = sum(not plan.bundle_passes for plan in chosen)
            return _unfinished(chosen) + _CONFLICT * (len(clashing) + too_thick), _through_mm(chosen), chosen

        return min((from_place(place) for place in ends), key=lambda each: each[:2])[2]

    def _through(self, run: int, goal: str, bundle_mm: float) -> Threading:
        """Return what goes through one opening to a place, in the best order."""
        hole_mm = self.harness.runs[run].hole_mm
        assert hole_mm is not None
        start = next(place for place in self.harness.runs[run].between if place != goal)
        things, lying_mm = list(self._things.through(run, goal)), self._things.lying_mm(run)
        order = order_of(hole_mm, [thing for thing in things if not thing.bound])
        order += [passage_of(hole_mm, thing, lying_mm) for thing in things if thing.bound]
        thickest_mm = max(bundle_mm, self._things.sleeved_mm(run, goal))
        return Threading(run, start, goal, tuple(order), bundle_mm, thickest_mm, passes(hole_mm, (thickest_mm,)))

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


def _clash(lead: CutLead, runs: Sequence[int], goals: Mapping[int, str]) -> bool:
    """Tell whether a lead would have to begin in two places: one end goes through an opening, then the other end."""
    ends = [far_end(lead.route, run, goals[run]) for run in runs]
    return any(one > other for one, other in pairwise(ends))


def _unfinished(threadings: Iterable[Threading]) -> float:
    """Return what is left unfinished, each end once, however many openings it goes through."""
    worst: dict[Key, float] = {}
    for passage in (passage for threading in threadings for passage in threading.passages):
        worst[passage.thing.key] = max(passage.cost, worst.get(passage.thing.key, 0.0))
    return sum(worst.values())


def _through_mm(threadings: Iterable[Threading]) -> float:
    """Return how much in all goes through, each thing as thick as it is finished [mm]."""
    return sum(passage.thing.through_mm for threading in threadings for passage in threading.passages)
