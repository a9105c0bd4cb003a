"""The record: everything needed to rebuild or repair the harness, as plain text, whole and in parts."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

from docgen.basics.units import decimal
from docgen.harness.model.harness import Harness
from docgen.paperwork.naming import part_path
from docgen.paperwork.record.lines import (
    Lines,
    add_airframe,
    add_circuit,
    add_disconnect,
    add_equipment,
    add_lead,
    add_place,
)
from docgen.paperwork.record.results import add_figures, add_limits

STEM = "record"


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


def content(harness: Harness) -> Record:
    """Return the record of a harness."""
    parts: dict[str, str] = {}
    for disconnect in harness.disconnects.values():
        lines = _part(harness, f"disconnect {disconnect.name}")
        add_disconnect(lines, harness, disconnect)
        parts[part_path("disconnect", disconnect.name)] = lines.text()
    for equipment in harness.equipment.values():
        if equipment.has_card:
            lines = _part(harness, f"equipment {equipment.name}")
            add_equipment(lines, harness, equipment)
            parts[part_path("equipment", equipment.name)] = lines.text()
    for assembly in harness.assemblies:
        lines = _part(harness, f"assembly {assembly}")
        _assembly(lines, harness, assembly)
        parts[part_path("assembly", assembly)] = lines.text()
    return Record(_whole(harness), parts)


def _part(harness: Harness, title: str) -> Lines:
    lines = Lines()
    lines.add(f"{harness.aircraft.marks} {title}")
    lines.add(f"since: {harness.aircraft.revision}")
    return lines


def _whole(harness: Harness) -> str:
    lines = Lines()
    _head(lines, harness)
    add_airframe(lines, harness)
    lines.heading("Equipment")
    for equipment in harness.equipment.values():
        add_equipment(lines, harness, equipment)
    lines.heading("Disconnects")
    for disconnect in harness.disconnects.values():
        add_disconnect(lines, harness, disconnect)
    lines.heading("Circuits")
    for circuit in harness.circuits.values():
        add_circuit(lines, circuit)
    lines.heading("Leads")
    for lead in harness.leads():
        add_lead(lines, lead)
    add_figures(lines, harness)
    add_limits(lines, harness)
    _findings(lines, harness)
    return lines.text()


def _head(lines: Lines, harness: Harness) -> None:
    aircraft = harness.aircraft
    lines.add(f"{aircraft.name} {aircraft.marks}: record of the harness")
    lines.add(aircraft.description)
    lines.add(f"revision: {aircraft.revision}")
    lines.add(f"date: {aircraft.date}")
    for name, text in (("contact", aircraft.contact), ("record", aircraft.record), ("note", aircraft.note)):
        if text:
            lines.add(f"{name}: {text}")
    lines.add("For model aircraft only, never for aircraft that carry people.")
    flight = harness.flight
    if flight is not None:
        lines.heading("Flight")
        lines.add(f"time {decimal(flight.time_s / 60)} min, reserve {decimal(flight.reserve * 100)} %")
        lines.add(f"flights on a charge {flight.flights}, on the ground {decimal(flight.ground_s / 60)} min")
        if flight.note:
            lines.add(f"note: {flight.note}")


def _assembly(lines: Lines, harness: Harness, assembly: str) -> None:
    inside = {name for name, place in harness.places.items() if place.assembly == assembly}
    lines.heading("Places")
    for name in harness.places:
        if name in inside:
            add_place(lines, harness, name)
    lines.heading("Equipment")
    for equipment in harness.equipment.values():
        if equipment.place in inside:
            add_equipment(lines, harness, equipment)
    lines.heading("Leads")
    for lead in harness.leads():
        if lead.assembly == assembly:
            add_lead(lines, lead)


def _findings(lines: Lines, harness: Harness) -> None:
    """List what was found, by name and subject, with the reason where it is accepted."""
    entries = [(_entry(harness, finding.subject), finding) for finding in harness.findings]
    found = sorted(entries, key=lambda item: (item[0], item[1].name, item[1].sentence))
    if not found:
        return
    lines.heading("Findings")
    for entry, finding in found:
        accepted = f"; accepted: {finding.accepted}" if finding.accepted else ""
        lines.add(f"{finding.name} ({finding.level}), {entry}: {finding.sentence.rstrip('.')}{accepted}.")


def _entry(harness: Harness, subject: tuple[str, str]) -> str:
    """Say which entry a finding is about; a run has no name but its places."""
    section, name = subject
    return f"run {' to '.join(harness.runs[int(name)].between)}" if section == "runs" else f"{section} {name}"
