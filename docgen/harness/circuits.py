"""Plan each circuit (which leads, roles, marks), then build it once contacts are given."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.basics.findings import Finding, Said, listed, shown
from docgen.basics.units import round_up_to_step
from docgen.definition.ends import Port
from docgen.definition.harness import Circuit as CircuitForm
from docgen.definition.model import Definition
from docgen.definition.parts import LeadPart
from docgen.definition.segments import segment_letters
from docgen.harness.connectors import connector_of, opposite, wire_kind
from docgen.harness.kinds import Connector
from docgen.harness.lengths import Allowances, needed_length_mm, twist_factor
from docgen.harness.marks import Numbers, function_letter, wire_mark
from docgen.harness.model import Circuit, End, Lead, Wire
from docgen.harness.supply import POSITIVE, Feed
from docgen.harness.ways import Stop, Stretch, WayFinder

# Own leads whose wire is not said: a servo's by the trade's custom, other equipment's where no lead is cut.
SERVO_WIRE = "lead-26"
OTHER_WIRE = "pvc-22"
# The commonest of the trade's colour sets; a lead that differs says so in `lead_colours`.
_CUSTOMARY_COLOURS = {"negative": "BK", "positive": "RD", "signal": "WH"}
# Roles that carry no supply in a lead that equipment came with.
_SIGNALS = frozenset({"negative", "signal", "data", "clock", "sense"})

Contacts = dict[tuple[str, str], tuple[str, ...]]
"""The contacts given at (disconnect, circuit), in the order of the circuit's roles there."""


@dataclass(frozen=True)
class Plan:
    """What is known of a circuit before contacts are given; `leads` are parts, none if straight."""

    name: str
    form: CircuitForm
    stretches: list[Stretch]
    leads: tuple[str, ...]
    roles: tuple[str, ...]
    numbers: dict[str, str]
    feeds: tuple[Feed, ...]


class CircuitBuilder:
    """Builds the circuits of one definition, in the order written."""

    def __init__(self, definition: Definition, finder: WayFinder) -> None:
        self.definition = definition
        self.finder = finder
        self.numbers = Numbers()
        form = definition.allowances
        self.allowances = Allowances(form.slack, form.strip, form.reterminations, form.retermination, form.round_up_to)
        self.connectors: dict[str, Connector] = {}

    def plan(self, name: str, circuit: CircuitForm) -> tuple[Plan | None, list[Finding]]:
        """Return the plan of one circuit, or what is wrong with it."""
        way = self.finder.find(name, circuit)
        if not way.stretches:
            return None, way.findings
        ports = way.stretches[0].start.port, way.stretches[-1].goal.port
        assert ports[0] is not None
        assert ports[1] is not None
        if circuit.lead is None:
            leads: tuple[str, ...] = ()
            findings = list(self._check_straight(name, ports[0], ports[1]))
            plug = self.definition.parts.plugs[ports[0].group.plug]
            every = tuple(plug.contacts.values())
        else:
            letters = segment_letters(len(way.stretches))
            leads = tuple(circuit.lead.get("") or circuit.lead.get(letter, "") for letter in letters)
            if "" in leads:
                return None, []
            findings = list(self._check_roles(name, circuit, way.stretches, leads))
            every = tuple(self.definition.parts.leads[leads[0]].wires)
        for index, role in enumerate(circuit.omit):
            if role not in every:
                position = self.definition.where.value("circuits", name, "omit", index)
                sentence = f"there is no {shown(role)} to leave out."
                do = f"It has: {listed(every)}."
                findings.append(Finding(position, "role", sentence, do, ("circuits", name)))
        if findings:
            return None, findings
        roles = tuple(role for role in every if role not in circuit.omit)
        kinds = [self.definition.equipment[port.equipment].kind for port in ports if port]
        letter = function_letter(circuit.function, kinds[0], kinds[1], False)
        feeds: tuple[Feed, ...] = ()
        if self._carries_supply(leads, roles):
            feeds = (Feed(name, ports[0].equipment, ports[1].equipment, ports[1].name),)
        return Plan(name, circuit, way.stretches, leads, roles, self.numbers.give(letter, roles), feeds), []

    def _carries_supply(self, leads: tuple[str, ...], roles: tuple[str, ...]) -> bool:
        parts = [self.definition.parts.leads[lead] for lead in leads]
        if any(part.reverses or part.supplies for part in parts):
            return True
        return POSITIVE in roles or (not leads and not _SIGNALS.issuperset(roles))

    def _check_straight(self, name: str, start: Port, load: Port) -> Iterator[Finding]:
        position = self.definition.where.value("circuits", name, "to")
        subject = ("circuits", name)
        if start.group.plug != load.group.plug:
            sentence = (
                f"{shown(start.text)} has the plug {shown(start.group.plug)}, "
                f"{shown(load.text)} {shown(load.group.plug)}."
            )
            yield Finding(position, "mate", sentence, "Give it a `lead:` with the right plugs.", subject)
        elif self.port_gender(start) == self.port_gender(load):
            sentence = f"{shown(start.text)} and {shown(load.text)} both carry {self.port_gender(start)}."
            yield Finding(position, "mate", sentence, "Give it a `lead:`, or mend `contacts:` of a port.", subject)
        if start.group.lead is None and load.group.lead is None:
            sentence = f"neither {shown(start.text)} nor {shown(load.text)} has a lead of its own."
            key = self.definition.where.key("circuits", name)
            yield Finding(key, "missing", sentence, "Give the circuit a `lead:`.", subject)

    def _check_roles(
        self, name: str, circuit: CircuitForm, stretches: list[Stretch], leads: tuple[str, ...]
    ) -> Iterator[Finding]:
        """Find roles that one side has and the other lacks: lead and plug, lead and lead."""
        letters = segment_letters(len(leads))
        subject = ("circuits", name)
        parts = [self.definition.parts.leads[lead] for lead in leads]
        for letter, lead, part, stretch in zip(letters, leads, parts, stretches, strict=True):
            position = self.definition.where.value("circuits", name, "lead", letter)
            roles = [role for role in part.wires if role not in circuit.omit]
            for stop in (stretch.start, stretch.goal):
                connector = self.connector(self._connector_name(stop))
                if not connector.roles:
                    continue
                for role in roles:
                    if role not in connector.roles.values():
                        what = stop.port.text if stop.port else stop.disconnect
                        sentence = f"{shown(lead)} has a {shown(role)}, the plug of {shown(what)} has none."
                        do = f"Choose a lead with {listed(connector.roles.values())}, or `omit: [{role}]`."
                        yield Finding(position, "role", sentence, do, subject)
            missing = [role for role in parts[0].wires if role not in part.wires and role not in circuit.omit]
            beyond = [role for role in part.wires if role not in parts[0].wires and role not in circuit.omit]
            for role, lacks, has in [(r, letter, letters[0]) for r in missing] + [
                (r, letters[0], letter) for r in beyond
            ]:
                sentence = f"segment {lacks} lacks the wire {shown(role)} that segment {has} has."
                do = "Give both segments leads with the same roles."
                yield Finding(position, "role", sentence, do, subject)

    def _connector_name(self, stop: Stop) -> str:
        return stop.port.group.plug if stop.port else self.definition.disconnects[stop.disconnect].shell

    def connector(self, name: str) -> Connector:
        """Return a shell or plug as built; each is made once."""
        if name not in self.connectors:
            self.connectors[name] = connector_of(self.definition.parts, name)
        return self.connectors[name]

    def port_gender(self, port: Port) -> str:
        """Return what the equipment's half of a port carries."""
        return port.group.contacts or self.definition.parts.plugs[port.group.plug].equipment

    def build(self, plan: Plan, contacts: Contacts) -> tuple[Circuit, list[Finding]]:
        """Return the circuit as built, and cautions about pinned lengths."""
        where, form = self.definition.where, plan.form
        label = where.said(form.label or plan.name.upper(), "circuits", plan.name, "label")
        if not form.label:
            label = Said(label.text, where.key("circuits", plan.name))
        if plan.leads:
            built = [self._lead(plan, index, label, contacts) for index in range(len(plan.stretches))]
            leads = tuple(lead for lead, _ in built)
            findings = [finding for _, found in built for finding in found]
        else:
            leads, findings = (self._straight(plan, label),), []
        circuit = Circuit(
            name=plan.name,
            label=label,
            leads=leads,
            channel=form.channel,
            throw=where.said(form.throw, "circuits", plan.name, "throw"),
            failsafe=form.failsafe,
            carries_supply=bool(plan.feeds),
            note=where.said(form.note, "circuits", plan.name, "note"),
            position=where.key("circuits", plan.name),
        )
        return circuit, findings

    def _lead(self, plan: Plan, index: int, label: Said, contacts: Contacts) -> tuple[Lead, list[Finding]]:
        stretch = plan.stretches[index]
        letter = segment_letters(len(plan.stretches))[index]
        part = self.definition.parts.leads[plan.leads[index]]
        ends = self._end(plan, "from", stretch.start, contacts), self._end(plan, "to", stretch.goal, contacts)
        wires = []
        for role in plan.roles:
            conductor = part.wires[role]
            kind = wire_kind(self.definition.parts, conductor.wire)
            mark = wire_mark(plan.numbers[role], letter, kind.gauge.mark, role)
            at = ends[0].contacts.get(role, ""), ends[1].contacts.get(role, "")
            wires.append(Wire(role, kind, conductor.colour, mark, at))
        needed = self._needed_mm(plan, index, part, wires, ends)
        cut = round_up_to_step(needed, self.allowances.round_up_to_mm)
        pinned = plan.form.lengths.get(letter)
        findings = []
        if pinned is not None:
            if pinned < needed - 0.05:
                position = self.definition.where.value("circuits", plan.name, "lengths", letter)
                sentence = f"segment {letter} is pinned to {pinned:g} mm, its way needs {math.ceil(needed)} mm."
                do = f"Pin it to {cut:g} mm at least, or leave it to be worked out."
                findings.append(Finding(position, "short", sentence, do, ("circuits", plan.name)))
            cut = pinned
        lead = Lead(
            circuit=plan.name,
            label=label,
            segment=letter,
            part=plan.leads[index],
            wires=tuple(wires),
            ends=ends,
            route=stretch.route,
            cut_length_mm=cut,
            pinned=pinned is not None,
            bought=part.bought,
            jacket_mm=part.diameter,
            lay_mm=part.lay,
            assembly=self.definition.places[stretch.start.place].assembly,
            position=self.definition.where.key("circuits", plan.name),
        )
        return lead, findings

    def _needed_mm(self, plan: Plan, index: int, part: LeadPart, wires: list[Wire], ends: tuple[End, End]) -> float:
        stretch = plan.stretches[index]
        extra = sum(self.definition.places[stop.place].slack for stop in (stretch.start, stretch.goal))
        for stop in (stretch.start, stretch.goal):
            if stop.disconnect:
                extra += self.finder.halves[stop.disconnect][stop.half].reach_mm
        extra += plan.form.loop_from if index == 0 else 0
        extra += plan.form.loop if index == len(plan.stretches) - 1 else 0
        twist = 1.0 if part.bought else twist_factor([wire.kind.diameter_mm for wire in wires], part.lay)
        strips = [end.connector.contact.strip_mm for end in ends]
        return needed_length_mm(stretch.route.length_mm, extra, strips, twist, self.allowances)

    def _end(self, plan: Plan, key: str, stop: Stop, contacts: Contacts) -> End:
        where = self.definition.where
        connector = self.connector(self._connector_name(stop))
        if stop.port is not None:
            equipment = self.definition.equipment[stop.port.equipment]
            fitted = {role: connector.contact_of(role) for role in plan.roles}
            return End(
                name=stop.port.equipment,
                part=stop.port.name,
                is_port=True,
                place=stop.place,
                connector=connector,
                gender=opposite(self.port_gender(stop.port)),
                contacts={role: contact for role, contact in fitted.items() if contact},
                colours=dict(equipment.lead_colours) if stop.port.group.lead is not None else {},
                own_lead_mm=stop.port.group.lead,
                said=where.said(stop.port.text, "circuits", plan.name, key),
            )
        half = self.finder.halves[stop.disconnect][stop.half]
        given = contacts[stop.disconnect, plan.name]
        position = where.value("circuits", plan.name, "through", plan.form.through.index(stop.disconnect))
        return End(
            name=stop.disconnect,
            part=half.name,
            is_port=False,
            place=stop.place,
            connector=connector,
            gender=half.gender,
            contacts=dict(zip(plan.roles, given, strict=True)),
            colours={},
            own_lead_mm=None,
            said=Said(stop.disconnect, position),
        )

    def _straight(self, plan: Plan, label: Said) -> Lead:
        """Return what is joined where a circuit plugs straight in: the leads that the equipment came with."""
        stretch = plan.stretches[0]
        ends = self._end(plan, "from", stretch.start, {}), self._end(plan, "to", stretch.goal, {})
        own = stretch.goal.port if ends[1].own_lead_mm is not None else stretch.start.port
        assert own is not None
        equipment = self.definition.equipment[own.equipment]
        usual = SERVO_WIRE if equipment.kind == "servo" else OTHER_WIRE
        kind = wire_kind(self.definition.parts, own.group.lead_wire or usual)
        wires = []
        for role in plan.roles:
            colour = equipment.lead_colours.get(role) or _CUSTOMARY_COLOURS.get(role, "")
            mark = wire_mark(plan.numbers[role], "A", kind.gauge.mark, role)
            wires.append(Wire(role, kind, colour, mark, (ends[0].contacts[role], ends[1].contacts[role])))
        return Lead(
            circuit=plan.name,
            label=label,
            segment="A",
            part="",
            wires=tuple(wires),
            ends=ends,
            route=stretch.route,
            cut_length_mm=None,
            pinned=False,
            bought=None,
            jacket_mm=None,
            lay_mm=None,
            assembly=self.definition.places[stretch.start.place].assembly,
            position=self.definition.where.key("circuits", plan.name),
        )
