"""What wires carry against what they may carry."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from docgen.basics.findings import Finding, Kind, Level, Position, shown
from docgen.basics.units import at_most, decimal
from docgen.harness.checks.facts import Facts
from docgen.harness.electrical.loading import (
    WireLoading,
    common_loadings,
    may_carry_a,
    wire_loadings,
)
from docgen.harness.model.parts import WirePart
from docgen.harness.remedies.choices import stem
from docgen.harness.wiring.commons import takes
from docgen.harness.wiring.spares import spares_text, spares_to_take

KIND = Kind(
    name="wire-current",
    level=Level.CAUTION,
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

_CLOSE = 1e-9


def find(facts: Facts) -> Iterator[Finding]:
    """Find wires of leads, own leads and tails that carry more than they may.

    That is their own figure, else that of FAA AC 43.13-1B table 11-9; a wire that carries supply and has neither is
    found too. It stands at the lead.
    """
    for circuit in facts.harness.circuits.values():
        yield from _judge(facts, wire_loadings(facts.harness, facts.electricity, facts.where, circuit))
    for disconnect in facts.harness.disconnects.values():
        for _, _, tails in common_loadings(facts.harness, facts.electricity, facts.where, disconnect):
            yield from _judge(facts, tails)


def _judge(facts: Facts, wires: Iterable[WireLoading]) -> Iterator[Finding]:
    """Judge wires, those of one lead together; where the heat alone is too much, the finding `heat` says it."""
    over: dict[tuple[str, Position], list[WireLoading]] = {}
    for wire in wires:
        may = wire.may_a
        if not wire.is_too_hot and wire.working_a > _CLOSE and (may is None or wire.working_a > may * (1 + _CLOSE)):
            over.setdefault((wire.at, wire.position), []).append(wire)
    for some in over.values():
        wire = max(some, key=lambda wire: wire.working_a)
        may, roles = wire.may_a, " and ".join(wire.role for wire in some)
        if may is None:
            sentence = f"nothing says what {shown(wire.kind.name)} may carry; {wire.at} carries {wire.working_a:.2f} A."
            yield KIND.at(wire.position, sentence, "Give it a `current:` in `parts.yaml`.", wire.subject)
            continue
        heat = f" at {decimal(wire.heat_c)} °C" if wire.heat_c is not None else ""
        sentence = (
            f"{roles} of {wire.at}: {'each' if len(some) > 1 else 'the wire'} carries {wire.working_a:.2f} A working; "
            f"{shown(wire.kind.name)} may carry {at_most(may, 2)} A{heat} ({wire.may_source}), "
            f"{decimal(wire.working_a - may, 2)} A over."
        )
        yield KIND.at(wire.position, sentence, _thicker(facts, wire), wire.subject)


def _thicker(facts: Facts, wire: WireLoading) -> str:
    """Say which lead, own lead or contacts would carry the current; each is judged as the wire was."""

    def carries(kind: WirePart) -> bool:
        return (may_carry_a(kind, wire.heat_c) or 0.0) >= wire.working_a

    if wire.lead is not None:
        circuit = facts.harness.circuits[wire.lead.circuit]
        for _, name in facts.remedies.choices.leads_for(circuit, wire.lead, as_thick=True):
            relaid = facts.remedies.choices.relaid(wire.lead, name)
            if all(carries(other.kind) for other in relaid.wires if other.role in circuit.poles):
                segment = f"segment {wire.lead.segment} of " if len(circuit.leads) > 1 else ""
                return f"Wire {segment}{wire.lead.circuit} with `{name}`."
    if wire.own is not None and wire.own.own is not None:
        own = stem(wire.kind.name)
        thick = [k for k in facts.harness.wires if k.gauge.area_mm2 >= wire.kind.gauge.area_mm2 * (1 - _CLOSE)]
        kinds = sorted(thick, key=lambda k: (round(k.gauge.area_mm2, 6), stem(k.name) != own))
        kind = next((k for k in kinds if carries(k) and takes(wire.own.connector.contact, k)), None)
        if kind is not None:
            return f"Give {wire.own.own.equipment} an own lead of {kind.gauge.text} (`lead_wire: {kind.name}`)."
    if wire.tails:
        return _more_tails(facts, wire)
    return "No lead of the parts list would do: share the current over two circuits."


def _more_tails(facts: Facts, tail: WireLoading) -> str:
    """Say over how many contacts, each with a tail, a common's current would do, if there are so many to spare."""
    (name, common), may = tail.common, tail.may_a or 0.0
    needed = math.ceil(tail.working_a * tail.tails / may - _CLOSE)
    joint, limits = facts.harness.disconnects[name], facts.harness.limits
    if needed - tail.tails <= spares_to_take(limits, joint):
        return f"Give the common {common} of {name} {needed} contacts (`contacts:`), each with a tail."
    return (
        f"That takes {needed} contacts, each with a tail, and {name} has too few to spare "
        f"({spares_text(limits, joint)}): choose a shell with more contacts or whose contacts take heavier wire, or "
        "lead some circuits elsewhere."
    )
