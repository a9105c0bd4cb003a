"""What wires carry against what they may carry."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial

from docgen.basics.findings import Finding, shown
from docgen.basics.units import at_most, decimal
from docgen.harness.checks.facts import CLOSE, Facts, Path, caution
from docgen.harness.electrical.loadings import WireLoading, may_carry_a
from docgen.harness.model.circuits import CutLead
from docgen.harness.model.parts import WirePart
from docgen.harness.remedies.changes import Change, CommonContacts, ThickerLeads, ThickerOwnLeads, value_of
from docgen.harness.remedies.choices import stem
from docgen.harness.wiring.feeds import CommonBranch
from docgen.harness.wiring.spares import spares_text, spares_to_take

KIND = caution(
    name="wire-current",
    stands_on="circuit or common",
    meaning="A wire carries more than it may.",
    when="Working current is over the wire's `current:`; unsaid, over table 11-9 in the column (105, 150, 200 "
    "°C) that its `limit:` reaches, metric wire by the next smaller AWG row. Above 70 °C on its route that times "
    "√((limit − T) / (limit − 70 °C)). A wire that carries supply and has neither figure is found too.",
    why="It warms its bundle, insulation softens, and two wires meet: a dead servo or a dead supply.",
    remedy="Take heavier wire, `lead: servo-22`, another route off the hot run, `by: [belly]`, or split the load "
    "over more circuits. A wire of your own gets its maker's figure in parts.yaml, `current: 5 A`.",
    source="FAA AC 43.13-1B, table 11-9; above 70 °C the form of its 11-66d(6). PVC and wires under 24 AWG are "
    "not in the table: their figures are common practice, no source.",
)

_NO_LEAD = "No lead of the parts list would do: share the current over two circuits."


def find(facts: Facts) -> Iterator[Finding]:
    """Find wires of leads, own leads and tails that carry more than they may, or of which nothing says so."""
    for (name, segment), wires in facts.loadings.leads.items():
        lead = facts.harness.circuits[name].leads[segment]
        assert isinstance(lead, CutLead)
        path: Path = "circuits", name, "lead", lead.segment
        yield from _judge(facts, lead.name, wires, path, partial(_thicker_lead, facts, lead))
    for (name, segment, number), wires in facts.loadings.own_leads.items():
        end = facts.harness.circuits[name].leads[segment].ends[number]
        at, path = f"{end.name}'s own lead", ("circuits", name, ("from", "to")[number])
        yield from _judge(facts, at, wires, path, partial(_thicker_own_lead, facts, (name, segment, number)))
    for (branch, number), tail in facts.loadings.tails.items():
        half = facts.harness.disconnects[branch.disconnect].halves[number].name
        at = f"each tail of {branch.common} behind the {half} half of {branch.disconnect}"
        path = "disconnects", branch.disconnect, "commons", branch.common, "contacts"
        yield from _judge(facts, at, [tail], path, partial(_more_tails, facts, branch), half)


def _judge(
    facts: Facts,
    at: str,
    wires: Sequence[WireLoading],
    path: Path,
    remedy: Callable[[WireLoading], tuple[str, Change | None]],
    half: str = "",
) -> Iterator[Finding]:
    """Judge the wires of one lead together, by the worst; where heat alone is too much, the finding `heat` says it."""
    over = [wire for wire in wires if wire.working_a > CLOSE and wire.kind.stands(wire.heat_c) and not _carries(wire)]
    if not over:
        return
    wire = max(over, key=lambda wire: wire.working_a - (wire.may_a or 0.0))
    over = [other for other in over if other.kind == wire.kind]
    may, roles = wire.may_a, " and ".join(other.role for other in over)
    if may is None:
        sentence = f"nothing says what {shown(wire.kind.name)} may carry; {at} carries {wire.working_a:.2f} A."
        yield facts.found(KIND, path, sentence, "Give it a `current:` in `parts.yaml`.", half=half)
        return
    heat = f" at {decimal(wire.heat_c)} °C" if wire.heat_c is not None else ""
    source = "its own `current:`" if wire.kind.current_a is not None else "FAA AC 43.13-1B table 11-9"
    sentence = (
        f"{roles} of {at}: {'each' if len(over) > 1 else 'the wire'} carries {wire.working_a:.2f} A working; "
        f"{shown(wire.kind.name)} may carry {at_most(may, 2)} A{heat} ({source}), "
        f"{decimal(wire.working_a - may, 2)} A over."
    )
    do, change = remedy(wire)
    yield facts.found(KIND, path, sentence, do, value_of([change], facts.harness), wire.working_a - may, half)


def _carries(wire: WireLoading) -> bool:
    return wire.may_a is not None and wire.working_a <= wire.may_a * (1 + CLOSE)


def _would_carry(kind: WirePart, wire: WireLoading) -> bool:
    """Tell whether another wire would carry the current, judged as the wire was."""
    return (may_carry_a(kind, wire.heat_c) or 0.0) >= wire.working_a


def _thicker_lead(facts: Facts, lead: CutLead, wire: WireLoading) -> tuple[str, Change | None]:
    """Say which lead would carry the current."""
    circuit, choices = facts.harness.circuits[lead.circuit], facts.remedies.choices
    for _, name in choices.leads_for(circuit, lead, as_thick=True):
        relaid = choices.relaid(lead, name)
        if all(_would_carry(other.kind, wire) for other in relaid.wires if other.role in circuit.poles):
            segment = f"segment {lead.segment} of " if len(circuit.leads) > 1 else ""
            now = tuple(other.made_of for other in circuit.leads)
            parts = tuple(name if other is lead else other.made_of for other in circuit.leads)
            change = ThickerLeads((lead.circuit,), parts, now, ())
            return f"Wire {segment}{lead.circuit} with `{name}`.", change
    return _NO_LEAD, None


def _thicker_own_lead(facts: Facts, at: tuple[str, int, int], wire: WireLoading) -> tuple[str, Change | None]:
    """Say of which wire an own lead would carry the current."""
    name, segment, number = at
    end = facts.harness.circuits[name].leads[segment].ends[number]
    own = stem(wire.kind.name)
    thick = [k for k in facts.harness.wires if k.gauge.area_mm2 >= wire.kind.gauge.area_mm2 * (1 - CLOSE)]
    kinds = sorted(thick, key=lambda k: (round(k.gauge.area_mm2, 6), stem(k.name) != own))
    kind = next((k for k in kinds if _would_carry(k, wire) and end.connector.contact.fits(k)), None)
    if kind is None:
        return _NO_LEAD, None
    change = ThickerOwnLeads((name,), segment, number, kind.name)
    return f"Give {end.name} an own lead of {kind.gauge.text} (`lead_wire: {kind.name}`).", change


def _more_tails(facts: Facts, branch: CommonBranch, tail: WireLoading) -> tuple[str, Change | None]:
    """Say over how many contacts, each with a tail, a common's current would do, if there are so many to spare."""
    joint, limits = facts.harness.disconnects[branch.disconnect], facts.harness.limits
    now, may = len(joint.commons[branch.common].contacts), tail.may_a or 0.0
    needed = math.ceil(tail.working_a * now / may - CLOSE)
    if needed - now <= spares_to_take(limits, joint):
        do = f"Give the common {branch.common} of {joint.name} {needed} contacts (`contacts:`), each with a tail."
        return do, CommonContacts.of_one(joint, branch.common, needed)
    do = (
        f"That takes {needed} contacts, each with a tail, and {joint.name} has too few to spare "
        f"({spares_text(limits, joint)}): choose a shell with more contacts or whose contacts take heavier wire, or "
        "lead some circuits elsewhere."
    )
    return do, None
