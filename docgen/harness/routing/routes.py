"""Take runs and places to pass; return the route over them: the shortest, as far as lengths are known."""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Collection, Sequence

from docgen.basics.units import added
from docgen.harness.model.airframe import Route, Run


class _Tree:
    """Of places that were reached from one by now, the nearest first, the distance and the run that leads there."""

    def __init__(self, start: str) -> None:
        self.reached: dict[str, tuple[float, int]] = {}
        self.queue: list[tuple[float, int, str]] = [(0.0, -1, start)]


class Routes:
    """The network of runs; each source's tree of shortest routes is worked out once, as far as it is asked for.

    Where one of several ways holds a run of unknown length, none is known to be the shortest: it is that of fewest
    runs, then as written.
    """

    def __init__(self, runs: Sequence[Run]) -> None:
        self.runs = runs
        self._at: dict[str, list[int]] = {}
        for index, run in enumerate(runs):
            for place in run.between:
                self._at.setdefault(place, []).append(index)
        self._shortest: dict[str, _Tree] = {}
        self._fewest: dict[str, _Tree] = {}
        self._unsure = self._on_rings_of({index for index, run in enumerate(runs) if run.length_mm is None})

    def route(self, stops: Sequence[str]) -> Route | None:
        """Return the route over places in order, of unknown length where no run leads to one of two of them yet.

        Nothing where a run between is missing.
        """
        route = self.shortest(stops)
        apart = all(one in self._at and other in self._at for one, other in itertools.pairwise(stops) if one != other)
        return route if route is not None or apart else Route((stops[0], stops[-1]), (), None)

    def shortest(self, stops: Sequence[str]) -> Route | None:
        """Return the shortest route from the first stop over all others in order, if there is one."""
        places, runs = [stops[0]], list[int]()
        for start, goal in itertools.pairwise(stops):
            leg = self._leg(start, goal)
            if leg is None:
                return None
            places += leg[0][1:]
            runs += leg[1]
        return Route(tuple(places), tuple(runs), added(self.runs[run].length_mm for run in runs))

    def apart(self, start: str, goals: Collection[str]) -> dict[str, float]:
        """Return how far places lie from one, infinite where no route leads there.

        By length, or by the number of runs where one of the lengths is not known.
        """
        routes = {goal: self.shortest([start, goal]) for goal in goals}
        lengths = {goal: route.length_mm for goal, route in routes.items() if route is not None}
        known = {goal: length_mm for goal, length_mm in lengths.items() if length_mm is not None}
        counts = {goal: float(len(route.runs)) for goal, route in routes.items() if route is not None}
        return dict.fromkeys(goals, math.inf) | (known if len(known) == len(lengths) else counts)

    def _leg(self, start: str, goal: str) -> tuple[list[str], list[int]] | None:
        """Return the places and runs from one place to another."""
        leg = self._along(self._fewest, start, goal) if self._unsure else None
        if leg is not None and not self._unsure.isdisjoint(leg[1]):
            return leg
        return self._along(self._shortest, start, goal)

    def _along(self, trees: dict[str, _Tree], start: str, goal: str) -> tuple[list[str], list[int]] | None:
        reached = self._reached(trees, start, goal)
        if goal not in reached:
            return None
        places, runs = [goal], list[int]()
        while places[-1] != start:
            run = reached[places[-1]][1]
            runs.append(run)
            places.append(self._other(run, places[-1]))
        return places[::-1], runs[::-1]

    def _reached(self, trees: dict[str, _Tree], start: str, goal: str | None = None) -> dict[str, tuple[float, int]]:
        """Return what is reached from a place, by length or by the number of runs (Dijkstra): at least up to a goal."""
        tree = trees.setdefault(start, _Tree(start))
        reached, queue = tree.reached, tree.queue
        while queue and (goal is None or goal not in reached):
            far, run, place = heapq.heappop(queue)
            if place in reached:
                continue
            reached[place] = far, run
            for index in self._at.get(place, ()):
                other, more = self._other(index, place), 1.0 if trees is self._fewest else self.runs[index].length_mm
                if other not in reached and more is not None:
                    heapq.heappush(queue, (far + more, index, other))
        return reached

    def _on_rings_of(self, unknown: set[int]) -> set[int]:
        """Return runs with all that lie on a ring with one of them: only there a way may go over it or not.

        Runs lie on a ring together where a chain of rings that share runs joins them, each ring made of one run and
        the way between its ends in a tree over all places.
        """
        rings: list[set[int]] = []
        root: dict[str, str] = {}
        for index, run in enumerate(self.runs if unknown else ()):
            if run.between[0] not in root:
                root |= dict.fromkeys(self._reached(self._fewest, run.between[0]), run.between[0])
            start = root[run.between[0]]
            first, second = (self._along(self._fewest, start, place) for place in run.between)
            assert first is not None
            assert second is not None
            ring = {index} | set(first[1]) ^ set(second[1])
            touched = [other for other in rings if other & ring]
            rings = [other for other in rings if not other & ring] + [ring.union(*touched)]
        return set().union(*(ring for ring in rings if ring & unknown))

    def _other(self, run: int, place: str) -> str:
        first, second = self.runs[run].between
        return second if place == first else first
