"""Changes that a builder could make, and the electricity with some of them made."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.resistances import common_resistance_ohm, lead_resistance_ohm
from docgen.harness.model.circuits import Lead, Wire
from docgen.harness.model.harness import Behind, Common, Disconnect
from docgen.harness.model.parts import WirePart
from docgen.harness.remedies.choices import Choices
from docgen.harness.wiring.commons import behind_half
from docgen.harness.wiring.feeds import Branch, CommonBranch, WireBranch
from docgen.harness.wiring.lengths import tail_length_mm
from docgen.harness.wiring.spares import spares_to_take

_TAIL_MM = 40.0  # of a tail whose length the builder does not say
_CLOSE = 1e-9

At = tuple[str, int]
"""A lead: its circuit and its number there."""


@dataclass(frozen=True)
class Change:
    """One thing to do, as parts of the harness that it changes.

    Leads made of other parts; own leads of other wire, by lead and end; circuits that get a second contact for each
    pole, by disconnect; commons that get so many contacts. Leads and own leads of `twins` are changed like those that
    are named: circuits written with them in one entry.
    """

    leads: Mapping[At, str] = field(default_factory=dict)
    owns: Mapping[tuple[At, int], WirePart] = field(default_factory=dict)
    seconds: tuple[tuple[str, str], ...] = ()
    counts: Mapping[tuple[str, str], int] = field(default_factory=dict)
    twins: tuple[str, ...] = ()

    @property
    def key(self) -> Hashable:
        """Return what it changes, as a key of a table."""
        return tuple(self.leads.items()), tuple(self.owns.items()), self.seconds, tuple(self.counts.items()), self.twins


class Changer:
    """Works out what changes make of one harness."""

    def __init__(self, choices: Choices) -> None:
        self.choices = choices
        self.definition, self.harness = choices.definition, choices.harness
        self.resistances_ohm_now = choices.electricity.resistances_ohm
        self._known: dict[Hashable, dict[Branch, float] | None] = {}

    def after(self, changes: Sequence[Change]) -> Electricity | None:
        """Return the electricity with changes made; nothing where they can't be."""
        ohms = self.resistances_ohm(changes)
        return None if ohms is None else self.with_resistances(ohms)

    def with_resistances(self, ohms: Mapping[Branch, float]) -> Electricity:
        """Return the electricity with other resistances in some branches."""
        return self.choices.electricity.over(ohms)

    def resistances_ohm(self, changes: Sequence[Change]) -> dict[Branch, float] | None:
        """Return the resistances of all branches that changes alter; nothing where they can't be made.

        They can't where a joint would be left with too few contacts to spare, or a tail would get thinner than it is.
        Each is worked out once: the same changes are tried on the way to many remedies.
        """
        key = tuple(change.key for change in changes)
        if key not in self._known:
            self._known[key] = self._altered_ohm(changes)
        return self._known[key]

    def _altered_ohm(self, changes: Sequence[Change]) -> dict[Branch, float] | None:
        if not self._contacts_are_there(changes):
            return None
        leads = self._leads(changes)
        ohms: dict[Branch, float] = {}
        for at, lead in leads.items():
            for branch in self._branches(at):
                ohms[branch] = lead_resistance_ohm(self.harness, lead, branch.role)
        for change in changes:
            for circuit, name in change.seconds:
                for pole, more_ohm in self._of_second(circuit, name, leads).items():
                    ohms[pole] = ohms.get(pole, self.resistances_ohm_now[pole]) + more_ohm
        counts = {at: count for change in changes for at, count in change.counts.items()}
        for disconnect, common in self._commons(leads, counts):
            count = counts.get((disconnect.name, common.name), len(common.contacts))
            changed = self._common(disconnect, common, count, leads)
            if any(map(_gets_thinner, common.halves, changed.halves)):
                return None
            shared = CommonBranch(disconnect.name, common.name)
            ohms[shared] = common_resistance_ohm(replace(disconnect, commons={common.name: changed}), common.name)
        return ohms

    def _branches(self, at: At) -> list[WireBranch]:
        name, index = at
        branches = [WireBranch(name, index, role) for role in self.harness.circuits[name].poles]
        return [branch for branch in branches if branch in self.resistances_ohm_now]

    def _contacts_are_there(self, changes: Sequence[Change]) -> bool:
        wanted: dict[str, int] = {}
        for change in changes:
            for circuit, name in change.seconds:
                wanted[name] = wanted.get(name, 0) + len(self.alone(circuit, name))
            for (name, common), count in change.counts.items():
                more = count - len(self.harness.disconnects[name].commons[common].contacts)
                wanted[name] = wanted.get(name, 0) + more
        limits, disconnects = self.harness.limits, self.harness.disconnects
        return all(count <= spares_to_take(limits, disconnects[name]) for name, count in wanted.items())

    def _leads(self, changes: Sequence[Change]) -> dict[At, Lead]:
        leads: dict[At, Lead] = {}
        for change in changes:
            for (circuit, index), name in change.leads.items():
                for twin in (circuit, *change.twins):
                    leads[twin, index] = self.choices.relaid(self.harness.circuits[twin].cut_leads[index], name)
        for change in changes:
            for ((circuit, index), number), kind in change.owns.items():
                for twin in (circuit, *change.twins):
                    lead = leads.get((twin, index)) or self.harness.circuits[twin].leads[index]
                    leads[twin, index] = _with_own(lead, number, kind)
        return leads

    def alone(self, circuit: str, disconnect: str) -> list[WireBranch]:
        """Return the poles for which a circuit has a contact of its own at a disconnect, at the lead from there on."""
        found = []
        for index, lead in enumerate(self.harness.circuits[circuit].leads):
            start = lead.ends[0]
            if start.kind == "half" and start.name == disconnect and not start.connector.roles:
                found += [branch for branch in self._branches((circuit, index)) if branch.role not in start.commons]
        return [branch for branch in found if self.harness.circuits[circuit].leads[branch.segment].wire(branch.role)]

    def _of_second(self, circuit: str, disconnect: str, leads: Mapping[At, Lead]) -> dict[WireBranch, float]:
        """Return by how much second contacts, side by side on tails of the usual length, change what they are in."""
        built = self.harness.circuits[circuit]
        more: dict[WireBranch, float] = {}
        for branch in self.alone(circuit, disconnect):
            lead = built.leads[branch.segment]
            before, contact = built.before(lead), lead.ends[0].connector.contact
            sides = [(before, before.ends[1])] if before else []
            tails_ohm = 0.0
            for side, end in [*sides, (lead, lead.ends[0])]:
                changed = leads.get((circuit, built.leads.index(side)), side)
                wire = changed.wire(branch.role)
                if wire is not None:
                    half = self.harness.disconnects[end.name].half_at(end)
                    behind = behind_half(self.definition, half, ((changed, wire),), ("", ""), _TAIL_MM, contact)
                    length = tail_length_mm(_TAIL_MM, contact.strip_mm, self.choices.allowances)
                    tails_ohm += behind.tails[0].kind.resistance_ohm_per_m * length / 1000
            more[branch] = (tails_ohm - contact.resistance_ohm) / 2
        return more

    def _commons(
        self, leads: Mapping[At, Lead], counts: Mapping[tuple[str, str], int]
    ) -> list[tuple[Disconnect, Common]]:
        """Return the commons with other contacts, or behind which a changed lead ends."""
        touched = dict.fromkeys(counts)
        for lead in leads.values():
            touched |= dict.fromkeys((end.name, common) for end in lead.ends for common in end.commons.values())
        disconnects = self.harness.disconnects
        return [(disconnects[name], disconnects[name].commons[common]) for name, common in touched]

    def _common(self, disconnect: Disconnect, common: Common, count: int, leads: Mapping[At, Lead]) -> Common:
        tail_mm = self.definition.disconnects[disconnect.name].commons[common.name].tail
        contacts = (*common.contacts, *disconnect.spares[: count - len(common.contacts)])
        halves = []
        for now in common.halves:
            wires = tuple(self._arriving(lead, wire, leads) for lead, wire in now.wires)
            contact = disconnect.shell.contact
            halves.append(behind_half(self.definition, now.half, wires, contacts, tail_mm, contact))
        return replace(common, contacts=contacts, halves=(halves[0], halves[1]))

    def _arriving(self, lead: Lead, wire: Wire, leads: Mapping[At, Lead]) -> tuple[Lead, Wire]:
        names = [other.segment for other in self.harness.circuits[lead.circuit].leads]
        changed = leads.get((lead.circuit, names.index(lead.segment)), lead)
        return changed, changed.wire(wire.role) or wire


def _with_own(lead: Lead, number: int, kind: WirePart) -> Lead:
    """Return a lead with the own lead at one end of other wire."""
    ends = list(lead.ends)
    own = ends[number].own
    assert own is not None
    ends[number] = replace(ends[number], own=replace(own, kind=kind))
    return replace(lead, ends=(ends[0], ends[1]))


def _gets_thinner(before: Behind, after: Behind) -> bool:
    if not before.tails or not after.tails:
        return False
    return after.tails[0].kind.gauge.area_mm2 < before.tails[0].kind.gauge.area_mm2 * (1 - _CLOSE)
