"""Take circuits and equipment; return what lies in each run, how thick it is, how it may be bent, and its sleeve."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from docgen.basics.frozen import frozen
from docgen.basics.units import added
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.bundling.sleeves import (
    Span,
    bare_ends_mm,
    cut_sleeve,
    label_reach_mm,
    sleeve_on,
    unbroken_spans,
)
from docgen.harness.model.airframe import Place, Route, Run, hottest_c
from docgen.harness.model.bundles import Bundle, Sleeve
from docgen.harness.model.circuits import Circuit, CutLead, Lead
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.parts import SleevePart

# Least bend radius over outside diameter: where it flexes US Army TM 1-1500-204-23-4 item 27; where it lies
# supported from a text at second hand; of coax from memory.
FLEXED, SUPPORTED, COAX = 10, 3, 6


@frozen(slots=True)
class BundleRules:
    """What the builder may change: heat that wants a sleeve, where labels stand, the step of cut lengths."""

    hot_c: float
    behind_plug_mm: float
    round_up_to_mm: float


@frozen(slots=True)
class Laid:
    """A lead, own lead or coax that lies in runs, as circles.

    `plugs` are the places where it has a plug with a label behind it, and what lies free there, if that is known. An
    own lead has a plug of `plug_mm`.
    """

    name: str
    circles_mm: tuple[float, ...]
    route: Route
    plugs: tuple[tuple[str, float | None], ...] = ()
    plug_mm: tuple[float, ...] = ()
    coax: bool = False

    @property
    def runs(self) -> tuple[int, ...]:
        """Return the numbers of the runs that it lies in."""
        return self.route.runs


def build_bundles(
    places: Mapping[str, Place],
    runs: Sequence[Run],
    circuits: Iterable[Circuit],
    equipment: Mapping[str, Equipment],
    sleeve_kinds: Sequence[SleevePart],
    rules: BundleRules,
) -> tuple[Bundle, ...]:
    """Return what lies in each run, in the order of the runs; in some nothing does."""
    contents: list[list[Laid]] = [[] for _ in runs]
    for item in laid(circuits, equipment):
        for index in item.runs:
            contents[index].append(item)
    diameters = [outside_diameter_mm([circle for item in items for circle in item.circles_mm]) for items in contents]
    heats = [heat_of_run_c(places, runs, index) for index in range(len(runs))]
    wanting = {
        index: (tuple(items), runs[index].sleeve)
        for index, items in enumerate(contents)
        if items and sleeve_on(runs[index], diameters[index], heats[index], sleeve_kinds, rules.hot_c)
    }
    sleeves: dict[int, Sleeve] = {}
    for span in unbroken_spans(runs, wanting):
        first = span.runs[0]
        hottest = max((heat for index in span.runs if (heat := heats[index]) is not None), default=None)
        kind = sleeve_on(runs[first], diameters[first], hottest, sleeve_kinds, rules.hot_c)
        length_mm = added(runs[index].length_mm for index in span.runs)
        labels_mm = _label_reaches_mm(contents[first], span, rules.behind_plug_mm)
        bare_mm = None if length_mm is None or labels_mm is None else bare_ends_mm(length_mm, labels_mm)
        covered = None if length_mm is None or bare_mm is None else length_mm - sum(bare_mm)
        if kind is not None and covered != 0:
            cut = span, diameters[first], covered, rules.round_up_to_mm
            sleeve = cut_sleeve(kind, *cut, hottest, bare_mm or (0.0, 0.0))
            sleeves |= dict.fromkeys(span.runs, sleeve)
    return tuple(_bundle(index, contents[index], diameters[index], sleeves.get(index)) for index in range(len(runs)))


def heat_of_run_c(places: Mapping[str, Place], runs: Sequence[Run], index: int) -> float | None:
    """Return the heat that a sleeve on a run must stand [°C]: of the run, or of a place at its ends if hotter.

    Whether it wants a sleeve at all is the run's own heat (`needs_sleeve`).
    """
    return hottest_c(places, runs, Route(runs[index].between, (index,), runs[index].length_mm))


def _bundle(index: int, items: Sequence[Laid], diameter_mm: float, sleeve: Sleeve | None) -> Bundle:
    """Return a bundle; one in which only coax lies is bent by the thickest of those, each alone."""
    coax_mm = max((COAX * circle for item in items if item.coax for circle in item.circles_mm), default=0.0)
    only_coax = all(item.coax for item in items)
    return Bundle(
        run=index,
        leads=tuple(dict.fromkeys(item.name for item in items)),
        diameter_mm=diameter_mm,
        flexed_mm=coax_mm if only_coax else max(FLEXED * diameter_mm, coax_mm),
        supported_mm=coax_mm if only_coax else max(SUPPORTED * diameter_mm, coax_mm),
        sleeve=sleeve,
    )


def _label_reaches_mm(items: Iterable[Laid], span: Span, behind_plug_mm: float) -> tuple[float, float] | None:
    """Return how far the labels of what lies in a span reach into its two ends [mm], if it is known what lies free."""
    reaches_mm = dict.fromkeys(span.ends, 0.0)
    for place, free_mm in (plug for item in items for plug in item.plugs if plug[0] in reaches_mm):
        if free_mm is None:
            return None
        reaches_mm[place] = max(reaches_mm[place], label_reach_mm(behind_plug_mm, free_mm))
    return reaches_mm[span.ends[0]], reaches_mm[span.ends[1]]


def laid(circuits: Iterable[Circuit], equipment: Mapping[str, Equipment]) -> Iterator[Laid]:
    """Walk what lies in runs: leads with their own leads, then coaxes."""
    yield from _leads(circuits)
    yield from _coaxes(equipment)


def _leads(circuits: Iterable[Circuit]) -> Iterator[Laid]:
    for circuit in circuits:
        for lead in circuit.leads:
            plugs = tuple((lead.ends[index].place, lead.free_mm[index]) for index in lead.plugs_at)
            yield Laid(lead.name, lead_circles_mm(lead), lead.route, plugs)
            yield from _own_leads(lead)


def _own_leads(lead: Lead) -> Iterator[Laid]:
    """Walk the leads that equipment came with, from it to where their plugs lie; each is taken as laid up."""
    for end in lead.ends:
        if end.own is not None:
            circle = outside_diameter_mm([(end.own.kind or wire.kind).diameter_mm for wire in lead.wires])
            yield Laid(f"{end.name}'s own lead", (circle,), end.own.route, plug_mm=end.connector.outline_mm)


def _coaxes(equipment: Mapping[str, Equipment]) -> Iterator[Laid]:
    for receiver in equipment.values():
        for antenna in receiver.antennas:
            if antenna.route is not None:
                name = f"{receiver.name} antenna {antenna.name}"
                yield Laid(name, (antenna.form.diameter_mm,), antenna.route, coax=True)


def lead_circles_mm(lead: Lead) -> tuple[float, ...]:
    """Return the circles that a lead is in a bundle [mm]: one where it is one piece, else its wires.

    A ribbon counts as the circle around it, its wires side by side.
    """
    wires = tuple(wire.kind.diameter_mm for wire in lead.wires)
    if not isinstance(lead, CutLead):
        return (outside_diameter_mm(wires),)
    if lead.part.jacket_mm is not None:
        return (lead.part.jacket_mm,)
    if lead.part.bought == "flat":
        return (sum(wires),)
    return wires if lead.part.bought is None and lead.part.lay_mm is None else (outside_diameter_mm(wires),)
