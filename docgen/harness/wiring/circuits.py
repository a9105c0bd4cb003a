"""Take plans and the contacts given; return circuits as built: leads with ends, wires, marks and cut lengths."""

from __future__ import annotations

from docgen.basics.findings import Position
from docgen.basics.units import added
from docgen.definition.ends import Port
from docgen.definition.model import Definition
from docgen.definition.parts import LeadPart
from docgen.harness.model.airframe import Route
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead, OwnLead, OwnLeads, Wire
from docgen.harness.model.parts import opposite
from docgen.harness.routing.routes import Routes
from docgen.harness.routing.segments import HalfStop, PortStop, SpliceStop, Stop
from docgen.harness.wiring.connectors import SPLICE, Connectors
from docgen.harness.wiring.contacts import Contacts
from docgen.harness.wiring.lengths import cut_length_mm, lead_length_mm
from docgen.harness.wiring.marks import wire_mark
from docgen.harness.wiring.plans import Plan, alone_at, common_at

# Own leads whose wire is not said: a servo's by the trade's custom, other equipment's where no lead is cut.
SERVO_WIRE = "lead-26"
OTHER_WIRE = "pvc-22"
# The commonest of the trade's colour sets; a lead that differs says so in `lead_colours`.
_CUSTOMARY_COLOURS = {"negative": "BK", "positive": "RD", "signal": "WH"}


class CircuitBuilder:
    """Builds the circuits of one definition, with the contacts given."""

    def __init__(self, definition: Definition, routes: Routes, connectors: Connectors, contacts: Contacts) -> None:
        self.definition = definition
        self.routes = routes
        self.connectors = connectors
        self.contacts = contacts

    def build(self, plan: Plan) -> Circuit:
        """Return the circuit as built."""
        leads = tuple(self._lead(plan, index, part) for index, part in enumerate(plan.leads or (None,)))
        return Circuit(
            name=plan.name,
            form=plan.form,
            label=_label(plan),
            leads=leads,
            poles=plan.poles,
            numbers=plan.numbers,
            position=self.definition.where.key("circuits", plan.name),
        )

    def _lead(self, plan: Plan, index: int, part: LeadPart | None) -> Lead:
        segment = plan.segments[index]
        if part is None:
            return self._own_leads(plan, index)
        letter = plan.letters[index]
        ends = self._end(plan, index, segment.start), self._end(plan, index, segment.goal)
        wires = []
        for role in plan.roles[index]:
            kind = self.definition.parts.wires[part.wires[role].wire]
            mark = wire_mark(plan.numbers[role], letter, kind.gauge.mark, role)
            wires.append(Wire(role, kind, part.wires[role].colour, mark))
        free = self._free_mm(plan, index)
        needed = lead_length_mm(part, wires, ends, segment.route, free, self.definition)
        pinned = plan.form.lengths.get(segment.letter)
        return CutLead(
            circuit=plan.name,
            label=_label(plan),
            segment=letter,
            wires=tuple(wires),
            ends=ends,
            route=segment.route,
            free_mm=free,
            assembly=self.definition.places[segment.start.place].assembly,
            position=self._label_position(plan),
            part=part,
            needed_length_mm=needed,
            cut_length_mm=cut_length_mm(needed, pinned, self.definition),
            pinned=pinned is not None,
        )

    def _label_position(self, plan: Plan) -> Position:
        """Return where the label of a circuit was typed: its own, else the circuit's name."""
        where = self.definition.where
        return where.value("circuits", plan.name, "label") if plan.form.label else where.key("circuits", plan.name)

    def _free_mm(self, plan: Plan, index: int) -> tuple[float | None, float | None]:
        """Return what lies coiled or hangs free at each end: slack of the place, reach of a half, loops.

        The loop of a split lies at the splice, on the stem.
        """
        segment = plan.segments[index]
        loop_from = plan.form.loop_from if index == 0 else 0
        loop = plan.form.loop if index in plan.form.last else 0
        if isinstance(segment.goal, SpliceStop) and plan.form.split is not None:
            loop += plan.form.split.loop
        start, goal = (
            added(
                [
                    self.definition.places[stop.place].slack_mm if plan.is_cut(index) else 0,
                    stop.half.reach_mm if isinstance(stop, HalfStop) else 0,
                    loop_mm,
                ]
            )
            for stop, loop_mm in ((segment.start, loop_from), (segment.goal, loop))
        )
        return start, goal

    def _end(self, plan: Plan, index: int, stop: Stop) -> End:
        if isinstance(stop, PortStop):
            return self._port_end(plan, index, stop)
        if isinstance(stop, SpliceStop):
            return End("splice", "", "", stop.place, SPLICE, "", {}, {}, None)
        roles, form = plan.roles[index], self.definition.disconnects[stop.disconnect]
        commons = {role: common_at(self.definition, stop.disconnect, plan.name, role) for role in roles}
        shared = {role: common for role, common in commons.items() if common is not None}
        fitted = {role: tuple(form.commons[common].contacts) for role, common in shared.items()}
        if not stop.commons:
            alone = alone_at(self.definition, plan, stop.disconnect)
            given = zip(alone, self.contacts[stop.disconnect, plan.name], strict=True)
            fitted |= {role: (contact,) for role, contact in given}
        return End(
            kind="half",
            name=stop.disconnect,
            part=stop.half.name,
            place=stop.place,
            connector=self.connectors.joints[form.shell],
            gender=stop.half.gender,
            contacts={role: fitted[role] for role in roles if role in fitted},
            commons=shared,
            own=None,
        )

    def _port_end(self, plan: Plan, index: int, stop: PortStop) -> End:
        port = stop.port
        connector = self.connectors.plugs[port.group.plug]
        fitted = {role: connector.contact_of(role) for role in plan.roles[index]}
        return End(
            kind="port",
            name=port.equipment,
            part=port.name,
            place=stop.place,
            connector=connector,
            gender=opposite(self.connectors.gender(port.group)),
            contacts={role: (contact,) for role, contact in fitted.items() if contact},
            commons={},
            own=self._own_lead(port, stop.place, cut=plan.is_cut(index)),
        )

    def _own_lead(self, port: Port, place: str, *, cut: bool) -> OwnLead | None:
        """Return the lead that came on a port; without a wire of its own it is taken by custom."""
        if not port.has_own_lead:
            return None
        equipment = self.definition.equipment[port.equipment]
        said = port.group.lead_wire
        assumed = SERVO_WIRE if equipment.kind == "servo" else None if cut else OTHER_WIRE
        name = said or assumed
        route = self.routes.route([equipment.place, place]) or Route((equipment.place, place), (), None)
        return OwnLead(
            length_mm=port.group.lead,
            kind=self.definition.parts.wires[name] if name else None,
            assumed=said is None,
            colours=dict(equipment.lead_colours),
            route=route,
        )

    def _own_leads(self, plan: Plan, index: int) -> OwnLeads:
        """Return what is joined where a circuit plugs straight in, or what came along up to a joint.

        Its wires are those of the load's lead; up to a joint they bear no marks. Colours that the builder does not say
        are customary ones, by role; others are not known. Loops cut nothing.
        """
        segment = plan.segments[index]
        ends = self._end(plan, index, segment.start), self._end(plan, index, segment.goal)
        own = ends[1].own or ends[0].own
        assert own is not None
        assert own.kind is not None
        wires = []
        for role in plan.roles[index]:
            colour = own.colours.get(role) or _CUSTOMARY_COLOURS.get(role, "")
            mark = "" if plan.leads else wire_mark(plan.numbers[role], plan.letters[index], own.kind.gauge.mark, role)
            wires.append(Wire(role, own.kind, colour, mark))
        return OwnLeads(
            circuit=plan.name,
            label=_label(plan),
            segment=plan.letters[index],
            wires=tuple(wires),
            ends=ends,
            route=segment.route,
            free_mm=self._free_mm(plan, index),
            assembly=self.definition.places[segment.start.place].assembly,
            position=self._label_position(plan),
        )


def _label(plan: Plan) -> str:
    state = " (planned)" if plan.form.planned else " (dead)" if plan.form.left_in else ""
    return (plan.form.label or plan.name.upper()) + state
