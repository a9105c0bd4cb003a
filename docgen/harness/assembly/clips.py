"""Take a harness; return what holds it in place: clips and strain reliefs by how thick a bundle they hold.

Clips go only where a hand reaches: none along closed runs. Common practice, no source.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Sequence

from docgen.basics.units import added
from docgen.harness.bundling.diameters import lead_thickness_mm, outside_diameter_mm
from docgen.harness.bundling.sleeves import BRAID_MM
from docgen.harness.model.bundles import Bundle
from docgen.harness.model.circuits import Lead
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Half


def clips_of(harness: Harness) -> dict[int, int]:
    """Return how many clips there are of each size [mm]: the bundle's thickness with its sleeve, rounded up.

    One at each half that is fixed, where a coil begins, where routes part, and along between those.
    """
    used = [bundle for bundle in harness.bundles if bundle.leads]
    at = _At(harness)
    halves = [half for half in _halves(harness) if half.fixed]
    coils = [
        (end.place, math.ceil(lead_thickness_mm(lead)[0]))
        for lead in harness.leads()
        for end, free in zip(lead.ends, lead.free_mm, strict=True)
        if free and end.kind != "half"  # the free tail of a half is one, however many leads are in it
    ]
    meeting = Counter(place for bundle in used for place in harness.runs[bundle.run].between)
    held = {*(place for place, _ in coils), *(half.place for half in _halves(harness))}
    parting = {place for place, runs in meeting.items() if runs > 2} - held
    sizes = Counter(size for place, size in coils if at.is_reached(place))
    places = [*(half.place for half in halves), *parting]
    sizes.update(at.size(place) for place in places if at.is_reached(place))
    for bundles in _ways(harness, used, {place for place in meeting if meeting[place] == 2} - held):
        open_runs = [bundle for bundle in bundles if not harness.runs[bundle.run].closed]
        length_mm = added(harness.runs[bundle.run].length_mm for bundle in open_runs)
        if open_runs and length_mm is not None:
            size = max(_size(bundle) for bundle in open_runs)
            sizes[size] += max(math.ceil(length_mm / harness.clip_every_mm - 1e-9) - 1, 0)
    return {size: sizes[size] for size in sorted(sizes) if sizes[size]}


def strain_reliefs_of(harness: Harness) -> dict[int, int]:
    """Return how many strain reliefs there are of each size [mm]: one where the free tail of a half begins."""
    at = _At(harness)
    sizes = Counter(at.size(half.place) for half in _halves(harness) if not half.fixed)
    return dict(sorted(sizes.items()))


def _halves(harness: Harness) -> list[Half]:
    """Return the halves that are made: what came along hangs on its own lead."""
    return [half for _, half in harness.halves() if not half.came_on]


class _At:
    """What comes to each place of a harness."""

    def __init__(self, harness: Harness) -> None:
        self._harness = harness
        self._bundles: dict[str, list[Bundle]] = {}
        for bundle in (bundle for bundle in harness.bundles if bundle.leads):
            for place in dict.fromkeys(harness.runs[bundle.run].between):
                self._bundles.setdefault(place, []).append(bundle)
        self._ending: dict[str, list[Lead]] = {}
        for lead in harness.leads():
            for place in dict.fromkeys(end.place for end in lead.ends):
                self._ending.setdefault(place, []).append(lead)

    def is_reached(self, place: str) -> bool:
        """Tell whether a hand gets to a place: there is an access, or a run there is not closed."""
        runs = [self._harness.runs[bundle.run] for bundle in self._bundles.get(place, ())]
        return bool(self._harness.places[place].access) or not all(run.closed for run in runs)

    def size(self, place: str) -> int:
        """Return the thickest bundle that comes to a place, or all that ends there where no run does."""
        bundles = self._bundles.get(place, ())
        if bundles:
            return max(map(_size, bundles))
        ending = self._ending.get(place, ())
        return math.ceil(outside_diameter_mm([lead_thickness_mm(lead)[0] for lead in ending]))


def _size(bundle: Bundle) -> int:
    return math.ceil(bundle.diameter_mm + (BRAID_MM if bundle.sleeve is not None else 0.0) - 1e-9)


def _ways(harness: Harness, bundles: Sequence[Bundle], passed: Collection[str]) -> list[list[Bundle]]:
    """Return the ways that runs make together, which go on at the places `passed`."""
    at: dict[str, list[int]] = {}
    for number, bundle in enumerate(bundles):
        for place in dict.fromkeys(harness.runs[bundle.run].between):
            at.setdefault(place, []).append(number)
    ways: list[list[Bundle]] = []
    seen: set[int] = set()
    for first in range(len(bundles)):
        way, left = set[int](), [] if first in seen else [first]
        while left:
            number = left.pop()
            if number not in way:
                way.add(number)
                left += [n for place in harness.runs[bundles[number].run].between if place in passed for n in at[place]]
        seen |= way
        ways += [[bundles[number] for number in sorted(way)]] if way else []
    return ways
