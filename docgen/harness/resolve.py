"""Take a checked definition; return the harness as built, or none where there is an error, and all that was found.

It goes through the rooms in their order: routing, wiring, bundling, losses, electrical, remedies, checks. What the
bench needs (`assembly`, `continuity`) is worked out from the harness when documents ask for it.
"""

from __future__ import annotations

from dataclasses import replace

from docgen.basics.findings import Finding
from docgen.definition.kept import Issued
from docgen.definition.model import Definition
from docgen.harness.bundling.bundles import BundleRules, build_bundles
from docgen.harness.bundling.masses import weigh
from docgen.harness.bundling.tubes import tubes_in_order
from docgen.harness.checks import accept, moved
from docgen.harness.checks.all import ALL
from docgen.harness.checks.facts import Facts
from docgen.harness.checks.moved import Given
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import loadings_of
from docgen.harness.electrical.loads import Loads
from docgen.harness.electrical.network import Network
from docgen.harness.electrical.resistances import resistances_of
from docgen.harness.electrical.results import results_of
from docgen.harness.losses.losses import losses_of
from docgen.harness.model.airframe import Run
from docgen.harness.model.harness import Harness
from docgen.harness.model.limits import build_limits
from docgen.harness.model.losses import Losses
from docgen.harness.model.results import Results
from docgen.harness.model.switching import Switching
from docgen.harness.remedies.search import Remedies
from docgen.harness.routing.routes import Routes
from docgen.harness.routing.runs import build_runs
from docgen.harness.routing.segments import SegmentFinder
from docgen.harness.wiring.build import Wiring, wire


def resolve(definition: Definition, issued: Issued) -> tuple[Harness | None, list[Finding]]:
    """Work the harness out.

    Args:
        definition: checked; with broken entries it is only searched for more errors.
        issued: what was issued, which is kept where it still can.

    Returns:
        The harness, or None where an error was found, and all findings; what has moved is none of the harness.

    """
    runs = build_runs(definition)
    finder = SegmentFinder(definition, Routes(runs))
    wiring, errors = wire(definition, finder, issued)
    if wiring is None:
        return None, errors
    bundled = _bundled(definition, runs, wiring)
    harness = replace(bundled, losses=losses_of(bundled.made))
    electricity = _electricity(harness, wiring)
    loadings = loadings_of(harness, electricity)
    remedies = Remedies(definition, harness, electricity)
    facts = Facts(harness, electricity, loadings, remedies, definition.parts, definition.where)
    found = [finding for check in ALL for finding in check.find(facts)]
    findings = [*accept.with_reasons(found, harness.acceptances), *accept.find(definition, harness, found)]
    whole = replace(harness, results=results_of(harness, electricity, loadings), findings=tuple(findings))
    given = Given(f"as issued in {issued.last}", issued.contacts, issued.commons, issued.numbers)
    moves = accept.with_reasons(moved.find(harness, definition.where, given), harness.acceptances)
    return whole, findings + moves


def _bundled(definition: Definition, runs: list[Run], wiring: Wiring) -> Harness:
    """Return the harness as built, with what lies together, before it is judged."""
    places, sleeves = definition.places, tuple(definition.parts.sleeves.values())
    circuits, equipment, disconnects = wiring.circuits, wiring.equipment, wiring.disconnects
    rules = BundleRules(definition.limits.hot, definition.labels.behind_plug_mm, definition.allowances.round_up_to_mm)
    lying = (wiring.circuits | wiring.left_in).values()
    bundles = build_bundles(places, runs, lying, equipment, sleeves, rules)
    return Harness(
        aircraft=definition.aircraft,
        flight=definition.flight,
        places=places,
        runs=tuple(runs),
        equipment=equipment,
        disconnects=disconnects,
        circuits=circuits,
        left_in=wiring.left_in,
        bench=wiring.bench,
        tubes=tubes_in_order(definition.parts),
        sleeves=sleeves,
        wires=tuple(definition.parts.wires.values()),
        labels=definition.labels,
        splices=definition.splices,
        limits=build_limits(definition.limits),
        spools=definition.spools,
        shelf_tubes=definition.shelf_tubes,
        offcut_mm=definition.offcut_mm,
        clip_every_mm=definition.clips.apart_mm,
        round_up_to_mm=definition.allowances.round_up_to_mm,
        strip_mm=definition.allowances.strip_mm,
        bundles=bundles,
        balance=weigh(places, runs, lying, disconnects, equipment, bundles),
        losses=Losses(),
        results=Results({}, {}, (), Switching(), {}, {}, {}, {}, {}),
        findings=(),
        acceptances=accept.acceptances_of(definition),
    )


def _electricity(harness: Harness, wiring: Wiring) -> Electricity:
    network = Network(harness.equipment, wiring.feeds, wiring.left_out)
    return Electricity(network, Loads(network, int(harness.limits.together.value)), resistances_of(harness))
