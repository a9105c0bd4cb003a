"""Take a harness; return what of it is not measured, and the leads that therefore have no length."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.frozen import frozen
from docgen.harness.bundling.sleeves import sleeves_of
from docgen.harness.model.airframe import Route
from docgen.harness.model.circuits import CutLead
from docgen.harness.model.harness import Harness


@frozen
class Gap:
    """What no length is known of: a run by its number, the way between two places, or the reach of a joint's half.

    The way between two things on one place has that place twice.
    """

    places: tuple[str, str]
    run: int | None = None
    joint: str = ""


@frozen
class Waiting:
    """A lead that can't be cut yet, by its name, its assembly, and what it waits for."""

    lead: str
    assembly: str
    gaps: tuple[Gap, ...]


def waiting_leads(harness: Harness) -> tuple[Waiting, ...]:
    """Return the leads that have no length, in the order written."""
    unknown = (lead for lead in harness.cut_leads() if lead.cut_length_mm is None)
    return tuple(Waiting(lead.name, lead.assembly, tuple(_gaps(harness, lead))) for lead in unknown)


def straight_leads(harness: Harness) -> tuple[Waiting, ...]:
    """Return the leads that are cut by the straight line of runs not measured, or without a way; no pinned ones."""
    found = []
    for lead in harness.cut_leads():
        runs = [index for index in lead.route.runs if not harness.runs[index].measured]
        gaps = [Gap(harness.runs[index].between, run=index) for index in runs]
        gaps += [Gap((lead.route.places[0],) * 2)] if has_no_way(harness, lead) else []
        if gaps and lead.cut_length_mm is not None and not lead.pinned:
            found.append(Waiting(lead.name, lead.assembly, tuple(gaps)))
    return tuple(found)


def straight_sleeves(harness: Harness) -> frozenset[tuple[int, ...]]:
    """Return the sleeves that are cut by the straight line of a run, by the runs that they lie over."""
    return frozenset(
        sleeve.runs
        for sleeve in sleeves_of(harness.bundles)
        if sleeve.cut_length_mm is not None and not all(harness.runs[run].measured for run in sleeve.runs)
    )


def has_no_way(harness: Harness, lead: CutLead) -> bool:
    """Tell whether both ends of a lead are on one place of which it is not said how far apart things lie there."""
    return len(lead.route.places) == 1 and harness.places[lead.route.places[0]].across_mm is None


def _gaps(harness: Harness, lead: CutLead) -> Iterator[Gap]:
    yield from gaps_of_route(harness, lead.route)
    for end, free_mm in zip(lead.ends, lead.free_mm, strict=True):
        if free_mm is None:
            yield Gap((end.place, end.part), joint=end.name)


def gaps_of_route(harness: Harness, route: Route) -> Iterator[Gap]:
    """Walk what is not known of a route: runs without a length, or the whole of it where no runs lead there."""
    if route.length_mm is None and not route.runs:
        yield Gap((route.places[0], route.places[-1]))
    for index in route.runs:
        if harness.runs[index].length_mm is None:
            yield Gap(harness.runs[index].between, run=index)
