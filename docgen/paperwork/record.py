"""The record: everything needed to rebuild or repair the harness, as plain text, whole and in parts."""

from __future__ import annotations

import hashlib
import textwrap
from dataclasses import dataclass

from docgen.basics.colours import colour_words
from docgen.basics.units import millimetres
from docgen.harness.model import Circuit, Disconnect, End, Equipment, Harness, Lead
from docgen.paperwork.naming import end_text, half_title, mates_text, part_path
from docgen.paperwork.pinout_cards import card_of

STEM = "record"
COLUMNS = 72


@dataclass(frozen=True)
class Record:
    """The whole record and its parts, by path inside the output folder."""

    whole: str
    parts: dict[str, str]

    @property
    def hash8(self) -> str:
        """Return the first characters of the hash of the whole."""
        return hashlib.sha256(self.whole.encode()).hexdigest()[:8]

    def files(self) -> dict[str, str]:
        """Return all texts by path."""
        return {"record.txt": self.whole, **self.parts}


class _Lines:
    """Lines of text, wrapped, with what belongs below a line indented."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def add(self, text: str, depth: int = 0) -> None:
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
        self.lines += ["", text, "-" * min(len(text), COLUMNS)] if self.lines else [text, "=" * len(text)]

    def text(self) -> str:
        return "\n".join(self.lines) + "\n"


def content(harness: Harness) -> Record:
    """Return the record of a harness."""
    parts: dict[str, str] = {}
    for disconnect in harness.disconnects.values():
        lines = _part(harness, f"disconnect {disconnect.name}")
        _disconnect(lines, harness, disconnect)
        parts[part_path("disconnect", disconnect.name)] = lines.text()
    for equipment in harness.equipment.values():
        if equipment.ports and not equipment.nameless:
            lines = _part(harness, f"equipment {equipment.name}")
            _equipment(lines, harness, equipment)
            parts[part_path("equipment", equipment.name)] = lines.text()
    for assembly in harness.assemblies:
        lines = _part(harness, f"assembly {assembly}")
        _assembly(lines, harness, assembly)
        parts[part_path("assembly", assembly)] = lines.text()
    return Record(_whole(harness), parts)


def _part(harness: Harness, title: str) -> _Lines:
    lines = _Lines()
    lines.add(f"{harness.aircraft.marks.text} {title}")
    lines.add(f"since: {harness.aircraft.revision.text}")
    return lines


def _whole(harness: Harness) -> str:
    lines = _Lines()
    _head(lines, harness)
    _airframe(lines, harness)
    lines.heading("Equipment")
    for equipment in harness.equipment.values():
        _equipment(lines, harness, equipment)
    lines.heading("Disconnects")
    for disconnect in harness.disconnects.values():
        _disconnect(lines, harness, disconnect)
    lines.heading("Circuits")
    for circuit in harness.circuits.values():
        _circuit(lines, circuit)
    lines.heading("Leads")
    for lead in harness.leads():
        _lead(lines, lead)
    _findings(lines, harness)
    return lines.text()


def _head(lines: _Lines, harness: Harness) -> None:
    aircraft = harness.aircraft
    lines.add(f"{aircraft.name.text} {aircraft.marks.text}: record of the harness")
    lines.add(aircraft.description.text)
    lines.add(f"revision: {aircraft.revision.text}")
    lines.add(f"date: {aircraft.date}")
    for name, text in (("contact", aircraft.contact.text), ("record", aircraft.record), ("note", aircraft.note.text)):
        if text:
            lines.add(f"{name}: {text}")
    lines.add("For model aircraft only, never for aircraft that carry people.")
    flight = harness.flight
    if flight is not None:
        lines.heading("Flight")
        lines.add(f"time {flight.time_s / 60:g} min, reserve {flight.reserve * 100:g} %")
        lines.add(f"flights on a charge {flight.flights}, on the ground {flight.ground_s / 60:g} min")
        if flight.note:
            lines.add(f"note: {flight.note}")


def _circuit(lines: _Lines, circuit: Circuit) -> None:
    lines.add(f"{circuit.name}: {circuit.label.text}, {circuit.start.text} to {circuit.load.text}")
    radio = [f"channel {circuit.channel}"] if circuit.channel is not None else []
    radio += [f"throw {circuit.throw.text}"] if circuit.throw.text else []
    radio += [f"fail-safe {circuit.failsafe}"] if circuit.failsafe else []
    if radio:
        lines.add(", ".join(radio), 1)
    if circuit.note.text:
        lines.add(f"note: {circuit.note.text}", 1)


def _airframe(lines: _Lines, harness: Harness) -> None:
    lines.heading("Places")
    for place in harness.places.values():
        _place(lines, harness, place.name)
    lines.heading("Runs")
    for run in harness.runs:
        said = [f"{run.between[0]} to {run.between[1]}: {millimetres(run.length_mm)} mm"]
        said += [] if run.measured else ["not measured"]
        said += ["sharp edges"] if run.sharp else []
        said += [f"dressed with {run.dressed}"] if run.dressed else []
        said += [f"heat {run.heat_c:g} °C"] if run.heat_c is not None else []
        said += [f"hinge {run.hinge_mm:g} mm"] if run.hinge_mm is not None else []
        said += [f"note: {run.note}"] if run.note else []
        lines.add(", ".join(said))


def _place(lines: _Lines, harness: Harness, name: str) -> None:
    place = harness.places[name]
    said = [f"{place.name}: {place.assembly}"]
    if place.point_mm is not None:
        aft, right, up = place.point_mm
        side = f"right {right:g}" if right > 0 else f"left {-right:g}" if right < 0 else "middle"
        said.append(f"aft {aft:g}, {side}, up {up:g} mm")
    said += [f"access {place.access}"] if place.access else []
    said += [f"slack {place.slack_mm:g} mm"] if place.slack_mm else []
    said += [f"heat {place.heat_c:g} °C"] if place.heat_c is not None else []
    said += [f"note: {place.note}"] if place.note else []
    lines.add(", ".join(said))


def _equipment(lines: _Lines, harness: Harness, equipment: Equipment) -> None:
    place = harness.places[equipment.place]
    lines.add(f"{equipment.name}: {equipment.kind} at {place.name}, {place.assembly}")
    for said in _figures(equipment):
        lines.add(said, 1)
    for port in equipment.ports:
        if port.circuit is None:
            used = "free"
        else:
            channel = f", channel {port.circuit.channel}" if port.circuit.channel is not None else ""
            used = f"{port.circuit.label.text} ({port.circuit.name}), other end {port.far}{channel}"
        rating = f", rating {port.rating_a:g} A" if port.rating_a is not None else ""
        lines.add(f"port {port.name or '(own lead)'}, {port.connector.name} {port.gender}{rating}: {used}", 1)
    for name, words in (("on", equipment.on), ("off", equipment.off), ("note", equipment.note)):
        if words.text:
            lines.add(f"{name}: {words.text}", 1)


def _figures(equipment: Equipment) -> list[str]:
    """Return what is known of equipment in figures."""
    said = []
    pack = equipment.battery
    if pack is not None:
        said.append(f"{pack.cells} cells, {pack.capacity_mah:g} mAh, full {pack.full_v:g} V, empty {pack.empty_v:g} V")
        said += [f"resistance {pack.resistance_ohm * 1000:g} mΩ"] if pack.resistance_ohm is not None else []
        said += [f"rating {pack.rating_a:g} A"] if pack.rating_a is not None else []
    if equipment.load is not None:
        load = equipment.load
        figures = (("idle", load.idle_a), ("working", load.working_a), ("stall", load.stall_a))
        runs = f", runs {load.runs_s:g} s" if load.runs_s is not None else ""
        said.append("current " + ", ".join(f"{n} {a:g} A" for n, a in figures if a is not None) + runs)
    if equipment.least_v is not None or equipment.most_v is not None:
        limits = (("least", equipment.least_v), ("most", equipment.most_v))
        said.append("volts " + ", ".join(f"{n} {v:g} V" for n, v in limits if v is not None))
    gear = equipment.gear
    if gear is not None:
        times = (("up", gear.up_s), ("down", gear.down_s), ("limit", gear.limit_s))
        stop = f", stop {gear.stop_a:g} A" if gear.stop_a is not None else ""
        said.append("gear " + ", ".join(f"{n} {t:g} s" for n, t in times if t is not None) + stop)
    for antenna in equipment.antennas:
        note = f", {antenna.note}" if antenna.note else ""
        said.append(
            f"antenna {antenna.name.text}: {antenna.place}, {antenna.lies}, lead {antenna.lead_mm:g} mm, "
            f"diameter {antenna.diameter_mm:g} mm{note}"
        )
    said += ["keeps its feeds apart"] if equipment.isolates else []
    said += [f"fed by {', '.join(equipment.fed_by)}"] if equipment.fed_by else []
    said += [f"mass {equipment.mass_g:g} g"] if equipment.mass_g is not None else []
    return said


def _disconnect(lines: _Lines, harness: Harness, disconnect: Disconnect) -> None:
    shell = disconnect.shell
    keyed = f", keyed {disconnect.keyed}" if disconnect.keyed else ""
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
        circuit = harness.circuits[use.circuit]
        wires = " / ".join(f"{wire.colour} {wire.kind.gauge.text} {wire.mark}" for wire in use.wires)
        lines.add(f"{contact}: {use.label.text}, {wires}, {circuit.start.text} to {circuit.load.text}", 1)
    for name, text in (("lock", shell.lock), ("note", disconnect.note.text)):
        if text:
            lines.add(f"{name}: {text}", 1)


def _lead(lines: _Lines, lead: Lead) -> None:
    if lead.straight:
        lines.add(f"{lead.name}: {lead.label.text}, plugs straight in, nothing to cut")
    else:
        pinned = ", pinned" if lead.pinned else ""
        bought = f", bought {lead.bought}" if lead.bought else ""
        length = millimetres(lead.cut_length_mm or 0)
        lines.add(f"{lead.name}: {lead.label.text}, cut {length} mm{pinned}, {lead.part}{bought}")
    way = ", ".join(lead.route.places)
    lines.add(f"way {millimetres(lead.route.length_mm)} mm: {way}", 1)
    for name, end in (("from", lead.ends[0]), ("to", lead.ends[1])):
        own = f", own lead {end.own_lead_mm:g} mm" if end.own_lead_mm is not None else ""
        part = "" if end.is_port else f", {end.part} half"
        lines.add(f"{name} {end_text(end)} ({end.connector.name} {end.gender}{part}{own}) at {end.place}", 1)
    for wire in lead.wires:
        start, goal = (_contact(end, at) for end, at in zip(lead.ends, wire.contacts, strict=True))
        colour = f"{wire.colour} {colour_words(wire.colour)}" if wire.colour else "colour not known"
        hands = [f"{end.name}'s own is {end.colours[wire.role]}" for end in lead.ends if wire.role in end.colours]
        said = [f"{wire.mark}: {wire.role}, {colour}, {wire.kind.name}, {start} to {goal}", *hands]
        lines.add(", ".join(said), 2)


def _contact(end: End, contact: str) -> str:
    return f"{end.text} contact {contact}" if contact else f"{end.text}, no contact"


def _assembly(lines: _Lines, harness: Harness, assembly: str) -> None:
    inside = {name for name, place in harness.places.items() if place.assembly == assembly}
    lines.heading("Places")
    for name in harness.places:
        if name in inside:
            _place(lines, harness, name)
    lines.heading("Equipment")
    for equipment in harness.equipment.values():
        if equipment.place in inside:
            _equipment(lines, harness, equipment)
    lines.heading("Leads")
    for lead in harness.leads():
        if lead.assembly == assembly:
            _lead(lines, lead)


def _findings(lines: _Lines, harness: Harness) -> None:
    """List what was found, by name and subject, with the reason where it is accepted."""
    found = sorted(harness.findings, key=lambda f: (f.subject, f.name, f.sentence))
    if not found:
        return
    lines.heading("Findings")
    for finding in found:
        accepted = f"; accepted: {finding.accepted}" if finding.accepted else ""
        lines.add(f"{finding.name} ({finding.level}), {' '.join(finding.subject)}: {finding.sentence}{accepted}")
