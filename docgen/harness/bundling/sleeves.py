"""Take runs and how thick their contents are; return which sleeve each needs, and one piece for each unbroken span."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping, Sequence

from docgen.basics.frozen import frozen
from docgen.basics.units import round_up_to_step
from docgen.harness.bundling.tubes import LABEL_MM, Need, fewest_tubes
from docgen.harness.model.airframe import Run
from docgen.harness.model.bundles import Bundle, Sleeve
from docgen.harness.model.parts import SleevePart, TubePart

BRAID_MM = 1.0  # by how much a sleeve is thicker than what is in it; common practice, no source
_NOISE_MM = 1e-9  # so that a diameter at the very end of a range fits


@frozen(slots=True)
class Span:
    """Runs in a row with the same contents, and the places at its two ends."""

    runs: tuple[int, ...]
    ends: tuple[str, str]


def needs_sleeve(run: Run, hot_c: float) -> bool:
    """Tell whether what lies in a run wants protection: from a sharp edge, or from heat over a limit [°C]."""
    return needs_sleeve_for_edges(run) or (run.heat_c is not None and run.heat_c > hot_c)


def needs_sleeve_for_edges(run: Run) -> bool:
    """Tell whether a run is sharp and not dressed."""
    return run.sharp and run.dressed is None


def sleeve_on(
    run: Run, diameter_mm: float, heat_c: float | None, kinds: Sequence[SleevePart], hot_c: float
) -> SleevePart | None:
    """Return the sleeve over what lies in a run: the one that the builder names, if it fits, else what it wants."""
    if run.sleeve is not None:
        return choose_sleeve(diameter_mm, heat_c, [kind for kind in kinds if kind.name == run.sleeve])
    return choose_sleeve(diameter_mm, heat_c, kinds) if needs_sleeve(run, hot_c) else None


def choose_sleeve(diameter_mm: float, heat_c: float | None, kinds: Sequence[SleevePart]) -> SleevePart | None:
    """Return the sleeve with the least upper end of those that fit and stand the heat; of equals the first."""
    return min(fitting_sleeves(diameter_mm, heat_c, kinds), key=lambda kind: kind.fits_mm[1], default=None)


def fitting_sleeves(diameter_mm: float, heat_c: float | None, kinds: Sequence[SleevePart]) -> list[SleevePart]:
    """Return the sleeves that fit and stand the heat."""
    standing = [kind for kind in kinds if heat_c is None or kind.limit_c >= heat_c]
    return [kind for kind in standing if _fits(kind, diameter_mm)]


def _fits(kind: SleevePart, diameter_mm: float) -> bool:
    least, most = kind.fits_mm
    return least - _NOISE_MM <= diameter_mm <= most + _NOISE_MM and shortening_at(kind, diameter_mm) < 1


def shortening_at(kind: SleevePart, diameter_mm: float) -> float:
    """Return by how much a sleeve shortens when it opens to a diameter, in proportion between its two."""
    (least, most), (first, last) = kind.fits_mm, kind.shortening
    if most <= least:
        return max(first, last)
    return first + (last - first) * (diameter_mm - least) / (most - least)


def unbroken_spans(runs: Sequence[Run], contents: Mapping[int, Hashable]) -> list[Span]:
    """Return the runs that are to be sleeved, in their order, joined where exactly two with the same contents meet."""
    meeting: dict[tuple[str, Hashable], list[int]] = defaultdict(list)
    for index, content in contents.items():
        for place in dict.fromkeys(runs[index].between):
            meeting[place, content].append(index)
    spans: list[Span] = []
    taken: set[int] = set()
    for index, content in contents.items():
        if index in taken:
            continue
        taken.add(index)
        ahead, last = _follow(runs, meeting, index, 1, taken, content)
        behind, first = _follow(runs, meeting, index, 0, taken, content)
        spans.append(Span((*reversed(behind), index, *ahead), (first, last)))
    return spans


def _follow(
    runs: Sequence[Run],
    meeting: Mapping[tuple[str, Hashable], list[int]],
    start: int,
    side: int,
    taken: set[int],
    content: Hashable,
) -> tuple[list[int], str]:
    """Go on from one end of a run as far as the span goes; return the runs passed and the last place."""
    passed: list[int] = []
    here, place = start, runs[start].between[side]
    while len(pair := meeting[place, content]) == 2:
        following = pair[1] if pair[0] == here else pair[0]
        if following in taken:
            break
        taken.add(following)
        passed.append(following)
        first, second = runs[following].between
        here, place = following, second if place == first else first
    return passed, place


def bare_ends_mm(length_mm: float, labels_mm: tuple[float, float]) -> tuple[float, float]:
    """Return how much of a span stays bare at its two ends: a sleeve ends short of the labels that reach in there [mm].

    Half of a short span is covered whatever its labels: the edge comes before the label.
    """
    first, last = (min(max(label, 0.0), length_mm / 4) for label in labels_mm)
    return first, last


def label_reach_mm(behind_plug_mm: float, free_mm: float) -> float:
    """Return how far a label reaches into a run whose lead has so much lying free before its plug [mm]."""
    return max(behind_plug_mm + LABEL_MM - free_mm, 0.0)


def cut_sleeve(
    kind: SleevePart,
    span: Span,
    diameter_mm: float,
    covered: float | None,
    round_up_to_mm: float,
    heat_c: float | None,
    bare_mm: tuple[float, float],
) -> Sleeve:
    """Return the piece of a sleeve that covers so much [mm], if known: covered / (1 − shortening), rounded up."""
    shortening = shortening_at(kind, diameter_mm)
    cut = None if covered is None else round_up_to_step(covered / (1 - shortening), round_up_to_mm)
    return Sleeve(kind, span.runs, span.ends, diameter_mm, covered, shortening, cut, heat_c, bare_mm)


def sleeves_of(bundles: Iterable[Bundle]) -> list[Sleeve]:
    """Return each piece of sleeve once; it stands in the bundles of all its runs."""
    return [b.sleeve for b in bundles if b.sleeve is not None and b.sleeve.runs[0] == b.run]


def collar_need(sleeve: Sleeve) -> Need:
    """Return what a tube that closes an end of a sleeve passes and grips."""
    return Need(sleeve.diameter_mm + BRAID_MM, sleeve.diameter_mm + BRAID_MM, sleeve.heat_c)


def collar_tubes(bundles: Iterable[Bundle], tubes: Iterable[TubePart]) -> dict[Need, TubePart]:
    """Return the tubes that close the ends of sleeves, in the fewest sizes, by what each of them needs."""
    return fewest_tubes(map(collar_need, sleeves_of(bundles)), [tube for tube in tubes if not tube.clear])
