"""Take circuits and their segments; return a plan for each: leads, roles, poles and the numbers of its wires."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from docgen.basics.findings import Finding, listed, shown
from docgen.basics.frozen import frozen
from docgen.definition.ends import Port
from docgen.definition.harness import OWN, segment_letters
from docgen.definition.harness import Circuit as CircuitForm
from docgen.definition.kept import Issued, StopKey, segment_keys
from docgen.definition.model import Definition
from docgen.definition.parts import LeadPart
from docgen.definition.sound import sound_circuits
from docgen.harness.model.parts import Connector
from docgen.harness.routing.segments import HalfStop, PortStop, Segment, SegmentFinder, SpliceStop, Stop
from docgen.harness.wiring.connectors import Connectors
from docgen.harness.wiring.marks import NEGATIVE, Numbers, function_letter

POSITIVE = "positive"
# Roles that carry no supply in a lead that equipment came with.
_SIGNALS = frozenset({NEGATIVE, "signal", "data", "clock", "sense"})


@frozen
class Plan:
    """What is known of a circuit before contacts are given.

    `leads` are those of its segments, nothing for one that came along, none where it plugs straight in; `roles` those
    in each segment; `poles` carry its current out and back; `letters` are those of its segments in marks.
    """

    name: str
    form: CircuitForm
    segments: list[Segment]
    leads: tuple[LeadPart | None, ...]
    roles: tuple[tuple[str, ...], ...]
    poles: tuple[str, ...]
    numbers: dict[str, str]
    letters: tuple[str, ...]

    def is_cut(self, index: int) -> bool:
        """Tell whether a segment is cut, and did not come along."""
        return bool(self.leads) and self.leads[index] is not None


def common_at(definition: Definition, disconnect: str, circuit: str, role: str) -> str | None:
    """Return the common of a disconnect through which a circuit takes a role, if it does."""
    named = definition.circuits[circuit].commons_at(disconnect)
    for name, common in definition.disconnects[disconnect].commons.items():
        if common.role == role and (circuit in common.circuits or name in named):
            return name
    return None


def alone_at(definition: Definition, plan: Plan, disconnect: str) -> tuple[str, ...]:
    """Return the roles for which a circuit has contacts of its own at a disconnect, in the order of its lead."""
    index = plan.form.through.index(disconnect)
    return tuple(role for role in plan.roles[index] if common_at(definition, disconnect, plan.name, role) is None)


class Planner:
    """Plans the circuits of one definition, in the order written."""

    def __init__(self, definition: Definition, finder: SegmentFinder, connectors: Connectors, issued: Issued) -> None:
        self.definition = definition
        self.finder = finder
        self.connectors = connectors
        self.issued = issued
        self.numbers = Numbers(issued.highest)

    def plan(self, name: str, circuit: CircuitForm) -> tuple[Plan | None, list[Finding]]:
        """Return the plan of one circuit, or what is wrong with it."""
        segments, findings = self.finder.find(name, circuit)
        if not segments:
            return None, findings
        start, goal = segments[0].start, segments[-1].goal
        leads: tuple[LeadPart | None, ...] = ()
        if circuit.lead is not None:
            if not circuit.leads.keys() >= set(circuit.letters) or self._has_unfit_own(circuit, segments):
                return None, []  # said where circuits are checked, and where own leads are
            leads = tuple(self.definition.parts.leads.get(circuit.leads[segment.letter]) for segment in segments)
            every = [self._roles(lead, segment) for lead, segment in zip(leads, segments, strict=True)]
        elif isinstance(start, PortStop) and isinstance(goal, PortStop):
            findings += self._check_straight(name, start.port, goal.port)
            every = [tuple(self.connectors.plugs[start.port.group.plug].roles.values())]
        else:
            return None, []  # likewise
        findings += self._check_omitted(name, circuit, {role for roles in every for role in roles})
        roles = tuple(tuple(role for role in part if role not in circuit.omit) for part in every)
        plan = Plan(name, circuit, segments, leads, roles, self._poles(leads, roles), {}, self._letters(name, segments))
        for index in range(len(leads)):
            findings += self._check_lead(plan, index)
            findings += self._check_pair(plan, circuit.before(index), index)
        return (None, findings) if findings else (self._numbered(plan, start, goal), [])

    def _numbered(self, plan: Plan, start: Stop, goal: Stop) -> Plan:
        """Give the wires their numbers, in the order of the first segment that has all roles."""
        every = dict.fromkeys(role for roles in plan.roles for role in roles)
        order = next((roles for roles in plan.roles if len(roles) == len(every)), tuple(every))
        equipment = self.definition.equipment
        kinds = [equipment[stop.port.equipment].kind if isinstance(stop, PortStop) else "" for stop in (start, goal)]
        letter = function_letter(plan.form.function, kinds[0], kinds[1], isinstance(goal, HalfStop))
        kept = self.issued.numbers.get(plan.name, {})
        issued_letter = next((number[0] for number in kept.values()), letter)
        if plan.form.function in (None, issued_letter):
            letter = issued_letter  # whatever its load is now
        else:
            kept = {}
        return replace(plan, numbers=self.numbers.give(letter, order, kept))

    def _letters(self, name: str, segments: Sequence[Segment]) -> tuple[str, ...]:
        """Return the letters that segments have in marks: those issued, for others the next that never were."""
        keys = segment_keys([(_stop_key(segment.start), _stop_key(segment.goal)) for segment in segments])
        issued, every = self.issued.letters.get(name, {}), self.issued.every.get(name, ())
        unused = (letter for letter in segment_letters(len(every) + len(keys)) if letter not in every)
        return tuple(issued.get(key) or next(unused) for key in keys)

    def _has_unfit_own(self, circuit: CircuitForm, segments: Sequence[Segment]) -> bool:
        """Tell whether a segment is said to be an own lead and can't be."""
        own = [segment for segment in segments if circuit.leads[segment.letter] == OWN]
        ports = [[stop.port for stop in (at.start, at.goal) if isinstance(stop, PortStop)] for at in own]
        return any(not at or (at[0].equipment, at[0].name) not in self.finder.own_ports for at in ports)

    def _roles(self, lead: LeadPart | None, segment: Segment) -> tuple[str, ...]:
        """Return the roles of a segment: its lead's, or of one that came along its plug's."""
        if lead is not None:
            return tuple(lead.wires)
        port = next(stop.port for stop in (segment.start, segment.goal) if isinstance(stop, PortStop))
        return tuple(self.connectors.plugs[port.group.plug].roles.values())

    def _poles(self, leads: Sequence[LeadPart | None], roles: Sequence[Sequence[str]]) -> tuple[str, ...]:
        """Return the roles that carry current out and back; none in a circuit that carries signal only."""
        every = dict.fromkeys(role for some in roles for role in some)
        if POSITIVE in every:
            return (POSITIVE, NEGATIVE) if NEGATIVE in every else (POSITIVE,)
        made = [lead for lead in leads if lead is not None]
        if any(lead.reverses or lead.supplies for lead in made) or (not made and not _SIGNALS.issuperset(every)):
            out = [role for role in every if role not in _SIGNALS]
            return tuple([*out, *(role for role in every if role == NEGATIVE)][:2])
        return ()

    def _check_omitted(self, name: str, circuit: CircuitForm, every: set[str]) -> Iterator[Finding]:
        for index, role in enumerate(circuit.omit):
            if role not in every:
                sentence, do = f"there is no {shown(role)} to leave out.", f"It has: {listed(sorted(every))}."
                yield self.definition.wrong("role", ("circuits", name, "omit", index), sentence, do)

    def _check_straight(self, name: str, start: Port, load: Port) -> Iterator[Finding]:
        path = "circuits", name, "to"
        if start.group.plug != load.group.plug:
            sentence = (
                f"{shown(start.text)} has the plug {shown(start.group.plug)}, "
                f"{shown(load.text)} {shown(load.group.plug)}."
            )
            yield self.definition.wrong("mate", path, sentence, "Give it a `lead:` with the right plugs.")
        elif self.connectors.gender(start.group) == self.connectors.gender(load.group):
            sentence = f"{shown(start.text)} and {shown(load.text)} both carry {self.connectors.gender(start.group)}."
            do = "Give it a `lead:`, or correct `contacts:` of a port."
            yield self.definition.wrong("mate", path, sentence, do)
        if not (start.has_own_lead or load.has_own_lead):
            sentence = f"neither {shown(start.text)} nor {shown(load.text)} has a lead of its own."
            key = self.definition.where.key("circuits", name)
            yield Finding(key, "missing", sentence, "Give the circuit a `lead:`.", ("circuits", name))

    def _check_lead(self, plan: Plan, index: int) -> Iterator[Finding]:
        """Find roles of a lead that the plugs or the commons at its ends lack.

        A contact of a plug that no wire needs is no error: a signal lead without positive fits a servo's plug.
        """
        lead, segment = plan.leads[index], plan.segments[index]
        if lead is None:
            return
        path = "circuits", plan.name, "lead", segment.letter
        for stop in (segment.start, segment.goal):
            if isinstance(stop, SpliceStop):
                continue
            carried = self._connector(stop).roles.values()
            for role in plan.roles[index]:
                if carried and role not in carried:
                    sentence = f"{shown(lead.name)} has a {shown(role)}, the plug of {shown(stop.text)} has none."
                    do = f"Choose a lead with {listed(carried)}, or `omit: [{role}]`."
                    yield self.definition.wrong("role", path, sentence, do)
                if isinstance(stop, HalfStop) and stop.commons and not self._has_common(stop.disconnect, plan, role):
                    sentence = f"the {shown(role)} of {shown(lead.name)} has no common to go to."
                    do = f"Name a common of {shown(stop.disconnect)} for it, or choose a lead without it."
                    yield self.definition.wrong("role", path, sentence, do)

    def _check_pair(self, plan: Plan, near: int, far: int) -> Iterator[Finding]:
        """Find roles that one side of a joint or a splice has and the other lacks."""
        stop, path = plan.segments[far].start, ("circuits", plan.name, "lead", plan.segments[far].letter)
        for has, lacks in ((near, far), (far, near)) if near >= 0 else ():
            for role in plan.roles[has]:
                if role in plan.roles[lacks]:
                    continue
                if isinstance(stop, HalfStop) and self._has_common(stop.disconnect, plan, role):
                    continue
                one, other = plan.segments[lacks].letter, plan.segments[has].letter
                sentence = f"segment {one} lacks the wire {shown(role)} that segment {other} has."
                do = "Give both segments leads with the same roles, or a common that brings it."
                yield self.definition.wrong("role", path, sentence, do)

    def _has_common(self, disconnect: str, plan: Plan, role: str) -> bool:
        """Tell whether a role may come from a common; one whose own role is unknown is said already."""
        known = {name for lead in self.definition.parts.leads.values() for name in lead.wires}
        named = plan.form.commons_at(disconnect)
        return common_at(self.definition, disconnect, plan.name, role) is not None or any(
            common.role not in known and (plan.name in common.circuits or name in named)
            for name, common in self.definition.disconnects[disconnect].commons.items()
        )

    def _connector(self, stop: PortStop | HalfStop) -> Connector:
        if isinstance(stop, PortStop):
            return self.connectors.plugs[stop.port.group.plug]
        return self.connectors.joints[self.definition.disconnects[stop.disconnect].shell]


def _stop_key(stop: Stop) -> StopKey:
    if isinstance(stop, PortStop):
        return "port", stop.port.equipment, stop.port.name
    return ("half", stop.disconnect, stop.half.name) if isinstance(stop, HalfStop) else ("splice", "", "")


def plan_circuits(
    definition: Definition, finder: SegmentFinder, connectors: Connectors, issued: Issued
) -> tuple[dict[str, Plan], list[Finding]]:
    """Return the plans of all circuits that can be followed, by name, and what is wrong with the others."""
    planner = Planner(definition, finder, connectors, issued)
    plans: dict[str, Plan] = {}
    findings: list[Finding] = []
    for name, circuit in (sound_circuits(definition) if definition.broken else definition.circuits).items():
        plan, found = planner.plan(name, circuit)
        plans |= {name: plan} if plan is not None else {}
        findings += found
    return plans, findings
