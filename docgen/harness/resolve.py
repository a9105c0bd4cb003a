"""Take a checked definition and return the harness as built, with what was found on the way."""

from __future__ import annotations

from collections.abc import Iterable

from docgen.basics.findings import Finding, Said, has_errors
from docgen.definition.harness import Circuit
from docgen.definition.issued import Issued
from docgen.definition.model import NOT_COMPUTED, Definition
from docgen.harness.acceptance import accept_findings, acceptances_of
from docgen.harness.airframe import Ways, build_places, build_runs
from docgen.harness.circuits import CircuitBuilder, Plan
from docgen.harness.connectors import tube_kinds
from docgen.harness.equipment import build_equipment
from docgen.harness.joints import build_disconnects, give_all_contacts
from docgen.harness.model import Aircraft, Flight, Harness, LabelRules
from docgen.harness.supply import check_shared_positives, check_supplies
from docgen.harness.unused import find_unused
from docgen.harness.ways import WayFinder


def resolve(definition: Definition, issued: Issued) -> tuple[Harness | None, list[Finding]]:
    """Work the harness out.

    Args:
        definition: checked; with broken entries it is only searched for more errors.
        issued: contacts that were issued, which are kept where they still can.

    Returns:
        The harness, or None where an error was found, and all findings.

    """
    places = build_places(definition)
    runs, findings = build_runs(definition, places)
    finder = WayFinder(definition, Ways(runs))
    builder = CircuitBuilder(definition, finder)
    plans, found = _plans(definition, builder)
    contacts, unfit = give_all_contacts(definition, plans, issued)
    findings += found + unfit
    feeds = [feed for plan in plans.values() for feed in plan.feeds]
    findings += check_shared_positives(definition, feeds)
    if len(plans) == len(definition.circuits) and definition.broken <= {NOT_COMPUTED}:
        findings += check_supplies(definition, feeds)
    if definition.broken or has_errors(findings):
        return None, findings
    circuits = {}
    for name, plan in plans.items():
        circuits[name], found = builder.build(plan, contacts)
        findings += found
    findings += find_unused(definition, circuits.values())
    findings = accept_findings(definition, findings)
    harness = Harness(
        aircraft=_aircraft(definition),
        flight=_flight(definition),
        places=places,
        runs=tuple(runs),
        equipment=build_equipment(definition, circuits),
        disconnects=build_disconnects(definition, finder.halves, circuits.values()),
        circuits=circuits,
        tubes=tube_kinds(definition.parts),
        labels=_label_rules(definition),
        round_up_to_mm=definition.allowances.round_up_to,
        findings=tuple(findings),
        acceptances=acceptances_of(definition),
    )
    return harness, findings


def _plans(definition: Definition, builder: CircuitBuilder) -> tuple[dict[str, Plan], list[Finding]]:
    plans: dict[str, Plan] = {}
    findings: list[Finding] = []
    for name, circuit in _sound(definition):
        plan, found = builder.plan(name, circuit)
        findings += found
        if plan is not None:
            plans[name] = plan
    return plans, findings


def _aircraft(definition: Definition) -> Aircraft:
    entry = definition.aircraft

    def said(text: str, key: str) -> Said:
        return definition.where.said(text, "aircraft", key)

    return Aircraft(
        said(entry.name, "name"),
        said(entry.description, "description"),
        said(entry.marks, "marks"),
        said(entry.revision, "revision"),
        entry.date,
        entry.record,
        said(entry.contact, "contact"),
        said(entry.note, "note"),
    )


def _label_rules(definition: Definition) -> LabelRules:
    labels = definition.labels
    return LabelRules(labels.fit, labels.each, labels.least_type, labels.behind_plug)


def _flight(definition: Definition) -> Flight | None:
    flight = definition.flight
    return Flight(flight.time, flight.reserve, flight.flights, flight.ground, flight.note) if flight else None


def _sound(definition: Definition) -> Iterable[tuple[str, Circuit]]:
    """Return the circuits that can be followed: all of them, or those that touch nothing broken."""
    for name, circuit in definition.circuits.items():
        if not definition.broken or _touches_only_sound(definition, circuit):
            yield name, circuit


def _touches_only_sound(definition: Definition, circuit: Circuit) -> bool:
    parts = definition.parts
    ends = [words[0] for words in (*circuit.start.ends, *circuit.to.ends)]
    leads = list((circuit.lead or {}).values())
    if not (
        all(name in definition.equipment for name in ends)
        and all(name in definition.disconnects for name in circuit.through)
        and all(name in definition.places for name in circuit.by)
        and all(name in parts.leads for name in leads)
    ):
        return False
    equipment = [definition.equipment[name] for name in ends]
    places = [place for item in equipment for place in (item.place, item.plug_at) if place]
    disconnects = [definition.disconnects[name] for name in circuit.through]
    places += [half.place for disconnect in disconnects for half in disconnect.both]
    shells = [disconnect.shell for disconnect in disconnects]
    plugs = [group.plug for item in equipment for group in item.ports] + [e.plug for e in equipment if e.plug]
    wires = [wire.wire for name in leads for wire in parts.leads[name].wires.values()]
    return (
        all(place in definition.places for place in places)
        and all(shell in parts.shells or shell in parts.plugs for shell in shells)
        and all(plug in parts.plugs for plug in plugs)
        and all(wire in parts.wires for wire in wires)
    )
