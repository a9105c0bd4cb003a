"""Plan each circuit: which leads, which roles in each, what carries its current, and the numbers of its wires."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.basics.findings import Finding, listed, shown
from docgen.definition.ends import Port
from docgen.definition.harness import Circuit as CircuitForm
from docgen.definition.model import Definition
from docgen.definition.segments import segment_letters
from docgen.harness.model.parts import Connector
from docgen.harness.routing.routes import RouteFinder, Segment, Stop
from docgen.harness.wiring.connectors import connector_of
from docgen.harness.wiring.marks import NEGATIVE, Numbers, function_letter

POSITIVE = "positive"
# Roles that carry no supply in a lead that equipment came with.
_SIGNALS = frozenset({NEGATIVE, "signal", "data", "clock", "sense"})


@dataclass(frozen=True)
class Plan:
    """What is known of a circuit before contacts are given.

    `leads` are parts, none if straight; `roles` those in each segment; `poles` carry its current out and back;
    the last `branches` segments part at a splice.
    """

    name: str
    form: CircuitForm
    segments: list[Segment]
    branches: int
    leads: tuple[str, ...]
    roles: tuple[tuple[str, ...], ...]
    poles: tuple[str, ...]
    numbers: dict[str, str]

    @property
    def ends(self) -> list[int]:
        """Return the segments that end the circuit."""
        count = len(self.segments)
        return list(range(count - max(self.branches, 1), count))

    def before(self, index: int) -> int:
        """Return the segment that one goes on from: the one before, or the stem of a branch."""
        return min(index, len(self.segments) - self.branches if self.branches else index) - 1


def common_at(definition: Definition, disconnect: str, circuit: str, role: str) -> str | None:
    """Return the common of a disconnect through which a circuit takes a role, if it does."""
    form = definition.circuits[circuit]
    named = [words[1:] for words in (*form.start.ends, *form.to.ends) if words[0] == disconnect]
    for name, common in definition.disconnects[disconnect].commons.items():
        if common.role == role and (circuit in common.circuits or any(name in words for words in named)):
            return name
    return None


def alone_at(definition: Definition, plan: Plan, disconnect: str) -> tuple[str, ...]:
    """Return the roles for which a circuit has contacts of its own at a disconnect, in the order of its lead."""
    index = plan.form.through.index(disconnect)
    return tuple(role for role in plan.roles[index] if common_at(definition, disconnect, plan.name, role) is None)


class Planner:
    """Plans the circuits of one definition, in the order written."""

    def __init__(self, definition: Definition, finder: RouteFinder) -> None:
        self.definition = definition
        self.finder = finder
        self.numbers = Numbers()
        self.connectors: dict[str, Connector] = {}

    def plan(self, name: str, circuit: CircuitForm) -> tuple[Plan | None, list[Finding]]:
        """Return the plan of one circuit, or what is wrong with it."""
        route = self.finder.find(name, circuit)
        if not route.segments:
            return None, route.findings
        ports = route.segments[0].start.port, route.segments[-1].goal.port
        leads: tuple[str, ...] = ()
        if circuit.lead is None:
            if ports[0] is None or ports[1] is None:
                return None, []  # said where circuits are checked
            findings = list(self._check_straight(name, ports[0], ports[1]))
            every = [tuple(self.definition.parts.plugs[ports[0].group.plug].contacts.values())]
        else:
            letters = segment_letters(len(route.segments))
            leads = tuple(circuit.lead.get("") or circuit.lead.get(letter, "") for letter in letters)
            if "" in leads:
                return None, []
            findings = []
            every = [tuple(self.definition.parts.leads[lead].wires) for lead in leads]
        findings += self._check_omitted(name, circuit, {role for roles in every for role in roles})
        roles = tuple(tuple(role for role in part if role not in circuit.omit) for part in every)
        plan = Plan(
            name,
            circuit,
            route.segments,
            len(circuit.to.ends) if circuit.split is not None else 0,
            leads,
            roles,
            self._poles(leads, roles),
            {},
        )
        if leads:
            findings += self._check_plugs(plan)
            findings += self._check_joints(plan)
        if findings:
            return None, findings
        return self._numbered(plan, ports[0]), []

    def _numbered(self, plan: Plan, start: Port | None) -> Plan:
        """Give the wires their numbers, in the order of the first segment that has all roles."""
        every = dict.fromkeys(role for roles in plan.roles for role in roles)
        order = next((roles for roles in plan.roles if len(roles) == len(every)), tuple(every))
        goal = plan.segments[-1].goal
        kinds = [self.definition.equipment[port.equipment].kind if port else "" for port in (start, goal.port)]
        letter = function_letter(plan.form.function, kinds[0], kinds[1], bool(goal.commons))
        return replace(plan, numbers=self.numbers.give(letter, order))

    def _poles(self, leads: Sequence[str], roles: Sequence[Sequence[str]]) -> tuple[str, ...]:
        """Return the roles that carry current out and back; none in a circuit that carries signal only."""
        every = dict.fromkeys(role for some in roles for role in some)
        if POSITIVE in every:
            return (POSITIVE, NEGATIVE) if NEGATIVE in every else (POSITIVE,)
        parts = [self.definition.parts.leads[lead] for lead in leads]
        if any(part.reverses or part.supplies for part in parts) or (not leads and not _SIGNALS.issuperset(every)):
            out = [role for role in every if role not in _SIGNALS]
            return tuple([*out, *(role for role in every if role == NEGATIVE)][:2])
        return ()

    def _check_omitted(self, name: str, circuit: CircuitForm, every: set[str]) -> Iterator[Finding]:
        for index, role in enumerate(circuit.omit):
            if role not in every:
                position = self.definition.where.value("circuits", name, "omit", index)
                sentence = f"there is no {shown(role)} to leave out."
                yield Finding(position, "role", sentence, f"It has: {listed(sorted(every))}.", ("circuits", name))

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
            yield Finding(position, "mate", sentence, "Give it a `lead:`, or correct `contacts:` of a port.", subject)
        if start.group.lead is None and load.group.lead is None:
            sentence = f"neither {shown(start.text)} nor {shown(load.text)} has a lead of its own."
            key = self.definition.where.key("circuits", name)
            yield Finding(key, "missing", sentence, "Give the circuit a `lead:`.", subject)

    def _check_plugs(self, plan: Plan) -> Iterator[Finding]:
        """Find roles of a lead that the plugs at its ends lack."""
        letters = segment_letters(len(plan.leads))
        for letter, lead, roles, segment in zip(letters, plan.leads, plan.roles, plan.segments, strict=True):
            position = self.definition.where.value("circuits", plan.name, "lead", letter)
            for stop in (segment.start, segment.goal):
                carried = self.connector(self.connector_name(stop)).roles.values() if not stop.splice else ()
                for role in roles:
                    if carried and role not in carried:
                        what = stop.port.text if stop.port else stop.disconnect
                        sentence = f"{shown(lead)} has a {shown(role)}, the plug of {shown(what)} has none."
                        do = f"Choose a lead with {listed(carried)}, or `omit: [{role}]`."
                        yield Finding(position, "role", sentence, do, ("circuits", plan.name))

    def _check_joints(self, plan: Plan) -> Iterator[Finding]:
        """Find roles that one side of a joint, a splice or commons has and the other lacks."""
        letters = segment_letters(len(plan.leads))
        for index, segment in enumerate(plan.segments):
            position = self.definition.where.value("circuits", plan.name, "lead", letters[index])
            for stop in (segment.start, segment.goal):
                for role in plan.roles[index] if stop.commons else ():
                    if not self._has_common(stop.disconnect, plan.name, role):
                        sentence = f"the {shown(role)} of {shown(plan.leads[index])} has no common to go to."
                        do = f"Name a common of {shown(stop.disconnect)} for it, or choose a lead without it."
                        yield Finding(position, "role", sentence, do, ("circuits", plan.name))
            before = plan.before(index)
            if before >= 0:
                yield from self._check_pair(plan, before, index)

    def _check_pair(self, plan: Plan, near: int, far: int) -> Iterator[Finding]:
        letters = segment_letters(len(plan.leads))
        position = self.definition.where.value("circuits", plan.name, "lead", letters[far])
        stop = plan.segments[far].start
        for has, lacks in ((near, far), (far, near)):
            for role in plan.roles[has]:
                if role in plan.roles[lacks]:
                    continue
                if not stop.splice and self._has_common(stop.disconnect, plan.name, role):
                    continue
                sentence = f"segment {letters[lacks]} lacks the wire {shown(role)} that segment {letters[has]} has."
                do = "Give both segments leads with the same roles, or a common that brings it."
                yield Finding(position, "role", sentence, do, ("circuits", plan.name))

    def _has_common(self, disconnect: str, circuit: str, role: str) -> bool:
        """Tell whether a role may come from a common; one whose own role is unknown is said already."""
        known = {name for lead in self.definition.parts.leads.values() for name in lead.wires}
        commons = self.definition.disconnects[disconnect].commons
        form = self.definition.circuits[circuit]
        named = {word for words in (*form.start.ends, *form.to.ends) if words[0] == disconnect for word in words[1:]}
        misnamed = any(
            common.role not in known and (circuit in common.circuits or name in named)
            for name, common in commons.items()
        )
        return misnamed or common_at(self.definition, disconnect, circuit, role) is not None

    def connector_name(self, stop: Stop) -> str:
        """Return the plug or shell at a stop."""
        return stop.port.group.plug if stop.port else self.definition.disconnects[stop.disconnect].shell

    def connector(self, name: str) -> Connector:
        """Return a shell or plug as built; each is made once."""
        if name not in self.connectors:
            self.connectors[name] = connector_of(self.definition.parts, name)
        return self.connectors[name]

    def port_gender(self, port: Port) -> str:
        """Return what the equipment's half of a port carries."""
        return port.group.contacts or self.definition.parts.plugs[port.group.plug].equipment
