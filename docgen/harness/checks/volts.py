"""Whether every load is left the volts that it needs."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, RemedyValue, shown
from docgen.basics.units import decimal
from docgen.harness.checks.facts import CLOSE, Facts, caution
from docgen.harness.electrical.cases import Electricity
from docgen.harness.remedies.own_lead import own_lead_alone

KIND = caution(
    name="volts",
    stands_on="equipment",
    meaning="Volts left are under what the load needs and the margin.",
    when="Packs at `empty:`, less arrives than the load's `volts: least` plus 0.3 V, in any of three cases. "
    "Working: everything at working current. Peak: the 4 loads with the most to add stall, judged at all that "
    "has no stall. Stall: this load stalls, the rest works. `limits: margin` and `limits: together` change it.",
    why="Surfaces load up together late in the flight, the pack is low, and the receiver restarts: nothing "
    "answers until it is back. A servo short of volts is slow and weak.",
    remedy="The finding says what would do: heavier wire, `lead: servo-22`, a second contact, or a shorter own "
    "lead. Else a pack with less `resistance:`, a shorter route, or a heavy pair with `commons:`. Lower "
    "`limits: {margin: 0.2 V}` only after measuring on the bench.",
    source="Common practice, no source. What a load needs is its maker's figure.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each load with fewer volts than it needs and the margin, in its worst case.

    With several packs behind a load it is judged by the better one; each alone is `one-pack`.
    """
    for name, entry in facts.harness.equipment.items():
        cases = facts.electricity.cases(name) if entry.least_v is not None else {}
        if entry.least_v is None or not cases:
            yield from _without_supply(facts, name)
            continue
        needed = entry.least_v + facts.harness.limits.margin_v.value
        case, left = min(cases.items(), key=lambda item: item[1])
        if left < needed - CLOSE:
            margin, when = facts.harness.limits.margin_v, facts.harness.limits.case_text(case)
            sentence = (
                f"{left:.2f} V are left at {shown(name)} {when}; it needs {decimal(entry.least_v)} V and "
                f"{decimal(margin.value)} V to spare ({margin.source}): {decimal(needed - left, 2)} V short."
            )
            do, remedy = _do(facts, name, needed)
            feeds = facts.electricity.network.into.get(name, ())
            do += next(
                filter(None, (own_lead_alone(facts.harness, facts.harness.circuits[f.circuit]) for f in feeds)), ""
            )
            yield facts.found(KIND, ("equipment", name, "volts", "least"), sentence, do, remedy, needed - left)


def _without_supply(facts: Facts, name: str) -> Iterator[Finding]:
    """Find a load that circuits reach and none brings supply."""
    entry = facts.harness.equipment[name]
    draws = entry.load is not None and max(entry.load.working_a or 0.0, entry.load.stall_a or 0.0) > 0
    reached = any(port.circuit is not None for port in entry.ports)
    if not draws or not reached or entry.least_v is None or entry.battery or facts.electricity.network.into.get(name):
        return
    sentence = f"no circuit brings {shown(name)} supply; it needs {decimal(entry.least_v)} V."
    do = "Give a circuit to it a lead with a positive, or let the positive come from a common."
    yield facts.found(KIND, ("equipment", name, "volts", "least"), sentence, do)


def _do(facts: Facts, name: str, needed: float) -> tuple[str, RemedyValue | None]:
    def left(electricity: Electricity) -> float:
        return min(electricity.cases(name).values())

    remedy = facts.remedies.find(facts.electricity.network.path_to(name), lambda after: needed - left(after) - CLOSE)
    now, then = f"{left(facts.electricity):.2f} V", f"{left(remedy.after):.2f} V"
    instead = "shorten its route, let it hang elsewhere, or give it more volts"
    return remedy.said(now, then, "would be left", instead), remedy.value
