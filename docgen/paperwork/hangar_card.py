"""Hangar card: what a helper at the field needs beside the aircraft."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.basics.findings import Level, Said
from docgen.harness.model import Harness
from docgen.paperwork.codes import numbered_texts
from docgen.paperwork.flow import Flow, TableStyle
from docgen.paperwork.imprint import (
    HUGE_MM,
    PLAIN_MM,
    SMALL_MM,
    Corner,
    Foot,
    Imprint,
    foot_height_mm,
    line_pitch_mm,
    number_pages,
    state_of,
)
from docgen.paperwork.layouts import PageLayout
from docgen.paperwork.marks import THIN_MM, Box, Line, Mark
from docgen.paperwork.pages import Composed
from docgen.paperwork.plan_view import PlanPoint, cut_names, plan_height_mm, plan_marks
from docgen.paperwork.tables import Column

STEM = "hangar-card"
CAUTION = (
    "Charge packs out of the aircraft or as their maker says, never alone. Keep clear of propeller and turbine arcs "
    "and of gear doors."
)
_CODE_VERSION = 12
_LOG_LINES = 6

Row = tuple[Said, ...]


@dataclass(frozen=True)
class HangarContent:
    """What the card shows; tables are rows of texts."""

    name: Said
    marks: Said
    description: Said
    contact: Said
    cautions: tuple[Said, ...]
    switching: tuple[Row, ...]
    packs: tuple[Row, ...]
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
        cautions=tuple(
            Said(f"{f.name}: {f.sentence}" + (f" Accepted: {f.accepted}." if f.accepted else ""), f.position)
            for f in harness.findings
            if f.level is Level.CAUTION
        ),
        switching=tuple(
            (entry.said, Said(word, entry.said.position), said)
            for entry in harness.equipment.values()
            for word, said in (("on", entry.on), ("off", entry.off))
            if said.text
        ),
        packs=packs,
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


def _packs(harness: Harness) -> tuple[Row, ...]:
    rows = []
    for entry in harness.equipment.values():
        if entry.battery is not None:
            pack, at = entry.battery, entry.said.position
            figures = (f"{pack.cells}", f"{pack.capacity_mah:g}", f"{pack.full_v:g}", f"{pack.empty_v:g}")
            rows.append((entry.said, *(Said(figure, at) for figure in figures), Said(entry.place, at)))
    return tuple(rows)


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
            cells = (Said("" if figure is None else f"{figure:g}", at) for figure in figures)
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


def compose(items: HangarContent, layout: PageLayout, imprint: Imprint) -> Composed:
    """Return the pages of the hangar card."""
    corners = _corners(items, imprint)
    feet = [Foot(imprint, CAUTION, state_of(imprint), imprint.record_hash, corner) for corner in corners]
    width = layout.paper[0] - 2 * layout.margin
    bottom = layout.margin + max(foot_height_mm(foot, width) for foot in feet) + 2
    flow = Flow(layout.paper, layout.margin, bottom)
    flow.new_page()
    flow.heading(f"{items.name.text} · {items.marks.text}", HUGE_MM)
    flow.paragraph(items.description.text, PLAIN_MM)
    if items.contact.text:
        flow.paragraph(f"If found: {items.contact.text}", SMALL_MM)
    for caution in items.cautions:
        flow.paragraph(caution.text, PLAIN_MM, bold=True)
    _tables(flow, items)
    _plan_block(flow, items)
    _log(flow)
    flow.finish_page()
    while len(flow.pages) < len(feet):
        flow.new_page()
    feet += feet[-1:] * (len(flow.pages) - len(feet))
    number_pages(flow.pages, feet, layout.margin)
    return Composed(flow.pages)


def _corners(items: HangarContent, imprint: Imprint) -> list[Corner]:
    link = imprint.link("record.txt")
    if link is not None:
        return [Corner(link, "the whole record")]
    first = f"{imprint.marks} record {imprint.revision} {imprint.record_hash}"
    texts = numbered_texts(first, list(items.summary), _CODE_VERSION)
    return [Corner(text, "summary as text") for text in texts]


def _tables(flow: Flow, items: HangarContent) -> None:
    _table(flow, "Switch on and off", items.switching, ("", "", ""), (0,))
    _table(flow, "Packs", items.packs, ("pack", "cells", "mAh", "full, V", "empty, V", "place"), (0, 3))
    _table(flow, "Channels", items.channels, ("channel", "function", "port", "throw", "fail-safe"), (0, 1, 4))
    for said, ports in items.ports:
        _table(flow, said.text, ports, ("port", "function", "other end", "channel"), (0, 1))
    _table(flow, "Gear", items.gear, ("gear", "up, s", "down, s", "limit, s", "stop, A"), (0, 3))
    _table(flow, "Antennas", items.antennas, ("", "lies", "place"), (0,))
    _table(flow, "Locks to check", items.joints, ("joint", "access", "lock"), (0,))


def _table(
    flow: Flow,
    title: str,
    rows: tuple[Row, ...],
    heads: tuple[str, ...],
    bold: tuple[int, ...],
) -> None:
    if not rows:
        return
    said = [i for i in range(len(heads)) if any(row[i].text for row in rows)]
    rows = tuple(tuple(row[i] for i in said) for row in rows)
    heads, bold = tuple(heads[i] for i in said), tuple(said.index(i) for i in bold if i in said)
    flow.space(2.5)
    flow.heading(title, PLAIN_MM + 0.5, keep_mm=14)
    figures = [all(_is_figure(row[i].text) for row in rows) for i in range(len(heads))]
    columns = [
        Column(
            head,
            PLAIN_MM if i in bold else SMALL_MM,
            i in bold,
            align="right" if figures[i] else "left",
            gives=not figures[i],
        )
        for i, head in enumerate(heads)
    ]
    flow.table(columns, [[said.text for said in row] for row in rows], TableStyle(4.4), title)


def _is_figure(text: str) -> bool:
    return not text or text.replace(".", "", 1).isdigit()


def _plan_block(flow: Flow, items: HangarContent) -> None:
    if not items.plan:
        return
    height = plan_height_mm(items.plan)
    flow.space(2.5)
    cut = cut_names(items.plan, flow.width_mm)
    in_full = line_pitch_mm(SMALL_MM) * (len(cut) + 1) if cut else 0
    flow.heading("From above: joints (squares) and covers", PLAIN_MM + 0.5, keep_mm=height + 2 + in_full)
    flow.say_in_full("plan", cut)
    flow.page.add(*plan_marks(items.plan, Box(flow.x_mm, flow.y_mm, flow.width_mm, height)))
    flow.y_mm += height + 1


def _log(flow: Flow) -> None:
    flow.space(2.5)
    flow.heading("Log: date, what was done, initials", PLAIN_MM + 0.5, keep_mm=_LOG_LINES * 7.0)
    lines: list[Mark] = []
    for i in range(1, _LOG_LINES + 1):
        y = flow.y_mm + i * 7.0
        lines.append(Line(flow.x_mm, y, flow.x_mm + flow.width_mm, y, THIN_MM))
    flow.page.add(*lines)
    flow.y_mm += _LOG_LINES * 7.0
