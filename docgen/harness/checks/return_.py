"""What comes back over signal leads when the heavy negative of a common is lost."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.basics.units import at_least, decimal
from docgen.harness.checks.facts import CLOSE, Facts, note
from docgen.harness.electrical.loadings import wires_bearing
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.joints import Common, Disconnect
from docgen.harness.wiring.feeds import WireBranch
from docgen.harness.wiring.marks import NEGATIVE

KIND = note(
    name="return",
    stands_on="circuit",
    meaning="A signal lead's negative can't carry what comes back over it when the heavy one is lost.",
    when="A negative common has one heavy pair, and signal leads whose negatives join it on the same side. Without "
    "that pair its working current comes back over those, shared alike: more than a wire may carry or a plug's "
    "`rating:`.",
    why="One bad contact of the heavy pair, and a thin wire in the middle of the bundle burns its neighbours.",
    remedy="Bring a second heavy negative to the common, or wire the signal leads heavier, "
    "`lead: {A: signal-24, B: servo-22}`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each signal lead whose negative would carry too much without the one heavy negative of its common."""
    for joint in facts.harness.disconnects.values():
        for common in joint.commons.values():
            heavies = [facts.harness.circuits[name] for name in common.feeders]
            ends = [each for each in heavies if each.loads[0].name == joint.name]
            if common.role == NEGATIVE and len(ends) == 1:
                yield from _without(facts, joint, common, ends[0])


def _without(facts: Facts, joint: Disconnect, common: Common, heavy: Circuit) -> Iterator[Finding]:
    arriving = common.behind(joint.half_at(heavy.loads[0])).wires
    others = [lead for lead, _ in arriving if lead.circuit != heavy.name]
    lost_a = facts.electricity.working_a(WireBranch(heavy.name, len(heavy.leads) - 1, NEGATIVE))
    for lead in others if math.isfinite(lost_a) else ():
        each_a, (bears_a, what) = lost_a / len(others), _weakest(facts, lead.circuit, lead.segment)
        if each_a > bears_a * (1 + CLOSE):
            over = f"{len(others)} signal leads, {each_a:.2f} A in this" if len(others) > 1 else "this signal lead"
            sentence = (
                f"without {shown(heavy.name)}, {lost_a:.2f} A of the common {shown(common.name)} come back over "
                f"{over}; its {shown(what)} bears {decimal(bears_a)} A."
            )
            do = (
                "Bring a second heavy negative to the common, or wire the signal leads so that each bears "
                f"{at_least(each_a, 2)} A."
            )
            yield facts.found(
                KIND, ("circuits", lead.circuit, "lead", lead.segment), sentence, do, over=each_a - bears_a
            )


def _weakest(facts: Facts, name: str, segment: str) -> tuple[float, str]:
    """Return what bears least of the negative of a circuit up to a segment [A], and its name: a wire, or the plug."""
    circuit = facts.harness.circuits[name]
    letters = [lead.segment for lead in circuit.leads]
    near = replace(circuit, leads=circuit.leads[: letters.index(segment) + 1])
    plug = circuit.start.connector
    wires = wires_bearing(facts.harness, near, [NEGATIVE])
    return min([(plug.contact.rating_a, plug.name), *((amps, kind.name) for amps, kind in wires)])
