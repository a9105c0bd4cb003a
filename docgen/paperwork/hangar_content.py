"""What the hangar card shows: tables of texts taken from the harness."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.basics.findings import Level, Said
from docgen.basics.units import decimal
from docgen.harness.model import Harness
from docgen.harness.tabled import SupplyFigures
from docgen.paperwork.plan_view import PlanPoint

Row = tuple[Said, ...]


@dataclass(frozen=True)
class HangarContent:
    """What the card shows; tables are rows of texts."""

    name: Said
    marks: Said
    description: Said
    contact: Said
    overvolts: tuple[Said, ...]
    cautions: tuple[Said, ...]
    switching: tuple[Row, ...]
    packs: tuple[Row, ...]
    supplies: tuple[Row, ...]
    channels: tuple[Row, ...]
    ports: tuple[tuple[Said, tuple[Row, ...]], ...]
    gear: tuple[Row, ...]
    antennas: tuple[Row, ...]
    joints: tuple[Row, ...]
    plan: tuple[PlanPoint, ...]
    summary: tuple[str, ...]


def content(harness: Harness) -> HangarContent:
    """Return what the hangar card shows."""
    aircraft = harness.aircraft
    packs = _packs(harness)
    return HangarContent(
        name=aircraft.name,
        marks=aircraft.marks,
        description=aircraft.description,
        contact=aircraft.contact,
        overvolts=_cautions(harness, overvolts=True),
        cautions=_cautions(harness, overvolts=False),
        switching=tuple(
            (entry.said, Said(word, entry.said.position), said)
            for entry in harness.equipment.values()
            for word, said in (("on", entry.on), ("off", entry.off))
            if said.text
        ),
        packs=packs,
        supplies=_supplies(harness),
        channels=_channels(harness),
        ports=_ports(harness),
        gear=_gear(harness),
        antennas=_antennas(harness),
        joints=_joints(harness),
        plan=_plan(harness),
        summary=tuple(
            [f"{len(harness.circuits)} circuits, {len(harness.disconnects)} joints"]
            + [" ".join(said.text for said in row) for row in packs]
            + ([aircraft.contact.text] if aircraft.contact.text else [])
        ),
    )


def _cautions(harness: Harness, *, overvolts: bool) -> tuple[Said, ...]:
    """Return the cautions that stand, those of too many volts apart: they are read first."""
    return tuple(
        Said(
            f"{f.name}: {f.sentence}".replace("`", "") + (f" Accepted: {f.accepted}." if f.accepted else ""), f.position
        )
        for f in harness.findings
        if f.level is Level.CAUTION and (f.name == "overvolts") is overvolts
    )


def _packs(harness: Harness) -> tuple[Row, ...]:
    """Return the packs with flights on a charge: of all that share a supply together, and of each alone."""
    lasts = {pack: flights for supply in harness.figures.supplies for pack, flights in _lasts(supply).items()}
    rows = []
    for entry in harness.equipment.values():
        if entry.battery is not None:
            pack, at = entry.battery, entry.said.position
            figures = [
                f"{pack.cells}",
                decimal(pack.capacity_mah),
                decimal(pack.full_v),
                decimal(pack.empty_v),
            ]
            figures += lasts.get(entry.name, ("", ""))
            rows.append((entry.said, *(Said(figure, at) for figure in figures), Said(entry.place, at)))
    return tuple(rows)


def _lasts(supply: SupplyFigures) -> dict[str, tuple[str, str]]:
    """Return for each pack the flights of all together and, of several, of it alone."""
    if supply.endurance is None:
        return {}
    together = "" if supply.endurance.together is None else f"{supply.endurance.together:.1f}"
    several = len(supply.packs) > 1
    return {
        pack: (together, f"{flights:.1f}" if several and flights is not None else "")
        for pack, flights in supply.endurance.alone.items()
    }


def _supplies(harness: Harness) -> tuple[Row, ...]:
    """Return each supply with its currents, and where the fewest volts arrive at peak of what passes them on."""
    rows = []
    for supply in harness.figures.supplies:
        at = harness.equipment[supply.packs[0]].said.position
        arriving = [
            (stage.peak_v, stage.name)
            for stage in supply.stages
            if stage.peak_v is not None and stage.name not in supply.packs and _judged_at_peak(harness, stage.name)
        ]
        least, where = min(arriving, default=(None, ""))
        given = ["" if amps is None else f"{amps:.1f}" for amps in (supply.working_a, supply.peak_a)]
        figures = (*given, "" if least is None else f"{least:.2f}", where)
        rows.append((Said(supply.name, at), *(Said(figure, at) for figure in figures)))
    return tuple(rows)


def _judged_at_peak(harness: Harness, name: str) -> bool:
    load = harness.equipment[name].load
    return load is None or load.stall_a is None


def _channels(harness: Harness) -> tuple[Row, ...]:
    rows = []
    circuits = [c for c in harness.circuits.values() if c.channel is not None or c.throw.text or c.failsafe]
    for circuit in sorted(circuits, key=lambda c: (c.channel is None, c.channel or 0)):
        at = circuit.position
        channel = Said(str(circuit.channel) if circuit.channel is not None else "–", at)
        failsafe = Said(circuit.failsafe or "", at)
        port = Said(circuit.start.text, circuit.start.said.position)
        rows.append((channel, circuit.label, port, circuit.throw, failsafe))
    return tuple(rows)


def _ports(harness: Harness) -> tuple[tuple[Said, tuple[Row, ...]], ...]:
    tables = []
    for entry in harness.equipment.values():
        if entry.nameless or not entry.ports:
            continue
        rows = []
        for port in entry.ports:
            at = entry.said.position
            if port.circuit is None:
                rows.append((Said(port.name, at), Said("free", at), Said("", at), Said("", at)))
                continue
            channel = str(port.circuit.channel) if port.circuit.channel is not None else ""
            far = Said(port.far, port.circuit.position)
            rows.append((Said(port.name, at), port.circuit.label, far, Said(channel, at)))
        title = Said(entry.name if entry.name == entry.kind else f"{entry.name} · {entry.kind}", entry.said.position)
        tables.append((title, tuple(rows)))
    return tuple(tables)


def _gear(harness: Harness) -> tuple[Row, ...]:
    rows = []
    for entry in harness.equipment.values():
        if entry.gear is not None:
            gear, at = entry.gear, entry.said.position
            figures = (gear.up_s, gear.down_s, gear.limit_s, gear.stop_a)
            cells = (Said("" if figure is None else decimal(figure), at) for figure in figures)
            rows.append((entry.said, *cells))
    return tuple(rows)


def _antennas(harness: Harness) -> tuple[Row, ...]:
    return tuple(
        (
            Said(f"{entry.name} {antenna.name.text}", antenna.name.position),
            Said(antenna.lies, antenna.name.position),
            Said(antenna.place, antenna.name.position),
        )
        for entry in harness.equipment.values()
        for antenna in entry.antennas
    )


def _joints(harness: Harness) -> tuple[Row, ...]:
    rows = []
    for joint in harness.disconnects.values():
        at = joint.said.position
        place = harness.places[joint.halves[0].place]
        access = Said(place.access, place.position)
        rows.append((joint.said, access, Said(joint.shell.lock or "see that it is home", at)))
    return tuple(rows)


def _plan(harness: Harness) -> tuple[PlanPoint, ...]:
    """Return joints and covers that have coordinates; a cover is a place with an access where something lies."""
    points = []
    shown: set[str] = set()
    for joint in harness.disconnects.values():
        place = harness.places[joint.halves[0].place]
        shown.update(half.place for half in joint.halves)
        if place.point_mm is not None:
            points.append(PlanPoint(joint.name, place.point_mm[0], place.point_mm[1], True))
    points += [
        PlanPoint(f"{place.name}: {place.access}", place.point_mm[0], place.point_mm[1], False)
        for place in harness.places.values()
        if place.access and place.name not in shown and place.point_mm is not None
    ]
    return tuple(points)
