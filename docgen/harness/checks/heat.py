"""Check wires and the tubes of their labels against the heat of their route."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from docgen.basics.findings import Finding, Position, listed, shown
from docgen.basics.units import at_least, decimal
from docgen.definition.model import Where
from docgen.harness.assembly.splices import crimped_wires
from docgen.harness.bundling.diameters import lead_thickness_mm
from docgen.harness.bundling.tubes import choose_tube, stands
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loading import carries
from docgen.harness.model.circuits import CutLead, End, Lead
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import ContactPart, Route, WirePart
from docgen.harness.routing.heat import hottest_c
from docgen.harness.wiring.commons import stands as stands_heat
from docgen.harness.wiring.commons import takes
from docgen.harness.wiring.feeds import WireBranch


@dataclass(frozen=True)
class _Laid:
    """Wires of one kind that lie in heat: the most that one carries working [A], and the contacts that they go into."""

    kind: WirePart
    working_a: float
    contacts: tuple[ContactPart, ...]


def find_heat(harness: Harness, electricity: Electricity, where: Where) -> list[Finding]:
    """Return a caution for each lead and own lead with a wire whose limit is at or under the heat of its route.

    For the tails behind each half of a common too, which lie at its place; and for each lead whose label tube stands
    less than that, where no tube that fits stands more.
    """
    findings: list[Finding] = []
    for lead in harness.leads():
        findings += _lead(harness, electricity, where, lead)
        findings += _own(harness, electricity, where, lead)
        findings += _tube(harness, where, lead) if isinstance(lead, CutLead) else ()
    return [*findings, *_tails(harness, where)]


def _lead(harness: Harness, electricity: Electricity, where: Where, lead: Lead) -> Iterator[Finding]:
    if isinstance(lead, CutLead):
        position = where.value("circuits", lead.circuit, "lead", lead.segment)
        laid = _laid(harness, electricity, lead)
        yield from _judge(harness, f"segment {lead.segment} of {shown(lead.circuit)}", laid, lead, lead.route, position)
        return
    position = where.key("circuits", lead.circuit)
    for end in lead.ends:
        if end.own is not None:
            laid = _laid(harness, electricity, lead, end)
            yield from _judge(harness, f"{end.name}'s own lead", laid, lead, lead.route, position)


def _laid(harness: Harness, electricity: Electricity, lead: Lead, own: End | None = None) -> list[_Laid]:
    """Return the wires of a lead by kind, or of the own lead at one of its ends."""
    segment = harness.circuits[lead.circuit].leads.index(lead)
    found: dict[WirePart, _Laid] = {}
    for wire in lead.wires:
        kind = (own.own.kind if own is not None and own.own is not None else None) or wire.kind
        ends = [own] if own is not None else [end for end in lead.ends if wire in crimped_wires(harness, lead, end)]
        amps = electricity.working_a(WireBranch(lead.circuit, segment, wire.role))
        before = found.get(kind, _Laid(kind, 0.0, ()))
        contacts = dict.fromkeys((*before.contacts, *(end.connector.contact for end in ends)))
        found[kind] = _Laid(kind, max(before.working_a, amps), tuple(contacts))
    return list(found.values())


def _tails(harness: Harness, where: Where) -> Iterator[Finding]:
    """Find tails that stand less than the heat of their half's place, where no wire of the parts list would do."""
    for disconnect, common, behind in harness.behind_commons():
        half = behind.half
        heat = harness.places[half.place].heat_c
        if not behind.tails or stands_heat(behind.tails[0].kind, heat) or heat is None:
            continue
        kind = behind.tails[0].kind
        sentence = (
            f"tails of the common {shown(common.name)} behind the {half.name} half of {shown(disconnect.name)} "
            f"lie in {decimal(heat)} °C at {shown(half.place)}; {_stands(kind, heat)}."
        )
        do = (
            f"Add a wire that the contacts of {shown(disconnect.shell.name)} take and that stands over "
            f"{decimal(heat)} °C to `parts.yaml`, or move the half."
        )
        position = where.value("disconnects", disconnect.name, "commons", common.name, "contacts")
        yield Finding(position, "heat", sentence, do, ("commons", f"{disconnect.name} {common.name}"))


def _stands(kind: WirePart, heat_c: float) -> str:
    """Say what a wire stands and by how much that is too little."""
    limit_c = kind.limit_c or 0.0
    less = (
        f"{decimal(limit_c)} °C, {decimal(heat_c - limit_c)} °C too little"
        if heat_c > limit_c
        else f"just {decimal(limit_c)} °C"
    )
    return f"{shown(kind.name)} stands {less}"


def _tube(harness: Harness, where: Where, lead: CutLead) -> Iterator[Finding]:
    """Find a label tube that the heat of its lead's route is too much for."""
    heat = hottest_c(harness.places, harness.runs, lead.route)
    if heat is None:
        return
    kind = choose_tube(*lead_thickness_mm(lead), harness.tubes, heat)
    if kind is not None and not stands(kind, heat):
        at = f"segment {lead.segment} of {shown(lead.circuit)}"
        sentence = (
            f"labels of {at} lie in {decimal(heat)} °C {_hottest(harness, lead.route, heat)}; {shown(kind.name)} "
        )
        sentence += f"stands {decimal(kind.limit_c or 0)} °C, and no tube that fits stands more."
        do = f"Add a tube that stands {decimal(heat)} °C to `parts.yaml`, or lead it by another route."
        position = where.value("circuits", lead.circuit, "lead", lead.segment)
        yield Finding(position, "heat", sentence, do, ("circuits", lead.circuit))


def _own(harness: Harness, electricity: Electricity, where: Where, lead: Lead) -> Iterator[Finding]:
    """Walk what is wrong with the leads that equipment came with, on their route to where their plugs lie.

    Of one that plugs straight in the places at its ends are judged with the lead.
    """
    for key, end in zip(("from", "to"), lead.ends, strict=True):
        if end.own is not None and (end.own.route.runs or isinstance(lead, CutLead)):
            laid = _laid(harness, electricity, lead, end)
            position = where.value("circuits", lead.circuit, key)
            yield from _judge(harness, f"{end.name}'s own lead", laid, lead, end.own.route, position)


def _judge(
    harness: Harness, what: str, laid: Sequence[_Laid], lead: Lead, route: Route, position: Position
) -> Iterator[Finding]:
    heat = hottest_c(harness.places, harness.runs, route)
    weak = [wires for wires in laid if not stands_heat(wires.kind, heat)]
    if heat is None or not weak:
        return
    stand = listed(_stands(wires.kind, heat) for wires in weak)
    sentence = f"{what} lies in {decimal(heat)} °C {_hottest(harness, route, heat)}; {stand}."
    better = list(dict.fromkeys(name for wires in weak for name in _standing(harness.wires, wires, heat)))
    if better:
        do = f"Use a wire that stands it, such as {listed(better)}, or lead it by another route."
    else:
        gauges = listed(dict.fromkeys(wires.kind.gauge.text for wires in weak))
        over = [contact.over_mm for wires in weak for contact in wires.contacts if contact.over_mm is not None]
        thick = f", at most {decimal(min(over))} mm thick," if over else ""
        most_a = max(wires.working_a for wires in weak)
        bears = f" and bears {at_least(most_a, 2)} A in it" if most_a > 0 else ""
        do = f"Add a wire of {gauges}{thick} that stands over {decimal(heat)} °C{bears} to `parts.yaml`, "
        do += "or lead it by another route."
    yield Finding(position, "heat", sentence, do, ("circuits", lead.circuit))


def _standing(wires: Iterable[WirePart], weak: _Laid, heat_c: float) -> list[str]:
    """Return the names of wires of the same gauge that stand the heat, carry what they must, and go in the contacts."""
    return [
        shown(wire.name)
        for wire in wires
        if wire.gauge == weak.kind.gauge
        and wire.limit_c is not None
        and carries(wire, heat_c, weak.working_a)
        and all(takes(contact, wire) for contact in weak.contacts)
    ]


def _hottest(harness: Harness, route: Route, heat_c: float) -> str:
    """Say where on a route it is that hot: the first run of that heat, else the first place."""
    for index in route.runs:
        run = harness.runs[index]
        if run.heat_c == heat_c:
            return f"between {shown(run.between[0])} and {shown(run.between[1])}"
    return "at " + next(shown(name) for name in route.places if harness.places[name].heat_c == heat_c)
