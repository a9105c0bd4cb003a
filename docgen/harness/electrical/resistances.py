"""Take the harness as built and return the resistance of every branch of it [ohm], at the heat of its route.

A branch is one wire of a lead with its contacts and own leads, or a common with its contacts and tails.
"""

from __future__ import annotations

from docgen.harness.model.circuits import CutLead, Lead
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Disconnect
from docgen.harness.wiring.feeds import Branch, CommonBranch, WireBranch

COPPER_PER_K = 0.00393  # annealed copper at 20 °C; Industrial Power Engineering and Applications Handbook p. 970
REFERENCE_C = 20.0


def resistances_of(harness: Harness) -> dict[Branch, float]:
    """Return the resistance of every branch of a harness whose length is known [ohm]."""
    ohms: dict[Branch, float] = {}
    for circuit in harness.circuits.values():
        for index, lead in enumerate(circuit.leads):
            for wire in lead.wires:
                ohm = lead_resistance_ohm(harness, lead, wire.role)
                ohms |= {} if ohm is None else {WireBranch(circuit.name, index, wire.role): ohm}
    for disconnect in harness.disconnects.values():
        for name in disconnect.commons:
            ohms[CommonBranch(disconnect.name, name)] = common_resistance_ohm(disconnect, name)
    return ohms


def lead_resistance_ohm(harness: Harness, lead: Lead, role: str) -> float | None:
    """Return the resistance of one wire of a lead: cut length, own leads at its ends, and contacts passed.

    Nothing where one of the lengths is not known.
    A contact between two leads of a circuit counts with the one that begins there, a common's with the common.
    """
    wire = lead.wire(role)
    if wire is None:
        return 0.0
    pieces = [(wire.kind, lead.cut_length_mm, lead.route)] if isinstance(lead, CutLead) else []
    owns = [end.own for end in lead.ends if end.own is not None]
    pieces += [(own.kind or wire.kind, own.length_mm, lead.route_of(own)) for own in owns]
    ohms = 0.0
    for kind, length_mm, route in pieces:
        if length_mm is None:
            return None
        ohms += resistance_at(kind.resistance_ohm_per_m * length_mm / 1000, harness.hottest_c(route))
    passed = (lead.ends[index] for index in lead.passed)
    return ohms + sum(end.connector.contact.resistance_ohm for end in passed if role not in end.commons)


def resistance_at(resistance_ohm: float, heat_c: float | None) -> float:
    """Return a copper resistance known at 20 °C at another temperature; 20 °C where none is given."""
    return resistance_ohm * (1 + COPPER_PER_K * ((REFERENCE_C if heat_c is None else heat_c) - REFERENCE_C))


def common_resistance_ohm(disconnect: Disconnect, name: str) -> float:
    """Return the resistance of a common: its contacts side by side, and the tails of both halves."""
    common = disconnect.commons[name]
    contacts_ohm = disconnect.shell.contact.resistance_ohm / len(common.contacts)
    halves = [half for half in common.halves if half.tails]
    tails_ohm = (half.tails[0].kind.resistance_ohm_per_m * half.tail_mm / 1000 / len(half.tails) for half in halves)
    return contacts_ohm + sum(tails_ohm)
