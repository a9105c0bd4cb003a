"""Take all that is built; return what leads, sleeves and equipment of each assembly weigh, and their moment."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from statistics import fmean

from docgen.basics.frozen import frozen
from docgen.basics.units import added
from docgen.harness.bundling.sleeves import sleeves_of
from docgen.harness.model.airframe import Place, Run
from docgen.harness.model.bundles import AssemblyMass, Bundle
from docgen.harness.model.circuits import Circuit, Wire
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.joints import Disconnect, Tail


@frozen(slots=True)
class _Weight:
    """One thing that weighs something; `mass_g` is what is known of it, `aft_mm` where its middle is, if known.

    Of a piece of unknown length it is nothing.
    """

    name: str
    assembly: str
    mass_g: float | None
    weighed: bool
    aft_mm: float | None


def weigh(
    places: Mapping[str, Place],
    runs: Sequence[Run],
    circuits: Iterable[Circuit],
    disconnects: Mapping[str, Disconnect],
    equipment: Mapping[str, Equipment],
    bundles: Iterable[Bundle],
) -> tuple[AssemblyMass, ...]:
    """Return the masses of the assemblies, in the order in which places name them.

    Leads weigh what their wires do at cut length; own leads are part of the equipment that they came with.
    """
    leads = [*_leads(places, runs, circuits), *_tails(places, disconnects)]
    sleeves, items = list(_sleeves(places, runs, bundles)), list(_equipment(places, equipment))
    assemblies = dict.fromkeys(place.assembly for place in places.values())
    return tuple(_total(assembly, leads, sleeves, items) for assembly in assemblies)


def _total(assembly: str, *sorts: Sequence[_Weight]) -> AssemblyMass:
    inside = [[weight for weight in sort if weight.assembly == assembly] for sort in sorts]
    leads_g, sleeves_g, equipment_g = (added(weight.mass_g for weight in sort) for sort in inside)
    assert equipment_g is not None
    weights = [weight for sort in inside for weight in sort]
    return AssemblyMass(
        assembly=assembly,
        leads_g=leads_g,
        sleeves_g=sleeves_g,
        equipment_g=equipment_g,
        moment_g_mm=added(_moment_g_mm(weight) for weight in weights),
        unweighed=tuple(dict.fromkeys(weight.name for weight in weights if not weight.weighed)),
        unplaced=tuple(dict.fromkeys(weight.name for weight in weights if weight.mass_g and weight.aft_mm is None)),
    )


def _moment_g_mm(weight: _Weight) -> float | None:
    """Return a weight's moment about the nose datum; nothing where it has no place, not known without its mass."""
    return None if weight.mass_g is None else weight.mass_g * (weight.aft_mm or 0.0)


def _leads(places: Mapping[str, Place], runs: Sequence[Run], circuits: Iterable[Circuit]) -> Iterator[_Weight]:
    for lead in (lead for circuit in circuits for lead in circuit.cut_leads):
        mass, weighed = _mass_g(lead.wires, lead.cut_length_mm)
        along = _middle_aft_mm(places, runs, lead.route.runs)
        aft = along if lead.route.runs or lead.route.length_mm is None else _aft_mm(places, lead.ends[0].place)
        yield _Weight(lead.name, lead.assembly, mass, weighed, aft)


def _tails(places: Mapping[str, Place], disconnects: Mapping[str, Disconnect]) -> Iterator[_Weight]:
    for disconnect in disconnects.values():
        for common in disconnect.commons.values():
            for behind in common.halves:
                if behind.tails:
                    mass, weighed = _mass_g(behind.tails, behind.tail_mm)
                    name = f"tails of {disconnect.name} {common.name}"
                    place = behind.half.place
                    yield _Weight(name, places[place].assembly, mass, weighed, _aft_mm(places, place))


def _sleeves(places: Mapping[str, Place], runs: Sequence[Run], bundles: Iterable[Bundle]) -> Iterator[_Weight]:
    for sleeve in sleeves_of(bundles):
        length_mm = sleeve.cut_length_mm
        mass = None if length_mm is None else (sleeve.kind.mass_g_per_m or 0.0) * length_mm / 1000
        assembly, aft = places[sleeve.ends[0]].assembly, _middle_aft_mm(places, runs, sleeve.runs)
        yield _Weight(sleeve.kind.name, assembly, mass, sleeve.kind.mass_g_per_m is not None, aft)


def _equipment(places: Mapping[str, Place], equipment: Mapping[str, Equipment]) -> Iterator[_Weight]:
    for item in equipment.values():
        assembly, aft = places[item.place].assembly, _aft_mm(places, item.place)
        yield _Weight(item.name, assembly, item.form.mass or 0.0, item.form.mass is not None, aft)


def _mass_g(wires: Iterable[Wire | Tail], length_mm: float | None) -> tuple[float | None, bool]:
    """Return what wires of a length weigh, as far as said, and whether all of it is; nothing without the length."""
    masses = [wire.kind.mass_g_per_m for wire in wires]
    said = None if length_mm is None else sum(mass for mass in masses if mass is not None) * length_mm / 1000
    return said, None not in masses


def _aft_mm(places: Mapping[str, Place], name: str) -> float | None:
    point = places[name].point_mm
    return point[0] if point is not None else None


def _middle_aft_mm(places: Mapping[str, Place], runs: Sequence[Run], route: Iterable[int]) -> float | None:
    """Return how far aft the middle of a route over runs lies [mm].

    None where a place on it has no coordinates, or a run no length.
    Each run counts by its length, with its middle half way between its ends.
    """
    lengths, middles = [], []
    for run in (runs[index] for index in route):
        first, last = (_aft_mm(places, name) for name in run.between)
        if first is None or last is None or run.length_mm is None:
            return None
        lengths.append(run.length_mm)
        middles.append((first + last) / 2)
    return fmean(middles, lengths if any(lengths) else None) if middles else None
