"""Look for what would mend a drop: a thicker lead, an own lead, a second contact; each is computed again."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from docgen.basics.units import round_up_to_step
from docgen.definition.model import Definition
from docgen.definition.parts import LeadPart
from docgen.harness.commons import tail_of, takes
from docgen.harness.connectors import wire_kind
from docgen.harness.electricity import Electricity
from docgen.harness.feeds import Step
from docgen.harness.heat import hottest_c
from docgen.harness.kinds import Route, WireKind
from docgen.harness.lengths import SPLICE_STRIP_MM, allowances_of, needed_length_mm, tail_length_mm, twist_factor
from docgen.harness.model import Behind, Harness
from docgen.harness.network import lead_resistance_ohm
from docgen.harness.wiring import Circuit, End, Lead, Wire

_TAIL_MM = 40.0  # of a tail whose length the builder does not say
Holds = Callable[[Electricity], bool]


@dataclass(frozen=True)
class Mend:
    """What would do, in words, and the electricity with it."""

    text: str
    after: Electricity


@dataclass(frozen=True)
class _Change:
    """A change in words, and by how much it changes the resistance of branches."""

    text: str
    more_ohm: Mapping[Step, float]


class Mender:
    """Looks for mends in one harness."""

    def __init__(self, definition: Definition, harness: Harness, electricity: Electricity) -> None:
        self.definition = definition
        self.harness = harness
        self.electricity = electricity
        self.allowances = allowances_of(definition)

    def mend(self, circuits: list[str], holds: Holds) -> Mend | None:
        """Return the first change that makes it hold: of the circuits in order, each alone; then all together."""
        most: list[_Change] = []
        for name in circuits:
            circuit = self.harness.circuits[name]
            kinds = list(self._thicker(circuit)), list(self._own_leads(circuit)), list(self._contacts(circuit))
            for change in (change for changes in kinds for change in changes):
                after = self._after([change])
                if holds(after):
                    return Mend(change.text, after)
            most += [changes[-1] for changes in kinds if changes]
            after = self._after(most)
            if holds(after):
                return Mend("; and ".join(change.text for change in most), after)
        return None

    def _after(self, changes: Sequence[_Change]) -> Electricity:
        ohms: dict[Step, float] = {}
        for change in changes:
            for step, more_ohm in change.more_ohm.items():
                ohms[step] = ohms.get(step, self.electricity.network.resistances_ohm[step]) + more_ohm
        return self.electricity.over(self.electricity.network.with_resistances(ohms))

    def _thicker(self, circuit: Circuit) -> Iterator[_Change]:
        """Walk the circuit wired with ever thicker leads of the parts list, where its contacts take their wires."""
        choices = [self.leads_for(circuit, lead) for lead in circuit.leads]
        areas = sorted({area for some in choices for area, _ in some})
        for area in areas:
            chosen: list[str] = []
            more: dict[Step, float] = {}
            changes: list[tuple[Step, float]] = []
            for index, (lead, some) in enumerate(zip(circuit.leads, choices, strict=True)):
                name = next((name for size, name in some if size >= area), None)
                name = name or (some[-1][1] if some else lead.part)
                chosen.append(name)
                if name != lead.part:
                    relaid = self.relaid(lead, name)
                    more |= self._more(circuit, index, relaid)
                    changes += self._tails(lead, relaid)
            if any(ohm > 0 for _, ohm in changes):
                continue  # tails would get thinner
            for step, ohm in changes:
                more[step] = more.get(step, 0.0) + ohm
            yield _Change(_wired_with(circuit, chosen), more)

    def leads_for(self, circuit: Circuit, lead: Lead, *, as_thick: bool = False) -> list[tuple[float, str]]:
        """Return the leads of the parts list that could take a lead's place, thinnest first.

        They are thicker (or `as_thick`), their wires stand the heat of the way, and the contacts take them.
        """
        if lead.straight:
            return []
        parts = self.definition.parts.leads
        own, poles = parts[lead.part], [role for role in circuit.poles if lead.wire(role) is not None]
        now = min((self._kind(own, role).gauge.area_mm2 for role in poles), default=0.0)
        found: list[tuple[float, bool, bool, int, str]] = []
        for order, (name, part) in enumerate(parts.items()):
            if not poles or set(part.wires) != set(own.wires) or part.reverses != own.reverses:
                continue
            kinds = {role: self._kind(part, role) for role in part.wires}
            area = min(kinds[role].gauge.area_mm2 for role in poles)
            if area < now * (1 - 1e-9 if as_thick else 1 + 1e-9) or name == lead.part:
                continue
            if self._stand(lead.route, kinds.values()) and all(self._takes(end, kinds) for end in lead.ends):
                other_family = _family(part, poles[0]) != _family(own, poles[0])
                found.append((area, other_family, part.bought is not None, order, name))
        if as_thick:
            return [(area, name) for area, *_, name in sorted(found)]
        best: dict[float, str] = {}
        for area, *_, name in sorted(found):
            best.setdefault(round(area, 6), name)
        return list(best.items())

    def _takes(self, end: End, kinds: Mapping[str, WireKind]) -> bool:
        """Tell whether a contact takes the wires that go into it; behind a common with tails none does."""
        alone = [kind for role, kind in kinds.items() if role not in end.commons or not self._has_tails(end, role)]
        return end.is_splice or all(takes(end.connector.contact, kind) for kind in alone)

    def _has_tails(self, end: End, role: str) -> bool:
        return bool(self._behind(end, role).tails)

    def _behind(self, end: End, role: str) -> Behind:
        disconnect = self.harness.disconnects[end.name]
        half = next(i for i, half in enumerate(disconnect.halves) if half.name == end.part)
        return disconnect.commons[end.commons[role]].halves[half]

    def _stand(self, way: Route, kinds: Iterable[WireKind]) -> bool:
        heat = hottest_c(self.harness.places, self.harness.runs, way)
        return heat is None or all(kind.limit_c is None or kind.limit_c > heat for kind in kinds)

    def relaid(self, lead: Lead, name: str) -> Lead:
        """Return a lead made of another part, with the length that it is cut to then."""
        part = self.definition.parts.leads[name]
        wires = tuple(
            replace(wire, kind=self._kind(part, wire.role), colour=part.wires[wire.role].colour) for wire in lead.wires
        )
        strips = [end.connector.contact.strip_mm for end in lead.ends if not end.is_splice]
        extra = sum(lead.free_mm) + SPLICE_STRIP_MM * (2 - len(strips))
        twist = 1.0 if part.bought else twist_factor([wire.kind.diameter_mm for wire in wires], part.lay)
        needed = needed_length_mm(lead.route.length_mm, extra, strips, twist, self.allowances)
        cut = lead.cut_length_mm if lead.pinned else round_up_to_step(needed, self.allowances.round_up_to_mm)
        return replace(lead, part=name, wires=wires, cut_length_mm=cut)

    def _kind(self, part: LeadPart, role: str) -> WireKind:
        return wire_kind(self.definition.parts, part.wires[role].wire)

    def _more(self, circuit: Circuit, index: int, lead: Lead) -> dict[Step, float]:
        """Return by how much a lead in the place of another changes its branches."""
        now = self.electricity.network.resistances_ohm
        steps = [Step(role, circuit=circuit.name, stretch=index) for role in circuit.poles]
        places, runs = self.harness.places, self.harness.runs
        return {step: lead_resistance_ohm(places, runs, lead, step.role) - now[step] for step in steps if step in now}

    def _tails(self, lead: Lead, relaid: Lead) -> list[tuple[Step, float]]:
        """Return by how much the commons' tails behind a lead change with its wires, which they may be made of."""
        changes = []
        for end in lead.ends:
            for role, name in end.commons.items():
                behind = self._behind(end, role)
                if not behind.tails or behind.tail_mm is None:
                    continue
                wires = [wire if other is not lead else relaid.wire(role) or wire for other, wire in behind.wires]
                kind, _ = tail_of(self.definition, wires, end.connector.contact)
                more = kind.resistance_ohm_per_m - behind.tails[0].kind.resistance_ohm_per_m
                step = Step(role, disconnect=end.name, common=name)
                changes.append((step, more * behind.tail_mm / 1000 / len(behind.tails)))
        return changes

    def _own_leads(self, circuit: Circuit) -> Iterator[_Change]:
        """Walk the circuit with own leads of ever thicker wire at its ends."""
        for index, lead in enumerate(circuit.leads):
            for at, end in enumerate(lead.ends):
                if end.own is None:
                    continue
                now = end.own.kind or lead.wires[0].kind
                thicker = [kind for kind in self.harness.wires if kind.gauge.area_mm2 > now.gauge.area_mm2 * (1 + 1e-9)]
                way = lead.route if lead.straight else end.own.way
                thicker = [k for k in thicker if takes(end.connector.contact, k) and self._stand(way, [k])]
                for kind in sorted(
                    thicker, key=lambda kind: (kind.gauge.area_mm2, _stem(kind.name) != _stem(now.name))
                ):
                    ends = list(lead.ends)
                    ends[at] = replace(end, own=replace(end.own, kind=kind))
                    changed = replace(lead, ends=(ends[0], ends[1]))
                    text = f"give {end.own.equipment} an own lead of {kind.gauge.text} (`lead_wire: {kind.name}`)"
                    yield _Change(text, self._more(circuit, index, changed))

    def _contacts(self, circuit: Circuit) -> Iterator[_Change]:
        """Walk the circuit with a second contact for each pole at one of its joints."""
        for index, lead in enumerate(circuit.leads):
            start = lead.ends[0]
            if start.kind != "half" or start.connector.roles:
                continue
            before = circuit.before(lead)
            more: dict[Step, float] = {}
            for role in circuit.poles:
                wires = [side.wire(role) for side in (before, lead) if side is not None]
                if role in start.commons or lead.wire(role) is None:
                    continue
                tails = sum(self._tail_ohm(start, wire) for wire in wires if wire is not None)
                step = Step(role, circuit=circuit.name, stretch=index)
                more[step] = (tails - start.connector.contact.resistance_ohm) / 2
            if more and len(self.harness.disconnects[start.name].spares) >= len(more):
                text = f"give each pole of {circuit.name} a second contact at {start.name} (`commons:`)"
                yield _Change(text, more)

    def _tail_ohm(self, end: End, wire: Wire) -> float:
        """Return the resistance of a tail of the usual length, which a second contact would bring."""
        kind, _ = tail_of(self.definition, [wire], end.connector.contact)
        length = tail_length_mm(_TAIL_MM, end.connector.contact.strip_mm, self.allowances)
        return kind.resistance_ohm_per_m * length / 1000


def _wired_with(circuit: Circuit, names: list[str]) -> str:
    if len(set(names)) == 1:
        return f"wire {circuit.name} with `{names[0]}`"
    by_segment = ", ".join(f"{lead.segment}: {name}" for lead, name in zip(circuit.leads, names, strict=True))
    return f"wire {circuit.name} with `{{{by_segment}}}`"


def _family(part: LeadPart, role: str) -> str:
    return _stem(part.wires[role].wire)


def _stem(name: str) -> str:
    return name.rpartition("-")[0]
