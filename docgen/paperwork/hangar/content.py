"""What the hangar card shows: tables of texts taken from the harness."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.basics.findings import Level
from docgen.basics.units import decimal
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import SupplyFigures
from docgen.paperwork.hangar.plan_view import PlanPoint

Row = tuple[str, ...]


@dataclass(frozen=True)
class HangarContent:
    """What the card shows; tables are rows of texts."""

    name: str
    marks: str
    description: str
    contact: str
    overvolts: tuple[str, ...]
    cautions: tuple[str, ...]
    switching_on: tuple[Row, ...]
    switching_off: tuple[Row, ...]
    packs: tuple[Row, ...]
    supplies: tuple[Row, ...]
    channels: tuple[Row, ...]
    ports: tuple[tuple[str, tuple[Row, ...]], ...]
    gear: tuple[Row, ...]
    antennas: tuple[Row, ...]
    joints: tuple[Row, ...]
    plan: tuple[PlanPoint, ...]
    summary: tuple[str, ...]


def content(harness: Harness) -> HangarContent:
    """Return what the hangar card shows."""
    aircraft = harness.aircraft
    packs = _packs(harness)
    switched = [harness.equipment[name] for name in harness.results.switching_on]
    return HangarContent(
        name=aircraft.name,
        marks=aircraft.marks,
        description=aircraft.description,
        contact=aircraft.contact,
        overvolts=_cautions(harness, overvolts=True),
        cautions=_cautions(harness, overvolts=False),
        switching_on=tuple((entry.name, entry.form.on) for entry in switched if entry.form.on),
        switching_off=tuple((entry.name, entry.form.off) for entry in reversed(switched) if entry.form.off),
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
            + [" ".join(row) for row in packs]
            + ([aircraft.contact] if aircraft.contact else [])
        ),
    )


def _cautions(harness: Harness, *, overvolts: bool) -> tuple[str, ...]:
    """Return the cautions that stand, those of too many volts apart: they are read first."""
    return tuple(
        f"{f.name}: {f.sentence}".replace("`", "") + (f" Accepted: {f.accepted}." if f.accepted else "")
        for f in harness.findings
        if f.level is Level.CAUTION and (f.name == "overvolts") is overvolts
    )


def _packs(harness: Harness) -> tuple[Row, ...]:
    """Return the packs with flights on a charge: of all that share a supply together, and of each alone."""
    lasts = {pack: flights for supply in harness.results.supplies for pack, flights in _lasts(supply).items()}
    rows = []
    for entry in harness.equipment.values():
        if entry.battery is not None:
            pack = entry.battery
            figures = [f"{pack.cells}", *(decimal(figure) for figure in (pack.capacity_mah, pack.full_v, pack.empty_v))]
            figures += lasts.get(entry.name, ("", ""))
            rows.append((entry.name, *figures, entry.place))
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
    for supply in harness.results.supplies:
        arriving = [
            (stage.peak_v, stage.name)
            for stage in supply.stages
            if stage.peak_v is not None and stage.name not in supply.packs and _judged_at_peak(harness, stage.name)
        ]
        least, where = min(arriving, default=(None, ""))
        given = ["" if amps is None else f"{amps:.1f}" for amps in (supply.working_a, supply.peak_a)]
        figures = (*given, "" if least is None else f"{least:.2f}", where)
        rows.append((supply.name, *figures))
    return tuple(rows)


def _judged_at_peak(harness: Harness, name: str) -> bool:
    load = harness.equipment[name].load
    return load is None or load.stall_a is None


def _channels(harness: Harness) -> tuple[Row, ...]:
    """Return a row for each circuit of which the radio's side is said, in the order of channels."""
    rows = []
    for circuit in sorted(harness.circuits.values(), key=lambda c: (c.form.channel is None, c.form.channel or 0)):
        form = circuit.form
        if form.channel is not None or form.throw or form.failsafe:
            channel = "–" if form.channel is None else str(form.channel)
            rows.append((channel, circuit.label, circuit.start.text, form.throw, form.failsafe or ""))
    return tuple(rows)


def _ports(harness: Harness) -> tuple[tuple[str, tuple[Row, ...]], ...]:
    tables = []
    for entry in harness.equipment.values():
        if entry.nameless or not entry.ports:
            continue
        rows = []
        for port in entry.ports:
            if port.circuit is None:
                rows.append((port.name, "free", "", ""))
                continue
            channel = str(port.circuit.form.channel) if port.circuit.form.channel is not None else ""
            far = port.far
            rows.append((port.name, port.circuit.label, far, channel))
        title = entry.name if entry.name == entry.kind else f"{entry.name} · {entry.kind}"
        tables.append((title, tuple(rows)))
    return tuple(tables)


def _gear(harness: Harness) -> tuple[Row, ...]:
    rows = []
    for entry in harness.equipment.values():
        if entry.gear is not None:
            gear = entry.gear
            figures = (gear.up_s, gear.down_s, gear.limit_s, gear.stop_a)
            cells = ("" if figure is None else decimal(figure) for figure in figures)
            rows.append((entry.name, *cells))
    return tuple(rows)


def _antennas(harness: Harness) -> tuple[Row, ...]:
    return tuple(
        (f"{entry.name} {antenna.name}", antenna.form.lies, antenna.form.place)
        for entry in harness.equipment.values()
        for antenna in entry.antennas
    )


def _joints(harness: Harness) -> tuple[Row, ...]:
    rows = []
    for joint in harness.disconnects.values():
        place = harness.places[joint.halves[0].place]
        access = place.access
        rows.append((joint.name, access, joint.shell.lock or "see that it is home"))
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
