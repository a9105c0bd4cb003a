"""Take a definition and the segments of its circuits; return what is wired as built and what feeds what, or errors."""

from __future__ import annotations

from docgen.basics.findings import Finding, has_errors
from docgen.basics.frozen import frozen
from docgen.definition.kept import Issued
from docgen.definition.model import Definition
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.harness import Wired
from docgen.harness.model.joints import Disconnect
from docgen.harness.routing.segments import SegmentFinder
from docgen.harness.wiring.circuits import CircuitBuilder
from docgen.harness.wiring.connectors import Connectors
from docgen.harness.wiring.contacts import give_all_contacts
from docgen.harness.wiring.equipment import build_equipment
from docgen.harness.wiring.feeds import Feed, FeedFinder
from docgen.harness.wiring.joints import build_disconnects
from docgen.harness.wiring.plans import Plan, plan_circuits
from docgen.harness.wiring.supply import check_commons, check_supplies, narrowed


@frozen
class Wiring:
    """Circuits, equipment and disconnects as built; the feeds that count, and those that `fed_by` leaves out.

    Circuits that are `left_in` are dead: they are on no port, and nothing feeds them. `bench` is what is made, where
    some of it is dead or only planned.
    """

    circuits: dict[str, Circuit]
    equipment: dict[str, Equipment]
    disconnects: dict[str, Disconnect]
    left_in: dict[str, Circuit]
    bench: Wired | None
    feeds: tuple[Feed, ...]
    left_out: tuple[Feed, ...]


def wire(definition: Definition, finder: SegmentFinder, issued: Issued) -> tuple[Wiring | None, list[Finding]]:
    """Return what is wired, or what is wrong; of a definition of which some is broken only more that is wrong."""
    connectors = Connectors(definition.parts)
    plans, findings = plan_circuits(definition, finder, connectors, issued)
    contacts, unfit = give_all_contacts(definition, plans, connectors, issued)
    alive = {name: plan for name, plan in plans.items() if not plan.form.left_in}
    feed_finder = FeedFinder(definition, alive)
    feeds = feed_finder.feeds()
    findings += [*unfit, *check_commons(definition, feed_finder, feeds)]
    if len(plans) == len(definition.circuits) and not definition.broken:
        findings += check_supplies(definition, feeds)
    if definition.broken or has_errors(findings):
        return None, findings
    builder = CircuitBuilder(definition, finder.routes, connectors, contacts)
    every = {name: builder.build(plan) for name, plan in plans.items()}
    left_in = {name: circuit for name, circuit in every.items() if name not in alive}

    def wired(some: dict[str, Plan], dead: dict[str, Circuit]) -> Wired:
        circuits = {name: every[name] for name in some}
        return Wired(
            circuits,
            build_equipment(definition, circuits, finder.routes, connectors),
            build_disconnects(definition, finder.halves, connectors, (circuits, dead), FeedFinder(definition, some)),
        )

    made = {name: plan for name, plan in alive.items() if not plan.form.planned}
    bench = wired(made, {}) if len(made) < len(plans) else None
    counted = tuple(narrowed(definition, feeds))
    counting = frozenset(counted)
    left_out = tuple(feed for feed in feeds if feed not in counting)
    return Wiring(*wired(alive, left_in), left_in, bench, counted, left_out), findings
