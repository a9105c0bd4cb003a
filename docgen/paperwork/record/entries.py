"""Take an entry of the harness as built; add to the record's lines what it is, and what goes where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from docgen.basics.colours import colour_words
from docgen.basics.units import counted, decimal, millimetres
from docgen.harness.assembly.passing import Waits
from docgen.harness.assembly.splices import Splice, TailSplice
from docgen.harness.assembly.through_openings import Threading
from docgen.harness.electrical.sources import outputs_of
from docgen.harness.model.airframe import NO_SLEEVE, Place, Point, Run
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead, Wire
from docgen.harness.model.equipment import Equipment, PortUse
from docgen.harness.model.harness import Flight, Harness, Output
from docgen.harness.model.joints import Common, Disconnect, Tail
from docgen.harness.model.parts import opposite
from docgen.paperwork.naming import end_text, half_title, mates_text, opening_text
from docgen.paperwork.record.lines import Lines, joined, length, measured, named, percent, quantity

CardHashes = Mapping[tuple[str, ...], str]  # by the names of a disconnect and its half, or by the name of equipment


def add_flight(lines: Lines, _: Harness, flight: Flight) -> None:
    """Add how long flights are, and what is left."""
    lines.add(f"time {decimal(flight.time_s / 60)} min", f"reserve {percent(flight.reserve)}")
    lines.add(f"flights on a charge {flight.flights}", f"on the ground {decimal(flight.ground_s / 60)} min")
    lines.add(named("note:", flight.note))


def add_place(lines: Lines, _: Harness, place: Place) -> None:
    """Add a place: where it is, and how a hand gets there."""
    lines.add(
        f"{place.name}: {place.assembly}",
        _point(place.point_mm) if place.point_mm is not None else "",
        named("access", place.access),
        named("slack", quantity(place.slack_mm or None, "mm")),
        named("heat", quantity(place.heat_c, "°C")),
        named("note:", place.note),
    )


def _point(point_mm: Point) -> str:
    aft, right, up = point_mm
    side = f"right {decimal(right)}" if right > 0 else f"left {decimal(-right)}" if right < 0 else "middle"
    return f"aft {decimal(aft)}, {side}, up {decimal(up)} mm"


def run_text(run: Run) -> str:
    """Name a run, by its places."""
    return " to ".join(run.between)


def add_run(lines: Lines, _: Harness, run: Run) -> None:
    """Add a run: its length, and what wires meet there."""
    lines.add(
        f"{run_text(run)}: {length(run.length_mm)}",
        "" if run.measured or run.length_mm is None else "not measured",
        "sharp edges" if run.sharp else "",
        named("dressed with", run.dressed),
        named("heat", quantity(run.heat_c, "°C")),
        named("hinge", quantity(run.hinge_mm, "mm")),
        named("opening", opening_text(run.hole_mm)),
        "closed" if run.closed else "",
        "goes without a sleeve" if run.sleeve == NO_SLEEVE else "",
        named("note:", run.note),
    )


def add_equipment(lines: Lines, harness: Harness, equipment: Equipment, cards: CardHashes) -> None:
    """Add equipment: its figures, its ports, its card, how it is switched."""
    place, form = harness.places[equipment.place], equipment.form
    pulled = f"{form.out} when pulled out" if equipment.kind == "key" else ""
    lines.add(f"{equipment.name}: {equipment.kind} at {place.name}, {place.assembly}", pulled)
    for said in _figures(equipment):
        lines.add(said, depth=1)
    for port in equipment.ports:
        rating = named("rating", quantity(port.rating_a, "A"))
        plug = joined(f"port {port.name or '(own lead)'}", f"{port.connector.name} {port.gender}", rating)
        lines.add(f"{plug}: {_used(port)}", depth=1)
    too_high = ", ".join(harness.results.too_high.get(equipment.name, ()))
    lines.add(named("its plug goes in where it gives too many volts:", too_high), depth=1)
    lines.add(named("card", cards.get((equipment.name,))), depth=1)
    for inlet, outlets in form.drives.items():
        lines.add(f"{inlet} drives {', '.join(outlets)}", depth=1)
    said_of = (("on:", form.on), ("stop:", form.stop), ("stopped:", form.stopped), ("off:", form.off))
    for name, said in (*said_of, ("note:", form.note)):
        lines.add(named(name, said), depth=1)


def _used(port: PortUse) -> str:
    if port.circuit is None:
        return "free"
    form = port.circuit.form
    return joined(
        f"{port.circuit.label} ({port.circuit.name})",
        f"other end {port.far_text}",
        named("channel", form.channel),
        named("fail-safe", form.failsafe),
    )


def _figures(equipment: Equipment) -> Iterator[str]:
    """Walk what is known of equipment in figures."""
    pack, load, gear = equipment.battery, equipment.load, equipment.form.gear
    if pack is not None:
        full, empty = (f"{name} {decimal(volts)} V" for name, volts in (("full", pack.full_v), ("empty", pack.empty_v)))
        yield f"{pack.cells} cells, {decimal(pack.capacity_mah)} mAh, {full}, {empty}"
        yield named("resistance", quantity(pack.resistance_ohm, "mΩ", times=1000))
        yield named("rating", quantity(pack.rating_a, "A"))
    if load is not None:
        drawn = _each("A", idle=load.idle_a, working=load.working_a, stall=load.stall_a)
        typical = "typical" if load.typical else ""
        yield named("current", joined(drawn, _each("s", runs=load.runs_s), typical))
    yield named("volts", _each("V", least=equipment.least_v, most=equipment.most_v))
    yield named("rating", quantity(equipment.form.rating_a, "A"))
    yield named("bears heat up to", quantity(equipment.form.most_heat_c, "°C"))
    if gear is not None:
        strokes = _each("s", up=gear.up_s, down=gear.down_s, limit=gear.limit_s)
        yield named("gear", joined(strokes, _each("A", stop=gear.stop_a)))
    for antenna in equipment.antennas:
        sizes = _each("mm", lead=antenna.form.lead_mm, diameter=antenna.form.diameter_mm)
        form = antenna.form
        yield f"antenna {antenna.name}: {joined(form.place, form.lies, form.band, sizes, form.note)}"
    for output, ports in outputs_of(equipment):
        yield _output(output, ports)
    yield "keeps its feeds apart" if equipment.form.isolates else ""
    yield named("fed by", ", ".join(equipment.form.fed_by))
    yield named("mass", quantity(equipment.form.mass, "g"))


def _each(unit: str, **values: float | None) -> str:
    return joined(*(named(name, quantity(value, unit)) for name, value in values.items()))


def _output(output: Output, ports: Sequence[PortUse]) -> str:
    names = ", ".join(port.name for port in ports)
    figures = joined(
        f"{decimal(output.volts_v)} V",
        f"headroom {decimal(output.headroom_v)} V",
        named("rating", quantity(output.rating_a, "A")),
        f"switching, {percent(output.efficiency)} efficient" if output.efficiency else "",
    )
    return f"{f'output {names}'.strip()}: {figures}"


def add_disconnect(lines: Lines, harness: Harness, disconnect: Disconnect, cards: CardHashes) -> None:
    """Add a disconnect: its halves with their cards, each contact, its commons."""
    shell, form = disconnect.shell, disconnect.form
    how = "contacts soldered" if shell.contact.join == "solder" else ""
    lines.add(f"{disconnect.name}: {shell.name}", f"{len(shell.contacts)} contacts", how, named("keyed", form.keyed))
    for half in disconnect.halves:
        place = harness.places[half.place]
        there = joined(f"{half.gender} at {place.name}", place.assembly, named("key", half.key))
        lines.add(f"{half_title(half)}: {there}; {mates_text(disconnect, half)}", depth=1)
        lines.add(f"card {cards[disconnect.name, half.name]}", depth=2)
    for contact in shell.contacts:
        lines.add(f"{contact}: {_carried(harness, disconnect, contact)}", depth=1)
    for common in disconnect.commons.values():
        _add_common(lines, common)
    for name, said in (("lock:", shell.lock), ("note:", form.note)):
        lines.add(named(name, said), depth=1)


def _carried(harness: Harness, disconnect: Disconnect, contact: str) -> str:
    use = disconnect.uses.get(contact)
    if use is None:
        return "spare"
    wires = " / ".join(_wire(wire) for wire in (use.wires.get(half.name) for half in disconnect.halves))
    if use.is_common:
        return f"common {use.of}, {wires}"
    circuit = harness.every_circuit[use.of]
    return f"{use.label}, {wires}, {circuit.start.text} to {circuit.load_text}"


def _wire(wire: Wire | Tail | None) -> str:
    if wire is None:
        return "nothing"
    mark = (wire.mark or "own") if isinstance(wire, Wire) else "tail"
    return f"{wire.colour} {wire.kind.gauge.text} {mark}"


def _add_common(lines: Lines, common: Common) -> None:
    contacts = f"{'contacts' if len(common.contacts) > 1 else 'contact'} {', '.join(common.contacts)}"
    fed = named("fed by", ", ".join(common.feeders))
    lines.add(f"common {common.name}: {common.role} on {contacts}", fed, depth=1)
    for behind in common.halves:
        spliced = ", ".join(f"{lead.name} {wire.mark}" for lead, wire in behind.wires) or "nothing"
        said = f"{spliced}, straight into the contact"
        if behind.tails:
            tail = behind.tails[0]
            cut = f"cut {millimetres(behind.tail_mm)} mm"
            said = f"{counted(len(behind.tails), 'tail')} {tail.colour} {tail.kind.name}, {cut}, spliced to {spliced}"
        lines.add(f"{half_title(behind.half)}: {said}", depth=2)
    lines.add(named("note:", common.form.note), depth=2)


def add_splice(lines: Lines, harness: Harness, splice: Splice) -> None:
    """Add a splice: where it is, what it joins, how, and its tube."""
    joins = ", ".join(lead.name for lead in splice.leads)
    if isinstance(splice, TailSplice):
        joins = f"{joins} and {counted(len(splice.sides[1]), 'tail')} of {splice.disconnect.name} {splice.common.name}"
    made = {"crimp": "crimped", "solder": "soldered"}[harness.splices.join]
    tube = named("tube", splice.tube.name if splice.tube is not None else None)
    lines.add(f"{splice.place}, {splice.role}: {joins}", f"{made} over {decimal(harness.splices.strip_mm)} mm", tube)


def add_threading(lines: Lines, harness: Harness, threading: Threading) -> None:
    """Add what goes through an opening, in its order, and what is put on when it is through."""
    left_off = {Waits.NOTHING: "", Waits.HOUSING: " without its housing", Waits.CONTACTS: " bare"}
    things = [passage.thing.name + left_off[passage.waits] for passage in threading.passages]
    hole = opening_text(harness.runs[threading.run].hole_mm)
    lines.add(f"{threading.start} to {threading.goal}, {hole}: {', '.join(things)}")
    lines.add(f"then {threading.bundle_mm:.2f} mm thick", depth=1)


def add_circuit(lines: Lines, _: Harness, circuit: Circuit) -> None:
    """Add a circuit: its ends, and what the radio does with it."""
    form = circuit.form
    loads = ", ".join(end_text(end) for end in circuit.loads)
    lines.add(f"{circuit.name}: {circuit.label}, {end_text(circuit.start)} to {loads}")
    lines.add(named("channel", form.channel), named("throw", form.throw), named("fail-safe", form.failsafe), depth=1)
    lines.add(named("note:", form.note), depth=1)


def add_lead(lines: Lines, _: Harness, lead: Lead) -> None:
    """Add a lead: its route, its ends, its wires."""
    lines.add(f"{lead.name}: {lead.label}", _made(lead))
    lines.add(f"route {length(lead.route.length_mm)}: {', '.join(lead.route.places)}", depth=1)
    for name, end in zip(("from", "to"), lead.ends, strict=True):
        lines.add(f"{name} {end_text(end)}{_fitted(lead, end)}", depth=1)
    for wire in lead.wires:
        start, goal = (_contact(lead, end, end.contacts.get(wire.role, ())) for end in lead.ends)
        colour = f"{wire.colour} {colour_words(wire.colour)}" if wire.colour else "colour not known"
        hands = [f"{end.name}'s own is {end.colours[wire.role]}" for end in lead.ends if wire.role in end.colours]
        role = f"{wire.mark}: {wire.role}" if wire.mark else wire.role
        lines.add(role, colour, wire.kind.name, f"{start} to {goal}", *hands, depth=2)


def _made(lead: Lead) -> str:
    """Say what is cut, or what came along."""
    if isinstance(lead, CutLead):
        cut, pinned = f"cut {length(lead.cut_length_mm)}", "pinned" if lead.pinned else ""
        return joined(cut, pinned, lead.part.name, named("bought", lead.part.bought))
    if lead.joint is None:
        return "plugs straight in, nothing to cut"
    return f"came on {next(end.name for end in lead.ends if end.own is not None)}, nothing to cut"


def _fitted(lead: Lead, end: End) -> str:
    """Say what is fitted at an end, or carried by what plugs straight in, and where; nothing of a splice."""
    if end.is_splice:
        return ""
    if not lead.mates_at(end):
        return f" ({_own(end)}) at {end.place}"
    half = "" if end.is_port else f"{end.part} half"
    is_cut = isinstance(lead, CutLead)
    gender = end.gender if is_cut or half else opposite(end.gender)
    how = "soldered" if is_cut and end.connector.contact.join == "solder" else ""
    own = named("into", _own(end)) if is_cut else _own(end)
    return f" ({joined(f'{end.connector.name} {gender}', half, how, own)}) at {end.place}"


def _own(end: End) -> str:
    """Say the lead that equipment came with, and its wire, assumed where the builder did not say it."""
    if end.own is None:
        return ""
    kind = end.own.kind.name if end.own.kind else "wire as the circuit's"
    return f"own lead {measured(end.own.length_mm, 'mm')}, {kind}{' assumed' if end.own.assumed else ''}"


def _contact(lead: Lead, end: End, contacts: tuple[str, ...]) -> str:
    if not lead.mates_at(end):
        return end.text
    return f"{end.text} contact {'+'.join(contacts)}" if contacts else f"{end.text}, no contact"
