"""Take runs and places to pass; return the shortest route over them."""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Sequence

from docgen.harness.model.airframe import Route, Run


class Routes:
    """The network of runs; each source's tree of shortest routes is worked out once."""

    def __init__(self, runs: Sequence[Run]) -> None:
        self.runs = runs
        self._at: dict[str, list[int]] = {}
        self._trees: dict[str, dict[str, tuple[float, int]]] = {}
        for index, run in enumerate(runs):
            for place in run.between:
                self._at.setdefault(place, []).append(index)

    def shortest(self, stops: Sequence[str]) -> Route | None:
        """Return the shortest route from the first stop over all others in order, if there is one."""
        places, runs, length = [stops[0]], list[int](), 0.0
        for start, goal in itertools.pairwise(stops):
            leg = self._leg(start, goal)
            if leg is None:
                return None
            places += leg.places[1:]
            runs += leg.runs
            length += leg.length_mm
        return Route(tuple(places), tuple(runs), length)

    def apart_mm(self, start: str, goal: str) -> float:
        """Return the length of the shortest route between two places, infinite where there is none."""
        route = self.shortest([start, goal])
        return math.inf if route is None else route.length_mm

    def _leg(self, start: str, goal: str) -> Route | None:
        tree = self._trees.get(start)
        if tree is None:
            tree = self._trees[start] = self._tree(start)
        if goal not in tree:
            return None
        places, runs = [goal], list[int]()
        while places[-1] != start:
            run = tree[places[-1]][1]
            runs.append(run)
            places.append(self._other(run, places[-1]))
        return Route(tuple(reversed(places)), tuple(reversed(runs)), tree[goal][0])

    def _tree(self, start: str) -> dict[str, tuple[float, int]]:
        """Return for each place that can be reached its distance and the run that leads to it (Dijkstra)."""
        tree: dict[str, tuple[float, int]] = {}
        queue: list[tuple[float, int, str]] = [(0.0, -1, start)]
        while queue:
            length, run, place = heapq.heappop(queue)
            if place in tree:
                continue
            tree[place] = length, run
            for index in self._at.get(place, ()):
                other = self._other(index, place)
                if other not in tree:
                    heapq.heappush(queue, (length + self.runs[index].length_mm, index, other))
        return tree

    def _other(self, run: int, place: str) -> str:
        first, second = self.runs[run].between
        return second if place == first else first
