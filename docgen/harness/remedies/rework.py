"""Take changes of leads and contacts, and return the resistances that they make of a harness [ohm]."""

from __future__ import annotations

from dataclasses import replace

from docgen.harness.electrical.network import branches_of
from docgen.harness.electrical.resistances import common_resistance_ohm, lead_resistance_ohm
from docgen.harness.model.circuits import CutLead, Lead
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Behind, Common, Disconnect
from docgen.harness.remedies.choices import CLOSE, Choices
from docgen.harness.wiring.commons import behind_half
from docgen.harness.wiring.feeds import Branch, CommonBranch, WireBranch
from docgen.harness.wiring.lengths import tail_length_mm
from docgen.harness.wiring.spares import spares_to_take

_TAIL_MM = 40.0  # of a tail whose length the builder does not say


def alone_at(harness: Harness, circuit: str, disconnect: str) -> list[WireBranch]:
    """Return the poles for which a circuit has a contact of its own at a disconnect, at the lead from there on."""
    leads = harness.circuits[circuit].leads
    starts = [(branch, leads[branch.segment].ends[0]) for branch in branches_of(harness.circuits[circuit])]
    return [
        branch
        for branch, start in starts
        if start.kind == "half" and start.name == disconnect and not start.connector.roles
        if branch.role not in start.commons
    ]


class Rework:
    """A harness with leads of other parts and with more contacts; all else is as built.

    `contacts_each` are the contacts of each pole that a circuit has alone at a disconnect, `contacts_of` those of
    commons, by disconnect and name.
    """

    def __init__(self, choices: Choices) -> None:
        self.choices = choices
        self.definition, self.harness = choices.definition, choices.harness
        self.leads: dict[tuple[str, str], Lead] = {}
        self.contacts_each: dict[tuple[str, str], int] = {}
        self.contacts_of: dict[tuple[str, str], int] = {}

    def lead(self, built: Lead) -> Lead:
        """Return a lead as it is by now."""
        return self.leads.get((built.circuit, built.segment), built)

    def make_of(self, circuit: str, segment: int, part: str) -> None:
        """Make a lead of another part."""
        lead = self.lead(self.harness.circuits[circuit].leads[segment])
        assert isinstance(lead, CutLead)
        self.leads[circuit, lead.segment] = self.choices.relaid(lead, part)

    def make_own_of(self, circuit: str, segment: int, number: int, wire: str) -> None:
        """Make the own lead at one end of a lead of other wire."""
        lead = self.lead(self.harness.circuits[circuit].leads[segment])
        ends = list(lead.ends)
        own = ends[number].own
        assert own is not None
        ends[number] = replace(ends[number], own=replace(own, kind=self.definition.parts.wires[wire]))
        self.leads[circuit, lead.segment] = replace(lead, ends=(ends[0], ends[1]))

    def resistances_ohm(self) -> dict[Branch, float] | None:
        """Return the resistances of all branches that are altered, as far as known; nothing where it can't be built.

        It can't where a joint would be left with too few contacts to spare (`spare_contacts`), or a tail would get
        thinner than it is: those are no remedies.
        """
        if not self._contacts_are_there():
            return None
        ohms: dict[Branch, float] = {}
        for circuit in dict.fromkeys(circuit for circuit, _ in self.leads):
            for branch in branches_of(self.harness.circuits[circuit]):
                built = self.harness.circuits[circuit].leads[branch.segment]
                ohm = lead_resistance_ohm(self.harness, self.lead(built), branch.role)
                if self.lead(built) is not built and ohm is not None:
                    ohms[branch] = ohm
        for (circuit, joint), count in self.contacts_each.items():
            for branch in alone_at(self.harness, circuit, joint):
                now_ohm = ohms.get(branch, self.choices.electricity.resistances_ohm.get(branch))
                if now_ohm is not None:
                    ohms[branch] = now_ohm + self._more_ohm(branch, count)
        for disconnect, common in self._touched_commons():
            changed = self._common(disconnect, common)
            if any(map(_gets_thinner, common.halves, changed.halves)):
                return None
            altered = replace(disconnect, commons={common.name: changed})
            ohms[CommonBranch(disconnect.name, common.name)] = common_resistance_ohm(altered, common.name)
        return ohms

    def _contacts_are_there(self) -> bool:
        wanted: dict[str, int] = {}
        for (circuit, name), count in self.contacts_each.items():
            wanted[name] = wanted.get(name, 0) + (count - 1) * len(alone_at(self.harness, circuit, name))
        for (name, common), count in self.contacts_of.items():
            more = count - len(self.harness.disconnects[name].commons[common].contacts)
            wanted[name] = wanted.get(name, 0) + more
        limits, disconnects = self.harness.limits, self.harness.disconnects
        return all(count <= spares_to_take(limits, disconnects[name]) for name, count in wanted.items())

    def _more_ohm(self, branch: WireBranch, count: int) -> float:
        """Return by how much contacts side by side, on tails of the usual length, change what they are in."""
        circuit = self.harness.circuits[branch.circuit]
        lead = circuit.leads[branch.segment]
        before = circuit.before(lead)
        contact = lead.ends[0].connector.contact
        tails_ohm = 0.0
        for side, end in [*([(before, before.ends[1])] if before else []), (lead, lead.ends[0])]:
            changed = self.lead(side)
            wire = changed.wire(branch.role)
            if wire is not None:
                half = self.harness.disconnects[end.name].half_at(end)
                behind = behind_half(self.definition, half, ((changed, wire),), ("", ""), _TAIL_MM, contact)
                length_mm = tail_length_mm(_TAIL_MM, contact.strip_mm, self.definition)
                tails_ohm += behind.tails[0].kind.resistance_ohm_per_m * length_mm / 1000
        return (tails_ohm + contact.resistance_ohm) / count - contact.resistance_ohm

    def _touched_commons(self) -> list[tuple[Disconnect, Common]]:
        """Return the commons with other contacts, or behind which a changed lead ends."""
        touched = dict.fromkeys(self.contacts_of)
        for lead in self.leads.values():
            touched |= dict.fromkeys((end.name, common) for end in lead.ends for common in end.commons.values())
        disconnects = self.harness.disconnects
        return [(disconnects[name], disconnects[name].commons[common]) for name, common in touched]

    def _common(self, disconnect: Disconnect, common: Common) -> Common:
        tail_mm = self.definition.disconnects[disconnect.name].commons[common.name].tail
        more = self.contacts_of.get((disconnect.name, common.name), len(common.contacts)) - len(common.contacts)
        contacts = (*common.contacts, *disconnect.spares[:more])
        halves = []
        for now in common.halves:
            leads = [(self.lead(lead), wire) for lead, wire in now.wires]
            wires = tuple((lead, lead.wire(wire.role) or wire) for lead, wire in leads)
            halves.append(behind_half(self.definition, now.half, wires, contacts, tail_mm, disconnect.shell.contact))
        return replace(common, contacts=contacts, halves=(halves[0], halves[1]))


def _gets_thinner(before: Behind, after: Behind) -> bool:
    if not before.tails or not after.tails:
        return False
    return after.tails[0].kind.gauge.area_mm2 < before.tails[0].kind.gauge.area_mm2 * (1 - CLOSE)
