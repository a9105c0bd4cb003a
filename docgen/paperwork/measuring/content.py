"""Take a harness; return what there is to measure in each assembly, what is not known first, and a sketch of it."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.frozen import frozen
from docgen.harness.assembly.unmeasured import Gap, gaps_of_route
from docgen.harness.model.harness import Harness


@frozen
class Measure:
    """One length to take: from where to where, or of what; what is there to be passed; what is written now [mm].

    A straight line stands for a run of which no more is known. `key` is what is written for it.
    """

    what: str
    key: str
    passes: str
    leads: int
    now_mm: float | None
    measured: bool


@frozen
class Branch:
    """A place of the sketch, how deep it hangs below the first, and the number of the measure that leads to it."""

    place: str
    depth: int
    number: int | None
    now_mm: float | None


@frozen
class Assembly:
    """What is measured in one assembly, by number from 1, and its sketch."""

    name: str
    measures: tuple[Measure, ...]
    sketch: tuple[Branch, ...]


@frozen
class MeasuringContent:
    """All assemblies in which something can be measured."""

    assemblies: tuple[Assembly, ...]


def is_wanted(harness: Harness) -> bool:
    """Tell whether anything is not measured that the builder does not live with, so that it is printed unasked."""
    if all(finding.accepted for finding in harness.findings if finding.name == "unmeasured"):
        return False
    return any(not each.measured for name in harness.assemblies for _, each in _measures(harness, name))


def content(harness: Harness) -> MeasuringContent:
    """Return what there is to measure."""
    every = [_assembly(harness, name) for name in harness.assemblies]
    return MeasuringContent(tuple(assembly for assembly in every if assembly.measures))


def _assembly(harness: Harness, name: str) -> Assembly:
    found = sorted(_measures(harness, name), key=lambda one: one[1].measured)
    ways = {(min(places), max(places)): number for number, (places, _) in enumerate(found, 1) if places is not None}
    measures = tuple(measure for _, measure in found)
    return Assembly(name, measures, tuple(_sketch(harness, ways, measures)))


_Places = tuple[str, str] | None


def _measures(harness: Harness, name: str) -> Iterator[tuple[_Places, Measure]]:
    """Walk what can be measured, with the places that it joins: runs, ways without runs, places, tails, own leads."""
    yield from _runs(harness, name)
    yield from _ways(harness, name)
    for disconnect, half in harness.halves():
        if harness.places[half.place].assembly == name and not half.fixed and not half.came_on:
            what = f"tail of {disconnect.name}, {half.name} half"
            yield None, Measure(what, "reach", "", 0, half.reach_mm, half.reach_mm is not None)
    yield from _own_leads(harness, name)


def _runs(harness: Harness, name: str) -> Iterator[tuple[_Places, Measure]]:
    for bundle in harness.bundles:
        run = harness.runs[bundle.run]
        if harness.places[run.between[0]].assembly == name:
            says = [*["sharp"] * run.sharp, *["closed"] * run.closed, *["hot"] * (run.heat_c is not None)]
            what = " – ".join(run.between)
            count = len(bundle.leads)
            yield run.between, Measure(what, "length", ", ".join(says), count, run.length_mm, run.measured)


def _ways(harness: Harness, name: str) -> Iterator[tuple[_Places, Measure]]:
    """Walk ways that no runs make yet, and places that leads cross from one thing to another."""
    leads = [lead for lead in harness.leads() if lead.assembly == name]
    gaps: dict[Gap, int] = {}
    on_one: dict[str, int] = {}
    for lead in leads:
        for gap in gaps_of_route(harness, lead.route):
            if gap.run is None:
                gaps[gap] = gaps.get(gap, 0) + 1
        if len(lead.route.places) == 1:
            on_one[lead.route.places[0]] = on_one.get(lead.route.places[0], 0) + 1
    for gap, count in gaps.items():
        yield gap.places, Measure(" – ".join(gap.places), "a run", "", count, None, measured=False)
    for place, count in on_one.items():
        across_mm = harness.places[place].across_mm
        yield None, Measure(f"across {place}", "across", "", count, across_mm, across_mm is not None)


def _own_leads(harness: Harness, name: str) -> Iterator[tuple[_Places, Measure]]:
    """Walk the leads that equipment of an assembly came with and that have no length."""
    ends = (end for lead in harness.leads() for end in lead.ends if end.own is not None and end.own.length_mm is None)
    for equipment in dict.fromkeys(end.name for end in ends):
        if harness.places[harness.equipment[equipment].place].assembly == name:
            yield None, Measure(f"own lead of {equipment}", "lead", "", 0, None, measured=False)


def _sketch(harness: Harness, ways: dict[tuple[str, str], int], measures: tuple[Measure, ...]) -> Iterator[Branch]:
    """Walk the places that are joined as a tree, each below the one from which a run leads to it first."""
    joined: dict[str, list[tuple[str, int]]] = {}
    for (one, other), way in sorted(ways.items(), key=lambda item: item[1]):
        joined.setdefault(one, []).append((other, way))
        joined.setdefault(other, []).append((one, way))
    seen: set[str] = set()
    for root in (place for place in harness.places if place in joined):
        waiting: list[tuple[str, int, int | None]] = [(root, 0, None)]
        while waiting:
            place, depth, number = waiting.pop()
            if place not in seen:
                seen.add(place)
                yield Branch(place, depth, number, measures[number - 1].now_mm if number else None)
                below = [(other, depth + 1, by) for other, by in joined[place] if other not in seen]
                waiting += reversed(below)
