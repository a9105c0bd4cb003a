"""What the record says of each thing, as lines of plain text."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from docgen.basics.colours import colour_words
from docgen.basics.units import decimal, millimetres
from docgen.harness.electrical.sources import outputs_of
from docgen.harness.model.circuits import Circuit, End, Lead, Wire
from docgen.harness.model.harness import Common, Disconnect, Equipment, Harness, Output, PortUse
from docgen.paperwork.cards.equipment_cards import equipment_card
from docgen.paperwork.cards.half_cards import card_of
from docgen.paperwork.naming import end_text, half_title, mates_text

COLUMNS = 72


class Lines:
    """Lines of text, wrapped, with what belongs below a line indented."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def add(self, text: str, depth: int = 0) -> None:
        """Add a text, wrapped; nothing where it is empty."""
        indent = "  " * depth
        wrapped = textwrap.wrap(
            text,
            COLUMNS,
            initial_indent=indent,
            subsequent_indent=indent + "    ",
            break_on_hyphens=False,
            break_long_words=True,
        )
        self.lines += wrapped

    def heading(self, text: str) -> None:
        """Add a heading; the first is the title."""
        self.lines += ["", text, "-" * min(len(text), COLUMNS)] if self.lines else [text, "=" * len(text)]

    def text(self) -> str:
        """Return all of it."""
        return "\n".join(self.lines) + "\n"


def add_circuit(lines: Lines, circuit: Circuit) -> None:
    """Add what a circuit is, and what the radio does with it."""
    lines.add(f"{circuit.name}: {circuit.label}, {end_text(circuit.start)} to {_loads(circuit)}")
    form = circuit.form
    radio = (("channel", form.channel), ("throw", form.throw), ("fail-safe", form.failsafe))
    lines.add(", ".join(f"{name} {said}" for name, said in radio if said), 1)
    lines.add(f"note: {form.note}" if form.note else "", 1)


def add_airframe(lines: Lines, harness: Harness) -> None:
    """Add all places and runs."""
    lines.heading("Places")
    for place in harness.places.values():
        add_place(lines, harness, place.name)
    lines.heading("Runs")
    for run in harness.runs:
        said = [f"{run.between[0]} to {run.between[1]}: {millimetres(run.length_mm)} mm"]
        said += [] if run.measured else ["not measured"]
        said += ["sharp edges"] if run.sharp else []
        said += [f"dressed with {run.dressed}"] if run.dressed else []
        said += [f"heat {decimal(run.heat_c)} °C"] if run.heat_c is not None else []
        said += [f"hinge {decimal(run.hinge_mm)} mm"] if run.hinge_mm is not None else []
        said += [f"note: {run.note}"] if run.note else []
        lines.add(", ".join(said))


def add_place(lines: Lines, harness: Harness, name: str) -> None:
    """Add one place."""
    place = harness.places[name]
    said = [f"{place.name}: {place.assembly}"]
    if place.point_mm is not None:
        aft, right, up = place.point_mm
        side = f"right {decimal(right)}" if right > 0 else f"left {decimal(-right)}" if right < 0 else "middle"
        said.append(f"aft {decimal(aft)}, {side}, up {decimal(up)} mm")
    said += [f"access {place.access}"] if place.access else []
    said += [f"slack {decimal(place.slack_mm)} mm"] if place.slack_mm else []
    said += [f"heat {decimal(place.heat_c)} °C"] if place.heat_c is not None else []
    said += [f"note: {place.note}"] if place.note else []
    lines.add(", ".join(said))


def add_equipment(lines: Lines, harness: Harness, equipment: Equipment) -> None:
    """Add equipment with its figures and ports."""
    place = harness.places[equipment.place]
    lines.add(f"{equipment.name}: {equipment.kind} at {place.name}, {place.assembly}")
    for said in _figures(equipment):
        lines.add(said, 1)
    for port in equipment.ports:
        if port.circuit is None:
            used = "free"
        else:
            radio = f", channel {port.circuit.form.channel}" if port.circuit.form.channel is not None else ""
            radio += f", fail-safe {port.circuit.form.failsafe}" if port.circuit.form.failsafe else ""
            used = f"{port.circuit.label} ({port.circuit.name}), other end {port.far}{radio}"
        rating = f", rating {decimal(port.rating_a)} A" if port.rating_a is not None else ""
        lines.add(f"port {port.name or '(own lead)'}, {port.connector.name} {port.gender}{rating}: {used}", 1)
    if equipment.has_card:
        lines.add(f"card {equipment_card(harness, equipment).hash8}", 1)
    for name, words in (("on", equipment.form.on), ("off", equipment.form.off), ("note", equipment.form.note)):
        if words:
            lines.add(f"{name}: {words}", 1)


def _figures(equipment: Equipment) -> list[str]:
    """Return what is known of equipment in figures."""
    said = []
    pack = equipment.battery
    if pack is not None:
        said.append(
            f"{pack.cells} cells, {decimal(pack.capacity_mah)} mAh, full {decimal(pack.full_v)} V, empty "
            f"{decimal(pack.empty_v)} V"
        )
        said += [f"resistance {decimal(pack.resistance_ohm * 1000)} mΩ"] if pack.resistance_ohm is not None else []
        said += [f"rating {decimal(pack.rating_a)} A"] if pack.rating_a is not None else []
    if equipment.load is not None:
        load = equipment.load
        figures = (("idle", load.idle_a), ("working", load.working_a), ("stall", load.stall_a))
        runs = f", runs {decimal(load.runs_s)} s" if load.runs_s is not None else ""
        said.append("current " + ", ".join(f"{n} {decimal(a)} A" for n, a in figures if a is not None) + runs)
    if equipment.least_v is not None or equipment.most_v is not None:
        limits = (("least", equipment.least_v), ("most", equipment.most_v))
        said.append("volts " + ", ".join(f"{n} {decimal(v)} V" for n, v in limits if v is not None))
    gear = equipment.gear
    if gear is not None:
        times = (("up", gear.up_s), ("down", gear.down_s), ("limit", gear.limit_s))
        stop = f", stop {decimal(gear.stop_a)} A" if gear.stop_a is not None else ""
        said.append("gear " + ", ".join(f"{n} {decimal(t)} s" for n, t in times if t is not None) + stop)
    for antenna in equipment.antennas:
        note = f", {antenna.note}" if antenna.note else ""
        said.append(
            f"antenna {antenna.name}: {antenna.place}, {antenna.lies}, lead {decimal(antenna.lead_mm)} mm, "
            f"diameter {decimal(antenna.diameter_mm)} mm{note}"
        )
    said += [_output(output, ports) for output, ports in outputs_of(equipment)]
    said += ["keeps its feeds apart"] if equipment.isolates else []
    said += [f"fed by {', '.join(equipment.fed_by)}"] if equipment.fed_by else []
    said += [f"mass {decimal(equipment.mass_g)} g"] if equipment.mass_g is not None else []
    return said


def _output(output: Output, ports: Sequence[PortUse]) -> str:
    switching = f", switching, {decimal(100 * output.efficiency)} % efficient" if output.efficiency else ""
    rating = f", rating {decimal(output.rating_a)} A" if output.rating_a is not None else ""
    names = ", ".join(port.name for port in ports)
    return (
        f"{f'output {names}'.strip()}: {decimal(output.volts_v)} V, headroom {decimal(output.headroom_v)} "
        f"V{rating}{switching}"
    )


def add_disconnect(lines: Lines, harness: Harness, disconnect: Disconnect) -> None:
    """Add a disconnect: its halves, each contact, its commons."""
    shell = disconnect.shell
    keyed = f", keyed {disconnect.form.keyed}" if disconnect.form.keyed else ""
    lines.add(f"{disconnect.name}: {shell.name}, {len(shell.contacts)} contacts{keyed}")
    for index, half in enumerate(disconnect.halves):
        place = harness.places[half.place]
        key = f", key {half.key}" if half.key else ""
        said = f"{half_title(half)}: {half.gender} at {place.name}, {place.assembly}{key}"
        lines.add(f"{said}; {mates_text(harness, disconnect, index)}", 1)
        lines.add(f"card {card_of(harness, disconnect, index).hash8}", 2)
    for contact in shell.contacts:
        use = disconnect.uses.get(contact)
        if use is None:
            lines.add(f"{contact}: spare", 1)
            continue
        wires = " / ".join(_wire(wire) for wire in use.wires)
        if use.common:
            lines.add(f"{contact}: common {use.common}, {wires}", 1)
            continue
        circuit = harness.circuits[use.circuit]
        lines.add(f"{contact}: {use.label}, {wires}, {circuit.start.text} to {circuit.load_text}", 1)
    for common in disconnect.commons.values():
        _common(lines, common)
    for name, text in (("lock", shell.lock), ("note", disconnect.form.note)):
        if text:
            lines.add(f"{name}: {text}", 1)


def _wire(wire: Wire | None) -> str:
    if wire is None:
        return "nothing"
    return f"{wire.colour} {wire.kind.gauge.text} {wire.mark or 'tail'}"


def _common(lines: Lines, common: Common) -> None:
    fed = f", fed by {', '.join(common.feeders)}" if common.feeders else ""
    contacts = f"contact{'s' if len(common.contacts) > 1 else ''} {', '.join(common.contacts)}"
    lines.add(f"common {common.name}: {common.role} on {contacts}{fed}", 1)
    for behind in common.halves:
        half = behind.half
        spliced = ", ".join(f"{lead.name} {wire.mark}" for lead, wire in behind.wires) or "nothing"
        if not behind.tails:
            lines.add(f"{half_title(half)}: {spliced}, straight into the contact", 2)
            continue
        tail = behind.tails[0]
        count = f"{len(behind.tails)} tail{'s' if len(behind.tails) > 1 else ''}"
        cut = f"{count} {tail.colour} {tail.kind.name}, cut {millimetres(behind.tail_mm or 0)} mm"
        lines.add(f"{half_title(half)}: {cut}, spliced to {spliced}", 2)
    if common.form.note:
        lines.add(f"note: {common.form.note}", 2)


def _loads(circuit: Circuit) -> str:
    return ", ".join(end_text(end) for end in circuit.loads)


def add_lead(lines: Lines, lead: Lead) -> None:
    """Add a lead: its route, its ends, its wires."""
    if lead.straight:
        lines.add(f"{lead.name}: {lead.label}, plugs straight in, nothing to cut")
    else:
        pinned = ", pinned" if lead.pinned else ""
        bought = f", bought {lead.bought}" if lead.bought else ""
        length = millimetres(lead.cut_length_mm or 0)
        lines.add(f"{lead.name}: {lead.label}, cut {length} mm{pinned}, {lead.part}{bought}")
    route = ", ".join(lead.route.places)
    lines.add(f"route {millimetres(lead.route.length_mm)} mm: {route}", 1)
    for name, end in (("from", lead.ends[0]), ("to", lead.ends[1])):
        if end.is_splice:
            lines.add(f"{name} {end_text(end)}", 1)
            continue
        part = "" if end.is_port else f", {end.part} half"
        lines.add(f"{name} {end_text(end)} ({end.connector.name} {end.gender}{part}{_own(end)}) at {end.place}", 1)
    for wire in lead.wires:
        start, goal = (_contact(end, at) for end, at in zip(lead.ends, wire.contacts, strict=True))
        colour = f"{wire.colour} {colour_words(wire.colour)}" if wire.colour else "colour not known"
        hands = [f"{end.name}'s own is {end.colours[wire.role]}" for end in lead.ends if wire.role in end.colours]
        said = [f"{wire.mark}: {wire.role}, {colour}, {wire.kind.name}, {start} to {goal}", *hands]
        lines.add(", ".join(said), 2)


def _own(end: End) -> str:
    """Say the lead that equipment came with, and its wire, assumed where the builder did not say it."""
    if end.own is None:
        return ""
    kind = end.own.kind.name if end.own.kind else "wire as the circuit's"
    return f", own lead {decimal(end.own.length_mm)} mm, {kind}{' assumed' if end.own.assumed else ''}"


def _contact(end: End, contacts: tuple[str, ...]) -> str:
    if end.is_splice:
        return end.text
    return f"{end.text} contact {'+'.join(contacts)}" if contacts else f"{end.text}, no contact"
