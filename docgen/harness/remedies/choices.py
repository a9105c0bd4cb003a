"""Take a lead and return which of the parts list could take its place: what goes in, stands the heat, carries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from docgen.basics.units import added
from docgen.definition.model import Definition
from docgen.definition.parts import LeadPart
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import may_carry_a
from docgen.harness.electrical.resistances import lead_resistance_ohm
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import WirePart
from docgen.harness.wiring.feeds import WireBranch
from docgen.harness.wiring.lengths import cut_length_mm, lead_length_mm

CLOSE = 1e-9

Size = tuple[float, bool]
"""The area of a lead's thinnest pole [mm²], and whether its wires lie straight: twisted ones are longer."""


class Choices:
    """Looks for leads and wires that would do in one harness."""

    def __init__(self, definition: Definition, harness: Harness, electricity: Electricity) -> None:
        self.definition = definition
        self.harness = harness
        self.electricity = electricity
        self._sized: dict[tuple[str, str, bool], list[tuple[Size, str]]] = {}

    def leads_for(
        self, circuit: Circuit, lead: CutLead, *, as_thick: bool = False, least_ohm: bool = False
    ) -> list[tuple[Size, str]]:
        """Return the leads of the parts list that could take a lead's place, thinnest first, with their sizes.

        They are thicker (or `as_thick`), their wires stand the heat of the route, and the contacts take them. Without
        `as_thick` there is one of each size, of the same family first or with `least_ohm` that of least resistance,
        and none that may carry less than it has to where the wire now may.
        """
        key = circuit.name, lead.segment, as_thick
        if key not in self._sized:
            self._sized[key] = self._fitting(circuit, lead, as_thick=as_thick)
        sized = self._sized[key]
        if as_thick:
            return sized
        if least_ohm and len(dict(sized)) < len(sized):
            sized = sorted(sized, key=lambda item: (item[0], self.ohm(circuit, lead, item[1])))
        first: dict[Size, str] = {}
        for size, name in sized:
            first.setdefault(size, name)
        return sorted(first.items())

    def _fitting(self, circuit: Circuit, lead: CutLead, *, as_thick: bool) -> list[tuple[Size, str]]:
        """Return all of them, those of each size in the order in which they are preferred."""
        parts = self.definition.parts.leads
        own, poles = lead.part, [role for role in circuit.poles if lead.wire(role) is not None]
        now = min((self._kind(own, role).gauge.area_mm2 for role in poles), default=0.0)
        heat_c = self.harness.hottest_c(lead.route)
        carrying = [wire for wire in lead.wires if wire.role in poles and not as_thick]
        least_a = {wire.role: self._least_a(circuit, lead, wire.role, wire.kind, heat_c) for wire in carrying}
        found: list[tuple[float, bool, bool, int, Size, str]] = []
        for order, (name, part) in enumerate(parts.items()):
            if not poles or set(part.wires) != set(own.wires) or part.reverses != own.reverses:
                continue
            kinds = {role: self._kind(part, role) for role in part.wires}
            area = min(kinds[role].gauge.area_mm2 for role in poles)
            if area < now * (1 - CLOSE if as_thick else 1 + CLOSE) or name == own.name:
                continue
            if (
                all(_may(kinds[role], heat_c) >= amps for role, amps in least_a.items())
                and all(kind.stands(heat_c) for kind in kinds.values())
                and all(self._takes(end, kinds) for end in lead.ends)
            ):
                other_family = _family(part, poles[0]) != _family(own, poles[0])
                size = round(area, 6), part.lay_mm is None or part.bought is not None
                found.append((round(area, 6), other_family, part.bought is not None, order, size, name))
        return [(size, name) for *_, size, name in sorted(found)]

    def ohm(self, circuit: Circuit, lead: Lead, name: str) -> float:
        """Return the resistance of a lead's poles, made of another part; of unknown length all are alike."""
        relaid = self.relaid(lead, name) if isinstance(lead, CutLead) else lead
        return added(lead_resistance_ohm(self.harness, relaid, role) for role in circuit.poles) or 0.0

    def own_wires_for(self, circuit: Circuit, lead: Lead, end: End) -> list[WirePart]:
        """Return the thicker wires that an own lead could be of, thinnest first, one of each area.

        None is among them that may carry less than it has to where the wire now may.
        """
        assert end.own is not None
        now = end.own.kind or lead.wires[0].kind
        thicker = [kind for kind in self.harness.wires if kind.gauge.area_mm2 > now.gauge.area_mm2 * (1 + CLOSE)]
        heat_c = self.harness.hottest_c(lead.route_of(end.own))
        poles = [role for role in circuit.poles if lead.wire(role) is not None]
        least_a = max((self._least_a(circuit, lead, role, now, heat_c) for role in poles), default=0.0)
        fitting = [
            kind
            for kind in thicker
            if end.connector.contact.fits(kind) and kind.stands(heat_c) and _may(kind, heat_c) >= least_a
        ]
        fitting.sort(key=lambda kind: (kind.gauge.area_mm2, stem(kind.name) != stem(now.name)))
        first: dict[float, WirePart] = {}
        for kind in fitting:
            first.setdefault(round(kind.gauge.area_mm2, 6), kind)
        return list(first.values())

    def _least_a(self, circuit: Circuit, lead: Lead, role: str, now: WirePart, heat_c: float | None) -> float:
        """Return what another wire must carry: what this one has to, or as much as it may itself [A]."""
        branch = WireBranch(circuit.name, circuit.leads.index(lead), role)
        return min(self.electricity.working_a(branch), _may(now, heat_c)) * (1 - CLOSE)

    def _takes(self, end: End, kinds: Mapping[str, WirePart]) -> bool:
        """Tell whether a contact takes the wires that go into it; behind a common with tails none does."""
        alone = [kind for role, kind in kinds.items() if not self.harness.has_tails(end, role)]
        return end.is_splice or all(end.connector.contact.fits(kind) for kind in alone)

    def relaid(self, lead: CutLead, name: str) -> CutLead:
        """Return a lead made of another part, with the length that it is cut to then."""
        part = self.definition.parts.leads[name]
        wires = tuple(
            replace(wire, kind=self._kind(part, wire.role), colour=part.wires[wire.role].colour) for wire in lead.wires
        )
        needed = lead_length_mm(part, wires, lead.ends, lead.route, lead.free_mm, self.definition)
        cut = cut_length_mm(needed, lead.cut_length_mm if lead.pinned else None, self.definition)
        return replace(lead, part=part, wires=wires, cut_length_mm=cut)

    def _kind(self, part: LeadPart, role: str) -> WirePart:
        return self.definition.parts.wires[part.wires[role].wire]


def _may(kind: WirePart, heat_c: float | None) -> float:
    return may_carry_a(kind, heat_c) or 0.0


def _family(part: LeadPart, role: str) -> str:
    return stem(part.wires[role].wire)


def stem(name: str) -> str:
    """Return the name of a part without its size: what it is a kind of."""
    return name.rpartition("-")[0]
