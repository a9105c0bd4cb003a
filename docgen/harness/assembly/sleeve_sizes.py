"""Take a harness; return how thick the things are that a sleeve passes or not, and what came along in it."""

from __future__ import annotations

from dataclasses import field
from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.harness.bundling.diameters import lead_thickness_mm
from docgen.harness.bundling.sleeves import collar_tubes
from docgen.harness.bundling.tubes import Need, girth_diameter_mm, tube_of_label
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import CutLead, End
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import TubePart


def girth_mm(end: End) -> float:
    """Return the diameter of the tube whose circumference is the girth of an end's plug or shell [mm]."""
    return 0.0 if end.is_splice else girth_diameter_mm(end.connector.outline_mm)


@frozen
class OwnWay:
    """How a sleeve goes on over what came along: over its plug, toward what it hangs on.

    `nth` counts from there, `beyond` are the runs between the sleeve and the plug.
    """

    start: str
    goal: str
    nth: int
    beyond: frozenset[int]


@frozen
class Sizes:
    """How thick things are that a sleeve passes or not, which no hub changes."""

    harness: Harness
    _ends_mm: dict[tuple[str, int], float] = field(default_factory=dict, compare=False)

    def end_mm(self, lead: CutLead, index: int) -> float:
        """Return what is at a crimped end: its plug and its label, beside the other leads.

        The outline around two things side by side is never longer than both outlines together.
        """
        key = lead.name, index
        if key not in self._ends_mm:
            heat_c = self.harness.hottest_c(lead.route)
            tube = tube_of_label(lead_thickness_mm(lead), self.harness.tubes, heat_c)
            self._ends_mm[key] = max(girth_mm(lead.ends[index]), tube.expanded_mm if tube is not None else 0.0)
        return self._ends_mm[key]

    def room_mm(self, sleeve: Sleeve) -> float:
        """Return how thick a thing a sleeve passes over, beside what else is in it."""
        alone = len(self.harness.bundles[sleeve.runs[0]].leads) == 1
        return sleeve.kind.fits_mm[1] - (0.0 if alone else sleeve.diameter_mm)

    def plugs_in(self, sleeve: Sleeve) -> tuple[str, ...]:
        """Return the equipment whose own lead lies in a sleeve and came with a plug that it does not pass over."""
        owns = () if sleeve.kind.splits else self._owns_in.get(sleeve.runs[0], ())
        return tuple(name for name, girth in owns if girth > self.room_mm(sleeve))

    @cached_property
    def collars(self) -> dict[Need, TubePart]:
        """Return the tubes that close the ends of sleeves, by what those need."""
        return collar_tubes(self.harness.bundles, self.harness.tubes)

    def way_of_owns(self, sleeve: Sleeve) -> OwnWay | None:
        """Return how a sleeve goes on over what came along alone; nothing for one over leads that are cut."""
        run = sleeve.runs[0]
        if not self._cut.isdisjoint(self.harness.bundles[run].leads):
            return None
        for places, runs in (way for way in self._ways if run in way[1]):
            goal, start = sorted(sleeve.ends, key=places.index)
            beyond = runs[max(map(runs.index, sleeve.runs)) + 1 :]
            return OwnWay(start, goal, places.index(goal), frozenset(beyond))
        return None

    @cached_property
    def _cut(self) -> frozenset[str]:
        return frozenset(lead.name for lead in self.harness.cut_leads())

    @cached_property
    def _ways(self) -> list[tuple[tuple[str, ...], tuple[int, ...]]]:
        """Return the places and runs of what came along, from what it hangs on to its plug or tip."""
        antennas = [antenna.route for entry in self.harness.equipment.values() for antenna in entry.antennas]
        ways = [(route.places, route.runs) for route in antennas if route is not None]
        for lead in self.harness.leads():
            for index, end in enumerate(lead.ends):
                other = lead.ends[1 - index].own
                # Two own leads that plug into each other part there: over either plug will do.
                if end.own is not None and (isinstance(lead, CutLead) or other is None):
                    route = lead.route_of(end.own)
                    step = 1 if isinstance(lead, CutLead) or index == 0 else -1
                    ways.append((route.places[::step], route.runs[::step]))
        return ways

    @cached_property
    def _owns_in(self) -> dict[int, list[tuple[str, float]]]:
        """Return the own leads that lie in each run: what came with them, and the girth of their plugs."""
        found: dict[int, list[tuple[str, float]]] = {}
        for lead in self.harness.leads():
            for end in lead.ends:
                for run in dict.fromkeys(lead.route_of(end.own).runs) if end.own is not None else ():
                    found.setdefault(run, []).append((end.name, girth_mm(end)))
        return found
