"""Take a checked definition and return the harness as built, with what was found on the way."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from docgen.basics.findings import Finding, has_errors
from docgen.definition.harness import Circuit
from docgen.definition.issued import Issued
from docgen.definition.model import Definition
from docgen.harness.bundling.bundles import BundleRules, build_bundles
from docgen.harness.bundling.masses import weigh
from docgen.harness.bundling.tubes import tubes_in_order
from docgen.harness.checks import accept
from docgen.harness.checks.accept import acceptances_of, with_reasons
from docgen.harness.checks.all import ALL
from docgen.harness.checks.facts import Facts
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import loadings_of
from docgen.harness.electrical.loads import Loads
from docgen.harness.electrical.network import Network
from docgen.harness.electrical.resistances import resistances_of
from docgen.harness.electrical.results import results_of
from docgen.harness.model.harness import Harness
from docgen.harness.model.limits import build_limits
from docgen.harness.model.results import Results
from docgen.harness.remedies.search import Remedies
from docgen.harness.routing.routes import Routes
from docgen.harness.routing.runs import build_runs
from docgen.harness.routing.segments import SegmentFinder
from docgen.harness.wiring.circuits import CircuitBuilder, Contacts
from docgen.harness.wiring.connectors import Connectors
from docgen.harness.wiring.equipment import build_equipment
from docgen.harness.wiring.feeds import FeedFinder
from docgen.harness.wiring.joints import build_disconnects, give_all_contacts
from docgen.harness.wiring.plans import Plan, Planner
from docgen.harness.wiring.supply import check_commons, check_supplies, narrowed

MOST_CLIP_MM = 24 * 25.4  # between clips. Source: FAA AC 43.13-1B, 11-96a


def resolve(definition: Definition, issued: Issued) -> tuple[Harness | None, list[Finding]]:
    """Work the harness out.

    Args:
        definition: checked; with broken entries it is only searched for more errors.
        issued: contacts that were issued, which are kept where they still can.

    Returns:
        The harness, or None where an error was found, and all findings.

    """
    runs = build_runs(definition)
    connectors = Connectors(definition.parts)
    finder = SegmentFinder(definition, Routes(runs))
    planner = Planner(definition, finder, connectors)
    plans, findings = _plans(definition, planner)
    contacts, unfit = give_all_contacts(definition, plans, connectors, issued)
    findings += unfit
    feed_finder = FeedFinder(definition, plans)
    feeds = feed_finder.feeds()
    findings += check_commons(definition, feed_finder, feeds)
    if len(plans) == len(definition.circuits) and not definition.broken:
        findings += check_supplies(definition, feeds)
    if definition.broken or has_errors(findings):
        return None, findings
    harness = _build(definition, finder, connectors, plans, contacts, feed_finder)
    counted = narrowed(definition, feeds)
    counting = frozenset(counted)
    left_out = tuple(feed for feed in feeds if feed not in counting)
    network = Network(harness.equipment, tuple(counted), left_out)
    loads = Loads(network, int(harness.limits.together.value))
    electricity = Electricity(network, loads, resistances_of(harness))
    loadings, remedies = loadings_of(harness, electricity), Remedies(definition, harness, electricity)
    facts = Facts(harness, electricity, loadings, remedies, definition.parts, definition.where)
    findings = [finding for check in ALL for finding in check.find(facts)]
    findings = [*with_reasons(findings, harness.acceptances), *accept.find(definition, findings)]
    results = results_of(harness, electricity, loadings)
    return replace(harness, results=results, findings=tuple(findings)), findings


def _build(
    definition: Definition,
    finder: SegmentFinder,
    connectors: Connectors,
    plans: dict[str, Plan],
    contacts: Contacts,
    feed_finder: FeedFinder,
) -> Harness:
    """Return the harness as built, before it is judged."""
    places, runs = definition.places, finder.routes.runs
    builder = CircuitBuilder(definition, finder.routes, connectors, contacts)
    circuits = {name: builder.build(plan) for name, plan in plans.items()}
    equipment = build_equipment(definition, circuits, finder.routes, connectors)
    disconnects = build_disconnects(definition, finder.halves, connectors, circuits, feed_finder)
    sleeves = tuple(definition.parts.sleeves.values())
    rules = BundleRules(definition.limits.hot, definition.labels.behind_plug_mm, definition.allowances.round_up_to_mm)
    bundles = build_bundles(places, runs, circuits.values(), equipment, sleeves, rules)
    return Harness(
        aircraft=definition.aircraft,
        flight=definition.flight,
        places=places,
        runs=tuple(runs),
        equipment=equipment,
        disconnects=disconnects,
        circuits=circuits,
        tubes=tubes_in_order(definition.parts),
        sleeves=sleeves,
        wires=tuple(definition.parts.wires.values()),
        labels=definition.labels,
        limits=build_limits(definition.limits),
        spools=definition.spools,
        offcut_mm=definition.offcut_mm,
        clip_every_mm=min(definition.clips.every, MOST_CLIP_MM),
        round_up_to_mm=definition.allowances.round_up_to_mm,
        strip_mm=definition.allowances.strip_mm,
        bundles=bundles,
        balance=weigh(places, runs, circuits.values(), disconnects, equipment, bundles),
        results=Results({}, {}, (), {}, ()),
        findings=(),
        acceptances=acceptances_of(definition),
    )


def _plans(definition: Definition, planner: Planner) -> tuple[dict[str, Plan], list[Finding]]:
    plans: dict[str, Plan] = {}
    findings: list[Finding] = []
    for name, circuit in _sound(definition):
        plan, found = planner.plan(name, circuit)
        findings += found
        if plan is not None:
            plans[name] = plan
    return plans, findings


def _sound(definition: Definition) -> Iterable[tuple[str, Circuit]]:
    """Return the circuits that can be followed: all of them, or those that touch nothing broken."""
    for name, circuit in definition.circuits.items():
        if not definition.broken or _touches_only_sound(definition, circuit):
            yield name, circuit


def _touches_only_sound(definition: Definition, circuit: Circuit) -> bool:
    parts = definition.parts
    ends = [words[0] for words in circuit.ends]
    leads = list((circuit.lead or {}).values())
    if not (
        all(name in definition.equipment or name in definition.disconnects for name in ends)
        and all(name in definition.disconnects for name in circuit.through)
        and all(name in definition.places for name in circuit.by)
        and all(name in parts.leads for name in leads)
    ):
        return False
    equipment = [definition.equipment[name] for name in ends if name in definition.equipment]
    places = [place for item in equipment for place in (item.place, item.plug_at) if place]
    places += [circuit.split.place] if circuit.split is not None else []
    passed = [*circuit.through, *(name for name in ends if name in definition.disconnects)]
    disconnects = [definition.disconnects[name] for name in passed]
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
